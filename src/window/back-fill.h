#pragma once

#include <gtk/gtk.h>

#include "window/choice.h"

G_BEGIN_DECLS

/* "Last done", told by the keeper when a car enters the book, with how sure. */

#define PIN_TYPE_BACK_FILL (pin_back_fill_get_type ())
G_DECLARE_FINAL_TYPE (PinBackFill, pin_back_fill, PIN, BACK_FILL, GtkBox)

void pin_back_fill_set_choice (PinBackFill *self,
                        const PinChoice *choice);

G_END_DECLS
