#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "base/day.h"
#include "book/db-private.h"
#include "book/keeping.h"
#include "demo/demo.h"
#include "demo/dice.h"
#include "service/part-history.h"
#include "service/stable.h"
#include "service/vehicle-view.h"
#include "service/walk-record.h"

#define TODAY "2026-11-25"

static char *folder;
static PinLibrary *library;

static char *
path_of (const char *name)
{
  return g_build_filename (folder, name, NULL);
}

static void
make (const char *path)
{
  g_autoptr (GError) error = NULL;

  pin_demo_make (path, library, TODAY, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
}

static PinBook *
open_book (const char *path)
{
  g_autoptr (GError) error = NULL;
  PinBook *book = pin_book_open (path, FALSE, &error);

  g_assert_no_error (error);
  return book;
}

static gpointer
load_stable (PinDb *db, gpointer data, GError **error)
{
  return pin_stable_rows_load (db, error);
}

static PinStable *
stable_of (PinBook *book)
{
  g_autoptr (GError) error = NULL;
  PinStableRows *rows = pin_book_run (book, load_stable, NULL, &error);
  PinStable *stable;

  g_assert_no_error (error);
  stable = pin_stable_new (rows, library, pin_now (), &error);
  g_assert_no_error (error);
  return stable;
}

static gpointer
load_view (PinDb *db, gpointer data, GError **error)
{
  return pin_vehicle_rows_load (db, *(gint64 *) data, error);
}

static PinVehicleView *
view_of (PinBook *book, gint64 vehicle)
{
  g_autoptr (GError) error = NULL;
  PinVehicleRows *rows = pin_book_run (book, load_view, &vehicle, &error);
  PinVehicleView *view;

  g_assert_no_error (error);
  view = pin_vehicle_view_new (rows, library, pin_now (), &error);
  g_assert_no_error (error);
  return view;
}

/* ---- What the stable comes to ---- */

static void
test_levels (void)
{
  static const struct { const char *name; PinLevel level; } expected[] = {
    { "Gravel Ann", PIN_LEVEL_NOT_READY },
    { "Number Seven", PIN_LEVEL_WATCH },
    { "Plum", PIN_LEVEL_NOT_READY },
    { "Marsh Hare", PIN_LEVEL_UNSAFE },
    { "Tin Kettle", PIN_LEVEL_READY },
    { "Old Toast", PIN_LEVEL_NOT_KNOWN } };
  g_autofree char *path = path_of ("levels.hingepin");
  g_autoptr (PinBook) book = NULL;
  g_autoptr (PinStable) stable = NULL;

  make (path);
  book = open_book (path);
  stable = stable_of (book);
  g_assert_cmpuint (stable->vehicles->len, ==, G_N_ELEMENTS (expected));
  for (gsize i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      g_autoptr (GError) error = NULL;
      PinStableVehicle *vehicle = pin_stable_find (stable, expected[i].name, &error);

      g_assert_no_error (error);
      g_test_message (
          "%s: %s, %s %s", vehicle->name, pin_level_word (vehicle->readiness->level),
          pin_readiness_text (vehicle->readiness), pin_level_title (vehicle->readiness->level));
      for (guint j = 0; j < vehicle->readiness->reasons->len; j++)
        g_test_message ("    %s", ((PinReason *) vehicle->readiness->reasons->pdata[j])->text);
      g_assert_cmpint (vehicle->readiness->level, ==, expected[i].level);
    }
  g_test_message ("%s", stable->sentence);
  g_assert_true (
      g_str_has_prefix (stable->sentence, "Two of six are ready; Marsh Hare must not run"));
}

static void
test_verify (void)
{
  g_autofree char *path = path_of ("levels.hingepin");
  g_autoptr (PinBook) book = open_book (path);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) problems = pin_book_verify (book, &error);

  g_assert_no_error (error);
  for (guint i = 0; i < problems->len; i++)
    g_test_message ("%s", (char *) problems->pdata[i]);
  g_assert_cmpuint (problems->len, ==, 0);
}

