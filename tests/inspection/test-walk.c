#include <string.h>

#include "base/day.h"
#include "shed.h"

/* Walks with the shipped procedures on a 1/10 2WD buggy. */

static GString *
keys (Shed *shed)
{
  GString *text = g_string_new (NULL);
  const GPtrArray *questions = pin_walk_questions (shed->walk);

  for (guint i = 0; i < questions->len; i++)
    g_string_append_printf (text, "%s\n", ((PinQuestion *) g_ptr_array_index (questions, i))->key);
  return text;
}

static void
assert_next (Shed *shed, const char *key)
{
  g_assert_cmpstr (shed_next (shed), ==, key);
}

static gboolean
is_owed (Shed *shed, const char *what)
{
  const GPtrArray *owed = pin_walk_owed (shed->walk);

  for (guint i = 0; i < owed->len; i++)
    if (g_str_equal (((PinOwedItem *) g_ptr_array_index (owed, i))->what, what))
      return TRUE;
  return FALSE;
}

static void
test_order_of_questions (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  GString *text;
  const char *rock, *wheels, *grade, *on;

  shed_begin (shed, "bearings");
  text = keys (shed);
  rock = strstr (text->str, "bearings/rock-wheel@hub.front.left.outer\n");
  wheels = strstr (text->str, "off/wheels\n");
  grade = strstr (text->str, "bearings/grade@hub.front.left.outer\n");
  on = strstr (text->str, "on/wheels\n");
  g_assert_true (rock && wheels && grade && on);
  g_assert_true (rock < wheels && wheels < grade && grade < on);
  g_assert_true (strstr (text->str, "off/wheels\n") < strstr (text->str, "off/hubs\n"));
  g_assert_true (strstr (text->str, "on/hubs\n") < strstr (text->str, "on/wheels\n"));
  g_assert_nonnull (strstr (on, "refitting/wheel-nuts!left\n"));
  g_string_free (text, TRUE);
  shed_free (shed);
}

static void
test_found_before_opening (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");

  shed_begin (shed, "bearings");
  shed_refuse (shed, "off/wheels\tdone", "first answer bearings/rock-wheel@");
  shed_refuse (shed, "bearings/grade@hub.front.left.outer\tfree", "first off/wheels");
  shed_refuse (shed, "bearings/grade@nowhere\tfree", "is not asked in this walk");
  shed_until (shed, "off/wheels");
  shed_answer (shed, "off/wheels\tdone\tnote=pins in the tin");
  g_assert_cmpuint (pin_walk_tray (shed->walk)->len, ==, 1);
  shed_free (shed);
}

static void
test_refuses_answers_that_do_not_fit (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");

  shed_begin (shed, "bearings");
  shed_refuse (shed, "bearings/rock-wheel@hub.front.left.outer\twobbly", "one of none|felt|seen");
  shed_refuse (shed, "bearings/rock-wheel@hub.front.left.outer\tnot-checked", "say why");
  shed_refuse (shed, "bearings/rock-wheel@hub.front.left.outer", "no answer");
  shed_refuse (shed, "bearings/rock-wheel@hub.front.left.outer\tnone\tcolour=red", "is no field");
  shed_refuse (shed, "bearings/rock-wheel@hub.front.left.outer\tnone\tdeed=oiled", "is no work of this step");
  shed_refuse (shed, "bearings/rock-wheel@hub.front.left.outer\tnone\task.fluid=5cSt", "does not ask");
  shed_refuse (shed, "bearings/rock-wheel@hub.front.left.outer\tfelt\toutcome=unsafe", "raised to unsafe");
  shed_answer (shed, "bearings/rock-wheel@hub.front.left.outer\tnot-checked\treason=no time");
  shed_free (shed);
}

static void
to_grades (Shed *shed)
{
  shed_begin (shed, "bearings");
  shed_until (shed, "bearings/grade@");
}

