#include "window/hazard-bar.h"

#include <glib/gi18n.h>

#include "library/procedure.h"
#include "window/fields.h"

/* Signal words after ANSI Z535.6 and ISO 3864. */

struct _PinHazardBar
{
  GtkBox parent_instance;
};

G_DEFINE_FINAL_TYPE (PinHazardBar, pin_hazard_bar, GTK_TYPE_BOX)

static const struct
{
  const char *word, *css;
} levels[] = {
  [PIN_HAZARD_NOTICE] = { N_("Notice"), "notice" },
  [PIN_HAZARD_CAUTION] = { N_("Caution"), "caution" },
  [PIN_HAZARD_WARNING] = { N_("Warning"), "warning" },
  [PIN_HAZARD_DANGER] = { N_("Danger"), "danger" },
};

static GtkWidget *
signal_word (const PinHazard *hazard)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget *icon = g_object_new (GTK_TYPE_IMAGE, "icon-name", "pin-hazard-symbolic", "accessible-role",
                                  GTK_ACCESSIBLE_ROLE_PRESENTATION, NULL);
  GtkWidget *word = gtk_label_new (_(levels[hazard->level].word));

  if (hazard->level != PIN_HAZARD_NOTICE)
    gtk_box_append (GTK_BOX (box), icon);
  else
    g_object_ref_sink (icon), g_object_unref (icon);
  gtk_box_append (GTK_BOX (box), word);
  gtk_widget_add_css_class (box, "signal-word");
  gtk_widget_set_size_request (box, 190, -1);
  return box;
}

/* The first sentence names the harm; it stands out. */
static char *
markup_of (const char *text)
{
  const char *end = g_utf8_strchr (text, -1, '.');
  g_autofree char *first = end != NULL ? g_strndup (text, end + 1 - text) : g_strdup (text);
  const char *rest = end != NULL ? end + 1 : "";

  return g_markup_printf_escaped ("<b>%s</b>%s", first, rest);
}

static GtkWidget *
hazard_row (const PinHazard *hazard)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  GtkWidget *text = gtk_label_new (NULL);
  g_autofree char *markup = markup_of (hazard->text);
  g_autofree char *name = g_strdup_printf ("%s: %s", _(levels[hazard->level].word), hazard->text);

  gtk_label_set_markup (GTK_LABEL (text), markup);
  gtk_label_set_wrap (GTK_LABEL (text), TRUE);
  gtk_label_set_xalign (GTK_LABEL (text), 0);
  gtk_widget_set_hexpand (text, TRUE);
  gtk_widget_add_css_class (text, "hazard-text");
  gtk_widget_add_css_class (row, "hazard");
  gtk_widget_add_css_class (row, levels[hazard->level].css);
  gtk_box_append (GTK_BOX (row), signal_word (hazard));
  gtk_box_append (GTK_BOX (row), text);
  pin_field_name (row, name);
  return row;
}

static void
pin_hazard_bar_class_init (PinHazardBarClass *klass)
{
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
pin_hazard_bar_init (PinHazardBar *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 6);
  pin_field_name (self, _("hazards"));
}

/* The others stand in one smaller paragraph, so that the step stays in sight. */
static GtkWidget *
others_row (GPtrArray *hazards)
{
  GtkWidget *label = gtk_label_new (NULL);
  GString *markup = g_string_new (NULL);

  for (guint i = 1; i < hazards->len; i++)
    {
      const PinHazard *hazard = g_ptr_array_index (hazards, i);
      g_autofree char *part = g_markup_printf_escaped ("<b>%s:</b> %s", _(levels[hazard->level].word),
                                                       hazard->text);

      g_string_append_printf (markup, "%s%s", i > 1 ? "  " : "", part);
    }
  gtk_label_set_markup (GTK_LABEL (label), markup->str);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "hazard-others");
  g_string_free (markup, TRUE);
  return label;
}

/* @hazards: PinHazard*, heaviest first; borrowed. */
void
pin_hazard_bar_set (PinHazardBar *self, GPtrArray *hazards)
{
  pin_field_clear (GTK_WIDGET (self));
  if (hazards->len > 0)
    gtk_box_append (GTK_BOX (self), hazard_row (g_ptr_array_index (hazards, 0)));
  if (hazards->len > 1)
    gtk_box_append (GTK_BOX (self), others_row (hazards));
  gtk_widget_set_visible (GTK_WIDGET (self), hazards->len > 0);
}
