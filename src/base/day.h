#pragma once

#include <glib.h>

/* A day is the keeper's civil date, "YYYY-MM-DD": it sorts as text and is
 * stored as text.  An instant is milliseconds since 1970 UTC. */

gint64   pin_now        (void);
char    *pin_today      (void);
gboolean pin_set_today  (const char  *day,
                         GError     **error);
void     pin_pretend_now(gint64       instant);
gboolean pin_day_valid  (const char  *day);
char    *pin_day_add    (const char  *day,
                         int          days);
int      pin_day_diff   (const char  *from,
                         const char  *to);
char    *pin_day_of     (gint64       instant);
char    *pin_day_long   (const char  *day);
char    *pin_day_short  (const char  *day);
char    *pin_instant_text (gint64     instant);
