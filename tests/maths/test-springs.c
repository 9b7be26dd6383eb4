#include <glib.h>
#include <math.h>

#include "maths/springs.h"

static void
test_refused (void)
{
  double out = 42, other = 42;
  const double rising[] = { 1, 2 }, zero[] = { 1, 0 }, bad[] = { 1, NAN };

  g_assert_cmpint (pin_spring_rate (NAN, 10, 5, 8e10, &out), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpint (pin_spring_rate (1e-3, 1e-3, 5, 8e10, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_spring_rate (1e-3, 1e-2, 0, 8e10, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_spring_wheel_rate (500, 3, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_spring_sag (500, 1, 0.4, -1, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_spring_sag (500, 1, INFINITY, 0, &out), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpint (pin_spring_frequency (500, 0, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_rebound_decrement (rising, 2, &out, &other), ==, PIN_MATHS_DEGENERATE);
  g_assert_cmpint (pin_rebound_decrement (rising, 1, &out, &other), ==, PIN_MATHS_TOO_FEW);
  g_assert_cmpint (pin_rebound_decrement (zero, 2, &out, &other), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_rebound_decrement (bad, 2, &out, &other), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpint (pin_rebound_counted (2, 1, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_rebound_ratio (0, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpfloat (out, ==, 42);
  g_assert_cmpfloat (other, ==, 42);
}

/* Twice the coils is half the rate, twice the wire sixteen times. */
static void
test_rate (void)
{
  double rate, soft, hard;

  g_assert_cmpint (pin_spring_rate (1e-3, 1e-2, 5, 8e10, &rate), ==, PIN_MATHS_OK);
  g_assert_cmpint (pin_spring_rate (1e-3, 1e-2, 10, 8e10, &soft), ==, PIN_MATHS_OK);
  g_assert_cmpint (pin_spring_rate (2e-3, 1e-2, 5, 8e10, &hard), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (soft, rate / 2, 1e-9);
  g_assert_cmpfloat_with_epsilon (hard, rate * 16, 1e-6);
}

/* With the sag of no preload the frequency is sqrt (g / sag) / 2 pi. */
static void
test_sag (void)
{
  double sag, frequency, less;

  g_assert_cmpint (pin_spring_sag (500, 1, 0.4, 0, &sag), ==, PIN_MATHS_OK);
  g_assert_cmpint (pin_spring_frequency (500, 0.4, &frequency), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (frequency, sqrt (9.80665 / sag) / (2 * M_PI), 1e-12);
  g_assert_cmpint (pin_spring_sag (500, 1, 0.4, 2e-3, &less), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (less, sag - 2e-3, 1e-15);
  g_assert_cmpint (pin_spring_sag (500, 1, 0.4, 0.1, &less), ==, PIN_MATHS_OK);
  g_assert_cmpfloat (less, ==, 0);
}

/* From ratio to heights and back. */
static void
test_rebound (void)
{
  for (double ratio = 0.02; ratio < 0.7; ratio += 0.04)
    {
      double decrement = 2 * M_PI * ratio / sqrt (1 - ratio * ratio), heights[4], found, uncertainty, back;

      for (int i = 0; i < 4; i++)
        heights[i] = 0.05 * exp (-decrement * i);
      g_assert_cmpint (pin_rebound_decrement (heights, 4, &found, &uncertainty), ==, PIN_MATHS_OK);
      g_assert_cmpint (pin_rebound_ratio (found, &back), ==, PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (back, ratio, 1e-9);
      g_assert_cmpfloat (uncertainty, <, 1e-6);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/springs/refused", test_refused);
  g_test_add_func ("/springs/rate", test_rate);
  g_test_add_func ("/springs/sag", test_sag);
  g_test_add_func ("/springs/rebound", test_rebound);
  return g_test_run ();
}
