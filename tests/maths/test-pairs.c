#include <glib.h>
#include <math.h>

#include "maths/pairs.h"

static const double left[] = { 0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0 };
static const double right[] = { 1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4 };

enum { N = G_N_ELEMENTS (left) };

/* Exchanged sides change the sign alone; pooled and Welch agree on equal counts but
 * for the freedom. */
static void
test_exchange (void)
{
  PinContrast one, other, pooled;

  g_assert_cmpint (pin_pairs_welch (left, N, right, N, &one), ==, PIN_MATHS_OK);
  g_assert_cmpint (pin_pairs_welch (right, N, left, N, &other), ==, PIN_MATHS_OK);
  g_assert_cmpint (pin_pairs_pooled (left, N, right, N, &pooled), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (one.t, -other.t, 1e-12);
  g_assert_cmpfloat_with_epsilon (one.low, -other.high, 1e-12);
  g_assert_cmpfloat_with_epsilon (one.t, pooled.t, 1e-12);
  g_assert_cmpfloat (one.freedom, <, pooled.freedom);
  g_assert_cmpfloat (pooled.freedom, ==, 18);
}

/* Another unit and another zero change neither t nor p. */
static void
test_unit (void)
{
  double a[N], b[N];
  PinContrast one, other;

  for (guint i = 0; i < N; i++)
    {
      a[i] = 25.4 * left[i] + 100;
      b[i] = 25.4 * right[i] + 100;
    }
  g_assert_cmpint (pin_pairs_paired (left, right, N, &one), ==, PIN_MATHS_OK);
  g_assert_cmpint (pin_pairs_paired (a, b, N, &other), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (one.t, other.t, 1e-9);
  g_assert_cmpfloat_with_epsilon (one.p, other.p, 1e-9);
  g_assert_cmpfloat_with_epsilon (one.error * 25.4, other.error, 1e-9);
}

/* Where nothing differs, one of twenty comparisons says that something does. */
static void
test_chance (void)
{
  int said = 0;

  for (int i = 0; i < 2000; i++)
    {
      double a[5], b[7];
      PinContrast it;

      for (int j = 0; j < 7; j++)
        {
          /* Twelve even ones are about a normal one. */
          double sum = -6, other = -6;

          for (int k = 0; k < 12; k++)
            {
              sum += g_test_rand_double_range (0, 1);
              other += g_test_rand_double_range (0, 1);
            }
          b[j] = sum;
          if (j < 5)
            a[j] = other;
        }
      g_assert_cmpint (pin_pairs_pooled (a, 5, b, 7, &it), ==, PIN_MATHS_OK);
      g_assert_true ((it.p < 0.05) == (it.low > 0 || it.high < 0));
      said += it.p < 0.05;
    }
  g_assert_cmpint (said, >, 60);
  g_assert_cmpint (said, <, 145);
}

static void
test_refused (void)
{
  double same[] = { 1, 1, 1 }, bad[] = { 1, NAN, 3 }, out = 42;
  PinContrast it = { .p = 42 };
  size_t which;

  g_assert_cmpint (pin_pairs_paired (same, same, 3, &it), ==, PIN_MATHS_DEGENERATE);
  g_assert_cmpint (pin_pairs_welch (same, 3, same, 3, &it), ==, PIN_MATHS_DEGENERATE);
  g_assert_cmpint (pin_pairs_welch (same, 1, same, 3, &it), ==, PIN_MATHS_TOO_FEW);
  g_assert_cmpint (pin_pairs_pooled (same, 1, same, 1, &it), ==, PIN_MATHS_TOO_FEW);
  g_assert_cmpint (pin_pairs_paired (bad, same, 3, &it), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpint (pin_pairs_paired (same, same, 1000, &it), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_pairs_estimates (1, -1, 3, 1, 1, 3, &it), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_pairs_estimates (1, 0, 3, 1, 0, 3, &it), ==, PIN_MATHS_DEGENERATE);
  g_assert_cmpint (pin_pairs_oddest (same, 3, &out, &which), ==, PIN_MATHS_DEGENERATE);
  g_assert_cmpint (pin_pairs_mad (bad, 3, &out), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpint (pin_pairs_mad (same, 0, &out), ==, PIN_MATHS_TOO_FEW);
  g_assert_cmpint (pin_pairs_agreement (bad, same, 3, &out, &out), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpfloat (it.p, ==, 42);
  g_assert_cmpfloat (out, ==, 42);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/pairs/exchange", test_exchange);
  g_test_add_func ("/pairs/unit", test_unit);
  g_test_add_func ("/pairs/chance", test_chance);
  g_test_add_func ("/pairs/refused", test_refused);
  return g_test_run ();
}
