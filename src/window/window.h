#pragma once

#include <gtk/gtk.h>

#include "window/desk.h"
#include "window/strip.h"
#include "window/tell.h"

G_BEGIN_DECLS

#define PIN_TYPE_WINDOW (pin_window_get_type ())
G_DECLARE_FINAL_TYPE (PinWindow, pin_window, PIN, WINDOW, GtkApplicationWindow)

PinWindow *pin_window_new           (GtkApplication *application,
                                     PinTexts       *texts);
void       pin_window_open_book     (PinWindow      *self,
                                     const char     *path);
PinDesk   *pin_window_desk          (PinWindow      *self);
void       pin_window_add_strip     (PinWindow      *self,
                                     PinStrip       *strip);
void       pin_window_close_errors  (PinWindow      *self);
void       pin_window_offer_undo    (PinWindow      *self,
                                     const char     *title,
                                     const char     *text,
                                     PinUndo         undo,
                                     gpointer        data,
                                     GDestroyNotify  data_free);
void       pin_window_show_stable   (PinWindow      *self);
void       pin_window_show_reckoner (PinWindow      *self,
                                     const char     *sum,      /* NULL: as it was left */
                                     gint64          vehicle); /* 0: none */
void       pin_window_show_vehicle  (PinWindow      *self,
                                     gint64          vehicle);
void       pin_window_close_vehicle (PinWindow      *self);
void       pin_window_show_record   (PinWindow      *self,
                                     gint64          inspection);
void       pin_window_show_bench    (PinWindow      *self,
                                     gint64          inspection);
void       pin_window_close_bench   (PinWindow      *self);
void       pin_window_update_footer (PinWindow      *self);

G_END_DECLS
