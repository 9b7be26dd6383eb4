#include "demo/demo-private.h"

#include <math.h>
#include <string.h>

/* What a keeper would have answered: sound, unless the story says otherwise. */

static const DemoReply *
wanted (const DemoWalk *how, const char *key)
{
  for (const DemoReply *reply = how->replies; reply != NULL && reply->key != NULL; reply++)
    if (g_pattern_match_simple (reply->key, key))
      return reply;
  return NULL;
}

/* ---- Grades ---- */

static const PinGrade *
grade_with (const GPtrArray *grades, PinOutcome outcome)
{
  for (guint i = 0; i < grades->len; i++)
    if (((PinGrade *) grades->pdata[i])->outcome == outcome)
      return grades->pdata[i];
  return grades->pdata[0];
}

static void
choose (Demo *demo, const PinQuestion *question, const GPtrArray *grades, const DemoWalk *how,
        DemoAnswer *answer)
{
  gboolean dry = question->phase == PIN_PHASE_FOUND &&
                 g_str_equal (question->stored, "bearings/grade") &&
                 pin_dice_chance (&demo->dice, how->wear);

  answer->reply.grade = grade_with (grades, dry ? PIN_OUTCOME_WATCH : PIN_OUTCOME_PASS)->id;
}

static const GPtrArray *
grades_of (const PinQuestion *question)
{
  const PinStep *step = question->step;

  if (step->grades != NULL && step->grades->len > 0)
    return step->grades;
  step = step->again ? pin_procedure_step (question->procedure, step->again, NULL) : step;
  return step->grades;
}

/* ---- Readings ---- */

static const PinMeasure *
measure_of (const PinQuestion *question)
{
  const PinStep *step = question->step;

  if (step->measure == NULL && step->again != NULL)
    step = pin_procedure_step (question->procedure, step->again, NULL);
  return step->measure;
}

/* Typical of the sort of car, in shown units; from memory, illustration only. */
static double
typical (const char *quantity)
{
  static const struct { const char *quantity; double value; } known[] = {
    { "coast-time", 2.4 }, { "play", 0.6 }, { "end-float", 0.8 }, { "bend", 0.05 },
    { "lock-angle", 31 }, { "backlash", 0.15 }, { "gap", 0.3 }, { "ride-height", 26 },
    { "droop", 5 }, { "length", 60 }, { "rebound", 90 }, { "diameter", 84 },
    { "tread", 70 }, { "mass", 42 }, { "temperature", 41 }, { "voltage", 6.6 },
    { "resistance", 5 }, { "capacity", 4600 }, { "speed", 48 }, { "torque", 2.2 } };

  for (gsize i = 0; i < G_N_ELEMENTS (known); i++)
    if (g_str_equal (known[i].quantity, quantity))
      return known[i].value;
  return 1;
}

/* Well inside the plain limits, if there are any; canonical. */
static double
middle (const PinMeasure *measure, const PinQuantity *quantity, const PinProposal *limits)
{
  double usual = pin_unit_from (quantity->unit, typical (measure->quantity));

  if (limits->limits == NULL || limits->against != PIN_AGAINST_PLAIN)
    return usual;
  if (!isnan (limits->pass_min) && !isnan (limits->pass_max))
    return (limits->pass_min + limits->pass_max) / 2;
  if (!isnan (limits->pass_max))
    return MIN (usual, limits->pass_max * 0.7);
  return isnan (limits->pass_min) ? usual : MAX (usual, limits->pass_min * 1.25);
}

/* The same car has about the same figure each time; sides agree. */
static double
plausible (Demo *demo, const PinWalk *walk, const PinQuestion *question,
           const PinMeasure *measure, const PinQuantity *quantity)
{
  PinReferences references = pin_walk_references (walk, question);
  PinProposal limits = pin_judge (
      measure, pin_unit_from (quantity->unit, typical (measure->quantity)), &references);
  g_autofree char *car = g_strconcat (pin_walk_car (walk)->name, question->stored, NULL);
  double value = middle (measure, quantity, &limits) * (1 + 0.08 * pin_text_spread (car));

  return value * (1 + 0.02 * pin_dice_spread (&demo->dice));
}

