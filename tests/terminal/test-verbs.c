#include <glib/gstdio.h>
#include <string.h>

#include "run.h"

static void
test_usage (void)
{
  run_says (run ("--version"), 0, "Hingepin", NULL);
  run_says (run ("--help"), 0, "add-vehicle NAME --chassis TYPE", NULL);
  run_says (run ("sing"), 2, NULL, "there is no verb “sing”");
  run_says (run ("--nonsense"), 2, NULL, "nonsense");
  run_says (run ("--today yesterday vehicles"), 2, NULL, "is no date");
  run_says (run ("setup x --on 31.12.2026"), 2, NULL, "is no date");
  run_says (run ("parts"), 2, NULL, "needs the name of a vehicle");
  run_says (run ("check"), 2, NULL, "at least one file");
  run_says (run ("add-vehicle Mule"), 2, NULL, "buggy-nitro-8");
  run_says (run ("sheet Mule"), 2, NULL, "-o FILE.pdf");
  run_says (run ("inspect Mule bearings"), 2, NULL, "--list or --answers");
}

static void
test_no_book_yet (void)
{
  run_says (run ("vehicles"), 1, NULL, "stable.hingepin");
  run_says (run ("verify"), 1, NULL, "stable.hingepin");
}

static void
test_add_and_list (void)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (Run) listed = NULL;
  JsonObject *root, *vehicle, *before;

  run_says (run ("--book a.hingepin add-vehicle Mule --chassis tank-1"), 1, NULL, "tank-1");
  run_says (run ("--book a.hingepin add-vehicle Mule --chassis crawler-10 --hours 3mm"), 1, NULL, "--hours");
  run_says (run ("--book a.hingepin add-vehicle Mule --chassis crawler-10 --hours 90min"), 0, "Mule", NULL);
  run_says (run ("--book a.hingepin add-vehicle mule --chassis crawler-10"), 1, NULL, "ule");
  listed = run ("--book a.hingepin vehicles --json");
  root = run_json (listed, parser);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (root, "vehicles")), ==, 1);
  vehicle = json_array_get_object_element (json_object_get_array_member (root, "vehicles"), 0);
  g_assert_cmpstr (json_object_get_string_member (vehicle, "name"), ==, "Mule");
  g_assert_cmpstr (json_object_get_string_member (vehicle, "readiness"), ==, "not-known");
  /* Ids are strings: a JSON reader loses the last digits of 63 bits. */
  g_assert_true (g_ascii_isdigit (*json_object_get_string_member (vehicle, "id")));
  before = json_object_get_object_member (vehicle, "time-before");
  g_assert_cmpfloat (json_object_get_double_member (before, "value"), ==, 5400);
  run_says (run ("--book a.hingepin vehicles --strict"), 1, "Mule", NULL);
}

static void
test_parts_setup_history (void)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (Run) parts = run ("--book a.hingepin parts Mule --json");
  JsonArray *list = json_object_get_array_member (run_json (parts, parser), "parts");
  const char *id = json_object_get_string_member (json_array_get_object_element (list, 0), "id");

  g_assert_cmpuint (json_array_get_length (list), >, 40);
  run_says (run ("--book a.hingepin history %s", id), 0, "Fitted", NULL);
  run_says (run ("--book a.hingepin history Mule:hub.front.left.outer --json"), 0, "\"events\"", NULL);
  run_says (run ("--book a.hingepin history Mule:nowhere"), 1, NULL, "there is no position nowhere");
  run_says (run ("--book a.hingepin history 12x"), 2, NULL, "is no part");
  run_says (run ("--book a.hingepin history 12"), 1, NULL, "12");
  run_says (run ("--book a.hingepin setup Mule"), 0, "spur", NULL);
  run_says (run ("--book a.hingepin setup Mule --json"), 0, "\"facts\"", NULL);
  run_says (run ("--book a.hingepin setup Donkey"), 1, NULL, "Donkey");
}

