/* The book as it was known on a day: the same answers as were given then. */

#include <gio/gio.h>
#include <string.h>

#include "run.h"

#define BOOK "--book demo.hingepin "
#define NEXT_DAY "--today 2026-11-26 " BOOK
#define AS_OF_YESTERDAY "--today 2026-11-26 --known 2026-11-25 " BOOK

static const char *const looks[] = {
  "vehicles --json", "vehicles", "vehicles --csv", "parts Plum --json", "parts Plum",
  "findings --json", "findings --all", "findings Plum", "setup Plum --json", "setup Plum --all",
  "setup Plum --on 2026-01-01", "history Plum:hub.front.left.outer --json", "history Plum:hub.front.left.outer",
};

static char *given[G_N_ELEMENTS (looks)]; /* on the day itself */

static char *
output (const char *options, const char *verb)
{
  g_autoptr (Run) done = run ("%s%s", options, verb);

  if (done->status != 0 || *done->err != '\0')
    g_error ("%s: exit status %d: %s", verb, done->status, done->err);
  return g_steal_pointer (&done->out);
}

/* Much happens on the day after: a car comes, another is taken apart. */
static void
go_on (void)
{
  run_says (run (NEXT_DAY "add-vehicle Mule --chassis crawler-10"), 0, "Mule", NULL);
  run_says (run_fed ("free-roll/noise\tnot-checked\treason=no time\noff/body\tdone\tnote=pins in the tin\n",
                     NEXT_DAY "inspect 'Tin Kettle' free-roll --by AB --answers -"),
            0, "Kept, still open", NULL);
}

static void
test_same_as_then (void)
{
  g_autofree char *later = output (NEXT_DAY, "vehicles --json");

  g_assert_nonnull (strstr (later, "Mule"));
  for (gsize i = 0; i < G_N_ELEMENTS (looks); i++)
    {
      g_autofree char *again = output (AS_OF_YESTERDAY, looks[i]);

      g_assert_cmpstr (again, ==, given[i]);
    }
}

static void
test_later_is_not_there (void)
{
  run_says (run (AS_OF_YESTERDAY "parts Mule"), 1, NULL, "no vehicle “Mule”");
  run_says (run (NEXT_DAY "parts Mule"), 0, "bearing", NULL);
  run_says (run ("--today 2026-11-26 --known 2026-11-26 " BOOK "parts Mule"), 0, "bearing", NULL);
}

static void
test_long_ago (void)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (Run) listed = run ("--today 2026-11-25 --known 2025-03-01 " BOOK "vehicles --json");
  JsonArray *cars = json_object_get_array_member (run_json (listed, parser), "vehicles");
  JsonObject *plum = json_array_get_object_element (cars, 2);

  g_assert_cmpuint (json_array_get_length (cars), ==, 3);
  g_assert_cmpstr (json_object_get_string_member (plum, "name"), ==, "Plum");
  g_assert_cmpstr (json_object_get_string_member (plum, "readiness"), ==, "not-known");
  g_assert_true (json_object_get_null_member (plum, "inspected"));
  run_says (run ("--known 2019-01-01 " BOOK "vehicles"), 1, NULL, "no vehicle had been entered");
}

static void
test_sheet (void)
{
  g_autofree char *then_path = g_build_filename (run_folder, "then.pdf", NULL);
  g_autofree char *again_path = g_build_filename (run_folder, "again.pdf", NULL);
  g_autofree char *then = NULL, *again = NULL;
  gsize then_size, again_size;

  run_says (run (AS_OF_YESTERDAY "sheet 'Tin Kettle' -o again.pdf"), 0, "again.pdf", NULL);
  g_assert_true (g_file_get_contents (then_path, &then, &then_size, NULL));
  g_assert_true (g_file_get_contents (again_path, &again, &again_size, NULL));
  g_assert_cmpmem (again, again_size, then, then_size);
}

static void
test_nothing_is_written (void)
{
  g_autofree char *path = g_build_filename (run_folder, "demo.hingepin", NULL);
  g_autofree char *before = NULL, *after = NULL;
  gsize before_size, after_size;

  g_assert_true (g_file_get_contents (path, &before, &before_size, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (looks); i += 4)
    g_free (output (AS_OF_YESTERDAY, looks[i]));
  g_assert_true (g_file_get_contents (path, &after, &after_size, NULL));
  g_assert_cmpmem (before, before_size, after, after_size);
}

static void
test_refused (void)
{
  static const char *const verbs[] = {
    "add-vehicle Ox --chassis crawler-10", "inspect Plum bearings --list", "check x.xml",
    "backup copy.hingepin", "restore copy.hingepin", "verify", "export out", "demo",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (verbs); i++)
    run_says (run (AS_OF_YESTERDAY "%s", verbs[i]), 2, NULL,
              "only vehicles, parts, bearings, history, setup, findings, sheet are");
  run_says (run ("--known 2026-11-31 " BOOK "vehicles"), 2, NULL, "--known: “2026-11-31” is no date");
  run_says (run ("--today 2026-11-26 --known 2026-11-27 " BOOK "vehicles"), 2, NULL, "still to come");
  run_says (run ("--known 2026-11-25"), 2, NULL, "needs a verb");
  run_says (run ("--known 2026-11-25 --book none.hingepin vehicles"), 1, NULL, "none.hingepin");
  run_says (run ("--help"), 0, "--known=DATE", NULL);
}

int
main (int argc, char *argv[])
{
  int status;

  g_test_init (&argc, &argv, NULL);
  run_start ();
  run_says (run ("--today 2026-11-25 " BOOK "demo"), 0, "demo.hingepin", NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (looks); i++)
    given[i] = output ("--today 2026-11-25 " BOOK, looks[i]);
  run_says (run ("--today 2026-11-25 " BOOK "sheet 'Tin Kettle' -o then.pdf"), 0, "then.pdf", NULL);
  go_on ();
  g_test_add_func ("/known/same-as-then", test_same_as_then);
  g_test_add_func ("/known/later-is-not-there", test_later_is_not_there);
  g_test_add_func ("/known/long-ago", test_long_ago);
  g_test_add_func ("/known/sheet", test_sheet);
  g_test_add_func ("/known/nothing-is-written", test_nothing_is_written);
  g_test_add_func ("/known/refused", test_refused);
  status = g_test_run ();
  for (gsize i = 0; i < G_N_ELEMENTS (looks); i++)
    g_free (given[i]);
  run_stop ();
  return status;
}
