#pragma once

#include <glib.h>

/* A picture as the book keeps it: upright, at most 1600 px, JPEG, without
 * metadata (no place, no camera).  Takes time: not for the main loop. */
GBytes *pin_photo_prepare (const char  *path,
                           GError     **error);
