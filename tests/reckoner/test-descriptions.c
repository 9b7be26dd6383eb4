/* What every description of a sum has to be, and that no input brings a number that is none. */
#include <glib.h>
#include <math.h>
#include <string.h>

#include "library/quantity.h"
#include "reckoner/reckoning.h"

static void
assert_id (const char *id)
{
  if (!g_regex_match_simple ("^[a-z][a-z0-9]*(-[a-z0-9]+)*$", id, 0, 0))
    g_error ("“%s” is no name in kebab-case", id);
}

static void
assert_input (const PinSum *sum, const PinInput *input)
{
  assert_id (input->id);
  g_assert_true (pin_sum_input (sum, input->id) == input);
  g_assert_true (input->title != NULL && *input->title != '\0');
  if (input->kind == PIN_INPUT_CHOICE)
    {
      g_assert_true (input->choices != NULL && input->choices[0] != NULL && input->choices[1] != NULL);
      if (input->preset != NULL && *input->preset)
        g_assert_true (g_strv_contains (input->choices, input->preset));
      return;
    }
  if (input->kind == PIN_INPUT_ANY || input->kind == PIN_INPUT_UNIT)
    {
      g_assert_cmpstr (input->unit, ==, "1");
      return;
    }
  g_assert_nonnull (pin_unit_find (input->unit));
  g_assert_cmpfloat (input->least, <, input->most);
  if (input->kind == PIN_INPUT_PAIRS)
    {
      g_assert_nonnull (pin_unit_find (input->second));
      g_assert_cmpfloat (input->second_least, <, input->second_most);
    }
}

static void
assert_output (const PinSum *sum, const PinOutput *output)
{
  assert_id (output->id);
  g_assert_true (pin_sum_output (sum, output->id) == output);
  g_assert_true (output->title != NULL && *output->title != '\0');
  if (output->kind == PIN_OUTPUT_VALUE)
    g_assert_nonnull (pin_unit_find (output->unit));
  if (output->kind != PIN_OUTPUT_TABLE)
    return;
  g_assert_nonnull (output->columns[0].id);
  for (const PinColumn *column = output->columns; column->id != NULL; column++)
    {
      assert_id (column->id);
      g_assert_true (column->unit == NULL || pin_unit_find (column->unit) != NULL);
    }
}

static void
test_descriptions (void)
{
  for (const PinSum *const *at = pin_sums (); *at != NULL; at++)
    {
      const PinSum *sum = *at;

      assert_id (sum->id);
      g_assert_true (pin_sum_find (sum->id) == sum);
      g_assert_true (sum->title && sum->group && sum->about && sum->source && sum->validity && sum->formulas[0]);
      if (sum->hazard != NULL)
        g_assert_true (g_regex_match_simple ("^(Danger|Warning|Caution|Notice): ", sum->hazard, 0, 0));
      for (const PinInput *input = sum->inputs; input->id != NULL; input++)
        assert_input (sum, input);
      for (const PinOutput *output = sum->outputs; output->id != NULL; output++)
        assert_output (sum, output);
    }
}

/* ---- anything may be put in ------------------------------------------------------------------ */

/* Within the range, at its ends as often as between them; by the scale of the
 * range where that spans decades. */
static double
any_number (GRand *rand, double least, double most, gboolean whole)
{
  double value;

  switch (g_rand_int_range (rand, 0, 6))
    {
    case 0:
      value = least;
      break;
    case 1:
      value = most;
      break;
    default:
      value = least > 0 && most > 100 * least ? least * pow (most / least, g_rand_double (rand))
                                              : g_rand_double_range (rand, least, most);
      break;
    }
  return whole ? CLAMP (round (value), ceil (least), floor (most)) : value;
}

static void
add_number (GString *text, GRand *rand, const char *unit, double least, double most, gboolean whole)
{
  char number[G_ASCII_DTOSTR_BUF_SIZE];
  double value = any_number (rand, least, most, whole);

  g_ascii_formatd (number, sizeof number, "%.15g", value);
  g_string_append_printf (text, "%s %s", number, g_str_equal (unit, "1") ? "" : unit);
}