/* Positions of one step first, then its asides once over those sent there. */
static void
test_branch_and_back (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");

  to_grades (shed);
  assert_next (shed, "bearings/grade@hub.front.left.outer");
  shed_answer (shed, "bearings/grade@hub.front.left.outer\tgritty");
  shed_answer (shed, "bearings/grade@hub.front.left.inner\tdry");
  shed_until (shed, "bearings/clean-it@");
  assert_next (shed, "bearings/clean-it@hub.front.left.outer");
  shed_answer (shed, "bearings/clean-it@hub.front.left.outer\tdone");
  assert_next (shed, "wait/dry-wait");
  shed_answer (shed, "wait/dry-wait\tdone");
  assert_next (shed, "bearings/oil-it@hub.front.left.outer");
  shed_refuse (shed, "bearings/oil-it@hub.front.left.outer\tdone", "say which it was");
  shed_answer (shed, "bearings/oil-it@hub.front.left.outer\tdone\tdeed=oiled\task.lube=thin oil");
  assert_next (shed, "bearings/grade@hub.front.left.outer!left");
  shed_answer (shed, "bearings/grade@hub.front.left.outer!left\tfree");
  assert_next (shed, "bearings/oil-it@hub.front.left.inner");
  shed_answer (shed, "bearings/oil-it@hub.front.left.inner\tdone\tdeed=greased");
  shed_answer (shed, "bearings/grade@hub.front.left.inner!left\tfree");
  g_assert_null (strstr (shed_next (shed), "bearings/grade@hub"));
  shed_free (shed);
}

/* Cleaned twice and gritty still: the third choice is a new one. */
static void
test_bounded_loop_ends_elsewhere (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  gint64 old;
  g_autoptr (PinCar) car = NULL;

  to_grades (shed);
  old = pin_car_slot (pin_walk_car (shed->walk), "hub.front.left.outer")->part;
  shed_answer (shed, "bearings/grade@hub.front.left.outer\tgritty");
  shed_until (shed, "bearings/clean-it@");
  for (int round = 0; round < 2; round++)
    {
      shed_answer (shed, "bearings/clean-it@hub.front.left.outer\tdone");
      shed_answer (shed, "wait/dry-wait\tdone");
      shed_answer (shed, "bearings/oil-it@hub.front.left.outer\tdone\tdeed=oiled");
      shed_answer (shed, "bearings/grade@hub.front.left.outer!left\tgritty");
    }
  assert_next (shed, "bearings/replace-it@hub.front.left.outer");
  shed_answer (shed, "bearings/replace-it@hub.front.left.outer\tdone");
  car = shed_car (shed);
  g_assert_cmpint (pin_car_slot (car, "hub.front.left.outer")->part, !=, old);
  g_assert_cmpstr (pin_car_slot (car, "hub.front.left.outer")->size, ==,
                   pin_car_slot (car, "hub.front.right.outer")->size);
  shed_answer (shed, "bearings/grade@hub.front.left.outer!left\tfree");
  shed_finish (shed);
  shed_sign (shed);
  shed_free (shed);
}

static void
test_resumes_on_its_step (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  GString *before, *after;
  g_autofree char *next = NULL;

  to_grades (shed);
  shed_answer (shed, "bearings/grade@hub.front.left.outer\tdry");
  next = g_strdup (shed_next (shed));
  before = keys (shed);
  shed_reopen (shed);
  after = keys (shed);
  assert_next (shed, next);
  g_assert_cmpstr (before->str, ==, after->str);
  g_string_free (before, TRUE);
  g_string_free (after, TRUE);
  shed_free (shed);
}

static void
test_undo_takes_all_back (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  g_autoptr (PinCar) car = NULL;
  gint64 old;

  to_grades (shed);
  old = pin_car_slot (pin_walk_car (shed->walk), "hub.front.left.outer")->part;
  shed_answer (shed, "bearings/grade@hub.front.left.outer\tseized");
  g_assert_cmpuint (shed_n_findings (shed), ==, 1);
  shed_until (shed, "bearings/replace-it@");
  shed_answer (shed, "bearings/replace-it@hub.front.left.outer\tdone");
  g_assert_cmpuint (shed_n_findings (shed), ==, 0);
  shed_undo (shed);
  assert_next (shed, "bearings/replace-it@hub.front.left.outer");
  car = shed_car (shed);
  g_assert_cmpint (pin_car_slot (car, "hub.front.left.outer")->part, ==, old);
  g_assert_cmpuint (shed_n_findings (shed), ==, 1);
  while (strstr (shed_next (shed), "bearings/grade@hub.front.left.outer") == NULL)
    shed_undo (shed);
  g_assert_cmpuint (shed_n_findings (shed), ==, 0);
  shed_free (shed);
}

/* ---- owed and off ---------------------------------------------------------- */

static void
assert_may_not_sign (Shed *shed, const char *message_has)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PinBatch) batch = pin_batch_new (shed->book);

  g_assert_false (pin_walk_sign (shed->walk, "AB", batch, &error));
  g_assert_nonnull (strstr (error->message, message_has));
  g_assert_true (pin_batch_is_empty (batch));
}

