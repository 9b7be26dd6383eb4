/* reckon */

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "library/quantity.h"
#include "reckoner/reckoning.h"
#include "terminal/session.h"

/* ---- what there is ---------------------------------------------------------------------------- */

static const char *
kind_word (PinInputKind kind)
{
  static const char *const words[] = { "value", "list", "pairs", "choice", "any", "unit" };

  return words[kind];
}

static char *
bounds_text (double least, double most, const char *unit)
{
  g_autofree char *low = pin_number_format (least, -1);
  g_autofree char *high = pin_number_format (most, -1);
  const char *symbol = pin_unit_find (unit)->symbol;

  return g_strdup_printf (_("%s to %s%s%s"), low, high, *symbol ? " " : "", symbol);
}

/* "6 to 80 T", "ackermann, parallel", "0 to 3600 s : 0 to 300 °C". */
static char *
range_text (const PinInput *input)
{
  g_autofree char **ids = NULL;
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;

  if (input->kind == PIN_INPUT_CHOICE)
    return g_strjoinv (", ", (char **) input->choices);
  if (input->kind == PIN_INPUT_ANY)
    return g_strdup (_("a number with any unit"));
  if (input->kind == PIN_INPUT_UNIT)
    return g_strjoinv (", ", ids = (char **) pin_unit_ids ());
  first = bounds_text (input->least, input->most, input->unit);
  if (input->kind != PIN_INPUT_PAIRS)
    return g_steal_pointer (&first);
  second = bounds_text (input->second_least, input->second_most, input->second);
  return g_strdup_printf ("%s : %s", first, second);
}

static char *
preset_text (const PinInput *input)
{
  if (input->preset == NULL)
    return g_strdup (_("has to be given"));
  if (*input->preset == '\0')
    return g_strdup (_("may be left out"));
  return g_strdup_printf (_("%s unless given"), input->preset);
}

static void
print_sum (const PinSum *sum)
{
  g_print ("%s: %s\n\n", sum->id, _(sum->about));
  for (const PinInput *input = sum->inputs; input->id != NULL; input++)
    {
      g_autofree char *range = range_text (input);
      g_autofree char *preset = preset_text (input);

      g_print ("  %-18s %s: %s, %s%s%s\n", input->id, _(input->title), range, preset,
               input->hint != NULL ? ". " : "", input->hint != NULL ? _(input->hint) : "");
    }
  g_print ("\n");
  for (int i = 0; sum->formulas[i] != NULL; i++)
    g_print ("  %s\n", _(sum->formulas[i]));
  g_print (_("\nSource: %s\nHolds: %s\n"), _(sum->source), _(sum->validity));
  if (sum->hazard != NULL)
    g_print ("%s\n", _(sum->hazard));
}

/* json-glib writes 8e+18 as “8e+18.0”, which is no JSON; the neighbour of such a
 * number has digits behind its point. */
static void
add_number (JsonBuilder *builder, double number)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  while (strchr (g_ascii_dtostr (text, sizeof text, number), 'e') != NULL && strchr (text, '.') == NULL)
    number = nextafter (number, 0);
  json_builder_add_double_value (builder, number);
}

static void
json_bounds (JsonBuilder *builder, const char *unit, double least, double most)
{
  pin_json_text (builder, "unit", unit);
  json_builder_set_member_name (builder, "least");
  add_number (builder, least);
  json_builder_set_member_name (builder, "most");
  add_number (builder, most);
}

static void
json_input (JsonBuilder *builder, const PinInput *input)
{
  json_builder_begin_object (builder);
  pin_json_text (builder, "name", input->id);
  pin_json_text (builder, "title", input->title);
  pin_json_text (builder, "kind", kind_word (input->kind));
  if (input->kind == PIN_INPUT_CHOICE)
    {
      pin_json_list (builder, "choices");
      for (int i = 0; input->choices[i] != NULL; i++)
        json_builder_add_string_value (builder, input->choices[i]);
      pin_json_list_end (builder);
    }
  else if (input->kind != PIN_INPUT_ANY && input->kind != PIN_INPUT_UNIT)
    {
      json_bounds (builder, input->unit, input->least, input->most);
      pin_json_bool (builder, "whole", input->whole);
    }
  if (input->kind == PIN_INPUT_PAIRS)
    {
      json_builder_set_member_name (builder, "second");
      json_builder_begin_object (builder);
      json_bounds (builder, input->second, input->second_least, input->second_most);
      json_builder_end_object (builder);
    }
  pin_json_bool (builder, "needed", input->preset == NULL);
  pin_json_text (builder, "default", input->preset != NULL && *input->preset ? input->preset : NULL);
  json_builder_end_object (builder);
}