static double
rounded (double canonical, const PinQuantity *quantity)
{
  double scale = pow (10, quantity->decimals);
  double shown = pin_unit_to (quantity->unit, canonical);

  return pin_unit_from (quantity->unit, round (shown * scale) / scale);
}

static void
write_typed (DemoAnswer *answer, const PinQuantity *quantity)
{
  g_autoptr (GString) typed = g_string_new (NULL);

  for (guint i = 0; i < answer->reply.n_repeats; i++)
    {
      g_autofree char *number = pin_number_format (
          pin_unit_to (quantity->unit, answer->repeats[i]), quantity->decimals);

      g_string_append_printf (typed, "%s%s", i ? ", " : "", number);
    }
  g_string_append_printf (typed, " %s", quantity->unit->symbol);
  answer->typed = g_string_free (g_steal_pointer (&typed), FALSE);
  answer->reply.typed = answer->typed;
}

static void
condition (GHashTable *conditions, const char *name, const char *value)
{
  g_hash_table_insert (conditions, g_strdup (name), g_strdup (value));
}

static GHashTable *
conditions_of (Demo *demo, const PinMeasure *measure)
{
  static const char *const values[][2] = {
    { "wheels", "on" }, { "pack", "in" }, { "body", "off" }, { "tyres", "the usual set" },
    { "patch", "matt" }, { "gearing", "as fitted" }, { "surface", "bench" },
    { "since-stop", "20" }, { "charger", "own" }, { "charge", "storage" } };
  GHashTable *conditions = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autofree char *ambient = g_strdup_printf ("%d", pin_dice_int (&demo->dice, 18, 21));

  for (guint i = 0; measure->conditions != NULL && measure->conditions[i] != NULL; i++)
    for (gsize j = 0; j < G_N_ELEMENTS (values); j++)
      if (g_str_equal (measure->conditions[i], values[j][0]))
        condition (conditions, values[j][0], values[j][1]);
  if (measure->conditions != NULL &&
      g_strv_contains ((const char *const *) measure->conditions, "ambient"))
    condition (conditions, "ambient", ambient);
  return conditions;
}

static void
read_off (Demo *demo, const PinWalk *walk, const PinQuestion *question, const char *told,
          DemoAnswer *answer)
{
  const PinMeasure *measure = measure_of (question);
  const PinQuantity *quantity = pin_library_quantity (demo->library, measure->quantity);
  guint n = (guint) CLAMP (measure->repeat, 1, 8);
  double value = plausible (demo, walk, question, measure, quantity);
  PinReferences references = pin_walk_references (walk, question);

  if (told != NULL)
    pin_value_parse (told, quantity->unit, &value, NULL, NULL);
  for (guint i = 0; i < n; i++)
    answer->repeats[i] =
        rounded (value * (1 + (n > 1 ? 0.03 * pin_dice_spread (&demo->dice) : 0)), quantity);
  answer->reply.repeats = answer->repeats;
  answer->reply.n_repeats = n;
  answer->reply.outcome =
      pin_judge (measure, pin_judge_take (measure, answer->repeats, n), &references).outcome;
  if (answer->reply.outcome == PIN_OUTCOME_NONE)
    answer->reply.outcome = PIN_OUTCOME_PASS;
  answer->reply.conditions = conditions_of (demo, measure);
  write_typed (answer, quantity);
}

/* ---- What is asked besides ---- */

static const char *
usual_spec (const char *spec)
{
  static const char *const values[][2] = { { "lube", "light oil" },
                                           { "end-point-left", "104" },
                                           { "end-point-right", "102" },
                                           { "sub-trim", "2 left" },
                                           { "dual-rate", "90" },
                                           { "thread", "M3" },
                                           { "key", "2" },
                                           { "fluid", "450" },
                                           { "fill", "38.5" },
                                           { "piston", "6 holes, 1.3 mm" },
                                           { "spring", "medium" },
                                           { "collar", "6" },
                                           { "limiter", "2" } };

  for (gsize i = 0; i < G_N_ELEMENTS (values); i++)
    if (g_str_equal (values[i][0], spec))
      return values[i][1];
  return "1";
}

