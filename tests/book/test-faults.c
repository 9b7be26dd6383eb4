#include "fixture.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "book/db-private.h"
#include "fault-vfs.h"

/* The disk fails at the first, second, third … call of each kind, until it is
 * asked no more.  Whatever happened, the file then holds the state before or
 * the state after, never something between. */

typedef struct
{
  const char *name;
  FaultKind kind;
  int rc;
  PinBookError expected; /* what the first failing call is told as */
} Fault;

static const Fault faults[] = {
  { "write-full", FAULT_WRITE, SQLITE_FULL, PIN_BOOK_ERROR_FULL },
  { "write-error", FAULT_WRITE, SQLITE_IOERR_WRITE, PIN_BOOK_ERROR_FAILED },
  { "write-read-only", FAULT_WRITE, SQLITE_READONLY, PIN_BOOK_ERROR_READ_ONLY },
  { "sync-error", FAULT_SYNC, SQLITE_IOERR_FSYNC, PIN_BOOK_ERROR_FAILED },
  { "truncate-error", FAULT_TRUNCATE, SQLITE_IOERR_TRUNCATE, PIN_BOOK_ERROR_FAILED },
  { "delete-error", FAULT_DELETE, SQLITE_IOERR_DELETE, PIN_BOOK_ERROR_FAILED },
  { "open-refused", FAULT_OPEN, SQLITE_CANTOPEN, PIN_BOOK_ERROR_OPEN },
  { "open-read-only", FAULT_OPEN, SQLITE_READONLY_DIRECTORY, PIN_BOOK_ERROR_READ_ONLY },
  { "lock-busy", FAULT_LOCK, SQLITE_BUSY, PIN_BOOK_ERROR_LOCKED },
  { "read-error", FAULT_READ, SQLITE_IOERR_READ, PIN_BOOK_ERROR_FAILED },
};

/* Far more calls than one commit makes. */
#define MOST 400

/* Opening looks at every page; @prove reckons everything as well. */
static double
runs_in (const char *path, gint64 vehicle, gboolean prove)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PinBook) book = NULL;
  PinVehicleRow *row;
  double runs;

  pin_db_set_vfs (NULL);
  book = pin_book_open (path, FALSE, &error);
  g_assert_no_error (error);
  if (prove)
    assert_sound (book);
  row = the_vehicle (book, vehicle);
  runs = row->runs;
  pin_vehicle_row_free (row);
  return runs;
}

/* Something of everything, so that many pages change. */
static PinBatch *
big_batch (Fixture *f, PinBook *book)
{
  PinBatch *batch = pin_batch_new (book);
  PinOuting outing = an_outing (f->vehicle, "2026-01-05");
  PinWork work = {
    .thing = f->part, .deed = (char *) "oiled", .day = (char *) "2026-01-06", .cost = -1
  };
  g_autofree char *noise = g_malloc0 (9000);
  g_autoptr (GBytes) jpeg = g_bytes_new (noise, 9000);
  PinPhoto photo = { .of = f->part, .jpeg = jpeg, .day = (char *) "2026-01-06" };

  outing.runs = 1;
  pin_batch_outing (batch, &outing);
  pin_batch_work (batch, &work);
  pin_batch_photo (batch, &photo);
  return batch;
}

/* FALSE once the fault is not reached any more. */
static gboolean
commit_with (Fixture *f, const Fault *fault, int nth, gboolean sticky)
{
  g_autoptr (GError) error = NULL;
  double before = runs_in (f->path, f->vehicle, FALSE), after;
  g_autoptr (PinBatch) batch = NULL;
  gboolean done, hit;
  PinBook *book;

  pin_db_set_vfs ("fault");
  book = pin_book_open (f->path, FALSE, &error);
  g_assert_no_error (error);
  batch = big_batch (f, book);
  fault_vfs_arm (fault->kind, nth, fault->rc, sticky);
  done = pin_book_commit (book, batch, &error);
  if (sticky) /* the disk stays away while the book is closed */
    g_clear_pointer (&book, pin_book_close);
  hit = fault_vfs_disarm ();
  g_clear_pointer (&book, pin_book_close);
  g_assert_true (done == (error == NULL));
  if (!hit && !done)
    g_error ("call %d did not fail, and yet: %s", nth, error->message);
  after = runs_in (f->path, f->vehicle, TRUE);
  g_assert_true (after == before || after == before + 1);
  g_assert_true (!done || after == before + 1);
  if (!done)
    {
      g_assert_true (error->domain == PIN_BOOK_ERROR);
      g_assert_nonnull (strstr (error->message, f->path));
      if (after == before && nth == 1)
        g_assert_cmpint (error->code, ==, fault->expected);
    }
  return hit;
}

