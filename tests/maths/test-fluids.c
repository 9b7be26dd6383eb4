#include <glib.h>
#include <math.h>

#include "maths/fluids.h"

static void
test_refused (void)
{
  double out = 42, other = 42;
  const double labels[] = { 30, 40 }, values[] = { 350e-6, 500e-6 }, nothing[] = { 0, 1 };

  g_assert_cmpint (pin_fluid_walther_line (40, NAN, 100, 5e-6, &out, &other), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpint (pin_fluid_walther_line (40, 3e-5, 40, 5e-6, &out, &other), ==, PIN_MATHS_DEGENERATE);
  g_assert_cmpint (pin_fluid_walther_line (40, 0, 100, 5e-6, &out, &other), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_fluid_walther_line (-300, 3e-5, 100, 5e-6, &out, &other), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_fluid_walther_at (INFINITY, 3, 40, &out), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpint (pin_fluid_walther_at (100, 3, 40, &out), ==, PIN_MATHS_NO_ANSWER);
  g_assert_cmpint (pin_fluid_silicone_ratio (25, 300, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_fluid_silicone_ratio (NAN, 30, &out), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpint (pin_fluid_blend (PIN_BLEND_LOG, 1e-4, 0, 0.5, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_fluid_blend (PIN_BLEND_LOG, 1e-4, 1e-3, 1.1, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_fluid_blend_share (PIN_BLEND_LOG, 1e-4, 1e-3, 2e-3, &out), ==, PIN_MATHS_NO_ANSWER);
  g_assert_cmpint (pin_fluid_blend_share (PIN_BLEND_LOG, 1e-4, 1e-4, 1e-4, &out), ==, PIN_MATHS_DEGENERATE);
  g_assert_cmpint (pin_fluid_label (labels, values, 2, 50, &out), ==, PIN_MATHS_NO_ANSWER);
  g_assert_cmpint (pin_fluid_label (labels, nothing, 2, 35, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_diff_lever_share (0, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_diff_lever_share (3.2, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_diff_torque (-1, 0.04, 1, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_diff_line (labels, nothing, 2, &out, &other), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_diff_line (labels, values, 0, &out, &other), ==, PIN_MATHS_TOO_FEW);
  g_assert_cmpfloat (out, ==, 42);
  g_assert_cmpfloat (other, ==, 42);
}

/* What a share makes is made by that share, by both rules, and lies between. */
static void
test_blend_and_back (void)
{
  for (int rule = PIN_BLEND_LOG; rule <= PIN_BLEND_WALTHER; rule++)
    for (double share = 0; share <= 1; share += 0.125)
      {
        double mixed, back;

        g_assert_cmpint (pin_fluid_blend (rule, 350e-6, 7e-3, share, &mixed), ==, PIN_MATHS_OK);
        g_assert_cmpfloat (mixed, >=, 350e-6 * (1 - 1e-12));
        g_assert_cmpfloat (mixed, <=, 7e-3 * (1 + 1e-12));
        if (share > 0 && share < 1)
          {
            g_assert_cmpint (pin_fluid_blend_share (rule, 350e-6, 7e-3, mixed, &back), ==, PIN_MATHS_OK);
            g_assert_cmpfloat_with_epsilon (back, share, 1e-9);
          }
      }
}

/* The line goes through its two points, and hotter is thinner. */
static void
test_temperature (void)
{
  double a, b, before = INFINITY, at, there, back;

  g_assert_cmpint (pin_fluid_walther_line (40, 32e-6, 100, 5.4e-6, &a, &b), ==, PIN_MATHS_OK);
  g_assert_cmpint (pin_fluid_walther_at (a, b, 100, &at), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (at, 5.4e-6, 1e-15);
  for (double temperature = -20; temperature <= 120; temperature += 10)
    {
      g_assert_cmpint (pin_fluid_walther_at (a, b, temperature, &at), ==, PIN_MATHS_OK);
      g_assert_cmpfloat (at, <, before);
      before = at;
      g_assert_cmpint (pin_fluid_silicone_ratio (25, temperature, &there), ==, PIN_MATHS_OK);
      g_assert_cmpint (pin_fluid_silicone_ratio (temperature, 25, &back), ==, PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (there * back, 1, 1e-12);
    }
}

static void
test_label (void)
{
  const double labels[] = { 40, 30 }, values[] = { 500e-6, 350e-6 };
  double at;

  g_assert_cmpint (pin_fluid_label (labels, values, 2, 30, &at), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (at, 350e-6, 1e-15);
  g_assert_cmpint (pin_fluid_label (labels, values, 2, 35, &at), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (at, sqrt (350e-6 * 500e-6), 1e-12);
}

static void
test_diff (void)
{
  const double speeds[] = { 0.1, 0.3, 0.5 }, torques[] = { 0.02 + 0.1 * 0.4, 0.02 + 0.3 * 0.4, 0.02 + 0.5 * 0.4 };
  double friction, damping, share;

  g_assert_cmpint (pin_diff_line (speeds, torques, 3, &friction, &damping), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (friction, 0.02, 1e-12);
  g_assert_cmpfloat_with_epsilon (damping, 0.4, 1e-12);
  g_assert_cmpint (pin_diff_line (speeds, torques, 1, &friction, &damping), ==, PIN_MATHS_OK);
  g_assert_cmpfloat (friction, ==, 0);
  g_assert_cmpint (pin_diff_lever_share (0.01, &share), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (share, 1, 1e-4);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fluids/refused", test_refused);
  g_test_add_func ("/fluids/blend-and-back", test_blend_and_back);
  g_test_add_func ("/fluids/temperature", test_temperature);
  g_test_add_func ("/fluids/label", test_label);
  g_test_add_func ("/fluids/diff", test_diff);
  return g_test_run ();
}
