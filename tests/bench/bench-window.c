/* From the start of the process to the first frame, and to a stable that can be
 * used: the real window, once after another, beside an empty window. */

#include <gtk/gtk.h>
#include <stdlib.h>
#include <string.h>

#include "big-book.h"
#include "demo/demo.h"
#include "folder.h"
#include "gauge.h"
#include "window/application.h"

#define ROUNDS 7

/* ---- In the process that is timed ---- */

static gint64 started;          /* monotonic, of the parent, just before */
static guint expected;          /* rows of the whole stable */
static gboolean framed, listed;

static void
tell (const char *what)
{
  g_print ("%s %" G_GINT64_FORMAT "\n", what, g_get_monotonic_time () - started);
}

/* How many the list on the screen has. */
static guint
count_rows (GtkWidget *widget)
{
  guint n = 0;

  if (GTK_IS_LIST_VIEW (widget) && gtk_widget_get_mapped (widget))
    {
      GtkSelectionModel *model = gtk_list_view_get_model (GTK_LIST_VIEW (widget));

      return model != NULL ? g_list_model_get_n_items (G_LIST_MODEL (model)) : 0;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += count_rows (child);
  return n;
}

static void
painted (GdkFrameClock *clock, GtkWidget *window)
{
  guint n = count_rows (window);

  if (!framed)
    tell ("frame");
  framed = TRUE;
  if (n > 0 && !listed)
    tell ("rows");
  listed = n > 0;
  if (n < expected)
    return;
  tell ("whole");
  exit (0);
}

static void
realized (GtkWidget *window, gpointer data)
{
  g_signal_connect (gtk_widget_get_frame_clock (window), "after-paint", G_CALLBACK (painted),
                    window);
}

static void
window_added (GtkApplication *application, GtkWindow *window, gpointer data)
{
  g_signal_connect (window, "realize", G_CALLBACK (realized), NULL);
}

static void
show_empty (GtkApplication *application)
{
  GtkWidget *window = gtk_application_window_new (application);

  gtk_window_set_default_size (GTK_WINDOW (window), 1180, 780);
  gtk_window_present (GTK_WINDOW (window));
}

/* Leaves with the first frame. */
static void
empty_painted (GdkFrameClock *clock, GtkWidget *window)
{
  tell ("frame");
  exit (0);
}

static void
empty_realized (GtkWidget *window, gpointer data)
{
  g_signal_connect (gtk_widget_get_frame_clock (window), "after-paint", G_CALLBACK (empty_painted),
                    window);
}

static void
empty_added (GtkApplication *application, GtkWindow *window, gpointer data)
{
  g_signal_connect (window, "realize", G_CALLBACK (empty_realized), NULL);
}

static int
run_empty (void)
{
  g_autoptr (GtkApplication) application =
      gtk_application_new ("page.hingepin.Empty", G_APPLICATION_NON_UNIQUE);

  g_signal_connect (application, "activate", G_CALLBACK (show_empty), NULL);
  g_signal_connect (application, "window-added", G_CALLBACK (empty_added), NULL);
  return g_application_run (G_APPLICATION (application), 0, NULL);
}

static int
run_window (char *book)
{
  g_autoptr (PinApplication) application = pin_application_new ();
  char *argv[] = { (char *) "hingepin", (char *) "--book", book, NULL };

  g_application_set_flags (G_APPLICATION (application),
                           G_APPLICATION_HANDLES_COMMAND_LINE | G_APPLICATION_NON_UNIQUE);
  g_signal_connect (application, "window-added", G_CALLBACK (window_added), NULL);
  return g_application_run (G_APPLICATION (application), 3, argv);
}

/* ---- In the process that times ---- */

static int
by_value (gconstpointer a, gconstpointer b)
{
  const double *x = a, *y = b;

  return (*x > *y) - (*x < *y);
}

/* One start; ms until @what was told. */
static double
start (const char *program, const char *book, const char *rows, const char *what)
{
  g_autofree char *at = g_strdup_printf ("%" G_GINT64_FORMAT, g_get_monotonic_time ());
  const char *argv[] = { program, at, book, rows, NULL };
  g_autofree char *out = NULL;
  g_autoptr (GError) error = NULL;
  const char *line;

  g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_DEFAULT, NULL, NULL, &out, NULL, NULL, &error);
  if (error != NULL)
    g_error ("%s", error->message);
  line = strstr (out, what);
  if (line == NULL)
    g_error ("the window did not tell of “%s”: %s", what, out);
  return (double) g_ascii_strtoll (line + strlen (what), NULL, 10) / 1000;
}

static double
median (const char *program, const char *book, const char *rows, const char *what)
{
  double times[ROUNDS];

  start (program, book, rows, what);
  for (int i = 0; i < ROUNDS; i++)
    times[i] = start (program, book, rows, what);
  qsort (times, ROUNDS, sizeof *times, by_value);
  return times[ROUNDS / 2];
}

static void
bench (const char *program, const char *title, const char *book, const char *rows, double empty)
{
  g_autofree char *frame = g_strdup_printf ("start, %s: first frame", title);
  g_autofree char *usable = g_strdup_printf ("start, %s: stable to be used", title);
  g_autofree char *whole = g_strdup_printf ("start, %s: all of the stable", title);

  bench_say (frame, median (program, book, rows, "frame"), "ms", empty, "an empty GTK window");
  bench_say (usable, median (program, book, rows, "rows"), "ms", empty, "an empty GTK window");
  bench_say (whole, median (program, book, rows, "whole"), "ms", empty, "an empty GTK window");
}

static int
time_starts (const char *program)
{
  static const BigBookSize many = { .vehicles = 200, .years = 1, .outings = 10, .inspections = 1 };
  g_autofree char *folder = bench_folder_new ();
  g_autofree char *demo = g_build_filename (folder, "demo.hingepin", NULL);
  g_autofree char *big = g_build_filename (folder, "big.hingepin", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (PinLibrary) library = pin_library_new_default (&error);
  double empty;

  if (library == NULL || !pin_demo_make (demo, library, NULL, NULL, NULL, NULL, &error))
    g_error ("%s", error->message);
  pin_book_close (big_book_make (big, library, &many, NULL, NULL));
  empty = median (program, "empty", "0", "frame");
  bench (program, "the demo", demo, "6", empty);
  bench (program, "200 vehicles", big, "200", empty);
  bench_folder_free (folder);
  return 0;
}

int
main (int argc, char **argv)
{
  if (argc < 4)
    return time_starts (argv[0]);
  started = g_ascii_strtoll (argv[1], NULL, 10);
  expected = (guint) g_ascii_strtoull (argv[3], NULL, 10);
  return strcmp (argv[2], "empty") == 0 ? run_empty () : run_window (argv[2]);
}
