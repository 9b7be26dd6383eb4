#pragma once

#include "book/db-private.h"
#include "book/keeping.h"

/* A checked copy of the book @from as the file @to, whose contents stay under
 * another name until they are complete and on disk. */
gboolean pin_copy_book (const char    *from,
                        const char    *to,
                        PinProgress    progress,
                        gpointer       data,
                        GCancellable  *cancellable,
                        GError       **error);
gboolean pin_copy_to   (const char    *from,
                        const char    *half,
                        PinProgress    progress,
                        gpointer       data,
                        GCancellable  *cancellable,
                        GError       **error);
void     pin_copy_drop (const char    *half);
