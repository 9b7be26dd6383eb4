#pragma once

#include "service/vehicle-view.h"
#include "window/desk.h"

/* Reads one vehicle for a page; pin_desk_read_finish() gives a PinVehicleView,
 * (transfer full).  What @cancellable was reading before is given up. */
void pin_read_vehicle (PinDesk             *desk,
                       gint64               vehicle,
                       GCancellable       **cancellable,
                       GAsyncReadyCallback  callback,
                       gpointer             user_data);
