#include "window/replace-part.h"

#include <glib/gi18n.h>

#include "service/finding-text.h"
#include "window/change.h"
#include "window/fields.h"
#include "window/tell.h"
#include "window/value-entry.h"

struct _PinReplacePart
{
  GtkBox parent_instance;

  const PinChoice *choice;    /* borrowed */

  GtkFlowBox *source, *old_to;/* template */
  PinValueEntry *size;
  GtkEntry *day;
  GtkButton *record, *take_off;
};

G_DEFINE_FINAL_TYPE (PinReplacePart, pin_replace_part, GTK_TYPE_BOX)

static PinSlot *
slot_of (PinReplacePart *self)
{
  return g_ptr_array_index (self->choice->slots, 0);
}

static char *
shelf_words (const PinShelfPart *part)
{
  g_autofree char *from = part->last_vehicle != NULL
                            ? g_strdup_printf (_("from %s"), part->last_vehicle) : g_strdup ("");
  g_autofree char *size = pin_size_text (part->row->size);

  return g_strstrip (g_strdup_printf (_("shelf: %s %s"), size, from));
}

static void
fill_source (PinReplacePart *self)
{
  GtkWidget *group;
  g_autoptr (GPtrArray) parts = NULL;

  pin_field_clear (GTK_WIDGET (self->source));
  group = pin_field_toggle (GTK_WIDGET (self->source), _("A new one"), "0", NULL);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (group), TRUE);
  if (self->choice->shelf == NULL)
    return;
  parts = pin_part_shelf_of (self->choice->shelf, slot_of (self)->kind);
  for (guint i = 0; i < parts->len; i++)
    {
      const PinShelfPart *part = g_ptr_array_index (parts, i);
      g_autofree char *words = shelf_words (part);
      g_autofree char *id = g_strdup_printf ("%" G_GINT64_FORMAT, part->row->id);

      pin_field_toggle (GTK_WIDGET (self->source), words, id, group);
    }
}

static void
fill_old_to (PinReplacePart *self)
{
  static const char *const places[][2] = {
    { N_("Bin"), "bin" }, { N_("Shelf"), "shelf" }, { N_("Sold"), "sold" }, { N_("Lost"), "lost" },
  };
  GtkWidget *group = NULL;

  pin_field_clear (GTK_WIDGET (self->old_to));
  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      GtkWidget *toggle = pin_field_toggle (GTK_WIDGET (self->old_to), _(places[i][0]), places[i][1],
                                            group);

      if (group == NULL)
        group = toggle;
    }
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (group), TRUE);
}

static const char *
toggled (GtkFlowBox *box)
{
  g_autoptr (GPtrArray) ids = pin_field_toggled (GTK_WIDGET (box));

  return g_ptr_array_index (ids, 0);
}

static void
finish (PinReplacePart *self, PinDeedDone *done, gboolean good, GError **error)
{
  if (good)
    {
      pin_change_write (GTK_WIDGET (self), self->choice->desk, done, self->choice->view->car->id, 0,
                        NULL);
      return;
    }
  pin_tell_error (GTK_WIDGET (self), _("Nothing was changed:"), *error);
  pin_deed_done_free (done);
}

static void
on_record (PinReplacePart *self)
{
  PinReplacement how = PIN_REPLACEMENT_INIT;
  g_autoptr (GError) error = NULL;
  g_autofree char *day = NULL;
  PinDeedDone *done;
  PinDesk *desk;

  if (self->choice == NULL)
    return;
  desk = self->choice->desk;
  done = pin_deed_done_new (pin_desk_book (desk), pin_desk_person (desk));
  day = pin_field_day (GTK_EDITABLE (self->day), &error);
  how.day = day;
  how.old_to = toggled (self->old_to);
  how.from_shelf = g_ascii_strtoll (toggled (self->source), NULL, 10);
  how.shelf = self->choice->shelf;
  if (how.from_shelf == 0 && *pin_value_entry_text (self->size) != '\0')
    how.size = pin_value_entry_text (self->size);
  finish (self, done,
          day != NULL && pin_inventory_replace (done, pin_desk_library (desk),
                                                self->choice->view->car, slot_of (self), &how,
                                                &error) != 0,
          &error);
}

static void
on_take_off (PinReplacePart *self)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *day = NULL;
  PinDeedDone *done;
  PinDesk *desk;

  if (self->choice == NULL)
    return;
  desk = self->choice->desk;
  done = pin_deed_done_new (pin_desk_book (desk), pin_desk_person (desk));
  day = pin_field_day (GTK_EDITABLE (self->day), &error);
  finish (self, done,
          day != NULL && pin_inventory_take_off (done, self->choice->view->car, slot_of (self),
                                                 toggled (self->old_to), day, &error),
          &error);
}

static void
pin_replace_part_class_init (PinReplacePartClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (PIN_TYPE_VALUE_ENTRY);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/replace-part.ui");
  gtk_widget_class_bind_template_child (widget_class, PinReplacePart, source);
  gtk_widget_class_bind_template_child (widget_class, PinReplacePart, old_to);
  gtk_widget_class_bind_template_child (widget_class, PinReplacePart, size);
  gtk_widget_class_bind_template_child (widget_class, PinReplacePart, day);
  gtk_widget_class_bind_template_child (widget_class, PinReplacePart, record);
  gtk_widget_class_bind_template_child (widget_class, PinReplacePart, take_off);
  gtk_widget_class_bind_template_callback (widget_class, on_record);
  gtk_widget_class_bind_template_callback (widget_class, on_take_off);
}

static void
pin_replace_part_init (PinReplacePart *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* NULL: nothing is chosen, or several. */
void
pin_replace_part_set_choice (PinReplacePart *self, const PinChoice *choice)
{
  self->choice = choice;
  if (choice == NULL)
    return;
  fill_source (self);
  fill_old_to (self);
  pin_value_entry_set_text (self->size, "");
  gtk_button_set_label (self->record, slot_of (self)->part != 0 ? _("Replace it") : _("Fit it"));
  gtk_widget_set_visible (GTK_WIDGET (self->take_off), slot_of (self)->part != 0);
}
