#include <locale.h>
#include <math.h>
#include <string.h>

#include "library/error.h"
#include "library/quantity.h"

static void
assert_near (double is, double should)
{
  g_assert_cmpfloat_with_epsilon (is, should, fabs (should) * 4e-16 + 1e-300);
}

/* Exact definitions and factors as NIST Special Publication 811, appendix B,
 * prints them; the rest follows from the inch, the pound and free fall. */
static void
test_factors (void)
{
  static const struct { const char *text; double canonical; } values[] = {
    { "1in", 0.0254 },
    { "1lb", 0.45359237 },
    { "1oz", 0.028349523125 },
    { "1ozfin", 0.00706155181422604375 },
    { "1lbfin", 0.1129848290276167 },
    { "1kgfcm", 0.0980665 },
    { "1psi", 6894.757293168361 },
    { "1bar", 1e5 },
    { "1mph", 0.44704 },
    { "36km/h", 10 },
    { "1floz", 29.5735295625e-6 },
    { "1mAh", 3.6 },
    { "5000cSt", 0.005 },
    { "180deg", G_PI },
    { "48dp", 0.0254 / 48 },
    { "1.0mod", 0.001 },
    { "45min", 2700 },
    { "75 %", 0.75 },
    { "12", 12 },
    { "2.5mΩ", 0.0025 },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (values); i++)
    {
      g_autoptr (GError) error = NULL;
      double canonical = NAN;

      g_test_message ("%s", values[i].text);
      g_assert_true (pin_value_parse (values[i].text, NULL, &canonical, NULL, &error));
      g_assert_no_error (error);
      assert_near (canonical, values[i].canonical);
    }
}

static void
assert_value (const char *text, const char *fallback, double canonical, const char *shown)
{
  g_autoptr (GError) error = NULL;
  const PinUnit *unit = NULL;
  g_autofree char *format = NULL;
  double value = NAN;

  g_test_message ("%s", text);
  pin_value_parse (text, pin_unit_find (fallback), &value, &unit, &error);
  g_assert_no_error (error);
  g_assert_cmpfloat_with_epsilon (value, canonical, fabs (canonical) * 1e-15 + 1e-12);
  format = pin_value_format (value, unit, -1);
  g_assert_cmpstr (format, ==, shown);
}

static void
test_typed (void)
{
  assert_value ("85mm", "m", 0.085, "85 mm");
  assert_value (" 85 mm ", "m", 0.085, "85 mm");
  assert_value ("85", "mm", 0.085, "85 mm");
  assert_value ("3.35in", "mm", 0.08509, "3.35 in");
  assert_value ("0,5 mm", "mm", 0.0005, "0.5 mm");
  assert_value ("0,125 mm", "mm", 0.000125, "0.125 mm");
  assert_value ("12,5\302\240mm", "mm", 0.0125, "12.5 mm");
  assert_value ("\342\210\2222°", "deg", -2 * G_PI / 180, "-2°");
  assert_value ("1e3 g", "kg", 1, "1000 g");
  assert_value ("7.4V", "V", 7.4, "7.4 V");
  assert_value ("71C", "degC", 71, "71 °C");
  assert_value ("32F", "degC", 0, "32 °F");
  assert_value ("160F", "degC", 640.0 / 9, "160 °F");
  assert_value ("300K", "degC", 26.85, "300 K");
  assert_value ("48dp", "mod", 0.0254 / 48, "48 dp");
}

/* A difference has no zero point of its own. */
static void
test_differences (void)
{
  assert_value ("9F", "K", 5, "9 °F");
  assert_value ("5C", "K", 5, "5 °C");
  assert_value ("5", "K", 5, "5 K");
}