static const char *
output_word (PinOutputKind kind)
{
  static const char *const words[] = { "value", "text", "gate", "table" };

  return words[kind];
}

static void
json_sum (JsonBuilder *builder, const PinSum *sum)
{
  json_builder_begin_object (builder);
  pin_json_text (builder, "sum", sum->id);
  pin_json_text (builder, "title", sum->title);
  pin_json_text (builder, "about", sum->about);
  pin_json_list (builder, "inputs");
  for (const PinInput *input = sum->inputs; input->id != NULL; input++)
    json_input (builder, input);
  pin_json_list_end (builder);
  pin_json_list (builder, "results");
  for (const PinOutput *output = sum->outputs; output->id != NULL; output++)
    {
      json_builder_begin_object (builder);
      pin_json_text (builder, "name", output->id);
      pin_json_text (builder, "title", output->title);
      pin_json_text (builder, "kind", output_word (output->kind));
      pin_json_text (builder, "unit", output->unit != NULL ? pin_unit_si (pin_unit_find (output->unit)) : NULL);
      json_builder_end_object (builder);
    }
  pin_json_list_end (builder);
  pin_json_text (builder, "source", sum->source);
  json_builder_end_object (builder);
}

static gboolean
list_sums (gboolean json)
{
  if (json)
    {
      JsonBuilder *builder = pin_json_begin ();

      pin_json_list (builder, "sums");
      for (const PinSum *const *sum = pin_sums (); *sum != NULL; sum++)
        json_sum (builder, *sum);
      pin_json_list_end (builder);
      pin_json_print (builder);
      return TRUE;
    }
  for (const PinSum *const *sum = pin_sums (); *sum != NULL; sum++)
    g_print ("%-14s %s\n", (*sum)->id, _((*sum)->about));
  g_print ("%s\n", _("“hingepin reckon SUM” tells its inputs, “hingepin reckon SUM name=value …” works it out."));
  return TRUE;
}

/* ---- one sum worked out ------------------------------------------------------------------------- */

static const char *const gate_words[] = { N_ ("not known"), N_ ("met"), N_ ("not met") };

static char *
cell_text (const PinCell *cell, const PinColumn *column)
{
  if (column->unit == NULL)
    return g_strdup (cell->text != NULL ? cell->text : "");
  return isnan (cell->value) ? g_strdup ("") : pin_value_format (cell->value, pin_unit_find (column->unit),
                                                                column->decimals);
}

static void
print_table (const PinResult *result)
{
  g_print ("%s:\n", _(result->output->title));
  for (const PinColumn *column = result->output->columns; column->id != NULL; column++)
    g_print ("  %14s", _(column->title));
  g_print ("\n");
  for (guint i = 0; i < result->rows->len; i++)
    {
      GArray *row = g_ptr_array_index (result->rows, i);

      for (guint j = 0; j < row->len; j++)
        {
          g_autofree char *text = cell_text (&g_array_index (row, PinCell, j), &result->output->columns[j]);

          g_print ("%s%14s", j == 0 && (int) i == result->marked ? "> " : "  ", text);
        }
      g_print ("\n");
    }
}

static void
print_result (const PinResult *result)
{
  const PinOutput *output = result->output;

  if (output->kind == PIN_OUTPUT_TABLE)
    print_table (result);
  else if (output->kind == PIN_OUTPUT_TEXT)
    g_print ("%s: %s\n", _(output->title), result->text);
  else if (output->kind == PIN_OUTPUT_GATE)
    g_print ("%s: %s, %s\n", _(output->title), _(gate_words[result->gate]), result->text);
  else
    {
      const PinUnit *unit = pin_unit_find (output->unit);
      g_autofree char *value = pin_value_format (result->value, unit, output->decimals);
      g_autofree char *about = NULL;

      if (!isnan (result->uncertainty))
        about = pin_number_format (pin_unit_to (unit, result->uncertainty) - pin_unit_to (unit, 0),
                                   output->decimals + 1);
      g_print ("%s: %s%s%s\n", _(output->title), value, about != NULL ? " ± " : "", about != NULL ? about : "");
    }
}

static void
print_reckoning (const PinReckoning *reckoning)
{
  const PinSum *sum = reckoning->sum;

  if (reckoning->answer != NULL)
    g_print ("%s\n", reckoning->answer);
  for (guint i = 0; i < reckoning->results->len; i++)
    {
      const PinResult *result = g_ptr_array_index (reckoning->results, i);

      if (result->set)
        print_result (result);
    }
  for (guint i = 0; i < reckoning->warnings->len; i++)
    g_print (_("Mind: %s\n"), (char *) g_ptr_array_index (reckoning->warnings, i));
  g_print ("%s\n", _("Worked out:"));
  for (guint i = 0; i < reckoning->figures->len; i++)
    if (g_ptr_array_index (reckoning->figures, i) != NULL)
      g_print ("  %s\n    %s\n", _(sum->formulas[i]), (char *) g_ptr_array_index (reckoning->figures, i));
  g_print (_("Source: %s\n"), _(sum->source));
  if (sum->hazard != NULL)
    g_print ("%s\n", _(sum->hazard));
}

