#include "fixture.h"

#include <glib/gstdio.h>
#include <sqlite3.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "book/book-private.h"

/* Files that are no book, a newer book, or a damaged one: told apart with a
 * clear word, and left as they are. */

static void
assert_untouched (const char *path, const char *data, gsize size)
{
  gsize size_now;
  g_autofree char *now = contents (path, &size_now);

  g_assert_cmpmem (now, size_now, data, size);
}

static void
assert_refused (const char *path, PinBookError code)
{
  for (int read_only = 0; read_only < 2; read_only++)
    {
      g_autoptr (GError) error = NULL;
      PinBook *book = pin_book_open (path, read_only, &error);

      g_assert_null (book);
      g_assert_error (error, PIN_BOOK_ERROR, (int) code);
      g_assert_nonnull (strstr (error->message, path));
    }
}

static void
assert_file_refused (Fixture *f, const char *data, gsize size, PinBookError code)
{
  g_autofree char *path = g_build_filename (f->folder, "other.hingepin", NULL);
  g_autofree char *journal = g_strconcat (path, "-journal", NULL);

  g_assert_true (g_file_set_contents (path, data, size, NULL));
  assert_refused (path, code);
  assert_untouched (path, data, size);
  g_assert_false (g_file_test (journal, G_FILE_TEST_EXISTS));
}

static void
test_text_files (Fixture *f, gconstpointer data)
{
  g_autofree char *zeroes = g_malloc0 (20000);

  assert_file_refused (f, "", 0, PIN_BOOK_ERROR_NOT_A_BOOK);
  assert_file_refused (f, "x", 1, PIN_BOOK_ERROR_NOT_A_BOOK);
  assert_file_refused (f, "A shopping list: bearings, grease, and so on and so forth.\n", 59,
                       PIN_BOOK_ERROR_NOT_A_BOOK);
  assert_file_refused (f, zeroes, 20000, PIN_BOOK_ERROR_NOT_A_BOOK);
}

static void
test_not_files (Fixture *f, gconstpointer data)
{
  g_autofree char *pipe = g_build_filename (f->folder, "pipe.hingepin", NULL);
  g_autofree char *dangling = g_build_filename (f->folder, "dangling.hingepin", NULL);

  assert_refused (f->folder, PIN_BOOK_ERROR_NOT_A_BOOK);
  g_assert_cmpint (mkfifo (pipe, 0600), ==, 0);
  assert_refused (pipe, PIN_BOOK_ERROR_NOT_A_BOOK);
  assert_refused ("/dev/null", PIN_BOOK_ERROR_NOT_A_BOOK);
  g_assert_cmpint (symlink ("nowhere", dangling), ==, 0);
  assert_refused (dangling, PIN_BOOK_ERROR_OPEN);
  g_assert_null (pin_book_create (dangling, NULL));
}

static char *
make_database (Fixture *f, const char *sql, gsize *size)
{
  g_autofree char *path = g_build_filename (f->folder, "made.db", NULL);
  char *data;
  sqlite3 *db;

  g_unlink (path);
  sqlite3_open (path, &db);
  g_assert_cmpint (sqlite3_exec (db, sql, NULL, NULL, NULL), ==, SQLITE_OK);
  sqlite3_close (db);
  data = contents (path, size);
  return data;
}

static void
test_other_databases (Fixture *f, gconstpointer data)
{
  gsize size;
  g_autofree char *plain = make_database (f, "CREATE TABLE a (b)", &size), *marked = NULL,
                  *bare = NULL;

  assert_file_refused (f, plain, size, PIN_BOOK_ERROR_NOT_A_BOOK);
  marked = make_database (f, "PRAGMA application_id = 0x48706E62; CREATE TABLE a (b)", &size);
  assert_file_refused (f, marked, size, PIN_BOOK_ERROR_NOT_A_BOOK); /* version 0 */
  bare = make_database (
      f, "PRAGMA application_id = 0x48706E62; PRAGMA user_version = 1; CREATE TABLE a (b)", &size);
  assert_file_refused (f, bare, size, PIN_BOOK_ERROR_DAMAGED);
}

