#include <glib.h>
#include <math.h>

#include "maths/warming.h"

enum { N = 8 };

static void
make (double last, double first, double constant, double from, double *times, double *values)
{
  for (int i = 0; i < N; i++)
    {
      times[i] = from + i * constant / 4;
      values[i] = last + (first - last) * exp (-times[i] / constant);
    }
}

/* Whatever the size, direction and start of the watch, the curve comes back. */
static void
test_round_trip (void)
{
  static const struct { double last, first, constant, from; } curves[] = {
    { 22, 78, 420, 0 }, { 65, 20, 130, 0 }, { 22, 78, 420, 600 }, { 150, 20, 5, 0 }, { -10, -30, 9000, 0 },
  };
  double times[N], values[N], when;
  PinWarming found;

  for (guint i = 0; i < G_N_ELEMENTS (curves); i++)
    {
      make (curves[i].last, curves[i].first, curves[i].constant, curves[i].from, times, values);
      g_assert_cmpint (pin_warming_fit (times, values, N, NAN, &found), ==, PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (found.last, curves[i].last, 1e-6);
      g_assert_cmpfloat_with_epsilon (found.first, curves[i].first, 1e-5);
      g_assert_cmpfloat_with_epsilon (found.constant / curves[i].constant, 1, 1e-8);
      g_assert_cmpint (pin_warming_fit (times, values, N, curves[i].last, &found), ==, PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (found.constant / curves[i].constant, 1, 1e-8);
      g_assert_cmpfloat (found.last_error, ==, 0);
      g_assert_cmpint (pin_warming_when (&found, values[5], &when), ==, PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (when / times[5], 1, 1e-7);
      g_assert_cmpfloat_with_epsilon (pin_warming_at (&found, when), values[5], 1e-9);
    }
}

static void
test_refused (void)
{
  double times[N] = { 0, 60, 120, 180, 240, 300, 360, 420 };
  double flat[N] = { 20, 20, 20, 20, 20, 20, 20, 20 };
  double line[N] = { 20, 21, 22, 23, 24, 25, 26, 27 };
  double noise[N] = { 20, 80, 10, 70, 30, 90, 5, 60 };
  double at_once[N] = { 5, 5, 5, 5, 5, 5, 5, 5 };
  PinWarming found = { .last = 42 };

  g_assert_cmpint (pin_warming_fit (times, flat, N, NAN, &found), ==, PIN_MATHS_DEGENERATE);
  g_assert_cmpint (pin_warming_fit (times, line, N, NAN, &found), ==, PIN_MATHS_DEGENERATE);
  g_assert_cmpint (pin_warming_fit (times, noise, N, NAN, &found), ==, PIN_MATHS_DEGENERATE);
  g_assert_cmpint (pin_warming_fit (at_once, line, N, NAN, &found), ==, PIN_MATHS_TOO_FEW);
  g_assert_cmpint (pin_warming_fit (times, line, 2, NAN, &found), ==, PIN_MATHS_TOO_FEW);
  g_assert_cmpint (pin_warming_fit (times, line, 1, 80, &found), ==, PIN_MATHS_TOO_FEW);
  g_assert_cmpint (pin_warming_fit (times, line, 1000, NAN, &found), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_warming_fit (times, line, N, INFINITY, &found), ==, PIN_MATHS_NOT_FINITE);
  line[3] = NAN;
  g_assert_cmpint (pin_warming_fit (times, line, N, NAN, &found), ==, PIN_MATHS_NOT_FINITE);
  line[3] = 23;
  times[3] = INFINITY;
  g_assert_cmpint (pin_warming_fit (times, line, N, NAN, &found), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpfloat (found.last, ==, 42);
}

/* Of another library: scipy.optimize.curve_fit, SciPy 1.10.1. */
static void
test_errors (void)
{
  const double times[] = { 0, 60, 120, 180, 240, 300, 420, 600, 900, 1200 };
  const double values[] = { 78.0, 70.5, 64.1, 58.5, 53.6, 49.4, 42.6, 35.4, 28.6, 25.2 };
  PinWarming found;

  g_assert_cmpint (pin_warming_fit (times, values, 10, NAN, &found), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (found.last_error, 0.0333114, 1e-6);
  g_assert_cmpfloat_with_epsilon (found.constant_error, 0.642917, 1e-5);
  g_assert_cmpfloat_with_epsilon (found.first_error, 0.0201419, 1e-6);
}

static void
test_never (void)
{
  const PinWarming cooling = { .last = 22, .first = 78, .constant = 420 };
  double when = 42;

  g_assert_cmpint (pin_warming_when (&cooling, 22, &when), ==, PIN_MATHS_NO_ANSWER);
  g_assert_cmpint (pin_warming_when (&cooling, 10, &when), ==, PIN_MATHS_NO_ANSWER);
  g_assert_cmpint (pin_warming_when (&cooling, NAN, &when), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpfloat (when, ==, 42);
  g_assert_cmpint (pin_warming_when (&cooling, 100, &when), ==, PIN_MATHS_OK);
  g_assert_cmpfloat (when, <, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/warming/round-trip", test_round_trip);
  g_test_add_func ("/warming/refused", test_refused);
  g_test_add_func ("/warming/errors", test_errors);
  g_test_add_func ("/warming/never", test_never);
  return g_test_run ();
}
