#include "service/walk-correct.h"

#include <glib/gi18n.h>
#include <math.h>

#include "service/error.h"

#define REFUSE(error, code, ...) \
  (g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_##code, __VA_ARGS__), FALSE)

const PinQuestion *
pin_walk_question_of (const PinWalk *walk, gint64 answer)
{
  const GPtrArray *questions = pin_walk_questions (walk);

  for (guint i = 0; i < questions->len; i++)
    {
      const PinQuestion *question = g_ptr_array_index (questions, i);

      if (question->given != NULL && question->given->id == answer)
        return question;
    }
  return NULL;
}

/* ---- May it be corrected ---- */

/* What is fitted has a life of its own since: undoing that here would take a part
 * out from under what happened to it later. */
static gboolean
moved_a_part (const PinWalk *walk, const PinQuestion *question)
{
  const GPtrArray *fittings = pin_walk_rows (walk)->traces->fittings;
  char **deeds = question->step != NULL ? question->step->deeds : NULL;

  for (guint i = 0; i < fittings->len; i++)
    if (((PinFitting *) g_ptr_array_index (fittings, i))->answer == question->given->id)
      return TRUE;
  return deeds != NULL && g_strv_contains ((const char *const *) deeds, "replaced");
}

gboolean
pin_walk_may_correct (const PinWalk *walk, const PinQuestion *question, GError **error)
{
  if (question->given == NULL || question->kind != PIN_QUESTION_STEP)
    return REFUSE (error, NOTHING, _("there is no answer here to correct"));
  if (g_strcmp0 (pin_walk_rows (walk)->inspection->verdict, "signed") != 0)
    return REFUSE (error, NOT_YET, _("the inspection is not signed off: answer it again at the bench"));
  if (moved_a_part (walk, question))
    return REFUSE (error, PLACE, _("a part is replaced by this answer: put right what is fitted on the "
                                   "vehicle's page"));
  return pin_walk_may_answer (walk, question, error);
}

/* ---- The reply ---- */

typedef struct
{
  PinReply reply;
  GArray *repeats;            /* double */
  GPtrArray *deeds;           /* char*, borrowed, NULL-terminated */
  GArray *specs;              /* PinSpecValue */
  GHashTable *conditions;     /* char* → char*, owned */
  char *note;
} Filled;

static void
filled_clear (Filled *filled)
{
  g_clear_pointer (&filled->repeats, g_array_unref);
  g_clear_pointer (&filled->deeds, g_ptr_array_unref);
  g_clear_pointer (&filled->specs, g_array_unref);
  g_clear_pointer (&filled->conditions, g_hash_table_unref);
  g_free (filled->note);
}

static gboolean
is_none (PinOutcome outcome)
{
  return outcome == PIN_OUTCOME_NOT_CHECKED || outcome == PIN_OUTCOME_DOES_NOT_APPLY;
}

/* "ambient=21;wheels=off": what it was then, and not what is off the car now. */
static void
keep_conditions (Filled *filled, const char *text)
{
  g_auto (GStrv) pairs = g_strsplit (text != NULL ? text : "", ";", -1);

  filled->conditions = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  for (guint i = 0; pairs[i] != NULL; i++)
    {
      g_auto (GStrv) pair = g_strsplit (pairs[i], "=", 2);

      if (pair[0] != NULL && pair[1] != NULL)
        g_hash_table_insert (filled->conditions, g_strdup (pair[0]), g_strdup (pair[1]));
    }
  filled->reply.conditions = filled->conditions;
}

static gboolean
fill_reading (const PinWalk *walk, const PinQuestion *question, const PinCorrection *correction,
              Filled *filled, GError **error)
{
  const GPtrArray *readings = pin_walk_rows (walk)->traces->readings;
  g_auto (GStrv) words = g_strsplit (correction->typed != NULL ? correction->typed : "", ",", -1);

  filled->repeats = g_array_new (FALSE, FALSE, sizeof (double));
  for (guint i = 0; words[i] != NULL; i++)
    {
      double value;

      if (!pin_value_parse (g_strstrip (words[i]), question->step->measure->unit, &value, NULL, error))
        return FALSE;
      g_array_append_val (filled->repeats, value);
    }
  for (guint i = 0; i < readings->len; i++)
    {
      const PinReading *reading = g_ptr_array_index (readings, i);

      if (reading->answer != question->given->id)
        continue;
      filled->reply.method = reading->method;
      keep_conditions (filled, reading->conditions);
    }
  filled->reply.repeats = (const double *) filled->repeats->data;
  filled->reply.n_repeats = filled->repeats->len;
  filled->reply.typed = correction->typed;
  return TRUE;
}

static void
propose (const PinWalk *walk, const PinQuestion *question, PinReply *reply)
{
  PinReferences references = pin_walk_references (walk, question);
  double value = pin_judge_take (question->step->measure, reply->repeats, reply->n_repeats);

  reply->outcome = pin_judge (question->step->measure, value, &references).outcome;
}

static gboolean
fill_count (const PinQuestion *question, const PinCorrection *correction, Filled *filled, GError **error)
{
  int of = pin_question_count (question);
  double n;

  if (correction->typed == NULL || !pin_number_parse (correction->typed, &n) || n < 0 || n > of || n != floor (n))
    return REFUSE (error, VALUE, _("“%s” is no count: write a number from 0 to %d"),
                   correction->typed != NULL ? correction->typed : "", of);
  filled->reply.counted = (int) n;
  filled->reply.of = of;
  return TRUE;
}

/* Work and what was written down go along, where the answer is still one. */
static void
keep_work (const PinWalk *walk, const PinQuestion *question, Filled *filled)
{
  const PinTraces *traces = pin_walk_rows (walk)->traces;

  filled->deeds = g_ptr_array_new ();
  filled->specs = g_array_new (FALSE, FALSE, sizeof (PinSpecValue));
  for (guint i = 0; i < traces->works->len; i++)
    {
      const PinWork *work = g_ptr_array_index (traces->works, i);

      if (work->answer == question->given->id)
        g_ptr_array_add (filled->deeds, work->deed);
    }
  g_ptr_array_add (filled->deeds, NULL);
  for (guint i = 0; i < traces->traits->len; i++)
    {
      const PinTrait *trait = g_ptr_array_index (traces->traits, i);
      PinSpecValue spec = { trait->code, trait->typed };

      if (trait->answer == question->given->id && trait->typed != NULL)
        g_array_append_val (filled->specs, spec);
    }
  filled->reply.deeds = (const char *const *) filled->deeds->pdata;
  filled->reply.specs = (const PinSpecValue *) filled->specs->data;
  filled->reply.n_specs = filled->specs->len;
}

/* The note that stands, and why there is another answer now: in the one language of
 * the book, for it is kept. */
static void
fill_note (const PinQuestion *question, const PinCorrection *correction, Filled *filled)
{
  const char *old = question->given->note;

  filled->note = old != NULL && *old != '\0'
                   ? g_strdup_printf ("%s; corrected: %s", old, correction->why)
                   : g_strdup_printf ("corrected: %s", correction->why);
  filled->reply.note = filled->note;
}

static gboolean
fill (const PinWalk *walk, const PinQuestion *question, const PinCorrection *correction, Filled *filled,
      GError **error)
{
  PinReply *reply = &filled->reply;
  PinAnswerKind kind = pin_question_kind (question);

  reply->counted = -1;
  reply->outcome = correction->outcome;
  reply->unsafe = correction->unsafe;
  reply->person = correction->person;
  fill_note (question, correction, filled);
  if (is_none (reply->outcome))
    {
      reply->reason = correction->reason;
      return TRUE;
    }
  keep_work (walk, question, filled);
  if (kind == PIN_ANSWER_CHOOSE)
    reply->grade = correction->grade;
  if (kind == PIN_ANSWER_COUNT && !fill_count (question, correction, filled, error))
    return FALSE;
  if (kind == PIN_ANSWER_MEASURE && !fill_reading (walk, question, correction, filled, error))
    return FALSE;
  if (kind == PIN_ANSWER_MEASURE && reply->outcome == PIN_OUTCOME_NONE)
    propose (walk, question, reply);
  return TRUE;
}

gboolean
pin_walk_correct (const PinWalk *walk, const PinQuestion *question, const PinCorrection *correction,
                  PinBatch *batch, GError **error)
{
  Filled filled = { { 0 } };
  gboolean good;

  if (!pin_walk_may_correct (walk, question, error))
    return FALSE;
  if (correction->person == NULL || *correction->person == '\0')
    return REFUSE (error, NAME, _("say who corrects it: initials will do"));
  if (correction->why == NULL || *correction->why == '\0')
    return REFUSE (error, VALUE, _("say why it is corrected"));
  good = fill (walk, question, correction, &filled, error)
         && pin_walk_answer (walk, question, &filled.reply, batch, error);
  filled_clear (&filled);
  return good;
}
