#include "fixture.h"

#include <glib/gstdio.h>
#include <math.h>
#include <sqlite3.h>
#include <string.h>

#include "base/day.h"
#include "book/book-private.h"

/* The book as its users see it: opening, ids, writing, the thread. */

static void
assert_refused (const char *path, PinBookError code)
{
  g_autoptr (GError) error = NULL;
  PinBook *book = pin_book_open (path, FALSE, &error);

  g_assert_null (book);
  g_assert_error (error, PIN_BOOK_ERROR, (int) code);
}

static int
count_outings (PinBook *book, gint64 vehicle)
{
  PinVehicleRow *row = the_vehicle (book, vehicle);
  int n = (int) row->runs;

  pin_vehicle_row_free (row);
  return n;
}

/* --- opening ---------------------------------------------------------------- */

static void
test_create_and_open (Fixture *f, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  PinVehicleRow *row;

  g_assert_null (pin_book_create (f->path, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_EXISTS);
  pin_book_close (f->book);
  f->book = pin_book_open (f->path, FALSE, NULL);
  g_assert_nonnull (f->book);
  g_assert_cmpstr (pin_book_path (f->book), ==, f->path);
  row = the_vehicle (f->book, f->vehicle);
  g_assert_cmpstr (row->name, ==, "Blue buggy");
  g_assert_cmpstr (row->chassis_code, ==, "buggy");
  g_assert_null (row->state);
  g_assert_true (isnan (row->before_seconds));
  pin_vehicle_row_free (row);
}

static void
test_open_or_create (void)
{
  g_autofree char *folder = temp_folder ();
  g_autofree char *path = g_build_filename (folder, "deep", "er", "a.hingepin", NULL);
  g_autoptr (GError) error = NULL;
  PinBook *book = pin_book_open_or_create (path, &error);

  g_assert_no_error (error);
  pin_book_close (book);
  book = pin_book_open_or_create (path, &error);
  g_assert_no_error (error);
  pin_book_close (book);
  remove_folder (folder);
}

static void
test_default_paths (void)
{
  g_autofree char *own = pin_book_default_path (), *demo = pin_book_demo_path ();

  g_assert_true (g_str_has_prefix (own, g_get_user_data_dir ()));
  g_assert_true (g_str_has_suffix (own, "/hingepin/stable.hingepin"));
  g_assert_true (g_str_has_suffix (demo, "/hingepin/demo.hingepin"));
}

static void
test_missing (void)
{
  assert_refused ("/nowhere/at/all.hingepin", PIN_BOOK_ERROR_OPEN);
}

static void
test_read_only (Fixture *f, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PinBook) book = NULL;
  g_autoptr (PinBatch) batch = NULL;

  book = pin_book_open (f->path, TRUE, &error);
  g_assert_no_error (error);
  g_assert_true (pin_book_read_only (book));
  g_assert_false (pin_book_read_only (f->book));
  batch = pin_batch_new (book);
  pin_batch_part (batch, 0, "bearing", 0);
  g_assert_false (pin_book_commit (book, batch, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_READ_ONLY);
}

/* --- ids -------------------------------------------------------------------- */

static void
test_id_shape (void)
{
  gint64 epoch = G_GINT64_CONSTANT (1577836800000);
  gint64 id = pin_book_id_from (epoch + 1000, 0xffffffff, 0);

  g_assert_cmpint (id, ==, (G_GINT64_CONSTANT (1000) << 21) | 0x1fffff);
  g_assert_cmpint (pin_book_id_instant (id), ==, epoch + 1000);
  g_assert_cmpint (pin_book_id_from (epoch + 999, 0, id), ==, id + 1);
  g_assert_cmpint (pin_book_id_from (0, 0, 0), ==, 1);
  g_assert_cmpint (pin_book_id_from (G_MAXINT64, 0xffffffff, 0), ==, G_MAXINT64);
}

#define THREADS 4
#define IDS 5000

typedef struct
{
  PinBook *book;
  gint64 ids[IDS];
} Drawer;

static gpointer
draw_ids (gpointer data)
{
  Drawer *drawer = data;

  for (int i = 0; i < IDS; i++)
    drawer->ids[i] = pin_book_next_id (drawer->book);
  return NULL;
}

static void
test_ids_from_threads (Fixture *f, gconstpointer data)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_int64_hash, g_int64_equal);
  Drawer *drawers = g_new0 (Drawer, THREADS);
  GThread *threads[THREADS];

  for (int i = 0; i < THREADS; i++)
    {
      drawers[i].book = f->book;
      threads[i] = g_thread_new ("ids", draw_ids, &drawers[i]);
    }
  for (int i = 0; i < THREADS; i++)
    g_thread_join (threads[i]);
  for (int i = 0; i < THREADS; i++)
    for (int j = 0; j < IDS; j++)
      {
        g_assert_true (j == 0 || drawers[i].ids[j] > drawers[i].ids[j - 1]);
        g_assert_true (g_hash_table_add (seen, &drawers[i].ids[j]));
      }
  g_free (drawers);
}

