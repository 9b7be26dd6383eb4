#pragma once

#include <gtk/gtk.h>

#include "window/desk.h"

/* The summary sheet of a vehicle, as a file and on paper. */

void pin_sheet_save  (GtkWidget  *from,
                      PinDesk    *desk,
                      gint64      vehicle,
                      const char *path);
void pin_sheet_print (GtkWidget  *from,
                      PinDesk    *desk,
                      gint64      vehicle);
