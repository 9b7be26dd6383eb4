/* walk-demo BOOK FOLDER: walks the demo stable through the real window, leaves
 * pictures of every page, light and dark, and the summary sheet of the car whose
 * teardown it signed. */
#include <glib/gstdio.h>
#include <string.h>

#include "ui/bench.h"

#define CAR "Tin Kettle"

static char *book, *folder;

static char *
in_folder (const char *name)
{
  return g_build_filename (folder, name, NULL);
}

static void
run (const char *what, ...)
{
  g_autoptr (GPtrArray) argv = g_ptr_array_new ();
  g_autoptr (GError) error = NULL;
  int status = 0;
  va_list args;

  g_ptr_array_add (argv, (char *) what);
  va_start (args, what);
  for (char *word = va_arg (args, char *); word; word = va_arg (args, char *))
    g_ptr_array_add (argv, word);
  va_end (args);
  g_ptr_array_add (argv, NULL);
  if (!g_spawn_sync (NULL, (char **) argv->pdata, NULL, G_SPAWN_SEARCH_PATH | G_SPAWN_STDOUT_TO_DEV_NULL,
                     NULL, NULL, NULL, NULL, &status, &error) ||
      !g_spawn_check_wait_status (status, &error))
    g_error ("%s: %s", what, error->message);
}

/* The page once it has come to rest: two pictures alike.  Some wait is in the
 * nature of drawing; nothing tells from outside that it has ended. */
static void
picture (PinUi *ui, const char *name)
{
  g_autofree char *png = g_strconcat (name, ".png", NULL);
  g_autofree char *file = in_folder (png);
  g_autofree char *before = NULL;
  gsize length = 0;

  for (int i = 0; i < 20; i++)
    {
      g_autofree char *now = NULL;
      gsize n = 0;

      pin_ui_screenshot (ui, file);
      if (!g_file_get_contents (file, &now, &n, NULL))
        g_error ("%s could not be read", file);
      if (before && n == length && i > 1 && memcmp (before, now, n) == 0)
        return;
      g_free (before);
      before = g_steal_pointer (&now);
      length = n;
      g_usleep (150000);
    }
}

/* Both looks of what stands there. */
static void
pictures (PinUi *ui, const char *name)
{
  g_autofree char *dark = g_strconcat (name, "-dark", NULL);

  picture (ui, name);
  pin_ui_activate (ui, "app.appearance", g_variant_new_string ("dark"));
  g_usleep (300000);
  picture (ui, dark);
  pin_ui_activate (ui, "app.appearance", g_variant_new_string ("light"));
}

static void
first_start (void)
{
  char *home = pin_ui_new_home ();
  PinUi *ui = pin_ui_start (home, NULL);

  pin_ui_inside (ui, ATSPI_ROLE_FILLER, "PinStartPage");
  pin_ui_wait (ui, ATSPI_ROLE_LABEL, "Nothing here yet.*");
  pictures (ui, "first-start");
  pin_ui_close (ui);
  pin_ui_remove_home (home);
}

/* A picture of the first question of each sort. */
static void
keep_sort (PinBench *bench, GHashTable *sorts)
{
  static const char *const keys[][2] = {
    { "*/grade@*", "bench-choose" },      { "free-roll/coast*", "bench-measure" },
    { "drop-test/height@*", "bench-reading" }, { "fastener-check/tight@*", "bench-count" },
    { "off/*", "bench-take-off" },        { "*/oil-it*", "bench-work" },
    { "way/*", "bench-way" },             { "*/set", "bench-settle" },
    { "*wait*", "bench-wait" },
  };
  g_autofree char *key = pin_bench_key (bench);

  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    if (g_pattern_match_simple (keys[i][0], key) && g_hash_table_add (sorts, (char *) keys[i][1]))
      pictures (bench->ui, keys[i][1]);
}

static const PinBenchPlan plan[] = {
  { "bearings/grade@*front.left.outer", "*: watch", NULL, NULL },
  { "bearings/oil-it*", NULL, "light oil", NULL },
  { "drop-test/height@*", "Pass", "24 mm", NULL },
  { "free-roll/coast*", "Pass", "2.6 s, 2.4 s, 2.5 s", NULL },
  { "gear-mesh/backlash@*", "Pass", "0.08 mm", NULL },
  { "steering-travel/servo-heat@*", "Pass", "41", NULL },
  { "steering-travel/play@*", "Pass", "0.6 mm", NULL },
  { "steering-travel/lock@*", "Pass", "28", NULL },
  { "fastener-check/tight@fasteners.wing-body", "Not checked", "Cannot get at it", NULL },
  { NULL },
};

static void
walk (PinUi *ui)
{
  g_autoptr (GHashTable) sorts = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (PinBench) bench = pin_bench_begin (ui, "Quarterly teardown");
  g_autofree char *key = NULL;

  for (key = pin_bench_key (bench); !g_str_equal (key, "sign-off");)
    {
      keep_sort (bench, sorts);
      pin_bench_answer (bench, plan);
      g_free (key);
      key = pin_bench_key (bench);
    }
  pictures (ui, "sign-off");
  pin_bench_sign (bench, "AB");
  g_print ("%s: %u answers kept, signed off\n", CAR, bench->kept);
}

static void
vehicle (PinUi *ui)
{
  pin_ui_press (ui, ATSPI_ROLE_PUSH_BUTTON, "Open " CAR);
  pin_ui_wait (ui, ATSPI_ROLE_HEADING, CAR);
  pictures (ui, "vehicle");
  pin_ui_press (ui, ATSPI_ROLE_PUSH_BUTTON, "front left axle end, outer: *");
  g_usleep (500000);
  pictures (ui, "vehicle-part");
}

static void
stable (void)
{
  char *home = pin_ui_new_home ();
  PinUi *ui = pin_ui_start (home, "--book", book, NULL);

  pin_ui_wait (ui, ATSPI_ROLE_PUSH_BUTTON, "Open " CAR);
  pictures (ui, "stable");
  vehicle (ui);
  walk (ui);
  pictures (ui, "vehicle-after");
  pin_ui_close (ui);
  pin_ui_remove_home (home);
}

static void
sheet (void)
{
  g_autofree char *program = g_build_filename (g_getenv ("PIN_BUILD_ROOT"), "src", "hingepin", NULL);
  g_autofree char *pdf = in_folder ("tin-kettle.pdf");
  g_autofree char *stem = in_folder ("tin-kettle");

  run (program, "--book", book, "sheet", CAR, "--output", pdf, NULL);
  run ("pdftoppm", "-png", "-r", "96", "-singlefile", pdf, stem, NULL);
}

int
main (int argc, char *argv[])
{
  if (argc != 3)
    {
      g_printerr ("walk-demo: which book, and into which folder?\n");
      return 2;
    }
  book = argv[1];
  folder = argv[2];
  g_mkdir_with_parents (folder, 0755);
  first_start ();
  stable ();
  sheet ();
  return 0;
}
