#pragma once

#include "window/strip.h"

/* Telling the person something from anywhere in a window.  Outside a window of
 * this program the words go to the log. */

typedef void (*PinUndo) (GtkWidget *window, gpointer data);

void      pin_tell_error   (GtkWidget      *from,
                            const char     *title,
                            const GError   *error);
void      pin_tell_done    (GtkWidget      *from,
                            const char     *title,
                            const char     *text);
void      pin_tell_undo    (GtkWidget      *from,
                            const char     *title,
                            const char     *text,
                            PinUndo         undo,
                            gpointer        data,
                            GDestroyNotify  data_free);
void      pin_tell_settled (GtkWidget      *from);
PinStrip *pin_tell_working (GtkWidget      *from,
                            const char     *title,
                            GCancellable   *cancellable);
