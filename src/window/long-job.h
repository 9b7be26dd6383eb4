#pragma once

#include "window/window.h"

/* Work on a whole book that takes its time: a strip shows how far it is and
 * cancels it. */

void pin_long_backup  (PinWindow  *window,
                       const char *path);
void pin_long_restore (PinWindow  *window,
                       const char *path);
void pin_long_export  (PinWindow  *window,
                       const char *folder);
void pin_long_verify  (PinWindow  *window);
#ifdef PIN_HAVE_DEMO
void pin_long_demo    (PinWindow  *window);
#endif
