#include <math.h>
#include <string.h>

#include "inspection/judge.h"

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
  return g_test_run ();
}
