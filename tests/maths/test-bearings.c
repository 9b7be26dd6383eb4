#include <glib.h>
#include <math.h>

#include "maths/bearings.h"

static void
test_refused (void)
{
  double out = 42;

  g_assert_cmpint (pin_bearing_speed_factor (NAN, 5e-3, 1e-2, &out), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpint (pin_bearing_speed_factor (100, 1e-2, 5e-3, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_bearing_life (0, 5, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_bearing_life (2000, INFINITY, &out), ==, PIN_MATHS_NOT_FINITE);
  g_assert_cmpint (pin_bearing_reliability (100, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpint (pin_bearing_reliability (92, &out), ==, PIN_MATHS_RANGE);
  g_assert_cmpfloat (out, ==, 42);
}

static char **
reference_row (const char *designation)
{
  g_autofree char *path = g_build_filename (g_getenv ("PIN_SOURCE_ROOT"), "tests", "reference", "bearing-sizes.tsv",
                                            NULL);
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  lines = g_strsplit (text, "\n", -1);
  for (int i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) fields = g_strsplit (lines[i], "\t", -1);

      if (*lines[i] != '#' && g_strcmp0 (fields[0], designation) == 0)
        return g_steal_pointer (&fields);
    }
  g_error ("%s is not in %s", designation, path);
}

/* The table and the one that the chassis types are held against are the same. */
static void
test_table (void)
{
  size_t n;
  const PinBearing *all = pin_bearings (&n);

  g_assert_cmpuint (n, ==, 34);
  for (size_t i = 0; i < n; i++)
    {
      g_auto (GStrv) row = reference_row (all[i].designation);

      g_assert_cmpfloat (all[i].bore, ==, g_ascii_strtod (row[1], NULL));
      g_assert_cmpfloat (all[i].outside, ==, g_ascii_strtod (row[2], NULL));
      g_assert_cmpfloat (all[i].open, ==, g_ascii_strtod (row[3], NULL));
      g_assert_cmpfloat (all[i].closed, ==, g_ascii_strtod (row[4], NULL));
      for (size_t j = 0; j < i; j++)
        g_assert_cmpstr (all[i].designation, !=, all[j].designation);
      g_assert_cmpfloat_with_epsilon (pin_bearing_miss (&all[i], all[i].bore * 1e-3, NAN, all[i].closed * 1e-3, 1), 0,
                                      1e-9);
    }
}

/* Half the load lives eight times as long; a higher reliability less long. */
static void
test_life (void)
{
  double whole, half, before = 1.1, factor;

  g_assert_cmpint (pin_bearing_life (2000, 200, &whole), ==, PIN_MATHS_OK);
  g_assert_cmpint (pin_bearing_life (2000, 100, &half), ==, PIN_MATHS_OK);
  g_assert_cmpfloat_with_epsilon (half / whole, 8, 1e-12);
  for (int percent = 90; percent <= 99; percent += percent == 90 ? 5 : 1)
    {
      g_assert_cmpint (pin_bearing_reliability (percent, &factor), ==, PIN_MATHS_OK);
      g_assert_cmpfloat (factor, <, before);
      before = factor;
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bearings/refused", test_refused);
  g_test_add_func ("/bearings/table", test_table);
  g_test_add_func ("/bearings/life", test_life);
  return g_test_run ();
}
