#include "fixture.h"

#include <gio/gio.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/day.h"

/* A program killed in the middle of its work: every row that was acknowledged
 * is in the book, and the book is sound. */

#define ROUNDS 25

/* The other program: writes outings and says each id once it is durable. */
static int
write_for_ever (const char *path, gint64 vehicle)
{
  g_autoptr (PinBook) book = pin_book_open (path, FALSE, NULL);

  if (book == NULL)
    return 1;
  for (;;)
    {
      g_autoptr (PinBatch) batch = pin_batch_new (book);
      PinOuting row = an_outing (vehicle, "2026-01-05");
      gint64 id;

      row.seconds = 60;
      row.runs = 1;
      id = pin_batch_outing (batch, &row);
      if (!pin_book_commit (book, batch, NULL))
        return 2;
      printf ("%" G_GINT64_FORMAT "\n", id);
      fflush (stdout);
    }
}

static GSubprocess *
start (Fixture *f)
{
  g_autofree char *vehicle = g_strdup_printf ("%" G_GINT64_FORMAT, f->vehicle);
  g_autoptr (GError) error = NULL;
  GSubprocess *child = g_subprocess_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE, &error, "/proc/self/exe",
                                         "--write", f->path, vehicle, NULL);

  g_assert_no_error (error);
  return child;
}

/* Ids that the child had acknowledged before it was killed. */
static void
collect (GSubprocess *child, gulong patience, GHashTable *acknowledged)
{
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;

  g_usleep (patience);
  g_subprocess_send_signal (child, SIGKILL);
  g_assert_true (g_subprocess_communicate_utf8 (child, NULL, NULL, &text, NULL, NULL));
  g_assert_true (g_subprocess_get_if_signaled (child));
  lines = g_strsplit (text, "\n", -1);
  for (int i = 0; lines[i] != NULL && lines[i + 1] != NULL; i++) /* the last may be cut off */
    {
      gint64 id = g_ascii_strtoll (lines[i], NULL, 10);

      g_hash_table_add (acknowledged, g_memdup2 (&id, sizeof id));
    }
}

static gpointer
all_outings (PinDb *db, gpointer vehicle, GError **error)
{
  return pin_query_outings (db, *(gint64 *) vehicle, 0, error);
}

static void
assert_all_there (Fixture *f, GHashTable *acknowledged)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PinBook) book = pin_book_open (f->path, FALSE, &error);
  g_autoptr (GPtrArray) rows = NULL;
  guint found = 0;

  g_assert_no_error (error);
  assert_sound (book);
  rows = pin_book_run (book, all_outings, &f->vehicle, NULL);
  for (guint i = 0; i < rows->len; i++)
    found += g_hash_table_contains (acknowledged, &((PinOuting *) rows->pdata[i])->id);
  g_assert_cmpint (found, ==, g_hash_table_size (acknowledged));
}

static void
test_killed (Fixture *f, gconstpointer data)
{
  g_autoptr (GHashTable) acknowledged =
      g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  GRand *rand = g_rand_new_with_seed (9);

  pin_book_close (g_steal_pointer (&f->book));
  for (int i = 0; i < ROUNDS; i++)
    {
      g_autoptr (GSubprocess) child = start (f);

      collect (child, g_rand_int_range (rand, 40000, 120000), acknowledged);
      assert_all_there (f, acknowledged);
    }
  g_rand_free (rand);
  g_assert_cmpint (g_hash_table_size (acknowledged), >, ROUNDS);
}

/* Any other SQLite finds the file in order. */
static void
test_stock_shell (Fixture *f, gconstpointer data)
{
  g_autofree char *said = NULL;
  g_autoptr (GError) error = NULL;
  GSubprocess *shell;

  drive (f->book, f->vehicle, "2026-01-05", 0, 60);
  pin_book_close (g_steal_pointer (&f->book));
  shell = g_subprocess_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE, &error, "sqlite3", f->path,
                            "PRAGMA integrity_check; PRAGMA foreign_key_check; PRAGMA journal_mode;"
                            "PRAGMA user_version; SELECT count (*) FROM outing;",
                            NULL);
  g_assert_no_error (error);
  g_assert_true (g_subprocess_communicate_utf8 (shell, NULL, NULL, &said, NULL, &error));
  g_assert_cmpstr (said, ==, "ok\ndelete\n1\n1\n");
  g_object_unref (shell);
}

int
main (int argc, char **argv)
{
  if (argc == 4 && g_str_equal (argv[1], "--write"))
    return write_for_ever (argv[2], g_ascii_strtoll (argv[3], NULL, 10));
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/book/crash/killed", Fixture, NULL, fixture_set_up, test_killed, fixture_tear_down);
  g_test_add ("/book/crash/stock-shell", Fixture, NULL, fixture_set_up, test_stock_shell,
              fixture_tear_down);
  return g_test_run ();
}
