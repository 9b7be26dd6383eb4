#pragma once

#include "book/keeping.h"
#include "library/library.h"

/* The demo stable: six invented cars with two years behind them, the same for
 * the same @today but for the ids.  (Re)makes it in a book of its own; only a
 * book that is a demo is ever overwritten, else PIN_BOOK_ERROR_EXISTS. */
gboolean pin_demo_make (const char    *path,
                        PinLibrary    *library,
                        const char    *today,        /* "YYYY-MM-DD"; NULL: today */
                        PinProgress    progress,     /* or NULL */
                        gpointer       data,
                        GCancellable  *cancellable,
                        GError       **error);
