#include "window/reckoner-results.h"

#include <glib/gi18n.h>
#include <math.h>

#include "library/quantity.h"
#include "window/fields.h"
#include "window/mark-image.h"

#define MOST_ROWS 60          /* of a table: more than that nobody reads off a screen */

static GtkWidget *
label_new (const char *text, float xalign, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), xalign);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

static void
clear_grid (GtkGrid *grid)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (grid))) != NULL)
    gtk_grid_remove (grid, child);
}

/* ---- values ----------------------------------------------------------------------------- */

static char *
value_text (const PinResult *result)
{
  const PinUnit *unit;
  g_autofree char *value = NULL;
  g_autofree char *about = NULL;

  if (result->output->kind == PIN_OUTPUT_TEXT)
    return g_strdup (result->text);
  unit = pin_unit_find (result->output->unit);
  value = pin_value_format (result->value, unit, result->output->decimals);
  if (isnan (result->uncertainty))
    return g_steal_pointer (&value);
  about = pin_number_format (pin_unit_to (unit, result->uncertainty) - pin_unit_to (unit, 0),
                             result->output->decimals + 1);
  return g_strdup_printf ("%s ± %s", value, about);
}

void
pin_results_show_values (GtkGrid *grid, const PinReckoning *reckoning)
{
  int row = 0;

  clear_grid (grid);
  for (guint i = 0; reckoning != NULL && i < reckoning->results->len; i++)
    {
      const PinResult *result = g_ptr_array_index (reckoning->results, i);
      g_autofree char *text = NULL;
      g_autofree char *name = NULL;
      GtkWidget *title, *value;

      if (!result->set || result->output->kind == PIN_OUTPUT_TABLE || result->output->kind == PIN_OUTPUT_GATE)
        continue;
      text = value_text (result);
      name = g_strdup_printf ("%s: %s", _(result->output->title), text);
      title = label_new (_(result->output->title), 0, NULL);
      value = label_new (text, 1, "strong");
      gtk_widget_set_hexpand (title, TRUE);
      gtk_widget_add_css_class (value, "numeric");
      pin_field_name (value, name);
      gtk_grid_attach (grid, title, 0, row, 1, 1);
      gtk_grid_attach (grid, value, 1, row++, 1, 1);
    }
}

/* ---- tables ------------------------------------------------------------------------------ */

static char *
cell_text (const PinCell *cell, const PinColumn *column)
{
  if (column->unit == NULL)
    return g_strdup (cell->text != NULL ? cell->text : "");
  return isnan (cell->value) ? g_strdup ("")
                             : pin_number_format (pin_unit_to (pin_unit_find (column->unit), cell->value),
                                                  column->decimals);
}

static void
add_head (GtkGrid *grid, const PinColumn *column, int at)
{
  const char *symbol = column->unit != NULL ? pin_unit_find (column->unit)->symbol : "";
  g_autofree char *text = g_strdup_printf ("%s%s%s", _(column->title), *symbol ? ", " : "", symbol);
  GtkWidget *label = label_new (text, column->unit != NULL, "caption");

  gtk_grid_attach (grid, label, at, 0, 1, 1);
}

static void
add_cells (GtkGrid *grid, const PinResult *result, guint nth)
{
  GArray *row = g_ptr_array_index (result->rows, nth);

  for (guint j = 0; j < row->len; j++)
    {
      const PinColumn *column = &result->output->columns[j];
      g_autofree char *text = cell_text (&g_array_index (row, PinCell, j), column);
      GtkWidget *label = label_new (text, column->unit != NULL, "numeric");

      if ((int) nth == result->marked)
        gtk_widget_add_css_class (label, "strong");
      gtk_grid_attach (grid, label, j, nth + 1, 1, 1);
    }
}

static void
add_table (GtkBox *box, const PinResult *result)
{
  GtkWidget *grid = gtk_grid_new ();
  guint n = MIN (result->rows->len, MOST_ROWS);

  gtk_grid_set_column_spacing (GTK_GRID (grid), 18);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 6);
  gtk_widget_add_css_class (grid, "reckoner-table");
  pin_field_name (grid, _(result->output->title));
  for (int i = 0; result->output->columns[i].id != NULL; i++)
    add_head (GTK_GRID (grid), &result->output->columns[i], i);
  for (guint i = 0; i < n; i++)
    add_cells (GTK_GRID (grid), result, i);
  gtk_box_append (box, label_new (_(result->output->title), 0, "heading"));
  gtk_box_append (box, grid);
  if (n < result->rows->len)
    {
      g_autofree char *more = g_strdup_printf (_("and %u more"), result->rows->len - n);

      gtk_box_append (box, label_new (more, 0, "secondary"));
    }
}

