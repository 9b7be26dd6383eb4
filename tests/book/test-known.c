#include "past.h"

#include <string.h>

#include "base/day.h"
#include "book/book-private.h"

/* The book as it was known on a day: what is shown must be what a copy made on
 * that day holds, whatever was entered, corrected and withdrawn since. */

#define BATCHES 120
#define COPY_EVERY 15
#define COPIES (BATCHES / COPY_EVERY)

static void
set_up (Fixture *f, gconstpointer data)
{
  pin_pretend_now (PAST_BEGIN);
  fixture_set_up (f, data);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  pin_pretend_now (0);
  fixture_tear_down (f, data);
}

static char *
told (PinBook *book, PinBookJob job, gpointer data)
{
  g_autoptr (GError) error = NULL;
  char *text = pin_book_run (book, job, data, &error);

  g_assert_no_error (error);
  return text;
}

static char *
told_as_known (PinBook *book, gint64 instant, PinBookJob job, gpointer data)
{
  g_autoptr (GError) error = NULL;
  char *text = pin_book_run_as_known (book, instant, job, data, &error);

  g_assert_no_error (error);
  return text;
}

static PinBook *
open_as_known (Fixture *f, gint64 instant)
{
  g_autoptr (GError) error = NULL;
  PinBook *book = pin_book_open_as_known (f->path, instant, &error);

  g_assert_no_error (error);
  return book;
}

/* Says which line is the first that differs, not all of two books. */
static void
assert_same (const char *a, const char *b)
{
  g_auto (GStrv) left = g_strsplit (a, "\n", -1);
  g_auto (GStrv) right = g_strsplit (b, "\n", -1);

  for (guint i = 0; left[i] != NULL && right[i] != NULL; i++)
    g_assert_cmpstr (left[i], ==, right[i]);
  g_assert_cmpuint (g_strv_length (left), ==, g_strv_length (right));
}

/* --- against copies --------------------------------------------------------- */

static char *
copy_name (Fixture *f, int i)
{
  g_autofree char *name = g_strdup_printf ("copy-%d.hingepin", i);

  return g_build_filename (f->folder, name, NULL);
}

static void
compare (Fixture *f, Past *past, int i, gint64 instant)
{
  static const PinBookJob jobs[] = { past_tables, past_told };
  g_autofree char *path = copy_name (f, i);
  g_autoptr (PinBook) copy = pin_book_open (path, TRUE, NULL);
  g_autoptr (PinBook) then = open_as_known (f, instant);

  for (gsize j = 0; j < G_N_ELEMENTS (jobs); j++)
    {
      g_autofree char *expected = told (copy, jobs[j], past);
      g_autofree char *once = told_as_known (f->book, instant, jobs[j], past);
      g_autofree char *opened = told (then, jobs[j], past);

      g_assert_cmpuint (strlen (expected), >, 300);
      assert_same (once, expected);
      assert_same (opened, expected);
    }
}

static void
test_copies (Fixture *f, gconstpointer data)
{
  Past *past = past_new (f, GPOINTER_TO_UINT (data));
  gint64 instants[COPIES];
  g_autofree char *first = NULL, *last = NULL;

  for (int step = 0; step < BATCHES; step++)
    {
      past_go_on (past);
      if (step % COPY_EVERY == 0)
        {
          g_autoptr (GError) error = NULL;
          g_autofree char *path = copy_name (f, step / COPY_EVERY);

          pin_book_backup (f->book, path, NULL, NULL, NULL, &error);
          g_assert_no_error (error);
          /* The very millisecond of the last row, or any time before the next. */
          instants[step / COPY_EVERY] = past_now (past) + (step % 2 ? 0 : 999);
        }
    }
  for (int i = 0; i < COPIES; i++)
    compare (f, past, i, instants[i]);
  first = told_as_known (f->book, instants[0], past_tables, NULL);
  last = told (f->book, past_tables, NULL);
  g_assert_true (strlen (first) < strlen (last));
  past_free (past);
}

static void
test_now_and_never (Fixture *f, gconstpointer data)
{
  Past *past = past_new (f, 5);
  g_autofree char *now = NULL, *known_now = NULL, *never = NULL;

  for (int step = 0; step < 40; step++)
    past_go_on (past);
  now = told (f->book, past_tables, NULL);
  known_now = told_as_known (f->book, past_now (past), past_tables, NULL);
  never = told_as_known (f->book, PAST_BEGIN - 1, past_tables, NULL);
  assert_same (known_now, now);
  g_assert_cmpstr (never, ==, "");
  g_free (never);
  never = told_as_known (f->book, G_MININT64 / 2, past_tables, NULL);
  g_assert_cmpstr (never, ==, "");
  past_free (past);
}

/* --- a past state is not to be written -------------------------------------- */

static gpointer
attempt (PinDb *db, gpointer sql, GError **error)
{
  return pin_db_exec (db, sql, error) ? db : NULL;
}

