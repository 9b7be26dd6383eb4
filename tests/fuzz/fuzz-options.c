/* Command lines, broken: a line feed parts the words. */

#include <locale.h>
#include <string.h>

#include "fuzz.h"
#include "terminal/options.h"

static const char *const right[] = {
  "--book\na.hingepin\nvehicles\n--json", "vehicles\n--csv\n--strict", "--today\n2026-11-28\ndemo",
  "add-vehicle\nMule\n--chassis\ncrawler-10\n--hours\n12.5\n--acquired\nused\n--by\nAB",
  "setup\nMule\n--on\n2026-10-01\n-a", "inspect\nMule\nbearings\n--answers\n-", "--known=2026-01-01\nparts\nMule",
  "sheet\nMule\n-o\nmule.pdf\n--paper=letter", "--help", "-h", "--version", "--\n-3", "history\nMule:hub.front",
};
static const char *const words[] = {
  "\n", "-", "--", "=", "--json", "--csv", "--known", "--today", "--on", "2026-02-30", "-b", "-jab", "--all=x",
  "-", "''", "\xff", "\xc3", "%s%n", "--no-such", "-o", "", NULL,
};

static void
attempt (const char *text, gsize length, gpointer data)
{
  g_autofree char *line = g_strconcat ("hingepin\n", text, NULL);
  g_auto (GStrv) argv = g_strsplit (line, "\n", -1);
  g_autoptr (GError) error = NULL;
  PinOptions options = { NULL };
  gboolean ok = pin_options_parse (&options, (int) g_strv_length (argv), argv, &error);

  g_assert_cmpint (ok, ==, error == NULL);
  g_assert_nonnull (options.args);
  if (ok && options.known)
    g_assert_cmpuint (strlen (options.known), ==, strlen ("2026-11-28"));
  pin_options_clear (&options);
}

int
main (int argc, char **argv)
{
  FuzzFood food = { NULL, words };
  int status;

  setlocale (LC_ALL, "");
  for (gsize i = 0; i < G_N_ELEMENTS (right); i++)
    fuzz_add (&food, right[i]);
  status = fuzz_main (argc, argv, &food, 20000, attempt, NULL);
  fuzz_clear (&food);
  return status;
}
