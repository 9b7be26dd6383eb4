#include "window/vehicle-form.h"

#include <glib/gi18n.h>

#include "service/inventory.h"
#include "window/change.h"
#include "window/fields.h"
#include "window/tell.h"

struct _PinVehicleForm
{
  GtkBox parent_instance;

  PinDesk *desk;              /* owned */
  const PinVehicleView *view; /* borrowed */
  gboolean settling;          /* fields are being set, not used */

  GtkEntry *name;             /* template */
  GtkButton *rename;
  GtkBox *states;
};

G_DEFINE_FINAL_TYPE (PinVehicleForm, pin_vehicle_form, GTK_TYPE_BOX)

static const char *const states[][2] = {
  { N_("In use"), "in-use" },
  { N_("Laid up"), "laid-up" },
  { N_("For sale"), "for-sale" },
  { N_("Sold"), "sold" },
};

static void
finish (PinVehicleForm *self, PinDeedDone *done, gboolean good, GError **error)
{
  if (good)
    {
      pin_change_write (GTK_WIDGET (self), self->desk, done, self->view->car->id, 0, NULL);
      return;
    }
  pin_tell_error (GTK_WIDGET (self), _("Nothing was changed:"), *error);
  pin_deed_done_free (done);
}

static void
on_name (PinVehicleForm *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->name));

  gtk_widget_set_sensitive (GTK_WIDGET (self->rename),
                            self->view != NULL && *text != '\0'
                              && g_strcmp0 (text, self->view->car->name) != 0);
}

static void
on_rename (PinVehicleForm *self)
{
  g_autoptr (GError) error = NULL;
  PinDeedDone *done;
  gboolean good;

  if (!gtk_widget_get_sensitive (GTK_WIDGET (self->rename)))
    return;
  done = pin_deed_done_new (pin_desk_book (self->desk), pin_desk_person (self->desk));
  good = pin_inventory_rename (done, self->view->car, gtk_editable_get_text (GTK_EDITABLE (self->name)),
                               pin_desk_names (self->desk), &error);
  finish (self, done, good, &error);
}

static void
on_state (GtkToggleButton *toggle, PinVehicleForm *self)
{
  const char *state = g_object_get_data (G_OBJECT (toggle), "pin-id");
  g_autoptr (GError) error = NULL;
  PinDeedDone *done;
  gboolean good;

  if (self->settling || self->view == NULL || !gtk_toggle_button_get_active (toggle))
    return;
  done = pin_deed_done_new (pin_desk_book (self->desk), pin_desk_person (self->desk));
  good = pin_inventory_set_state (done, self->view->car, state, NULL, &error);
  finish (self, done, good, &error);
}

static void
pin_vehicle_form_dispose (GObject *object)
{
  g_clear_object (&PIN_VEHICLE_FORM (object)->desk);
  G_OBJECT_CLASS (pin_vehicle_form_parent_class)->dispose (object);
}

static void
pin_vehicle_form_class_init (PinVehicleFormClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pin_vehicle_form_dispose;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/vehicle-form.ui");
  gtk_widget_class_bind_template_child (widget_class, PinVehicleForm, name);
  gtk_widget_class_bind_template_child (widget_class, PinVehicleForm, rename);
  gtk_widget_class_bind_template_child (widget_class, PinVehicleForm, states);
  gtk_widget_class_bind_template_callback (widget_class, on_name);
  gtk_widget_class_bind_template_callback (widget_class, on_rename);
}

static void
pin_vehicle_form_init (PinVehicleForm *self)
{
  GtkWidget *first = NULL;

  gtk_widget_init_template (GTK_WIDGET (self));
  for (guint i = 0; i < G_N_ELEMENTS (states); i++)
    {
      GtkWidget *toggle = pin_field_toggle (GTK_WIDGET (self->states), _(states[i][0]), states[i][1],
                                            first);

      if (first == NULL)
        first = toggle;
      g_signal_connect (toggle, "toggled", G_CALLBACK (on_state), self);
    }
}

static const char *
state_of (const PinVehicleView *view)
{
  const char *state = view->car->rows->vehicle->state;

  return state != NULL ? state : "in-use";
}

/* @view is borrowed until the next call. */
void
pin_vehicle_form_set_view (PinVehicleForm *self, PinDesk *desk, const PinVehicleView *view)
{
  self->settling = TRUE;
  g_set_object (&self->desk, desk);
  self->view = view;
  gtk_editable_set_text (GTK_EDITABLE (self->name), view->car->name);
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self->states)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (g_strcmp0 (g_object_get_data (G_OBJECT (child), "pin-id"), state_of (view)) == 0)
      gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (child), TRUE);
  self->settling = FALSE;
  on_name (self);
}
