#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Around a list that is long, or whose rows take effect as soon as they have the
 * focus: Tab stops once, at the row of the last time, and leaves; the arrow keys
 * go to another. */

#define PIN_TYPE_TAB_STOP (pin_tab_stop_get_type ())
G_DECLARE_FINAL_TYPE (PinTabStop, pin_tab_stop, PIN, TAB_STOP, GtkWidget)

G_END_DECLS