static void
test_no_sign_off_with_the_motor_off (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");

  shed_begin (shed, "free-roll");
  shed_until (shed, "free-roll/coast");
  g_assert_true (pin_car_is_off (pin_walk_car (shed->walk), "motor"));
  g_assert_true (is_owed (shed, "mesh"));
  assert_may_not_sign (shed, "Still off the car: motor");
  assert_may_not_sign (shed, "set the mesh");
  shed_until (shed, "on/motor");
  shed_answer (shed, "on/motor\tdone");
  assert_may_not_sign (shed, "set the mesh");
  shed_until (shed, "gear-mesh/set");
  g_assert_true (is_owed (shed, "mesh"));
  shed_answer (shed, "gear-mesh/set!left\tdone");
  g_assert_false (is_owed (shed, "mesh"));
  shed_finish (shed);
  g_assert_cmpuint (pin_walk_tray (shed->walk)->len, ==, 0);
  shed_sign (shed);
  shed_free (shed);
}

static void
test_owed_that_was_not_checked_blocks (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");

  shed_begin (shed, "free-roll");
  shed_until (shed, "gear-mesh/set");
  shed_answer (shed, "gear-mesh/set!left\tnot-checked\treason=no paper");
  shed_finish (shed);
  assert_may_not_sign (shed, "set the mesh");
  shed_answer (shed, "gear-mesh/set!left\tdone");
  shed_sign (shed);
  shed_free (shed);
}

static void
test_cure_is_signed_as_still_owed (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");

  shed_begin (shed, "free-roll");
  shed_finish (shed);
  g_assert_true (is_owed (shed, "cure"));
  shed_sign (shed);
  g_assert_true (is_owed (shed, "cure"));
  shed_free (shed);
}

static void
test_tray_outlives_an_abandoned_walk (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");

  shed_begin (shed, "free-roll");
  shed_until (shed, "free-roll/coast");
  shed_abandon (shed);
  shed_begin (shed, "drop-test");
  g_assert_true (pin_car_is_off (pin_walk_car (shed->walk), "motor"));
  g_assert_true (is_owed (shed, "mesh"));
  shed_finish (shed);
  g_assert_cmpuint (pin_walk_tray (shed->walk)->len, ==, 0);
  g_assert_false (is_owed (shed, "mesh"));
  shed_sign (shed);
  shed_free (shed);
}

/* What an earlier walk opened and closed is as found again; what it left open
 * is not. */
static void
test_opened_before (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  const PinQuestion *first;

  shed_begin (shed, "bearings");
  shed_finish (shed);
  shed_sign (shed);
  shed_begin (shed, "bearings");
  first = g_ptr_array_index (pin_walk_questions (shed->walk), 0);
  g_assert_false (first->opened_before);
  shed_until (shed, "bearings/grade@");
  shed_abandon (shed);
  shed_begin (shed, "bearings");
  shed_until (shed, "bearings/rock-wheel@");
  first = g_ptr_array_index (pin_walk_questions (shed->walk), pin_walk_next (shed->walk));
  g_assert_true (first->opened_before);
  shed_free (shed);
}

static void
test_one_walk_at_a_time (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  g_autoptr (GError) error = NULL;
  g_autoptr (PinBatch) batch = NULL;
  g_autoptr (PinCar) car = NULL;

  shed_begin (shed, "bearings");
  car = shed_car (shed);
  batch = pin_batch_new (shed->book);
  g_assert_cmpint (pin_walk_begin (batch, shed->library, car, "free-roll", "AB", &error), ==, 0);
  g_assert_nonnull (strstr (error->message, "has an inspection open"));
  shed_free (shed);
}

static void
test_fits_not (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  g_autoptr (GError) error = NULL;
  g_autoptr (PinCar) car = shed_car (shed);
  g_autoptr (PinBatch) batch = pin_batch_new (shed->book);

  g_assert_cmpint (pin_walk_begin (batch, shed->library, car, "nitro-after-run", "AB", &error), ==, 0);
  g_assert_nonnull (strstr (error->message, "is not meant for"));
  shed_free (shed);
}

/* ---- findings --------------------------------------------------------------- */

static void
test_findings_are_made_at_sign_off (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  g_autoptr (GPtrArray) findings = NULL;
  const PinFindingRow *row;

  shed_begin (shed, "bearings");
  shed_answer (shed, "bearings/rock-wheel@hub.front.left.outer\tfelt");
  g_assert_cmpuint (shed_n_findings (shed), ==, 0);
  shed_finish (shed);
  shed_sign (shed);
  findings = shed_findings (shed, FALSE);
  g_assert_cmpuint (findings->len, ==, 1);
  row = g_ptr_array_index (findings, 0);
  g_assert_cmpint (row->gravity, ==, PIN_GRAVITY_WATCH);
  g_assert_cmpstr (row->step, ==, "bearings/rock-wheel");
  g_assert_cmpstr (row->detail, ==, "felt");
  shed_free (shed);
}