static const char *
any_of (GRand *rand, const char *const *words)
{
  return words[g_rand_int_range (rand, 0, g_strv_length ((char **) words))];
}

/* Half of them of a few, so that two are often of a kind. */
static const char *
any_unit (GRand *rand)
{
  static const char *const few[] = { "mm", "in", "degF", "degC", "dp", "mod", NULL };
  g_autofree const char **ids = pin_unit_ids ();

  return any_of (rand, g_rand_boolean (rand) ? few : ids);
}

static char *
any_input (GRand *rand, const PinInput *input)
{
  static const char *const numbers[] = { "1 ", "1e-300 ", "0.5 ", "48 ", "1e6 ", "1e290 ", NULL };
  GString *text = g_string_new (NULL);
  int n = 1;

  if (input->kind == PIN_INPUT_CHOICE)
    {
      g_string_append (text, input->choices[g_rand_int_range (rand, 0, g_strv_length ((char **) input->choices))]);
      return g_string_free (text, FALSE);
    }
  if (input->kind == PIN_INPUT_ANY || input->kind == PIN_INPUT_UNIT)
    {
      const char *unit = any_unit (rand);

      if (input->kind == PIN_INPUT_ANY)
        g_string_append (text, any_of (rand, numbers));
      if (input->kind == PIN_INPUT_UNIT || !g_str_equal (unit, "1"))
        g_string_append (text, unit);
      return g_string_free (text, FALSE);
    }
  if (input->kind != PIN_INPUT_VALUE)
    n = g_rand_int_range (rand, MAX (input->fewest, 1), MAX (input->fewest, 1) + 8);
  if (input->at_most > 0)
    n = MIN (n, input->at_most);
  for (int i = 0; i < n; i++)
    {
      if (i > 0)
        g_string_append (text, ", ");
      add_number (text, rand, input->unit, input->least, input->most, input->whole);
      if (input->kind == PIN_INPUT_PAIRS)
        {
          g_string_append (text, ":");
          add_number (text, rand, input->second, input->second_least, input->second_most, FALSE);
        }
    }
  return g_string_free (text, FALSE);
}

static GHashTable *
any_inputs (GRand *rand, const PinSum *sum)
{
  GHashTable *typed = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, g_free);

  for (const PinInput *input = sum->inputs; input->id != NULL; input++)
    if (input->preset == NULL || g_rand_boolean (rand))
      g_hash_table_insert (typed, (gpointer) input->id, any_input (rand, input));
  return typed;
}

static void
assert_words (const char *text)
{
  if (text != NULL && g_regex_match_simple ("\\b(nan|inf|infinity)\\b", text, G_REGEX_CASELESS, 0))
    g_error ("“%s” is no sentence for a person", text);
}

static void
assert_sound (const PinReckoning *reckoning)
{
  assert_words (reckoning->answer);
  g_assert_nonnull (reckoning->answer);
  for (guint i = 0; i < reckoning->figures->len; i++)
    assert_words (g_ptr_array_index (reckoning->figures, i));
  for (guint i = 0; i < reckoning->warnings->len; i++)
    assert_words (g_ptr_array_index (reckoning->warnings, i));
  for (guint i = 0; i < reckoning->results->len; i++)
    {
      const PinResult *result = g_ptr_array_index (reckoning->results, i);

      assert_words (result->text);
      if (result->set && result->output->kind == PIN_OUTPUT_VALUE)
        g_assert_true (isfinite (result->value));
    }
}

