#pragma once

#include <gtk/gtk.h>

/* Small things that many forms need. */

char      *pin_field_day        (GtkEditable *entry,
                                 GError     **error);
gboolean   pin_field_value      (const char  *text,
                                 const char  *unit,
                                 double      *value,
                                 GError     **error);
void       pin_field_clear      (GtkWidget   *box);
GtkWidget *pin_field_toggle     (GtkWidget   *box,
                                 const char  *label,
                                 const char  *id,
                                 GtkWidget   *group);
GPtrArray *pin_field_toggled    (GtkWidget   *box);
void       pin_field_name       (gpointer     widget,
                                 const char  *name);
void       pin_field_tooltip    (gpointer     widget,
                                 const char  *text);
void       pin_field_own_widths (gpointer     switcher);
GtkWidget *pin_field_first_line (GtkWidget   *mark,
                                 int          width);