static void
test_commit (Fixture *f, gconstpointer data)
{
  const Fault *fault = data;

  g_clear_pointer (&f->book, pin_book_close);
  pin_db_set_patience (20);
  for (int sticky = 0; sticky < 2; sticky++)
    {
      int nth = 1;

      while (commit_with (f, fault, nth, sticky))
        g_assert_cmpint (++nth, <, MOST);
      if (fault->kind != FAULT_TRUNCATE) /* a commit cuts nothing off */
        g_assert_cmpint (nth, >, 1);
    }
  pin_db_set_patience (5000);
}

/* Making a book: complete, or not there at all. */
static void
test_create (Fixture *f, gconstpointer data)
{
  const Fault *fault = data;
  g_autofree char *path = g_build_filename (f->folder, "new", "made.hingepin", NULL);
  g_autofree char *folder = g_path_get_dirname (path);
  gboolean hit = TRUE;

  pin_db_set_patience (20);
  for (int nth = 1; hit; nth++)
    {
      g_autoptr (GError) error = NULL;
      PinBook *book;

      g_assert_cmpint (nth, <, MOST);
      pin_db_set_vfs ("fault");
      fault_vfs_arm (fault->kind, nth, fault->rc, FALSE);
      book = pin_book_create (path, &error);
      hit = fault_vfs_disarm ();
      g_assert_true ((book == NULL) == (error != NULL));
      pin_book_close (book);
      pin_db_set_vfs (NULL);
      if (g_file_test (path, G_FILE_TEST_EXISTS))
        {
          book = pin_book_open (path, FALSE, &error);
          g_assert_nonnull (book);
          if (!hit)
            assert_sound (book);
          pin_book_close (book);
        }
      remove_folder (folder);
    }
  pin_db_set_patience (5000);
}

/* A backup: checked and complete, or the older one is still there. */
static void
test_backup (Fixture *f, gconstpointer data)
{
  const Fault *fault = data;
  g_autofree char *to = g_build_filename (f->folder, "copy.hingepin", NULL);
  gboolean hit = TRUE;
  int nth = 1;

  pin_db_set_patience (20);
  g_assert_true (pin_book_backup (f->book, to, NULL, NULL, NULL, NULL));
  drive (f->book, f->vehicle, "2026-01-05", 0, 60);
  pin_book_close (g_steal_pointer (&f->book));
  for (; hit; nth++)
    {
      g_autoptr (GError) error = NULL;
      gboolean done;
      PinBook *book;
      double runs;

      g_assert_cmpint (nth, <, MOST);
      pin_db_set_vfs ("fault");
      book = pin_book_open (f->path, FALSE, &error);
      g_assert_no_error (error);
      fault_vfs_arm (fault->kind, nth, fault->rc, FALSE);
      done = pin_book_backup (book, to, NULL, NULL, NULL, &error);
      hit = fault_vfs_disarm ();
      pin_book_close (book);
      g_assert_true (done == (error == NULL));
      runs = runs_in (to, f->vehicle, FALSE);
      g_assert_true (done ? runs == 1 : runs == 0 || runs == 1);
    }
  g_assert_cmpfloat (runs_in (to, f->vehicle, TRUE), ==, 1);
  g_assert_cmpfloat (runs_in (f->path, f->vehicle, TRUE), ==, 1);
  g_assert_true (fault->kind == FAULT_TRUNCATE || nth > 2);
  pin_db_set_patience (5000);
}

static void
fault_set_up (Fixture *f, gconstpointer data)
{
  pin_db_set_vfs (NULL);
  fixture_set_up (f, data);
}

static void
fault_tear_down (Fixture *f, gconstpointer data)
{
  pin_db_set_vfs (NULL);
  fixture_tear_down (f, data);
}

static void
add (const char *what, const Fault *fault, void (*test) (Fixture *, gconstpointer))
{
  g_autofree char *path = g_strdup_printf ("/book/faults/%s/%s", what, fault->name);

  g_test_add (path, Fixture, fault, fault_set_up, test, fault_tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  fault_vfs_install ();
  for (gsize i = 0; i < G_N_ELEMENTS (faults); i++)
    {
      add ("commit", &faults[i], test_commit);
      add ("create", &faults[i], test_create);
      add ("backup", &faults[i], test_backup);
    }
  return g_test_run ();
}