static void
json_cell (JsonBuilder *builder, const PinCell *cell, const PinColumn *column)
{
  if (column->unit == NULL)
    json_builder_add_string_value (builder, cell->text != NULL ? cell->text : "");
  else if (isfinite (cell->value))
    add_number (builder, cell->value);
  else
    json_builder_add_null_value (builder);
}

static void
json_table (JsonBuilder *builder, const PinResult *result)
{
  pin_json_list (builder, "columns");
  for (const PinColumn *column = result->output->columns; column->id != NULL; column++)
    {
      json_builder_begin_object (builder);
      pin_json_text (builder, "name", column->id);
      pin_json_text (builder, "unit", column->unit != NULL ? pin_unit_si (pin_unit_find (column->unit)) : NULL);
      json_builder_end_object (builder);
    }
  pin_json_list_end (builder);
  pin_json_list (builder, "rows");
  for (guint i = 0; i < result->rows->len; i++)
    {
      GArray *row = g_ptr_array_index (result->rows, i);

      json_builder_begin_array (builder);
      for (guint j = 0; j < row->len; j++)
        json_cell (builder, &g_array_index (row, PinCell, j), &result->output->columns[j]);
      json_builder_end_array (builder);
    }
  pin_json_list_end (builder);
}

static void
json_result (JsonBuilder *builder, const PinResult *result)
{
  const PinOutput *output = result->output;

  json_builder_set_member_name (builder, output->id);
  json_builder_begin_object (builder);
  switch (output->kind)
    {
    case PIN_OUTPUT_VALUE:
      json_builder_set_member_name (builder, "value");
      add_number (builder, result->value);
      pin_json_text (builder, "unit", pin_unit_si (pin_unit_find (output->unit)));
      if (!isnan (result->uncertainty))
        {
          json_builder_set_member_name (builder, "uncertainty");
          add_number (builder, result->uncertainty);
        }
      break;
    case PIN_OUTPUT_TEXT:
      pin_json_text (builder, "text", result->text);
      break;
    case PIN_OUTPUT_GATE:
      pin_json_text (builder, "gate", gate_words[result->gate]);
      pin_json_text (builder, "text", result->text);
      break;
    case PIN_OUTPUT_TABLE:
      json_table (builder, result);
      break;
    }
  json_builder_end_object (builder);
}

static JsonBuilder *
json_reckoning (const PinReckoning *reckoning)
{
  JsonBuilder *builder = pin_json_begin ();

  pin_json_text (builder, "sum", reckoning->sum->id);
  pin_json_text (builder, "answer", reckoning->answer);
  json_builder_set_member_name (builder, "results");
  json_builder_begin_object (builder);
  for (guint i = 0; i < reckoning->results->len; i++)
    {
      const PinResult *result = g_ptr_array_index (reckoning->results, i);

      if (result->set)
        json_result (builder, result);
    }
  json_builder_end_object (builder);
  pin_json_list (builder, "warnings");
  for (guint i = 0; i < reckoning->warnings->len; i++)
    json_builder_add_string_value (builder, g_ptr_array_index (reckoning->warnings, i));
  pin_json_list_end (builder);
  pin_json_text (builder, "source", reckoning->sum->source);
  return builder;
}

/* ---- words to values ------------------------------------------------------------------------------ */

/* "pinion=20" …; (transfer full): NULL with an error. */
static GHashTable *
take_words (const char *sum, char **words, GError **error)
{
  g_autoptr (GHashTable) typed = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);

  for (int i = 0; words[i] != NULL; i++)
    {
      const char *is = strchr (words[i], '=');
      g_autofree char *name = is != NULL ? g_strndup (words[i], is - words[i]) : NULL;

      if (is == NULL || *name == '\0')
        {
          g_set_error (error, PIN_RECKONER_ERROR, PIN_RECKONER_ERROR_NAME,
                       _("“%s”: write it as name=value; “hingepin reckon %s” lists the names"), words[i], sum);
          return NULL;
        }
      if (g_hash_table_contains (typed, name))
        {
          g_set_error (error, PIN_RECKONER_ERROR, PIN_RECKONER_ERROR_NAME, _("%s is given twice"), name);
          return NULL;
        }
      g_hash_table_insert (typed, g_steal_pointer (&name), g_strdup (is + 1));
    }
  return g_steal_pointer (&typed);
}

