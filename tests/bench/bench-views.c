/* The pages of the window, without the window: what they read from the book
 * and what they make of it, on a stable of 200 vehicles and on a book of ten
 * years.  Yardstick: the same rows by bare SQL. */

#include <glib/gstdio.h>
#include <math.h>
#include <sqlite3.h>

#include "base/day.h"
#include "big-book.h"
#include "folder.h"
#include "gauge.h"
#include "inspection/walk.h"
#include "service/part-history.h"
#include "service/stable.h"
#include "service/vehicle-view.h"

typedef struct
{
  PinBook *book;
  PinLibrary *library;
  sqlite3 *bare;
  const char *sql;
  gint64 id;                  /* vehicle or inspection */
  GArray *parts;
  gboolean view;              /* rows alone, or also what is shown */
} Look;

#define NO_ERROR(error) \
  G_STMT_START { if ((error) != NULL) g_error ("%s", (error)->message); } G_STMT_END

/* ---- The yardstick ---- */

static void
bare_rows (gpointer data)
{
  Look *look = data;
  const char *rest = look->sql;

  while (*rest != '\0')
    {
      sqlite3_stmt *stmt;

      if (sqlite3_prepare_v2 (look->bare, rest, -1, &stmt, &rest) != SQLITE_OK)
        g_error ("%s", sqlite3_errmsg (look->bare));
      sqlite3_bind_int64 (stmt, 1, look->id);
      while (sqlite3_step (stmt) == SQLITE_ROW)
        for (int i = 0; i < sqlite3_column_count (stmt); i++)
          sqlite3_column_text (stmt, i);
      sqlite3_finalize (stmt);
    }
}

/* ---- What is measured ---- */

static gpointer
load_stable (PinDb *db, gpointer data, GError **error)
{
  return pin_stable_rows_load (db, error);
}

static void
look_stable (gpointer data)
{
  Look *look = data;
  g_autoptr (GError) error = NULL;
  PinStableRows *rows = pin_book_run (look->book, load_stable, NULL, &error);

  NO_ERROR (error);
  if (look->view)
    pin_stable_free (pin_stable_new (rows, look->library, pin_now (), &error));
  else
    pin_stable_rows_free (rows);
  NO_ERROR (error);
}

static gpointer
load_vehicle (PinDb *db, gpointer data, GError **error)
{
  return pin_vehicle_rows_load (db, *(gint64 *) data, error);
}

static void
look_vehicle (gpointer data)
{
  Look *look = data;
  g_autoptr (GError) error = NULL;
  PinVehicleRows *rows = pin_book_run (look->book, load_vehicle, &look->id, &error);

  NO_ERROR (error);
  if (look->view)
    pin_vehicle_view_free (pin_vehicle_view_new (rows, look->library, pin_now (), &error));
  else
    pin_vehicle_rows_free (rows);
  NO_ERROR (error);
}

static gpointer
load_history (PinDb *db, gpointer data, GError **error)
{
  return pin_history_rows_load (db, data, error);
}

static void
look_history (gpointer data)
{
  Look *look = data;
  g_autoptr (GError) error = NULL;
  PinHistoryRows *rows = pin_book_run (look->book, load_history, look->parts, &error);

  NO_ERROR (error);
  if (look->view)
    g_ptr_array_unref (pin_history_new (rows, look->library, NULL));
  pin_history_rows_free (rows);
}

static gpointer
load_walk (PinDb *db, gpointer data, GError **error)
{
  return pin_walk_rows_load (db, *(gint64 *) data, error);
}

static void
look_walk (gpointer data)
{
  Look *look = data;
  g_autoptr (GError) error = NULL;
  PinWalkRows *rows = pin_book_run (look->book, load_walk, &look->id, &error);

  NO_ERROR (error);
  if (look->view)
    pin_walk_free (pin_walk_new (rows, look->library, &error));
  else
    pin_walk_rows_free (rows);
  NO_ERROR (error);
}

/* ---- The table ---- */

/* What facts can be about: the vehicle, its places, the parts on it. */
#define THINGS_OF(vehicle_) \
  "(SELECT " vehicle_ " UNION ALL SELECT id FROM place WHERE vehicle = " vehicle_ \
  " UNION ALL SELECT part FROM standing WHERE vehicle = " vehicle_ ")"
#define CAR_ROWS_OF(vehicle_) \
  "SELECT * FROM place WHERE vehicle = " vehicle_ ";" \
  "SELECT * FROM standing WHERE vehicle = " vehicle_ ";" \
  "SELECT * FROM trait WHERE live AND thing IN " THINGS_OF (vehicle_) ";" \
  "SELECT * FROM finding WHERE live AND opens IS NULL AND vehicle = " vehicle_ ";" \
  "SELECT * FROM inspection WHERE vehicle = " vehicle_ ";"
#define DONE_ON(vehicle_) \
  "SELECT * FROM work WHERE live AND thing IN " THINGS_OF (vehicle_) " ORDER BY day, id;" \
  "SELECT * FROM reading WHERE live AND thing IN " THINGS_OF (vehicle_) " ORDER BY day, id;"
