#pragma once

#include <gtk/gtk.h>

#include "service/deed-done.h"
#include "window/desk.h"

/* Writing a change that the keeper made, and offering to take it back. */

/* @done_id tells what the caller is waiting for; called with FALSE when
 * nothing was written (the person has been told). */
typedef void (*PinChanged) (GtkWidget *from, gboolean kept, gint64 done_id);

void pin_change_write (GtkWidget   *from,
                       PinDesk     *desk,
                       PinDeedDone *done,
                       gint64       vehicle,
                       gint64       done_id,
                       PinChanged   changed);
