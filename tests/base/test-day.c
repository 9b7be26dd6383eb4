#include <glib.h>

#include "base/day.h"
#include "base/outcome.h"

static void
test_arithmetic (void)
{
  g_autofree char *leap = pin_day_add ("2028-02-28", 1);
  g_autofree char *back = pin_day_add ("2027-03-01", -1);

  g_assert_cmpstr (leap, ==, "2028-02-29");
  g_assert_cmpstr (back, ==, "2027-02-28");
  g_assert_cmpint (pin_day_diff ("2026-11-25", "2026-11-28"), ==, 3);
  g_assert_cmpint (pin_day_diff ("2028-03-01", "2028-02-01"), ==, -29);
}

static void
test_refuses (void)
{
  static const char *const bad[] = { "", "2026-2-1", "2026-02-30", "26-02-01", "2026/02/01",
                                     "2026-02-01x", "+026-02-01", "-926-11-25",
                                     "2026-+2-01", NULL };

  for (int i = 0; bad[i]; i++)
    g_assert_false (pin_day_valid (bad[i]));
  g_assert_false (pin_day_valid (NULL));
  g_assert_null (pin_day_add ("nonsense", 1));
}

static void
test_words (void)
{
  g_autofree char *full = pin_day_long ("2026-11-28");
  g_autofree char *brief = pin_day_short ("2026-03-04");

  g_assert_cmpstr (full, ==, "Saturday 28 November 2026");
  g_assert_cmpstr (brief, ==, "4 Mar 2026");
}

static void
test_today (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *today = NULL;
  g_autofree char *of_now = NULL;

  g_assert_false (pin_set_today ("yesterday", &error));
  g_assert_nonnull (error);
  g_assert_true (pin_set_today ("2026-11-25", NULL));
  today = pin_today ();
  of_now = pin_day_of (pin_now ());
  g_assert_cmpstr (today, ==, "2026-11-25");
  g_assert_cmpstr (of_now, ==, "2026-11-25");
}

static gpointer
now_elsewhere (gpointer data)
{
  *(gint64 *) data = pin_now ();
  return NULL;
}

static void
test_pretend (void)
{
  g_autofree char *then = NULL, *before = pin_today (), *after = NULL;
  gint64 elsewhere = 0;

  pin_pretend_now (G_GINT64_CONSTANT (1700000000000));
  then = pin_today ();
  g_assert_cmpint (pin_now (), ==, G_GINT64_CONSTANT (1700000000000));
  g_thread_join (g_thread_new ("elsewhere", now_elsewhere, &elsewhere));
  pin_pretend_now (0);
  after = pin_today ();
  g_assert_cmpstr (then, ==, "2023-11-14");
  g_assert_cmpint (elsewhere, >, G_GINT64_CONSTANT (1700000000000));
  g_assert_cmpstr (before, ==, after);
}

static void
test_outcomes (void)
{
  for (PinOutcome o = PIN_OUTCOME_PASS; o <= PIN_OUTCOME_DONE; o++)
    {
      PinOutcome back;

      g_assert_true (pin_outcome_parse (pin_outcome_word (o), &back));
      g_assert_cmpint (back, ==, o);
    }
  g_assert_false (pin_outcome_parse ("", &(PinOutcome){ 0 }));
  g_assert_cmpint (pin_gravity_of (PIN_OUTCOME_FAIL, TRUE), ==, PIN_GRAVITY_UNSAFE);
  g_assert_cmpint (pin_gravity_of (PIN_OUTCOME_NOT_CHECKED, FALSE), ==, PIN_GRAVITY_NONE);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/day/arithmetic", test_arithmetic);
  g_test_add_func ("/day/refuses", test_refuses);
  g_test_add_func ("/day/words", test_words);
  g_test_add_func ("/day/today", test_today);
  g_test_add_func ("/day/pretend", test_pretend);
  g_test_add_func ("/outcome/words", test_outcomes);
  return g_test_run ();
}
