#include "window/reckoner-form.h"

#include <glib/gi18n.h>
#include <string.h>

#include "library/quantity.h"
#include "window/fields.h"
#include "window/value-entry.h"

struct _PinReckonerForm
{
  GtkBox parent_instance;

  const PinSum *sum;
  GPtrArray *rows;            /* Row* */
  GtkSizeGroup *widths;       /* of the controls; owned */
  gboolean settling;          /* rows are being set, not used */
};

G_DEFINE_FINAL_TYPE (PinReckonerForm, pin_reckoner_form, GTK_TYPE_BOX)

static guint changed;

typedef struct
{
  const PinInput *input;
  GtkWidget *control;         /* PinValueEntry or GtkDropDown */
  GtkLabel *origin;
} Row;

static Row *
find_row (PinReckonerForm *self, const char *id)
{
  for (guint i = 0; i < self->rows->len; i++)
    {
      Row *row = g_ptr_array_index (self->rows, i);

      if (g_str_equal (row->input->id, id))
        return row;
    }
  return NULL;
}

static void
show_origin (Row *row, const char *text)
{
  gtk_label_set_label (row->origin, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (row->origin), text != NULL && *text != '\0');
}

/* What was changed by hand is from nowhere else any more. */
static void
on_changed (GtkWidget *control, PinReckonerForm *self)
{
  if (self->settling)
    return;
  for (guint i = 0; i < self->rows->len; i++)
    {
      Row *row = g_ptr_array_index (self->rows, i);

      if (row->control == control)
        show_origin (row, row->input->hint != NULL ? _(row->input->hint) : NULL);
    }
  g_signal_emit (self, changed, 0);
}

static void
on_selected (GObject *control, GParamSpec *pspec, PinReckonerForm *self)
{
  on_changed (GTK_WIDGET (control), self);
}

/* ---- rows ---------------------------------------------------------------------------- */

static char *
placeholder_of (const PinInput *input)
{
  if (input->kind == PIN_INPUT_LIST)
    return g_strdup (_("several, by commas"));
  if (input->kind == PIN_INPUT_PAIRS)
    return g_strdup_printf ("12 %s:34 %s", pin_unit_find (input->unit)->symbol,
                            pin_unit_find (input->second)->symbol);
  return g_strdup (input->preset != NULL && *input->preset == '\0' ? _("may be left out") : "");
}

static gboolean
takes_several (const PinInput *input)
{
  return input->kind == PIN_INPUT_LIST || input->kind == PIN_INPUT_PAIRS;
}

static GtkWidget *
entry_for (PinReckonerForm *self, const PinInput *input)
{
  const char *unit = input->kind == PIN_INPUT_PAIRS ? "" : pin_unit_find (input->unit)->symbol;
  GtkWidget *entry = pin_value_entry_new (_(input->title), unit);
  g_autofree char *placeholder = placeholder_of (input);

  g_object_set (entry, "placeholder", placeholder, NULL);
  gtk_editable_set_width_chars (GTK_EDITABLE (pin_value_entry_entry (PIN_VALUE_ENTRY (entry))),
                                takes_several (input) ? 24 : 11);
  gtk_widget_set_hexpand (entry, takes_several (input));
  g_signal_connect (entry, "changed", G_CALLBACK (on_changed), self);
  return entry;
}

/* One that may be left out is left out until somebody chooses. */
static gboolean
may_be_blank (const PinInput *input)
{
  return input->preset != NULL && *input->preset == '\0';
}

static GtkWidget *
choice_for (PinReckonerForm *self, const PinInput *input)
{
  GtkStringList *words = gtk_string_list_new (may_be_blank (input) ? (const char *[]) { _("not said"), NULL } : NULL);
  GtkWidget *choice = gtk_drop_down_new (G_LIST_MODEL (words), NULL);

  for (int i = 0; input->choices[i] != NULL; i++)
    gtk_string_list_append (words, input->choices[i]);

  pin_field_name (choice, _(input->title));
  g_signal_connect (choice, "notify::selected", G_CALLBACK (on_selected), self);
  return choice;
}

