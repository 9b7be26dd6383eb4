#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The hazards of a step, before anything else: signal word, what can happen
 * and how to avoid it. */

#define PIN_TYPE_HAZARD_BAR (pin_hazard_bar_get_type ())
G_DECLARE_FINAL_TYPE (PinHazardBar, pin_hazard_bar, PIN, HAZARD_BAR, GtkBox)

void pin_hazard_bar_set (PinHazardBar *self,
                         GPtrArray    *hazards);

G_END_DECLS
