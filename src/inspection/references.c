/* What a reading of the walk is held against. */

#include "inspection/walk-private.h"

#include <math.h>
#include <string.h>

static const PinReading *
reading_of_answer (const PinWalk *self, gint64 answer)
{
  for (guint i = 0; i < self->rows->traces->readings->len; i++)
    {
      const PinReading *reading = g_ptr_array_index (self->rows->traces->readings, i);

      if (reading->answer == answer)
        return reading;
    }
  return NULL;
}

static double
partner_reading (const PinWalk *self, const PinQuestion *question)
{
  double value = NAN;

  for (guint i = 0; question->slot && question->slot->partner && i < self->rows->answers->len; i++)
    {
      const PinAnswer *answer = g_ptr_array_index (self->rows->answers, i);
      const PinReading *reading;

      if (answer->place != question->slot->partner->place || answer->phase != question->phase ||
          !g_str_equal (answer->step, question->stored))
        continue;
      reading = reading_of_answer (self, answer->id);
      if (reading)
        value = reading->value;
    }
  return value;
}

/* Conditions that the walk knows by itself: what is on the car and what off. */
char *
pin_walk_known_conditions (const PinWalk *self, const PinMeasure *measure, GHashTable *told)
{
  g_autoptr (GHashTable) all = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; measure->conditions && measure->conditions[i]; i++)
    {
      const char *name = measure->conditions[i];
      const char *value = told ? g_hash_table_lookup (told, name) : NULL;

      if (value == NULL && pin_chassis_assembly (self->car->chassis, name))
        value = pin_car_is_off (self->car, name) ? "off" : "on";
      if (value)
        g_hash_table_insert (all, (gpointer) name, (gpointer) value);
    }
  return pin_conditions_text (all);
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

/* NULL for none; free with g_free(). */
char *
pin_conditions_text (GHashTable *conditions)
{
  g_autofree gpointer *names = NULL;
  GString *text = g_string_new (NULL);
  guint n;

  names = g_hash_table_get_keys_as_array (conditions, &n);
  qsort (names, n, sizeof *names, by_name);
  for (guint i = 0; i < n; i++)
    g_string_append_printf (text, "%s%s=%s", i ? ";" : "", (char *) names[i],
                            (char *) g_hash_table_lookup (conditions, names[i]));
  return g_string_free (text, n == 0);
}

/* The answer that a question was first given: one that was corrected since is
 * held against what was known then.  0: not answered. */
static gint64
first_given (const PinWalk *self, const PinQuestion *question)
{
  gint64 id = question->given ? question->given->id : 0;
  const gint64 *before;

  while ((before = g_hash_table_lookup (self->rows->corrected, &id)))
    id = *before;
  return id;
}

PinReferences
pin_walk_references (const PinWalk *self, const PinQuestion *question)
{
  PinReferences references = { .partner = NAN, .baseline = NAN, .best = NAN, .last_fill = NAN };
  const PinChassis *chassis = self->car->chassis;
  gint64 thing = question->slot ? question->slot->part : self->car->id;
  gint64 before = first_given (self, question);
  const PinQuantity *quantity;
  g_autofree char *conditions = NULL;

  references.scale = chassis->scale;
  references.power = chassis->power;
  references.surface = chassis->surface;
  if (question->step == NULL || question->step->measure == NULL)
    return references;
  quantity = pin_library_quantity (self->library, question->step->measure->quantity);
  conditions = pin_walk_known_conditions (self, question->step->measure, NULL);
  pin_judge_baseline (self->rows->readings, self->rows->works, thing, question->slot == NULL,
                      quantity, conditions, before, self->rows->passed, &references);
  references.partner = partner_reading (self, question);
  references.own = pin_own_limits_find (self->own_limits, question->stored,
                                        question->slot ? question->slot->part : 0, self->car->id, before);
  for (guint i = 0; quantity && i < self->rows->readings->len; i++)
    {
      const PinReading *reading = g_ptr_array_index (self->rows->readings, i);

      if (reading->thing == thing && g_str_equal (reading->quantity, quantity->id) &&
          (before == 0 || reading->id < before))
        references.last_fill = reading->value;
    }
  return references;
}

PinOutcome
pin_walk_own_word (const PinWalk *self, const PinQuestion **question)
{
  const GPtrArray *answers = self->rows->answers;
  const PinAnswer *last = answers->len ? g_ptr_array_index (answers, answers->len - 1) : NULL;
  const PinReading *reading = last ? reading_of_answer (self, last->id) : NULL;

  for (guint i = 0; reading && i < self->questions->len; i++)
    {
      const PinQuestion *asked = g_ptr_array_index (self->questions, i);
      PinReferences references;

      if (asked->given != last || asked->step == NULL || asked->step->measure == NULL)
        continue;
      references = pin_walk_references (self, asked);
      if (references.own == NULL)
        break;
      *question = asked;
      return pin_judge (asked->step->measure, reading->value, &references).outcome;
    }
  return PIN_OUTCOME_NONE;
}
