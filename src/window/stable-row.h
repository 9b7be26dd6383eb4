#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A vehicle's row in the stable. */

#define PIN_TYPE_STABLE_ROW (pin_stable_row_get_type ())
G_DECLARE_FINAL_TYPE (PinStableRow, pin_stable_row, PIN, STABLE_ROW, GtkBox)

G_END_DECLS
