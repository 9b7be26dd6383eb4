#include "garage.h"

#include <glib/gstdio.h>
#include <math.h>

#include "base/day.h"
#include "inspection/answers-file.h"

/* In memory where that can be had: the tests write often. */
static char *
make_folder (void)
{
  char *folder = g_file_test ("/dev/shm", G_FILE_TEST_IS_DIR)
                 ? g_mkdtemp (g_strdup ("/dev/shm/garage-XXXXXX")) : NULL;

  return folder ? folder : g_dir_make_tmp ("garage-XXXXXX", NULL);
}

static Garage *
garage_with (const char *shelf)
{
  Garage *self = g_new0 (Garage, 1);
  g_autoptr (GError) error = NULL;

  self->folder = make_folder ();
  self->path = g_build_filename (self->folder, "garage.hingepin", NULL);
  self->library = pin_library_new (shelf, NULL, &error);
  g_assert_no_error (error);
  self->book = pin_book_create (self->path, &error);
  g_assert_no_error (error);
  return self;
}

Garage *
garage_new (void)
{
  g_autofree char *shelf = g_build_filename (g_getenv ("PIN_SOURCE_ROOT"), "tests", "service", "shelf", NULL);

  return garage_with (shelf);
}

Garage *
garage_new_shipped (void)
{
  return garage_with (g_getenv ("HINGEPIN_DATA_DIR"));
}

void
garage_free (Garage *self)
{
  pin_book_close (self->book);
  pin_library_free (self->library);
  g_unlink (self->path);
  g_rmdir (self->folder);
  g_free (self->path);
  g_free (self->folder);
  g_free (self);
}

PinDeedDone *
garage_begin (Garage *self)
{
  return pin_deed_done_new (self->book, "AB");
}

static void
commit (Garage *self, PinBatch *batch)
{
  g_autoptr (GError) error = NULL;

  pin_book_commit (self->book, batch, &error);
  g_assert_no_error (error);
}

void
garage_commit (Garage *self, PinDeedDone *done)
{
  commit (self, pin_deed_done_batch (done));
}

void
garage_undo (Garage *self, PinDeedDone *done)
{
  g_autoptr (PinBatch) batch = pin_deed_done_undo (done, self->book);

  commit (self, batch);
}

gint64
garage_add (Garage *self, const char *name, const char *chassis, double seconds)
{
  g_autoptr (PinDeedDone) done = garage_begin (self);
  g_autoptr (GError) error = NULL;
  PinNewVehicle what = PIN_NEW_VEHICLE_INIT;
  gint64 id;

  what.name = name;
  what.chassis = chassis;
  what.seconds = seconds;
  what.day = "2020-01-01";
  id = pin_inventory_add_vehicle (done, self->library, &what, NULL, &error);
  g_assert_no_error (error);
  garage_commit (self, done);
  return id;
}

/* ---- Reading back ---- */

static gpointer
load_car (PinDb *db, gpointer data, GError **error)
{
  return pin_car_rows_load (db, *(gint64 *) data, error);
}

PinCar *
garage_car (Garage *self, gint64 vehicle)
{
  g_autoptr (GError) error = NULL;
  PinCarRows *rows = pin_book_run (self->book, load_car, &vehicle, &error);
  PinCar *car;

  g_assert_no_error (error);
  car = pin_car_new (rows, self->library, &error);
  g_assert_no_error (error);
  return car;
}

static gpointer
load_stable (PinDb *db, gpointer data, GError **error)
{
  return pin_stable_rows_load (db, error);
}

PinStable *
garage_stable (Garage *self)
{
  g_autoptr (GError) error = NULL;
  PinStableRows *rows = pin_book_run (self->book, load_stable, NULL, &error);
  PinStable *stable;

  g_assert_no_error (error);
  stable = pin_stable_new (rows, self->library, pin_now (), &error);
  g_assert_no_error (error);
  return stable;
}

static gpointer
load_view (PinDb *db, gpointer data, GError **error)
{
  return pin_vehicle_rows_load (db, *(gint64 *) data, error);
}

