#pragma once

#include "book/db-private.h"

/* A reading connection on which the book looks as it did at an instant: only
 * rows entered up to then, `live` as it was, and the derived tables made from
 * those.  Nothing of it is written to the file. */
PinDb    *pin_known_open    (const char  *path,
                             gint64       instant,
                             GError     **error);
/* Inside a transaction: takes in what was written to the file since. */
gboolean  pin_known_refresh (PinDb       *db,
                             GError     **error);
