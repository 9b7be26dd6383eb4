#include <glib.h>
#include <math.h>

#include "maths/gearing.h"

static void
test_refused (void)
{
  double out = 42;

  g_assert_cmpint (pin_gearing_final_drive (0, 80, 1, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_gearing_final_drive (20, NAN, 1, &out), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpint (pin_gearing_final_drive (20, 80, -1, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_gearing_rollout (INFINITY, 2, &out), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpint (pin_gearing_rollout (-0.08, 2, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_gearing_motor_speed (50, 7.4, 1.1, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_gearing_road_speed (0, 10, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpfloat (out, ==, 42);
}

/* A tooth more on the pinion gears up, one more on the spur down; twice the tyre
 * is twice the way. */
static void
test_directions (void)
{
  for (double pinion = 8; pinion < 60; pinion++)
    {
      double ratio, more, rollout, twice;

      g_assert_cmpint (pin_gearing_final_drive (pinion, 80, 2.5, &ratio), ==, PIN_MATHS_OK);
      g_assert_cmpint (pin_gearing_final_drive (pinion + 1, 80, 2.5, &more), ==, PIN_MATHS_OK);
      g_assert_cmpfloat (more, <, ratio);
      g_assert_cmpint (pin_gearing_rollout (0.084, ratio, &rollout), ==, PIN_MATHS_OK);
      g_assert_cmpint (pin_gearing_rollout (0.168, ratio, &twice), ==, PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (twice, 2 * rollout, 1e-15);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/gearing/refused", test_refused);
  g_test_add_func ("/gearing/directions", test_directions);
  return g_test_run ();
}
