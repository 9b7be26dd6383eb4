#include "fixture.h"

#include <glib/gstdio.h>
#include <math.h>
#include <sqlite3.h>
#include <string.h>
#include <unistd.h>

#include "book/db-private.h"

/* Copies, restoring and the export of everything. */

static char *
inside (Fixture *f, const char *name)
{
  return g_build_filename (f->folder, name, NULL);
}

static double
runs_in (const char *path, gint64 vehicle)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PinBook) book = pin_book_open (path, FALSE, &error);
  PinVehicleRow *row;
  double runs;

  g_assert_no_error (error);
  assert_sound (book);
  row = the_vehicle (book, vehicle);
  runs = row->runs;
  pin_vehicle_row_free (row);
  return runs;
}

/* --- backup ----------------------------------------------------------------- */

static void
on_progress (double done, gpointer data)
{
  double *last = data;

  g_assert_cmpfloat (done, >=, 0);
  g_assert_cmpfloat (done, <=, 1);
  *last = done;
}

static void
test_backup (Fixture *f, gconstpointer data)
{
  g_autofree char *to = inside (f, "copy.hingepin"), *when = NULL;
  g_autoptr (GError) error = NULL;
  double last = -1;

  g_assert_null (pin_book_last_copy (f->book));
  drive (f->book, f->vehicle, "2026-01-02", 0, 60);
  g_assert_true (pin_book_backup (f->book, to, on_progress, &last, NULL, &error));
  g_assert_no_error (error);
  g_assert_cmpfloat (last, ==, 1);
  when = pin_book_last_copy (f->book);
  g_assert_nonnull (when);
  drive (f->book, f->vehicle, "2026-01-03", 0, 60);
  g_assert_cmpfloat (runs_in (to, f->vehicle), ==, 1);
  g_assert_true (pin_book_backup (f->book, to, NULL, NULL, NULL, &error));
  g_assert_cmpfloat (runs_in (to, f->vehicle), ==, 2);
}

static void
assert_not_over (Fixture *f, const char *to)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *before = NULL, *after = NULL;
  gsize size, size_after;

  before = contents (to, &size);
  g_assert_false (pin_book_backup (f->book, to, NULL, NULL, NULL, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_EXISTS);
  after = contents (to, &size_after);
  g_assert_cmpmem (after, size_after, before, size);
}

