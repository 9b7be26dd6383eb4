/* What a person types for a value, a number or a day, broken. */

#include <math.h>
#include <string.h>

#include "base/day.h"
#include "fuzz.h"
#include "library/quantity.h"

static const char *const right[] = {
  "85mm", "3.35 in", "160F", "71 °C", "7.4V", "45min", "48dp", "1.0mod", "5000cSt", "20ozfin",
  "1.9, 1.7, 1.8 s", "2:35", "1h 20min", "-0.5", "12,5", "1e3", "0", "11/12", "2026-11-25", "-926-11-25",
  "0026-11-25",
  "2024-02-29", "99 %", "15 min", "0x1F", "1/8", "½", "3'",
};
static const char *const words[] = {
  " ", ",", ".", "-", "+", "e", "E", "e400", "e-400", ":", "/", "mm", "mΩ", "µ", "°", "inf", "nan",
  "0x", "\xc2\xa0", "\xe2\x88\x92", "\xc3", "'", "\"", "%", "%s", "1", "9999", "-13-", "h", "min", NULL,
};

static void
try_value (const char *text, const PinUnit *fallback)
{
  g_autoptr (GError) error = NULL;
  const PinUnit *unit = NULL;
  double value = NAN;
  gboolean ok = pin_value_parse (text, fallback, &value, &unit, &error);

  g_assert_cmpint (ok, ==, error == NULL);
  if (!ok)
    {
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      return;
    }
  g_assert_true (isfinite (value));
  g_assert_nonnull (unit);
  g_free (pin_value_format (value, unit, 2));
}

static void
attempt (const char *text, gsize length, gpointer data)
{
  const char **ids = data;
  guint n = g_strv_length ((char **) ids);
  double number = NAN;

  /* An entry of the window and an argument of the terminal are UTF-8. */
  if (!g_utf8_validate (text, -1, NULL))
    return;
  try_value (text, NULL);
  for (guint i = length % 7; i < n; i += 7)
    try_value (text, pin_unit_find (ids[i]));
  if (pin_number_parse (text, &number))
    {
      g_autofree char *again = pin_number_format (number, 3);
      double read;

      g_assert_true (isfinite (number));
      g_assert_true (pin_number_parse (again, &read));
      g_assert_true (fabs (read - number) <= 0.0006 + fabs (number) * 1e-9);
    }
  if (pin_day_valid (text))
    {
      g_autofree char *next = pin_day_add (text, 1);

      g_assert_nonnull (next);
      g_assert_true (strcmp (text, "9999") > 0 || pin_day_diff (text, next) == 1);
    }
}

int
main (int argc, char **argv)
{
  FuzzFood food = { NULL, words };
  g_autofree const char **ids = pin_unit_ids ();
  int status;

  for (gsize i = 0; i < G_N_ELEMENTS (right); i++)
    fuzz_add (&food, right[i]);
  status = fuzz_main (argc, argv, &food, 40000, attempt, ids);
  fuzz_clear (&food);
  return status;
}
