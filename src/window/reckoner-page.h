#pragma once

#include <gtk/gtk.h>

#include "window/desk.h"

G_BEGIN_DECLS

/* The sums of the trade: filled in from a vehicle, worked out as one types. */

#define PIN_TYPE_RECKONER_PAGE (pin_reckoner_page_get_type ())
G_DECLARE_FINAL_TYPE (PinReckonerPage, pin_reckoner_page, PIN, RECKONER_PAGE, GtkWidget)

void pin_reckoner_page_set_desk (PinReckonerPage *self,
                                 PinDesk         *desk);
/* @sum: id, or NULL for the one that is shown; @vehicle: 0 for none. */
void pin_reckoner_page_show     (PinReckonerPage *self,
                                 const char      *sum,
                                 gint64           vehicle);

G_END_DECLS