/* The blank list, filled in by a script: what passes is taken for each. */
static char *
fill_in (const char *blank)
{
  g_auto (GStrv) lines = g_strsplit (blank, "\n", -1);
  GString *text = g_string_new (NULL);

  for (guint i = 0; lines[i]; i++)
    {
      char *tab = strchr (lines[i], '\t');
      g_auto (GStrv) choices = NULL;

      if (tab == NULL || lines[i][0] == '#')
        continue;
      *tab++ = '\0';
      choices = g_strsplit_set (tab, "|;", -1);
      if (g_str_equal (lines[i], "sign-off"))
        g_string_append (text, "sign-off\tAB\n");
      else if (g_str_has_prefix (tab, "value in"))
        g_string_append_printf (text, "%s\t2\toutcome=pass\n", lines[i]);
      else if (g_str_has_prefix (tab, "n/"))
        g_string_append_printf (text, "%s\t%s%s\n", lines[i], tab + 2, tab + 1);
      else
        g_string_append_printf (text, "%s\t%s\n", lines[i], choices[0]);
    }
  return g_string_free (text, FALSE);
}

static void
test_inspect (void)
{
  g_autoptr (Run) blank = run ("--book a.hingepin inspect Mule bearings --list");
  g_autofree char *answers = NULL;

  g_assert_cmpint (blank->status, ==, 0);
  answers = fill_in (blank->out);
  run_says (run_fed ("bearings/rock-wheel@hub.front.left.outer\twobbles\n",
                     "--book a.hingepin inspect Mule bearings --answers -"), 1, NULL, "-:1: ");
  run_says (run_fed ("# one\n\nbearings/rock-wheel@hub.front.left.outer\tfelt\tby=CD\n",
                     "--book a.hingepin inspect Mule bearings --answers -"), 0, "Next: bearings/rock-wheel@", NULL);
  run_says (run ("--book a.hingepin inspect Mule free-roll --answers /dev/null"), 1, NULL, "has an inspection open");
  run_says (run ("--book a.hingepin inspect Mule nothing --list"), 1, NULL, "nothing");
  run_says (run_fed (answers, "--book a.hingepin inspect Mule bearings --by AB --answers -"), 0, "Signed off", NULL);
  run_says (run ("--book a.hingepin vehicles --json"), 0, "\"readiness\"", NULL);
  run_says (run ("--book a.hingepin findings Mule"), 0, "Nothing is open", NULL);
  run_says (run ("--book a.hingepin findings --json"), 0, "\"findings\"", NULL);
}

static void
test_keeping (void)
{
  g_autofree char *folder = g_build_filename (run_folder, "out", NULL);
  g_autofree char *csv = g_build_filename (folder, "tables", "answer.csv", NULL);

  run_says (run ("--book a.hingepin verify"), 0, "is sound", NULL);
  run_says (run ("--book a.hingepin backup copy.hingepin"), 0, "copy.hingepin", NULL);
  run_says (run ("--book a.hingepin backup a.hingepin"), 1, NULL, "a.hingepin");
  run_says (run ("--book copy.hingepin verify --json"), 0, "\"problems\"", NULL);
  run_says (run ("--book a.hingepin restore copy.hingepin"), 0, "is kept as", NULL);
  run_says (run ("--book a.hingepin restore missing.hingepin"), 1, NULL, "missing.hingepin");
  run_says (run ("--book a.hingepin export out"), 0, "out", NULL);
  run_says (run ("--book a.hingepin export out"), 1, NULL, "out");
  g_assert_true (g_file_test (csv, G_FILE_TEST_IS_REGULAR));
}

static void
test_not_a_book (void)
{
  g_autofree char *text = g_build_filename (run_folder, "letter.txt", NULL);
  g_autofree char *left = NULL;

  g_assert_true (g_file_set_contents (text, "Dear keeper,\n", -1, NULL));
  run_says (run ("--book letter.txt vehicles"), 1, NULL, "letter.txt");
  run_says (run ("--book letter.txt add-vehicle Mule --chassis crawler-10"), 1, NULL, "letter.txt");
  run_says (run ("--book letter.txt demo"), 1, NULL, "letter.txt");
  run_says (run ("--book . vehicles"), 1, NULL, "hingepin: ");
  g_assert_true (g_file_get_contents (text, &left, NULL, NULL));
  g_assert_cmpstr (left, ==, "Dear keeper,\n");
}

