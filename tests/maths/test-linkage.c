#include <glib.h>
#include <math.h>

#include "maths/linkage.h"

#define DEGREE (G_PI / 180)

static PinLinkage
touring (void)
{
  PinLinkage it = {
    .servo = { 0.025, -0.030, 0 },
    .horn = 0.016,
    .horn_angle = -G_PI / 2,
    .drag = { -0.075, 0, 0.022, -76 * DEGREE },
    .half = 0.075,
    .arm = 0.022,
    .arm_angle = -76 * DEGREE,
  };

  g_assert_cmpint (pin_linkage_straighten (&it, true), ==, PIN_MATHS_OK);
  return it;
}

/* The textbook's crank of 40, coupler of 120, rocker of 80 on a ground of 100. */
static void
test_four_bar (void)
{
  static const struct { double crank, rocker, coupler; } rows[] = {
    { 40, 57.324880070, 20.297882788 },
    { 0, 62.720387264, 36.336057515 },
    { 90, 80.256912829, 18.887902666 },
    { 180, 121.188622333, 34.771944032 },
    { 270, 123.859731802, 62.490721639 },
  };
  double coupler, rocker;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_cmpint (pin_linkage_four_bar (40, 120, 80, 100, rows[i].crank * DEGREE, false, &coupler, &rocker), ==,
                       PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (rocker / DEGREE, rows[i].rocker, 1e-8);
      g_assert_cmpfloat_with_epsilon (coupler / DEGREE, rows[i].coupler, 1e-8);
    }
  g_assert_cmpint (pin_linkage_four_bar (40, 120, 80, 100, 40 * DEGREE, true, &coupler, &rocker), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (rocker / DEGREE, -98.004964078, 1e-8);
  g_assert_cmpfloat_with_epsilon (coupler / DEGREE, -60.977966796, 1e-8);
}

/* Whatever bars: they close to the last digits, or it is said that they do not. */
static void
test_closes (void)
{
  guint closed = 0, open = 0;

  for (int i = 0; i < 20000; i++)
    {
      double a = g_test_rand_double_range (1e-3, 0.1), b = g_test_rand_double_range (1e-3, 0.3);
      double c = g_test_rand_double_range (1e-3, 0.1), d = g_test_rand_double_range (1e-3, 0.3);
      double angle = g_test_rand_double_range (-10, 10), coupler = 42, rocker = 42;
      PinMathsStatus status = pin_linkage_four_bar (a, b, c, d, angle, i % 2, &coupler, &rocker);

      if (status != PIN_MATHS_OK)
        {
          g_assert_cmpint (status, ==, PIN_MATHS_NOT_CLOSED);
          g_assert_true (coupler == 42 && rocker == 42);
          open++;
          continue;
        }
      closed++;
      g_assert_cmpfloat_with_epsilon (a * cos (angle) + b * cos (coupler), d + c * cos (rocker), 1e-9);
      g_assert_cmpfloat_with_epsilon (a * sin (angle) + b * sin (coupler), c * sin (rocker), 1e-9);
    }
  g_assert_cmpuint (closed, >, 1000);
  g_assert_cmpuint (open, >, 1000);
}

static double
any_angle (void)
{
  return g_test_rand_double_range (-G_PI, G_PI);
}

static PinLinkage
any_linkage (void)
{
  return (PinLinkage) {
    .servo = { g_test_rand_double_range (-0.3, 0.3), g_test_rand_double_range (-0.3, 0.3),
               g_test_rand_double_range (-0.1, 0.1) },
    .lying = g_test_rand_bit (),
    .horn = g_test_rand_double_range (0.003, 0.08),
    .horn_angle = any_angle (),
    .drag = { g_test_rand_double_range (-0.3, 0), g_test_rand_double_range (-0.2, 0.2),
              g_test_rand_double_range (0.003, 0.1), any_angle () },
    .bellcranks = g_test_rand_bit (),
    .crank = g_test_rand_double_range (0.003, 0.1),
    .crank_angle = any_angle (),
    .half = g_test_rand_double_range (0.015, 0.3),
    .arm = g_test_rand_double_range (0.005, 0.1),
    .arm_angle = any_angle (),
    .link = g_test_rand_double_range (0.005, 0.5),
  };
}

/* Of any bars: a finite answer that is straight at neutral, or a reason. */
static void
test_any (void)
{
  guint answered = 0;

  for (int i = 0; i < 20000; i++)
    {
      PinLinkage it = any_linkage ();
      PinSteer at = { 42, 42, 42 };
      double turned = i % 3 ? any_angle () : 0, reach = 42;
      gboolean straight = g_test_rand_bit ();

      g_assert_cmpint (pin_linkage_straighten (&it, straight), ==, PIN_MATHS_OK);
      if (pin_linkage_steer (&it, turned, &at) != PIN_MATHS_OK)
        {
          g_assert_true (at.left == 42 && at.right == 42 && at.dead == 42);
          continue;
        }
      answered++;
      g_assert_true (isfinite (at.left) && isfinite (at.right) && at.dead > 0 && at.dead <= G_PI / 2);
      g_assert_true (fabs (at.left) <= G_PI / 2 && fabs (at.right) <= G_PI / 2);
      if (turned == 0 && straight)
        g_assert_true (fabs (at.left) < 1e-6 && fabs (at.right) < 1e-6);
      if (i % 50 == 0 && pin_linkage_reach (&it, turned, &reach) == PIN_MATHS_OK)
        g_assert_true (isfinite (reach) && fabs (reach) <= fabs (turned));
    }
  g_assert_cmpuint (answered, >, 1000);
}

/* The two sides mirror each other where the linkage does; scale does not matter. */
static void
test_mirror (void)
{
  PinLinkage it = touring (), twice = touring ();
  double *const lengths[] = { &twice.servo.x, &twice.servo.y, &twice.horn, &twice.drag.x, &twice.drag.length,
                              &twice.half, &twice.arm, &twice.link, &twice.tie };

  for (guint i = 0; i < G_N_ELEMENTS (lengths); i++)
    *lengths[i] *= 2;
  for (double turned = -0.6; turned < 0.6; turned += 0.05)
    {
      PinSteer at, as_big, back;
      PinLinkage other = it;

      g_assert_cmpint (pin_linkage_steer (&it, turned, &at), ==, PIN_MATHS_OK);
      g_assert_cmpint (pin_linkage_steer (&twice, turned, &as_big), ==, PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (at.left, as_big.left, 1e-12);
      g_assert_cmpfloat_with_epsilon (at.right, as_big.right, 1e-12);
      /* From the right wheel back to the left one by the same tie rod. */
      other.servo = (PinPlace) { it.half, 0, 0 };
      other.horn = it.arm;
      other.horn_angle = G_PI - it.arm_angle;
      g_assert_cmpint (pin_linkage_straighten (&other, true), ==, PIN_MATHS_OK);
      g_assert_cmpint (pin_linkage_steer (&other, -at.right, &back), ==, PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (back.left, at.left, 1e-9);
    }
}

/* At the end point one wheel is where it was asked for, and a little more is past it. */
static void
test_stop (void)
{
  PinLinkage it = touring ();

  for (double stop = 5; stop < 40; stop += 2.5)
    for (int sign = -1; sign <= 1; sign += 2)
      {
        double turned, further;
        PinSteer at;

        g_assert_cmpint (pin_linkage_stop (&it, sign, stop * DEGREE, G_PI / 2, &turned), ==, PIN_MATHS_OK);
        g_assert_cmpint (pin_linkage_steer (&it, turned, &at), ==, PIN_MATHS_OK);
        g_assert_cmpfloat_with_epsilon (MAX (-at.left, at.right) / DEGREE, stop, 1e-7);
        g_assert_cmpint (pin_linkage_stop (&it, sign, (stop + 1) * DEGREE, G_PI / 2, &further), ==, PIN_MATHS_OK);
        g_assert_cmpfloat (fabs (further), >, fabs (turned));
      }
}

static void
test_ackermann (void)
{
  static const struct { double wheelbase, kingpins, inner, outer, radius; } rows[] = {
    { 260, 160, 30, 23.0738498364, 530.333209968 }, { 260, 160, 20, 16.5606749958, 794.344129058 },
    { 324, 250, 25, 18.9279886621, 819.820242245 }, { 257, 162, 10, 9.0170249651, 1538.519427642 },
    { 257, 162, 35, 25.9100665385, 448.034037733 },
  };
  double outer, radius;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_cmpint (pin_linkage_ideal_outer (rows[i].inner * DEGREE, rows[i].kingpins, rows[i].wheelbase, &outer),
                       ==, PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (outer / DEGREE, rows[i].outer, 1e-9);
      g_assert_cmpint (pin_linkage_radius (rows[i].inner * DEGREE, rows[i].kingpins, rows[i].wheelbase, &radius), ==,
                       PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (radius, rows[i].radius, 1e-8);
    }
}

static void
test_refused (void)
{
  static const double bad[] = { NAN, INFINITY, -INFINITY, 0, -0.01 };
  PinSteer at = { 42, 42, 42 };
  double out = 42;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      PinLinkage it = touring ();
      double *const lengths[] = { &it.horn, &it.drag.length, &it.half, &it.arm, &it.link, &it.tie };
      PinMathsStatus why = isfinite (bad[i]) ? PIN_MATHS_RANGE : PIN_MATHS_NOT_FINITE;

      for (guint j = 0; j < G_N_ELEMENTS (lengths); j++)
        {
          double kept = *lengths[j];

          *lengths[j] = bad[i];
          g_assert_cmpint (pin_linkage_steer (&it, 0, &at), ==, why);
          *lengths[j] = kept;
        }
      g_assert_cmpint (pin_linkage_four_bar (bad[i], 1, 1, 1, 0, false, &out, &out), ==, why);
      g_assert_cmpint (pin_linkage_ideal_outer (0.3, bad[i], 1, &out), ==, why);
      g_assert_cmpint (pin_linkage_radius (bad[i], 1, 1, &out), ==, why);
      g_assert_cmpint (pin_linkage_stop (&(PinLinkage) { 0 }, 1, bad[i], 1, &out), !=, PIN_MATHS_OK);
    }
  g_assert_cmpint (pin_linkage_four_bar (1, 1, 1, 10, 0, false, &out, &out), ==, PIN_MATHS_NOT_CLOSED);
  g_assert_cmpfloat (out, ==, 42);
  g_assert_cmpfloat (at.left, ==, 42);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/linkage/four-bar", test_four_bar);
  g_test_add_func ("/linkage/closes", test_closes);
  g_test_add_func ("/linkage/any", test_any);
  g_test_add_func ("/linkage/mirror", test_mirror);
  g_test_add_func ("/linkage/stop", test_stop);
  g_test_add_func ("/linkage/ackermann", test_ackermann);
  g_test_add_func ("/linkage/refused", test_refused);
  return g_test_run ();
}
