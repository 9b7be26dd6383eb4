#include "demo/demo-private.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>

#include "base/day.h"
#include "book/keeping.h"
#include "book/queries.h"

#define SEED G_GUINT64_CONSTANT (0x48706e62)

/* ---- The agenda ---- */

static int
earlier_first (gconstpointer a, gconstpointer b)
{
  const DemoEvent *x = a, *y = b;

  return y->days - x->days;
}

static void
add_story (GArray *events, const DemoEvent *story)
{
  for (; story->happen != NULL; story++)
    g_array_append_val (events, *story);
}

/* Cars come first on their day, and outings before the evening's work. */
static GArray *
agenda (Demo *demo)
{
  GArray *events = g_array_new (FALSE, FALSE, sizeof (DemoEvent));

  demo_outings (demo, events);
  add_story (events, demo_story_shed);
  add_story (events, demo_story_ann);
  add_story (events, demo_story_seven);
  add_story (events, demo_story_plum);
  add_story (events, demo_story_kettle);
  add_story (events, demo_story_hare);
  add_story (events, demo_story_toast);
  g_array_sort (events, earlier_first);
  return events;
}

/* The newest teardown text that suits any car; else one procedure. */
const char *
demo_teardown (Demo *demo, const char *otherwise)
{
  g_autoptr (GPtrArray) teardowns = pin_library_teardowns (demo->library);

  return teardowns->len > 0 ? ((PinTeardown *) teardowns->pdata[0])->id : otherwise;
}

static gboolean
live_through (Demo *demo, PinProgress progress, gpointer data, GCancellable *cancellable,
              GError **error)
{
  g_autoptr (GArray) events = agenda (demo);

  for (guint i = 0; i < events->len; i++)
    {
      const DemoEvent *event = &g_array_index (events, DemoEvent, i);

      if (g_cancellable_set_error_if_cancelled (cancellable, error))
        return FALSE;
      demo_go_to (demo, event->days, event->days == 0 ? 9 : 18);
      if (!event->happen (demo, event->car, error))
        {
          g_prefix_error (error, "%d days ago: ", event->days);
          return FALSE;
        }
      if (progress != NULL)
        progress ((i + 1.0) / events->len, data);
    }
  return demo_flush (demo, error);
}

/* ---- The file ---- */

static gpointer
find_demo_mark (PinDb *db, gpointer data, GError **error)
{
  g_autoptr (GPtrArray) vehicles = pin_query_vehicles (db, error);
  gboolean *is_demo = data;

  for (guint i = 0; vehicles != NULL && !*is_demo && i < vehicles->len; i++)
    {
      const PinVehicleRow *row = vehicles->pdata[i];
      g_autoptr (GPtrArray) said = pin_query_trait_history (db, row->id, "demo", error);

      *is_demo = said != NULL && said->len > 0;
    }
  return NULL;
}

static gboolean
may_overwrite (const char *path, GError **error)
{
  g_autoptr (PinBook) book = NULL;
  gboolean is_demo = FALSE;

  if (!g_file_test (path, G_FILE_TEST_EXISTS))
    return TRUE;
  book = pin_book_open (path, TRUE, NULL);
  if (book != NULL)
    pin_book_run (book, find_demo_mark, &is_demo, NULL);
  if (!is_demo)
    g_set_error (
        error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_EXISTS,
        _("%s is there already and is no demo stable: it is left as it is; give another file"),
        path);
  return is_demo;
}

/* A folder of our own in memory where that can be had, for hundreds of commits
 * each wait for their disk; else beside the book.  Free with g_free(). */
static char *
scratch_folder (const char *path, GError **error)
{
  const char *places[] = { g_get_user_runtime_dir (), "/dev/shm" };
  g_autofree char *beside = g_strconcat (path, ".XXXXXX", NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (places); i++)
    {
      g_autoptr (GFile) file = g_file_new_for_path (places[i]);
      g_autoptr (GFileInfo) info =
          g_file_query_filesystem_info (file, G_FILE_ATTRIBUTE_FILESYSTEM_TYPE, NULL, NULL);
      g_autofree char *folder = g_build_filename (places[i], "hingepin-demo-XXXXXX", NULL);

      if (info != NULL &&
          g_strcmp0 (g_file_info_get_attribute_string (info, G_FILE_ATTRIBUTE_FILESYSTEM_TYPE),
                     "tmpfs") == 0 &&
          g_mkdtemp (folder) != NULL)
        return g_steal_pointer (&folder);
    }
  if (g_mkdtemp (beside) != NULL)
    return g_steal_pointer (&beside);
  g_set_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_OPEN,
               _("The demo stable cannot be made beside %s: %s"), path, g_strerror (errno));
  return NULL;
}

/* Lives the two years in @scratch, then copies the book to @made. */
static gboolean
write_book (Demo *demo, const char *scratch, const char *made, PinProgress progress,
            gpointer data, GCancellable *cancellable, GError **error)
{
  gboolean ok;

  demo->book = pin_book_create (scratch, error);
  if (demo->book == NULL)
    return FALSE;
  ok = live_through (demo, progress, data, cancellable, error);
  pin_pretend_now (0);
  g_clear_pointer (&demo->pending, pin_batch_free);
  ok = ok && pin_book_backup (demo->book, made, NULL, NULL, cancellable, error);
  g_clear_pointer (&demo->book, pin_book_close);
  return ok;
}

static gboolean
put_in_place (const char *made, const char *path, GError **error)
{
  if (g_rename (made, path) == 0)
    return TRUE;
  g_set_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_READ_ONLY,
               _("The demo stable could not be put at %s: %s"), path, g_strerror (errno));
  return FALSE;
}

/* What is there already is replaced only by a whole one. */
static gboolean
make (Demo *demo, const char *path, PinProgress progress, gpointer data,
      GCancellable *cancellable, GError **error)
{
  g_autofree char *made = g_strconcat (path, ".new", NULL);
  g_autofree char *folder = scratch_folder (path, error);
  g_autofree char *scratch = folder ? g_build_filename (folder, "demo.hingepin", NULL) : NULL;
  gboolean ok;

  if (folder == NULL)
    return FALSE;
  g_unlink (made);
  ok = write_book (demo, scratch, made, progress, data, cancellable, error) &&
       put_in_place (made, path, error);
  if (!ok)
    g_unlink (made);
  g_unlink (scratch);
  g_rmdir (folder);
  return ok;
}

gboolean
pin_demo_make (const char *path, PinLibrary *library, const char *today, PinProgress progress,
               gpointer data, GCancellable *cancellable, GError **error)
{
  Demo demo = { .library = library, .today = today ? g_strdup (today) : pin_today () };
  gboolean ok;

  pin_dice_seed (&demo.dice, SEED);
  ok = may_overwrite (path, error) && make (&demo, path, progress, data, cancellable, error);
  g_free (demo.today);
  return ok;
}