static void
test_as_left_counts (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");

  to_grades (shed);
  shed_answer (shed, "bearings/grade@hub.front.left.outer\tdry");
  shed_finish (shed);
  shed_sign (shed);
  g_assert_cmpuint (shed_n_findings (shed), ==, 0);
  shed_free (shed);
}

/* What was found stays if it was not looked at again. */
static void
test_left_not_checked_wipes_nothing (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");

  to_grades (shed);
  shed_answer (shed, "bearings/grade@hub.front.left.outer\tnotchy");
  shed_until (shed, "bearings/replace-it@");
  shed_answer (shed, "bearings/replace-it@hub.front.left.outer\tnot-checked\treason=none in stock");
  shed_answer (shed, "bearings/grade@hub.front.left.outer!left\tnot-checked\treason=none in stock");
  shed_finish (shed);
  shed_sign (shed);
  g_assert_cmpuint (shed_n_findings (shed), ==, 1);
  shed_free (shed);
}

static void
walk_rock (Shed *shed, const char *answer)
{
  shed_begin (shed, "bearings");
  shed_answer (shed, answer);
  shed_finish (shed);
  shed_sign (shed);
}

static const PinFindingRow *
only_finding (Shed *shed, GPtrArray **keep)
{
  *keep = shed_findings (shed, FALSE);
  g_assert_cmpuint ((*keep)->len, ==, 1);
  return g_ptr_array_index (*keep, 0);
}

static void
test_regrade_stay_and_close (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  g_autoptr (GPtrArray) first = NULL;
  g_autoptr (GPtrArray) second = NULL;
  g_autoptr (GPtrArray) third = NULL;
  gint64 id;

  walk_rock (shed, "bearings/rock-wheel@hub.front.left.outer\tfelt");
  id = only_finding (shed, &first)->id;
  walk_rock (shed, "bearings/rock-wheel@hub.front.left.outer\tseen");
  g_assert_cmpint (only_finding (shed, &second)->id, ==, id);
  g_assert_cmpint (((PinFindingRow *) g_ptr_array_index (second, 0))->gravity, ==, PIN_GRAVITY_FAIL);
  walk_rock (shed, "bearings/rock-wheel@hub.front.left.outer\tnone");
  g_assert_cmpint (only_finding (shed, &third)->id, ==, id);
  walk_rock (shed, "bearings/rock-wheel@hub.front.left.outer\tnone\tnote=found sound: it was the ball cup");
  g_assert_cmpuint (shed_n_findings (shed), ==, 0);
  shed_free (shed);
}

static void
test_closes_after_work (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");

  walk_rock (shed, "bearings/rock-wheel@hub.front.left.outer\tseen");
  shed_begin (shed, "bearings");
  shed_answer (shed, "bearings/rock-wheel@hub.front.left.outer\tnone");
  shed_until (shed, "bearings/grade@");
  shed_answer (shed, "bearings/grade@hub.front.left.outer\tdry");
  shed_finish (shed);
  shed_sign (shed);
  g_assert_cmpuint (shed_n_findings (shed), ==, 0);
  shed_free (shed);
}

static void
test_unsafe_at_once_and_withdrawn (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  g_autoptr (GPtrArray) open = NULL;
  g_autoptr (GPtrArray) all = NULL;

  shed_begin (shed, "bearings");
  shed_answer (shed, "bearings/rock-wheel@hub.front.left.outer\tseen\toutcome=unsafe");
  g_assert_cmpint (only_finding (shed, &open)->gravity, ==, PIN_GRAVITY_UNSAFE);
  shed_answer (shed, "bearings/rock-wheel@hub.front.left.outer\tnone");
  g_assert_cmpuint (shed_n_findings (shed), ==, 0);
  all = shed_findings (shed, TRUE);
  g_assert_cmpuint (all->len, ==, 1);
  g_assert_true (((PinFindingRow *) g_ptr_array_index (all, 0))->withdrawn);
  shed_free (shed);
}

