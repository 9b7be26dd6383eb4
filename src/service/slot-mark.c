#include "service/slot-mark.h"

/* Walks looked back on for the last answer about a position: a keeper's
 * standing habits all come up within this many. */
#define WALKS_BACK 12

static void
slot_mark_free (PinSlotMark *mark)
{
  g_free (mark->day);
  g_free (mark);
}

void
pin_slot_mark_rows_free (PinSlotMarkRows *rows)
{
  if (rows == NULL)
    return;
  g_clear_pointer (&rows->answers, g_ptr_array_unref);
  g_clear_pointer (&rows->days, g_hash_table_unref);
  g_free (rows);
}

/* ---- Reading ---- */

static gboolean
is_judged (const PinAnswer *answer)
{
  return answer->outcome != PIN_OUTCOME_DONE && answer->outcome != PIN_OUTCOME_NONE &&
         (answer->part != 0 || answer->place != 0);
}

static gboolean
add_walk (PinSlotMarkRows *rows, PinDb *db, const PinInspectionRow *walk, GError **error)
{
  g_autoptr (GPtrArray) answers = pin_query_answers (db, walk->id, error);
  gint64 *id = g_new (gint64, 1);

  *id = walk->id;
  g_hash_table_insert (rows->days, id,
                       g_strdup (walk->signed_day ? walk->signed_day : walk->day));
  if (answers == NULL)
    return FALSE;
  while (answers->len > 0)
    {
      PinAnswer *answer = g_ptr_array_steal_index (answers, answers->len - 1);

      if (is_judged (answer))
        g_ptr_array_add (rows->answers, answer);
      else
        pin_answer_free (answer);
    }
  return TRUE;
}

PinSlotMarkRows *
pin_slot_mark_rows_load (PinDb *db, gint64 vehicle, GError **error)
{
  g_autoptr (PinSlotMarkRows) rows = g_new0 (PinSlotMarkRows, 1);
  g_autoptr (GPtrArray) walks = pin_query_signed (db, vehicle, WALKS_BACK, error);

  if (walks == NULL)
    return NULL;
  rows->answers = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_answer_free);
  rows->days = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  for (guint i = 0; i < walks->len; i++)
    if (!add_walk (rows, db, walks->pdata[i], error))
      return NULL;
  return g_steal_pointer (&rows);
}

/* ---- Marking ---- */

int
pin_slot_mark_weight (const PinSlotMark *mark)
{
  switch (mark->outcome)
    {
    case PIN_OUTCOME_FAIL:
      return mark->unsafe ? 6 : 5;
    case PIN_OUTCOME_WATCH:
      return 4;
    case PIN_OUTCOME_NOT_CHECKED:
      return 3;
    case PIN_OUTCOME_NONE:
      return 2;
    case PIN_OUTCOME_PASS:
    case PIN_OUTCOME_DONE:
      return 1;
    case PIN_OUTCOME_DOES_NOT_APPLY:
      break;
    }
  return 0;
}

/* The answers of the newest walk that looked at @slot, each step's last one. */
typedef struct
{
  gint64 inspection;
  GHashTable *steps;          /* set of step ids already counted */
  PinSlotMark *mark;
} Looking;

static PinSlot *
slot_of (const PinCar *car, const PinAnswer *answer)
{
  PinSlot *slot;

  if (answer->part != 0)
    return pin_car_slot_of_part (car, answer->part);
  slot = g_hash_table_lookup (car->by_place, &answer->place);
  return slot != NULL && slot->part == 0 ? slot : NULL;
}

static void
looking_free (Looking *looking)
{
  g_hash_table_unref (looking->steps);
  g_free (looking);
}

/* A watch or fail whose finding was closed since was found sound. */
static PinOutcome
since_closed (PinOutcome outcome)
{
  return outcome == PIN_OUTCOME_WATCH || outcome == PIN_OUTCOME_FAIL ? PIN_OUTCOME_PASS : outcome;
}

static void
count_answer (Looking *looking, const PinAnswer *answer, const PinSlotMarkRows *rows)
{
  PinSlotMark given = { .outcome = since_closed (answer->outcome) };

  if (looking->inspection == 0)
    {
      looking->inspection = answer->inspection;
      looking->mark->day = g_strdup (g_hash_table_lookup (rows->days, &answer->inspection));
    }
  if (looking->inspection != answer->inspection ||
      !g_hash_table_add (looking->steps, answer->step))
    return;
  if (looking->mark->outcome == PIN_OUTCOME_NONE ||
      pin_slot_mark_weight (&given) > pin_slot_mark_weight (looking->mark))
    looking->mark->outcome = given.outcome;
}

static void
count_answers (GHashTable *marks, const PinCar *car, const PinSlotMarkRows *rows)
{
  g_autoptr (GHashTable) looks =
    g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify) looking_free);

  for (guint i = 0; i < rows->answers->len; i++)
    {
      const PinAnswer *answer = rows->answers->pdata[i];
      PinSlot *slot = slot_of (car, answer);
      Looking *looking = slot ? g_hash_table_lookup (looks, slot) : NULL;

      if (slot == NULL)
        continue;
      if (looking == NULL)
        {
          looking = g_new0 (Looking, 1);
          looking->steps = g_hash_table_new (g_str_hash, g_str_equal);
          looking->mark = g_hash_table_lookup (marks, slot->code);
          g_hash_table_insert (looks, slot, looking);
        }
      count_answer (looking, answer, rows);
    }
}

static void
count_finding (GHashTable *marks, const PinCar *car, const PinFindingRow *finding)
{
  PinSlot *slot = finding->part ? pin_car_slot_of_part (car, finding->part)
                                : g_hash_table_lookup (car->by_place, &finding->place);
  PinSlotMark *mark = slot ? g_hash_table_lookup (marks, slot->code) : NULL;
  PinSlotMark of = { .outcome = finding->gravity == PIN_GRAVITY_WATCH ? PIN_OUTCOME_WATCH
                                                                      : PIN_OUTCOME_FAIL,
                     .unsafe = finding->gravity == PIN_GRAVITY_UNSAFE };

  if (mark == NULL || finding->closed)
    return;
  if (mark->finding != 0 && pin_slot_mark_weight (&of) <= pin_slot_mark_weight (mark))
    return;
  mark->outcome = of.outcome;
  mark->unsafe = of.unsafe;
  mark->finding = finding->id;
}

GHashTable *
pin_slot_marks_new (const PinCar *car, const PinSlotMarkRows *rows)
{
  GHashTable *marks = g_hash_table_new_full (g_str_hash, g_str_equal, g_free,
                                             (GDestroyNotify) slot_mark_free);

  for (guint i = 0; i < car->slots->len; i++)
    {
      const PinSlot *slot = car->slots->pdata[i];

      g_hash_table_insert (marks, g_strdup (slot->code), g_new0 (PinSlotMark, 1));
    }
  count_answers (marks, car, rows);
  for (guint i = 0; i < car->rows->findings->len; i++)
    count_finding (marks, car, car->rows->findings->pdata[i]);
  return marks;
}
