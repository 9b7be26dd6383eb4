#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define PIN_TYPE_APPLICATION (pin_application_get_type ())
G_DECLARE_FINAL_TYPE (PinApplication, pin_application, PIN, APPLICATION, GtkApplication)

PinApplication *pin_application_new (void);
int             pin_window_run      (int    argc,
                                     char **argv);

G_END_DECLS