static void
test_backup_over (Fixture *f, gconstpointer data)
{
  g_autofree char *text = inside (f, "letter.txt"), *other = inside (f, "other.hingepin");
  g_autofree char *alias = inside (f, "alias.hingepin"), *fresh = inside (f, "fresh.hingepin");
  g_autofree char *journal = g_strconcat (fresh, "-journal", NULL);
  g_autoptr (GError) error = NULL;

  assert_not_over (f, f->path);
  g_assert_cmpint (symlink (f->path, alias), ==, 0);
  assert_not_over (f, alias);
  g_file_set_contents (text, "Dear", -1, NULL);
  assert_not_over (f, text);
  pin_book_close (pin_book_create (other, NULL)); /* another stable's */
  assert_not_over (f, other);
  g_file_set_contents (journal, "of something else", -1, NULL);
  g_assert_false (pin_book_backup (f->book, fresh, NULL, NULL, NULL, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_EXISTS);
}

static void
test_backup_cancelled (Fixture *f, gconstpointer data)
{
  g_autofree char *to = inside (f, "copy.hingepin");
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) dir = NULL;
  const char *name;

  g_cancellable_cancel (cancellable);
  g_assert_false (pin_book_backup (f->book, to, NULL, NULL, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  dir = g_dir_open (f->folder, 0, NULL);
  while ((name = g_dir_read_name (dir)) != NULL)
    g_assert_cmpstr (name, ==, "stable.hingepin"); /* nothing half done is left */
}

/* A copy put in the place of the open book is noticed, even of the same state. */
static void
test_copy_in_place (Fixture *f, gconstpointer data)
{
  g_autofree char *to = inside (f, "copy.hingepin"), *bytes = NULL;
  g_autoptr (PinBatch) batch = pin_batch_new (f->book);
  g_autoptr (GError) error = NULL;
  FILE *file;
  gsize size;

  g_assert_true (pin_book_backup (f->book, to, NULL, NULL, NULL, NULL));
  bytes = contents (to, &size);
  file = g_fopen (f->path, "r+b");
  g_assert_cmpint (fwrite (bytes, 1, size, file), ==, size);
  fclose (file);
  pin_batch_part (batch, 0, "bearing", 0);
  g_assert_false (pin_book_commit (f->book, batch, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_CHANGED);
}

/* --- restore ---------------------------------------------------------------- */

static void
test_restore (Fixture *f, gconstpointer data)
{
  g_autofree char *to = inside (f, "copy.hingepin"), *kept = NULL, *again = NULL;
  g_autoptr (GError) error = NULL;

  drive (f->book, f->vehicle, "2026-01-02", 0, 60);
  g_assert_true (pin_book_backup (f->book, to, NULL, NULL, NULL, NULL));
  drive (f->book, f->vehicle, "2026-01-03", 0, 60);
  pin_book_close (g_steal_pointer (&f->book));
  g_assert_true (pin_book_restore (to, f->path, &kept, &error));
  g_assert_no_error (error);
  g_assert_cmpfloat (runs_in (f->path, f->vehicle), ==, 1);
  g_assert_cmpfloat (runs_in (kept, f->vehicle), ==, 2);
  g_assert_true (pin_book_restore (kept, f->path, &again, &error));
  g_assert_cmpstr (kept, !=, again);
  g_assert_cmpfloat (runs_in (f->path, f->vehicle), ==, 2);
  g_unlink (f->path);
  g_clear_pointer (&kept, g_free);
  g_assert_true (pin_book_restore (to, f->path, &kept, &error));
  g_assert_null (kept); /* nothing stood there */
}

static void
test_restore_damaged (Fixture *f, gconstpointer data)
{
  g_autofree char *to = inside (f, "copy.hingepin"), *before = NULL, *after = NULL;
  g_autoptr (GError) error = NULL;
  gsize size, size_after;

  g_assert_true (pin_book_backup (f->book, to, NULL, NULL, NULL, NULL));
  pin_book_close (g_steal_pointer (&f->book));
  before = contents (f->path, &size);
  g_assert_cmpint (truncate (to, 9000), ==, 0);
  g_assert_false (pin_book_restore (to, f->path, NULL, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_DAMAGED);
  g_clear_error (&error);
  g_assert_false (pin_book_restore (f->path, f->path, NULL, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_EXISTS);
  after = contents (f->path, &size_after);
  g_assert_cmpmem (after, size_after, before, size);
}

/* The wreck is kept with its journal, which must not be played into the copy. */
static void
test_restore_over_wreck (Fixture *f, gconstpointer data)
{
  g_autofree char *to = inside (f, "copy.hingepin"), *kept = NULL, *moved = NULL;
  g_autofree char *journal = g_strconcat (f->path, "-journal", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_true (pin_book_backup (f->book, to, NULL, NULL, NULL, NULL));
  pin_book_close (g_steal_pointer (&f->book));
  g_file_set_contents (f->path, "wreckage of a book", -1, NULL);
  g_file_set_contents (journal, "wreckage of a journal", -1, NULL);
  g_assert_true (pin_book_restore (to, f->path, &kept, &error));
  g_assert_no_error (error);
  g_assert_cmpfloat (runs_in (f->path, f->vehicle), ==, 0);
  moved = g_strconcat (kept, "-journal", NULL);
  g_assert_false (g_file_test (journal, G_FILE_TEST_EXISTS));
  g_assert_true (g_file_test (moved, G_FILE_TEST_EXISTS));
}

static void
test_restore_in_use (Fixture *f, gconstpointer data)
{
  g_autofree char *to = inside (f, "copy.hingepin");
  g_autoptr (GError) error = NULL;
  sqlite3 *other;

  g_assert_true (pin_book_backup (f->book, to, NULL, NULL, NULL, NULL));
  pin_book_close (g_steal_pointer (&f->book));
  pin_db_set_patience (50);
  sqlite3_open (f->path, &other);
  sqlite3_exec (other, "BEGIN IMMEDIATE", NULL, NULL, NULL);
  g_assert_false (pin_book_restore (to, f->path, NULL, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_LOCKED);
  sqlite3_close (other);
  pin_db_set_patience (5000);
}

/* --- export ----------------------------------------------------------------- */

/* RFC 4180, read back: rows of fields. */
static GPtrArray *
read_csv (const char *text)
{
  GPtrArray *rows = g_ptr_array_new_with_free_func ((GDestroyNotify) g_ptr_array_unref);

  while (*text != '\0')
    {
      GPtrArray *row = g_ptr_array_new_with_free_func (g_free);

      for (;;)
        {
          GString *field = g_string_new (NULL);

          if (*text == '"')
            for (text++; *text != '"' || text[1] == '"'; text++)
              {
                g_assert_true (*text != '\0');
                g_string_append_c (field, *text);
                text += *text == '"';
              }
          text += *text == '"';
          while (*text != ',' && *text != '\r')
            g_string_append_c (field, *text++);
          g_ptr_array_add (row, g_string_free (field, FALSE));
          if (*text++ == '\r')
            break;
        }
      g_assert_cmpint (*text++, ==, '\n');
      g_ptr_array_add (rows, row);
    }
  return rows;
}

static const char *
cell (GPtrArray *rows, guint row, const char *column)
{
  GPtrArray *header = rows->pdata[0], *line = rows->pdata[row];

  g_assert_cmpint (header->len, ==, line->len);
  for (guint i = 0; i < header->len; i++)
    if (g_str_equal (header->pdata[i], column))
      return line->pdata[i];
  g_error ("no column %s", column);
}

static void
test_export (Fixture *f, gconstpointer data)
{
  const char *hard = "=1+1, \"quoted\"\r\nand a second line; Größe ½";
  g_autofree char *folder = inside (f, "out"), *table = NULL, *text = NULL, *photos = NULL,
                  *photo = NULL;
  g_autofree char *sources = NULL, *id = NULL, *readme = NULL;
  g_autoptr (GBytes) jpeg = g_bytes_new_static ("picture", 7);
  g_autofree char *sha = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, jpeg);
  PinBatch *batch = pin_batch_new (f->book);
  PinOuting outing = an_outing (f->vehicle, "2026-01-02");
  PinPhoto shown = { .of = f->part, .jpeg = jpeg };
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (GError) error = NULL;
  double last = 0;

  outing.note = (char *) hard;
  outing.seconds = 0.1;
  outing.surface = (char *) "";
  id = g_strdup_printf ("%" G_GINT64_FORMAT, pin_batch_outing (batch, &outing));
  pin_batch_photo (batch, &shown);
  commit (f->book, batch);
  g_assert_true (pin_book_export (f->book, folder, on_progress, &last, NULL, &error));
  g_assert_no_error (error);
  g_assert_cmpfloat (last, ==, 1);

  table = g_build_filename (folder, "tables", "outing.csv", NULL);
  text = contents (table, NULL);
  rows = read_csv (text);
  g_assert_cmpint (rows->len, ==, 2);
  g_assert_cmpstr (cell (rows, 1, "id"), ==, id);
  g_assert_cmpstr (cell (rows, 1, "note"), ==, hard);
  g_assert_cmpstr (cell (rows, 1, "seconds"), ==, "0.1");
  g_assert_cmpstr (cell (rows, 1, "litres"), ==, "");
  g_assert_nonnull (strstr (text, ",\"\",")); /* an empty text is not an unknown one */

  photos = g_strdup_printf ("%s/photos/%s.jpg", folder, sha);
  photo = contents (photos, NULL);
  g_assert_cmpstr (photo, ==, "picture");
  sources = g_build_filename (folder, "sources", "chassis", NULL);
  g_assert_true (g_file_test (sources, G_FILE_TEST_IS_DIR));
  readme = g_build_filename (folder, "README.txt", NULL);
  g_assert_true (g_file_test (readme, G_FILE_TEST_EXISTS));

  g_assert_false (pin_book_export (f->book, folder, NULL, NULL, NULL, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_EXISTS);
}

/* A table that the export forgets would be lost. */
static gpointer
table_names (PinDb *db, gpointer data, GError **error)
{
  g_autoptr (PinStmt) stmt =
      pin_db_prepare (db, "SELECT name FROM sqlite_schema WHERE type = 'table'", error);
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);

  while (pin_stmt_next (stmt, error))
    g_ptr_array_add (names, g_strdup (pin_stmt_text (stmt, 0)));
  return names;
}

static void
test_export_is_complete (Fixture *f, gconstpointer data)
{
  g_autofree char *folder = inside (f, "out");
  g_autoptr (GPtrArray) names = pin_book_run (f->book, table_names, NULL, NULL);

  g_assert_true (pin_book_export (f->book, folder, NULL, NULL, NULL, NULL));
  for (guint i = 0; i < names->len; i++)
    {
      g_autofree char *file =
          g_strdup_printf ("%s/tables/%s.csv", folder, (char *) names->pdata[i]);

      if (!g_file_test (file, G_FILE_TEST_EXISTS))
        g_error ("%s is not exported", (char *) names->pdata[i]);
    }
}

/* The words of a book from anywhere stay inside the folder. */
static void
test_export_stays_inside (Fixture *f, gconstpointer data)
{
  g_autofree char *folder = inside (f, "out"), *escaped = inside (f, "escaped");
  g_autoptr (GBytes) xml = g_bytes_new_static ("<a/>", 4);
  PinBatch *batch = pin_batch_new (f->book);
  g_autoptr (GDir) dir = NULL;
  g_autofree char *rules = NULL;

  pin_batch_source (batch, "rules", "../../../escaped", NULL, xml);
  commit (f->book, batch);
  g_assert_true (pin_book_export (f->book, folder, NULL, NULL, NULL, NULL));
  rules = g_build_filename (folder, "sources", "rules", NULL);
  dir = g_dir_open (rules, 0, NULL);
  g_assert_true (g_str_has_prefix (g_dir_read_name (dir), "_._.._.._escaped-"));
  g_assert_null (g_dir_read_name (dir));
  g_assert_false (g_file_test (escaped, G_FILE_TEST_EXISTS));
}

#define ADD(path, test) \
  g_test_add ("/book/keeping/" path, Fixture, NULL, fixture_set_up, test, fixture_tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("backup", test_backup);
  ADD ("backup-over", test_backup_over);
  ADD ("backup-cancelled", test_backup_cancelled);
  ADD ("copy-in-place", test_copy_in_place);
  ADD ("restore", test_restore);
  ADD ("restore-damaged", test_restore_damaged);
  ADD ("restore-over-wreck", test_restore_over_wreck);
  ADD ("restore-in-use", test_restore_in_use);
  ADD ("export", test_export);
  ADD ("export-is-complete", test_export_is_complete);
  ADD ("export-stays-inside", test_export_stays_inside);
  return g_test_run ();
}
