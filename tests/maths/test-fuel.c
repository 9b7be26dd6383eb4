#include <glib.h>
#include <math.h>

#include "maths/fuel.h"

static const PinFuel weak = { 0.16, 0.12 }, strong = { 0.3, 0.1 };

static void
test_refused (void)
{
  PinFuelMix mix = { 42, 42, 42 };
  double out = 42;

  g_assert_cmpint (pin_fuel_mix (weak, strong, NAN, 1e-3, &mix, &out), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpint (pin_fuel_mix (weak, strong, 0.2, 0, &mix, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_fuel_mix ((PinFuel) { -0.1, 0.1 }, strong, 0.2, 1e-3, &mix, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_fuel_mix ((PinFuel) { 0.7, 0.5 }, strong, 0.2, 1e-3, &mix, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_fuel_mix (weak, weak, 0.16, 1e-3, &mix, &out), ==, PIN_MATHS_DEGENERATE);
  g_assert_cmpint (pin_fuel_mix (weak, strong, 0.35, 1e-3, &mix, &out), ==, PIN_MATHS_NO_ANSWER);
  g_assert_cmpint (pin_fuel_mix_to_oil (weak, strong, (PinFuel) { 0.2, 0.02 }, 1e-3, &mix), ==, PIN_MATHS_NO_ANSWER);
  g_assert_cmpint (pin_fuel_mix_to_oil (weak, weak, (PinFuel) { 0.2, 0.2 }, 1e-3, &mix), ==, PIN_MATHS_DEGENERATE);
  g_assert_cmpint (pin_tank_time (1e-4, 1, 1e-4, 600, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_tank_time (1e-4, 0, INFINITY, 600, &out), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpint (pin_petrol_oil (1e-3, 0, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpfloat (out, ==, 42);
  g_assert_cmpfloat (mix.first, ==, 42);
}

/* What is poured in is what comes out, of each part. */
static void
test_balance (void)
{
  for (double nitro = 0.17; nitro < 0.27; nitro += 0.01)
    {
      PinFuelMix mix;
      double oil;

      g_assert_cmpint (pin_fuel_mix (weak, strong, nitro, 2e-3, &mix, &oil), ==, PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (mix.first + mix.second, 2e-3, 1e-12);
      g_assert_cmpfloat_with_epsilon (mix.first * weak.nitro + mix.second * strong.nitro, 2e-3 * nitro, 1e-12);
      g_assert_cmpint (pin_fuel_mix_to_oil (weak, strong, (PinFuel) { nitro, 0.18 }, 2e-3, &mix), ==, PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (mix.first + mix.second + mix.oil, 2e-3, 1e-12);
      g_assert_cmpfloat_with_epsilon (mix.first * weak.oil + mix.second * strong.oil + mix.oil, 2e-3 * 0.18, 1e-12);
      g_assert_cmpfloat_with_epsilon (mix.first * weak.nitro + mix.second * strong.nitro, 2e-3 * nitro, 1e-12);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fuel/refused", test_refused);
  g_test_add_func ("/fuel/balance", test_balance);
  return g_test_run ();
}
