#pragma once

#include <gtk/gtk.h>

#include "service/vehicle-view.h"

G_BEGIN_DECLS

/* A part's line in the table of a vehicle. */

#define PIN_TYPE_PART_ITEM (pin_part_item_get_type ())
G_DECLARE_FINAL_TYPE (PinPartItem, pin_part_item, PIN, PART_ITEM, GObject)

PinPartItem *pin_part_item_new   (const PinPartLine *line);
const char  *pin_part_item_code  (PinPartItem       *self);
const char  *pin_part_item_group (PinPartItem       *self);
gboolean     pin_part_item_equal (PinPartItem       *a,
                                  PinPartItem       *b);

G_END_DECLS
