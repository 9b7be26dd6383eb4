#include "window/tray-view.h"

#include <glib/gi18n.h>

#include "window/fields.h"
#include "window/mark-image.h"

struct _PinTrayView
{
  GtkBox parent_instance;

  GtkLabel *off_title, *owed_title; /* template */
  GtkBox *off, *owed;
};

G_DEFINE_FINAL_TYPE (PinTrayView, pin_tray_view, GTK_TYPE_BOX)

static void
pin_tray_view_class_init (PinTrayViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/tray-view.ui");
  gtk_widget_class_bind_template_child (widget_class, PinTrayView, off_title);
  gtk_widget_class_bind_template_child (widget_class, PinTrayView, owed_title);
  gtk_widget_class_bind_template_child (widget_class, PinTrayView, off);
  gtk_widget_class_bind_template_child (widget_class, PinTrayView, owed);
}

static void
pin_tray_view_init (PinTrayView *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static GtkWidget *
line (GtkWidget *mark, const char *text)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_box_append (GTK_BOX (row), pin_field_first_line (mark, 14));
  gtk_box_append (GTK_BOX (row), label);
  gtk_widget_add_css_class (row, "bench-list");
  return row;
}

static GtkWidget *
nothing (void)
{
  GtkWidget *label = gtk_label_new (_("nothing"));

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "bench-caption");
  return label;
}

static void
set_title (GtkLabel *label, const char *title, guint n)
{
  g_autofree char *markup = n > 0 ? g_markup_printf_escaped ("<b>%s</b>  %u", title, n)
                                  : g_markup_printf_escaped ("<b>%s</b>", title);

  gtk_label_set_markup (label, markup);
}

static void
show_off (PinTrayView *self, const GPtrArray *tray)
{
  pin_field_clear (GTK_WIDGET (self->off));
  set_title (self->off_title, _("Off the car"), tray->len);
  for (guint i = tray->len; i > 0; i--)
    {
      const PinTrayItem *item = g_ptr_array_index (tray, i - 1);
      const char *title = item->assembly != NULL ? item->assembly->title : item->id;
      g_autofree char *text = item->note != NULL && *item->note != '\0'
                                ? g_strdup_printf ("%s: %s", title, item->note) : g_strdup (title);
      GtkWidget *square = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

      gtk_widget_add_css_class (square, "off-square");
      gtk_box_append (self->off, line (square, text));
    }
  if (tray->len == 0)
    gtk_box_append (self->off, nothing ());
}

static void
show_owed (PinTrayView *self, const GPtrArray *owed)
{
  pin_field_clear (GTK_WIDGET (self->owed));
  set_title (self->owed_title, _("Owed"), owed->len);
  for (guint i = 0; i < owed->len; i++)
    {
      const PinOwedItem *item = g_ptr_array_index (owed, i);
      g_autofree char *text = item->of != NULL ? g_strdup_printf ("%s (%s)", item->title, item->of)
                                               : g_strdup (item->title);

      gtk_box_append (self->owed, line (g_object_new (PIN_TYPE_MARK_IMAGE, "owed", TRUE, "size", 12,
                                                      NULL), text));
    }
  if (owed->len == 0)
    gtk_box_append (self->owed, nothing ());
}

void
pin_tray_view_set (PinTrayView *self, const PinWalk *walk)
{
  show_off (self, pin_walk_tray (walk));
  show_owed (self, pin_walk_owed (walk));
}