static gboolean
has_open_walk (const PinVehicleView *view)
{
  for (guint i = 0; i < view->inspections->len; i++)
    if (g_str_equal (((PinInspectionLine *) view->inspections->pdata[i])->verdict, "open"))
      return TRUE;
  return FALSE;
}

static void
test_something_to_show (void)
{
  g_autofree char *path = path_of ("levels.hingepin");
  g_autoptr (PinBook) book = open_book (path);
  g_autoptr (PinStable) stable = stable_of (book);

  for (guint i = 0; i < stable->vehicles->len; i++)
    {
      PinStableVehicle *vehicle = stable->vehicles->pdata[i];
      g_autoptr (PinVehicleView) view = view_of (book, vehicle->id);

      g_test_message ("%s: %s; %u parts, %u outings, %u inspections, %u findings, %u groups",
                      vehicle->name, view->usage_text, view->parts->len, view->outings->len,
                      view->inspections->len, view->findings->len, view->setup->len);
      g_assert_cmpuint (view->outings->len, >, 10);
      g_assert_cmpuint (view->inspections->len, >, 0);
      g_assert_cmpuint (view->works->len, >, 0);
      g_assert_cmpuint (view->setup->len, >, 2);
      g_assert_cmpint (has_open_walk (view), ==, g_str_equal (vehicle->name, "Plum"));
      g_assert_cmpint (view->car->tray->len > 0, ==, g_str_equal (vehicle->name, "Plum"));
    }
}

static const PinInspectionLine *
inspection_of (const PinVehicleView *view, const char *what)
{
  for (guint i = 0; i < view->inspections->len; i++)
    if (g_str_equal (((PinInspectionLine *) view->inspections->pdata[i])->what, what))
      return view->inspections->pdata[i];
  return NULL;
}

static gpointer
load_draft (PinDb *db, gpointer data, GError **error)
{
  return pin_query_draft (db, *(gint64 *) data, error);
}

static gpointer
load_walk (PinDb *db, gpointer data, GError **error)
{
  return pin_walk_rows_load (db, *(gint64 *) data, error);
}

/* All of the crawler was looked at and measured, and nothing is wrong. */
static void
test_sound_teardown (void)
{
  g_autofree char *path = path_of ("levels.hingepin");
  g_autoptr (PinBook) book = open_book (path);
  g_autoptr (PinStable) stable = stable_of (book);
  g_autoptr (PinVehicleView) kettle =
      view_of (book, pin_stable_find (stable, "Tin Kettle", NULL)->id);
  const PinInspectionLine *line = inspection_of (kettle, "quarterly");
  g_autoptr (GError) error = NULL;
  g_autoptr (PinWalkRecord) record = NULL;
  gint64 id;

  g_assert_true (line == kettle->inspections->pdata[0]);
  g_assert_cmpstr (line->verdict, ==, "signed");
  id = line->id;
  record = pin_walk_record_new (pin_book_run (book, load_walk, &id, NULL), library, &error);
  g_assert_no_error (error);
  g_assert_cmpint (record->failed, ==, 0);
  g_assert_cmpint (record->n_not_checked, ==, 0);
  g_assert_cmpint (record->passed, >, 60);
}

/* The teardown is signed, with what was found and what was not looked at. */
static void
test_teardown (void)
{
  g_autofree char *path = path_of ("levels.hingepin");
  g_autoptr (PinBook) book = open_book (path);
  g_autoptr (PinStable) stable = stable_of (book);
  g_autoptr (PinVehicleView) ann =
      view_of (book, pin_stable_find (stable, "Gravel Ann", NULL)->id);
  const PinInspectionLine *line = inspection_of (ann, "quarterly");
  g_autoptr (GError) error = NULL;
  g_autoptr (PinWalkRecord) record = NULL;
  gint64 id;

  g_assert_nonnull (line);
  g_assert_cmpstr (line->verdict, ==, "signed");
  id = line->id;
  record = pin_walk_record_new (pin_book_run (book, load_walk, &id, NULL), library, &error);
  g_assert_no_error (error);
  g_assert_cmpint (record->failed, ==, 1);
  g_assert_cmpint (record->n_not_checked, >=, 3);
  g_assert_cmpint (record->passed, >, 60);
}