void
pin_results_show_tables (GtkBox *box, const PinReckoning *reckoning)
{
  pin_field_clear (GTK_WIDGET (box));
  for (guint i = 0; reckoning != NULL && i < reckoning->results->len; i++)
    {
      const PinResult *result = g_ptr_array_index (reckoning->results, i);

      if (result->set && result->output->kind == PIN_OUTPUT_TABLE && result->rows->len > 0)
        add_table (box, result);
    }
  gtk_widget_set_visible (GTK_WIDGET (box), gtk_widget_get_first_child (GTK_WIDGET (box)) != NULL);
}

/* ---- gates ---------------------------------------------------------------------------------- */

static void
add_gate (GtkBox *box, const PinResult *result)
{
  static const struct { PinOutcome outcome; const char *word; } gates[] = {
    [PIN_GATE_UNKNOWN] = { PIN_OUTCOME_NOT_CHECKED, N_("not known") },
    [PIN_GATE_MET] = { PIN_OUTCOME_PASS, N_("met") },
    [PIN_GATE_NOT_MET] = { PIN_OUTCOME_FAIL, N_("not met") },
  };
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  GtkWidget *word = label_new (_(gates[result->gate].word), 0, result->gate == PIN_GATE_NOT_MET ? "fail-word" : NULL);
  GtkWidget *title = label_new (_(result->output->title), 0, NULL);

  gtk_label_set_width_chars (GTK_LABEL (word), 9);
  gtk_widget_set_hexpand (title, TRUE);
  gtk_box_append (GTK_BOX (line), pin_field_first_line (
                    pin_mark_image_new (gates[result->gate].outcome, FALSE, 15), 18));
  gtk_box_append (GTK_BOX (line), word);
  gtk_box_append (GTK_BOX (line), title);
  gtk_box_append (GTK_BOX (line), label_new (result->text, 1, "secondary"));
  gtk_box_append (box, line);
}

void
pin_results_show_gates (GtkBox *box, const PinReckoning *reckoning)
{
  pin_field_clear (GTK_WIDGET (box));
  for (guint i = 0; reckoning != NULL && i < reckoning->results->len; i++)
    {
      const PinResult *result = g_ptr_array_index (reckoning->results, i);

      if (result->set && result->output->kind == PIN_OUTPUT_GATE)
        add_gate (box, result);
    }
  gtk_widget_set_visible (GTK_WIDGET (box), gtk_widget_get_first_child (GTK_WIDGET (box)) != NULL);
}

/* ---- how it is worked out, and what to mind ---------------------------------------------------- */

void
pin_results_show_working (GtkBox *box, const PinSum *sum, const PinReckoning *reckoning)
{
  g_autofree char *source = g_strdup_printf (_("Source: %s"), _(sum->source));

  pin_field_clear (GTK_WIDGET (box));
  for (int i = 0; sum->formulas[i] != NULL; i++)
    {
      const char *figures = reckoning != NULL ? g_ptr_array_index (reckoning->figures, i) : NULL;

      gtk_box_append (box, label_new (_(sum->formulas[i]), 0, NULL));
      if (figures != NULL)
        gtk_box_append (box, label_new (figures, 0, "secondary"));
    }
  gtk_box_append (box, label_new (source, 0, "caption"));
  gtk_box_append (box, label_new (_(sum->validity), 0, "caption"));
}

void
pin_results_show_warnings (GtkBox *box, const PinReckoning *reckoning)
{
  pin_field_clear (GTK_WIDGET (box));
  for (guint i = 0; reckoning != NULL && i < reckoning->warnings->len; i++)
    {
      GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);

      gtk_box_append (GTK_BOX (line), pin_field_first_line (pin_mark_image_new (PIN_OUTCOME_WATCH, FALSE, 15), 18));
      gtk_box_append (GTK_BOX (line), label_new (g_ptr_array_index (reckoning->warnings, i), 0, NULL));
      gtk_box_append (box, line);
    }
  gtk_widget_set_visible (GTK_WIDGET (box), gtk_widget_get_first_child (GTK_WIDGET (box)) != NULL);
}
