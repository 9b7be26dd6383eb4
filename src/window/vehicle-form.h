#pragma once

#include <gtk/gtk.h>

#include "service/vehicle-view.h"
#include "window/desk.h"

G_BEGIN_DECLS

/* The vehicle's name, and whether it is in use. */

#define PIN_TYPE_VEHICLE_FORM (pin_vehicle_form_get_type ())
G_DECLARE_FINAL_TYPE (PinVehicleForm, pin_vehicle_form, PIN, VEHICLE_FORM, GtkBox)

void pin_vehicle_form_set_view (PinVehicleForm       *self,
                                PinDesk              *desk,
                                const PinVehicleView *view);

G_END_DECLS
