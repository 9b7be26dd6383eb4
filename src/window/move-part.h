#pragma once

#include <gtk/gtk.h>

#include "window/choice.h"

G_BEGIN_DECLS

/* The chosen part goes to a place of another car, with all that it carries. */

#define PIN_TYPE_MOVE_PART (pin_move_part_get_type ())
G_DECLARE_FINAL_TYPE (PinMovePart, pin_move_part, PIN, MOVE_PART, GtkBox)

void pin_move_part_set_choice (PinMovePart     *self,
                               const PinChoice *choice);

G_END_DECLS
