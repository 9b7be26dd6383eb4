#include "fixture.h"

#include <glib/gstdio.h>
#include <math.h>

static const char chassis_text[] = "<chassis id=\"buggy\"/>";

/* In memory where there is such a place: these tests sync a great deal, and
 * what a disk may do wrong they do themselves. */
char *
temp_folder (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = g_strdup ("/dev/shm/hingepin-book-XXXXXX");

  if (g_mkdtemp (folder) != NULL)
    return folder;
  g_free (folder);
  folder = g_dir_make_tmp ("hingepin-book-XXXXXX", &error);
  g_assert_no_error (error);
  return folder;
}

void
remove_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR) && !g_file_test (path, G_FILE_TEST_IS_SYMLINK))
        remove_folder (path);
      else
        g_unlink (path);
    }
  g_rmdir (folder);
}

/* A book with one vehicle, one place on it, and a bearing fitted there on the
 * first day of 2026. */
void
fixture_set_up (Fixture *self, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  self->folder = temp_folder ();
  self->path = g_build_filename (self->folder, "stable.hingepin", NULL);
  self->book = pin_book_create (self->path, &error);
  g_assert_no_error (error);
  self->vehicle = add_vehicle (self->book, "Blue buggy");
  self->place = add_place (self->book, self->vehicle, "hub.front.left.outer");
  self->part = add_part (self->book, "bearing");
  fit (self->book, self->part, self->place, "2026-01-01", 0);
}

void
fixture_tear_down (Fixture *self, gconstpointer data)
{
  g_clear_pointer (&self->book, pin_book_close);
  remove_folder (self->folder);
  g_free (self->folder);
  g_free (self->path);
}

/* Takes the batch. */
void
commit (PinBook *book, PinBatch *batch)
{
  g_autoptr (GError) error = NULL;
  gboolean done = pin_book_commit (book, batch, &error);

  g_assert_no_error (error);
  g_assert_true (done);
  pin_batch_free (batch);
}

gint64
add_vehicle (PinBook *book, const char *name)
{
  g_autoptr (GBytes) xml = g_bytes_new_static (chassis_text, sizeof chassis_text - 1);
  g_autofree char *sha = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, xml);
  PinBatch *batch = pin_batch_new (book);
  PinTrait called = { .code = (char *) "name", .day = (char *) "2026-01-01", .value = NAN,
                      .text = (char *) name, .origin = (char *) "owner" };
  gint64 id;

  pin_batch_source (batch, "chassis", "buggy", sha, xml);
  id = called.thing = pin_batch_vehicle (batch, 0, sha);
  pin_batch_trait (batch, &called);
  commit (book, batch);
  return id;
}

gint64
add_place (PinBook *book, gint64 vehicle, const char *code)
{
  PinBatch *batch = pin_batch_new (book);
  gint64 id = pin_batch_place (batch, 0, vehicle, code, "bearing", 0);

  commit (book, batch);
  return id;
}

gint64
add_part (PinBook *book, const char *kind)
{
  PinBatch *batch = pin_batch_new (book);
  gint64 id = pin_batch_part (batch, 0, kind, 0);

  commit (book, batch);
  return id;
}

static gint64
move (PinBook *book, PinFitting row)
{
  PinBatch *batch = pin_batch_new (book);
  gint64 id = pin_batch_fitting (batch, &row);

  commit (book, batch);
  return id;
}

gint64
fit (PinBook *book, gint64 part, gint64 place, const char *day, gint64 at)
{
  return move (book, (PinFitting){ .part = part, .place = place, .day = (char *) day, .at = at });
}

gint64
shelve (PinBook *book, gint64 part, const char *day, gint64 at)
{
  return move (
      book, (PinFitting){ .part = part, .shelf = (char *) "shelf", .day = (char *) day, .at = at });
}

PinOuting
an_outing (gint64 vehicle, const char *day)
{
  return (PinOuting){ .vehicle = vehicle,
                      .day = (char *) day,
                      .seconds = NAN,
                      .runs = NAN,
                      .litres = NAN,
                      .salt = -1,
                      .knocks = -1,
                      .ambient = NAN };
}

gint64
drive (PinBook *book, gint64 vehicle, const char *day, gint64 at, double seconds)
{
  PinBatch *batch = pin_batch_new (book);
  PinOuting row = an_outing (vehicle, day);
  gint64 id;

  row.at = at;
  row.seconds = seconds;
  row.runs = 1;
  id = pin_batch_outing (batch, &row);
  commit (book, batch);
  return id;
}

gint64
do_work (PinBook *book, gint64 thing, const char *deed, const char *day, gint64 at)
{
  PinBatch *batch = pin_batch_new (book);
  PinWork row = {
    .thing = thing, .deed = (char *) deed, .day = (char *) day, .at = at, .cost = -1
  };
  gint64 id = pin_batch_work (batch, &row);

  commit (book, batch);
  return id;
}

typedef struct
{
  GPtrArray *(*query) (PinDb *, gint64, GError **);
  gint64 id;
} Question;

static gpointer
answer_question (PinDb *db, gpointer data, GError **error)
{
  Question *question = data;

  return question->query (db, question->id, error);
}

/* Rows of a query that takes one id. */
gpointer
ask (PinBook *book, GPtrArray *(*query) (PinDb *, gint64, GError **), gint64 id)
{
  g_autoptr (GError) error = NULL;
  Question question = { query, id };
  GPtrArray *rows = pin_book_run (book, answer_question, &question, &error);

  g_assert_no_error (error);
  g_assert_nonnull (rows);
  return rows;
}

static gpointer
read_part (PinDb *db, gpointer data, GError **error)
{
  return pin_query_part (db, *(gint64 *) data, error);
}

PinPartRow *
the_part (PinBook *book, gint64 part)
{
  g_autoptr (GError) error = NULL;
  PinPartRow *row = pin_book_run (book, read_part, &part, &error);

  g_assert_no_error (error);
  return row;
}

static gpointer
read_vehicle (PinDb *db, gpointer data, GError **error)
{
  return pin_query_vehicle (db, *(gint64 *) data, error);
}

PinVehicleRow *
the_vehicle (PinBook *book, gint64 vehicle)
{
  g_autoptr (GError) error = NULL;
  PinVehicleRow *row = pin_book_run (book, read_vehicle, &vehicle, &error);

  g_assert_no_error (error);
  return row;
}

/* Verify finds nothing. */
void
assert_sound (PinBook *book)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) problems = pin_book_verify (book, &error);

  g_assert_no_error (error);
  if (problems->len > 0)
    g_error ("%u problems: %s", problems->len, (char *) problems->pdata[0]);
}

char *
contents (const char *path, gsize *size)
{
  g_autoptr (GError) error = NULL;
  char *data;

  g_file_get_contents (path, &data, size, &error);
  g_assert_no_error (error);
  return data;
}
