#include "demo/demo-private.h"

#include <glib/gi18n.h>

#include "base/day.h"

/* Walks that came to an end never ask this often. */
#define MOST_ROUNDS 900

static gpointer
load_walk (PinDb *db, gpointer data, GError **error)
{
  return pin_walk_rows_load (db, *(gint64 *) data, error);
}

static PinWalk *
load (Demo *demo, gint64 inspection, GError **error)
{
  PinWalkRows *rows = pin_book_run (demo->book, load_walk, &inspection, error);

  return rows ? pin_walk_new (rows, demo->library, error) : NULL;
}

static gint64
begin (Demo *demo, DemoCar which, const DemoWalk *how, GError **error)
{
  g_autoptr (PinCar) car = demo_load (demo, which, error);
  g_autoptr (PinBatch) batch = car ? pin_batch_new (demo->book) : NULL;
  gint64 id = car ? pin_walk_begin (batch, demo->library, car, how->what, how->person, error) : 0;

  return id != 0 && pin_book_commit (demo->book, batch, error) ? id : 0;
}

/* ---- How many questions one reading of the walk will do for ---- */

static gboolean
is_plain_step (const PinQuestion *question)
{
  const PinStep *step = question->step;

  return question->kind == PIN_QUESTION_STEP && question->given == NULL && !question->settling &&
         step->owes == NULL && step->settles == NULL;
}

static PinOutcome
outcome_of (const PinStep *step, const DemoAnswer *answer)
{
  for (guint i = 0;
       answer->reply.grade != NULL && step->grades != NULL && i < step->grades->len; i++)
    {
      const PinGrade *grade = step->grades->pdata[i];

      if (g_str_equal (grade->id, answer->reply.grade))
        return grade->outcome;
    }
  if (answer->reply.counted >= 0 && answer->reply.counted < answer->reply.of)
    return PIN_OUTCOME_FAIL;
  return answer->reply.outcome;
}

static gboolean
leads (const PinBranch *branch, const DemoAnswer *answer, PinOutcome outcome)
{
  if (branch->outcome != PIN_OUTCOME_NONE)
    return branch->outcome == outcome;
  return answer->reply.grade != NULL && branch->grades != NULL &&
         g_strv_contains ((const char *const *) branch->grades, answer->reply.grade);
}

/* Does this answer lead somewhere else than straight on? */
static gboolean
turns_off (const PinQuestion *question, const DemoAnswer *answer)
{
  const PinStep *step = question->step;
  PinOutcome outcome;

  if (step == NULL)
    return FALSE;
  if (step->again != NULL)
    step = pin_procedure_step (question->procedure, step->again, NULL);
  outcome = outcome_of (step, answer);
  for (guint i = 0; i < step->branches->len; i++)
    if (leads (step->branches->pdata[i], answer, outcome))
      return TRUE;
  return question->step->again != NULL && outcome != PIN_OUTCOME_PASS;
}

static gboolean
replaces (const DemoAnswer *answer)
{
  return answer->deeds[0] != NULL && g_str_equal (answer->deeds[0], "replaced");
}

static void
let_time_pass (Demo *demo, const PinQuestion *question)
{
  int seconds = question->kind == PIN_QUESTION_STEP ? pin_dice_int (&demo->dice, 15, 50)
                : question->kind == PIN_QUESTION_WAIT ? (int) (question->wait->minutes * 60)
                                                      : pin_dice_int (&demo->dice, 90, 300);

  demo->now += seconds * G_GINT64_CONSTANT (1000);
  pin_pretend_now (demo->now);
}

/* What one reading of the walk has been used for so far. */
typedef struct
{
  const PinStep *step;        /* of the last question answered */
  gboolean begun;
  gboolean turned;            /* an answer led elsewhere than straight on */
  gboolean moved;             /* something came off or went on: steps look at that */
  gboolean last;              /* no more from this reading */
} Round;

static gboolean
is_move (const PinQuestion *question)
{
  return question->kind == PIN_QUESTION_OFF || question->kind == PIN_QUESTION_ON;
}

static gboolean
may_join (const Round *round, const PinQuestion *question)
{
  if (!round->begun)
    return TRUE;
  if (round->last || question->given != NULL)
    return FALSE;
  if (is_move (question))
    return !round->turned;
  return is_plain_step (question) && !round->moved &&
         (question->step == round->step || !round->turned);
}

static gboolean
answer_one (Demo *demo, const PinWalk *walk, PinQuestion *question, const DemoWalk *how,
            PinBatch *batch, Round *round, GError **error)
{
  static const PinAnswer answered = { .outcome = PIN_OUTCOME_DONE };
  DemoAnswer answer;
  gboolean ok;

  let_time_pass (demo, question);
  demo_answer (demo, walk, question, how, &answer);
  ok = pin_walk_answer (walk, question, &answer.reply, batch, error);
  round->begun = TRUE;
  round->step = question->step;
  round->turned = round->turned || turns_off (question, &answer);
  round->moved = round->moved || is_move (question);
  round->last = (!is_move (question) && !is_plain_step (question)) || replaces (&answer);
  question->given = &answered; /* for those that follow from this reading */
  demo_answer_clear (&answer);
  return ok;
}