static void
test_newer (Fixture *f, gconstpointer data)
{
  gsize size;
  g_autofree char *newer =
      make_database (f,
                     "PRAGMA application_id = 0x48706E62; PRAGMA user_version = 2;"
                     "CREATE TABLE later (b)",
                     &size);
  g_autofree char *path = g_build_filename (f->folder, "other.hingepin", NULL);
  g_autofree char *journal = g_strconcat (path, "-journal", NULL);

  assert_file_refused (f, newer, size, PIN_BOOK_ERROR_NEWER);
  /* Not even the journal of its crashed program is played back. */
  g_file_set_contents (journal, "\xd9\xd5\x05\xf9\x20\xa1\x63\xd7 and more", 17, NULL);
  assert_refused (path, PIN_BOOK_ERROR_NEWER);
  assert_untouched (path, newer, size);
  g_assert_true (g_file_test (journal, G_FILE_TEST_EXISTS));
}

/* --- damage ----------------------------------------------------------------- */

static gpointer
read_everything (PinDb *db, gpointer data, GError **error)
{
  gint64 vehicle = *(gint64 *) data;
  static GPtrArray *(*const queries[]) (PinDb *, gint64, GError **) = {
    pin_query_places,   pin_query_parts_on,     pin_query_inspections,
    pin_query_readings, pin_query_works,        pin_query_owed,
    pin_query_marks,    pin_query_tray_answers, pin_query_traits_of_walk,
  };

  for (gsize i = 0; i < G_N_ELEMENTS (queries); i++)
    {
      g_autoptr (GError) local = NULL;
      g_autoptr (GPtrArray) rows = queries[i](db, vehicle, &local);

      g_assert_true ((rows == NULL) == (local != NULL));
    }
  return db;
}

static gboolean
may_be_said (const GError *error)
{
  static const PinBookError codes[] = { PIN_BOOK_ERROR_DAMAGED, PIN_BOOK_ERROR_NOT_A_BOOK,
                                        PIN_BOOK_ERROR_NEWER, PIN_BOOK_ERROR_OPEN,
                                        PIN_BOOK_ERROR_FAILED };

  for (gsize i = 0; i < G_N_ELEMENTS (codes); i++)
    if (g_error_matches (error, PIN_BOOK_ERROR, (int) codes[i]))
      return TRUE;
  return FALSE;
}

/* Opens, reads and checks whatever this is; never writes, never crashes. */
static gboolean
survives (const char *path, gint64 vehicle)
{
  g_autoptr (GError) error = NULL;
  PinBook *book = pin_book_open (path, FALSE, &error);
  g_autoptr (GPtrArray) problems = NULL;
  gboolean noticed;

  if (book == NULL)
    {
      if (!may_be_said (error))
        g_error ("not the word for a damaged file: %s", error->message);
      return TRUE;
    }
  pin_book_run (book, read_everything, &vehicle, NULL);
  problems = pin_book_verify (book, &error);
  noticed = problems == NULL || problems->len > 0;
  pin_book_close (book);
  return noticed;
}

static void
fill_book (Fixture *f)
{
  for (int i = 0; i < 40; i++)
    {
      g_autofree char *day = g_strdup_printf ("2026-02-%02d", 1 + i % 28);

      drive (f->book, f->vehicle, day, 0, 100 + i);
      do_work (f->book, f->part, "oiled", day, 0);
    }
}

static void
test_flipped_bytes (Fixture *f, gconstpointer data)
{
  g_autofree char *path = g_build_filename (f->folder, "other.hingepin", NULL), *sound = NULL;
  GRand *rand = g_rand_new_with_seed (4);
  int noticed = 0, tried = 0;
  gsize size;

  fill_book (f);
  sound = contents (f->path, &size);
  for (gsize at = 0; at < size; at += at < 100 ? 1 : 1 + size / 400)
    {
      g_autofree char *broken = g_memdup2 (sound, size);
      gsize run = 1 + g_rand_int_range (rand, 0, 8);

      for (gsize i = at; i < MIN (at + run, size); i++)
        broken[i] ^= 1 + g_rand_int_range (rand, 0, 255);
      g_assert_true (g_file_set_contents (path, broken, size, NULL));
      g_test_message ("from byte %" G_GSIZE_FORMAT, at);
      noticed += survives (path, f->vehicle);
      tried++;
      assert_untouched (path, broken, size);
    }
  g_rand_free (rand);
  /* Free space and the insides of texts may be changed unseen; not much else. */
  g_assert_cmpint (noticed, >, tried / 10);
}