static void
test_draft (void)
{
  g_autofree char *path = path_of ("levels.hingepin"), *draft = NULL;
  g_autoptr (PinBook) book = open_book (path);
  g_autoptr (PinStable) stable = stable_of (book);
  gint64 walk = pin_stable_find (stable, "Plum", NULL)->open_walk;

  draft = pin_book_run (book, load_draft, &walk, NULL);
  g_assert_nonnull (draft);
  g_assert_nonnull (strstr (draft, "left post feels"));
}

/* ---- Something in every drawer ---- */

static gpointer
count (PinDb *db, gpointer sql, GError **error)
{
  gint64 n = -1;

  pin_db_int (db, sql, 0, &n, error);
  return GSIZE_TO_POINTER ((gsize) n);
}

static int
count_of (PinBook *book, const char *sql)
{
  g_autoptr (GError) error = NULL;
  gpointer n = pin_book_run (book, count, (gpointer) sql, &error);

  g_assert_no_error (error);
  return GPOINTER_TO_INT (n);
}

static void
test_every_table (void)
{
  static const char *const tables[] = {
    "book", "source", "vehicle", "place", "part", "supply", "trait", "fitting", "outing",
    "outing_part", "inspection", "walk_plan", "draft", "sign_off", "answer", "reading", "work",
    "owed", "finding", "own_rule", "own_limit", "stock", "photo", "image", "meter", "standing",
    "mark" };
  g_autofree char *path = path_of ("levels.hingepin");
  g_autoptr (PinBook) book = open_book (path);

  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    {
      g_autofree char *sql = g_strdup_printf ("SELECT count (*) FROM %s", tables[i]);

      g_test_message ("%s: %d", tables[i], count_of (book, sql));
      g_assert_cmpint (count_of (book, sql), >, 0);
    }
  /* The newest copy made is no fact: this is the whole of the book. */
  g_assert_cmpint (count_of (book, "SELECT count (*) FROM sqlite_schema WHERE type = 'table'"),
                   ==, G_N_ELEMENTS (tables) + 1);
}

