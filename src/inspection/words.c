/* What a question is called and asks, in words for any view. */

#include "inspection/walk-private.h"

#include <glib/gi18n.h>
#include <string.h>

/* "rock-wheel" → "Rock wheel": for texts that give no title. */
static char *
title_from_id (const char *id)
{
  char *title = g_strdelimit (g_strdup (id), "-_", ' ');

  title[0] = g_ascii_toupper (title[0]);
  return title;
}

static const PinStep *
base_step (const PinQuestion *question)
{
  const PinStep *base = NULL;

  if (question->step && question->step->again && question->procedure)
    base = pin_procedure_step (question->procedure, question->step->again, NULL);
  return base ? base : question->step;
}

static char *
step_title (const PinQuestion *question)
{
  const PinStep *base = base_step (question);

  if (question->step->title)
    return g_strdup (question->step->title);
  if (base->title)
    return g_strdup (base->title);
  return title_from_id (base->id);
}

static char *
wait_title (const PinWait *wait)
{
  g_autofree char *minutes = pin_number_format (wait->minutes, wait->minutes == (int) wait->minutes ? 0 : 1);

  return g_strdup_printf (_("Wait %s min"), minutes);
}

/* Free with g_free(). */
char *
pin_question_title (const PinWalk *self, const PinQuestion *question)
{
  switch (question->kind)
    {
    case PIN_QUESTION_STEP:
      return step_title (question);
    case PIN_QUESTION_OFF:
      return g_strdup_printf (_("Take off: %s"), question->assembly->title);
    case PIN_QUESTION_ON:
      return g_strdup_printf (_("Refit: %s"), question->assembly->title);
    case PIN_QUESTION_WAIT:
      return wait_title (question->wait);
    case PIN_QUESTION_WAY:
      return g_strdup (_("Choose how"));
    }
  return g_strdup ("");
}

/* Free with g_free(). */
char *
pin_question_place (const PinQuestion *question)
{
  GString *text = g_string_new (NULL);

  if (question->slot)
    g_string_append (text, question->slot->label);
  for (guint i = 0; question->slots && i < question->slots->len; i++)
    {
      const PinSlot *slot = g_ptr_array_index (question->slots, i);

      if (slot)
        g_string_append_printf (text, "%s%s", text->len ? "; " : "", slot->label);
    }
  return g_string_free (text, FALSE);
}

/* Free with g_free(). */
char *
pin_question_do (const PinQuestion *question)
{
  const char *text = NULL;

  switch (question->kind)
    {
    case PIN_QUESTION_STEP:
      text = question->step->do_text;
      if (text == NULL)
        text = base_step (question)->do_text;
      break;
    case PIN_QUESTION_OFF:
      text = question->assembly->off_do;
      break;
    case PIN_QUESTION_ON:
      text = question->assembly->on_do;
      break;
    case PIN_QUESTION_WAIT:
      text = question->wait->text;
      break;
    case PIN_QUESTION_WAY:
      text = _("Each of these is accepted practice. Your choice is kept.");
      break;
    }
  return g_strdup (text ? text : "");
}

/* NULL: nothing. */
const char *
pin_question_look_for (const PinQuestion *question)
{
  if (question->step == NULL)
    return NULL;
  return question->step->look_for ? question->step->look_for : base_step (question)->look_for;
}

static int
heavier_first (gconstpointer a, gconstpointer b)
{
  const PinHazard *x = *(const PinHazard *const *) a;
  const PinHazard *y = *(const PinHazard *const *) b;

  return (int) y->level - (int) x->level;
}

static void
add_hazards (GPtrArray *list, const GPtrArray *hazards)
{
  for (guint i = 0; hazards && i < hazards->len; i++)
    g_ptr_array_add (list, g_ptr_array_index (hazards, i));
}

/* The step's own or the assembly's, heaviest first, and then those of the whole
 * procedure.  Borrowed hazards; free the array. */
GPtrArray *
pin_question_hazards (const PinWalk *self, const PinQuestion *question)
{
  GPtrArray *list = g_ptr_array_new ();
  GPtrArray *general = g_ptr_array_new ();

  if (question->step)
    add_hazards (list, question->step->hazards);
  if (question->step && base_step (question) != question->step)
    add_hazards (list, base_step (question)->hazards);
  if (question->assembly)
    add_hazards (list, question->assembly->hazards);
  if (question->procedure)
    add_hazards (general, question->procedure->hazards);
  g_ptr_array_sort (list, heavier_first);
  g_ptr_array_sort (general, heavier_first);
  add_hazards (list, general);
  g_ptr_array_unref (general);
  return list;
}

PinAnswerKind
pin_question_kind (const PinQuestion *question)
{
  if (question->kind != PIN_QUESTION_STEP)
    return PIN_ANSWER_WORK;
  return question->step->answer;
}

/* How many there are to count: the number in the text, or the screws of the
 * fastener group asked about. */
int
pin_question_count (const PinQuestion *question)
{
  double n = 0;

  if (question->step == NULL || question->step->answer != PIN_ANSWER_COUNT)
    return 0;
  if (question->step->count_of && pin_number_parse (question->step->count_of, &n))
    return (int) n;
  if (question->slot)
    {
      const PinTrait *trait = pin_slot_spec (question->slot, "count");

      if (trait && trait->value > 0)
        return (int) trait->value;
      if (question->slot->position)
        return question->slot->position->count;
    }
  return 0;
}

static void
expect_grades (GString *text, const PinStep *step)
{
  for (guint i = 0; step->grades && i < step->grades->len; i++)
    g_string_append_printf (text, "%s%s", i ? "|" : "",
                            ((PinGrade *) g_ptr_array_index (step->grades, i))->id);
}

static void
expect_ways (GString *text, const PinWays *ways)
{
  for (guint i = 0; i < ways->ways->len; i++)
    g_string_append_printf (text, "%s%s", i ? "|" : "",
                            ((PinWay *) g_ptr_array_index (ways->ways, i))->id);
}

static void
expect_step (GString *text, const PinQuestion *question)
{
  const PinStep *step = question->step;

  switch (step->answer)
    {
    case PIN_ANSWER_PLAIN:
      g_string_append (text, "pass|watch|fail|unsafe");
      break;
    case PIN_ANSWER_WORK:
      g_string_append (text, "done|fail");
      break;
    case PIN_ANSWER_CHOOSE:
      expect_grades (text, step);
      break;
    case PIN_ANSWER_MEASURE:
      g_string_append_printf (text, "value in %s", step->measure->unit ? step->measure->unit->id : "1");
      if (step->measure->repeat > 1)
        g_string_append_printf (text, ", %d by commas", step->measure->repeat);
      break;
    case PIN_ANSWER_COUNT:
      g_string_append_printf (text, "n/%d", pin_question_count (question));
      break;
    }
  for (guint i = 0; step->deeds && step->deeds[0] && step->deeds[1] && step->deeds[i]; i++)
    g_string_append_printf (text, "%s%s", i ? "|" : "; deed=", step->deeds[i]);
  for (guint i = 0; i < step->asks->len; i++)
    g_string_append_printf (text, "; ask.%s", ((PinAsk *) g_ptr_array_index (step->asks, i))->spec);
}

/* What answers fit, for a blank answers file; free with g_free(). */
char *
pin_question_expects (const PinWalk *self, const PinQuestion *question)
{
  GString *text = g_string_new (NULL);

  if (question->kind == PIN_QUESTION_STEP)
    expect_step (text, question);
  else if (question->kind == PIN_QUESTION_WAY)
    expect_ways (text, question->ways);
  else
    g_string_append (text, "done");
  return g_string_free (text, FALSE);
}