static void
assert_forbidden (PinBook *book, PinBook *then, const char *sql)
{
  g_autoptr (GError) opened = NULL;
  g_autoptr (GError) once = NULL;

  if (pin_book_run (then, attempt, (gpointer) sql, &opened) != NULL ||
      pin_book_run_as_known (book, PAST_BEGIN, attempt, (gpointer) sql, &once) != NULL)
    g_error ("a past state lets this pass: %s", sql);
  g_assert_error (opened, PIN_BOOK_ERROR, PIN_BOOK_ERROR_LAW);
  g_assert_error (once, PIN_BOOK_ERROR, PIN_BOOK_ERROR_LAW);
}

static void
test_law (Fixture *f, gconstpointer data)
{
  g_autoptr (PinBook) then = open_as_known (f, PAST_BEGIN + 1000);
  static const char *const statements[] = {
    "INSERT INTO main.part (id, kind) VALUES (1, 'bearing')", "UPDATE main.trait SET live = 0",
    "DELETE FROM main.part", "DELETE FROM main.meter", "DELETE FROM meter", "DELETE FROM temp.mark",
    "UPDATE temp.trait_then SET live = 1", "INSERT INTO main.draft VALUES (1, '')",
    "DROP VIEW temp.part", "DROP TABLE temp.meter", "CREATE TEMP TABLE aside (a)",
    "CREATE TEMP VIEW image AS SELECT 1", "CREATE TABLE main.aside (a)",
    "PRAGMA temp_store = FILE", "PRAGMA user_version = 9", "ATTACH ':memory:' AS other",
    "UPDATE main.book SET generation = 0",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (statements); i++)
    assert_forbidden (f->book, then, statements[i]);
}

/* Nor may the connection that keeps the book put a view before its facts. */
static void
test_law_of_keeping (Fixture *f, gconstpointer data)
{
  static const char *const statements[] = {
    "CREATE TEMP VIEW part AS SELECT * FROM main.part WHERE 0", "CREATE TEMP TABLE meter (a)",
    "CREATE TEMP TABLE part_then (a)",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (statements); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (pin_book_run (f->book, attempt, (gpointer) statements[i], &error));
      g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_LAW);
    }
}

static void
test_read_only (Fixture *f, gconstpointer data)
{
  gsize before_size, after_size;
  g_autofree char *before = contents (f->path, &before_size);
  g_autofree char *after = NULL, *text = NULL;
  g_autoptr (PinBook) then = open_as_known (f, PAST_BEGIN + 1000);
  g_autoptr (PinBatch) batch = pin_batch_new (then);
  g_autoptr (GError) error = NULL;

  g_assert_true (pin_book_read_only (then));
  pin_batch_part (batch, 0, "bearing", 0);
  g_assert_false (pin_book_commit (then, batch, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_READ_ONLY);
  text = told_as_known (f->book, PAST_BEGIN, past_tables, NULL);
  after = contents (f->path, &after_size);
  g_assert_cmpmem (before, before_size, after, after_size);
}

/* --- while others write ------------------------------------------------------ */

/* A past state that stays open: what is corrected meanwhile stands in it as it
 * stood, though it is live no more. */
static void
test_stays_as_it_was (Fixture *f, gconstpointer data)
{
  Past *past = past_new (f, 9);
  g_autoptr (PinBook) then = NULL;
  g_autofree char *before = NULL, *before_told = NULL;

  for (int step = 0; step < 60; step++)
    past_go_on (past);
  then = open_as_known (f, past_now (past));
  before = told (then, past_tables, NULL);
  before_told = told (then, past_told, past);
  for (int step = 0; step < 40; step++)
    {
      g_autofree char *after = NULL;

      past_go_on (past);
      after = told (then, past_tables, NULL);
      assert_same (after, before);
    }
  past_free (past);
}

static gpointer
read_from_within (PinDb *db, gpointer data, GError **error)
{
  return pin_book_run_as_known (data, PAST_BEGIN + 1000, past_tables, NULL, error);
}

static void
test_from_within (Fixture *f, gconstpointer data)
{
  g_autofree char *inside = told (f->book, read_from_within, f->book);
  g_autofree char *outside = told_as_known (f->book, PAST_BEGIN + 1000, past_tables, NULL);

  assert_same (inside, outside);
  g_assert_nonnull (strstr (inside, "Blue buggy"));
}

static void
test_no_such_book (Fixture *f, gconstpointer data)
{
  g_autofree char *path = g_build_filename (f->folder, "nowhere.hingepin", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_null (pin_book_open_as_known (path, PAST_BEGIN, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_OPEN);
}

#define ADD(path, test, seed) \
  g_test_add ("/book/known/" path, Fixture, GUINT_TO_POINTER (seed), set_up, test, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("copies-one", test_copies, 1);
  ADD ("copies-two", test_copies, 4711);
  ADD ("copies-three", test_copies, 20260703);
  ADD ("now-and-never", test_now_and_never, 0);
  ADD ("law", test_law, 0);
  ADD ("law-of-keeping", test_law_of_keeping, 0);
  ADD ("read-only", test_read_only, 0);
  ADD ("stays-as-it-was", test_stays_as_it_was, 0);
  ADD ("from-within", test_from_within, 0);
  ADD ("no-such-book", test_no_such_book, 0);
  return g_test_run ();
}
