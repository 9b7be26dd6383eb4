/* From a reply to facts: one answer and all that it brings. */

#include "inspection/walk-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "base/day.h"
#include "inspection/error.h"

typedef struct
{
  const PinWalk *walk;
  const PinQuestion *question;
  const PinReply *reply;
  PinBatch *batch;
  PinOutcome outcome;
  gboolean unsafe;
  char *detail;
  char *day;
  gint64 answer, part, place, thing;
  gint64 now;
} Answering;

#define REFUSE(error, code, ...) \
  (g_set_error (error, PIN_INSPECTION_ERROR, PIN_INSPECTION_ERROR_##code, __VA_ARGS__), FALSE)

/* ---- may it be answered --------------------------------------------------- */

static gboolean
is_move (const PinQuestion *question)
{
  return question->kind == PIN_QUESTION_OFF || question->kind == PIN_QUESTION_ON;
}

static gboolean
is_latest (const PinWalk *self, const PinQuestion *question)
{
  for (guint i = 0; i < self->questions->len; i++)
    {
      const PinQuestion *other = g_ptr_array_index (self->questions, i);

      if (other->attempt > question->attempt && other->given && g_str_equal (other->key, question->key))
        return FALSE;
    }
  return TRUE;
}

static gboolean
may_correct (const PinWalk *self, const PinQuestion *question, GError **error)
{
  if (is_move (question))
    return REFUSE (error, ORDER, _("%s: what came off and went on is not corrected; undo it, or go on"), question->key);
  if (!is_latest (self, question))
    return REFUSE (error, ORDER, _("%s was asked and answered again since: correct the later answer"), question->key);
  return TRUE;
}

gboolean
pin_walk_may_answer (const PinWalk *self, const PinQuestion *question, GError **error)
{
  if (question->given)
    return may_correct (self, question, error);
  if (self->rows->inspection->verdict)
    return REFUSE (error, NO_QUESTION, _("%s: begin a new one"), pin_walk_ended_words (self));
  for (guint i = 0; i < self->questions->len; i++)
    {
      const PinQuestion *before = g_ptr_array_index (self->questions, i);
      g_autofree char *title = NULL;

      if (before == question)
        return TRUE;
      if (before->given || !(is_move (before) || is_move (question) || before->kind == PIN_QUESTION_WAY))
        continue;
      title = pin_question_title (self, before);
      if (is_move (before))
        return REFUSE (error, ORDER, _("%s comes later: first %s (%s)"), question->key, before->key, title);
      return REFUSE (error, ORDER, _("%s comes later: first answer %s (“not checked” is an answer too)"),
                     question->key, before->key);
    }
  return REFUSE (error, NO_QUESTION, _("%s is not asked in this walk"), question->key);
}

/* ---- does the reply fit ---------------------------------------------------- */

static const PinGrade *
find_grade (const PinStep *step, const char *id)
{
  for (guint i = 0; step->grades && i < step->grades->len; i++)
    {
      const PinGrade *grade = g_ptr_array_index (step->grades, i);

      if (g_strcmp0 (grade->id, id) == 0)
        return grade;
    }
  return NULL;
}

static gboolean
fit_choice (Answering *a, GError **error)
{
  const PinGrade *grade = find_grade (a->question->step, a->reply->grade);
  g_autofree char *expects = pin_question_expects (a->walk, a->question);

  if (grade == NULL)
    return REFUSE (error, ANSWER, _("%s cannot be answered with “%s”: give one of %s"), a->question->key,
                   a->reply->grade ? a->reply->grade : "", expects);
  a->outcome = grade->outcome;
  a->unsafe = grade->unsafe || (a->reply->unsafe && grade->outcome == PIN_OUTCOME_FAIL);
  if (a->reply->unsafe && grade->outcome != PIN_OUTCOME_FAIL)
    return REFUSE (error, ANSWER, _("%s: “%s” is no fail, so it cannot be raised to unsafe"),
                   a->question->key, grade->id);
  a->detail = g_strdup (grade->id);
  return TRUE;
}

static gboolean
is_judgement (PinOutcome outcome)
{
  return outcome == PIN_OUTCOME_PASS || outcome == PIN_OUTCOME_WATCH || outcome == PIN_OUTCOME_FAIL;
}

static gboolean
fit_measure (Answering *a, GError **error)
{
  const PinMeasure *measure = a->question->step->measure;

  if (a->reply->n_repeats == 0)
    return REFUSE (error, ANSWER, _("%s asks for a reading in %s"), a->question->key,
                   measure->unit ? measure->unit->symbol : _("numbers"));
  if (a->reply->n_repeats > 64)
    return REFUSE (error, ANSWER, _("%s: those are too many readings, 64 at most"), a->question->key);
  for (guint i = 0; i < a->reply->n_repeats; i++)
    if (!isfinite (a->reply->repeats[i]))
      return REFUSE (error, ANSWER, _("%s: reading %u is no number, type it again"), a->question->key, i + 1);
  if (!is_judgement (a->reply->outcome))
    return REFUSE (error, ANSWER,
                   _("%s: there is nothing yet to hold this reading against; say pass, watch or fail with it"),
                   a->question->key);
  a->outcome = a->reply->outcome;
  a->unsafe = a->reply->unsafe;
  return TRUE;
}

static gboolean
fit_count (Answering *a, GError **error)
{
  int of = a->reply->of > 0 ? a->reply->of : pin_question_count (a->question);

  if (a->reply->counted < 0 || of <= 0 || a->reply->counted > of)
    return REFUSE (error, ANSWER, _("%s asks for a count such as %d/%d"), a->question->key, of, of);
  a->outcome = is_judgement (a->reply->outcome) ? a->reply->outcome :
               a->reply->counted == of ? PIN_OUTCOME_PASS : PIN_OUTCOME_FAIL;
  if (a->outcome == PIN_OUTCOME_PASS && a->reply->counted < of)
    return REFUSE (error, ANSWER, _("%s: with %d of %d right it is no pass, say watch or fail"), a->question->key,
                   a->reply->counted, of);
  a->unsafe = a->reply->unsafe;
  a->detail = g_strdup_printf ("%d/%d", a->reply->counted, of);
  return TRUE;
}

static gboolean
fit_plain (Answering *a, GError **error)
{
  g_autofree char *expects = pin_question_expects (a->walk, a->question);
  gboolean work = pin_question_kind (a->question) == PIN_ANSWER_WORK;
  PinOutcome outcome = a->reply->outcome;

  if (work && outcome == PIN_OUTCOME_PASS)
    outcome = PIN_OUTCOME_DONE;
  if (work ? outcome != PIN_OUTCOME_DONE && outcome != PIN_OUTCOME_FAIL : !is_judgement (outcome))
    return REFUSE (error, ANSWER, _("%s cannot be answered with “%s”: give one of %s"), a->question->key,
                   pin_outcome_title (a->reply->outcome), expects);
  if (a->question->kind != PIN_QUESTION_STEP && outcome == PIN_OUTCOME_FAIL)
    return REFUSE (error, ANSWER, _("%s is done or not: if it cannot be done, say not-checked and why"),
                   a->question->key);
  a->outcome = outcome;
  a->unsafe = a->reply->unsafe;
  return TRUE;
}

static gboolean
fit_way (Answering *a, GError **error)
{
  g_autofree char *expects = pin_question_expects (a->walk, a->question);

  for (guint i = 0; i < a->question->ways->ways->len; i++)
    if (g_strcmp0 (((PinWay *) g_ptr_array_index (a->question->ways->ways, i))->id, a->reply->way) == 0)
      {
        a->outcome = PIN_OUTCOME_DONE;
        a->detail = g_strdup (a->reply->way);
        return TRUE;
      }
  return REFUSE (error, ANSWER, _("%s cannot be answered with “%s”: give one of %s"), a->question->key,
                 a->reply->way ? a->reply->way : "", expects);
}

static gboolean
fit_none (Answering *a, GError **error)
{
  if (a->reply->outcome == PIN_OUTCOME_NOT_CHECKED && (a->reply->reason == NULL || *a->reply->reason == '\0'))
    return REFUSE (error, ANSWER, _("%s: say why it was not checked"), a->question->key);
  if (a->question->kind == PIN_QUESTION_WAY)
    return REFUSE (error, ANSWER, _("%s: choose one of the ways, there is no going on without"), a->question->key);
  a->outcome = a->reply->outcome;
  a->detail = g_strdup (a->reply->reason);
  return TRUE;
}

static gboolean
fit_deeds (Answering *a, GError **error)
{
  char **offered = a->question->step ? a->question->step->deeds : NULL;

  for (guint i = 0; a->reply->deeds && a->reply->deeds[i]; i++)
    if (offered == NULL || !g_strv_contains ((const char *const *) offered, a->reply->deeds[i]))
      return REFUSE (error, ANSWER, _("%s: “%s” is no work of this step"), a->question->key, a->reply->deeds[i]);
  if (a->outcome == PIN_OUTCOME_DONE && pin_question_kind (a->question) == PIN_ANSWER_WORK &&
      offered && offered[0] && offered[1] && (a->reply->deeds == NULL || a->reply->deeds[0] == NULL))
    return REFUSE (error, ANSWER, _("%s: say which it was, deed=%s or deed=%s"), a->question->key,
                   offered[0], offered[1]);
  return TRUE;
}

static gboolean
fit_specs (Answering *a, GError **error)
{
  for (guint i = 0; i < a->reply->n_specs; i++)
    {
      const PinAsk *ask = NULL;
      double value;

      for (guint j = 0; a->question->step && j < a->question->step->asks->len && ask == NULL; j++)
        {
          ask = g_ptr_array_index (a->question->step->asks, j);
          if (!g_str_equal (ask->spec, a->reply->specs[i].id))
            ask = NULL;
        }
      if (ask == NULL)
        return REFUSE (error, ANSWER, _("%s does not ask for “%s”"), a->question->key, a->reply->specs[i].id);
      if (ask->unit && !pin_value_parse (a->reply->specs[i].typed, ask->unit, &value, NULL, error))
        {
          g_prefix_error (error, "%s, %s: ", a->question->key, ask->spec);
          return FALSE;
        }
    }
  return TRUE;
}

static gboolean
fit (Answering *a, GError **error)
{
  gboolean ok;

  if (a->reply->outcome == PIN_OUTCOME_NOT_CHECKED || a->reply->outcome == PIN_OUTCOME_DOES_NOT_APPLY)
    ok = fit_none (a, error);
  else if (a->question->kind == PIN_QUESTION_WAY)
    ok = fit_way (a, error);
  else
    switch (pin_question_kind (a->question))
      {
      case PIN_ANSWER_CHOOSE:
        ok = fit_choice (a, error);
        break;
      case PIN_ANSWER_MEASURE:
        ok = fit_measure (a, error);
        break;
      case PIN_ANSWER_COUNT:
        ok = fit_count (a, error);
        break;
      case PIN_ANSWER_PLAIN:
      case PIN_ANSWER_WORK:
      default:
        ok = fit_plain (a, error);
        break;
      }
  if (ok && a->unsafe && a->outcome != PIN_OUTCOME_FAIL)
    return REFUSE (error, ANSWER, _("%s: only a fail can be unsafe"), a->question->key);
  return ok && fit_deeds (a, error) && fit_specs (a, error);
}

/* ---- what it brings --------------------------------------------------------- */

static void
bring_answer (Answering *a)
{
  const PinAnswer *old = a->question->given;

  a->answer = pin_batch_answer (a->batch, &(PinAnswer){
    .inspection = pin_walk_id (a->walk), .step = a->question->stored, .place = a->place,
    .part = a->part, .phase = a->question->phase, .outcome = a->outcome, .unsafe = a->unsafe,
    .detail = a->detail, .note = PIN_LEND (a->reply->note), .person = PIN_LEND (a->reply->person),
    .replaces = old ? old->id : 0 });
}

static void
bring_reading (Answering *a)
{
  const PinMeasure *measure = a->question->step ? a->question->step->measure : NULL;
  g_autofree char *conditions = NULL;
  g_autoptr (GArray) repeats = NULL;

  if (measure == NULL || !is_judgement (a->outcome))
    return;
  conditions = pin_walk_known_conditions (a->walk, measure, a->reply->conditions);
  repeats = g_array_new (FALSE, FALSE, sizeof (double));
  g_array_append_vals (repeats, a->reply->repeats, a->reply->n_repeats);
  pin_batch_reading (a->batch, &(PinReading){
    .thing = a->thing, .place = a->place, .quantity = measure->quantity,
    .value = pin_judge_take (measure, a->reply->repeats, a->reply->n_repeats),
    .typed = PIN_LEND (a->reply->typed ? a->reply->typed : ""), .repeats = repeats,
    .method = PIN_LEND (a->reply->method), .conditions = conditions, .phase = a->question->phase,
    .answer = a->answer, .day = a->day, .at = a->now, .person = PIN_LEND (a->reply->person) });
}

static void
bring_trait (Answering *a, gint64 thing, const char *code, const char *text, double value)
{
  pin_batch_trait (a->batch, &(PinTrait){
    .thing = thing, .code = PIN_LEND (code), .day = a->day, .at = a->now, .value = value,
    .text = PIN_LEND (text), .typed = PIN_LEND (text), .origin = PIN_LEND ("measured"), .answer = a->answer,
    .person = PIN_LEND (a->reply->person) });
}

static void
bring_specs (Answering *a)
{
  for (guint i = 0; i < a->reply->n_specs; i++)
    {
      const PinSpecValue *spec = &a->reply->specs[i];
      double value = NAN;

      for (guint j = 0; j < a->question->step->asks->len; j++)
        {
          const PinAsk *ask = g_ptr_array_index (a->question->step->asks, j);

          if (ask->unit && g_str_equal (ask->spec, spec->id))
            pin_value_parse (spec->typed, ask->unit, &value, NULL, NULL);
        }
      bring_trait (a, a->thing, spec->id, spec->typed, value);
    }
}

/* A new part of the same kind and size takes the old one's place. */
static gint64
bring_new_part (Answering *a)
{
  const PinSlot *slot = a->question->slot;
  gint64 fresh = pin_batch_part (a->batch, 0, slot->kind, 0);
  GHashTableIter iter;
  gpointer code, trait;

  pin_batch_fitting (a->batch, &(PinFitting){ .part = slot->part, .shelf = PIN_LEND ("bin"), .day = a->day,
    .at = a->now, .answer = a->answer, .person = PIN_LEND (a->reply->person) });
  pin_batch_fitting (a->batch, &(PinFitting){ .part = fresh, .place = slot->place, .day = a->day,
    .at = a->now, .answer = a->answer, .person = PIN_LEND (a->reply->person) });
  g_hash_table_iter_init (&iter, slot->specs);
  while (g_hash_table_iter_next (&iter, &code, &trait))
    {
      const PinTrait *old = trait;

      if (!g_str_has_prefix (code, "used."))
        pin_batch_trait (a->batch, &(PinTrait){
          .thing = fresh, .code = code, .day = a->day, .at = a->now, .value = old->value,
          .text = old->text, .typed = old->typed, .origin = PIN_LEND ("default"), .answer = a->answer });
    }
  for (guint i = 0; i < a->walk->car->rows->findings->len; i++)
    {
      const PinFindingRow *finding = g_ptr_array_index (a->walk->car->rows->findings, i);

      if (finding->part == slot->part)
        pin_batch_finding (a->batch, &(PinFinding){
          .opens = finding->id, .event = PIN_LEND ("closed"), .vehicle = finding->vehicle, .place = finding->place,
          .part = finding->part, .cause = a->answer, .note = PIN_LEND ("part replaced"), .day = a->day,
          .person = PIN_LEND (a->reply->person) });
    }
  return fresh;
}

static gboolean
worked_by_old_answer (Answering *a, gint64 finding)
{
  const GPtrArray *events = a->walk->rows->traces->findings;

  for (guint i = 0; a->question->given && i < events->len; i++)
    {
      const PinFinding *event = g_ptr_array_index (events, i);

      if (event->opens == finding && event->cause == a->question->given->id)
        return TRUE;
    }
  return FALSE;
}

static void
bring_worked (Answering *a)
{
  for (guint i = 0; i < a->walk->car->rows->findings->len; i++)
    {
      const PinFindingRow *finding = g_ptr_array_index (a->walk->car->rows->findings, i);

      if (a->part && finding->part == a->part &&
          (!finding->worked || worked_by_old_answer (a, finding->id)))
        pin_batch_finding (a->batch, &(PinFinding){
          .opens = finding->id, .event = PIN_LEND ("worked"), .vehicle = finding->vehicle, .place = finding->place,
          .part = finding->part, .gravity = finding->gravity, .cause = a->answer, .day = a->day,
          .person = PIN_LEND (a->reply->person) });
    }
}

static void
bring_deed (Answering *a, const char *deed)
{
  gint64 thing = a->thing;
  gboolean replaced = g_str_equal (deed, "replaced") && a->question->slot && a->question->slot->part;

  if (replaced)
    thing = bring_new_part (a);
  pin_batch_work (a->batch, &(PinWork){
    .thing = thing, .place = a->place, .deed = PIN_LEND (deed), .answer = a->answer, .cost = -1,
    .note = PIN_LEND (a->reply->note), .day = a->day, .at = a->now, .person = PIN_LEND (a->reply->person) });
  if (!replaced)
    bring_worked (a);
}

/* Work steps: what was chosen, or their one deed.  A question that also has
 * deeds records those that the person ticked. */
static void
bring_deeds (Answering *a)
{
  char **offered = a->question->step ? a->question->step->deeds : NULL;

  for (guint i = 0; a->reply->deeds && a->reply->deeds[i]; i++)
    bring_deed (a, a->reply->deeds[i]);
  if ((a->reply->deeds == NULL || a->reply->deeds[0] == NULL) && a->outcome == PIN_OUTCOME_DONE &&
      offered && offered[0])
    bring_deed (a, offered[0]);
}

/* The debt was made by the answer that is being corrected, and goes with it. */
static gboolean
goes_with_old_answer (Answering *a, gint64 owed)
{
  const GPtrArray *rows = a->walk->rows->traces->owed;

  for (guint i = 0; a->question->given && i < rows->len; i++)
    {
      const PinOwed *row = g_ptr_array_index (rows, i);

      if (row->id == owed)
        return row->cause == a->question->given->id;
    }
  return FALSE;
}

static gboolean
is_owed (Answering *a, const char *what, const char *assembly)
{
  for (guint i = 0; i < a->walk->owed->len; i++)
    {
      const PinOwedItem *item = g_ptr_array_index (a->walk->owed, i);

      if (g_str_equal (item->what, what) && (assembly == NULL || g_strcmp0 (item->of, assembly) == 0) &&
          !goes_with_old_answer (a, item->id))
        return TRUE;
    }
  return FALSE;
}

static void
bring_owed (Answering *a, const char *what, gint64 ready_at, gint64 due_at)
{
  pin_batch_owed (a->batch, &(PinOwed){
    .vehicle = a->walk->car->id, .place = a->place, .what = PIN_LEND (what), .ready_at = ready_at,
    .due_at = due_at, .cause = a->answer, .day = a->day, .person = PIN_LEND (a->reply->person) });
}

static void
bring_debt (Answering *a, const char *what)
{
  const PinDebt *debt = pin_library_debt (a->walk->library, what);
  gint64 ready_at = debt && debt->payable == PIN_PAYABLE_TIME ? a->now + debt->minutes * 60000LL : 0;

  bring_owed (a, what, ready_at, 0);
}

static void
bring_debts (Answering *a)
{
  const PinAssembly *off = a->question->kind == PIN_QUESTION_OFF ? a->question->assembly : NULL;
  const PinStep *step = a->question->step;

  if (a->outcome == PIN_OUTCOME_NOT_CHECKED || a->outcome == PIN_OUTCOME_DOES_NOT_APPLY ||
      a->outcome == PIN_OUTCOME_FAIL)
    return;
  for (guint i = 0; off && off->owes && off->owes[i]; i++)
    if (!is_owed (a, off->owes[i], off->title))
      bring_debt (a, off->owes[i]);
  if (step && step->owes && !is_owed (a, step->owes, NULL))
    bring_debt (a, step->owes);
}

/* A debt is settled by its step once what it is about is on again. */
static gboolean
is_payable (Answering *a, const PinOwedItem *item)
{
  for (guint i = 0; i < a->walk->car->tray->len; i++)
    {
      const PinTrayItem *tray = g_ptr_array_index (a->walk->car->tray, i);

      if (tray->assembly && tray->assembly->owes &&
          g_strv_contains ((const char *const *) tray->assembly->owes, item->what))
        return FALSE;
    }
  return item->ready_at == 0 || item->ready_at <= a->now;
}

static gboolean
settles_for_all (Answering *a)
{
  for (guint i = 0; i < a->walk->questions->len; i++)
    {
      const PinQuestion *other = g_ptr_array_index (a->walk->questions, i);

      if (other != a->question && other->step == a->question->step && other->given == NULL)
        return FALSE;
      if (other != a->question && other->step == a->question->step && other->given &&
          (other->given->outcome == PIN_OUTCOME_NOT_CHECKED || other->given->outcome == PIN_OUTCOME_FAIL) &&
          is_latest (a->walk, other))
        return FALSE;
    }
  return TRUE;
}

static void
settle (Answering *a, const char *what, gint64 owed)
{
  pin_batch_owed (a->batch, &(PinOwed){
    .vehicle = a->walk->car->id, .what = PIN_LEND (what), .settles = owed, .cause = a->answer,
    .day = a->day, .person = PIN_LEND (a->reply->person) });
}

/* What the answer that is being corrected had settled is open again, though
 * the list of what is owed does not show it yet. */
static void
settle_again (Answering *a)
{
  const GPtrArray *rows = a->walk->rows->traces->owed;

  for (guint i = 0; a->question->given && i < rows->len; i++)
    {
      const PinOwed *row = g_ptr_array_index (rows, i);

      if (row->settles && row->cause == a->question->given->id)
        settle (a, row->what, row->settles);
    }
}

static void
bring_settled (Answering *a)
{
  if (a->question->step == NULL || a->outcome == PIN_OUTCOME_NOT_CHECKED || a->outcome == PIN_OUTCOME_FAIL ||
      !settles_for_all (a))
    return;
  for (guint i = 0; i < a->walk->owed->len; i++)
    {
      const PinOwedItem *item = g_ptr_array_index (a->walk->owed, i);

      if (!item->job && is_payable (a, item) &&
          pin_step_settles (a->walk->library, a->question->procedure, a->question->step, item->what))
        settle (a, item->what, item->id);
    }
  settle_again (a);
}

static void
bring_jobs (Answering *a)
{
  for (guint i = 0; a->question->step && i < a->question->step->branches->len; i++)
    {
      const PinBranch *branch = g_ptr_array_index (a->question->step->branches, i);
      const PinJob *job = branch->opens ? pin_library_job (a->walk->library, branch->opens) : NULL;
      g_autofree char *what = g_strconcat ("job:", branch->opens, NULL);
      gboolean matches = branch->outcome != PIN_OUTCOME_NONE ? branch->outcome == a->outcome :
                         a->detail && branch->grades && a->outcome != PIN_OUTCOME_NOT_CHECKED &&
                         g_strv_contains ((const char *const *) branch->grades, a->detail);

      if (job && matches && !is_owed (a, what, NULL))
        bring_owed (a, what, 0, a->now + job->within_minutes * 60000LL);
    }
}

/* What is unsafe grounds the car at once, not at the sign-off. */
static void
bring_unsafe (Answering *a)
{
  const PinFindingRow *open = pin_walk_finding (a->walk, a->question->stored, a->part, a->place);

  if (!a->unsafe || (open && open->gravity == PIN_GRAVITY_UNSAFE &&
                     (a->question->given == NULL || open->cause != a->question->given->id)))
    return;
  if (open && a->question->given && open->cause == a->question->given->id)
    open = NULL;              /* is being withdrawn with the answer that opened it */
  pin_batch_finding (a->batch, &(PinFinding){
    .opens = open ? open->id : 0, .event = PIN_LEND (open ? "regraded" : "opened"), .vehicle = a->walk->car->id,
    .place = a->place, .part = a->part, .gravity = PIN_GRAVITY_UNSAFE, .cause = a->answer,
    .note = PIN_LEND (a->reply->note), .day = a->day, .person = PIN_LEND (a->reply->person) });
}

static void
bring_way (Answering *a)
{
  const char *by = a->question->kind == PIN_QUESTION_WAY ? a->question->ways->by : NULL;
  g_autofree char *code = NULL;

  if (by == NULL)
    return;
  if (g_str_has_prefix (by, "spec:"))
    {
      for (guint i = 0; i < a->question->slots->len; i++)
        {
          const PinSlot *slot = g_ptr_array_index (a->question->slots, i);

          if (slot)
            bring_trait (a, slot->part, by + strlen ("spec:"), a->detail, NAN);
        }
      return;
    }
  code = g_strconcat ("way:", a->question->procedure->id, "/", a->question->ways->id, NULL);
  bring_trait (a, a->walk->car->id, code, a->detail, NAN);
}

/* A correction keeps the pictures of what it corrects, unless it has one itself. */
static void
bring_photo (Answering *a)
{
  const GPtrArray *old = a->question->given ? a->walk->rows->traces->photos : NULL;

  if (a->reply->photo)
    pin_batch_photo (a->batch, &(PinPhoto){ .of = a->answer, .jpeg = a->reply->photo, .day = a->day,
                                            .person = PIN_LEND (a->reply->person) });
  for (guint i = 0; old && a->reply->photo == NULL && i < old->len; i++)
    {
      PinPhoto photo = *(PinPhoto *) g_ptr_array_index (old, i);

      if (photo.of != a->question->given->id)
        continue;
      photo.id = 0;
      photo.of = a->answer;
      pin_batch_photo (a->batch, &photo);
    }
}

/* A correction after the sign-off puts its finding right at once. */
static void
bring_late_finding (Answering *a)
{
  PinGravity gravity = pin_gravity_of (a->outcome, a->unsafe);

  if (a->walk->rows->inspection->verdict == NULL || gravity == PIN_GRAVITY_NONE || a->unsafe)
    return;
  /* What was wrong with a part that has gone since went with it. */
  if (a->question->slot && a->question->slot->part != a->part)
    return;
  pin_batch_finding (a->batch, &(PinFinding){
    .event = PIN_LEND ("opened"), .vehicle = a->walk->car->id, .place = a->place, .part = a->part,
    .gravity = gravity, .cause = a->answer, .note = PIN_LEND (a->reply->note), .day = a->day,
    .person = PIN_LEND (a->reply->person) });
}

#define TAKE_WHEN(list, Row)                                                      \
  for (guint i = 0; i < traces->list->len; i++)                                    \
    {                                                                               \
      const Row *row = g_ptr_array_index (traces->list, i);                         \
                                                                                    \
      if (row->answer != old->id)                                                   \
        continue;                                                                   \
      g_free (a->day);                                                              \
      a->day = g_strdup (row->day);                                                 \
      a->now = row->at;                                                             \
    }

/* What is put right after the sign-off was read, and done, on the day of the
 * inspection and with the part that sat there then: an oiling that is corrected
 * is no oiling of today. */
static void
stay_with_what_is_corrected (Answering *a)
{
  const PinInspectionRow *inspection = a->walk->rows->inspection;
  const PinTraces *traces = a->walk->rows->traces;
  const PinAnswer *old = a->question->given;

  if (old == NULL || inspection->verdict == NULL)
    return;
  a->part = old->part;
  a->thing = a->part ? a->part : a->walk->car->id;
  a->now = pin_book_id_instant (old->id);
  g_free (a->day);
  a->day = g_strdup (inspection->signed_day ? inspection->signed_day : inspection->day);
  TAKE_WHEN (traits, PinTrait)
  TAKE_WHEN (works, PinWork)
  TAKE_WHEN (readings, PinReading)
}

gboolean
pin_walk_answer (const PinWalk *self, const PinQuestion *question, const PinReply *reply,
                 PinBatch *batch, GError **error)
{
  Answering a = { .walk = self, .question = question, .reply = reply, .batch = batch };
  gboolean ok = pin_walk_may_answer (self, question, error) && fit (&a, error);

  if (ok)
    {
      a.now = pin_now ();
      a.day = pin_today ();
      a.place = question->slot ? question->slot->place : 0;
      a.part = question->slot ? question->slot->part : 0;
      a.thing = a.part ? a.part : self->car->id;
      stay_with_what_is_corrected (&a);
      if (question->given)
        pin_walk_withdraw (self, question->given, reply->person, batch);
      bring_answer (&a);
      bring_reading (&a);
      bring_specs (&a);
      bring_deeds (&a);
      bring_debts (&a);
      bring_settled (&a);
      bring_jobs (&a);
      bring_unsafe (&a);
      bring_way (&a);
      bring_photo (&a);
      if (question->given)
        bring_late_finding (&a);
      pin_batch_draft (batch, pin_walk_id (self), NULL);
      g_free (a.day);
    }
  g_free (a.detail);
  return ok;
}