static void
test_check (void)
{
  g_autofree char *bad = g_build_filename (run_folder, "bad.xml", NULL);
  g_autofree char *good = g_build_filename (g_getenv ("HINGEPIN_DATA_DIR"), "procedures", "bearings.xml", NULL);

  g_assert_true (g_file_set_contents (bad, "<!DOCTYPE x [<!ENTITY a \"b\">]>\n<procedure/>", -1, NULL));
  run_says (run ("check '%s'", good), 0, "nothing wrong", NULL);
  run_says (run ("check bad.xml"), 1, NULL, "bad.xml:1: ");
  run_says (run ("check absent.xml"), 1, NULL, "absent.xml");
  run_says (run ("check bad.xml --json"), 1, "bad.xml:1: ", NULL);
}

/* Numbers are written for machines, whatever the person's own comma. */
static void
test_demo (void)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (Run) listed = NULL;
  JsonArray *vehicles;

  run_says (run ("--today 2026-11-25 --book demo.hingepin demo"), 0, "demo.hingepin", NULL);
  run_says (run ("--book demo.hingepin verify"), 0, "is sound", NULL);
  listed = run ("--today 2026-11-25 --book demo.hingepin vehicles --json");
  vehicles = json_object_get_array_member (run_json (listed, parser), "vehicles");
  g_assert_cmpuint (json_array_get_length (vehicles), ==, 6);
  run_says (run ("--book a.hingepin demo"), 1, NULL, "a.hingepin");
}

/* ---- texts of the keeper's own ------------------------------------------------ */

static void
put_on_own_shelf (const char *name, const char *text)
{
  g_autofree char *folder = g_build_filename (g_getenv ("XDG_DATA_HOME"), "hingepin", "procedures", NULL);
  g_autofree char *path = g_build_filename (folder, name, NULL);

  g_assert_cmpint (g_mkdir_with_parents (folder, 0755), ==, 0);
  g_assert_true (g_file_set_contents (path, text, -1, NULL));
  run_says (run ("check '%s'", path), 0, "nothing wrong", NULL);
}

static void
walk_to_sign_off (const char *chassis, const char *procedure)
{
  g_autofree char *book = g_strdup_printf ("%s.hingepin", procedure);
  g_autoptr (Run) blank = NULL;
  g_autofree char *answers = NULL;

  run_says (run ("--book %s add-vehicle Mule --chassis %s", book, chassis), 0, "Mule", NULL);
  blank = run ("--book %s inspect Mule %s --list", book, procedure);
  g_assert_cmpint (blank->status, ==, 0);
  answers = fill_in (blank->out);
  run_says (run_fed (answers, "--book %s inspect Mule %s --by AB --answers -", book, procedure), 0, "Signed off", NULL);
}

/* What docs/writing-procedures.md shows works as it stands there. */
static void
test_docs_example (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("PIN_SOURCE_ROOT"), "docs", "writing-procedures.md", NULL);
  g_autofree char *page = NULL;
  char *start, *end;

  g_assert_true (g_file_get_contents (path, &page, NULL, NULL));
  start = strstr (page, "<?xml");
  g_assert_nonnull (start);
  end = strstr (start, "```");
  g_assert_nonnull (end);
  *end = '\0';
  put_on_own_shelf ("wheel-wobble.xml", start);
  walk_to_sign_off ("buggy-2wd-10", "wheel-wobble");
}

/* Each of its examples passes the check; what is only part of a step is given one. */
static void
test_docs_sound (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("PIN_SOURCE_ROOT"), "docs", "writing-procedures.md", NULL);
  g_autofree char *shelved = g_build_filename (g_getenv ("XDG_DATA_HOME"), "hingepin", "procedures", "example.xml",
                                               NULL);
  g_autofree char *page = NULL;
  guint n = 0;

  g_assert_true (g_file_get_contents (path, &page, NULL, NULL));
  for (char *at = strstr (page, "```xml\n"); at != NULL; at = strstr (at, "```xml\n"), n++)
    {
      char *start = at + strlen ("```xml\n"), *end = strstr (start, "```");
      g_autofree char *example = NULL, *whole = NULL;

      g_assert_nonnull (end);
      example = g_strndup (start, (gsize) (end - start));
      at = end + strlen ("```");
      if (g_str_has_prefix (example, "<measure"))
        whole = g_strconcat ("<procedure xmlns='urn:hingepin:procedure:1' id='part' revision='1'><title>T</title>"
                             "<purpose>P</purpose><minutes hands='1'/><stage id='s'><step id='p'><title>T</title>"
                             "<do>D.</do>", example, "</step></stage></procedure>", NULL);
      put_on_own_shelf ("example.xml", whole ? whole : example);
    }
  g_assert_cmpuint (n, >=, 3);
  g_assert_cmpint (g_unlink (shelved), ==, 0);
}