static void
test_corrected_after_sign_off (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  g_autoptr (GPtrArray) open = NULL;

  walk_rock (shed, "bearings/rock-wheel@hub.front.left.outer\tseen");
  shed_answer (shed, "bearings/rock-wheel@hub.front.left.outer\tfelt");
  g_assert_cmpint (only_finding (shed, &open)->gravity, ==, PIN_GRAVITY_WATCH);
  shed_answer (shed, "bearings/rock-wheel@hub.front.left.outer\tnone");
  g_assert_cmpuint (shed_n_findings (shed), ==, 0);
  shed_free (shed);
}

static void
test_new_part_closes_the_old_ones_findings (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");

  walk_rock (shed, "bearings/rock-wheel@hub.front.left.outer\tseen");
  to_grades (shed);
  shed_answer (shed, "bearings/grade@hub.front.left.outer\tnotchy");
  shed_until (shed, "bearings/replace-it@");
  shed_answer (shed, "bearings/replace-it@hub.front.left.outer\tdone");
  g_assert_cmpuint (shed_n_findings (shed), ==, 0);
  shed_finish (shed);
  shed_sign (shed);
  g_assert_cmpuint (shed_n_findings (shed), ==, 0);
  shed_free (shed);
}

/* ---- measuring ---------------------------------------------------------------- */

static void
coast (Shed *shed, const char *line)
{
  shed_begin (shed, "free-roll");
  shed_until (shed, "free-roll/coast");
  shed_answer (shed, line);
}

static void
test_reading_and_baseline (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  const PinQuestion *question;
  PinReferences references;

  shed_begin (shed, "free-roll");
  shed_until (shed, "free-roll/coast");
  shed_refuse (shed, "free-roll/coast\t2.5s, 2.6s, 2.7s", "say pass, watch or fail");
  shed_refuse (shed, "free-roll/coast\t2.5mm\toutcome=pass", "free-roll/coast");
  shed_refuse (shed, "free-roll/coast\tnan\toutcome=pass", "free-roll/coast");
  shed_answer (shed, "free-roll/coast\t2.5s, 2.7, 2.6\toutcome=pass\tcondition.ambient=18");
  shed_abandon (shed);

  shed_begin (shed, "free-roll");
  shed_until (shed, "free-roll/coast");
  question = g_ptr_array_index (pin_walk_questions (shed->walk), pin_walk_next (shed->walk));
  references = pin_walk_references (shed->walk, question);
  g_assert_cmpfloat_with_epsilon (references.baseline, 2.6, 1e-9);
  shed_answer (shed, "free-roll/coast\t1.8s,1.7s,1.9s");
  shed_finish (shed);
  {
    g_autoptr (PinClosing) closing = pin_walk_closing (shed->walk);

    g_assert_cmpint (closing->watched, >=, 1);
  }
  shed_free (shed);
}

/* ---- the keeper's own limits ------------------------------------------------------ */

static gint64
set_own_limit (Shed *shed, gint64 thing, const char *band, gint64 replaces)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PinBatch) batch = pin_batch_new (shed->book);
  gint64 id = pin_batch_own_limit (batch, &(PinOwnLimit){
    .step = (char *) "free-roll/coast", .thing = thing, .band = (char *) (band ? band : "{}"),
    .origin = (char *) "owner", .day = (char *) "2026-01-01", .replaces = replaces, .is_void = band == NULL });

  pin_book_commit (shed->book, batch, &error);
  g_assert_no_error (error);
  return id;
}

static PinOutcome
outcome_of (Shed *shed, const char *key)
{
  int at = pin_walk_find (shed->walk, key);

  g_assert_cmpint (at, >=, 0);
  return ((PinQuestion *) g_ptr_array_index (pin_walk_questions (shed->walk), at))->given->outcome;
}

/* What the reading of the coast says when the walk is read again. */
static PinProposal
coast_again (Shed *shed, double value)
{
  int at = pin_walk_find (shed->walk, "free-roll/coast");
  const PinQuestion *question = g_ptr_array_index (pin_walk_questions (shed->walk), at);
  PinReferences references = pin_walk_references (shed->walk, question);

  return pin_judge (question->step->measure, value, &references);
}

static void
test_own_limit_of_the_car (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  const PinQuestion *question = NULL;

  set_own_limit (shed, 0, "{\"pass\":{\"min\":9}}", 0);
  set_own_limit (shed, shed->vehicle, "{\"pass\":{\"min\":2.0},\"watch\":{\"min\":1.6}}", 0);
  coast (shed, "free-roll/coast\t1.7s,1.8s,1.9s");
  g_assert_cmpint (outcome_of (shed, "free-roll/coast"), ==, PIN_OUTCOME_WATCH);
  g_assert_cmpint (pin_walk_own_word (shed->walk, &question), ==, PIN_OUTCOME_WATCH);
  g_assert_cmpstr (question->key, ==, "free-roll/coast");
  shed_until (shed, "free-roll/one-wheel@");
  g_assert_cmpint (pin_walk_own_word (shed->walk, &question), ==, PIN_OUTCOME_NONE);
  shed_free (shed);
}

