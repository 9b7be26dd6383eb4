/* Every shipped procedure and teardown on every chassis type that it fits,
 * with answers drawn at random from a fixed seed: a walk always ends, survives
 * a reload at any point, and never signs with something off or owed. */

#include <string.h>

#include "shed.h"

static char *
random_line (GRand *rand, const PinQuestion *question)
{
  const PinStep *step = question->step;
  int dice = g_rand_int_range (rand, 0, 20);
  guint n;

  if (question->kind == PIN_QUESTION_WAY)
    {
      n = g_rand_int_range (rand, 0, question->ways->ways->len);
      return g_strdup_printf ("%s\t%s", question->key, ((PinWay *) g_ptr_array_index (question->ways->ways, n))->id);
    }
  if (question->kind == PIN_QUESTION_STEP && dice == 0)
    return g_strdup_printf ("%s\tnot-checked\treason=no time", question->key);
  if (question->kind == PIN_QUESTION_STEP && dice == 1)
    return g_strdup_printf ("%s\tdoes-not-apply", question->key);
  switch (pin_question_kind (question))
    {
    case PIN_ANSWER_CHOOSE:
      n = g_rand_int_range (rand, 0, step->grades->len);
      return g_strdup_printf ("%s\t%s", question->key, ((PinGrade *) g_ptr_array_index (step->grades, n))->id);
    case PIN_ANSWER_MEASURE:
      return g_strdup_printf ("%s\t%d\toutcome=%s", question->key, g_rand_int_range (rand, 1, 40),
                              dice < 5 ? "fail" : dice < 9 ? "watch" : "pass");
    case PIN_ANSWER_COUNT:
      n = pin_question_count (question);
      return g_strdup_printf ("%s\t%u/%u", question->key, dice < 6 ? n - 1 : n, n);
    case PIN_ANSWER_PLAIN:
      return g_strdup_printf ("%s\t%s", question->key, dice < 4 ? "fail" : dice < 7 ? "watch" : "pass");
    case PIN_ANSWER_WORK:
      break;
    }
  if (step && step->deeds && step->deeds[0] && step->deeds[1])
    return g_strdup_printf ("%s\tdone\tdeed=%s", question->key, step->deeds[dice % 2]);
  return g_strdup_printf ("%s\tdone", question->key);
}

/* What is asked to settle a debt has to be answered for the sign-off. */
static void
walk_at_random (Shed *shed, GRand *rand)
{
  for (int guard = 0; pin_walk_next (shed->walk) >= 0; guard++)
    {
      const PinQuestion *question = g_ptr_array_index (pin_walk_questions (shed->walk), pin_walk_next (shed->walk));
      g_autofree char *line = question->settling ? shed_pass (shed, question) : random_line (rand, question);

      if (guard > 3000)
        g_error ("%s on %s does not end; it asks %s", pin_walk_what (shed->walk),
                 pin_walk_car (shed->walk)->chassis->id, question->key);
      shed_answer (shed, line);
      if (guard % 17 == 16)
        shed_undo (shed);
    }
}

/* What settles a debt was answered at random too: answer it well now. */
static void
settle_for_good (Shed *shed)
{
  for (guint i = 0; i < pin_walk_questions (shed->walk)->len; i++)
    {
      const PinQuestion *question = g_ptr_array_index (pin_walk_questions (shed->walk), i);
      g_autofree char *line = NULL;

      if (question->step == NULL || question->step->settles == NULL || question->given == NULL ||
          question->given->outcome == PIN_OUTCOME_PASS || question->given->outcome == PIN_OUTCOME_DONE ||
          !pin_walk_may_answer (shed->walk, question, NULL))
        continue;
      line = shed_pass (shed, question);
      shed_answer (shed, line);
    }
}

static void
sign_or_say_why (Shed *shed)
{
  g_autoptr (PinClosing) closing = NULL;

  settle_for_good (shed);
  closing = pin_walk_closing (shed->walk);

  g_assert_cmpuint (pin_walk_tray (shed->walk)->len, ==, 0);
  if (closing->blockers->len && g_getenv ("PIN_TRACE"))
    for (guint i = 0; i < pin_walk_questions (shed->walk)->len; i++)
      {
        const PinQuestion *question = g_ptr_array_index (pin_walk_questions (shed->walk), i);

        g_printerr ("%s %d: %s %s%s\n", question->key, question->attempt,
                    question->given ? pin_outcome_word (question->given->outcome) : "-",
                    question->given && question->given->detail ? question->given->detail : "",
                    question->settling ? " (settling)" : "");
      }
  if (closing->blockers->len)
    g_error ("%s on %s cannot be signed: %s", pin_walk_what (shed->walk), pin_walk_car (shed->walk)->chassis->id,
             (char *) g_ptr_array_index (closing->blockers, 0));
  shed_sign (shed);
}

static void
assert_sound (Shed *shed)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) problems = pin_book_verify (shed->book, &error);

  g_assert_no_error (error);
  if (problems->len)
    g_error ("%s", (char *) g_ptr_array_index (problems, 0));
}

static void
walk_one (Shed *shed, const char *what, guint32 seed)
{
  GRand *rand = g_rand_new_with_seed (seed);

  shed_begin (shed, what);
  walk_at_random (shed, rand);
  sign_or_say_why (shed);
  g_rand_free (rand);
}

static void
test_chassis (gconstpointer data)
{
  Shed *shed = shed_new (data);
  g_autoptr (GPtrArray) procedures = pin_library_procedures (shed->library);
  g_autoptr (GPtrArray) teardowns = pin_library_teardowns (shed->library);
  g_autoptr (PinCar) car = shed_car (shed);
  guint walked = 0;

  for (guint i = 0; i < procedures->len; i++)
    {
      const PinProcedure *procedure = g_ptr_array_index (procedures, i);

      if (pin_procedure_fits (procedure, car))
        walk_one (shed, procedure->id, i + 1), walked++;
    }
  for (guint i = 0; i < teardowns->len; i++)
    {
      const PinTeardown *teardown = g_ptr_array_index (teardowns, i);

      if (pin_teardown_fits (teardown, car))
        walk_one (shed, teardown->id, i + 100), walked++;
    }
  g_assert_cmpuint (walked, >=, 8);
  assert_sound (shed);
  shed_free (shed);
}

int
main (int argc, char *argv[])
{
  static const char *const types[] = { "buggy-2wd-10", "buggy-4wd-10", "touring-belt-10", "crawler-10",
                                       "buggy-nitro-8", "stadium-2wd-10" };

  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (types); i++)
    {
      g_autofree char *path = g_strconcat ("/every/", types[i], NULL);

      g_test_add_data_func (path, types[i], test_chassis);
    }
  return g_test_run ();
}
