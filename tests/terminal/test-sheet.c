/* The summary sheet, read back with programs of others: qpdf for the file,
 * pdftotext for the words. */

#include <gio/gio.h>
#include <string.h>

#include "run.h"

static char *
output_of (const char *command, ...)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *line = NULL;
  g_autofree char *err = NULL;
  char *out = NULL;
  const char *argv[] = { "sh", "-c", NULL, NULL };
  va_list args;
  int status;

  va_start (args, command);
  line = g_strdup_vprintf (command, args);
  va_end (args);
  argv[2] = line;
  g_spawn_sync (run_folder, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &out, &err, &status, &error);
  g_assert_no_error (error);
  if (status != 0)
    g_error ("%s: %s%s", line, out, err);
  return out;
}

static void
has (const char *text, const char *part)
{
  if (strstr (text, part) == NULL)
    g_error ("the sheet does not say “%s”:\n%s", part, text);
}

static char *
sheet_text (const char *vehicle, const char *paper)
{
  g_autofree char *checked = NULL;

  run_says (run ("--today 2026-11-25 --book demo.hingepin sheet '%s' --paper %s -o sheet.pdf", vehicle, paper),
            0, vehicle, NULL);
  checked = output_of ("qpdf --check sheet.pdf");
  return output_of ("pdftotext -layout sheet.pdf -");
}

static void
test_nitro (void)
{
  g_autofree char *text = sheet_text ("Gravel Ann", "a4");
  g_autofree char *info = output_of ("pdfinfo sheet.pdf");
  g_autofree char *fonts = output_of ("pdffonts sheet.pdf | tail -n +3");

  has (text, "Gravel Ann");
  has (text, "1/8 nitro buggy, 4WD");
  has (text, "Wednesday 25 November 2026");
  has (text, "Wrong or worn");
  has (text, "Owed");
  has (text, "Not checked");
  has (text, "Last inspected, by system");
  has (text, "Measured");
  has (text, "Bearings by position");
  has (text, "clutch bell");
  has (text, " l");                 /* litres of fuel */
  has (text, "Steering lock, front");
  g_assert_null (strstr (text, "…"));   /* what is too long goes on below, it is not cut */
  has (info, "Pages:           1");
  has (info, "595.276 x 841.89 pts (A4)");
  has (info, "Gravel Ann: summary sheet");
  g_assert_null (strstr (fonts, " no  "));  /* every font is embedded */
}

static void
test_unknown_history (void)
{
  g_autofree char *text = sheet_text ("Old Toast", "letter");
  g_autofree char *info = output_of ("pdfinfo sheet.pdf");

  has (text, "Not known.");
  has (text, "not known");
  has (text, "In this book");
  has (info, "612 x 792 pts (letter)");
}

static void
test_grounded (void)
{
  g_autofree char *text = sheet_text ("Marsh Hare", "a4");

  has (text, "Unsafe: do not run");
  has (text, "unsafe");
}

static void
test_half_way (void)
{
  g_autofree char *text = sheet_text ("Plum", "a4");

  has (text, "Off the car: wheels");
  has (text, "not inspected");          /* what no inspection on it has looked at */
}

static void
test_never_inspected (void)
{
  g_autofree char *text = NULL;

  run_says (run ("--book demo.hingepin add-vehicle Mule --chassis crawler-10"), 0, "Mule", NULL);
  text = sheet_text ("Mule", "a4");
  has (text, "Never inspected");
  g_assert_null (strstr (text, "Nothing open"));
}

/* The same book on the same day gives the same bytes. */
static void
test_same_again (void)
{
  run_says (run ("--today 2026-11-25 --book demo.hingepin sheet Plum -o one.pdf"), 0, "Plum", NULL);
  run_says (run ("--today 2026-11-25 --book demo.hingepin sheet Plum -o two.pdf"), 0, "Plum", NULL);
  g_free (output_of ("cmp one.pdf two.pdf"));
}

static void
test_cannot_write (void)
{
  run_says (run ("--book demo.hingepin sheet Plum -o nowhere/sheet.pdf"), 1, NULL, "nowhere");
  run_says (run ("--book demo.hingepin sheet Plum --paper a5 -o sheet.pdf"), 2, NULL, "“a4” or “letter”");
}

int
main (int argc, char *argv[])
{
  int status;

  g_test_init (&argc, &argv, NULL);
  run_start ();
  run_says (run ("--today 2026-11-25 --book demo.hingepin demo"), 0, "demo.hingepin", NULL);
  g_test_add_func ("/sheet/nitro", test_nitro);
  g_test_add_func ("/sheet/unknown-history", test_unknown_history);
  g_test_add_func ("/sheet/grounded", test_grounded);
  g_test_add_func ("/sheet/half-way", test_half_way);
  g_test_add_func ("/sheet/never-inspected", test_never_inspected);
  g_test_add_func ("/sheet/same-again", test_same_again);
  g_test_add_func ("/sheet/cannot-write", test_cannot_write);
  status = g_test_run ();
  run_stop ();
  return status;
}
