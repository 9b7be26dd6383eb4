#include <math.h>
#include <string.h>

#include "inspection/judge.h"
#include "inspection/own-limits.h"

/* Bands made by hand; what is held here is house law: the first fitting limits
 * of each sort judge, and the worst is proposed. */

static PinLimits *
limits_new (PinAgainst against, PinBand pass, PinBand watch)
{
  PinLimits *limits = g_new0 (PinLimits, 1);

  limits->against = against;
  limits->pass = pass;
  limits->watch = watch;
  limits->has_watch = TRUE;
  return limits;
}

static PinBand
at_least (double min, gboolean relative)
{
  return (PinBand){ .min = min, .max = NAN, .within = NAN, .relative = relative };
}

static PinBand
at_most (double max)
{
  return (PinBand){ .min = NAN, .max = max, .within = NAN };
}

static PinBand
within (double most)
{
  return (PinBand){ .min = NAN, .max = NAN, .within = most };
}

static PinMeasure *
measure_new (PinLimits *first, ...)
{
  PinMeasure *measure = g_new0 (PinMeasure, 1);
  va_list args;

  measure->quantity = (char *) "coast-time";
  measure->repeat = 3;
  measure->limits = g_ptr_array_new_with_free_func (g_free);
  va_start (args, first);
  for (PinLimits *limits = first; limits; limits = va_arg (args, PinLimits *))
    g_ptr_array_add (measure->limits, limits);
  va_end (args);
  return measure;
}

static void
measure_free (PinMeasure *measure)
{
  g_ptr_array_unref (measure->limits);
  g_free (measure);
}

#define NO_REFERENCES { .partner = NAN, .baseline = NAN, .best = NAN, .last_fill = NAN }

static void
test_baseline_bands (void)
{
  PinMeasure *measure = measure_new (limits_new (PIN_AGAINST_BASELINE, at_least (0.75, TRUE),
                                                 at_least (0.50, TRUE)), NULL);
  PinReferences references = NO_REFERENCES;
  PinProposal proposal;

  g_assert_cmpint (pin_judge (measure, 1.8, &references).outcome, ==, PIN_OUTCOME_NONE);
  references.baseline = 2.6;
  g_assert_cmpint (pin_judge (measure, 1.95, &references).outcome, ==, PIN_OUTCOME_PASS);
  g_assert_cmpint (pin_judge (measure, 1.94, &references).outcome, ==, PIN_OUTCOME_WATCH);
  g_assert_cmpint (pin_judge (measure, 1.30, &references).outcome, ==, PIN_OUTCOME_WATCH);
  g_assert_cmpint (pin_judge (measure, 1.29, &references).outcome, ==, PIN_OUTCOME_FAIL);
  g_assert_cmpint (pin_judge (measure, 9, &references).outcome, ==, PIN_OUTCOME_PASS);
  g_assert_cmpint (pin_judge (measure, NAN, &references).outcome, ==, PIN_OUTCOME_NONE);
  proposal = pin_judge (measure, 1.8, &references);
  g_assert_cmpfloat_with_epsilon (proposal.pass_min, 1.95, 1e-12);
  g_assert_cmpfloat_with_epsilon (proposal.watch_min, 1.3, 1e-12);
  g_assert_true (isnan (proposal.pass_max));
  measure_free (measure);
}

static void
test_partner (void)
{
  PinMeasure *measure = measure_new (limits_new (PIN_AGAINST_PARTNER, within (0.0003), within (0.0006)), NULL);
  PinReferences references = NO_REFERENCES;

  references.partner = 0.0950;
  g_assert_cmpint (pin_judge (measure, 0.0953, &references).outcome, ==, PIN_OUTCOME_PASS);
  g_assert_cmpint (pin_judge (measure, 0.0947, &references).outcome, ==, PIN_OUTCOME_PASS);
  g_assert_cmpint (pin_judge (measure, 0.0944, &references).outcome, ==, PIN_OUTCOME_WATCH);
  g_assert_cmpint (pin_judge (measure, 0.0960, &references).outcome, ==, PIN_OUTCOME_FAIL);
  measure_free (measure);
}

