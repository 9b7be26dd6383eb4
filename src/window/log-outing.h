#pragma once

#include <gtk/gtk.h>

#include "service/vehicle-view.h"
#include "window/desk.h"

G_BEGIN_DECLS

/* A day of use, in a few fields and Enter. */

#define PIN_TYPE_LOG_OUTING (pin_log_outing_get_type ())
G_DECLARE_FINAL_TYPE (PinLogOuting, pin_log_outing, PIN, LOG_OUTING, GtkBox)

void pin_log_outing_set_view (PinLogOuting         *self,
                              PinDesk              *desk,
                              const PinVehicleView *view);

G_END_DECLS
