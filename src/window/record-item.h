#pragma once

#include <glib-object.h>

#include "service/walk-record.h"

G_BEGIN_DECLS

/* One row of the record of an inspection: a line of it, or the name of a system
 * above its lines. */

#define PIN_TYPE_RECORD_ITEM (pin_record_item_get_type ())
G_DECLARE_FINAL_TYPE (PinRecordItem, pin_record_item, PIN, RECORD_ITEM, GObject)

PinRecordItem *pin_record_item_new_heading (const char          *title);
PinRecordItem *pin_record_item_new         (const PinRecordLine *line);

G_END_DECLS
