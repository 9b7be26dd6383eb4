#include "window/condition-list.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "window/fields.h"
#include "window/flow-child.h"
#include "window/value-entry.h"

struct _PinConditionList
{
  GtkBox parent_instance;

  GtkWidget *flow;
  PinDraft *draft;            /* borrowed until cleared */
};

G_DEFINE_FINAL_TYPE (PinConditionList, pin_condition_list, GTK_TYPE_BOX)

static guint changed;

/* The title of a condition without its unit, which stands behind the last comma
 * if it has one: "air temperature, °C".  Free with g_free(). */
char *
pin_condition_title (const char *title, const PinUnit **unit)
{
  const char *comma = g_strrstr (title, ", ");

  *unit = comma != NULL ? pin_unit_find (comma + 2) : NULL;
  return *unit != NULL ? g_strndup (title, comma - title) : g_strdup (title);
}

/* The value of one in "ambient=18;wheels=off"; NULL if it is not there. */
char *
pin_condition_of (const char *conditions, const char *name)
{
  g_auto (GStrv) pairs = g_strsplit (conditions != NULL ? conditions : "", ";", -1);
  gsize length = strlen (name);

  for (guint i = 0; pairs[i] != NULL; i++)
    if (strncmp (pairs[i], name, length) == 0 && pairs[i][length] == '=')
      return g_strdup (pairs[i] + length + 1);
  return NULL;
}

/* What was said last in this walk, or NULL. */
static char *
said_last (const PinWalk *walk, const char *name)
{
  const PinWalkRows *rows = pin_walk_rows (walk);
  g_autoptr (GHashTable) mine = g_hash_table_new (g_int64_hash, g_int64_equal);
  char *said = NULL;

  for (guint i = 0; i < rows->answers->len; i++)
    g_hash_table_add (mine, &((PinAnswer *) g_ptr_array_index (rows->answers, i))->id);
  for (guint i = rows->readings->len; i > 0 && said == NULL; i--)
    {
      const PinReading *reading = g_ptr_array_index (rows->readings, i - 1);

      if (g_hash_table_contains (mine, &reading->answer))
        said = pin_condition_of (reading->conditions, name);
    }
  return said;
}

/* Numbers are kept in the condition's unit, so that readings taken nearly alike
 * find one another; other words as they are. */
static char *
kept_as (const char *text, const PinUnit *unit, gboolean *understood)
{
  double value;

  *understood = unit == NULL || pin_value_parse (text, unit, &value, NULL, NULL);
  if (unit == NULL || !*understood)
    return g_strdup (text);
  value = pin_unit_to (unit, value);
  return pin_number_format (value, fabs (value - round (value)) < 0.05 ? 0 : 1);
}

static void
on_typed (GtkEditable *editable, PinConditionList *self)
{
  const char *name = g_object_get_data (G_OBJECT (editable), "pin-id");
  const PinUnit *unit = g_object_get_data (G_OBJECT (editable), "pin-unit");
  GtkWidget *frame = g_object_get_data (G_OBJECT (editable), "pin-frame");
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (editable)));
  gboolean understood = TRUE;

  if (self->draft == NULL)
    return;
  if (*text != '\0')
    g_hash_table_insert (self->draft->conditions, g_strdup (name), kept_as (text, unit, &understood));
  else
    g_hash_table_remove (self->draft->conditions, name);
  if (understood)
    gtk_widget_remove_css_class (frame, "error");
  else
    gtk_widget_add_css_class (frame, "error");
  g_signal_emit (self, changed, 0);
}

static void
add_field (PinConditionList *self, const char *name, const char *full, const char *value)
{
  const PinUnit *unit;
  g_autofree char *title = pin_condition_title (full, &unit);
  g_autofree char *label = g_strdup_printf (_("Condition: %s"), title);
  GtkWidget *field = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  GtkWidget *caption = gtk_label_new (title);
  GtkWidget *entry = pin_value_entry_new (label, unit != NULL ? unit->symbol : NULL);
  GtkWidget *text = pin_value_entry_entry (PIN_VALUE_ENTRY (entry));

  gtk_widget_add_css_class (caption, "bench-caption");
  gtk_widget_add_css_class (entry, "condition");
  gtk_editable_set_width_chars (GTK_EDITABLE (text), unit != NULL ? 5 : 12);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (text), unit != NULL ? 6 : 16);
  pin_value_entry_set_text (PIN_VALUE_ENTRY (entry), value != NULL ? value : "");
  g_object_set_data_full (G_OBJECT (text), "pin-id", g_strdup (name), g_free);
  g_object_set_data (G_OBJECT (text), "pin-unit", (gpointer) unit);
  g_object_set_data (G_OBJECT (text), "pin-frame", entry);
  g_signal_connect (text, "changed", G_CALLBACK (on_typed), self);
  gtk_box_append (GTK_BOX (field), caption);
  gtk_box_append (GTK_BOX (field), entry);
  pin_flow_add (GTK_FLOW_BOX (self->flow), field);
}

static void
pin_condition_list_class_init (PinConditionListClass *klass)
{
  changed = g_signal_new ("changed", PIN_TYPE_CONDITION_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                          G_TYPE_NONE, 0);
}

static void
pin_condition_list_init (PinConditionList *self)
{
  self->flow = gtk_flow_box_new ();
  gtk_flow_box_set_selection_mode (GTK_FLOW_BOX (self->flow), GTK_SELECTION_NONE);
  gtk_flow_box_set_column_spacing (GTK_FLOW_BOX (self->flow), 18);
  gtk_flow_box_set_row_spacing (GTK_FLOW_BOX (self->flow), 6);
  gtk_flow_box_set_max_children_per_line (GTK_FLOW_BOX (self->flow), 3);
  gtk_widget_set_hexpand (self->flow, TRUE);
  gtk_widget_set_halign (self->flow, GTK_ALIGN_START);
  pin_field_name (self->flow, _("conditions of the reading"));
  gtk_box_append (GTK_BOX (self), self->flow);
}

/* What the walk knows of itself (what is off the car) is not asked for.  All are
 * borrowed until the next call or pin_condition_list_clear(). */
void
pin_condition_list_set (PinConditionList *self, PinLibrary *library, const PinWalk *walk,
                        const PinMeasure *measure, PinDraft *draft)
{
  const PinChassis *chassis = pin_walk_car (walk)->chassis;

  self->draft = NULL;
  pin_field_clear (self->flow);
  for (guint i = 0; measure->conditions != NULL && measure->conditions[i] != NULL; i++)
    {
      const char *name = measure->conditions[i];
      const PinCondition *condition = pin_library_condition (library, name);
      g_autofree char *last = NULL;

      if (pin_chassis_assembly (chassis, name) != NULL)
        continue;
      if (!g_hash_table_contains (draft->conditions, name) && (last = said_last (walk, name)) != NULL)
        g_hash_table_insert (draft->conditions, g_strdup (name), g_strdup (last));
      add_field (self, name, condition != NULL ? condition->title : name,
                 g_hash_table_lookup (draft->conditions, name));
    }
  self->draft = draft;
  gtk_widget_set_visible (GTK_WIDGET (self), gtk_widget_get_first_child (self->flow) != NULL);
}

void
pin_condition_list_clear (PinConditionList *self)
{
  self->draft = NULL;
}
