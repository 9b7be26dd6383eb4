#include "fixture.h"

#include <sqlite3.h>
#include <string.h>

/* Books as each version of the program has written them have to open, and to
 * become what a new book is, for as long as there is a program. */

/* Version 1 is frozen: a change of the schema needs version 2, which is a step
 * in src/book/migrate.c and a fixture beside this one. */
#define SCHEMA_1 "92d3763d1ef71f454c75efaeae7e70ed25f65bbcdc0a619edc4f95f6b9fd7436"

static char *
fixtures_folder (void)
{
  return g_build_filename (g_getenv ("PIN_SOURCE_ROOT"), "tests", "book", "fixtures", NULL);
}

/* ---- What stands in a file, read without any code of the book ---- */

static sqlite3 *
open_plain (const char *path)
{
  sqlite3 *db = NULL;

  g_assert_cmpint (sqlite3_open_v2 (path, &db, SQLITE_OPEN_READONLY, NULL), ==, SQLITE_OK);
  return db;
}

static sqlite3_stmt *
prepare (sqlite3 *db, const char *sql)
{
  sqlite3_stmt *statement = NULL;

  if (sqlite3_prepare_v2 (db, sql, -1, &statement, NULL) != SQLITE_OK)
    g_error ("%s: %s", sql, sqlite3_errmsg (db));
  return statement;
}

/* Without remarks, and with one space where there is any or might be. */
static char *
normal (const char *sql)
{
  g_autoptr (GRegex) remarks = g_regex_new ("--[^\n]*", 0, 0, NULL);
  g_autoptr (GRegex) points = g_regex_new ("\\s*([(),;=<>])\\s*", 0, 0, NULL);
  g_autoptr (GRegex) spaces = g_regex_new ("\\s+", 0, 0, NULL);
  g_autofree char *bare = g_regex_replace_literal (remarks, sql, -1, 0, "", 0, NULL);
  g_autofree char *close = g_regex_replace (points, bare, -1, 0, "\\1", 0, NULL);

  return g_strstrip (g_regex_replace_literal (spaces, close, -1, 0, " ", 0, NULL));
}

/* One line for each table, index and trigger. */
static char *
schema_of (const char *path)
{
  GString *text = g_string_new (NULL);
  sqlite3 *db = open_plain (path);
  sqlite3_stmt *rows = prepare (db, "SELECT type, name, tbl_name, coalesce (sql, '')"
                                    " FROM sqlite_schema ORDER BY type, name");

  while (sqlite3_step (rows) == SQLITE_ROW)
    {
      g_autofree char *sql = normal ((const char *) sqlite3_column_text (rows, 3));

      g_string_append_printf (text, "%s %s on %s: %s\n", sqlite3_column_text (rows, 0),
                              sqlite3_column_text (rows, 1), sqlite3_column_text (rows, 2), sql);
    }
  sqlite3_finalize (rows);
  sqlite3_close (db);
  return g_string_free (text, FALSE);
}

static gint64
number (sqlite3 *db, const char *sql)
{
  sqlite3_stmt *statement = prepare (db, sql);
  gint64 value;

  g_assert_cmpint (sqlite3_step (statement), ==, SQLITE_ROW);
  value = sqlite3_column_int64 (statement, 0);
  sqlite3_finalize (statement);
  return value;
}

static GPtrArray *
tables_of (sqlite3 *db)
{
  GPtrArray *tables = g_ptr_array_new_with_free_func (g_free);
  sqlite3_stmt *rows = prepare (db, "SELECT name FROM sqlite_schema WHERE type = 'table'");

  while (sqlite3_step (rows) == SQLITE_ROW)
    g_ptr_array_add (tables, g_strdup ((const char *) sqlite3_column_text (rows, 0)));
  sqlite3_finalize (rows);
  return tables;
}

static gint64
rows_in (sqlite3 *db, const char *table)
{
  g_autofree char *sql = g_strdup_printf ("SELECT count (*) FROM \"%s\"", table);

  return number (db, sql);
}

/* Every table of the old book has as many rows as before; returns them all. */
static gint64
assert_same_counts (const char *before, const char *after)
{
  sqlite3 *old = open_plain (before), *new = open_plain (after);
  g_autoptr (GPtrArray) tables = tables_of (old);
  gint64 all = 0;

  g_assert_cmpuint (tables->len, >=, 28);
  for (guint i = 0; i < tables->len; i++)
    {
      const char *table = tables->pdata[i];

      g_test_message ("%s: %" G_GINT64_FORMAT, table, rows_in (old, table));
      g_assert_cmpint (rows_in (old, table), ==, rows_in (new, table));
      /* The newest copy made is no fact, and none has been made of a fixture. */
      if (!g_str_equal (table, "kept"))
        g_assert_cmpint (rows_in (old, table), >, 0);
      all += rows_in (old, table);
    }
  sqlite3_close (old);
  sqlite3_close (new);
  return all;
}

