#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The columns of the stable, alike in the heading and in every row.  Children in
 * their order: plan, name, state, hours, tools, and in a row a last one that
 * stands under the others.  Where there is not the width for the text as large
 * as it is, the hours go to the right of the name and the state under both; a
 * heading then shows nothing. */

#define PIN_TYPE_STABLE_LAYOUT (pin_stable_layout_get_type ())
G_DECLARE_FINAL_TYPE (PinStableLayout, pin_stable_layout, PIN, STABLE_LAYOUT, GtkLayoutManager)

G_END_DECLS
