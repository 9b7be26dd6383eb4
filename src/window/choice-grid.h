#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Grades and ways under one another, or in two columns where that is lower and
 * there is the width: all of them have to be in sight. */

#define PIN_TYPE_CHOICE_GRID (pin_choice_grid_get_type ())
G_DECLARE_FINAL_TYPE (PinChoiceGrid, pin_choice_grid, PIN, CHOICE_GRID, GtkLayoutManager)

G_END_DECLS
