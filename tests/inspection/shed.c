#include "shed.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "base/day.h"

static char *
make_folder (void)
{
  g_autoptr (GError) error = NULL;
  /* In memory where that can be had: a walk waits for the disk at each answer. */
  char *folder = g_file_test ("/dev/shm", G_FILE_TEST_IS_DIR) ? g_mkdtemp (g_strdup ("/dev/shm/shed-XXXXXX")) : NULL;

  if (folder == NULL)
    folder = g_dir_make_tmp ("shed-XXXXXX", &error);

  g_assert_no_error (error);
  return folder;
}

Shed *
shed_new (const char *chassis)
{
  Shed *shed = g_new0 (Shed, 1);
  g_autoptr (GError) error = NULL;
  g_autoptr (PinDeedDone) done = NULL;
  PinNewVehicle what = PIN_NEW_VEHICLE_INIT;

  shed->folder = make_folder ();
  shed->path = g_build_filename (shed->folder, "test.hingepin", NULL);
  shed->library = pin_library_new (g_getenv ("HINGEPIN_DATA_DIR"), shed->folder, &error);
  g_assert_no_error (error);
  shed->book = pin_book_create (shed->path, &error);
  g_assert_no_error (error);
  what.name = "Test car";
  what.chassis = chassis;
  what.seconds = 0;
  done = pin_deed_done_new (shed->book, "AB");
  shed->vehicle = pin_inventory_add_vehicle (done, shed->library, &what, NULL, &error);
  g_assert_no_error (error);
  pin_book_commit (shed->book, pin_deed_done_batch (done), &error);
  g_assert_no_error (error);
  return shed;
}

void
shed_free (Shed *shed)
{
  g_clear_pointer (&shed->walk, pin_walk_free);
  g_clear_pointer (&shed->book, pin_book_close);
  g_clear_pointer (&shed->library, pin_library_free);
  g_unlink (shed->path);
  g_rmdir (shed->folder);
  g_free (shed->path);
  g_free (shed->folder);
  g_free (shed);
}

/* As after a power cut: everything from the file. */
void
shed_reopen (Shed *shed)
{
  g_autoptr (GError) error = NULL;

  pin_book_close (shed->book);
  shed->book = pin_book_open (shed->path, FALSE, &error);
  g_assert_no_error (error);
  if (shed->walk)
    shed_reload (shed);
}

typedef struct
{
  gint64 id;
  gboolean closed_too;
} Of;

static gpointer
load_car (PinDb *db, gpointer data, GError **error)
{
  return pin_car_rows_load (db, ((Of *) data)->id, error);
}

PinCar *
shed_car (Shed *shed)
{
  g_autoptr (GError) error = NULL;
  Of of = { shed->vehicle, FALSE };
  PinCarRows *rows = pin_book_run (shed->book, load_car, &of, &error);
  PinCar *car;

  g_assert_no_error (error);
  car = pin_car_new (rows, shed->library, &error);
  g_assert_no_error (error);
  return car;
}

static gpointer
load_walk (PinDb *db, gpointer data, GError **error)
{
  return pin_walk_rows_load (db, ((Of *) data)->id, error);
}

static PinWalk *
walk_of (Shed *shed, gint64 id)
{
  g_autoptr (GError) error = NULL;
  Of of = { id, FALSE };
  PinWalkRows *rows = pin_book_run (shed->book, load_walk, &of, &error);
  PinWalk *walk;

  g_assert_no_error (error);
  walk = pin_walk_new (rows, shed->library, &error);
  g_assert_no_error (error);
  return walk;
}

void
shed_shelve (Shed *shed, const char *name, const char *xml)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_build_filename (shed->folder, name, NULL);
  g_autofree char *folder = g_path_get_dirname (path);
  gint64 open = shed->walk ? pin_walk_id (shed->walk) : 0;

  g_mkdir (folder, 0700);
  if (xml)
    g_file_set_contents (path, xml, -1, &error);
  else
    g_unlink (path);
  g_assert_no_error (error);
  g_rmdir (folder);             /* goes when it is empty */
  g_clear_pointer (&shed->walk, pin_walk_free);
  pin_library_free (shed->library);
  shed->library = pin_library_new (g_getenv ("HINGEPIN_DATA_DIR"), shed->folder, &error);
  g_assert_no_error (error);
  pin_library_fill (shed->library);
  for (guint i = 0; i < pin_library_troubles (shed->library)->len; i++)
    g_error ("%s", ((PinTrouble *) pin_library_troubles (shed->library)->pdata[i])->message);
  if (open)
    shed->walk = walk_of (shed, open);
}

void
shed_reload (Shed *shed)
{
  PinWalk *fresh = walk_of (shed, pin_walk_id (shed->walk));

  pin_walk_free (shed->walk);
  shed->walk = fresh;
}

static void
commit (Shed *shed, PinBatch *batch)
{
  g_autoptr (GError) error = NULL;

  pin_book_commit (shed->book, batch, &error);
  g_assert_no_error (error);
}

void
shed_begin (Shed *shed, const char *what)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PinCar) car = shed_car (shed);
  g_autoptr (PinBatch) batch = pin_batch_new (shed->book);
  gint64 id = pin_walk_begin (batch, shed->library, car, what, "AB", &error);

  g_assert_no_error (error);
  commit (shed, batch);
  g_clear_pointer (&shed->walk, pin_walk_free);
  shed->walk = walk_of (shed, id);
}

