#pragma once

#include <gtk/gtk.h>

#include "window/desk.h"

G_BEGIN_DECLS

/* One vehicle: the plan with its marks, the chosen parts, and lists of parts,
 * outings, inspections, findings and set-up. */

#define PIN_TYPE_VEHICLE_PAGE (pin_vehicle_page_get_type ())
G_DECLARE_FINAL_TYPE (PinVehiclePage, pin_vehicle_page, PIN, VEHICLE_PAGE, GtkWidget)

void        pin_vehicle_page_set_desk (PinVehiclePage *self,
                                       PinDesk        *desk);
void        pin_vehicle_page_show     (PinVehiclePage *self,
                                       gint64          vehicle);
gint64      pin_vehicle_page_vehicle  (PinVehiclePage *self);
const char *pin_vehicle_page_name     (PinVehiclePage *self);

G_END_DECLS