/* An own text with the id of a shipped one takes its place; a broken one does not. */
static void
test_own_over_shipped (void)
{
  static const char *const own =
    "<procedure xmlns='urn:hingepin:procedure:1' id='gear-mesh' revision='9'><title>My mesh</title>"
    "<purpose>Mine.</purpose><minutes hands='1'/><stage id='s'><step id='set' settles='mesh'><do>Set it.</do>"
    "</step></stage></procedure>";
  g_autofree char *path = g_build_filename (g_getenv ("XDG_DATA_HOME"), "hingepin", "procedures", "mine.xml", NULL);

  put_on_own_shelf ("mine.xml", own);
  run_says (run ("--book a.hingepin inspect Mule gear-mesh --list"), 0, "# My mesh, Mule", NULL);
  g_assert_true (g_file_set_contents (path, "<procedure xmlns='urn:hingepin:procedure:1' id='gear-mesh'", -1, NULL));
  run_says (run ("--book a.hingepin inspect Mule gear-mesh --list"), 0, "# Gear mesh, Mule", NULL);
  g_assert_cmpint (g_unlink (path), ==, 0);
}

/* The first three procedures that the grammar was made for are still understood. */
static void
test_first_texts (void)
{
  static const char *const texts[][2] = { { "bearings", "buggy-nitro-8" }, { "bearings", "crawler-10" },
                                          { "nitro-after-run", "buggy-nitro-8" }, { "shock-rebuild", "buggy-2wd-10" } };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autofree char *name = g_strconcat (texts[i][0], ".xml", NULL);
      g_autofree char *path = g_build_filename (g_getenv ("PIN_SOURCE_ROOT"), "tests", "library", "good", name, NULL);
      g_autofree char *own = g_build_filename (g_getenv ("XDG_DATA_HOME"), "hingepin", "procedures", name, NULL);
      g_autofree char *book = g_strdup_printf ("%s/%s.hingepin", run_folder, texts[i][0]);
      g_autofree char *text = NULL;

      g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
      put_on_own_shelf (name, text);
      walk_to_sign_off (texts[i][1], texts[i][0]);
      g_unlink (own);
      g_unlink (book);
    }
}

/* The racer of the demo has to coast longer than the text asks for. */
static void
test_own_limit (void)
{
  static const char before[] = "free-roll/noise\tquiet\noff/body\tdone\noff/pack\tdone\noff/gear-cover\tdone\n"
                               "off/motor\tdone\n";
  const char *inspect = "--book limits.hingepin inspect 'Number Seven' free-roll --by AB --answers -";

  run_says (run ("--book limits.hingepin demo"), 0, "limits.hingepin", NULL);
  run_says (run_fed (before, "%s", inspect), 0, "Next: free-roll/coast", NULL);
  run_says (run_fed ("free-roll/coast\t1.8 s, 1.7, 1.9\n", "%s", inspect), 0,
            "free-roll/coast: by your own limit, watch", NULL);
}

int
main (int argc, char *argv[])
{
  int status;

  g_test_init (&argc, &argv, NULL);
  run_start ();
  g_test_add_func ("/verbs/usage", test_usage);
  g_test_add_func ("/verbs/no-book-yet", test_no_book_yet);
  g_test_add_func ("/verbs/add-and-list", test_add_and_list);
  g_test_add_func ("/verbs/parts-setup-history", test_parts_setup_history);
  g_test_add_func ("/verbs/inspect", test_inspect);
  g_test_add_func ("/verbs/keeping", test_keeping);
  g_test_add_func ("/verbs/not-a-book", test_not_a_book);
  g_test_add_func ("/verbs/check", test_check);
  g_test_add_func ("/verbs/demo", test_demo);
  g_test_add_func ("/verbs/own-limit", test_own_limit);
  g_test_add_func ("/own/docs-example", test_docs_example);
  g_test_add_func ("/own/docs-sound", test_docs_sound);
  g_test_add_func ("/own/over-shipped", test_own_over_shipped);
  g_test_add_func ("/own/first-texts", test_first_texts);
  status = g_test_run ();
  run_stop ();
  return status;
}
