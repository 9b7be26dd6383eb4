/* What a walk comes to when it is signed off: findings opened, regraded,
 * closed or left standing, and what stands in the way. */

#include "inspection/walk-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "base/day.h"
#include "inspection/error.h"

/* The open finding that answers of one step on one part (or, where the step is
 * not about a part, at one place or on the vehicle) are about; NULL: none. */
const PinFindingRow *
pin_walk_finding (const PinWalk *self, const char *stored, gint64 part, gint64 place)
{
  const GPtrArray *findings = self->car->rows->findings;

  for (guint i = 0; i < findings->len; i++)
    {
      const PinFindingRow *row = g_ptr_array_index (findings, i);

      if (g_strcmp0 (row->step, stored) == 0 && row->part == part && (part || row->place == place))
        return row;
    }
  return NULL;
}

static gboolean
is_judgement (const PinAnswer *answer)
{
  return answer->outcome == PIN_OUTCOME_PASS || answer->outcome == PIN_OUTCOME_WATCH ||
         answer->outcome == PIN_OUTCOME_FAIL;
}

/* Within one walk a place stands for the part there, old or new. */
static gboolean
same_subject (const PinAnswer *a, const PinAnswer *b)
{
  return a->place == b->place && (a->place || a->part == b->part) && g_str_equal (a->step, b->step);
}

static gboolean
is_still_fitted (const PinWalk *self, const PinAnswer *answer)
{
  return answer->part == 0 || pin_car_slot_of_part (self->car, answer->part) != NULL;
}

/* The answers that count: for each step and part the last, as left if it was
 * asked again.  An as-left that was not checked does not wipe out what was
 * found.  A part replaced in this walk is answered for by the new one, at the
 * same place. */
static GPtrArray *
counting_answers (const PinWalk *self)
{
  GPtrArray *counting = g_ptr_array_new ();

  for (guint i = 0; i < self->rows->answers->len; i++)
    {
      PinAnswer *answer = g_ptr_array_index (self->rows->answers, i);
      gboolean stands = is_judgement (answer);

      for (guint j = 0; stands && j < counting->len; j++)
        {
          PinAnswer *old = g_ptr_array_index (counting, j);

          if (!same_subject (old, answer))
            continue;
          if (old->phase == PIN_PHASE_LEFT && answer->phase != PIN_PHASE_LEFT)
            stands = FALSE;
          else
            g_ptr_array_remove_index (counting, j--);
        }
      if (stands)
        g_ptr_array_add (counting, answer);
    }
  return counting;
}

/* Closing needs work on the part since the finding was opened, or a note that
 * says how it came to be sound. */
static gboolean
may_close (const PinWalk *self, const PinFindingRow *finding, const PinAnswer *answer)
{
  if (finding->worked || (answer->note && *answer->note))
    return TRUE;
  for (guint i = 0; i < self->rows->works->len; i++)
    {
      const PinWork *work = g_ptr_array_index (self->rows->works, i);

      if (work->id > finding->id && (finding->part ? work->thing == finding->part : TRUE) &&
          (finding->part || finding->place == 0 || work->place == finding->place))
        return TRUE;
    }
  return FALSE;
}

static const char *
grade_text (const PinWalk *self, const PinAnswer *answer)
{
  const char *slash = strchr (answer->step, '/');

  for (guint p = 0; slash && p < self->procedures->len + self->settlers->len; p++)
    {
      const PinProcedure *procedure = p < self->procedures->len ?
        g_ptr_array_index (self->procedures, p) :
        g_ptr_array_index (self->settlers, p - self->procedures->len);
      const PinStep *step;

      if (strncmp (answer->step, procedure->id, slash - answer->step) != 0 ||
          procedure->id[slash - answer->step] != '\0')
        continue;
      step = pin_procedure_step (procedure, slash + 1, NULL);
      for (guint i = 0; step && step->grades && i < step->grades->len; i++)
        {
          const PinGrade *grade = g_ptr_array_index (step->grades, i);

          if (g_strcmp0 (grade->id, answer->detail) == 0)
            return grade->text;
        }
    }
  return NULL;
}

static const char *
reading_text (const PinWalk *self, const PinAnswer *answer)
{
  for (guint i = 0; i < self->rows->traces->readings->len; i++)
    {
      const PinReading *reading = g_ptr_array_index (self->rows->traces->readings, i);

      if (reading->answer == answer->id)
        return reading->typed;
    }
  return NULL;
}

