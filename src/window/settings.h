#pragma once

#include <glib.h>

/* The few choices of the person that are not facts of the book, kept in one
 * small file; a file that cannot be written costs nothing but the memory. */

char *pin_settings_get   (const char *key);
void  pin_settings_set   (const char *key,
                          const char *value);
void  pin_settings_flush (void);
