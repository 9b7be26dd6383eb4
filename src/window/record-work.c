#include "window/record-work.h"

#include <glib/gi18n.h>

#include "window/change.h"
#include "window/fields.h"
#include "window/tell.h"

struct _PinRecordWork
{
  GtkBox parent_instance;

  const PinChoice *choice;    /* borrowed */

  GtkFlowBox *deeds;          /* template */
  GtkEntry *note, *day;
  GtkButton *record;
};

G_DEFINE_FINAL_TYPE (PinRecordWork, pin_record_work, GTK_TYPE_BOX)

static void
update_button (PinRecordWork *self)
{
  g_autoptr (GPtrArray) deeds = pin_field_toggled (GTK_WIDGET (self->deeds));
  guint n = self->choice != NULL ? self->choice->slots->len : 0;
  g_autofree char *label = g_strdup_printf (ngettext ("Record for %u part", "Record for %u parts", n), n);

  gtk_button_set_label (self->record, label);
  gtk_widget_set_sensitive (GTK_WIDGET (self->record), deeds->len > 1);
}

static void
blank (PinRecordWork *self)
{
  g_autoptr (GPtrArray) deeds = pin_inventory_deeds (pin_desk_library (self->choice->desk),
                                                     self->choice->slots);

  pin_field_clear (GTK_WIDGET (self->deeds));
  for (guint i = 0; i < deeds->len; i++)
    {
      const PinDeed *deed = g_ptr_array_index (deeds, i);
      GtkWidget *toggle = pin_field_toggle (GTK_WIDGET (self->deeds), deed->title, deed->id, NULL);

      g_signal_connect_swapped (toggle, "toggled", G_CALLBACK (update_button), self);
    }
  gtk_editable_set_text (GTK_EDITABLE (self->note), "");
  update_button (self);
}

static void
on_record (PinRecordWork *self)
{
  g_autoptr (GPtrArray) deeds = pin_field_toggled (GTK_WIDGET (self->deeds));
  PinWorkDone work = PIN_WORK_DONE_INIT;
  g_autoptr (GError) error = NULL;
  g_autofree char *day = NULL;
  g_autoptr (PinDeedDone) done = NULL;
  PinDesk *desk;

  if (self->choice == NULL || deeds->len < 2)
    return;
  desk = self->choice->desk;
  day = pin_field_day (GTK_EDITABLE (self->day), &error);
  done = pin_deed_done_new (pin_desk_book (desk), pin_desk_person (desk));
  work.deeds = (const char *const *) deeds->pdata;
  work.day = day;
  work.note = gtk_editable_get_text (GTK_EDITABLE (self->note));
  if (*work.note == '\0')
    work.note = NULL;
  if (day == NULL
      || !pin_inventory_work (done, pin_desk_library (desk), self->choice->view->car,
                              self->choice->slots, &work, &error))
    {
      pin_tell_error (GTK_WIDGET (self), _("The work was not recorded:"), error);
      return;
    }
  pin_change_write (GTK_WIDGET (self), desk, g_steal_pointer (&done), self->choice->view->car->id, 0,
                    NULL);
}

static void
pin_record_work_class_init (PinRecordWorkClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/record-work.ui");
  gtk_widget_class_bind_template_child (widget_class, PinRecordWork, deeds);
  gtk_widget_class_bind_template_child (widget_class, PinRecordWork, note);
  gtk_widget_class_bind_template_child (widget_class, PinRecordWork, day);
  gtk_widget_class_bind_template_child (widget_class, PinRecordWork, record);
  gtk_widget_class_bind_template_callback (widget_class, on_record);
}

static void
pin_record_work_init (PinRecordWork *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* NULL: nothing is chosen. */
void
pin_record_work_set_choice (PinRecordWork *self, const PinChoice *choice)
{
  self->choice = choice;
  if (choice != NULL)
    blank (self);
}