static char *
change_text (const PinWalk *self, const PinAnswer *answer)
{
  PinSlot *slot = answer->place ? g_hash_table_lookup (self->car->by_place, &answer->place) : NULL;
  const char *what = grade_text (self, answer);
  const PinQuestion *question = NULL;
  g_autofree char *title = NULL;

  for (guint i = 0; i < self->questions->len && question == NULL; i++)
    {
      question = g_ptr_array_index (self->questions, i);
      if (question->given != answer)
        question = NULL;
    }
  title = question ? pin_question_title (self, question) : g_strdup (answer->step);
  if (what == NULL)
    what = reading_text (self, answer);
  if (what == NULL)
    what = answer->detail;
  return g_strdup_printf ("%s%s%s%s%s", slot ? slot->label : "", slot ? ": " : "", title,
                          what && *what ? ", " : "", what ? what : "");
}

static void
change_free (PinChange *change)
{
  g_free (change->text);
  g_free (change);
}

static void
judge_change (const PinWalk *self, PinClosing *closing, const PinAnswer *answer)
{
  const PinFindingRow *open = pin_walk_finding (self, answer->step, answer->part, answer->place);
  PinGravity gravity = pin_gravity_of (answer->outcome, answer->unsafe);
  PinChange *change;

  if (open == NULL && (gravity == PIN_GRAVITY_NONE || !is_still_fitted (self, answer)))
    return;
  change = g_new0 (PinChange, 1);
  change->finding = open ? open->id : 0;
  change->answer = answer;
  change->gravity = gravity;
  change->text = change_text (self, answer);
  if (open == NULL)
    change->kind = PIN_CHANGE_OPENED;
  else if (gravity == PIN_GRAVITY_NONE)
    change->kind = may_close (self, open, answer) ? PIN_CHANGE_CLOSED : PIN_CHANGE_STAYS;
  else
    change->kind = open->gravity == gravity ? PIN_CHANGE_SAME : PIN_CHANGE_REGRADED;
  g_ptr_array_add (closing->changes, change);
}

static void
count_outcomes (const PinWalk *self, PinClosing *closing)
{
  for (guint i = 0; i < self->questions->len; i++)
    {
      const PinQuestion *question = g_ptr_array_index (self->questions, i);

      if (question->given == NULL)
        closing->unanswered++;
      else
        switch (question->given->outcome)
          {
          case PIN_OUTCOME_PASS:
            closing->passed++;
            break;
          case PIN_OUTCOME_WATCH:
            closing->watched++;
            break;
          case PIN_OUTCOME_FAIL:
            closing->failed++;
            closing->unsafe += question->given->unsafe;
            break;
          case PIN_OUTCOME_NOT_CHECKED:
            closing->not_checked++;
            break;
          case PIN_OUTCOME_DOES_NOT_APPLY:
            closing->does_not_apply++;
            break;
          case PIN_OUTCOME_DONE:
            closing->done++;
            break;
          case PIN_OUTCOME_NONE:
            break;
          }
    }
}

static void
block (PinClosing *closing, char *sentence)
{
  g_ptr_array_add (closing->blockers, sentence);
}

static void
list_blockers (const PinWalk *self, PinClosing *closing)
{
  for (guint i = 0; i < self->car->tray->len; i++)
    {
      const PinTrayItem *item = g_ptr_array_index (self->car->tray, i);

      block (closing, g_strdup_printf (_("Still off the car: %s. Refit it."),
                                       item->assembly ? item->assembly->title : item->id));
    }
  for (guint i = 0; i < self->owed->len; i++)
    {
      const PinOwedItem *item = g_ptr_array_index (self->owed, i);
      g_autofree char *what = item->of ? g_strdup_printf ("%s (%s)", item->title, item->of) :
                                         g_strdup (item->title);

      if (item->job || item->payable != PIN_PAYABLE_NOW)
        g_ptr_array_add (closing->still_owed, g_strdup (what));
      else
        block (closing, g_strdup_printf (_("Still owed: %s."), what));
    }
  if (closing->unanswered)
    block (closing, g_strdup_printf (ngettext ("%d question is not answered yet. “Not checked” is an answer too.",
                                               "%d questions are not answered yet. “Not checked” is an answer too.",
                                               closing->unanswered),
                                     closing->unanswered));
}

/* What signing would do now; free with pin_closing_free(). */
PinClosing *
pin_walk_closing (const PinWalk *self)
{
  PinClosing *closing = g_new0 (PinClosing, 1);
  g_autoptr (GPtrArray) counting = counting_answers (self);

  closing->changes = g_ptr_array_new_with_free_func ((GDestroyNotify) change_free);
  closing->blockers = g_ptr_array_new_with_free_func (g_free);
  closing->still_owed = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < counting->len; i++)
    judge_change (self, closing, g_ptr_array_index (counting, i));
  count_outcomes (self, closing);
  list_blockers (self, closing);
  return closing;
}

