#include <glib.h>
#include <math.h>

#include "maths/packs.h"

static void
test_refused (void)
{
  const double currents[] = { 1, 5 }, alike[] = { 3, 3 }, volts[] = { 7.4, 7.2 }, rising[] = { 7.2, 7.4 };
  const double bad[] = { 7.4, NAN };
  double out = 42, open = 42, uncertainty = 42;

  g_assert_null (pin_chemistry_find ("lead"));
  g_assert_cmpint (pin_pack_time (NAN, 5, &out), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpint (pin_pack_time (100, 0, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_pack_time (-1, 1, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_pack_line (currents, volts, 1, &out, &open, &uncertainty), ==, PIN_MATHS_TOO_FEW);
  g_assert_cmpint (pin_pack_line (alike, volts, 2, &out, &open, &uncertainty), ==, PIN_MATHS_DEGENERATE);
  g_assert_cmpint (pin_pack_line (currents, rising, 2, &out, &open, &uncertainty), ==, PIN_MATHS_DEGENERATE);
  g_assert_cmpint (pin_pack_line (currents, bad, 2, &out, &open, &uncertainty), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpfloat (out, ==, 42);
  g_assert_cmpfloat (open, ==, 42);
  g_assert_cmpfloat (uncertainty, ==, 42);
}

/* Readings made from a resistance give it back, however many there are. */
static void
test_line (void)
{
  double currents[5], volts[5];

  for (int i = 0; i < 5; i++)
    {
      double resistance, open, uncertainty;

      currents[i] = 1 + 4 * i;
      volts[i] = 8.1 - 0.012 * currents[i];
      if (i == 0)
        continue;
      g_assert_cmpint (pin_pack_line (currents, volts, i + 1, &resistance, &open, &uncertainty), ==, PIN_MATHS_OK);
      g_assert_cmpfloat_with_epsilon (resistance, 0.012, 1e-12);
      g_assert_cmpfloat_with_epsilon (open, 8.1, 1e-12);
      g_assert_true (isnan (uncertainty) == (i == 1));
    }
}

/* Empty, stored and full stand in that order. */
static void
test_chemistries (void)
{
  static const char *const names[] = { "LiPo", "Li-ion", "LiFe", "NiMH" };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      const PinChemistry *kind = pin_chemistry_find (names[i]);

      g_assert_nonnull (kind);
      g_assert_cmpfloat (kind->stop, <, kind->storage_low);
      g_assert_cmpfloat (kind->storage_low, <=, kind->storage_high);
      g_assert_cmpfloat (kind->storage_high, <, kind->full);
      g_assert_cmpfloat (kind->spread_good, <, kind->spread_stop);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/packs/refused", test_refused);
  g_test_add_func ("/packs/line", test_line);
  g_test_add_func ("/packs/chemistries", test_chemistries);
  return g_test_run ();
}
