#pragma once

#include "book/book.h"

/* Copies, proofs and exports of a whole book. */

typedef void (*PinProgress) (double done, gpointer data); /* 0 … 1 */

gboolean   pin_book_backup   (PinBook       *self,
                              const char    *to,
                              PinProgress    progress,
                              gpointer       data,
                              GCancellable  *cancellable,
                              GError       **error);
/* Puts the copy @from in the place of the book @path, after checking it; what
 * stood there is kept beside it (its path in *kept, free with g_free()). */
gboolean   pin_book_restore  (const char    *from,
                              const char    *path,
                              char         **kept,
                              GError       **error);
/* Integrity, foreign keys, the law of the book, derived tables against the
 * facts.  Problems, one line each; empty: sound. */
GPtrArray *pin_book_verify   (PinBook       *self,
                              GError       **error);
/* Everything: a CSV for each table, the XML as used, photos, a README. */
gboolean   pin_book_export   (PinBook       *self,
                              const char    *folder,
                              PinProgress    progress,
                              gpointer       data,
                              GCancellable  *cancellable,
                              GError       **error);
gboolean   pin_book_rebuild  (PinBook       *self,
                              GError       **error);
char      *pin_book_last_copy (PinBook      *self); /* instant text of the newest backup known, or NULL */
