#include <glib.h>
#include <math.h>

#include "maths/gears.h"

#define ANGLE (20 * G_PI / 180)

static const double bad[] = { NAN, INFINITY, -INFINITY, -1 };

static void
test_refused (void)
{
  double out = 42, other = 42;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      double is = bad[i];

      g_assert_cmpint (pin_gears_centre (is, 20, 80, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_gears_centre (1e-3, is, 80, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_gears_centre (1e-3, 20, is, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_gears_mixing (is, 1e-3, &out, &other), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_gears_mixing (1e-3, is, &out, &other), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_gears_working_angle (is, 1e-4, ANGLE, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_gears_backlash (0.03, is, ANGLE, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_gears_backlash (0.03, 1e-4, is, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_gears_opened_by (0.03, is, ANGLE, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_gears_opened_by (is, 1e-4, ANGLE, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_gears_contact_ratio (is, 80, ANGLE, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_gears_contact_ratio (20, is, ANGLE, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_gears_contact_ratio (20, 80, is, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_gears_span (is, 20, 3, ANGLE, &out), !=, PIN_MATHS_OK);
      g_assert_cmpint (pin_gears_span (1e-3, 20, is, ANGLE, &out), !=, PIN_MATHS_OK);
    }
  g_assert_cmpint (pin_gears_centre (0, 20, 80, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_gears_backlash (0.03, 1e-4, 0, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_gears_opened_by (0.03, 0.02, ANGLE, &out), ==, PIN_MATHS_NO_ANSWER);
  g_assert_cmpint (pin_gears_span (1e-3, 20, 20, ANGLE, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpfloat (out, ==, 42);
  g_assert_cmpfloat (other, ==, 42);
}

/* More opening is more play; from the play the opening comes back; a gear train of
 * twice the size has twice the play. */
static void
test_backlash (void)
{
  double before = -1;

  for (double opened = 0; opened < 1e-3; opened += 2e-5)
    {
      double play, twice, back;

      g_assert_cmpint (pin_gears_backlash (0.03, opened, ANGLE, &play), ==, PIN_MATHS_OK);
      g_assert_cmpint (pin_gears_backlash (0.06, 2 * opened, ANGLE, &twice), ==, PIN_MATHS_OK);
      g_assert_cmpint (pin_gears_opened_by (0.03, play, ANGLE, &back), ==, PIN_MATHS_OK);
      g_assert_cmpfloat (play, >, before);
      g_assert_cmpfloat (play, >=, 2 * opened * tan (ANGLE) - 1e-15);
      g_assert_cmpfloat_with_epsilon (twice, 2 * play, 1e-15);
      g_assert_cmpfloat_with_epsilon (back, opened, 1e-12);
      before = play;
    }
}

/* Callipers over teeth as handbooks print them: module 1, 20 teeth, over 3: 7.6604. */
static void
test_span (void)
{
  double span, other;

  g_assert_cmpint (pin_gears_span (1e-3, 20, 3, ANGLE, &span), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (span, 7.660439376e-3, 1e-12);
  g_assert_cmpint (pin_gears_span (1e-3, 20, 4, ANGLE, &other), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (other - span, G_PI * cos (ANGLE) * 1e-3, 1e-15);
}

static void
test_mixing (void)
{
  double share, step;

  g_assert_cmpint (pin_gears_mixing (0.0254 / 48, 0.5e-3, &share, &step), ==, PIN_MATHS_OK);
  g_assert_cmpfloat (share, <, 0);
  g_assert_cmpfloat (step, <, 0);
  g_assert_cmpint (pin_gears_mixing (0.5e-3, 0.5e-3, &share, &step), ==, PIN_MATHS_OK);
  g_assert_cmpfloat (share, ==, 0);
  g_assert_cmpfloat (step, ==, 0);
}

/* A rack, as near as teeth go, has the most contact. */
static void
test_contact (void)
{
  double before = 0, ratio;

  for (double teeth = 20; teeth < 1e5; teeth *= 2)
    {
      g_assert_cmpint (pin_gears_contact_ratio (20, teeth, ANGLE, &ratio), ==, PIN_MATHS_OK);
      g_assert_cmpfloat (ratio, >, before);
      before = ratio;
    }
  g_assert_cmpfloat (ratio, <, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/gears/refused", test_refused);
  g_test_add_func ("/gears/backlash", test_backlash);
  g_test_add_func ("/gears/span", test_span);
  g_test_add_func ("/gears/mixing", test_mixing);
  g_test_add_func ("/gears/contact", test_contact);
  return g_test_run ();
}
