#pragma once

#include <gtk/gtk.h>

#include "service/vehicle-view.h"
#include "window/desk.h"

G_BEGIN_DECLS

/* The chosen parts of a vehicle: what they are, how long they have run, what
 * happened to them, and what can be recorded. */

#define PIN_TYPE_PART_PANEL (pin_part_panel_get_type ())
G_DECLARE_FINAL_TYPE (PinPartPanel, pin_part_panel, PIN, PART_PANEL, GtkBox)

void pin_part_panel_set_desk (PinPartPanel         *self,
                              PinDesk              *desk);
void pin_part_panel_show     (PinPartPanel         *self,
                              const PinVehicleView *view,
                              GPtrArray            *codes);

G_END_DECLS
