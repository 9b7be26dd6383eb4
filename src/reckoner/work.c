#include "reckoner/work.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>
#include <stdarg.h>

#include "library/quantity.h"
#include "reckoner/given.h"
#include "reckoner/reckoning-private.h"

static const PinGiven *
given (const PinReckoning *self, const char *id)
{
  const PinGiven *found = g_hash_table_lookup (self->given, id);

  if (found == NULL)
    g_error ("the sum %s has no input %s", self->sum->id, id);
  return found;
}

/* A mistake in a description is found by the first test that works the sum. */
static PinResult *
result (PinReckoning *self, const char *id, PinOutputKind kind)
{
  PinResult *found = pin_reckoning_result_at (self, id);

  if (found == NULL || found->output->kind != kind)
    g_error ("the sum %s has no such output %s", self->sum->id, id);
  return found;
}

gboolean
pin_given (const PinReckoning *self, const char *id)
{
  const PinGiven *it = given (self, id);

  return !isnan (it->value) || it->list->len > 0 || it->choice != NULL
         || it->unit != NULL;
}

double
pin_value (const PinReckoning *self, const char *id)
{
  return given (self, id)->value;
}

const GArray *
pin_list (const PinReckoning *self, const char *id)
{
  return given (self, id)->list;
}

const GArray *
pin_list_second (const PinReckoning *self, const char *id)
{
  return given (self, id)->second;
}

const char *
pin_choice (const PinReckoning *self, const char *id)
{
  return given (self, id)->choice;
}

const PinUnit *
pin_unit_given (const PinReckoning *self, const char *id)
{
  return given (self, id)->unit;
}

/* ---- results -------------------------------------------------------------------------------- */

void
pin_result_estimate (PinReckoning *self, const char *id, double value, double uncertainty)
{
  PinResult *to = result (self, id, PIN_OUTPUT_VALUE);

  if (self->error != NULL)
    return;
  to->set = TRUE;
  to->value = value;
  to->uncertainty = uncertainty;
}

void
pin_result_value (PinReckoning *self, const char *id, double value)
{
  pin_result_estimate (self, id, value, NAN);
}

static void
take_text (char **to, const char *format, va_list args)
{
  g_free (*to);
  *to = g_strdup_vprintf (format, args);
}

void
pin_result_text (PinReckoning *self, const char *id, const char *format, ...)
{
  PinResult *to = result (self, id, PIN_OUTPUT_TEXT);
  va_list args;

  to->set = TRUE;
  va_start (args, format);
  take_text (&to->text, format, args);
  va_end (args);
}

void
pin_result_gate (PinReckoning *self, const char *id, PinGate gate, const char *format, ...)
{
  PinResult *to = result (self, id, PIN_OUTPUT_GATE);
  va_list args;

  to->set = TRUE;
  to->gate = gate;
  va_start (args, format);
  take_text (&to->text, format, args);
  va_end (args);
}

static void
cell_clear (gpointer data)
{
  g_free (((PinCell *) data)->text);
}

void
pin_result_row (PinReckoning *self, const char *id, ...)
{
  PinResult *to = result (self, id, PIN_OUTPUT_TABLE);
  GArray *row = g_array_new (FALSE, TRUE, sizeof (PinCell));
  va_list args;

  g_array_set_clear_func (row, cell_clear);
  va_start (args, id);
  for (const PinColumn *column = to->output->columns; column->id != NULL; column++)
    {
      PinCell cell = { NAN, NULL };

      if (column->unit != NULL)
        cell.value = va_arg (args, double);
      else
        cell.text = g_strdup (va_arg (args, const char *));
      g_array_append_val (row, cell);
    }
  va_end (args);
  to->set = TRUE;
  g_ptr_array_add (to->rows, row);
}

void
pin_result_mark_row (PinReckoning *self, const char *id)
{
  PinResult *to = result (self, id, PIN_OUTPUT_TABLE);

  to->marked = (int) to->rows->len - 1;
}

void
pin_result_chart (PinReckoning *self, PinChart *chart)
{
  g_clear_pointer (&self->chart, pin_chart_free);
  self->chart = chart;
}

/* ---- words ---------------------------------------------------------------------------------- */

void
pin_answer (PinReckoning *self, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  take_text (&self->answer, format, args);
  va_end (args);
}

void
pin_figures (PinReckoning *self, int nth, const char *format, ...)
{
  va_list args;

  g_return_if_fail (nth >= 0 && nth < (int) self->figures->len);
  va_start (args, format);
  take_text ((char **) &g_ptr_array_index (self->figures, nth), format, args);
  va_end (args);
}

void
pin_warn (PinReckoning *self, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  g_ptr_array_add (self->warnings, g_strdup_vprintf (format, args));
  va_end (args);
}

void
pin_refuse (PinReckoning *self, const char *format, ...)
{
  g_autofree char *what = NULL;
  va_list args;

  if (self->error != NULL)
    return;
  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (&self->error, PIN_RECKONER_ERROR, PIN_RECKONER_ERROR_NO_ANSWER, "%s: %s", self->sum->id, what);
}

gboolean
pin_ok (PinReckoning *self, PinMathsStatus status, const char *what)
{
  if (status != PIN_MATHS_OK)
    pin_refuse (self, _("%s cannot be worked out: %s"), what, _(pin_maths_status_text (status)));
  return self->error == NULL;
}

const char *
pin_say (PinReckoning *self, double canonical, const char *unit, int decimals)
{
  const PinUnit *found = pin_unit_find (unit);
  char *text;

  g_return_val_if_fail (found != NULL, "");
  text = pin_value_format (canonical, found, decimals);
  g_ptr_array_add (self->said, text);
  return text;
}
