#include <glib.h>
#include <math.h>

#include "maths/corners.h"
#include "maths/endpoints.h"

static PinCorners
any_corners (void)
{
  return (PinCorners) { g_test_rand_double_range (0.1, 5), g_test_rand_double_range (0.1, 5),
                        g_test_rand_double_range (0.1, 5), g_test_rand_double_range (0.1, 5) };
}

/* The four ways to load a wheel put together are the masses again. */
static void
test_modes (void)
{
  for (int i = 0; i < 1000; i++)
    {
      PinCorners m = any_corners ();
      PinCornerShares s;

      g_assert_cmpint (pin_corners_shares (m, &s), ==, PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (s.heave + s.pitch + s.roll + s.warp, m.front_left, 1e-12);
      g_assert_cmpfloat_with_epsilon (s.heave + s.pitch - s.roll - s.warp, m.front_right, 1e-12);
      g_assert_cmpfloat_with_epsilon (s.heave - s.pitch + s.roll - s.warp, m.rear_left, 1e-12);
      g_assert_cmpfloat_with_epsilon (s.heave - s.pitch - s.roll + s.warp, m.rear_right, 1e-12);
    }
}

/* What is shifted brings the cross that was wanted and leaves the centre alone. */
static void
test_shift (void)
{
  for (int i = 0; i < 1000; i++)
    {
      PinCorners m = any_corners ();
      double front, rear, behind[2], to_left[2], track = g_test_rand_double_range (0.1, 0.3);
      PinCornerShares s;

      if (pin_corners_shift (m, 0.5, track, 0.16, &front, &rear) != PIN_MATHS_OK)
        continue;
      g_assert_cmpint (pin_corners_centre (m, 0.26, track, 0.16, &behind[0], &to_left[0]), ==, PIN_MATHS_OK);
      m.front_left -= front;
      m.front_right += front;
      m.rear_left += rear;
      m.rear_right -= rear;
      g_assert_cmpint (pin_corners_centre (m, 0.26, track, 0.16, &behind[1], &to_left[1]), ==, PIN_MATHS_OK);
      g_assert_cmpint (pin_corners_shares (m, &s), ==, PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (s.cross, 0.5, 1e-12);
      g_assert_cmpfloat_with_epsilon (behind[0], behind[1], 1e-12);
      g_assert_cmpfloat_with_epsilon (to_left[0], to_left[1], 1e-12);
    }
}

static void
test_corners_refused (void)
{
  static const double bad[] = { NAN, INFINITY, -INFINITY, -1, 0 };
  double out = 42;
  PinCornerShares s = { .total = 42 };
  PinCorners good = { 1, 1, 1, 1 };

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      PinMathsStatus why = isfinite (bad[i]) ? PIN_MATHS_RANGE : PIN_MATHS_NOT_FINITE;

      g_assert_cmpint (pin_corners_shares ((PinCorners) { bad[i], 1, 1, 1 }, &s), ==, why);
      g_assert_cmpint (pin_corners_shares ((PinCorners) { 1, 1, 1, bad[i] }, &s), ==, why);
      g_assert_cmpint (pin_corners_centre (good, bad[i], 1, 1, &out, &out), ==, why);
      g_assert_cmpint (pin_corners_height (4, 1, 1, bad[i], &out), ==, why);
      g_assert_cmpint (pin_corners_shift (good, bad[i], 1, 1, &out, &out), ==, why);
      g_assert_cmpint (pin_endpoints_ideal_horn (bad[i], 1, 1, &out), ==, why);
      g_assert_cmpint (pin_endpoints_other_hole (1, 1, 1, bad[i], &out), ==, why);
    }
  g_assert_cmpint (pin_corners_shift ((PinCorners) { 0.1, 5, 5, 5 }, 0.99, 1, 1, &out, &out), ==,
                   PIN_MATHS_NO_ANSWER);
  g_assert_cmpint (pin_endpoints_other_hole (10, 1, 1.2, 5, &out), ==, PIN_MATHS_NO_ANSWER);
  g_assert_cmpint (pin_endpoints_ideal_horn (10, 2, 1.2, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpfloat (out, ==, 42);
  g_assert_cmpfloat (s.total, ==, 42);
}

/* The ideal horn needs all of the travel; a longer hole needs less. */
static void
test_holes (void)
{
  for (double share = 0.3; share < 1.5; share += 0.05)
    {
      double ideal, needed, less;

      g_assert_cmpint (pin_endpoints_ideal_horn (0.016, share, 0.8, &ideal), ==, PIN_MATHS_OK);
      g_assert_cmpint (pin_endpoints_other_hole (0.016, share, 0.8, ideal, &needed), ==, PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (needed, 1, 1e-12);
      g_assert_cmpint (pin_endpoints_other_hole (0.016, share, 0.8, ideal * 1.1, &less), ==, PIN_MATHS_OK);
      g_assert_cmpfloat (less, <, needed);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/corners/modes", test_modes);
  g_test_add_func ("/corners/shift", test_shift);
  g_test_add_func ("/corners/refused", test_corners_refused);
  g_test_add_func ("/end-points/holes", test_holes);
  return g_test_run ();
}
