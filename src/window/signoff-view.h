#pragma once

#include <gtk/gtk.h>

#include "inspection/walk.h"

G_BEGIN_DECLS

/* The end of a walk: what signing it does, and what stands in the way. */

#define PIN_TYPE_SIGNOFF_VIEW (pin_signoff_view_get_type ())
G_DECLARE_FINAL_TYPE (PinSignoffView, pin_signoff_view, PIN, SIGNOFF_VIEW, GtkBox)

void        pin_signoff_view_set    (PinSignoffView *self,
                                     const PinWalk  *walk,
                                     const char     *person);
const char *pin_signoff_view_person (PinSignoffView *self);
GtkWidget  *pin_signoff_view_foot   (PinSignoffView *self);

G_END_DECLS