static gboolean
is_stop (const DemoWalk *how, const PinQuestion *question)
{
  return how->stop_at != NULL && g_pattern_match_simple (how->stop_at, question->key);
}

/* What was typed when the bench was left, kept as the window keeps it. */
static void
leave_draft (const PinWalk *walk, const PinQuestion *question, const DemoWalk *how,
             PinBatch *batch)
{
  static const char form[] = "{\"key\":\"%s\",\"note\":\"%s\",\"counted\":-1}";
  g_autofree char *state = NULL;

  if (how->begun == NULL)
    return;
  state = g_strdup_printf (form, question->key, how->begun);
  pin_batch_draft (batch, pin_walk_id (walk), state);
}

/* One reading, as many answers as do not depend on each other. */
static gboolean
answer_some (Demo *demo, const PinWalk *walk, const DemoWalk *how, gboolean *stopped,
             GError **error)
{
  const GPtrArray *questions = pin_walk_questions (walk);
  g_autoptr (PinBatch) batch = pin_batch_new (demo->book);
  Round round = { 0 };

  for (guint i = (guint) pin_walk_next (walk); i < questions->len; i++)
    {
      PinQuestion *question = questions->pdata[i];

      if (!may_join (&round, question))
        break;
      *stopped = is_stop (how, question);
      if (*stopped)
        {
          leave_draft (walk, question, how, batch);
          break;
        }
      if (!answer_one (demo, walk, question, how, batch, &round, error))
        return FALSE;
    }
  return pin_batch_is_empty (batch) || pin_book_commit (demo->book, batch, error);
}

static gboolean
sign (Demo *demo, const PinWalk *walk, const DemoWalk *how, GError **error)
{
  g_autoptr (PinBatch) batch = pin_batch_new (demo->book);

  return pin_walk_sign (walk, how->person, batch, error) &&
         pin_book_commit (demo->book, batch, error);
}

/* The wrong thing was written: the answer before last, said again. */
static gboolean
correct (Demo *demo, gint64 id, const DemoWalk *how, GError **error)
{
  g_autoptr (PinWalk) walk = load (demo, id, error);
  const GPtrArray *questions = walk ? pin_walk_questions (walk) : NULL;
  DemoWalk instead = { .what = how->what, .person = how->person, .replies = how->instead };
  g_autoptr (PinBatch) batch = pin_batch_new (demo->book);

  for (guint i = 0; questions != NULL && i < questions->len; i++)
    {
      PinQuestion *question = questions->pdata[i];
      Round round = { 0 };

      if (question->given != NULL && g_pattern_match_simple (how->taken_back, question->key))
        return answer_one (demo, walk, question, &instead, batch, &round, error) &&
               pin_book_commit (demo->book, batch, error);
    }
  g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_UNKNOWN,
               _("“%s” was not answered"), how->taken_back);
  return FALSE;
}

/* Put together again in another order than planned, and then left for good. */
static gboolean
give_up (Demo *demo, gint64 id, const DemoWalk *how, GError **error)
{
  g_autoptr (PinWalk) walk = load (demo, id, error);
  g_autoptr (PinBatch) batch = pin_batch_new (demo->book);

  if (walk == NULL)
    return FALSE;
  pin_batch_walk_plan (batch, id, pin_walk_rows (walk)->inspection->plan);
  return pin_walk_abandon (walk, how->person, batch, error) &&
         pin_book_commit (demo->book, batch, error);
}

/* From where it stands to the sign-off, or to where the story leaves it. */
static gboolean
walk_on (Demo *demo, gint64 id, const DemoWalk *how, gboolean *stopped, GError **error)
{
  for (int i = 0; i < MOST_ROUNDS; i++)
    {
      g_autoptr (PinWalk) walk = load (demo, id, error);

      if (walk == NULL)
        return FALSE;
      if (pin_walk_next (walk) < 0)
        return sign (demo, walk, how, error);
      if (!answer_some (demo, walk, how, stopped, error))
        return FALSE;
      if (*stopped)
        return TRUE;
    }
  g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NOT_LAST,
               _("“%s” does not come to an end"), how->what);
  return FALSE;
}

gboolean
demo_walk (Demo *demo, DemoCar car, const DemoWalk *how, GError **error)
{
  gint64 id = begin (demo, car, how, error);
  DemoWalk rest = *how;
  gboolean stopped = FALSE;

  if (id == 0 || !walk_on (demo, id, how, &stopped, error))
    return FALSE;
  if (!stopped)
    return TRUE;
  if (how->given_up)
    return give_up (demo, id, how, error);
  if (how->taken_back == NULL)
    return TRUE;
  rest.stop_at = NULL;
  return correct (demo, id, how, error) && walk_on (demo, id, &rest, &stopped, error);
}
