#pragma once

#include <gtk/gtk.h>

#include "inspection/walk.h"

G_BEGIN_DECLS

/* What is off the car, read backwards for refitting, and what is owed. */

#define PIN_TYPE_TRAY_VIEW (pin_tray_view_get_type ())
G_DECLARE_FINAL_TYPE (PinTrayView, pin_tray_view, PIN, TRAY_VIEW, GtkBox)

void pin_tray_view_set (PinTrayView   *self,
                        const PinWalk *walk);

G_END_DECLS
