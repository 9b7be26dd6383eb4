#include <glib.h>
#include <math.h>

#include "maths/coasting.h"
#include "maths/drag.h"

enum { READINGS = 40 };

static double
noise (double by)
{
  return by * (g_test_rand_double_range (-1, 1) + g_test_rand_double_range (-1, 1));
}

/* A coast by small steps of another scheme than that of the fit. */
static void
coast (double start, double a, double b, double c, double whole, double *times, double *ways, double *speeds)
{
  double way = 0, speed = start, step = whole / (READINGS - 1) / 500;

  for (int i = 0; i < READINGS; i++)
    {
      times[i] = 2 + whole * i / (READINGS - 1);
      ways[i] = way;
      speeds[i] = speed;
      for (int j = 0; j < 500; j++)
        {
          double middle = speed - step / 2 * (a + b * speed + c * speed * speed);

          way += step * middle;
          speed -= step * (a + b * middle + c * middle * middle);
        }
    }
}

/* The terms come back, from ways and from speeds. */
static void
test_round_trip (void)
{
  for (int i = 0; i < 200; i++)
    {
      double times[READINGS], ways[READINGS], speeds[READINGS];
      double start = g_test_rand_double_range (2, 20), a = g_test_rand_double_range (0.2, 1);
      double b = i % 2 ? g_test_rand_double_range (0.02, 0.1) : 0;
      double c = i % 2 ? 0 : g_test_rand_double_range (0.002, 0.01);
      double whole = 0.8 * start / (a + b * start + c * start * start);
      PinCoastForm form = { .distances = i % 4 < 2, .linear = i % 2, .square = !(i % 2) };
      PinCoast found;

      coast (start, a, b, c, whole, times, ways, speeds);
      g_assert_cmpint (pin_coast_fit (times, form.distances ? ways : speeds, READINGS, form, &found), ==, PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (found.value[PIN_COAST_START], start, 1e-4 * start);
      g_assert_cmpfloat_with_epsilon (found.value[PIN_COAST_A], a, 1e-3 * a);
      g_assert_cmpfloat_with_epsilon (found.value[PIN_COAST_B], b, 2e-3 * b + 1e-12);
      g_assert_cmpfloat_with_epsilon (found.value[PIN_COAST_C], c, 2e-3 * c + 1e-12);
    }
}

/* Times twice as long and ways thrice: the terms go with their units. */
static void
test_scale (void)
{
  double times[READINGS], ways[READINGS], speeds[READINGS];
  PinCoastForm form = { .distances = TRUE, .linear = TRUE };
  PinCoast one, other;

  coast (10, 0.5, 0.05, 0, 8, times, ways, speeds);
  for (int i = 0; i < READINGS; i++)
    times[i] += noise (0.002);
  g_assert_cmpint (pin_coast_fit (times, ways, READINGS, form, &one), ==, PIN_MATHS_OK);
  for (int i = 0; i < READINGS; i++)
    {
      times[i] *= 2;
      ways[i] *= 3;
    }
  g_assert_cmpint (pin_coast_fit (times, ways, READINGS, form, &other), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (other.value[PIN_COAST_A], one.value[PIN_COAST_A] * 3 / 4, 1e-6);
  g_assert_cmpfloat_with_epsilon (other.value[PIN_COAST_B], one.value[PIN_COAST_B] / 2, 1e-6);
  g_assert_cmpfloat_with_epsilon (other.scatter, one.scatter * 2, 1e-6);
}

/* About two of three errors are within the standard error that is told. */
static void
test_errors (void)
{
  int within = 0, all = 0;

  for (int i = 0; i < 300; i++)
    {
      double times[READINGS], ways[READINGS], speeds[READINGS];
      PinCoastForm form = { .distances = i % 2, .linear = TRUE };
      PinCoast found;
      double slowing, error;

      coast (10, 0.5, 0.05, 0, 8, times, ways, speeds);
      for (int j = 0; j < READINGS; j++)
        {
          times[j] += form.distances ? noise (0.005) : 0;
          speeds[j] += noise (0.02);
        }
      g_assert_cmpint (pin_coast_fit (times, form.distances ? ways : speeds, READINGS, form, &found), ==, PIN_MATHS_OK);
      g_assert_cmpint (pin_coast_slowing (&found, 6, &slowing, &error), ==, PIN_MATHS_OK);
      within += fabs (slowing - 0.8) < error;
      all++;
    }
  g_assert_cmpint (within, >, all * 55 / 100);
  g_assert_cmpint (within, <, all * 81 / 100);
}

/* Anything in order: terms that are finite and not negative, or a reason. */
static void
test_any (void)
{
  int answered = 0;

  for (int i = 0; i < 600; i++)
    {
      double times[READINGS], values[READINGS], time = 0, way = 0;
      int n = g_test_rand_int_range (4, READINGS);
      PinCoastForm form = { .distances = i % 2, .linear = g_test_rand_bit (), .square = g_test_rand_bit () };
      PinCoast found;

      for (int j = 0; j < n; j++)
        {
          times[j] = time += exp (g_test_rand_double_range (-8, 4 + j * 0.2));
          values[j] = way += exp (g_test_rand_double_range (-8, 4));
          if (!form.distances)
            values[j] = g_test_rand_double_range (0.05, 80);
        }
      if (pin_coast_fit (times, values, n, form, &found) != PIN_MATHS_OK)
        continue;
      answered++;
      for (int j = 0; j < PIN_COAST_TERMS; j++)
        {
          g_assert_true (isfinite (found.value[j]) && isfinite (found.covariance[j][j]));
          g_assert_true (j == PIN_COAST_START || found.value[j] >= 0);
        }
      g_assert_true (isfinite (found.scatter) && found.freedom >= 1);
    }
  g_assert_cmpint (answered, >, 30);
}

static void
test_fit_refused (void)
{
  double times[] = { 0, 1, 2, 3, 4, 5, 6 }, even[] = { 0, 1, 2, 3, 4, 5, 6 };
  double faster[] = { 0, 1, 3, 6, 10, 15, 21 }, back[] = { 0, 1, 2, 1, 4, 5, 6 };
  PinCoastForm form = { .distances = TRUE, .linear = TRUE };
  PinCoast found;

  g_assert_cmpint (pin_coast_fit (times, faster, 7, form, &found), ==, PIN_MATHS_DEGENERATE);
  g_assert_cmpint (pin_coast_fit (times, back, 7, form, &found), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_coast_fit (back, times, 7, form, &found), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_coast_fit (times, even, 4, form, &found), ==, PIN_MATHS_TOO_FEW);
  g_assert_cmpint (pin_coast_fit (times, even, 1000, form, &found), ==, PIN_MATHS_RANGE);
  even[3] = NAN;
  g_assert_cmpint (pin_coast_fit (times, even, 7, form, &found), ==, PIN_MATHS_NOT_FINITE);
}

/* ---- what is reckoned from it ------------------------------------------------------------- */

static void
test_drag (void)
{
  double rolling, speed, time, more, force, area;

  for (double height = 0.02; height < 0.3; height += 0.01)
    {
      g_assert_cmpint (pin_drag_ramp (height, 0.3, 4, &rolling), ==, PIN_MATHS_OK);
      g_assert_cmpint (pin_drag_foot_speed (height, 0.3, rolling, 0, &speed), ==, PIN_MATHS_OK);
      /* What it has at the foot takes it as far on the flat as was put in. */
      g_assert_cmpfloat_with_epsilon (speed * speed / (2 * 9.80665 * rolling), 4, 1e-9);
    }
  g_assert_cmpint (pin_drag_spin_stop (16, 0.024, 1200, &time), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (time, 42.900809049215, 1e-9);
  g_assert_cmpint (pin_drag_spin_stop (16, 0, 1200, &more), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (more, 75, 1e-12);
  g_assert_cmpint (pin_drag_interval (1.664, 2, 1.973588592, &force), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (force, 1.686268361, 1e-8);
  g_assert_cmpint (pin_drag_air (0.0045, 1.2041, &area), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (area, 0.007474462254, 1e-12);
}

static void
test_drag_refused (void)
{
  static const double bad[] = { NAN, INFINITY, -INFINITY, -1, 0 };
  double out = 42;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      PinMathsStatus why = isfinite (bad[i]) ? PIN_MATHS_RANGE : PIN_MATHS_NOT_FINITE;

      g_assert_cmpint (pin_drag_ramp (bad[i], 1, 1, &out), ==, why);
      g_assert_cmpint (pin_drag_ramp (1, bad[i], 1, &out), ==, why);
      g_assert_cmpint (pin_drag_ramp (1, 1, bad[i], &out), ==, why);
      g_assert_cmpint (pin_drag_foot_speed (bad[i], 1, 0.01, 0, &out), ==, why);
      g_assert_cmpint (pin_drag_rolling (1, bad[i], &out), ==, why);
      g_assert_cmpint (pin_drag_air (1, bad[i], &out), ==, why);
      g_assert_cmpint (pin_drag_interval (bad[i], 1, 1, &out), ==, why);
      g_assert_cmpint (pin_drag_interval (1, 1, bad[i], &out), ==, why);
      g_assert_cmpint (pin_drag_spin_stop (bad[i], 1, 1, &out), !=, PIN_MATHS_OK);
    }
  g_assert_cmpint (pin_drag_foot_speed (0.01, 1, 0.02, 0, &out), ==, PIN_MATHS_NO_ANSWER);
  g_assert_cmpfloat (out, ==, 42);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/coasting/round-trip", test_round_trip);
  g_test_add_func ("/coasting/scale", test_scale);
  g_test_add_func ("/coasting/errors", test_errors);
  g_test_add_func ("/coasting/any", test_any);
  g_test_add_func ("/coasting/refused", test_fit_refused);
  g_test_add_func ("/drag/known", test_drag);
  g_test_add_func ("/drag/refused", test_drag_refused);
  return g_test_run ();
}
