/* Withdrawing an answer, with all that it brought. */

#include "inspection/walk-private.h"

#include <glib/gi18n.h>

#include "base/day.h"
#include "inspection/error.h"

/* Each row of one sort that the answer brought is withdrawn by a row that names
 * it; the newest first, so that a place is never held by two parts. */
#define DEFINE_WITHDRAW(list, Row, cause, add)                                          \
  static void                                                                           \
  withdraw_##list (const PinTraces *traces, gint64 answer, PinBatch *batch)             \
  {                                                                                     \
    for (guint i = traces->list->len; i > 0; i--)                                       \
      {                                                                                 \
        Row row = *(Row *) g_ptr_array_index (traces->list, i - 1);                     \
                                                                                        \
        if (row.cause != answer)                                                        \
          continue;                                                                     \
        row.replaces = row.id;                                                          \
        row.id = 0;                                                                     \
        row.is_void = TRUE;                                                             \
        add (batch, &row);                                                              \
      }                                                                                 \
  }

DEFINE_WITHDRAW (readings, PinReading, answer, pin_batch_reading)
DEFINE_WITHDRAW (works, PinWork, answer, pin_batch_work)
DEFINE_WITHDRAW (traits, PinTrait, answer, pin_batch_trait)
DEFINE_WITHDRAW (fittings, PinFitting, answer, pin_batch_fitting)
DEFINE_WITHDRAW (owed, PinOwed, cause, pin_batch_owed)
DEFINE_WITHDRAW (photos, PinPhoto, of, pin_batch_photo)

/* An opening is withdrawn by an event, so that the book shows that it was
 * there; later events of a finding are taken back as rows. */
static void
withdraw_findings (const PinTraces *traces, const PinAnswer *answer, const char *person, PinBatch *batch)
{
  g_autofree char *today = pin_today ();

  for (guint i = traces->findings->len; i > 0; i--)
    {
      PinFinding row = *(PinFinding *) g_ptr_array_index (traces->findings, i - 1);

      if (row.cause != answer->id)
        continue;
      if (row.opens == 0)
        {
          pin_batch_finding (batch, &(PinFinding){
            .opens = row.id, .event = PIN_LEND ("withdrawn"), .vehicle = row.vehicle, .place = row.place,
            .part = row.part, .day = today, .person = PIN_LEND (person) });
          continue;
        }
      row.replaces = row.id;
      row.id = 0;
      row.is_void = TRUE;
      pin_batch_finding (batch, &row);
    }
}

/* All that @answer brought; not the answer itself. */
void
pin_walk_withdraw (const PinWalk *self, const PinAnswer *answer, const char *person, PinBatch *batch)
{
  const PinTraces *traces = self->rows->traces;

  withdraw_findings (traces, answer, person, batch);
  withdraw_owed (traces, answer->id, batch);
  withdraw_works (traces, answer->id, batch);
  withdraw_readings (traces, answer->id, batch);
  withdraw_traits (traces, answer->id, batch);
  withdraw_fittings (traces, answer->id, batch);
  withdraw_photos (traces, answer->id, batch);
}

gboolean
pin_walk_undo (const PinWalk *self, const char *person, PinBatch *batch, char **undone_key, GError **error)
{
  const PinAnswer *last = NULL;
  PinSlot *slot;
  PinAnswer row;

  if (self->rows->inspection->verdict)
    {
      g_set_error (error, PIN_INSPECTION_ERROR, PIN_INSPECTION_ERROR_NO_QUESTION,
                   _("%s: correct a single answer instead"), pin_walk_ended_words (self));
      return FALSE;
    }
  if (self->rows->answers->len)
    last = g_ptr_array_index (self->rows->answers, self->rows->answers->len - 1);
  if (last == NULL)
    {
      g_set_error_literal (error, PIN_INSPECTION_ERROR, PIN_INSPECTION_ERROR_NO_QUESTION,
                           _("nothing has been answered yet, so there is nothing to undo"));
      return FALSE;
    }
  pin_walk_withdraw (self, last, person, batch);
  row = *last;
  row.replaces = last->id;
  row.id = 0;
  row.is_void = TRUE;
  pin_batch_answer (batch, &row);
  slot = last->place ? g_hash_table_lookup (self->car->by_place, &last->place) : NULL;
  if (undone_key)
    *undone_key = pin_answer_key (last->step, slot ? slot->code : NULL, last->phase);
  return TRUE;
}
