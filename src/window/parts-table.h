#pragma once

#include <gtk/gtk.h>

#include "service/vehicle-view.h"

G_BEGIN_DECLS

/* All parts of a vehicle, worst first. */

#define PIN_TYPE_PARTS_TABLE (pin_parts_table_get_type ())
G_DECLARE_FINAL_TYPE (PinPartsTable, pin_parts_table, PIN, PARTS_TABLE, GtkWidget)

void       pin_parts_table_set_view  (PinPartsTable        *self,
                                      const PinVehicleView *view);
void       pin_parts_table_set_layer (PinPartsTable        *self,
                                      const char           *layer);
void       pin_parts_table_choose    (PinPartsTable        *self,
                                      GPtrArray            *codes);
GPtrArray *pin_parts_table_chosen    (PinPartsTable        *self);

G_END_DECLS
