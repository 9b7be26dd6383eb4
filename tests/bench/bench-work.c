/* What a walk and what a keeper's files take: reading the texts, one durable
 * answer, the questions of a long walk, a copy of a big book. */

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <libxml/parser.h>
#include <sqlite3.h>
#include <string.h>
#include <unistd.h>

#include "big-book.h"
#include "book/keeping.h"
#include "demo/dice.h"
#include "folder.h"
#include "gauge.h"
#include "inspection/walk.h"

typedef struct
{
  const char *folder;
  PinBook *book;
  PinLibrary *library;
  gint64 vehicle, walk;
  sqlite3 *bare;
  guint questions;
} Bench;

#define NO_ERROR(error) \
  G_STMT_START { if ((error) != NULL) g_error ("%s", (error)->message); } G_STMT_END

/* ---- The texts ---- */

static void
read_library (gpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PinLibrary) library = pin_library_new (g_getenv ("HINGEPIN_DATA_DIR"), NULL, &error);

  NO_ERROR (error);
  pin_library_fill (library);
}

static void
parse_files (gpointer data)
{
  static const char *const folders[] = { "kinds", "chassis", "procedures" };

  for (gsize i = 0; i < G_N_ELEMENTS (folders); i++)
    {
      g_autofree char *folder = g_build_filename (g_getenv ("HINGEPIN_DATA_DIR"), folders[i], NULL);
      g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
      const char *name;

      while ((name = g_dir_read_name (dir)) != NULL)
        {
          g_autofree char *path = g_build_filename (folder, name, NULL);

          xmlFreeDoc (xmlReadFile (path, NULL, XML_PARSE_NONET));
        }
    }
}

/* ---- One answer, on disk ---- */

static void
keep_answer (gpointer data)
{
  Bench *self = data;
  g_autoptr (PinBatch) batch = pin_batch_new (self->book);
  g_autoptr (GError) error = NULL;
  PinReading reading = { .thing = self->vehicle, .quantity = (char *) "spin-down", .value = 1.8,
                         .typed = (char *) "1.8 s", .day = (char *) "2026-01-05" };

  reading.answer = pin_batch_answer (batch, &(PinAnswer){
    .inspection = self->walk, .step = (char *) "bearings/grade", .phase = PIN_PHASE_ONLY,
    .outcome = PIN_OUTCOME_PASS, .detail = (char *) "free", .person = (char *) "AB" });
  pin_batch_reading (batch, &reading);
  pin_book_commit (self->book, batch, &error);
  NO_ERROR (error);
}

static void
bare (sqlite3 *db, const char *sql)
{
  if (sqlite3_exec (db, sql, NULL, NULL, NULL) != SQLITE_OK)
    g_error ("%s: %s", sql, sqlite3_errmsg (db));
}

static void
keep_bare (gpointer data)
{
  Bench *self = data;

  bare (self->bare, "BEGIN IMMEDIATE;"
                    "INSERT INTO a (step, outcome, detail) VALUES ('bearings/grade', 'pass', 'free');"
                    "INSERT INTO r (answer, value, typed) VALUES (1, 1.8, '1.8 s'); COMMIT");
}

static void
bench_answer (Bench *self)
{
  g_autofree char *path = g_build_filename (self->folder, "bare.db", NULL);

  g_assert_cmpint (sqlite3_open (path, &self->bare), ==, SQLITE_OK);
  bare (self->bare, "PRAGMA synchronous = EXTRA; CREATE TABLE a (id INTEGER PRIMARY KEY, step, "
                    "outcome, detail); CREATE TABLE r (id INTEGER PRIMARY KEY, answer, value, typed)");
  bench_say ("an answer with a reading, durable", bench_time (keep_answer, self, 41), "ms",
             bench_time (keep_bare, self, 41), "bare SQLite, the same two rows, synchronous EXTRA");
  sqlite3_close (self->bare);
}

/* ---- A long walk ---- */

static gpointer
load_walk (PinDb *db, gpointer data, GError **error)
{
  return pin_walk_rows_load (db, *(gint64 *) data, error);
}

/* ms for making the walk once, its rows read before. */
static double
expand (Bench *self)
{
  g_autoptr (GError) error = NULL;
  PinWalkRows *rows = pin_book_run (self->book, load_walk, &self->walk, &error);
  gint64 begun = g_get_monotonic_time ();
  g_autoptr (PinWalk) walk = pin_walk_new (rows, self->library, &error);
  double taken = (double) (g_get_monotonic_time () - begun) / 1000;

  NO_ERROR (error);
  self->questions = pin_walk_questions (walk)->len;
  return taken;
}

