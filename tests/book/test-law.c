#include "fixture.h"

#include <sqlite3.h>
#include <string.h>

#include "book/book-private.h"

/* The law of the book: what is written stays written. */

static gpointer
attempt (PinDb *db, gpointer sql, GError **error)
{
  gboolean done = pin_db_begin (db, error) && pin_db_exec (db, sql, error);

  pin_db_rollback (db);
  return done ? db : NULL;
}

static void
assert_forbidden (PinBook *book, const char *sql)
{
  g_autoptr (GError) error = NULL;
  gpointer done = pin_book_run_bare (book, attempt, (gpointer) sql, &error);

  if (done != NULL)
    g_error ("the law lets this pass: %s", sql);
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_LAW);
}

static void
assert_allowed (PinBook *book, const char *sql)
{
  g_autoptr (GError) error = NULL;

  pin_book_run_bare (book, attempt, (gpointer) sql, &error);
  g_assert_no_error (error);
}

/* --- each table of facts ---------------------------------------------------- */

/* Every column name of @table, from the file itself. */
static gpointer
columns_of (PinDb *db, gpointer table, GError **error)
{
  g_autofree char *sql = g_strdup_printf ("PRAGMA table_info (%s)", (char *) table);
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, sql, error);
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);

  while (stmt != NULL && pin_stmt_next (stmt, error))
    g_ptr_array_add (names, g_strdup (pin_stmt_text (stmt, 1)));
  return names;
}

static void
test_facts_stay (Fixture *f, gconstpointer data)
{
  const char *const *facts = pin_law_facts ();

  g_assert_cmpint (g_strv_length ((char **) facts), ==, 22);
  for (int i = 0; facts[i] != NULL; i++)
    {
      g_autoptr (GPtrArray) columns = pin_book_run (f->book, columns_of, (gpointer) facts[i], NULL);
      g_autofree char *delete = g_strdup_printf ("DELETE FROM %s", facts[i]);
      g_autofree char *drop = g_strdup_printf ("DROP TABLE %s", facts[i]);
      g_autofree char *alter = g_strdup_printf ("ALTER TABLE %s ADD COLUMN more", facts[i]);

      g_assert_cmpint (columns->len, >, 1);
      for (guint j = 0; j < columns->len; j++)
        {
          const char *column = columns->pdata[j];
          g_autofree char *update =
              g_strdup_printf ("UPDATE %s SET %s = %s", facts[i], column, column);

          assert_forbidden (f->book, update);
        }
      assert_forbidden (f->book, delete);
      assert_forbidden (f->book, drop);
      assert_forbidden (f->book, alter);
    }
}

/* Without the authorizer, in a program that knows nothing of us. */
static void
test_triggers_stay (Fixture *f, gconstpointer data)
{
  const char *const *facts = pin_law_facts ();
  sqlite3 *plain;

  sqlite3_open (f->path, &plain);
  for (int i = 0; facts[i] != NULL; i++)
    {
      static const char *const tails[] = { "fixed", "stays" };

      for (gsize j = 0; j < G_N_ELEMENTS (tails); j++)
        {
          g_autofree char *drop =
              g_strdup_printf ("BEGIN; DROP TRIGGER %s_%s; ROLLBACK", facts[i], tails[j]);

          g_assert_cmpint (sqlite3_exec (plain, drop, NULL, NULL, NULL), ==, SQLITE_OK);
        }
    }
  g_assert_cmpint (sqlite3_exec (plain, "DELETE FROM part", NULL, NULL, NULL), ==,
                   SQLITE_CONSTRAINT);
  g_assert_cmpint (sqlite3_exec (plain, "UPDATE fitting SET day = '2020-01-01'", NULL, NULL, NULL),
                   ==, SQLITE_CONSTRAINT);
  sqlite3_close (plain);
}

static void
test_other_ways (Fixture *f, gconstpointer data)
{
  static const char *const forbidden[] = {
    "INSERT OR REPLACE INTO part (id, kind) SELECT id, 'shock' FROM part",
    "INSERT OR REPLACE INTO trait (id, thing, code, day, origin) "
    "SELECT id, thing, code, day, 'owner' FROM trait",
    "UPDATE OR REPLACE trait SET live = 0",
    "INSERT INTO trait (id, thing, code, day, origin) "
    "SELECT id, thing, code, day, 'owner' FROM trait "
    "WHERE true ON CONFLICT (id) DO UPDATE SET text = 'x'",
    "CREATE TABLE mine (a)",
    "CREATE TEMP TABLE mine (a)",
    "CREATE INDEX mine ON part (kind)",
    "CREATE VIEW mine AS SELECT 1",
    "CREATE TRIGGER mine AFTER INSERT ON part BEGIN DELETE FROM mark; END",
    "CREATE TEMP TRIGGER mine AFTER INSERT ON part BEGIN DELETE FROM mark; END",
    "CREATE VIRTUAL TABLE mine USING fts5 (a)",
    "DROP TRIGGER part_stays",
    "DROP INDEX fitting_of",
    "ATTACH ':memory:' AS more",
    "PRAGMA user_version = 9",
    "PRAGMA application_id = 9",
    "PRAGMA writable_schema = ON",
    "PRAGMA journal_mode = WAL",
    "PRAGMA foreign_keys = OFF",
    "PRAGMA ignore_check_constraints = ON",
    "PRAGMA recursive_triggers = OFF",
    "PRAGMA synchronous = OFF",
    "REINDEX",
    "ANALYZE",
    "UPDATE book SET uuid = 'x'",
    "UPDATE book SET copy = 'x'",
    "DELETE FROM book",
    "INSERT INTO book VALUES (2, 'x', 'x', 0)",
  };
  static const char *const impossible[] = { /* SQLite's own law */
    "DELETE FROM sqlite_schema",
    "UPDATE sqlite_schema SET sql = ''",
    "INSERT INTO sqlite_schema VALUES ('table', 'a', 'a', 0, '')",
    "SELECT load_extension ('x')",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (forbidden); i++)
    assert_forbidden (f->book, forbidden[i]);
  for (gsize i = 0; i < G_N_ELEMENTS (impossible); i++)
    g_assert_null (pin_book_run_bare (f->book, attempt, (gpointer) impossible[i], NULL));
  assert_sound (f->book);
}