static void
test_own_limit_of_then (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  gint64 first = set_own_limit (shed, shed->vehicle, "{\"pass\":{\"min\":2.0}}", 0);
  gint64 second;

  coast (shed, "free-roll/coast\t1.8");
  g_assert_cmpint (outcome_of (shed, "free-roll/coast"), ==, PIN_OUTCOME_FAIL);
  second = set_own_limit (shed, shed->vehicle, "{\"pass\":{\"min\":1.5}}", first);
  shed_reload (shed);
  g_assert_cmpint (coast_again (shed, 1.8).outcome, ==, PIN_OUTCOME_FAIL);
  g_assert_cmpfloat (coast_again (shed, 1.8).pass_min, ==, 2);

  /* A slip of the finger put right, twice: still judged as it would have been. */
  shed_answer (shed, "free-roll/coast\t1.7");
  g_assert_cmpint (outcome_of (shed, "free-roll/coast"), ==, PIN_OUTCOME_FAIL);
  shed_answer (shed, "free-roll/coast\t1.9");
  g_assert_cmpint (outcome_of (shed, "free-roll/coast"), ==, PIN_OUTCOME_FAIL);
  g_assert_cmpfloat (coast_again (shed, 1.9).pass_min, ==, 2);
  shed_finish (shed);
  shed_sign (shed);
  g_assert_cmpfloat (coast_again (shed, 1.9).pass_min, ==, 2);

  coast (shed, "free-roll/coast\t1.8");
  g_assert_cmpint (outcome_of (shed, "free-roll/coast"), ==, PIN_OUTCOME_PASS);
  shed_abandon (shed);
  set_own_limit (shed, shed->vehicle, NULL, second);
  shed_reload (shed);
  g_assert_true (coast_again (shed, 1.8).own);
  shed_begin (shed, "free-roll");
  shed_until (shed, "free-roll/coast");
  g_assert_false (coast_again (shed, 1.8).own);
  shed_free (shed);
}

/* ---- texts that change under a walk ------------------------------------------------- */

/* Everything that kinds and chassis bear on. */
static char *
all_of_it (Shed *shed)
{
  GString *text = keys (shed);
  const GPtrArray *owed = pin_walk_owed (shed->walk);
  PinProposal coast = coast_again (shed, 1.8);

  for (guint i = 0; i < owed->len; i++)
    {
      const PinOwedItem *item = g_ptr_array_index (owed, i);

      g_string_append_printf (text, "%s: %s, %s\n", item->what, item->title, item->of);
    }
  g_string_append_printf (text, "%s\n%d %.6f %s\n", pin_walk_car (shed->walk)->chassis->title, coast.outcome,
                          coast.reference, pin_library_quantity (pin_walk_library (shed->walk), "coast-time")->title);
  return g_string_free (text, FALSE);
}

/* Less is better, nothing starts anew, and the mesh is settled elsewhere. */
#define OTHER_KINDS \
  "<kinds xmlns='urn:hingepin:kinds:1'>" \
  "<debt id='mesh' payable='before-use' step='refitting/ride-height'><title>mesh of old</title></debt>" \
  "<quantity id='coast-time' unit='min' decimals='0' better='less' exactly='ambient'>" \
  "<title>time of old</title></quantity></kinds>"

static void
test_kinds_of_then (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  g_autofree char *then = NULL;
  g_autofree char *now = NULL;

  coast (shed, "free-roll/coast\t2.6\toutcome=pass\tcondition.ambient=18");
  shed_abandon (shed);
  coast (shed, "free-roll/coast\t1.8\tcondition.ambient=21");
  g_assert_cmpint (outcome_of (shed, "free-roll/coast"), ==, PIN_OUTCOME_WATCH);
  shed_until (shed, "on/motor");
  then = all_of_it (shed);
  shed_shelve (shed, "kinds/mine.xml", OTHER_KINDS);
  now = all_of_it (shed);
  g_assert_cmpstr (now, ==, then);
  g_assert_cmpstr (pin_library_debt (shed->library, "mesh")->title, ==, "mesh of old");
  shed_answer (shed, "on/motor\tdone");
  assert_may_not_sign (shed, "set the mesh");
  shed_until (shed, "gear-mesh/set!left");
  shed_finish (shed);
  shed_sign (shed);

  /* The next walk has the new words, and keeps them in its turn. */
  shed_begin (shed, "free-roll");
  g_assert_cmpstr (pin_library_quantity (pin_walk_library (shed->walk), "coast-time")->title, ==, "time of old");
  shed_until (shed, "free-roll/coast");
  g_assert_true (is_owed (shed, "mesh"));
  shed_shelve (shed, "kinds/mine.xml", NULL);
  g_assert_cmpstr (pin_library_quantity (pin_walk_library (shed->walk), "coast-time")->title, ==, "time of old");
  g_assert_cmpstr (pin_library_debt (shed->library, "mesh")->title, ==, "set the mesh");
  shed_free (shed);
}

