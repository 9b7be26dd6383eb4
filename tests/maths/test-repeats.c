#include <glib.h>
#include <math.h>

#include "maths/repeats.h"

/* The classic even and odd cases by hand; the definition is that of
 * gsl_stats_median_from_sorted_data (GSL 2.7 manual, "Median and Percentiles"). */
static void
test_median (void)
{
  const double three[] = { 1.9, 1.7, 1.8 };
  const double four[] = { 4, 1, 3, 2 };
  const double bad[] = { 1, NAN };

  g_assert_cmpfloat (pin_repeats_median (three, 3), ==, 1.8);
  g_assert_cmpfloat (pin_repeats_median (four, 4), ==, 2.5);
  g_assert_true (isnan (pin_repeats_median (three, 0)));
  g_assert_true (isnan (pin_repeats_median (bad, 2)));
  g_assert_true (isnan (pin_repeats_median (three, 65)));
}

static void
test_spread (void)
{
  const double three[] = { 1.9, 1.7, 1.8 };

  g_assert_cmpfloat_with_epsilon (pin_repeats_spread (three, 3), 0.2, 1e-12);
  g_assert_cmpfloat (pin_repeats_spread (three, 1), ==, 0);
  g_assert_cmpfloat (pin_repeats_min (three, 3), ==, 1.7);
  g_assert_cmpfloat (pin_repeats_max (three, 3), ==, 1.9);
  g_assert_cmpfloat_with_epsilon (pin_repeats_mean (three, 3), 1.8, 1e-12);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/repeats/median", test_median);
  g_test_add_func ("/repeats/spread", test_spread);
  return g_test_run ();
}