#define STABLE_ROWS \
  "SELECT * FROM vehicle JOIN meter ON meter.vehicle = id; SELECT * FROM place;" \
  "SELECT * FROM standing WHERE vehicle IS NOT NULL; SELECT * FROM trait WHERE live;" \
  "SELECT * FROM finding WHERE live AND opens IS NULL; SELECT * FROM inspection;"
#define VEHICLE_ROWS CAR_ROWS_OF ("?1") DONE_ON ("?1") \
  "SELECT * FROM outing WHERE live AND vehicle = ?1;"
/* As parts_of() picks them. */
#define FOUR_BEARINGS \
  "(SELECT part FROM standing WHERE vehicle = ?1 AND kind = 'bearing' ORDER BY part LIMIT 4)"
#define HISTORY_ROWS \
  "SELECT * FROM work WHERE live AND thing IN " FOUR_BEARINGS ";" \
  "SELECT * FROM answer WHERE live AND part IN " FOUR_BEARINGS ";" \
  "SELECT * FROM reading WHERE live AND thing IN " FOUR_BEARINGS ";" \
  "SELECT * FROM fitting WHERE live AND part IN " FOUR_BEARINGS ";"
/* A walk knows its car, and what was ever measured and done on it. */
#define WALKED "(SELECT vehicle FROM inspection WHERE id = ?1)"
#define WALK_ROWS CAR_ROWS_OF (WALKED) DONE_ON (WALKED) \
  "SELECT * FROM answer WHERE inspection = ?1 AND live;"

static void
compare (Look *look, const char *name, BenchJob job, const char *sql, int rounds)
{
  g_autofree char *rows_name = g_strdup_printf ("%s: rows from the book", name);
  g_autofree char *all_name = g_strdup_printf ("%s: rows and what is shown", name);
  double bare;

  look->sql = sql;
  bare = bench_time (bare_rows, look, rounds);
  look->view = FALSE;
  bench_say (rows_name, bench_time (job, look, rounds), "ms", bare, "bare SQL, the same rows");
  look->view = TRUE;
  bench_say (all_name, bench_time (job, look, rounds), "ms", bare, "bare SQL, the same rows");
}

static GArray *
parts_of (sqlite3 *bare, gint64 vehicle, int most)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (gint64));
  sqlite3_stmt *stmt;

  sqlite3_prepare_v2 (bare, "SELECT part FROM standing WHERE vehicle = ?1 AND kind = 'bearing' "
                            "ORDER BY part LIMIT ?2", -1, &stmt, NULL);
  sqlite3_bind_int64 (stmt, 1, vehicle);
  sqlite3_bind_int (stmt, 2, most);
  while (sqlite3_step (stmt) == SQLITE_ROW)
    {
      gint64 part = sqlite3_column_int64 (stmt, 0);

      g_array_append_val (parts, part);
    }
  sqlite3_finalize (stmt);
  return parts;
}

static void
bench_stable (PinLibrary *library, const char *folder)
{
  static const BigBookSize size = { .vehicles = 200, .years = 1, .outings = 10, .inspections = 1 };
  g_autofree char *path = g_build_filename (folder, "stable.hingepin", NULL);
  Look look = { .library = library };

  look.book = big_book_make (path, library, &size, NULL, NULL);
  g_assert_cmpint (sqlite3_open_v2 (path, &look.bare, SQLITE_OPEN_READONLY, NULL), ==, SQLITE_OK);
  compare (&look, "stable of 200 vehicles", look_stable, STABLE_ROWS, 5);
  sqlite3_close (look.bare);
  pin_book_close (look.book);
}

static void
bench_years (PinLibrary *library, const char *folder)
{
  static const BigBookSize size = { .vehicles = 20, .years = 10, .outings = 1500,
                                    .inspections = 200 };
  g_autofree char *path = g_build_filename (folder, "years.hingepin", NULL);
  g_autoptr (GArray) vehicles = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_autoptr (GArray) walks = g_array_new (FALSE, FALSE, sizeof (gint64));
  Look look = { .library = library };

  look.book = big_book_make (path, library, &size, vehicles, walks);
  g_assert_cmpint (sqlite3_open_v2 (path, &look.bare, SQLITE_OPEN_READONLY, NULL), ==, SQLITE_OK);
  compare (&look, "ten years, stable", look_stable, STABLE_ROWS, 5);
  look.id = g_array_index (vehicles, gint64, 10);
  compare (&look, "ten years, a vehicle", look_vehicle, VEHICLE_ROWS, 11);
  look.parts = parts_of (look.bare, look.id, 4);
  compare (&look, "ten years, history of 4 bearings", look_history, HISTORY_ROWS, 11);
  look.id = g_array_index (walks, gint64, 10);
  compare (&look, "ten years, a walk", look_walk, WALK_ROWS, 11);
  g_array_unref (look.parts);
  sqlite3_close (look.bare);
  pin_book_close (look.book);
}

int
main (void)
{
  g_autofree char *folder = bench_folder_new ();
  g_autoptr (GError) error = NULL;
  g_autoptr (PinLibrary) library = pin_library_new_default (&error);

  NO_ERROR (error);
  bench_stable (library, folder);
  bench_years (library, folder);
  if (g_getenv ("PIN_BENCH_KEEP") == NULL)
    bench_folder_free (folder);
  return 0;
}
