#include "reckoner/given.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "library/suggest.h"
#include "reckoner/reckoning.h"

#define MOST_VALUES 100       /* of a list, unless it says otherwise */
#define SLACK 1e-12           /* of a bound, for the rounding of its unit */

static gboolean
fail (GError **error, const PinInput *input, const char *what)
{
  g_set_error (error, PIN_RECKONER_ERROR, PIN_RECKONER_ERROR_VALUE, "%s: %s", input->id, what);
  return FALSE;
}

void
pin_given_free (PinGiven *self)
{
  g_array_unref (self->list);
  g_array_unref (self->second);
  g_free (self);
}

static char *
bound_text (double bound, const PinUnit *unit)
{
  g_autofree char *number = pin_number_format (bound, -1);

  return *unit->symbol ? g_strdup_printf ("%s %s", number, unit->symbol) : g_steal_pointer (&number);
}

/* Bounds are in the unit that the input is described in, whatever was typed. */
static gboolean
in_range (const PinInput *input, const char *typed, double canonical, const PinUnit *unit, double least,
          double most, GError **error)
{
  double value = pin_unit_to (unit, canonical);
  g_autofree char *low = bound_text (least, unit);
  g_autofree char *high = bound_text (most, unit);
  g_autofree char *what = NULL;

  if (value >= least - SLACK * fabs (least) && value <= most + SLACK * fabs (most))
    return TRUE;
  what = g_strdup_printf (_("“%s” is out of range, give %s to %s"), typed, low, high);
  return fail (error, input, what);
}

static gboolean
read_one (const PinInput *input, const char *typed, const char *unit_id, double least, double most,
          double *canonical, GError **error)
{
  const PinUnit *unit = pin_unit_find (unit_id);
  g_autoptr (GError) inner = NULL;

  g_return_val_if_fail (unit != NULL, FALSE);
  if (!pin_value_parse (typed, unit, canonical, NULL, &inner))
    return fail (error, input, inner->message);
  if (!in_range (input, typed, *canonical, unit, least, most, error))
    return FALSE;
  if (input->whole && fabs (*canonical - round (*canonical)) > SLACK * fabs (*canonical))
    {
      g_autofree char *what = g_strdup_printf (_("“%s” is no whole number"), typed);

      return fail (error, input, what);
    }
  return TRUE;
}

static gboolean
enough (const PinInput *input, guint n, GError **error)
{
  guint fewest = MAX (input->fewest, 1);
  guint most = input->at_most > 0 ? input->at_most : MOST_VALUES;
  g_autofree char *what = NULL;

  if (n >= fewest && n <= most)
    return TRUE;
  if (n < fewest)
    what = g_strdup_printf (ngettext ("%u value is too few, give at least %u, by commas",
                                      "%u values are too few, give at least %u, by commas", n), n, fewest);
  else
    what = g_strdup_printf (_("%u values are too many, give at most %u"), n, most);
  return fail (error, input, what);
}

static gboolean
read_pair (PinGiven *self, const char *word, GError **error)
{
  const PinInput *input = self->input;
  g_auto (GStrv) halves = g_strsplit (word, ":", -1);
  double first, second;

  if (g_strv_length (halves) != 2)
    {
      g_autofree char *what = g_strdup_printf (_("“%s” is no pair, write both with a colon between them"), word);

      return fail (error, input, what);
    }
  if (!read_one (input, g_strstrip (halves[0]), input->unit, input->least, input->most, &first, error)
      || !read_one (input, g_strstrip (halves[1]), input->second, input->second_least, input->second_most,
                    &second, error))
    return FALSE;
  g_array_append_val (self->list, first);
  g_array_append_val (self->second, second);
  return TRUE;
}

static gboolean
read_several (PinGiven *self, const char *typed, GError **error)
{
  const PinInput *input = self->input;
  /* Semicolons leave the comma to those who write 1,5. */
  g_auto (GStrv) words = g_strsplit (typed, strchr (typed, ';') != NULL ? ";" : ",", -1);

  for (int i = 0; words[i] != NULL; i++)
    {
      const char *word = g_strstrip (words[i]);
      double value;

      if (input->kind == PIN_INPUT_PAIRS)
        {
          if (!read_pair (self, word, error))
            return FALSE;
          continue;
        }
      if (!read_one (input, word, input->unit, input->least, input->most, &value, error))
        return FALSE;
      g_array_append_val (self->list, value);
    }
  return enough (input, self->list->len, error);
}

static gboolean
read_choice (PinGiven *self, const char *typed, GError **error)
{
  g_autofree char *advice = NULL;
  g_autofree char *what = NULL;

  for (int i = 0; self->input->choices[i] != NULL; i++)
    if (g_str_equal (self->input->choices[i], typed))
      {
        self->choice = self->input->choices[i];
        return TRUE;
      }
  advice = pin_suggest_text (typed, self->input->choices);
  what = g_strdup_printf (_("“%s” is not among the choices, %s"), typed,
                          advice != NULL ? advice : _("see the list of its inputs"));
  return fail (error, self->input, what);
}

static gboolean
read_any (PinGiven *self, const char *typed, GError **error)
{
  g_autoptr (GError) inner = NULL;

  if (!pin_value_parse (typed, NULL, &self->value, &self->unit, &inner))
    return fail (error, self->input, inner->message);
  return TRUE;
}

static gboolean
read_unit (PinGiven *self, const char *typed, GError **error)
{
  const char *nearest;
  g_autofree char *what = NULL;

  self->unit = pin_unit_find (typed);
  if (self->unit != NULL)
    return TRUE;
  nearest = pin_unit_suggest (typed);
  what = nearest != NULL ? g_strdup_printf (_("“%s” is no unit known here, write “%s”"), typed, nearest)
                         : g_strdup_printf (_("“%s” is no unit known here, use one such as mm, g, s or degC"), typed);
  return fail (error, self->input, what);
}

/* Returns: (transfer full): NULL with an error that begins with the input's id. */
PinGiven *
pin_given_read (const PinInput *input, const char *typed, GError **error)
{
  g_autoptr (PinGiven) self = g_new0 (PinGiven, 1);
  g_autofree char *text = g_strstrip (g_strdup (typed));
  gboolean good = TRUE;

  self->input = input;
  self->value = NAN;
  self->list = g_array_new (FALSE, FALSE, sizeof (double));
  self->second = g_array_new (FALSE, FALSE, sizeof (double));
  if (*text == '\0')
    return g_steal_pointer (&self);
  switch (input->kind)
    {
    case PIN_INPUT_VALUE:
      good = read_one (input, text, input->unit, input->least, input->most, &self->value, error);
      break;
    case PIN_INPUT_LIST:
    case PIN_INPUT_PAIRS:
      good = read_several (self, text, error);
      break;
    case PIN_INPUT_CHOICE:
      good = read_choice (self, text, error);
      break;
    case PIN_INPUT_ANY:
      good = read_any (self, text, error);
      break;
    case PIN_INPUT_UNIT:
      good = read_unit (self, text, error);
      break;
    }
  return good ? g_steal_pointer (&self) : NULL;
}