static void
test_worst_is_proposed (void)
{
  PinMeasure *measure = measure_new (
    limits_new (PIN_AGAINST_BASELINE, at_least (0.75, TRUE), at_least (0.5, TRUE)),
    limits_new (PIN_AGAINST_PLAIN, at_most (2), at_most (3)), NULL);
  PinReferences references = NO_REFERENCES;

  references.baseline = 1;
  g_assert_cmpint (pin_judge (measure, 1.5, &references).outcome, ==, PIN_OUTCOME_PASS);
  g_assert_cmpint (pin_judge (measure, 2.5, &references).outcome, ==, PIN_OUTCOME_WATCH);
  g_assert_cmpint (pin_judge (measure, 0.4, &references).outcome, ==, PIN_OUTCOME_FAIL);
  references.baseline = NAN;
  g_assert_cmpint (pin_judge (measure, 0.4, &references).outcome, ==, PIN_OUTCOME_PASS);
  measure_free (measure);
}

/* The first limits that fit the car judge; later ones of the same sort do not. */
static void
test_first_fitting (void)
{
  PinLimits *tenth = limits_new (PIN_AGAINST_PLAIN, at_most (1), at_most (2));
  PinLimits *any = limits_new (PIN_AGAINST_PLAIN, at_most (3), at_most (5));
  PinMeasure *measure;
  PinReferences references = NO_REFERENCES;

  tenth->scale = (char *) "1/10";
  measure = measure_new (tenth, any, NULL);
  references.scale = "1/10";
  g_assert_cmpint (pin_judge (measure, 2.5, &references).outcome, ==, PIN_OUTCOME_FAIL);
  references.scale = "1/8";
  g_assert_cmpint (pin_judge (measure, 2.5, &references).outcome, ==, PIN_OUTCOME_PASS);
  measure_free (measure);
}

static void
test_take (void)
{
  const double times[] = { 1.9, 1.7, 1.8 };
  PinMeasure measure = { .take = PIN_TAKE_MEDIAN };

  g_assert_cmpfloat (pin_judge_take (&measure, times, 3), ==, 1.8);
  measure.take = PIN_TAKE_MAX;
  g_assert_cmpfloat (pin_judge_take (&measure, times, 3), ==, 1.9);
  measure.take = PIN_TAKE_MIN;
  g_assert_cmpfloat (pin_judge_take (&measure, times, 3), ==, 1.7);
  measure.take = PIN_TAKE_MEAN;
  g_assert_cmpfloat_with_epsilon (pin_judge_take (&measure, times, 3), 1.8, 1e-12);
}

/* ---- baseline ---------------------------------------------------------------- */

static char *oiled[] = { (char *) "oiled", NULL };
static char *wheels[] = { (char *) "wheels", NULL };
static char *ambient[] = { (char *) "ambient", NULL };
static const PinQuantity coast = { .id = (char *) "coast-time", .better = 1, .reset = oiled,
                                   .exactly = wheels, .nearly = ambient };

static void
add_reading (GPtrArray *readings, gint64 id, const char *day, double value, const char *conditions)
{
  PinReading *row = g_new0 (PinReading, 1);

  *row = (PinReading){ .id = id, .thing = 7, .quantity = (char *) "coast-time", .value = value,
                       .day = (char *) day, .conditions = (char *) conditions };
  g_ptr_array_add (readings, row);
}

static PinReferences
baseline_of (GPtrArray *readings, GPtrArray *works, gboolean whole, const char *conditions)
{
  PinReferences references = NO_REFERENCES;

  pin_judge_baseline (readings, works, 7, whole, &coast, conditions, 0, NULL, &references);
  return references;
}

static void
test_baseline_reset (void)
{
  g_autoptr (GPtrArray) readings = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) works = g_ptr_array_new ();
  PinWork on_it = { .id = 25, .thing = 7, .deed = (char *) "oiled", .day = (char *) "2026-03-02" };
  PinWork on_part = { .id = 25, .thing = 8, .deed = (char *) "oiled", .day = (char *) "2026-03-02" };
  PinWork other = { .id = 25, .thing = 7, .deed = (char *) "cleaned", .day = (char *) "2026-03-02" };

  add_reading (readings, 10, "2026-01-01", 2.0, "wheels=off");
  add_reading (readings, 20, "2026-02-01", 1.5, "wheels=off");
  add_reading (readings, 30, "2026-03-03", 2.6, "wheels=off");
  g_assert_cmpfloat (baseline_of (readings, works, FALSE, "wheels=off").baseline, ==, 2.0);
  g_assert_cmpfloat (baseline_of (readings, works, FALSE, "wheels=off").best, ==, 2.6);
  g_ptr_array_add (works, &other);
  g_assert_cmpfloat (baseline_of (readings, works, FALSE, "wheels=off").baseline, ==, 2.0);
  g_ptr_array_add (works, &on_part);
  g_assert_cmpfloat (baseline_of (readings, works, FALSE, "wheels=off").baseline, ==, 2.0);
  g_assert_cmpfloat (baseline_of (readings, works, TRUE, "wheels=off").baseline, ==, 2.6);
  g_ptr_array_add (works, &on_it);
  g_assert_cmpfloat (baseline_of (readings, works, FALSE, "wheels=off").baseline, ==, 2.6);
}