static PinReckoning *
reckon_words (char **words, GError **error)
{
  const PinSum *sum = pin_sum_named (words[0], error);
  g_autoptr (GHashTable) typed = sum != NULL ? take_words (sum->id, words + 1, error) : NULL;

  return typed != NULL ? pin_reckon (sum, typed, error) : NULL;
}

/* ---- many, one a line -------------------------------------------------------------------------------- */

static void
print_line (JsonBuilder *builder)
{
  g_autoptr (JsonNode) root = NULL;
  g_autofree char *text = NULL;

  json_builder_end_object (builder);
  root = json_builder_get_root (builder);
  text = json_to_string (root, FALSE);
  g_print ("%s\n", text);
  g_object_unref (builder);
}

static JsonBuilder *
json_wrong (guint line, const GError *error)
{
  JsonBuilder *builder = pin_json_begin ();

  pin_json_int (builder, "line", line);
  pin_json_text (builder, "error", error->message);
  return builder;
}

static gboolean
reckon_line (const char *line, gboolean json, GError **error)
{
  g_auto (GStrv) words = NULL;
  g_autoptr (PinReckoning) reckoning = NULL;

  if (!g_shell_parse_argv (line, NULL, &words, error))
    return FALSE;
  reckoning = reckon_words (words, error);
  if (reckoning == NULL)
    return FALSE;
  if (json)
    print_line (json_reckoning (reckoning));
  else
    {
      print_reckoning (reckoning);
      g_print ("\n");
    }
  return TRUE;
}

/* A line that cannot be worked out is told with its number, and the rest goes on. */
static gboolean
reckon_batch (gboolean json, GError **error)
{
  g_autofree char *line = NULL;
  size_t room = 0;
  guint nth = 0, wrong = 0;

  while (getline (&line, &room, stdin) >= 0)
    {
      g_autoptr (GError) inner = NULL;

      nth++;
      g_strstrip (line);
      if (*line == '\0' || *line == '#' || reckon_line (line, json, &inner))
        continue;
      wrong++;
      if (json)
        print_line (json_wrong (nth, inner));
      g_printerr (_("hingepin: line %u: %s\n"), nth, inner->message);
    }
  if (wrong > 0)
    {
      g_set_error (error, PIN_TERMINAL_ERROR, PIN_TERMINAL_ERROR_FOUND,
                   ngettext ("%u line could not be worked out", "%u lines could not be worked out", wrong), wrong);
      return FALSE;
    }
  return TRUE;
}

/* ---- the verb ---------------------------------------------------------------------------------------- */

static gboolean
tell_sum (const char *id, gboolean json, GError **error)
{
  const PinSum *sum = pin_sum_named (id, error);

  if (sum != NULL && json)
    {
      JsonBuilder *builder = pin_json_begin ();

      json_builder_set_member_name (builder, "about");
      json_sum (builder, sum);
      pin_json_print (builder);
    }
  else if (sum != NULL)
    print_sum (sum);
  return sum != NULL;
}

static gboolean
work_out (char **words, gboolean json, GError **error)
{
  g_autoptr (PinReckoning) reckoning = reckon_words (words, error);

  if (reckoning != NULL && json)
    pin_json_print (json_reckoning (reckoning));
  else if (reckoning != NULL)
    print_reckoning (reckoning);
  return reckoning != NULL;
}

/* Values that are wrong in themselves are wrong usage; that good ones have no
 * answer is found by working. */
static gboolean
pass_on (gboolean done, GError *inner, GError **error)
{
  if (done)
    return TRUE;
  if (inner->domain != PIN_RECKONER_ERROR || inner->code == PIN_RECKONER_ERROR_NO_ANSWER)
    {
      g_propagate_error (error, inner);
      return FALSE;
    }
  pin_session_usage (error, "%s", inner->message);
  g_error_free (inner);
  return FALSE;
}

gboolean
pin_verb_reckon (PinSession *session, GError **error)
{
  const PinOptions *options = session->options;
  char **words = options->args;
  GError *inner = NULL;
  gboolean done;

  if (options->batch && words[0] != NULL)
    return pin_session_usage (error, _("--batch reads the sums from standard input, “%s” is one too many"), words[0]);
  if (options->batch)
    return reckon_batch (options->json, error);
  if (words[0] == NULL)
    return list_sums (options->json);
  done = words[1] != NULL ? work_out (words, options->json, &inner) : tell_sum (words[0], options->json, &inner);
  return pass_on (done, inner, error);
}