static void
test_every_sort (void)
{
  static const struct { const char *sql; int at_least; } sorts[] = {
    { "SELECT count (*) FROM part WHERE kind = 'pack'", 7 },
    { "SELECT count (*) FROM part WHERE made_from IS NOT NULL", 3 },
    { "SELECT count (DISTINCT part) FROM outing_part", 11 },
    { "SELECT count (*) FROM outing_part WHERE runs > 0 AND seconds > 0", 400 },
    /* A pack that more than one car has used. */
    { "SELECT count (*) FROM (SELECT part FROM outing_part JOIN outing ON outing.id = outing"
      " GROUP BY part HAVING count (DISTINCT vehicle) > 1)", 4 },
    { "SELECT count (*) FROM reading WHERE quantity = 'resistance'"
      " AND conditions LIKE 'ambient=%;charge=storage;charger=own' AND repeats IS NOT NULL", 15 },
    { "SELECT count (*) FROM fitting WHERE shelf = 'shelf'", 10 },
    /* A part that has been on two cars. */
    { "SELECT count (*) FROM (SELECT part FROM fitting JOIN place ON place.id = fitting.place"
      " GROUP BY part HAVING count (DISTINCT vehicle) > 1)", 1 },
    { "SELECT count (*) FROM stock WHERE amount > 0 AND cost > 0", 8 },
    { "SELECT count (*) FROM stock JOIN work ON work.id = stock.cause WHERE amount < 0", 7 },
    { "SELECT count (*) FROM own_rule WHERE thing IS NULL AND live", 1 },
    { "SELECT count (*) FROM own_rule JOIN vehicle ON vehicle.id = thing", 2 },
    { "SELECT count (*) FROM own_rule JOIN part ON part.id = thing", 1 },
    { "SELECT count (*) FROM own_rule WHERE every IS NULL", 1 },
    { "SELECT count (*) FROM own_rule WHERE replaces IS NOT NULL", 1 },
    { "SELECT count (*) FROM own_limit WHERE json_valid (band)", 1 },
    { "SELECT count (*) FROM owed s JOIN owed d ON d.id = s.settles"
      " WHERE d.what = 'job:after-wet'", 2 },
    { "SELECT count (*) FROM owed d WHERE what = 'job:after-wet' AND settles IS NULL"
      " AND NOT EXISTS (SELECT 1 FROM owed s WHERE s.settles = d.id)", 1 },
    { "SELECT count (*) FROM sign_off WHERE verdict = 'abandoned'", 1 },
    { "SELECT count (*) FROM answer WHERE replaces IS NOT NULL AND NOT void", 1 },
    { "SELECT count (*) FROM reading WHERE void", 1 },
    { "SELECT count (*) FROM outing WHERE void", 1 },
    { "SELECT count (*) FROM outing WHERE note IS NOT NULL", 3 },
    { "SELECT count (*) FROM trait WHERE code = 'note'", 3 },
    { "SELECT count (*) FROM photo JOIN answer ON answer.id = photo.of", 1 },
    { "SELECT count (*) FROM work WHERE told", 1 },
  };
  g_autofree char *path = path_of ("levels.hingepin");
  g_autoptr (PinBook) book = open_book (path);

  for (gsize i = 0; i < G_N_ELEMENTS (sorts); i++)
    {
      g_test_message ("%d: %s", count_of (book, sorts[i].sql), sorts[i].sql);
      g_assert_cmpint (count_of (book, sorts[i].sql), >=, sorts[i].at_least);
    }
}

/* Plum was run wet and still has to be dried. */
static void
test_open_job (void)
{
  g_autofree char *path = path_of ("levels.hingepin");
  g_autoptr (PinBook) book = open_book (path);
  g_autoptr (PinStable) stable = stable_of (book);

  for (guint i = 0; i < stable->vehicles->len; i++)
    {
      PinStableVehicle *vehicle = stable->vehicles->pdata[i];
      g_autoptr (PinVehicleView) view = view_of (book, vehicle->id);
      gboolean open = FALSE;

      for (guint j = 0; j < view->car->rows->owed->len; j++)
        open = open || g_str_equal (((PinOwed *) view->car->rows->owed->pdata[j])->what,
                                    "job:after-wet");
      g_assert_cmpint (open, ==, g_str_equal (vehicle->name, "Plum"));
    }
}

/* ---- The file ---- */

static void
test_same_again (void)
{
  g_autofree char *one = path_of ("levels.hingepin"), *two = path_of ("again.hingepin");
  g_autoptr (PinBook) a = open_book (one);
  g_autoptr (PinBook) b = NULL;
  g_autoptr (PinStable) first = stable_of (a);
  g_autoptr (PinStable) second = NULL;

  make (two);
  b = open_book (two);
  second = stable_of (b);
  for (guint i = 0; i < first->vehicles->len; i++)
    {
      PinStableVehicle *x = first->vehicles->pdata[i], *y = second->vehicles->pdata[i];
      g_autoptr (PinVehicleView) v = view_of (a, x->id);
      g_autoptr (PinVehicleView) w = view_of (b, y->id);

      g_assert_cmpstr (x->name, ==, y->name);
      g_assert_cmpstr (v->usage_text, ==, w->usage_text);
      g_assert_cmpuint (v->readings->len, ==, w->readings->len);
      for (guint j = 0; j < v->readings->len; j++)
        {
          const PinReading *p = v->readings->pdata[j], *q = w->readings->pdata[j];

          g_assert_cmpstr (p->typed, ==, q->typed);
          g_assert_cmpint (p->at, ==, q->at);
        }
      g_assert_cmpuint (v->works->len, ==, w->works->len);
      g_assert_cmpuint (v->findings->len, ==, w->findings->len);
    }
}