static void
test_baseline_like_with_like (void)
{
  g_autoptr (GPtrArray) readings = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) works = g_ptr_array_new ();

  add_reading (readings, 10, "2026-01-01", 3.0, "ambient=2;wheels=off");
  add_reading (readings, 20, "2026-02-01", 2.0, "ambient=21;wheels=on");
  add_reading (readings, 30, "2026-03-01", 2.4, "ambient=21;wheels=off");
  g_assert_cmpfloat (baseline_of (readings, works, FALSE, "ambient=18;wheels=off").baseline, ==, 2.4);
  g_assert_cmpfloat (baseline_of (readings, works, FALSE, "wheels=on").baseline, ==, 2.0);
  g_assert_true (isnan (baseline_of (readings, works, FALSE, "wheels=half").baseline));
}

/* Only a reading that was found good can be a baseline. */
static void
test_baseline_good (void)
{
  g_autoptr (GPtrArray) readings = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) works = g_ptr_array_new ();
  g_autoptr (GHashTable) good = g_hash_table_new (g_int64_hash, g_int64_equal);
  const gint64 second = 99;
  PinReferences references = NO_REFERENCES;

  add_reading (readings, 10, "2026-01-01", 1.0, NULL);
  add_reading (readings, 20, "2026-02-01", 2.0, NULL);
  ((PinReading *) readings->pdata[0])->answer = 98;
  ((PinReading *) readings->pdata[1])->answer = 99;
  g_hash_table_add (good, (gpointer) &second);
  pin_judge_baseline (readings, works, 7, FALSE, &coast, NULL, 0, good, &references);
  g_assert_cmpfloat (references.baseline, ==, 2.0);
  g_assert_cmpstr (references.baseline_day, ==, "2026-02-01");
}

/* ---- the keeper's own limits ---------------------------------------------------- */

static const PinLimits *
own_for (const GPtrArray *rows, gint64 part, gint64 vehicle, gint64 before, double *pass, double *watch)
{
  PinOwnLimits *own = pin_own_limits_new (rows);
  const PinLimits *found = pin_own_limits_find (own, "free-roll/coast", part, vehicle, before);

  *pass = found ? found->pass.min : NAN;
  *watch = found && found->has_watch ? found->watch.min : NAN;
  pin_own_limits_free (own);
  return found;
}

static void
assert_own (const GPtrArray *rows, gint64 part, gint64 vehicle, gint64 before, double wanted)
{
  double pass, watch;
  gboolean found = own_for (rows, part, vehicle, before, &pass, &watch) != NULL;

  g_assert_true (found == !isnan (wanted));
  if (found)
    g_assert_cmpfloat (pass, ==, wanted);
}

enum { PART = 3, CAR = 2, OTHER = 9 };

#define OWN(id_, thing_, least, ...) \
  &(PinOwnLimit){ .id = id_, .step = (char *) "free-roll/coast", .thing = thing_, \
                  .band = (char *) "{\"pass\":{\"min\":" least "}}", __VA_ARGS__ }

static void
test_own_nearest (void)
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new ();

  assert_own (rows, PART, CAR, 0, NAN);
  g_ptr_array_add (rows, OWN (101, PART, "3"));
  g_ptr_array_add (rows, OWN (102, CAR, "2"));
  g_ptr_array_add (rows, OWN (103, 0, "1"));
  assert_own (rows, PART, CAR, 0, 3);
  assert_own (rows, OTHER, CAR, 0, 2);
  assert_own (rows, 0, CAR, 0, 2);
  assert_own (rows, PART, OTHER, 0, 3);
  assert_own (rows, OTHER, OTHER, 0, 1);
  g_ptr_array_add (rows, OWN (104, CAR, "2.5"));
  assert_own (rows, OTHER, CAR, 0, 2.5);
  g_ptr_array_add (rows, &(PinOwnLimit){ .id = 105, .step = (char *) "free-roll/one-wheel", .thing = PART,
                                         .band = (char *) "{\"pass\":{\"min\":9}}" });
  assert_own (rows, PART, CAR, 0, 3);
}

