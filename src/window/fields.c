#include "window/fields.h"

#include <glib/gi18n.h>
#include <math.h>

#include "base/day.h"
#include "library/quantity.h"
#include "service/error.h"
#include "window/flow-child.h"

/* The day in an entry, "YYYY-MM-DD"; blank is today.  NULL with an error if it
 * is none.  Returns: (transfer full) */
char *
pin_field_day (GtkEditable *entry, GError **error)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (entry)));

  if (*text == '\0' || g_ascii_strcasecmp (text, _("today")) == 0)
    return pin_today ();
  if (pin_day_valid (text))
    return g_steal_pointer (&text);
  g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_DAY,
               _("“%s” is no date. Write it as 2026-11-28, or leave it blank for today."), text);
  return NULL;
}

/* A number, with a unit of its own or in @unit (id); blank is "not known", never
 * zero.  @value in the base unit of the quantity, NAN: not known. */
gboolean
pin_field_value (const char *text, const char *unit, double *value, GError **error)
{
  g_autofree char *bare = g_strstrip (g_strdup (text));

  *value = NAN;
  return *bare == '\0' || pin_value_parse (bare, pin_unit_find (unit), value, NULL, error);
}

void
pin_field_clear (GtkWidget *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (box)) != NULL)
    {
      if (GTK_IS_FLOW_BOX (box))
        gtk_flow_box_remove (GTK_FLOW_BOX (box), child);
      else
        gtk_box_remove (GTK_BOX (box), child);
    }
}

void
pin_field_name (gpointer widget, const char *name)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

/* With each tooltip of a visible widget GTK asks the display where the pointer is
 * and waits for the answer; of one that is not on the screen nobody waits for. */
void
pin_field_tooltip (gpointer widget, const char *text)
{
  gboolean visible = gtk_widget_get_visible (widget);
  gboolean hide = visible && !gtk_widget_get_mapped (widget);

  if (hide)
    gtk_widget_set_visible (widget, FALSE);
  gtk_widget_set_tooltip_text (widget, text);
  if (hide)
    gtk_widget_set_visible (widget, TRUE);
}

/* A toggle of that @id at the end of @box.  With a @group only one is on. */
GtkWidget *
pin_field_toggle (GtkWidget *box, const char *label, const char *id, GtkWidget *group)
{
  GtkWidget *toggle = gtk_toggle_button_new_with_label (label);

  g_object_set_data_full (G_OBJECT (toggle), "pin-id", g_strdup (id), g_free);
  if (group != NULL)
    gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (toggle), GTK_TOGGLE_BUTTON (group));
  if (GTK_IS_FLOW_BOX (box))
    pin_flow_add (GTK_FLOW_BOX (box), toggle);
  else
    gtk_box_append (GTK_BOX (box), toggle);
  return toggle;
}

/* The ids (char *, borrowed) of the toggles that are on, and a NULL at the end.
 * Returns: (transfer container) */
GPtrArray *
pin_field_toggled (GtkWidget *box)
{
  GPtrArray *ids = g_ptr_array_new ();

  for (GtkWidget *child = gtk_widget_get_first_child (box); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *toggle = GTK_IS_FLOW_BOX_CHILD (child)
                            ? gtk_flow_box_child_get_child (GTK_FLOW_BOX_CHILD (child)) : child;

      if (GTK_IS_TOGGLE_BUTTON (toggle) && gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (toggle)))
        g_ptr_array_add (ids, g_object_get_data (G_OBJECT (toggle), "pin-id"));
    }
  g_ptr_array_add (ids, NULL);
  return ids;
}

/* Tabs as wide as their own words, not as the longest. */
void
pin_field_own_widths (gpointer switcher)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (switcher);

  if (GTK_IS_BOX_LAYOUT (layout))
    gtk_box_layout_set_homogeneous (GTK_BOX_LAYOUT (layout), FALSE);
}

/* @mark as high as one line of text, whatever the size of the text: beside words
 * that wrap it stands with the first line.  @width in px keeps columns apart. */
GtkWidget *
pin_field_first_line (GtkWidget *mark, int width)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  GtkWidget *strut = gtk_label_new ("\u200b");

  gtk_widget_set_size_request (box, width, -1);
  gtk_widget_set_hexpand (box, FALSE);
  gtk_widget_set_valign (box, GTK_ALIGN_START);
  gtk_widget_set_valign (mark, GTK_ALIGN_CENTER);
  gtk_widget_set_halign (mark, GTK_ALIGN_CENTER);
  gtk_widget_set_hexpand (mark, TRUE);
  gtk_box_append (GTK_BOX (box), mark);
  gtk_box_append (GTK_BOX (box), strut);
  gtk_accessible_update_state (GTK_ACCESSIBLE (strut), GTK_ACCESSIBLE_STATE_HIDDEN, TRUE, -1);
  return box;
}
