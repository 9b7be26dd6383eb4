#include "window/correct-part.h"

#include <glib/gi18n.h>

#include "window/change.h"
#include "window/fields.h"
#include "window/tell.h"
#include "window/value-entry.h"

struct _PinCorrectPart
{
  GtkBox parent_instance;

  const PinChoice *choice;    /* borrowed */

  GtkFlowBox *specs, *scope;  /* template */
  PinValueEntry *value;
  GtkEntry *day;
  GtkButton *record;
};

G_DEFINE_FINAL_TYPE (PinCorrectPart, pin_correct_part, GTK_TYPE_BOX)

static PinSlot *
first_slot (PinCorrectPart *self)
{
  return g_ptr_array_index (self->choice->slots, 0);
}

static const char *
chosen_spec (PinCorrectPart *self)
{
  g_autoptr (GPtrArray) specs = pin_field_toggled (GTK_WIDGET (self->specs));

  return g_ptr_array_index (specs, 0);
}

/* The value as it stands, to be corrected rather than typed anew. */
static void
show_value (PinCorrectPart *self)
{
  const char *id = chosen_spec (self);
  const PinSpec *spec = id != NULL ? pin_library_spec (pin_desk_library (self->choice->desk), id) : NULL;
  const PinTrait *trait = id != NULL ? pin_slot_spec (first_slot (self), id) : NULL;
  const char *text = NULL;

  if (trait != NULL)
    text = trait->typed != NULL ? trait->typed : trait->text;
  else if (g_strcmp0 (id, "size") == 0)
    text = first_slot (self)->size;
  pin_value_entry_set_text (self->value, text != NULL ? text : "");
  g_object_set (self->value, "unit", spec != NULL && spec->unit != NULL ? spec->unit->symbol : "",
                NULL);
  gtk_widget_set_sensitive (GTK_WIDGET (self->record), id != NULL);
}

static GtkWidget *
add (PinCorrectPart *self, const char *label, const char *id, GtkWidget *group)
{
  GtkWidget *toggle = pin_field_toggle (GTK_WIDGET (self->specs), label, id, group);

  g_signal_connect_swapped (toggle, "toggled", G_CALLBACK (show_value), self);
  return group != NULL ? group : toggle;
}

static void
fill_specs (PinCorrectPart *self)
{
  PinLibrary *library = pin_desk_library (self->choice->desk);
  const PinPartKind *kind = pin_library_kind (library, first_slot (self)->kind);
  GtkWidget *group = NULL;
  gboolean has_size = FALSE;

  pin_field_clear (GTK_WIDGET (self->specs));
  for (guint i = 0; kind != NULL && kind->specs != NULL && kind->specs[i] != NULL; i++)
    {
      const PinSpec *spec = pin_library_spec (library, kind->specs[i]);

      has_size = has_size || g_str_equal (kind->specs[i], "size");
      group = add (self, spec != NULL ? spec->title : kind->specs[i], kind->specs[i], group);
    }
  if (!has_size)
    group = add (self, _("Size"), "size", group);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (group), TRUE);
}

static void
fill_scope (PinCorrectPart *self)
{
  g_autoptr (GPtrArray) alike = pin_inventory_alike (self->choice->view->car, first_slot (self));
  guint n = self->choice->slots->len;
  g_autofree char *these = n == 1 ? g_strdup (_("Only this one"))
                                  : g_strdup_printf (_("Only these %u"), n);
  GtkWidget *group;

  pin_field_clear (GTK_WIDGET (self->scope));
  group = pin_field_toggle (GTK_WIDGET (self->scope), these, "these", NULL);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (group), TRUE);
  if (alike->len > n)
    {
      g_autofree char *all = g_strdup_printf (_("All %u alike"), alike->len);

      pin_field_toggle (GTK_WIDGET (self->scope), all, "alike", group);
    }
}

static void
on_record (PinCorrectPart *self)
{
  g_autoptr (GPtrArray) scope = pin_field_toggled (GTK_WIDGET (self->scope));
  g_autoptr (GPtrArray) slots = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *day = NULL;
  g_autoptr (PinDeedDone) done = NULL;
  const PinChoice *choice = self->choice;

  if (choice == NULL || chosen_spec (self) == NULL)
    return;
  slots = g_strcmp0 (g_ptr_array_index (scope, 0), "alike") == 0
            ? pin_inventory_alike (choice->view->car, first_slot (self))
            : g_ptr_array_ref (choice->slots);
  day = pin_field_day (GTK_EDITABLE (self->day), &error);
  done = pin_deed_done_new (pin_desk_book (choice->desk), pin_desk_person (choice->desk));
  if (day == NULL
      || !pin_inventory_set_spec (done, pin_desk_library (choice->desk), choice->view->car, slots,
                                  chosen_spec (self), pin_value_entry_text (self->value), day,
                                  &error))
    {
      pin_tell_error (GTK_WIDGET (self), _("It was not corrected:"), error);
      return;
    }
  pin_change_write (GTK_WIDGET (self), choice->desk, g_steal_pointer (&done),
                    choice->view->car->id, 0, NULL);
}

static void
pin_correct_part_class_init (PinCorrectPartClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (PIN_TYPE_VALUE_ENTRY);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/correct-part.ui");
  gtk_widget_class_bind_template_child (widget_class, PinCorrectPart, specs);
  gtk_widget_class_bind_template_child (widget_class, PinCorrectPart, scope);
  gtk_widget_class_bind_template_child (widget_class, PinCorrectPart, value);
  gtk_widget_class_bind_template_child (widget_class, PinCorrectPart, day);
  gtk_widget_class_bind_template_child (widget_class, PinCorrectPart, record);
  gtk_widget_class_bind_template_callback (widget_class, on_record);
}

static void
pin_correct_part_init (PinCorrectPart *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* NULL: nothing is chosen. */
void
pin_correct_part_set_choice (PinCorrectPart *self, const PinChoice *choice)
{
  self->choice = choice;
  if (choice == NULL)
    return;
  fill_specs (self);
  fill_scope (self);
  show_value (self);
}