/* Several values need the whole width, one stands beside its name. */
static void
add_row (PinReckonerForm *self, const PinInput *input)
{
  gboolean several = takes_several (input);
  Row *row = g_new0 (Row, 1);
  GtkWidget *line = gtk_box_new (several ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL, several ? 3 : 12);
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *label = gtk_label_new (_(input->title));

  row->input = input;
  row->control = input->kind == PIN_INPUT_CHOICE ? choice_for (self, input) : entry_for (self, input);
  row->origin = GTK_LABEL (gtk_label_new (NULL));
  gtk_widget_add_css_class (GTK_WIDGET (row->origin), "caption");
  gtk_label_set_wrap (row->origin, TRUE);
  gtk_label_set_xalign (row->origin, 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_widget_set_valign (words, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (row->control, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (words), label);
  gtk_box_append (GTK_BOX (words), GTK_WIDGET (row->origin));
  gtk_box_append (GTK_BOX (line), words);
  gtk_box_append (GTK_BOX (line), row->control);
  gtk_box_append (GTK_BOX (self), line);
  if (!several)
    gtk_size_group_add_widget (self->widths, row->control);
  g_ptr_array_add (self->rows, row);
}

static guint
choice_index (const PinInput *input, const char *typed)
{
  for (guint i = 0; typed != NULL && input->choices[i] != NULL; i++)
    if (g_str_equal (input->choices[i], typed))
      return i + may_be_blank (input);
  return 0;
}

static const char *
choice_text (const Row *row)
{
  guint at = gtk_drop_down_get_selected (GTK_DROP_DOWN (row->control));

  if (may_be_blank (row->input))
    return at == 0 ? "" : row->input->choices[at - 1];
  return row->input->choices[at];
}

/* The unit that stands behind the entry need not stand in it too. */
static char *
without_unit (const PinInput *input, const char *typed)
{
  const char *symbol = input->kind == PIN_INPUT_VALUE ? pin_unit_find (input->unit)->symbol : "";
  char *text = g_strdup (typed);

  if (*symbol != '\0' && g_str_has_suffix (text, symbol))
    text[strlen (text) - strlen (symbol)] = '\0';
  return g_strchomp (text);
}

static void
set_row (Row *row, const char *typed)
{
  g_autofree char *text = without_unit (row->input, typed != NULL ? typed : "");

  if (row->input->kind == PIN_INPUT_CHOICE)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (row->control), choice_index (row->input, typed));
  else
    pin_value_entry_set_text (PIN_VALUE_ENTRY (row->control), text);
}

static const char *
row_text (const Row *row)
{
  if (row->input->kind == PIN_INPUT_CHOICE)
    return choice_text (row);
  return pin_value_entry_text (PIN_VALUE_ENTRY (row->control));
}

/* ---- class ------------------------------------------------------------------------------ */

static void
pin_reckoner_form_finalize (GObject *object)
{
  g_ptr_array_unref (PIN_RECKONER_FORM (object)->rows);
  g_object_unref (PIN_RECKONER_FORM (object)->widths);
  G_OBJECT_CLASS (pin_reckoner_form_parent_class)->finalize (object);
}

static void
pin_reckoner_form_class_init (PinReckonerFormClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = pin_reckoner_form_finalize;
  changed = g_signal_new ("changed", PIN_TYPE_RECKONER_FORM, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
pin_reckoner_form_init (PinReckonerForm *self)
{
  self->rows = g_ptr_array_new_with_free_func (g_free);
  self->widths = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 6);
}

/* The usual value, in the unit that stands behind the entry. */
static char *
preset_text (const PinInput *input)
{
  const PinUnit *unit = input->kind == PIN_INPUT_VALUE ? pin_unit_find (input->unit) : NULL;
  double value;

  if (unit == NULL || input->preset == NULL || *input->preset == '\0'
      || !pin_value_parse (input->preset, unit, &value, NULL, NULL))
    return g_strdup (input->preset);
  return pin_number_format (pin_unit_to (unit, value), -1);
}

void
pin_reckoner_form_set_sum (PinReckonerForm *self, const PinSum *sum, GHashTable *typed)
{
  self->settling = TRUE;
  pin_field_clear (GTK_WIDGET (self));
  g_ptr_array_set_size (self->rows, 0);
  self->sum = sum;
  for (const PinInput *input = sum->inputs; input->id != NULL; input++)
    {
      g_autofree char *text = typed != NULL ? g_strdup (g_hash_table_lookup (typed, input->id)) : preset_text (input);
      Row *row;

      add_row (self, input);
      row = g_ptr_array_index (self->rows, self->rows->len - 1);
      set_row (row, text);
      show_origin (row, input->hint != NULL ? _(input->hint) : NULL);
    }
  self->settling = FALSE;
}

/* Without what was left empty. */
GHashTable *
pin_reckoner_form_typed (PinReckonerForm *self)
{
  GHashTable *typed = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);

  for (guint i = 0; i < self->rows->len; i++)
    {
      const Row *row = g_ptr_array_index (self->rows, i);
      g_autofree char *text = g_strstrip (g_strdup (row_text (row)));

      if (*text != '\0')
        g_hash_table_insert (typed, g_strdup (row->input->id), g_steal_pointer (&text));
    }
  return typed;
}

void
pin_reckoner_form_fill (PinReckonerForm *self, const char *input, const char *typed, const char *origin)
{
  Row *row = find_row (self, input);

  if (row == NULL)
    return;
  self->settling = TRUE;
  set_row (row, typed);
  self->settling = FALSE;
  show_origin (row, origin);
}

void
pin_reckoner_form_mark (PinReckonerForm *self, const char *input)
{
  for (guint i = 0; i < self->rows->len; i++)
    {
      const Row *row = g_ptr_array_index (self->rows, i);
      gboolean wrong = g_strcmp0 (row->input->id, input) == 0;

      if (wrong)
        gtk_widget_add_css_class (row->control, "error");
      else
        gtk_widget_remove_css_class (row->control, "error");
      gtk_accessible_update_state (GTK_ACCESSIBLE (row->control), GTK_ACCESSIBLE_STATE_INVALID,
                                   wrong ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
    }
}