static void
test_cut_short (Fixture *f, gconstpointer data)
{
  g_autofree char *path = g_build_filename (f->folder, "other.hingepin", NULL), *sound = NULL;
  gsize size;

  fill_book (f);
  sound = contents (f->path, &size);
  for (gsize at = 1; at < size; at += 1 + size / 150)
    {
      g_assert_true (g_file_set_contents (path, sound, at, NULL));
      if (!survives (path, f->vehicle))
        g_error ("cut off after %" G_GSIZE_FORMAT " of %" G_GSIZE_FORMAT " bytes and not noticed", at, size);
      assert_untouched (path, sound, at);
    }
}

/* What another program did to a book is found. */
static void
assert_problem (Fixture *f, const char *sql, const char *word)
{
  g_autofree char *path = g_build_filename (f->folder, "other.hingepin", NULL);
  g_autofree char *sound = NULL;
  g_autoptr (GPtrArray) problems = NULL;
  g_autoptr (PinBook) book = NULL;
  sqlite3 *db;
  gsize size;

  sound = contents (f->path, &size);
  g_file_set_contents (path, sound, size, NULL);
  sqlite3_open (path, &db);
  g_assert_cmpint (sqlite3_exec (db, sql, NULL, NULL, NULL), ==, SQLITE_OK);
  sqlite3_close (db);
  book = pin_book_open (path, FALSE, NULL);
  problems = pin_book_verify (book, NULL);
  g_assert_cmpint (problems->len, >, 0);
  for (guint i = 0; i < problems->len; i++)
    if (strstr (problems->pdata[i], word) != NULL)
      return;
  g_error ("“%s” is not said of “%s”; but “%s”", word, sql, (char *) problems->pdata[0]);
}

static void
test_verify_finds (Fixture *f, gconstpointer data)
{
  gint64 work = do_work (f->book, f->part, "oiled", "2026-01-02", 0);
  g_autofree char *twice = NULL;

  drive (f->book, f->vehicle, "2026-01-02", 0, 60);
  twice = g_strdup_printf (
      "INSERT INTO work (id, thing, deed, day, replaces) SELECT id + n, thing, deed, day, id "
      "FROM work, (SELECT 1 AS n UNION SELECT 2) WHERE id = %" G_GINT64_FORMAT,
      work);
  assert_sound (f->book);
  assert_problem (f, "UPDATE meter SET seconds = 61", "meter");
  assert_problem (f, "DELETE FROM meter", "meter");
  assert_problem (f, "UPDATE standing SET seconds = 7", "standing");
  assert_problem (f, "UPDATE standing SET place = NULL", "standing");
  assert_problem (f, "INSERT INTO standing (part, kind) VALUES (5, 'x')", "standing");
  assert_problem (f, "UPDATE mark SET runs = 3", "mark");
  assert_problem (f, "DELETE FROM mark", "mark");
  assert_problem (f, "INSERT INTO mark (part, deed, day) VALUES (5, 'x', '2026-01-01')", "mark");
  assert_problem (f, "UPDATE work SET live = 0", "work");
  assert_problem (f, "CREATE TABLE mine (a)", "mine");
  assert_problem (f, "DROP TRIGGER part_stays", "part_stays");
  assert_problem (f, "DROP TRIGGER source_fixed; UPDATE source SET xml = x'00'", "source");
  assert_problem (f, "INSERT INTO part (id, kind, made_from) VALUES (77, 'x', 78)", "part");
  assert_problem (
      f,
      "INSERT INTO trait (id, thing, code, day, origin) VALUES (77, 3, 'x', '2026-01-01', 'owner')",
      "trait");
  assert_problem (f, "INSERT INTO stock (id, supply, amount, day) VALUES (77, 3, 1, '2026-02-31')",
                  "no date");
  assert_problem (f, twice, "corrected twice");
}

#define ADD(path, test) \
  g_test_add ("/book/files/" path, Fixture, NULL, fixture_set_up, test, fixture_tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("text-files", test_text_files);
  ADD ("not-files", test_not_files);
  ADD ("other-databases", test_other_databases);
  ADD ("newer", test_newer);
  ADD ("flipped-bytes", test_flipped_bytes);
  ADD ("cut-short", test_cut_short);
  ADD ("verify-finds", test_verify_finds);
  return g_test_run ();
}
