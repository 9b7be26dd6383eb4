#pragma once

#include <gtk/gtk.h>

#include "inspection/walk.h"

G_BEGIN_DECLS

/* Where we are in a walk: a mark for each question, under the title of its
 * stage. */

#define PIN_TYPE_PROGRESS_STRIP (pin_progress_strip_get_type ())
G_DECLARE_FINAL_TYPE (PinProgressStrip, pin_progress_strip, PIN, PROGRESS_STRIP, GtkWidget)

void pin_progress_strip_set (PinProgressStrip *self,
                             const PinWalk    *walk,
                             int               current);

G_END_DECLS