static void
test_refused (void)
{
  static const struct { const char *text, *fallback, *says; } bad[] = {
    { "", "mm", "nothing is given" },
    { "   ", "mm", "nothing is given" },
    { "nan", "mm", "number" },
    { "inf", "mm", "number" },
    { "-infinity mm", "mm", "number" },
    { "0x10", "mm", "no unit" },
    { "1e999 mm", "mm", "too large" },
    { "1,000", "mm", "thousands" },
    { "5,000cSt", "cSt", "thousands" },
    { "1.000.000", "mm", "between its digits" },
    { "1 000", "mm", "between its digits" },
    { "5.", "mm", "number" },
    { ",5", "mm", "number" },
    { "85 furlong", "mm", "no unit" },
    { "85mm", "degC", "a temperature is wanted" },
    { "160F", "mm", "is a temperature, and a length is wanted" },
    { "0 dp", "mod", "more than 0" },
    { "-1 mod", "mod", "more than 0" },
    { "-300 C", "degC", "colder" },
    { "5 \377", "mm", "not UTF-8" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;
      double value = 42;

      g_assert_false (pin_value_parse (bad[i].text, pin_unit_find (bad[i].fallback), &value, NULL, &error));
      g_assert_error (error, PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_VALUE);
      g_test_message ("%s", error->message);
      g_assert_nonnull (strstr (error->message, bad[i].says));
      g_assert_cmpfloat (value, ==, 42);
    }
}

static void
test_every_unit_returns (void)
{
  g_autofree const char **ids = pin_unit_ids ();

  for (int i = 0; ids[i] != NULL; i++)
    {
      const PinUnit *unit = pin_unit_find (ids[i]);

      g_assert_nonnull (unit);
      g_assert_cmpfloat_with_epsilon (pin_unit_to (unit, pin_unit_from (unit, 123.25)), 123.25, 1e-10);
    }
  g_assert_null (pin_unit_find ("mmm"));
  g_assert_true (pin_unit_find ("°C") == pin_unit_find ("degC"));
}

static void
assert_number (double number, int decimals, const char *shown)
{
  g_autofree char *text = pin_number_format (number, decimals);

  g_assert_cmpstr (text, ==, shown);
}

static void
test_numbers (void)
{
  double number = 42;

  assert_number (0.5, 2, "0.50");
  assert_number (-0.001, 1, "0.0");
  assert_number (-0.06, 1, "-0.1");
  assert_number (NAN, 1, "–");
  assert_number (1234567.5, 1, "1234567.5");
  g_assert_true (pin_number_parse ("0,25", &number));
  g_assert_cmpfloat (number, ==, 0.25);
  g_assert_true (pin_number_parse (" 7 ", &number));
  g_assert_cmpfloat (number, ==, 7);
  g_assert_false (pin_number_parse ("7 mm", &number));
  g_assert_false (pin_number_parse ("1,000", &number));
  g_assert_false (pin_number_parse (NULL, &number));
  g_assert_cmpfloat (number, ==, 7);
}

/* No call in this room may ask the locale what a number looks like. */
static void
test_no_locale (void)
{
  g_autofree char *dir = g_build_filename (g_getenv ("PIN_SOURCE_ROOT"), "src", "library", NULL);
  g_autoptr (GDir) folder = g_dir_open (dir, 0, NULL);
  g_autoptr (GRegex) calls =
    g_regex_new ("(?<![a-z_])(strtod|strtof|atof|sscanf|setlocale|localeconv) \\(", 0, 0, NULL);
  const char *name;
  int files = 0;

  g_assert_nonnull (folder);
  while ((name = g_dir_read_name (folder)) != NULL)
    {
      g_autofree char *path = g_build_filename (dir, name, NULL);
      g_autofree char *text = NULL;

      if (!g_str_has_suffix (name, ".c"))
        continue;
      g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
      g_test_message ("%s", name);
      g_assert_false (g_regex_match (calls, text, 0, NULL));
      files++;
    }
  g_assert_cmpint (files, >, 20);
}

int
main (int argc, char *argv[])
{
  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/quantity/factors", test_factors);
  g_test_add_func ("/quantity/typed", test_typed);
  g_test_add_func ("/quantity/differences", test_differences);
  g_test_add_func ("/quantity/refused", test_refused);
  g_test_add_func ("/quantity/every-unit-returns", test_every_unit_returns);
  g_test_add_func ("/quantity/numbers", test_numbers);
  g_test_add_func ("/quantity/no-locale", test_no_locale);
  return g_test_run ();
}