static void
test_free_tables (Fixture *f, gconstpointer data)
{
  assert_allowed (f->book,
                  "DELETE FROM meter; DELETE FROM standing; DELETE FROM mark; DELETE FROM draft");
  assert_allowed (f->book, "UPDATE meter SET runs = 1; UPDATE standing SET runs = 1");
  assert_allowed (f->book, "UPDATE book SET generation = generation + 1");
  assert_sound (f->book);
}

/* --- corrections ------------------------------------------------------------ */

static int
live_works (PinBook *book, gint64 thing)
{
  g_autoptr (GPtrArray) rows = NULL;
  gint64 id = thing;

  rows = ask (book, pin_query_works_of, id);
  return rows->len;
}

static gint64
correct (Fixture *f, gint64 replaces, gboolean is_void)
{
  PinBatch *batch = pin_batch_new (f->book);
  PinWork row = { .thing = f->part,
                  .deed = (char *) "greased",
                  .day = (char *) "2026-01-02",
                  .cost = -1,
                  .replaces = replaces,
                  .is_void = is_void };
  gint64 id = pin_batch_work (batch, &row);

  commit (f->book, batch);
  return id;
}

static void
test_corrections (Fixture *f, gconstpointer data)
{
  gint64 first = do_work (f->book, f->part, "oiled", "2026-01-02", 0), second;
  g_autoptr (GPtrArray) rows = NULL;

  second = correct (f, first, FALSE);
  rows = ask (f->book, pin_query_works_of, f->part);
  g_assert_cmpint (rows->len, ==, 1);
  g_assert_cmpstr (((PinWork *) rows->pdata[0])->deed, ==, "greased");
  g_assert_cmpint (((PinWork *) rows->pdata[0])->replaces, ==, first);
  correct (f, second, TRUE);
  g_assert_cmpint (live_works (f->book, f->part), ==, 0);
  assert_sound (f->book);
}

/* Nobody corrects the future, and a withdrawal names what it withdraws. */
static void
test_bad_corrections (Fixture *f, gconstpointer data)
{
  gint64 ids[] = { 0, pin_book_next_id (f->book) };

  for (gsize i = 0; i < G_N_ELEMENTS (ids); i++)
    {
      g_autoptr (PinBatch) batch = pin_batch_new (f->book);
      g_autoptr (GError) error = NULL;
      PinWork row = { .id = ids[1],
                      .thing = f->part,
                      .deed = (char *) "oiled",
                      .day = (char *) "2026-01-02",
                      .cost = -1,
                      .replaces = ids[i],
                      .is_void = TRUE };

      pin_batch_work (batch, &row);
      g_assert_false (pin_book_commit (f->book, batch, &error));
      g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_LAW);
    }
}

/* An imported outing keeps its origin when it is corrected. */
static void
test_origin_kept (Fixture *f, gconstpointer data)
{
  PinOuting row = an_outing (f->vehicle, "2026-01-02");
  PinBatch *batch = pin_batch_new (f->book);
  g_autoptr (GError) error = NULL;

  row.origin = (char *) "hash-of-line-7";
  row.replaces = pin_batch_outing (batch, &row);
  pin_batch_outing (batch, &row);
  commit (f->book, batch);
  batch = pin_batch_new (f->book);
  row.replaces = 0;
  pin_batch_outing (batch, &row);
  g_assert_false (pin_book_commit (f->book, batch, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_LAW);
  pin_batch_free (batch);
}

#define ADD(path, test) \
  g_test_add ("/book/law/" path, Fixture, NULL, fixture_set_up, test, fixture_tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("facts-stay", test_facts_stay);
  ADD ("triggers-stay", test_triggers_stay);
  ADD ("other-ways", test_other_ways);
  ADD ("free-tables", test_free_tables);
  ADD ("corrections", test_corrections);
  ADD ("bad-corrections", test_bad_corrections);
  ADD ("origin-kept", test_origin_kept);
  return g_test_run ();
}