PinVehicleView *
garage_view (Garage *self, gint64 vehicle)
{
  g_autoptr (GError) error = NULL;
  PinVehicleRows *rows = pin_book_run (self->book, load_view, &vehicle, &error);
  PinVehicleView *view;

  g_assert_no_error (error);
  view = pin_vehicle_view_new (rows, self->library, pin_now (), &error);
  g_assert_no_error (error);
  return view;
}

static gpointer
load_shelf (PinDb *db, gpointer data, GError **error)
{
  return pin_part_shelf_load (db, error);
}

PinPartShelf *
garage_shelf (Garage *self)
{
  g_autoptr (GError) error = NULL;
  PinPartShelf *shelf = pin_book_run (self->book, load_shelf, NULL, &error);

  g_assert_no_error (error);
  return shelf;
}

GPtrArray *
garage_slots (const PinCar *car, const char *code, ...)
{
  GPtrArray *slots = g_ptr_array_new ();
  va_list codes;

  va_start (codes, code);
  for (; code != NULL; code = va_arg (codes, const char *))
    {
      PinSlot *slot = pin_car_slot (car, code);

      g_assert_nonnull (slot);
      g_ptr_array_add (slots, slot);
    }
  va_end (codes);
  return slots;
}

/* ---- Using and walking ---- */

void
garage_run (Garage *self, gint64 vehicle, const char *day, double minutes)
{
  g_autoptr (PinCar) car = garage_car (self, vehicle);
  g_autoptr (PinDeedDone) done = garage_begin (self);
  g_autoptr (GError) error = NULL;
  PinOuting row = { .day = (char *) day, .seconds = minutes * 60, .runs = 1, .litres = NAN,
                    .water = (char *) "none", .salt = -1, .knocks = -1, .ambient = NAN };

  pin_inventory_outing (done, self->library, car, &row, &error);
  g_assert_no_error (error);
  garage_commit (self, done);
}

static gpointer
load_walk (PinDb *db, gpointer data, GError **error)
{
  return pin_walk_rows_load (db, *(gint64 *) data, error);
}

PinWalkRows *
garage_walk_rows (Garage *self, gint64 inspection)
{
  g_autoptr (GError) error = NULL;
  PinWalkRows *rows = pin_book_run (self->book, load_walk, &inspection, &error);

  g_assert_no_error (error);
  return rows;
}

static PinWalk *
load (Garage *self, gint64 inspection)
{
  g_autoptr (GError) error = NULL;
  PinWalk *walk = pin_walk_new (garage_walk_rows (self, inspection), self->library, &error);

  g_assert_no_error (error);
  return walk;
}

static void
answer (Garage *self, gint64 inspection, const char *line)
{
  g_autoptr (PinWalk) walk = load (self, inspection);
  g_autoptr (PinBatch) batch = pin_batch_new (self->book);
  g_autoptr (GError) error = NULL;
  g_autofree char *sign_by = NULL;
  gboolean nothing = FALSE;

  if (!pin_answers_line (walk, line, "AB", batch, &nothing, &sign_by, &error))
    g_error ("%s: %s", line, error->message);
  commit (self, batch);
}

static void
sign_off (Garage *self, gint64 inspection)
{
  g_autoptr (PinWalk) walk = load (self, inspection);
  g_autoptr (PinBatch) batch = pin_batch_new (self->book);
  g_autoptr (GError) error = NULL;

  pin_walk_sign (walk, "AB", batch, &error);
  g_assert_no_error (error);
  commit (self, batch);
}

gint64
garage_walk (Garage *self, gint64 vehicle, const char *const *lines, gboolean sign)
{
  g_autoptr (PinCar) car = garage_car (self, vehicle);
  g_autoptr (PinBatch) batch = pin_batch_new (self->book);
  g_autoptr (GError) error = NULL;
  gint64 id = pin_walk_begin (batch, self->library, car, "look", "AB", &error);

  g_assert_no_error (error);
  commit (self, batch);
  for (; *lines != NULL; lines++)
    answer (self, id, *lines);
  if (sign)
    sign_off (self, id);
  return id;
}
