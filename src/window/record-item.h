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
/* The last answer of the line; 0: a heading, or not answered. */
gint64         pin_record_item_answer      (PinRecordItem       *self);
/* "Feel of the bearing, front left hub, outer"; free with g_free(). */
char          *pin_record_item_name        (PinRecordItem       *self);

G_END_DECLS
