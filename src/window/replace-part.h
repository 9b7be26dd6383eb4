#pragma once

#include <gtk/gtk.h>

#include "window/choice.h"

G_BEGIN_DECLS

/* Another part in the place of this one: a new one, or one from the shelf; or take it off. */

#define PIN_TYPE_REPLACE_PART (pin_replace_part_get_type ())
G_DECLARE_FINAL_TYPE (PinReplacePart, pin_replace_part, PIN, REPLACE_PART, GtkBox)

void pin_replace_part_set_choice (PinReplacePart *self,
                        const PinChoice *choice);

G_END_DECLS
