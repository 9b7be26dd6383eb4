#include "window/back-fill.h"

#include <glib/gi18n.h>

#include "window/change.h"
#include "window/fields.h"
#include "window/tell.h"

struct _PinBackFill
{
  GtkBox parent_instance;

  const PinChoice *choice;    /* borrowed */

  GtkFlowBox *deeds, *sure;   /* template */
  GtkEntry *note, *day;
  GtkButton *record;
};

G_DEFINE_FINAL_TYPE (PinBackFill, pin_back_fill, GTK_TYPE_BOX)

static void
update_button (PinBackFill *self)
{
  g_autoptr (GPtrArray) deeds = pin_field_toggled (GTK_WIDGET (self->deeds));
  g_autoptr (GPtrArray) sure = pin_field_toggled (GTK_WIDGET (self->sure));

  gtk_widget_set_sensitive (GTK_WIDGET (self->record), deeds->len == 2 && sure->len == 2);
}

static GtkWidget *
add (PinBackFill *self, GtkFlowBox *box, const char *label, const char *id, GtkWidget *group)
{
  GtkWidget *toggle = pin_field_toggle (GTK_WIDGET (box), label, id, group);

  g_signal_connect_swapped (toggle, "toggled", G_CALLBACK (update_button), self);
  return group != NULL ? group : toggle;
}

static void
blank (PinBackFill *self)
{
  g_autoptr (GPtrArray) deeds = pin_inventory_deeds (pin_desk_library (self->choice->desk),
                                                     self->choice->slots);
  GtkWidget *group = NULL;

  pin_field_clear (GTK_WIDGET (self->deeds));
  for (guint i = 0; i < deeds->len; i++)
    {
      const PinDeed *deed = g_ptr_array_index (deeds, i);

      group = add (self, self->deeds, deed->title, deed->id, group);
    }
  pin_field_clear (GTK_WIDGET (self->sure));
  group = add (self, self->sure, _("Sure"), "sure", NULL);
  add (self, self->sure, _("About"), "about", group);
  add (self, self->sure, _("A guess"), "guess", group);
  gtk_editable_set_text (GTK_EDITABLE (self->note), "");
  update_button (self);
}

static void
on_record (PinBackFill *self)
{
  g_autoptr (GPtrArray) deeds = pin_field_toggled (GTK_WIDGET (self->deeds));
  g_autoptr (GPtrArray) sure = pin_field_toggled (GTK_WIDGET (self->sure));
  const char *note = gtk_editable_get_text (GTK_EDITABLE (self->note));
  g_autoptr (GError) error = NULL;
  g_autofree char *day = NULL;
  g_autoptr (PinDeedDone) done = NULL;
  PinDesk *desk;

  if (self->choice == NULL || deeds->len != 2 || sure->len != 2)
    return;
  desk = self->choice->desk;
  day = pin_field_day (GTK_EDITABLE (self->day), &error);
  done = pin_deed_done_new (pin_desk_book (desk), pin_desk_person (desk));
  if (day == NULL
      || !pin_inventory_back_fill (done, pin_desk_library (desk), self->choice->view->car,
                                   self->choice->slots, g_ptr_array_index (deeds, 0),
                                   g_ptr_array_index (sure, 0), day, *note != '\0' ? note : NULL,
                                   &error))
    {
      pin_tell_error (GTK_WIDGET (self), _("It was not written down:"), error);
      return;
    }
  pin_change_write (GTK_WIDGET (self), desk, g_steal_pointer (&done), self->choice->view->car->id, 0,
                    NULL);
}

static void
pin_back_fill_class_init (PinBackFillClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/back-fill.ui");
  gtk_widget_class_bind_template_child (widget_class, PinBackFill, deeds);
  gtk_widget_class_bind_template_child (widget_class, PinBackFill, sure);
  gtk_widget_class_bind_template_child (widget_class, PinBackFill, note);
  gtk_widget_class_bind_template_child (widget_class, PinBackFill, day);
  gtk_widget_class_bind_template_child (widget_class, PinBackFill, record);
  gtk_widget_class_bind_template_callback (widget_class, on_record);
}

static void
pin_back_fill_init (PinBackFill *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* NULL: nothing is chosen. */
void
pin_back_fill_set_choice (PinBackFill *self, const PinChoice *choice)
{
  self->choice = choice;
  if (choice != NULL)
    blank (self);
}
