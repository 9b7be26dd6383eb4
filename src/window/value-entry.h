#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A flat entry and a unit in one frame. */

#define PIN_TYPE_VALUE_ENTRY (pin_value_entry_get_type ())
G_DECLARE_FINAL_TYPE (PinValueEntry, pin_value_entry, PIN, VALUE_ENTRY, GtkBox)

GtkWidget  *pin_value_entry_new      (const char    *label,
                                      const char    *unit);
const char *pin_value_entry_text     (PinValueEntry *self);
void        pin_value_entry_set_text (PinValueEntry *self,
                                      const char    *text);
GtkWidget  *pin_value_entry_entry    (PinValueEntry *self);

G_END_DECLS
