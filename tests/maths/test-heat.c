#include <glib.h>
#include <math.h>

#include "maths/heat.h"

static const double bad[] = { NAN, INFINITY, -INFINITY, -300 };

static void
test_refused (void)
{
  const double two[] = { 1, 2 };
  double out = 42;
  PinHeatPower power = { 42, 42 };

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      double is = bad[i];
      const double with[] = { 1, is };

      g_assert_cmpint (pin_heat_corrected (is, 20, 25, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_heat_corrected (60, is, 25, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_heat_true (is, 0.95, 0.5, 25, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_heat_true (60, is, 0.5, 25, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_heat_true (60, 0.95, is, 25, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_heat_reading (60, 0.95, 0.5, is, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_heat_true_slope (60, 0.95, is, 25, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_heat_winding (is, 20, 2, 235, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_heat_winding (1, is, 2, 235, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_heat_winding (1, 20, is, 235, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_heat_geared (is, 1.1, 2, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_heat_geared (40, is, 2, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_heat_rollout (is, 27, 40, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_heat_rollout (40, is, 40, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_heat_rollout (40, 27, is, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_heat_power (two, with, 2, &power), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_heat_power (with, two, 2, &power), !=, PIN_MATHS_OK);
    }
  g_assert_cmpint (pin_heat_true (60, 0.95, 0, 25, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_heat_true (60, 0.95, 1.1, 25, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_heat_true (-40, 1, 0.05, 200, &out), ==, PIN_MATHS_NO_ANSWER);
  g_assert_cmpint (pin_heat_power (two, two, 1, &power), ==, PIN_MATHS_TOO_FEW);
  g_assert_cmpfloat (out, ==, 42);
  g_assert_cmpfloat (power.exponent, ==, 42);
}

static void
test_no_trend (void)
{
  const double same[] = { 27, 27, 27 }, rises[] = { 40, 45, 50 };
  PinHeatPower power;

  g_assert_cmpint (pin_heat_power (same, rises, 3, &power), ==, PIN_MATHS_DEGENERATE);
}

/* What the thermometer will show brings back what it was; the brighter the metal the
 * hotter it is behind the same reading. */
static void
test_infrared (void)
{
  double before = INFINITY;

  for (double emissivity = 0.05; emissivity < 1; emissivity += 0.05)
    {
      double reading, back, at, little, slope;

      g_assert_cmpint (pin_heat_reading (80, 0.95, emissivity, 25, &reading), ==, PIN_MATHS_OK);
      g_assert_cmpint (pin_heat_true (reading, 0.95, emissivity, 25, &back), ==, PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (back, 80, 1e-9);
      g_assert_cmpint (pin_heat_true (50, 0.95, emissivity, 25, &at), ==, PIN_MATHS_OK);
      g_assert_cmpfloat (at, <, before);
      g_assert_cmpint (pin_heat_true (50, 0.95, emissivity + 1e-6, 25, &little), ==, PIN_MATHS_OK);
      g_assert_cmpint (pin_heat_true_slope (50, 0.95, emissivity, 25, &slope), ==, PIN_MATHS_OK);
      g_assert_cmpfloat (fabs ((little - at) / 1e-6 / slope - 1), <, 1e-3);
      before = at;
    }
}

/* A square law comes back as a two, whatever the units. */
static void
test_power (void)
{
  double rollouts[6], rises[6], most, geared;
  PinHeatPower power;

  for (int i = 0; i < 6; i++)
    {
      rollouts[i] = 24 + i;
      rises[i] = 0.05 * rollouts[i] * rollouts[i];
    }
  g_assert_cmpint (pin_heat_power (rollouts, rises, 6, &power), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (power.exponent, 2, 1e-10);
  g_assert_cmpfloat (power.error, <, 1e-6);
  g_assert_cmpint (pin_heat_power (rollouts, rises, 2, &power), ==, PIN_MATHS_OK);
  g_assert_true (isnan (power.error));
  g_assert_cmpint (pin_heat_rollout (40, 27, 55, &most), ==, PIN_MATHS_OK);
  g_assert_cmpint (pin_heat_geared (40, most / 27, 2, &geared), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (geared, 55, 1e-9);
}

static void
test_winding (void)
{
  double hot, corrected;

  g_assert_cmpint (pin_heat_winding (6.2, 22, 6.2, 235, &hot), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (hot, 22, 1e-9);
  g_assert_cmpint (pin_heat_corrected (63, 14, 25, &corrected), ==, PIN_MATHS_OK);
  g_assert_cmpfloat (corrected, ==, 74);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/heat/refused", test_refused);
  g_test_add_func ("/heat/no-trend", test_no_trend);
  g_test_add_func ("/heat/infrared", test_infrared);
  g_test_add_func ("/heat/power", test_power);
  g_test_add_func ("/heat/winding", test_winding);
  return g_test_run ();
}
