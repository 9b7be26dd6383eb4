/* From a car into a sum, and from a sum onto the car. */
#include <math.h>
#include <string.h>

#include "base/day.h"
#include "garage.h"
#include "service/reckon-fill.h"

static const PinFill *
fill_of (GPtrArray *fills, const char *input)
{
  for (guint i = 0; i < fills->len; i++)
    if (g_str_equal (((PinFill *) g_ptr_array_index (fills, i))->input, input))
      return g_ptr_array_index (fills, i);
  return NULL;
}

static void
assert_fill (GPtrArray *fills, const char *input, const char *typed, const char *origin)
{
  const PinFill *fill = fill_of (fills, input);

  g_assert_nonnull (fill);
  g_assert_cmpstr (fill->typed, ==, typed);
  if (strstr (fill->origin, origin) == NULL)
    g_error ("%s is “%s”, not “%s”", input, fill->origin, origin);
}

static void
test_fill (void)
{
  g_autoptr (Garage) garage = garage_new_shipped ();
  gint64 id = garage_add (garage, "Mule", "buggy-2wd-10", 0);
  g_autoptr (PinVehicleView) view = garage_view (garage, id);
  g_autoptr (GPtrArray) fills = pin_reckon_fill (pin_sum_find ("gearing"), view);

  assert_fill (fills, "pinion", "22", "not measured");
  assert_fill (fills, "spur", "78", "not measured");
  assert_fill (fills, "gearbox", "2.6", "chassis type");
  assert_fill (fills, "tyre", "84 mm", "rear");
  g_assert_null (fill_of (fills, "rollout-before"));
}

/* A name that two sums have means what the sum says; words may be a value too. */
static void
test_fill_by_sum (void)
{
  g_autoptr (Garage) garage = garage_new_shipped ();
  gint64 id = garage_add (garage, "Mule", "buggy-2wd-10", 0);
  g_autoptr (PinVehicleView) view = garage_view (garage, id);
  g_autoptr (GPtrArray) points = pin_reckon_fill (pin_sum_find ("end-points"), view);
  g_autoptr (GPtrArray) match = pin_reckon_fill (pin_sum_find ("pair-match"), view);
  g_autoptr (GPtrArray) mesh = pin_reckon_fill (pin_sum_find ("mesh"), view);
  g_autoptr (GPtrArray) up = pin_reckon_fill (pin_sum_find ("gear-up"), view);

  g_assert_null (fill_of (points, "supply"));
  g_assert_null (fill_of (match, "left"));
  assert_fill (mesh, "pitch", "48 DP", "spur gear");
  /* pi 84 mm by 22 by 78 by 2.6 */
  assert_fill (up, "rollout", "28.63 mm", "fitted");
}

static GPtrArray *
keeps_of (Garage *garage, PinVehicleView *view, const char *sum, ...)
{
  g_autoptr (GHashTable) typed = g_hash_table_new (g_str_hash, g_str_equal);
  va_list args;
  const char *id;

  va_start (args, sum);
  while ((id = va_arg (args, const char *)) != NULL)
    g_hash_table_insert (typed, (gpointer) id, va_arg (args, char *));
  va_end (args);
  return pin_reckon_keeps (pin_sum_find (sum), garage->library, view, typed);
}

static void
keep (Garage *garage, PinVehicleView *view, GPtrArray *keeps, gboolean undo)
{
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (GError) error = NULL;

  pin_reckon_keep (done, garage->library, view, keeps, &error);
  g_assert_no_error (error);
  garage_commit (garage, done);
  if (undo)
    garage_undo (garage, done);
}

/* Only what is news, in the unit of the sum; and it can be taken back. */
static void
test_keep_set_up (gconstpointer data)
{
  gboolean undo = data != NULL;
  g_autoptr (Garage) garage = garage_new_shipped ();
  gint64 id = garage_add (garage, "Mule", "buggy-2wd-10", 0);
  g_autoptr (PinVehicleView) before = garage_view (garage, id);
  g_autoptr (GPtrArray) keeps = keeps_of (garage, before, "gearing", "pinion", "20", "spur", "78", "tyre", "8.6cm",
                                          "gearbox", "2.4", NULL);
  g_autoptr (PinVehicleView) after = NULL;
  g_autoptr (GPtrArray) fills = NULL;

  g_assert_cmpuint (keeps->len, ==, 2);
  g_assert_cmpstr (((PinKeep *) g_ptr_array_index (keeps, 0))->says, ==, "pinion, teeth: 20 (was 22)");
  keep (garage, before, keeps, undo);
  after = garage_view (garage, id);
  fills = pin_reckon_fill (pin_sum_find ("gearing"), after);
  assert_fill (fills, "pinion", undo ? "22" : "20", undo ? "not measured" : "set-up of");
  assert_fill (fills, "tyre", undo ? "84 mm" : "86 mm", "rear");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reckon-fill/fill", test_fill);
  g_test_add_func ("/reckon-fill/by-sum", test_fill_by_sum);
  g_test_add_data_func ("/reckon-fill/keep", NULL, test_keep_set_up);
  g_test_add_data_func ("/reckon-fill/undo", "", test_keep_set_up);
  return g_test_run ();
}