void
shed_answer (Shed *shed, const char *line)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PinBatch) batch = pin_batch_new (shed->book);
  g_autofree char *sign_by = NULL;
  gboolean nothing;

  pin_answers_line (shed->walk, line, "AB", batch, &nothing, &sign_by, &error);
  if (error)
    g_error ("%s: %s", line, error->message);
  commit (shed, batch);
  shed_reload (shed);
}

void
shed_refuse (Shed *shed, const char *line, const char *message_has)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PinBatch) batch = pin_batch_new (shed->book);
  g_autofree char *sign_by = NULL;
  gboolean nothing;

  g_assert_false (pin_answers_line (shed->walk, line, "AB", batch, &nothing, &sign_by, &error));
  g_assert_nonnull (error);
  if (strstr (error->message, message_has) == NULL)
    g_error ("%s: “%s” does not say “%s”", line, error->message, message_has);
  g_assert_true (pin_batch_is_empty (batch));
}

void
shed_undo (Shed *shed)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PinBatch) batch = pin_batch_new (shed->book);

  pin_walk_undo (shed->walk, "AB", batch, NULL, &error);
  g_assert_no_error (error);
  commit (shed, batch);
  shed_reload (shed);
}

void
shed_sign (Shed *shed)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PinBatch) batch = pin_batch_new (shed->book);

  pin_walk_sign (shed->walk, "AB", batch, &error);
  g_assert_no_error (error);
  commit (shed, batch);
  shed_reload (shed);
}

void
shed_abandon (Shed *shed)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PinBatch) batch = pin_batch_new (shed->book);

  pin_walk_abandon (shed->walk, "AB", batch, &error);
  g_assert_no_error (error);
  commit (shed, batch);
}

static const char *
passing_grade (const PinStep *step)
{
  for (guint i = 0; i < step->grades->len; i++)
    {
      const PinGrade *grade = g_ptr_array_index (step->grades, i);

      if (grade->outcome == PIN_OUTCOME_PASS)
        return grade->id;
    }
  return ((PinGrade *) g_ptr_array_index (step->grades, 0))->id;
}

char *
shed_pass (Shed *shed, const PinQuestion *question)
{
  const PinStep *step = question->step;
  int n;

  if (question->kind == PIN_QUESTION_WAY)
    return g_strdup_printf ("%s\t%s", question->key,
                            ((PinWay *) g_ptr_array_index (question->ways->ways, 0))->id);
  switch (pin_question_kind (question))
    {
    case PIN_ANSWER_CHOOSE:
      return g_strdup_printf ("%s\t%s", question->key, passing_grade (step));
    case PIN_ANSWER_MEASURE:
      return g_strdup_printf ("%s\t10\toutcome=pass", question->key);
    case PIN_ANSWER_COUNT:
      n = pin_question_count (question);
      return g_strdup_printf ("%s\t%d/%d", question->key, n, n);
    case PIN_ANSWER_PLAIN:
      return g_strdup_printf ("%s\tpass", question->key);
    case PIN_ANSWER_WORK:
      break;
    }
  if (step && step->deeds && step->deeds[0] && step->deeds[1])
    return g_strdup_printf ("%s\tdone\tdeed=%s", question->key, step->deeds[0]);
  return g_strdup_printf ("%s\tdone", question->key);
}

const char *
shed_next (Shed *shed)
{
  int next = pin_walk_next (shed->walk);

  if (next < 0)
    return "sign-off";
  return ((PinQuestion *) g_ptr_array_index (pin_walk_questions (shed->walk), next))->key;
}

void
shed_until (Shed *shed, const char *key_has)
{
  for (int guard = 0; strstr (shed_next (shed), key_has) == NULL; guard++)
    {
      const PinQuestion *question;
      g_autofree char *line = NULL;

      g_assert_cmpint (guard, <, 2000);
      if (pin_walk_next (shed->walk) < 0)
        g_error ("the walk ends before it asks %s", key_has);
      question = g_ptr_array_index (pin_walk_questions (shed->walk), pin_walk_next (shed->walk));
      line = shed_pass (shed, question);
      shed_answer (shed, line);
    }
}

void
shed_finish (Shed *shed)
{
  shed_until (shed, "sign-off");
}

static gpointer
load_findings (PinDb *db, gpointer data, GError **error)
{
  const Of *of = data;

  return pin_query_findings (db, of->id, of->closed_too, error);
}

GPtrArray *
shed_findings (Shed *shed, gboolean closed_too)
{
  g_autoptr (GError) error = NULL;
  Of of = { shed->vehicle, closed_too };
  GPtrArray *rows = pin_book_run (shed->book, load_findings, &of, &error);

  g_assert_no_error (error);
  return rows;
}

guint
shed_n_findings (Shed *shed)
{
  g_autoptr (GPtrArray) findings = shed_findings (shed, FALSE);

  return findings->len;
}

void
shed_outing (Shed *shed, const char *day)
{
  g_autoptr (PinBatch) batch = pin_batch_new (shed->book);

  pin_batch_outing (batch, &(PinOuting){ .vehicle = shed->vehicle, .day = (char *) day, .seconds = 1200,
                                         .runs = 1, .litres = 0, .salt = -1, .knocks = -1, .ambient = 20 });
  commit (shed, batch);
}