/* A clock that was put back does not put ids back. */
static void
test_ids_after_reopening (Fixture *f, gconstpointer data)
{
  gint64 last = drive (f->book, f->vehicle, "2026-01-02", 0, 1);

  pin_book_close (f->book);
  f->book = pin_book_open (f->path, FALSE, NULL);
  pin_pretend_now (G_GINT64_CONSTANT (1577836800001));
  g_assert_cmpint (pin_book_next_id (f->book), ==, last + 1);
  pin_pretend_now (0);
}

/* --- writing ---------------------------------------------------------------- */

static void
test_all_or_nothing (Fixture *f, gconstpointer data)
{
  g_autoptr (PinBatch) batch = pin_batch_new (f->book);
  g_autoptr (GError) error = NULL;
  PinOuting good = an_outing (f->vehicle, "2026-01-02"), bad = good;

  good.runs = 1;
  bad.water = (char *) "moist";
  pin_batch_outing (batch, &good);
  pin_batch_outing (batch, &bad);
  g_assert_false (pin_batch_is_empty (batch));
  g_assert_false (pin_book_commit (f->book, batch, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_LAW);
  g_assert_cmpint (count_outings (f->book, f->vehicle), ==, 0);
  g_assert_cmpint (pin_book_kept_at (f->book), >, 0);
  assert_sound (f->book);
}

/* Rows may name rows that come later in the batch, but none that never come. */
static void
test_references (Fixture *f, gconstpointer data)
{
  g_autoptr (PinBatch) batch = pin_batch_new (f->book);
  g_autoptr (GError) error = NULL;
  PinFitting early = { .part = pin_book_next_id (f->book),
                       .place = f->place,
                       .day = (char *) "2026-01-02" };

  pin_batch_fitting (batch, &early);
  pin_batch_part (batch, early.part, "bearing", 0);
  g_assert_true (pin_book_commit (f->book, batch, &error));
  g_assert_no_error (error);
  early.part = 12345;
  pin_batch_free (batch);
  batch = pin_batch_new (f->book);
  pin_batch_fitting (batch, &early);
  g_assert_false (pin_book_commit (f->book, batch, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_LAW);
}

static void
test_no_such_day (Fixture *f, gconstpointer data)
{
  g_autoptr (PinBatch) batch = pin_batch_new (f->book);
  g_autoptr (GError) error = NULL;
  PinOuting row = an_outing (f->vehicle, "2026-02-30");

  pin_batch_outing (batch, &row);
  g_assert_false (pin_book_commit (f->book, batch, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_LAW);
  g_assert_nonnull (strstr (error->message, "2026-02-30"));
}

static void
test_wrong_checksum (Fixture *f, gconstpointer data)
{
  g_autoptr (PinBatch) batch = pin_batch_new (f->book);
  g_autoptr (GBytes) xml = g_bytes_new_static ("<a/>", 4);
  g_autofree char *other = g_compute_checksum_for_string (G_CHECKSUM_SHA256, "other", -1);
  g_autoptr (GError) error = NULL;

  pin_batch_source (batch, "kinds", "a", other, xml);
  g_assert_false (pin_book_commit (f->book, batch, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_LAW);
}

/* --- the file under us ------------------------------------------------------ */

static gboolean
try_to_write (Fixture *f, GError **error)
{
  g_autoptr (PinBatch) batch = pin_batch_new (f->book);
  PinOuting row = an_outing (f->vehicle, "2026-01-09");

  row.runs = 1;
  pin_batch_outing (batch, &row);
  return pin_book_commit (f->book, batch, error);
}

static void
put_back (const char *path, const char *data, gsize size)
{
  FILE *file = g_fopen (path, "r+b"); /* in place: the same inode */

  g_assert_nonnull (file);
  g_assert_cmpint (fwrite (data, 1, size, file), ==, size);
  fclose (file);
}

static void
test_rolled_back_file (Fixture *f, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *old = NULL, *after = NULL;
  gsize size, size_after;

  old = contents (f->path, &size);
  g_assert_true (try_to_write (f, NULL));
  put_back (f->path, old, size);
  g_assert_false (try_to_write (f, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_CHANGED);
  after = contents (f->path, &size_after);
  g_assert_cmpmem (after, size, old, size);
}

static void
test_replaced_file (Fixture *f, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *aside = g_strconcat (f->path, ".aside", NULL), *copy = NULL, *after = NULL;
  gsize size, size_after;

  copy = contents (f->path, &size);
  g_rename (f->path, aside);
  g_assert_false (try_to_write (f, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_CHANGED);
  g_clear_error (&error);
  g_file_set_contents (f->path, copy, size, NULL);
  g_assert_false (try_to_write (f, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_CHANGED);
  after = contents (f->path, &size_after);
  g_assert_cmpmem (after, size_after, copy, size);
}

/* What another program wrote in between is no reason to stop. */
static void
test_two_writers (Fixture *f, gconstpointer data)
{
  PinBook *other = pin_book_open (f->path, FALSE, NULL);

  drive (other, f->vehicle, "2026-01-02", 0, 1);
  drive (f->book, f->vehicle, "2026-01-03", 0, 1);
  drive (other, f->vehicle, "2026-01-04", 0, 1);
  pin_book_close (other);
  g_assert_cmpint (count_outings (f->book, f->vehicle), ==, 3);
  assert_sound (f->book);
}

static void
test_locked (Fixture *f, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  sqlite3 *other;

  pin_book_close (f->book);
  pin_db_set_patience (50);
  f->book = pin_book_open (f->path, FALSE, NULL);
  sqlite3_open (f->path, &other);
  g_assert_cmpint (sqlite3_exec (other, "BEGIN EXCLUSIVE", NULL, NULL, NULL), ==, SQLITE_OK);
  g_assert_false (try_to_write (f, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_LOCKED);
  assert_refused (f->path, PIN_BOOK_ERROR_LOCKED);
  sqlite3_exec (other, "ROLLBACK", NULL, NULL, NULL);
  /* A reader lets us prepare, but not finish. */
  sqlite3_exec (other, "BEGIN; SELECT * FROM book", NULL, NULL, NULL);
  g_clear_error (&error);
  g_assert_false (try_to_write (f, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_LOCKED);
  sqlite3_close (other);
  pin_db_set_patience (5000);
  g_assert_true (try_to_write (f, NULL));
}

/* --- the thread ------------------------------------------------------------- */

typedef struct
{
  Fixture *f;
  GMainLoop *loop;
  GThread *caller;
  int waiting, cancelled, freed;
  gint64 result;
} Async;

static Async *now;

static gpointer
where_am_i (PinDb *db, gpointer data, GError **error)
{
  return g_thread_self ();
}

static void
on_run (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;
  gpointer thread = pin_book_run_finish (now->f->book, result, &error);

  g_assert_true (g_thread_self () == now->caller);
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    now->cancelled++;
  else
    g_assert_true (thread != NULL && thread != now->caller);
  if (--now->waiting == 0)
    g_main_loop_quit (now->loop);
}

static void
on_commit (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (g_thread_self () == now->caller);
  g_assert_true (pin_book_commit_finish (now->f->book, result, &error));
  g_assert_no_error (error);
  if (--now->waiting == 0)
    g_main_loop_quit (now->loop);
}

static void
on_free (gpointer data)
{
  g_atomic_int_inc (&now->freed);
}

static void
test_async (Fixture *f, gconstpointer data)
{
  Async async = {
    .f = f, .loop = g_main_loop_new (NULL, FALSE), .caller = g_thread_self (), .waiting = 4
  };
  g_autoptr (GCancellable) cancelled = g_cancellable_new ();
  PinBatch *batch = pin_batch_new (f->book);
  PinOuting row = an_outing (f->vehicle, "2026-01-02");

  now = &async;
  g_cancellable_cancel (cancelled);
  row.runs = 1;
  pin_batch_outing (batch, &row);
  pin_book_run_async (f->book, where_am_i, &async, on_free, NULL, NULL, on_run, NULL);
  pin_book_commit_async (f->book, batch, NULL, on_commit, NULL);
  pin_book_run_async (f->book, where_am_i, &async, on_free, NULL, cancelled, on_run, NULL);
  batch = pin_batch_new (f->book);
  pin_batch_outing (batch, &row);
  pin_book_commit_async (f->book, batch, NULL, on_commit, NULL);
  g_main_loop_run (async.loop);
  g_assert_cmpint (async.cancelled, ==, 1);
  g_assert_cmpint (count_outings (f->book, f->vehicle), ==, 2);
  pin_book_close (g_steal_pointer (&f->book));
  g_assert_cmpint (async.freed, ==, 2);
  g_main_loop_unref (async.loop);
}

/* Closing waits for what was asked, and the answers still come. */
static void
test_close_with_work (Fixture *f, gconstpointer data)
{
  Async async = {
    .f = f, .loop = g_main_loop_new (NULL, FALSE), .caller = g_thread_self (), .waiting = 10
  };

  now = &async;
  for (int i = 0; i < 10; i++)
    {
      PinBatch *batch = pin_batch_new (f->book);
      PinOuting row = an_outing (f->vehicle, "2026-01-02");

      row.runs = 1;
      pin_batch_outing (batch, &row);
      pin_book_commit_async (f->book, batch, NULL, on_commit, NULL);
    }
  pin_book_close (f->book);
  f->book = NULL;
  g_main_loop_run (async.loop);
  f->book = pin_book_open (f->path, FALSE, NULL);
  g_assert_cmpint (count_outings (f->book, f->vehicle), ==, 10);
  g_main_loop_unref (async.loop);
}

/* A job may ask the book again without waiting for itself. */
static gpointer
ask_again (PinDb *db, gpointer data, GError **error)
{
  return pin_book_run (data, where_am_i, NULL, error);
}

static void
test_nested (Fixture *f, gconstpointer data)
{
  g_assert_nonnull (pin_book_run (f->book, ask_again, f->book, NULL));
}

#define ADD(path, test) \
  g_test_add ("/book/book/" path, Fixture, NULL, fixture_set_up, test, fixture_tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("create-and-open", test_create_and_open);
  g_test_add_func ("/book/book/open-or-create", test_open_or_create);
  g_test_add_func ("/book/book/default-paths", test_default_paths);
  g_test_add_func ("/book/book/missing", test_missing);
  ADD ("read-only", test_read_only);
  g_test_add_func ("/book/book/id-shape", test_id_shape);
  ADD ("ids-from-threads", test_ids_from_threads);
  ADD ("ids-after-reopening", test_ids_after_reopening);
  ADD ("all-or-nothing", test_all_or_nothing);
  ADD ("references", test_references);
  ADD ("no-such-day", test_no_such_day);
  ADD ("wrong-checksum", test_wrong_checksum);
  ADD ("rolled-back-file", test_rolled_back_file);
  ADD ("replaced-file", test_replaced_file);
  ADD ("two-writers", test_two_writers);
  ADD ("locked", test_locked);
  ADD ("async", test_async);
  ADD ("close-with-work", test_close_with_work);
  ADD ("nested", test_nested);
  return g_test_run ();
}