static void
bare_answers (gpointer data)
{
  Bench *self = data;
  sqlite3_stmt *stmt;

  sqlite3_prepare_v2 (self->bare, "SELECT * FROM answer WHERE inspection = ?1 AND live", -1, &stmt,
                      NULL);
  sqlite3_bind_int64 (stmt, 1, self->walk);
  while (sqlite3_step (stmt) == SQLITE_ROW)
    for (int i = 0; i < sqlite3_column_count (stmt); i++)
      sqlite3_column_text (stmt, i);
  sqlite3_finalize (stmt);
}

static void
bench_walk (Bench *self)
{
  g_autofree char *name = NULL;
  double best = G_MAXDOUBLE;

  for (int i = 0; i < 21; i++)
    best = MIN (best, expand (self));
  g_assert_cmpint (sqlite3_open (pin_book_path (self->book), &self->bare), ==, SQLITE_OK);
  name = g_strdup_printf ("a walk of %u questions, all answered: each", self->questions);
  bench_say (name, best * 1000 / self->questions, "µs",
             bench_time (bare_answers, self, 21) * 1000 / self->questions,
             "bare SQL, reading its answers");
  sqlite3_close (self->bare);
}

/* ---- A copy of 50 MB ---- */

static void
grow (Bench *self)
{
  g_autoptr (PinBatch) batch = pin_batch_new (self->book);
  g_autoptr (GError) error = NULL;
  PinDice dice;

  pin_dice_seed (&dice, 3);
  for (int i = 0; i < 50; i++)
    {
      guint32 *noise = g_new (guint32, 1 << 18);
      g_autoptr (GBytes) jpeg = NULL;

      for (int j = 0; j < 1 << 18; j++)
        noise[j] = pin_dice_next (&dice);
      jpeg = g_bytes_new_take (noise, 1 << 20);
      pin_batch_photo (batch, &(PinPhoto){ .of = self->vehicle, .jpeg = jpeg,
                                           .day = (char *) "2026-01-05" });
    }
  pin_book_commit (self->book, batch, &error);
  NO_ERROR (error);
}

static void
back_up (gpointer data)
{
  Bench *self = data;
  g_autofree char *to = g_build_filename (self->folder, "copy.hingepin", NULL);
  g_autoptr (GError) error = NULL;

  g_unlink (to);
  pin_book_backup (self->book, to, NULL, NULL, NULL, &error);
  NO_ERROR (error);
}

static void
copy_bare (gpointer data)
{
  Bench *self = data;
  g_autofree char *to = g_build_filename (self->folder, "copy.bare", NULL);
  int from = open (pin_book_path (self->book), O_RDONLY);
  int out = open (to, O_WRONLY | O_CREAT | O_TRUNC, 0600);
  static char block[1 << 16];
  ssize_t n;

  while ((n = read (from, block, sizeof block)) > 0)
    if (write (out, block, (size_t) n) != n)
      g_error ("%s: %s", to, g_strerror (errno));
  fsync (out);
  close (out);
  close (from);
}

int
main (void)
{
  static const BigBookSize size = { .vehicles = 1, .years = 1, .outings = 20, .inspections = 5 };
  g_autofree char *folder = bench_folder_new ();
  g_autofree char *path = g_build_filename (folder, "work.hingepin", NULL);
  g_autoptr (GArray) vehicles = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_autoptr (GArray) walks = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_autoptr (GError) error = NULL;
  Bench self = { .folder = folder };

  self.library = pin_library_new_default (&error);
  NO_ERROR (error);
  bench_say ("all texts, through the gate", bench_time (read_library, NULL, 11), "ms",
             bench_time (parse_files, NULL, 11), "libxml2 alone, the same files");
  self.book = big_book_make (path, self.library, &size, vehicles, walks);
  self.vehicle = g_array_index (vehicles, gint64, 0);
  self.walk = g_array_index (walks, gint64, 0);
  bench_walk (&self);
  bench_answer (&self);
  grow (&self);
  bench_say ("a copy of a book of 50 MB, proved", bench_time (back_up, &self, 5), "ms",
             bench_time (copy_bare, &self, 5), "copying the file, fsync");
  pin_book_close (self.book);
  pin_library_free (self.library);
  bench_folder_free (folder);
  return 0;
}
