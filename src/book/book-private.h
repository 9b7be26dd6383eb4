#pragma once

#include "book/book.h"
#include "book/db-private.h"

/* As pin_book_run(), but outside a reading transaction: for jobs of this room
 * that manage their own. */
gpointer pin_book_run_bare (PinBook     *self,
                            PinBookJob   job,
                            gpointer     data,
                            GError     **error);
gint64   pin_book_id_from  (gint64       instant,
                            guint32      random,
                            gint64       last);