static void
test_chassis_of_then (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  g_autofree char *path = g_build_filename (g_getenv ("HINGEPIN_DATA_DIR"), "chassis", "buggy-2wd-10.xml", NULL);
  g_autofree char *text = NULL;
  g_autofree char *then = NULL;
  g_autofree char *now = NULL;
  g_auto (GStrv) halves = NULL;
  g_autofree char *other = NULL;
  g_autoptr (GError) error = NULL;

  coast (shed, "free-roll/coast\t2.6\toutcome=pass");
  then = all_of_it (shed);
  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  halves = g_strsplit (text, "owes=\"mesh", -1);
  g_assert_cmpuint (g_strv_length (halves), >, 1);
  other = g_strjoinv ("owes=\"belt-tension", halves);
  shed_shelve (shed, "chassis/buggy-2wd-10.xml", other);
  now = all_of_it (shed);
  g_assert_cmpstr (now, ==, then);
  shed_finish (shed);
  shed_sign (shed);
  shed_begin (shed, "free-roll");
  shed_until (shed, "free-roll/coast");
  g_assert_true (is_owed (shed, "belt-tension"));
  g_assert_false (is_owed (shed, "mesh"));
  shed_shelve (shed, "chassis/buggy-2wd-10.xml", NULL);
  shed_free (shed);
}

static void
test_partner_judges_the_second (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");

  coast (shed, "free-roll/coast\t2.5\toutcome=pass");
  shed_until (shed, "free-roll/one-wheel@wheel.rear.left");
  shed_answer (shed, "free-roll/one-wheel@wheel.rear.left\t4s\toutcome=pass");
  shed_until (shed, "free-roll/one-wheel@wheel.rear.right");
  shed_answer (shed, "free-roll/one-wheel@wheel.rear.right\t1.5s");
  {
    g_autoptr (PinClosing) closing = pin_walk_closing (shed->walk);

    g_assert_cmpint (closing->failed, ==, 1);
  }
  shed_free (shed);
}

static void
test_counts (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  g_autofree char *key = NULL;
  g_autofree char *line = NULL;
  int n;

  shed_begin (shed, "fastener-check");
  shed_until (shed, "fastener-check/tight@");
  key = g_strdup (shed_next (shed));
  n = pin_question_count (g_ptr_array_index (pin_walk_questions (shed->walk), pin_walk_next (shed->walk)));
  g_assert_cmpint (n, >, 1);
  line = g_strdup_printf ("%s\t%d/%d", key, n + 1, n);
  shed_refuse (shed, line, "asks for a count");
  g_free (line);
  line = g_strdup_printf ("%s\t%d/%d\toutcome=pass", key, n - 1, n);
  shed_refuse (shed, line, "is no pass");
  g_free (line);
  line = g_strdup_printf ("%s\t%d/%d", key, n - 1, n);
  shed_answer (shed, line);
  {
    g_autoptr (PinClosing) closing = pin_walk_closing (shed->walk);

    g_assert_cmpint (closing->failed, ==, 1);
  }
  shed_free (shed);
}

/* ---- ways, jobs, teardown -------------------------------------------------------- */

static void
test_ways (void)
{
  Shed *shed = shed_new ("buggy-nitro-8");

  shed_begin (shed, "nitro-after-run");
  shed_until (shed, "way/stop");
  shed_refuse (shed, "way/stop\tslowly", "one of idle-dry|stop-wet");
  shed_answer (shed, "way/stop\tstop-wet");
  assert_next (shed, "nitro-after-run/stop-wet-do");
  shed_finish (shed);
  shed_sign (shed);
  g_assert_true (is_owed (shed, "uncap"));
  shed_free (shed);
}

