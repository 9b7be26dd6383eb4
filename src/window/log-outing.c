#include "window/log-outing.h"

#include <glib/gi18n.h>
#include <math.h>

#include "service/inventory.h"
#include "window/change.h"
#include "window/fields.h"
#include "window/tell.h"
#include "window/value-entry.h"

struct _PinLogOuting
{
  GtkBox parent_instance;

  PinDesk *desk;              /* owned */
  const PinVehicleView *view; /* borrowed */

  PinValueEntry *minutes, *runs, *litres, *knocks; /* template */
  GtkFlowBox *water;
  GtkEntry *surface, *note, *day;
  GtkButton *log;
};

G_DEFINE_FINAL_TYPE (PinLogOuting, pin_log_outing, GTK_TYPE_BOX)

static guint closed;

static const char *const waters[][2] = {
  { N_("Dry"), "none" }, { N_("Damp"), "damp" }, { N_("Splashed"), "splashed" },
  { N_("Soaked"), "soaked" }, { N_("Submerged"), "submerged" },
};

static gboolean
read_value (PinValueEntry *entry, const char *unit, double *value, GError **error)
{
  return pin_field_value (pin_value_entry_text (entry), unit, value, error);
}

static void
blank (PinLogOuting *self)
{
  PinValueEntry *entries[] = { self->minutes, self->runs, self->litres, self->knocks };

  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    pin_value_entry_set_text (entries[i], "");
  gtk_editable_set_text (GTK_EDITABLE (self->surface), "");
  gtk_editable_set_text (GTK_EDITABLE (self->note), "");
  pin_field_clear (GTK_WIDGET (self->water));
  for (guint i = 0; i < G_N_ELEMENTS (waters); i++)
    {
      GtkWidget *first = i == 0 ? NULL : g_object_get_data (G_OBJECT (self->water), "pin-first");
      GtkWidget *toggle = pin_field_toggle (GTK_WIDGET (self->water), _(waters[i][0]), waters[i][1],
                                            first);

      if (i == 0)
        g_object_set_data (G_OBJECT (self->water), "pin-first", toggle);
    }
}

static const char *
text_or_null (GtkEntry *entry)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (entry));

  return *text != '\0' ? text : NULL;
}

static void
logged (GtkWidget *from, gboolean kept, gint64 id)
{
  PinLogOuting *self = PIN_LOG_OUTING (from);

  gtk_widget_set_sensitive (GTK_WIDGET (self->log), TRUE);
  if (!kept)
    return;
  blank (self);
  g_signal_emit (self, closed, 0);
}

static gboolean
read_outing (PinLogOuting *self, PinOuting *outing, GError **error)
{
  double knocks;

  if (!read_value (self->minutes, "min", &outing->seconds, error)
      || !read_value (self->runs, "1", &outing->runs, error)
      || !read_value (self->litres, "l", &outing->litres, error)
      || !read_value (self->knocks, "1", &knocks, error))
    return FALSE;
  /* The book counts fuel in litres, the units in cubic metres. */
  outing->litres *= 1000;
  outing->knocks = isnan (knocks) ? -1 : (int) knocks;
  return TRUE;
}

static void
on_log (PinLogOuting *self)
{
  g_autoptr (GPtrArray) water = pin_field_toggled (GTK_WIDGET (self->water));
  g_autoptr (GError) error = NULL;
  g_autofree char *day = NULL;
  PinOuting outing = { .ambient = NAN, .salt = -1, .knocks = -1 };
  g_autoptr (PinDeedDone) done = NULL;

  if (self->view == NULL || !gtk_widget_get_sensitive (GTK_WIDGET (self->log)))
    return;
  day = pin_field_day (GTK_EDITABLE (self->day), &error);
  outing.vehicle = self->view->car->id;
  outing.day = day;
  outing.water = g_ptr_array_index (water, 0);
  outing.surface = (char *) text_or_null (self->surface);
  outing.note = (char *) text_or_null (self->note);
  done = pin_deed_done_new (pin_desk_book (self->desk), pin_desk_person (self->desk));
  if (day == NULL || !read_outing (self, &outing, &error)
      || !pin_inventory_outing (done, pin_desk_library (self->desk), self->view->car, &outing, &error))
    {
      pin_tell_error (GTK_WIDGET (self), _("The outing was not logged:"), error);
      return;
    }
  gtk_widget_set_sensitive (GTK_WIDGET (self->log), FALSE);
  pin_change_write (GTK_WIDGET (self), self->desk, g_steal_pointer (&done), outing.vehicle, 0, logged);
}

static void
pin_log_outing_dispose (GObject *object)
{
  g_clear_object (&PIN_LOG_OUTING (object)->desk);
  G_OBJECT_CLASS (pin_log_outing_parent_class)->dispose (object);
}

static void
pin_log_outing_class_init (PinLogOutingClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pin_log_outing_dispose;
  g_type_ensure (PIN_TYPE_VALUE_ENTRY);
  closed = g_signal_new ("closed", PIN_TYPE_LOG_OUTING, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                         G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/log-outing.ui");
  gtk_widget_class_bind_template_child (widget_class, PinLogOuting, minutes);
  gtk_widget_class_bind_template_child (widget_class, PinLogOuting, runs);
  gtk_widget_class_bind_template_child (widget_class, PinLogOuting, litres);
  gtk_widget_class_bind_template_child (widget_class, PinLogOuting, knocks);
  gtk_widget_class_bind_template_child (widget_class, PinLogOuting, water);
  gtk_widget_class_bind_template_child (widget_class, PinLogOuting, surface);
  gtk_widget_class_bind_template_child (widget_class, PinLogOuting, note);
  gtk_widget_class_bind_template_child (widget_class, PinLogOuting, day);
  gtk_widget_class_bind_template_child (widget_class, PinLogOuting, log);
  gtk_widget_class_bind_template_callback (widget_class, on_log);
}

static void
pin_log_outing_init (PinLogOuting *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  blank (self);
}

/* @view is borrowed until the next call. */
void
pin_log_outing_set_view (PinLogOuting *self, PinDesk *desk, const PinVehicleView *view)
{
  g_set_object (&self->desk, desk);
  self->view = view;
  gtk_widget_set_visible (GTK_WIDGET (self->litres), view != NULL && view->burns_fuel);
}
