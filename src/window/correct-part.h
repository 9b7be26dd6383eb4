#pragma once

#include <gtk/gtk.h>

#include "window/choice.h"

G_BEGIN_DECLS

/* Correct the size or another value of one part, or of all that are alike. */

#define PIN_TYPE_CORRECT_PART (pin_correct_part_get_type ())
G_DECLARE_FINAL_TYPE (PinCorrectPart, pin_correct_part, PIN, CORRECT_PART, GtkBox)

void pin_correct_part_set_choice (PinCorrectPart *self,
                        const PinChoice *choice);

G_END_DECLS
