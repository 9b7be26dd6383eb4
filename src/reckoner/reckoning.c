#include "reckoner/reckoning-private.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "library/suggest.h"
#include "reckoner/given.h"

G_DEFINE_QUARK (pin-reckoner-error-quark, pin_reckoner_error)

static void
result_free (gpointer data)
{
  PinResult *self = data;

  g_free (self->text);
  g_clear_pointer (&self->rows, g_ptr_array_unref);
  g_free (self);
}

static PinResult *
result_new (const PinOutput *output)
{
  PinResult *self = g_new0 (PinResult, 1);

  self->output = output;
  self->value = self->uncertainty = NAN;
  self->marked = -1;
  if (output->kind == PIN_OUTPUT_TABLE)
    self->rows = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  return self;
}

static PinReckoning *
reckoning_new (const PinSum *sum)
{
  PinReckoning *self = g_new0 (PinReckoning, 1);

  self->sum = sum;
  self->results = g_ptr_array_new_with_free_func (result_free);
  self->figures = g_ptr_array_new_with_free_func (g_free);
  self->warnings = g_ptr_array_new_with_free_func (g_free);
  self->said = g_ptr_array_new_with_free_func (g_free);
  self->given = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, (GDestroyNotify) pin_given_free);
  for (const PinOutput *output = sum->outputs; output->id != NULL; output++)
    g_ptr_array_add (self->results, result_new (output));
  for (int i = 0; sum->formulas[i] != NULL; i++)
    g_ptr_array_add (self->figures, NULL);
  return self;
}

void
pin_reckoning_free (PinReckoning *self)
{
  g_ptr_array_unref (self->results);
  g_ptr_array_unref (self->figures);
  g_ptr_array_unref (self->warnings);
  g_ptr_array_unref (self->said);
  g_hash_table_unref (self->given);
  g_clear_pointer (&self->chart, pin_chart_free);
  g_clear_error (&self->error);
  g_free (self->answer);
  g_free (self);
}

PinResult *
pin_reckoning_result_at (PinReckoning *self, const char *id)
{
  for (guint i = 0; i < self->results->len; i++)
    {
      PinResult *result = g_ptr_array_index (self->results, i);

      if (g_str_equal (result->output->id, id))
        return result;
    }
  return NULL;
}

/* Returns: (transfer none): NULL if the sum has none of that id. */
const PinResult *
pin_reckoning_result (const PinReckoning *self, const char *id)
{
  return pin_reckoning_result_at ((PinReckoning *) self, id);
}

/* ---- what was put in ------------------------------------------------------------------------ */

static const char **
input_ids (const PinSum *sum)
{
  GPtrArray *ids = g_ptr_array_new ();

  for (const PinInput *input = sum->inputs; input->id != NULL; input++)
    g_ptr_array_add (ids, (gpointer) input->id);
  g_ptr_array_add (ids, NULL);
  return (const char **) g_ptr_array_free (ids, FALSE);
}

static gboolean
known_only (const PinSum *sum, GHashTable *typed, GError **error)
{
  GHashTableIter iter;
  gpointer id;

  g_hash_table_iter_init (&iter, typed);
  while (g_hash_table_iter_next (&iter, &id, NULL))
    if (pin_sum_input (sum, id) == NULL)
      {
        g_autofree const char **ids = input_ids (sum);
        g_autofree char *advice = pin_suggest_text (id, ids);

        g_set_error (error, PIN_RECKONER_ERROR, PIN_RECKONER_ERROR_NAME, _("%s has no input “%s”%s%s"),
                     sum->id, (char *) id, advice != NULL ? ", " : "", advice != NULL ? advice : "");
        return FALSE;
      }
  return TRUE;
}

static gboolean
take_input (PinReckoning *self, const PinInput *input, const char *typed, GError **error)
{
  PinGiven *given;

  if (typed == NULL || *typed == '\0')
    typed = input->preset;
  if (typed == NULL)
    {
      g_set_error (error, PIN_RECKONER_ERROR, PIN_RECKONER_ERROR_MISSING,
                   _("%s: not given, and %s needs it"), input->id, self->sum->id);
      return FALSE;
    }
  given = pin_given_read (input, typed, error);
  if (given == NULL)
    return FALSE;
  g_hash_table_insert (self->given, (gpointer) input->id, given);
  return TRUE;
}

/* ---- what came out -------------------------------------------------------------------------- */

static gboolean
cells_are_sound (const PinResult *result)
{
  for (guint i = 0; i < result->rows->len; i++)
    {
      GArray *row = g_ptr_array_index (result->rows, i);

      for (guint j = 0; j < row->len; j++)
        {
          const PinCell *cell = &g_array_index (row, PinCell, j);

          if (cell->text == NULL && isinf (cell->value))
            return FALSE;
        }
    }
  return TRUE;
}

static gboolean
is_sound (const PinResult *result)
{
  if (!result->set)
    return TRUE;
  switch (result->output->kind)
    {
    case PIN_OUTPUT_VALUE:
      return isfinite (result->value) && (isnan (result->uncertainty) || isfinite (result->uncertainty));
    case PIN_OUTPUT_TABLE:
      return cells_are_sound (result);
    case PIN_OUTPUT_TEXT:
    case PIN_OUTPUT_GATE:
    default:
      return TRUE;
    }
}

/* Each input is in its range, but not every combination has an answer that can
 * be written down. */
static gboolean
results_are_sound (PinReckoning *self, GError **error)
{
  for (guint i = 0; i < self->results->len; i++)
    {
      const PinResult *result = g_ptr_array_index (self->results, i);

      if (!is_sound (result))
        {
          g_set_error (error, PIN_RECKONER_ERROR, PIN_RECKONER_ERROR_NO_ANSWER,
                       _("%s: these values together give no sensible “%s”, look at them again"),
                       self->sum->id, result->output->id);
          return FALSE;
        }
    }
  return TRUE;
}

PinReckoning *
pin_reckon (const PinSum *sum, GHashTable *typed, GError **error)
{
  g_autoptr (PinReckoning) self = NULL;

  g_return_val_if_fail (sum != NULL && typed != NULL, NULL);
  if (!known_only (sum, typed, error))
    return NULL;
  self = reckoning_new (sum);
  for (const PinInput *input = sum->inputs; input->id != NULL; input++)
    if (!take_input (self, input, g_hash_table_lookup (typed, input->id), error))
      return NULL;
  sum->work (self);
  if (self->error != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&self->error));
      return NULL;
    }
  return results_are_sound (self, error) ? g_steal_pointer (&self) : NULL;
}
