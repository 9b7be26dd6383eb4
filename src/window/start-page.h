#pragma once

#include <gtk/gtk.h>

#include "window/desk.h"

G_BEGIN_DECLS

/* Adding a vehicle; also what an empty stable shows. */

#define PIN_TYPE_START_PAGE (pin_start_page_get_type ())
G_DECLARE_FINAL_TYPE (PinStartPage, pin_start_page, PIN, START_PAGE, GtkWidget)

void pin_start_page_set_desk  (PinStartPage *self,
                               PinDesk      *desk);
void pin_start_page_set_first (PinStartPage *self,
                               gboolean      first);

G_END_DECLS
