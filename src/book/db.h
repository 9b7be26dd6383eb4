#pragma once

#include <glib.h>

/* One SQLite connection and its statements, with typed bind and get.  Only the
 * book room writes SQL; PinDb is handed to other rooms as a token that they
 * pass on to the queries of book/queries-*.h. */

typedef struct _PinDb PinDb;