/* Another program, which knows only what the file says of itself. */
static void
assert_shell_says_ok (const char *path)
{
  const char *argv[] = { "sqlite3", "-readonly", path,
                         "PRAGMA integrity_check; PRAGMA foreign_key_check;", NULL };
  g_autofree char *said = NULL, *complained = NULL;
  g_autoptr (GError) error = NULL;
  int status = -1;

  g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &said, &complained,
                &status, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (complained, ==, "");
  g_assert_cmpstr (said, ==, "ok\n");
  g_assert_cmpint (status, ==, 0);
}

/* ---- One fixture ---- */

static char *
copied (const char *folder, const char *from)
{
  char *to = g_build_filename (folder, "old.hingepin", NULL);
  gsize size = 0;
  g_autofree char *bytes = contents (from, &size);
  g_autoptr (GError) error = NULL;

  g_file_set_contents (to, bytes, (gssize) size, &error);
  g_assert_no_error (error);
  return to;
}

static char *
fresh (const char *folder)
{
  char *path = g_build_filename (folder, "fresh.hingepin", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (PinBook) book = pin_book_create (path, &error);

  g_assert_no_error (error);
  return path;
}

static void
test_fixture (gconstpointer from)
{
  g_autofree char *folder = temp_folder (), *path = copied (folder, from), *new = fresh (folder);
  g_autofree char *expected = schema_of (new), *schema = NULL;
  g_autoptr (GError) error = NULL;
  PinBook *book;

  assert_shell_says_ok (path);
  book = pin_book_open (path, FALSE, &error);
  g_assert_no_error (error);
  assert_sound (book);
  pin_book_close (book);
  schema = schema_of (path);
  g_assert_cmpstr (schema, ==, expected);
  g_assert_nonnull (strstr (schema, "trigger answer_fixed on answer"));
  assert_shell_says_ok (path);
  g_assert_cmpint (assert_same_counts (from, path), >, 1000);
  remove_folder (folder);
}

/* Also from where nothing can be written. */
static void
test_read_only (gconstpointer from)
{
  g_autoptr (GError) error = NULL;
  gsize size = 0, size_after = 0;
  g_autofree char *before = contents (from, &size), *after = NULL;
  PinBook *book = pin_book_open (from, TRUE, &error);

  g_assert_no_error (error);
  assert_sound (book);
  pin_book_close (book);
  after = contents (from, &size_after);
  g_assert_cmpmem (before, size, after, size_after);
}

/* ---- The text of the schema ---- */

static void
test_frozen (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("PIN_SOURCE_ROOT"), "src", "book",
                                            "schema-v1.sql", NULL);
  gsize size = 0;
  g_autofree char *text = contents (path, &size);
  g_autofree char *sha = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (guchar *) text, size);

  if (!g_str_equal (sha, SCHEMA_1))
    g_test_message ("version 1 of the schema is frozen: a change needs version 2");
  g_assert_cmpstr (sha, ==, SCHEMA_1);
}

/* The comparison itself: what is written otherwise is the same, what is otherwise is not. */
static void
test_normal (void)
{
  g_autofree char *one = normal ("CREATE TABLE a (  -- remark\n  b TEXT,\n  c CHECK (c IN ('x', 'y')))");
  g_autofree char *two = normal ("CREATE TABLE a(b TEXT, c CHECK (c IN ('x','y')))");
  g_autofree char *three = normal ("CREATE TABLE a(b TEXT, c CHECK (c IN ('x','z')))");

  g_assert_cmpstr (one, ==, two);
  g_assert_cmpstr (one, !=, three);
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

static GPtrArray *
all_fixtures (void)
{
  GPtrArray *paths = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *folder = fixtures_folder ();
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".hingepin"))
      g_ptr_array_add (paths, g_build_filename (folder, name, NULL));
  g_ptr_array_sort (paths, by_name);
  return paths;
}

int
main (int argc, char *argv[])
{
  g_autoptr (GPtrArray) fixtures = all_fixtures ();

  g_test_init (&argc, &argv, NULL);
  g_assert_cmpuint (fixtures->len, >, 0);
  g_test_add_func ("/fixture/frozen", test_frozen);
  g_test_add_func ("/fixture/normal", test_normal);
  for (guint i = 0; i < fixtures->len; i++)
    {
      g_autofree char *name = g_path_get_basename (fixtures->pdata[i]);
      g_autofree char *opens = g_strconcat ("/fixture/opens/", name, NULL);
      g_autofree char *reads = g_strconcat ("/fixture/read-only/", name, NULL);

      g_test_add_data_func (opens, fixtures->pdata[i], test_fixture);
      g_test_add_data_func (reads, fixtures->pdata[i], test_read_only);
    }
  return g_test_run ();
}