static void
test_job_opened_and_settled (void)
{
  Shed *shed = shed_new ("buggy-nitro-8");

  shed_begin (shed, "nitro-after-run");
  shed_until (shed, "nitro-after-run/water-in");
  shed_answer (shed, "nitro-after-run/water-in\tyes");
  g_assert_true (is_owed (shed, "job:after-wet"));
  shed_finish (shed);
  shed_sign (shed);
  shed_begin (shed, "after-wet");
  shed_finish (shed);
  shed_sign (shed);
  g_assert_false (is_owed (shed, "job:after-wet"));
  shed_free (shed);
}

/* A step further up is done again for those that did not come out alike. */
static void
test_back_to_a_step (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  g_autofree char *key = NULL;
  g_autofree char *line = NULL;
  g_autofree char *fill = NULL;

  shed_begin (shed, "shock-rebuild");
  shed_until (shed, "shock-rebuild/side-by-side@");
  key = g_strdup (shed_next (shed));
  line = g_strdup_printf ("%s\tfail", key);
  shed_answer (shed, line);
  while (strstr (shed_next (shed), "side-by-side@"))
    {
      g_autofree char *pass = g_strdup_printf ("%s\tpass", shed_next (shed));

      shed_answer (shed, pass);
    }
  fill = g_strdup_printf ("shock-rebuild/fill%s", strchr (key, '@'));
  assert_next (shed, fill);
  shed_finish (shed);
  shed_sign (shed);
  shed_free (shed);
}

static void
test_teardown (void)
{
  Shed *shed = shed_new ("buggy-2wd-10");
  GString *text;
  guint off = 0;

  shed_begin (shed, "quarterly");
  text = keys (shed);
  for (const char *at = text->str; (at = strstr (at, "off/motor\n")); at++)
    off++;
  g_assert_cmpuint (off, ==, 1);
  g_string_free (text, TRUE);
  shed_finish (shed);
  shed_sign (shed);
  shed_free (shed);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/walk/order-of-questions", test_order_of_questions);
  g_test_add_func ("/walk/found-before-opening", test_found_before_opening);
  g_test_add_func ("/walk/refuses", test_refuses_answers_that_do_not_fit);
  g_test_add_func ("/walk/branch-and-back", test_branch_and_back);
  g_test_add_func ("/walk/bounded-loop", test_bounded_loop_ends_elsewhere);
  g_test_add_func ("/walk/resumes", test_resumes_on_its_step);
  g_test_add_func ("/walk/undo", test_undo_takes_all_back);
  g_test_add_func ("/owed/motor-off", test_no_sign_off_with_the_motor_off);
  g_test_add_func ("/owed/not-checked-blocks", test_owed_that_was_not_checked_blocks);
  g_test_add_func ("/owed/cure", test_cure_is_signed_as_still_owed);
  g_test_add_func ("/owed/abandoned", test_tray_outlives_an_abandoned_walk);
  g_test_add_func ("/walk/opened-before", test_opened_before);
  g_test_add_func ("/walk/one-at-a-time", test_one_walk_at_a_time);
  g_test_add_func ("/walk/fits-not", test_fits_not);
  g_test_add_func ("/finding/at-sign-off", test_findings_are_made_at_sign_off);
  g_test_add_func ("/finding/as-left", test_as_left_counts);
  g_test_add_func ("/finding/left-not-checked", test_left_not_checked_wipes_nothing);
  g_test_add_func ("/finding/regrade-stay-close", test_regrade_stay_and_close);
  g_test_add_func ("/finding/closes-after-work", test_closes_after_work);
  g_test_add_func ("/finding/unsafe-at-once", test_unsafe_at_once_and_withdrawn);
  g_test_add_func ("/finding/corrected-later", test_corrected_after_sign_off);
  g_test_add_func ("/finding/new-part", test_new_part_closes_the_old_ones_findings);
  g_test_add_func ("/measure/baseline", test_reading_and_baseline);
  g_test_add_func ("/own-limit/of-the-car", test_own_limit_of_the_car);
  g_test_add_func ("/own-limit/of-then", test_own_limit_of_then);
  g_test_add_func ("/texts/kinds-of-then", test_kinds_of_then);
  g_test_add_func ("/texts/chassis-of-then", test_chassis_of_then);
  g_test_add_func ("/measure/partner", test_partner_judges_the_second);
  g_test_add_func ("/measure/counts", test_counts);
  g_test_add_func ("/walk/ways", test_ways);
  g_test_add_func ("/walk/job", test_job_opened_and_settled);
  g_test_add_func ("/walk/back-to-a-step", test_back_to_a_step);
  g_test_add_func ("/walk/teardown", test_teardown);
  return g_test_run ();
}
