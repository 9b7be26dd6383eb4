#include "fixture.h"

#include <string.h>

#include "book/migrate.h"

/* How a book of an older version would come to a newer one; the steps here are
 * made up. */

static gboolean
add_a_column (PinDb *db, GError **error)
{
  return pin_db_exec (db, "ALTER TABLE supply ADD COLUMN shop TEXT", error);
}

static gboolean
add_a_table (PinDb *db, GError **error)
{
  return pin_db_exec (db, "CREATE TABLE shop (id INTEGER PRIMARY KEY) STRICT", error);
}

static gboolean
fail_half_way (PinDb *db, GError **error)
{
  return pin_db_exec (db, "ALTER TABLE supply ADD COLUMN shop TEXT; DROP TABLE kept", error) &&
         pin_db_exec (db, "INSERT INTO nowhere VALUES (1)", error);
}

static PinDb *
connect_to (const char *path)
{
  g_autoptr (GError) error = NULL;
  PinDb *db = pin_db_connect (path, SQLITE_OPEN_READWRITE, &error);

  g_assert_no_error (error);
  return db;
}

static gint64
number (PinDb *db, const char *sql)
{
  g_autoptr (GError) error = NULL;
  gint64 value;

  pin_db_int (db, sql, 0, &value, &error);
  g_assert_no_error (error);
  return value;
}

static char *
backup_of (Fixture *f, const char *name)
{
  return g_build_filename (f->folder, name, NULL);
}

static void
test_steps (Fixture *f, gconstpointer data)
{
  static const PinMigration steps[] = { { 1, fail_half_way },
                                        { 2, add_a_column },
                                        { 3, add_a_table } };
  g_autofree char *before = backup_of (f, "stable.before-v3.hingepin");
  g_autoptr (GError) error = NULL;
  PinDb *db;
  PinBook *copy;

  pin_book_close (g_steal_pointer (&f->book));
  db = connect_to (f->path);
  g_assert_true (pin_migrate_with (db, steps, G_N_ELEMENTS (steps), &error));
  g_assert_no_error (error);
  g_assert_cmpint (number (db, "PRAGMA user_version"), ==, 3);
  g_assert_cmpint (number (db, "SELECT count (shop) FROM supply"), ==, 0);
  g_assert_cmpint (number (db, "SELECT count (*) FROM shop"), ==, 0);
  g_assert_cmpint (number (db, "SELECT count (*) FROM fitting"), ==, 1);
  /* The law holds again. */
  g_assert_false (pin_db_exec (db, "DROP TABLE shop", NULL));
  pin_db_close (db);
  copy = pin_book_open (before, FALSE, &error);
  g_assert_no_error (error);
  assert_sound (copy);
  pin_book_close (copy);
  g_assert_null (pin_book_open (f->path, FALSE, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_NEWER);
}

static void
test_failing_step (Fixture *f, gconstpointer data)
{
  static const PinMigration steps[] = { { 2, add_a_table }, { 3, fail_half_way } };
  g_autoptr (GError) error = NULL;
  PinDb *db;

  pin_book_close (g_steal_pointer (&f->book));
  db = connect_to (f->path);
  g_assert_false (pin_migrate_with (db, steps, G_N_ELEMENTS (steps), &error));
  g_assert_nonnull (error);
  g_assert_cmpint (number (db, "PRAGMA user_version"), ==, 2); /* the step before it stays */
  g_assert_cmpint (number (db, "SELECT count (*) FROM kept"), ==, 0);
  g_assert_cmpint (
      number (db,
              "SELECT count (*) FROM sqlite_schema WHERE name = 'supply' AND sql LIKE '%shop%'"),
      ==, 0);
  pin_db_close (db);
}

static void
test_only_step_fails (Fixture *f, gconstpointer data)
{
  static const PinMigration steps[] = { { 2, fail_half_way } };
  g_autofree char *before = backup_of (f, "stable.before-v2.hingepin");
  g_autofree char *second = backup_of (f, "stable.before-v2-2.hingepin");
  g_autofree char *old = NULL, *after = NULL;
  gsize size, size_after;

  old = contents (f->path, &size);
  for (int i = 0; i < 2; i++)
    {
      PinDb *db;

      g_clear_pointer (&f->book, pin_book_close);
      db = connect_to (f->path);
      g_assert_false (pin_migrate_with (db, steps, G_N_ELEMENTS (steps), NULL));
      pin_db_close (db);
      after = contents (f->path, &size_after);
      g_assert_cmpmem (after, size_after, old, size);
      g_clear_pointer (&after, g_free);
    }
  g_assert_true (g_file_test (before, G_FILE_TEST_EXISTS)); /* no copy is overwritten */
  g_assert_true (g_file_test (second, G_FILE_TEST_EXISTS));
  f->book = pin_book_open (f->path, FALSE, NULL);
  assert_sound (f->book);
}

#define ADD(path, test) \
  g_test_add ("/book/migrate/" path, Fixture, NULL, fixture_set_up, test, fixture_tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("steps", test_steps);
  ADD ("failing-step", test_failing_step);
  ADD ("only-step-fails", test_only_step_fails);
  return g_test_run ();
}
