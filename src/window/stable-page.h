#pragma once

#include <gtk/gtk.h>

#include "window/desk.h"

G_BEGIN_DECLS

/* Home: which of the vehicles may run, and why not.  An empty stable shows the
 * first step instead: adding a vehicle. */

#define PIN_TYPE_STABLE_PAGE (pin_stable_page_get_type ())
G_DECLARE_FINAL_TYPE (PinStablePage, pin_stable_page, PIN, STABLE_PAGE, GtkWidget)

void pin_stable_page_set_desk (PinStablePage *self,
                               PinDesk       *desk);
void pin_stable_page_show_none (PinStablePage *self);
void pin_stable_page_add      (PinStablePage *self);

G_END_DECLS
