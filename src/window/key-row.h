#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Keys of one width beside each other; in two rows when one does not hold
 * them.  Never more: a row of keys must not push the step off the screen.  A row
 * that is just wide enough gives each the width of its words. */

#define PIN_TYPE_KEY_ROW (pin_key_row_get_type ())
G_DECLARE_FINAL_TYPE (PinKeyRow, pin_key_row, PIN, KEY_ROW, GtkLayoutManager)

GtkLayoutManager *pin_key_row_new (int spacing);

G_END_DECLS
