#include <glib.h>
#include <math.h>

#include "maths/fasteners.h"

static void
test_refused (void)
{
  const PinThread *thread = pin_thread_find ("M3");
  double out = 42;

  g_assert_null (pin_thread_find ("M7"));
  g_assert_null (pin_screw_class_find ("9.9"));
  g_assert_cmpint (pin_thread_preload (thread, NAN, 0.9, 0.12, &out), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpint (pin_thread_preload (thread, 0, 0.9, 0.12, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_thread_preload (thread, 640e6, 1.1, 0.12, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_thread_preload (thread, 640e6, 0.9, 0, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_thread_torque (thread, 0, 0.12, 0.12, 4e-3, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_thread_torque (thread, 2000, 0.12, -0.1, 4e-3, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_thread_torque (thread, 2000, 0.12, INFINITY, 4e-3, &out), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpfloat (out, ==, 42);
}

/* More friction: less preload, more torque.  A bigger screw bears more. */
static void
test_directions (void)
{
  static const char *const sizes[] = { "M2", "M2.5", "M3", "M4", "M5", "M6" };
  double before = 0;

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      const PinThread *thread = pin_thread_find (sizes[i]);
      double area, slick, dry, slick_torque, dry_torque, seat = (thread->face + thread->hole) / 2;

      g_assert_cmpint (pin_thread_area (thread, &area), ==, PIN_MATHS_OK);
      g_assert_cmpfloat (area, >, before);
      before = area;
      g_assert_cmpint (pin_thread_preload (thread, 640e6, 0.9, 0.1, &slick), ==, PIN_MATHS_OK);
      g_assert_cmpint (pin_thread_preload (thread, 640e6, 0.9, 0.2, &dry), ==, PIN_MATHS_OK);
      g_assert_cmpfloat (dry, <, slick);
      g_assert_cmpfloat (slick, <, 0.9 * 640e6 * area);
      g_assert_cmpint (pin_thread_torque (thread, slick, 0.1, 0.1, seat, &slick_torque), ==, PIN_MATHS_OK);
      g_assert_cmpint (pin_thread_torque (thread, dry, 0.2, 0.2, seat, &dry_torque), ==, PIN_MATHS_OK);
      g_assert_cmpfloat (dry_torque, >, slick_torque);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fasteners/refused", test_refused);
  g_test_add_func ("/fasteners/directions", test_directions);
  return g_test_run ();
}