static void
test_overwrites_only_a_demo (void)
{
  g_autofree char *demo = path_of ("again.hingepin"), *own = path_of ("own.hingepin"),
                  *text = path_of ("text.hingepin");
  g_autoptr (GError) error = NULL;
  g_autoptr (PinBook) book = pin_book_create (own, &error);
  g_autofree char *kept = NULL;

  g_assert_no_error (error);
  g_clear_pointer (&book, pin_book_close);
  g_assert_false (pin_demo_make (own, library, TODAY, NULL, NULL, NULL, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_EXISTS);
  g_clear_error (&error);
  g_file_set_contents (text, "dear diary", -1, NULL);
  g_assert_false (pin_demo_make (text, library, TODAY, NULL, NULL, NULL, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_EXISTS);
  g_file_get_contents (text, &kept, NULL, NULL);
  g_assert_cmpstr (kept, ==, "dear diary");
  make (demo);
}

static void
stop_half_way (double done, gpointer cancellable)
{
  if (done > 0.5)
    g_cancellable_cancel (cancellable);
}

static void
test_cancelled (void)
{
  g_autofree char *path = path_of ("cancelled.hingepin"),
                  *made = g_strconcat (path, ".new", NULL);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *before = pin_today (), *after = NULL;

  g_assert_false (
      pin_demo_make (path, library, TODAY, stop_half_way, cancellable, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  g_assert_false (g_file_test (made, G_FILE_TEST_EXISTS));
  after = pin_today ();
  g_assert_cmpstr (before, ==, after);
}

static void
test_dice (void)
{
  PinDice dice;
  double sum = 0;

  pin_dice_seed (&dice, 1);
  g_assert_cmphex (pin_dice_next (&dice), ==, 0x910a2dec);
  for (int i = 0; i < 10000; i++)
    {
      int n = pin_dice_int (&dice, 2, 4);
      double spread = pin_dice_spread (&dice);

      g_assert_true (n >= 2 && n <= 4);
      g_assert_true (spread >= -1 && spread <= 1);
      sum += spread;
    }
  g_assert_cmpfloat (fabs (sum / 10000), <, 0.02);
  g_assert_cmpfloat (pin_text_spread ("a"), ==, pin_text_spread ("a"));
  g_assert_cmpfloat (pin_text_spread ("a"), !=, pin_text_spread ("b"));
}

static void
remove_all (void)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = path_of (name);

      g_unlink (path);
    }
  g_rmdir (folder);
}

int
main (int argc, char *argv[])
{
  int status;

  g_test_init (&argc, &argv, NULL);
  pin_set_today (TODAY, NULL);
  folder = g_dir_make_tmp ("demo-XXXXXX", NULL);
  library = pin_library_new (g_getenv ("HINGEPIN_DATA_DIR"), NULL, NULL);
  g_test_add_func ("/demo/dice", test_dice);
  g_test_add_func ("/demo/levels", test_levels);
  g_test_add_func ("/demo/verify", test_verify);
  g_test_add_func ("/demo/something-to-show", test_something_to_show);
  g_test_add_func ("/demo/teardown", test_teardown);
  g_test_add_func ("/demo/sound-teardown", test_sound_teardown);
  g_test_add_func ("/demo/draft", test_draft);
  g_test_add_func ("/demo/every-table", test_every_table);
  g_test_add_func ("/demo/every-sort", test_every_sort);
  g_test_add_func ("/demo/open-job", test_open_job);
  g_test_add_func ("/demo/same-again", test_same_again);
  g_test_add_func ("/demo/overwrites-only-a-demo", test_overwrites_only_a_demo);
  g_test_add_func ("/demo/cancelled", test_cancelled);
  status = g_test_run ();
  pin_library_free (library);
  remove_all ();
  g_free (folder);
  return status;
}