void
pin_closing_free (PinClosing *closing)
{
  if (closing == NULL)
    return;
  g_ptr_array_unref (closing->changes);
  g_ptr_array_unref (closing->blockers);
  g_ptr_array_unref (closing->still_owed);
  g_free (closing);
}

static void
bring_change (const PinWalk *self, const PinChange *change, const char *day, const char *person, PinBatch *batch)
{
  static const char *const events[] = {
    [PIN_CHANGE_OPENED] = "opened",
    [PIN_CHANGE_REGRADED] = "regraded",
    [PIN_CHANGE_CLOSED] = "closed",
  };

  if (change->kind == PIN_CHANGE_STAYS || change->kind == PIN_CHANGE_SAME)
    return;
  pin_batch_finding (batch, &(PinFinding){
    .opens = change->finding, .event = PIN_LEND (events[change->kind]), .vehicle = self->car->id,
    .place = change->answer->place, .part = change->answer->part, .gravity = change->gravity,
    .cause = change->answer->id, .note = change->answer->note, .day = PIN_LEND (day),
    .person = PIN_LEND (person) });
}

/* Walking the procedure of a job settles it. */
static void
settle_jobs (const PinWalk *self, const char *day, const char *person, PinBatch *batch)
{
  for (guint i = 0; i < self->owed->len; i++)
    {
      const PinOwedItem *item = g_ptr_array_index (self->owed, i);
      const PinJob *job = item->job ? pin_library_job (self->library, item->what + strlen ("job:")) : NULL;

      for (guint p = 0; job && p < self->procedures->len; p++)
        if (g_str_equal (((PinProcedure *) g_ptr_array_index (self->procedures, p))->id, job->procedure))
          {
            pin_batch_owed (batch, &(PinOwed){
              .vehicle = self->car->id, .what = item->what, .settles = item->id,
              .cause = self->rows->inspection->id, .day = PIN_LEND (day), .person = PIN_LEND (person) });
            break;
          }
    }
}

/* FALSE with every reason in the message if something stands in the way. */
gboolean
pin_walk_sign (const PinWalk *self, const char *person, PinBatch *batch, GError **error)
{
  g_autoptr (PinClosing) closing = pin_walk_closing (self);
  g_autofree char *day = pin_today ();

  if (self->rows->inspection->verdict)
    {
      g_set_error (error, PIN_INSPECTION_ERROR, PIN_INSPECTION_ERROR_NO_QUESTION,
                   _("%s already"), pin_walk_ended_words (self));
      return FALSE;
    }
  if (person == NULL || *person == '\0')
    {
      g_set_error_literal (error, PIN_INSPECTION_ERROR, PIN_INSPECTION_ERROR_ANSWER,
                           _("a sign-off needs the initials of who signs"));
      return FALSE;
    }
  if (closing->blockers->len)
    {
      GString *text = g_string_new (_("this cannot be signed off yet."));

      for (guint i = 0; i < closing->blockers->len; i++)
        g_string_append_printf (text, " %s", (char *) g_ptr_array_index (closing->blockers, i));
      g_set_error_literal (error, PIN_INSPECTION_ERROR, PIN_INSPECTION_ERROR_OWED, text->str);
      g_string_free (text, TRUE);
      return FALSE;
    }
  pin_batch_sign_off (batch, &(PinSignOff){ .inspection = pin_walk_id (self), .verdict = PIN_LEND ("signed"),
                                            .day = day, .person = PIN_LEND (person) });
  for (guint i = 0; i < closing->changes->len; i++)
    bring_change (self, g_ptr_array_index (closing->changes, i), day, person, batch);
  settle_jobs (self, day, person, batch);
  pin_batch_draft (batch, pin_walk_id (self), NULL);
  return TRUE;
}

/* Ends the walk without judging it.  What is off stays off and what is owed
 * stays owed, for the next walk. */
gboolean
pin_walk_abandon (const PinWalk *self, const char *person, PinBatch *batch, GError **error)
{
  g_autofree char *day = pin_today ();

  if (self->rows->inspection->verdict)
    {
      g_set_error (error, PIN_INSPECTION_ERROR, PIN_INSPECTION_ERROR_NO_QUESTION,
                   _("%s already"), pin_walk_ended_words (self));
      return FALSE;
    }
  pin_batch_sign_off (batch, &(PinSignOff){ .inspection = pin_walk_id (self), .verdict = PIN_LEND ("abandoned"),
                                            .day = day, .person = PIN_LEND (person ? person : "") });
  pin_batch_draft (batch, pin_walk_id (self), NULL);
  return TRUE;
}