/* What stood at a time stands for ever for what was given then. */
static void
test_own_as_known (void)
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new ();

  g_ptr_array_add (rows, OWN (101, CAR, "2"));
  g_ptr_array_add (rows, OWN (105, CAR, "3", .replaces = 101));
  g_ptr_array_add (rows, OWN (109, CAR, "3", .replaces = 105, .is_void = TRUE));
  assert_own (rows, 0, CAR, 100, NAN);
  assert_own (rows, 0, CAR, 104, 2);
  assert_own (rows, 0, CAR, 108, 3);
  assert_own (rows, 0, CAR, 110, NAN);
  assert_own (rows, 0, CAR, 0, NAN);
}

/* What is no limit leaves the text's in force. */
static void
test_own_not_readable (void)
{
  static const char *const bands[] = { "{}", "", "[]", "2", "{\"pass\":2}", "{\"pass\":{}}",
                                       "{\"pass\":{\"min\":\"2\"}}", "{\"watch\":{\"min\":2}}",
                                       "{\"pass\":{\"min\":1e999}}", NULL };

  for (int i = 0; bands[i]; i++)
    {
      g_autoptr (GPtrArray) rows = g_ptr_array_new ();

      g_ptr_array_add (rows, &(PinOwnLimit){ .id = 101, .step = (char *) "free-roll/coast", .thing = CAR,
                                             .band = (char *) bands[i] });
      assert_own (rows, 0, CAR, 0, NAN);
    }
}

static void
test_own_judges_alone (void)
{
  PinMeasure *measure = measure_new (limits_new (PIN_AGAINST_BASELINE, at_least (0.75, TRUE),
                                                 at_least (0.50, TRUE)), NULL);
  PinLimits own = { .pass = at_least (2, FALSE), .watch = at_least (1.6, FALSE), .has_watch = TRUE };
  PinReferences references = NO_REFERENCES;
  PinProposal proposal;

  references.baseline = 4;
  proposal = pin_judge (measure, 2, &references);
  g_assert_cmpint (proposal.outcome, ==, PIN_OUTCOME_WATCH);
  g_assert_false (proposal.own);
  references.own = &own;
  proposal = pin_judge (measure, 2, &references);
  g_assert_cmpint (proposal.outcome, ==, PIN_OUTCOME_PASS);
  g_assert_true (proposal.own);
  g_assert_true (proposal.limits == &own);
  g_assert_cmpfloat (proposal.pass_min, ==, 2);
  g_assert_cmpfloat (proposal.watch_min, ==, 1.6);
  g_assert_cmpint (pin_judge (measure, 1.99, &references).outcome, ==, PIN_OUTCOME_WATCH);
  g_assert_cmpint (pin_judge (measure, 1.59, &references).outcome, ==, PIN_OUTCOME_FAIL);
  g_assert_cmpint (pin_judge (measure, NAN, &references).outcome, ==, PIN_OUTCOME_NONE);
  own.has_watch = FALSE;
  g_assert_cmpint (pin_judge (measure, 1.99, &references).outcome, ==, PIN_OUTCOME_FAIL);
  measure_free (measure);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/judge/baseline-bands", test_baseline_bands);
  g_test_add_func ("/judge/partner", test_partner);
  g_test_add_func ("/judge/worst-is-proposed", test_worst_is_proposed);
  g_test_add_func ("/judge/first-fitting", test_first_fitting);
  g_test_add_func ("/judge/take", test_take);
  g_test_add_func ("/baseline/reset", test_baseline_reset);
  g_test_add_func ("/baseline/like-with-like", test_baseline_like_with_like);
  g_test_add_func ("/baseline/good", test_baseline_good);
  g_test_add_func ("/own/nearest", test_own_nearest);
  g_test_add_func ("/own/as-known", test_own_as_known);
  g_test_add_func ("/own/not-readable", test_own_not_readable);
  g_test_add_func ("/own/judges-alone", test_own_judges_alone);
  return g_test_run ();
}