static void
test_random (gconstpointer data)
{
  const PinSum *sum = data;
  GRand *rand = g_rand_new_with_seed (g_test_rand_int ());
  guint answered = 0;

  for (int i = 0; i < 400; i++)
    {
      g_autoptr (GHashTable) typed = any_inputs (rand, sum);
      g_autoptr (GError) error = NULL;
      g_autoptr (PinReckoning) reckoning = pin_reckon (sum, typed, &error);

      if (reckoning != NULL)
        {
          assert_sound (reckoning);
          answered++;
        }
      else
        {
          g_assert_error (error, PIN_RECKONER_ERROR, PIN_RECKONER_ERROR_NO_ANSWER);
          assert_words (error->message);
        }
    }
  g_assert_cmpuint (answered, >, 20);
  g_rand_free (rand);
}

/* ---- bad input ------------------------------------------------------------------------------------- */

static void
assert_refused (const char *id, const char *name, const char *value, int code, const char *says)
{
  const PinSum *sum = pin_sum_find (id);
  g_autoptr (GHashTable) typed = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GError) error = NULL;
  g_autoptr (PinReckoning) reckoning = NULL;

  g_hash_table_insert (typed, (gpointer) "pinion", (gpointer) "20");
  g_hash_table_insert (typed, (gpointer) "spur", (gpointer) "80");
  g_hash_table_insert (typed, (gpointer) "tyre", (gpointer) "84 mm");
  if (name != NULL)
    g_hash_table_insert (typed, (gpointer) name, (gpointer) value);
  reckoning = pin_reckon (sum, typed, &error);
  g_assert_null (reckoning);
  g_assert_error (error, PIN_RECKONER_ERROR, code);
  if (strstr (error->message, says) == NULL)
    g_error ("“%s” does not say “%s”", error->message, says);
}

/* A slip of the hand in a unit is told with what it should be. */
static void
assert_no_unit (const char *value, const char *to, const char *says)
{
  g_autoptr (GHashTable) typed = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GError) error = NULL;

  g_hash_table_insert (typed, (gpointer) "value", (gpointer) value);
  g_hash_table_insert (typed, (gpointer) "to", (gpointer) to);
  g_assert_null (pin_reckon (pin_sum_find ("convert"), typed, &error));
  g_assert_nonnull (error);
  if (strstr (error->message, says) == NULL)
    g_error ("“%s” does not say “%s”", error->message, says);
}

static void
test_units (void)
{
  assert_no_unit ("3.5 in", "MM", "write “mm”");
  assert_no_unit ("3.5 inc", "mm", "write “in”");
  assert_no_unit ("3.5 in", "furlongs", "is no unit known here");
  assert_no_unit ("3.5 in", "kg", "give a unit of the same kind");
  assert_no_unit ("1.7e308 mile", "m", "too large");
  assert_no_unit ("", "m", "not given");
}

static void
test_refused (void)
{
  assert_refused ("gearing", "pinion", "0", PIN_RECKONER_ERROR_VALUE, "give 6 T to 80 T");
  assert_refused ("gearing", "pinion", "20.5", PIN_RECKONER_ERROR_VALUE, "no whole number");
  assert_refused ("gearing", "pinion", "", PIN_RECKONER_ERROR_MISSING, "not given");
  assert_refused ("gearing", "pinion", "nan", PIN_RECKONER_ERROR_VALUE, "pinion:");
  assert_refused ("gearing", "tyre", "-84 mm", PIN_RECKONER_ERROR_VALUE, "out of range");
  assert_refused ("gearing", "tyre", "84 C", PIN_RECKONER_ERROR_VALUE, "a length is wanted");
  assert_refused ("gearing", "tire", "84 mm", PIN_RECKONER_ERROR_NAME, "write “tyre”");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sums/descriptions", test_descriptions);
  for (const PinSum *const *sum = pin_sums (); *sum != NULL; sum++)
    {
      g_autofree char *name = g_strconcat ("/sums/random/", (*sum)->id, NULL);

      g_test_add_data_func (name, *sum, test_random);
    }
  g_test_add_func ("/sums/refused", test_refused);
  g_test_add_func ("/sums/units", test_units);
  return g_test_run ();
}
