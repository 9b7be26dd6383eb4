#pragma once

#include "window/change.h"

/* An outing of today logged from a row of the stable.  @minutes and @runs as they
 * were typed; blank is "not known".  @logged is called in any case, with @vehicle;
 * what went wrong is told. */
void pin_stable_log (GtkWidget  *from,
                     PinDesk    *desk,
                     gint64      vehicle,
                     const char *minutes,
                     const char *runs,
                     PinChanged  logged);
