#pragma once

#include <gtk/gtk.h>

#include "base/outcome.h"

G_BEGIN_DECLS

/* The mark of an outcome, by shape and colour; the word stands beside it. */

#define PIN_TYPE_MARK_IMAGE (pin_mark_image_get_type ())
G_DECLARE_FINAL_TYPE (PinMarkImage, pin_mark_image, PIN, MARK_IMAGE, GtkWidget)

GtkWidget *pin_mark_image_new (PinOutcome    outcome,
                               gboolean      unsafe,
                               int           size);
void       pin_mark_image_set (PinMarkImage *self,
                               PinOutcome    outcome,
                               gboolean      unsafe);

G_END_DECLS