static void
tell_specs (const PinQuestion *question, DemoAnswer *answer)
{
  GPtrArray *asks = question->step ? question->step->asks : NULL;

  for (guint i = 0; asks != NULL && i < asks->len && i < G_N_ELEMENTS (answer->specs); i++)
    {
      const PinAsk *ask = asks->pdata[i];
      const PinTrait *known = question->slot && question->slot->part
                              ? pin_slot_spec (question->slot, ask->spec) : NULL;

      answer->spec_texts[i] =
          g_strdup (known && known->typed ? known->typed : usual_spec (ask->spec));
      answer->specs[i] = (PinSpecValue) { ask->spec, answer->spec_texts[i] };
      answer->reply.n_specs = i + 1;
    }
  answer->reply.specs = answer->specs;
}

static void
tell_work (const PinQuestion *question, const char *told, DemoAnswer *answer)
{
  answer->reply.outcome = PIN_OUTCOME_DONE;
  if (question->step == NULL || question->step->deeds == NULL || question->step->deeds[0] == NULL)
    return;
  answer->deeds[0] = told && g_strv_contains ((const char *const *) question->step->deeds, told)
                     ? told : question->step->deeds[0];
  answer->reply.deeds = answer->deeds;
}

static void
tell_count (const PinQuestion *question, const char *told, DemoAnswer *answer)
{
  answer->reply.of = pin_question_count (question);
  answer->reply.counted = told ? atoi (told) : answer->reply.of;
}

static void
tell (Demo *demo, const PinWalk *walk, const PinQuestion *question, const DemoWalk *how,
      const char *told, DemoAnswer *answer)
{
  answer->reply.counted = -1;
  if (question->kind == PIN_QUESTION_WAY)
    {
      answer->reply.way = told ? told : ((PinWay *) question->ways->ways->pdata[0])->id;
      return;
    }
  if (question->kind != PIN_QUESTION_STEP)
    {
      answer->reply.outcome = PIN_OUTCOME_DONE;
      return;
    }
  switch (pin_question_kind (question))
    {
    case PIN_ANSWER_CHOOSE:
      if (told != NULL)
        answer->reply.grade = told;
      else
        choose (demo, question, grades_of (question), how, answer);
      break;
    case PIN_ANSWER_MEASURE:
      read_off (demo, walk, question, told, answer);
      break;
    case PIN_ANSWER_COUNT:
      tell_count (question, told, answer);
      break;
    case PIN_ANSWER_WORK:
      tell_work (question, told, answer);
      break;
    case PIN_ANSWER_PLAIN:
      if (told == NULL || !pin_outcome_parse (told, &answer->reply.outcome))
        answer->reply.outcome = PIN_OUTCOME_PASS;
      break;
    }
  tell_specs (question, answer);
}

void
demo_answer (Demo *demo, const PinWalk *walk, const PinQuestion *question, const DemoWalk *how,
             DemoAnswer *answer)
{
  const DemoReply *want = wanted (how, question->key);
  const char *told = want ? want->answer : NULL;

  memset (answer, 0, sizeof *answer);
  answer->reply.person = how->person;
  if (told != NULL && g_str_equal (told, "not-checked"))
    {
      answer->reply.outcome = PIN_OUTCOME_NOT_CHECKED;
      answer->reply.reason = want->note;
      answer->reply.counted = -1;
      return;
    }
  if (told != NULL && g_str_has_prefix (told, "unsafe:"))
    {
      answer->reply.unsafe = TRUE;
      told += strlen ("unsafe:");
    }
  tell (demo, walk, question, how, told, answer);
  answer->reply.note = want ? want->note : NULL;
  answer->photo = want && want->photo ? demo_photo () : NULL;
  answer->reply.photo = answer->photo;
}

void
demo_answer_clear (DemoAnswer *answer)
{
  g_clear_pointer (&answer->typed, g_free);
  g_clear_pointer (&answer->photo, g_bytes_unref);
  g_clear_pointer (&answer->reply.conditions, g_hash_table_unref);
  for (gsize i = 0; i < G_N_ELEMENTS (answer->spec_texts); i++)
    g_clear_pointer (&answer->spec_texts[i], g_free);
}
