#include "service/stable.h"

#include <glib/gi18n.h>
#include <string.h>

#include "service/error.h"
#include "service/finding-text.h"

typedef struct
{
  PinCarRows *car;
  PinSlotMarkRows *marks;
  PinLastWalk *last;
} VehicleRows;

struct _PinStableRows
{
  GPtrArray *vehicles;        /* VehicleRows* */
};

/* ---- Reading ---- */

static void
vehicle_rows_free (VehicleRows *rows)
{
  pin_car_rows_free (rows->car);
  pin_slot_mark_rows_free (rows->marks);
  pin_last_walk_free (rows->last);
  g_free (rows);
}

void
pin_stable_rows_free (PinStableRows *rows)
{
  if (rows == NULL)
    return;
  g_ptr_array_unref (rows->vehicles);
  g_free (rows);
}

static gboolean
load_vehicle (PinStableRows *rows, PinDb *db, gint64 vehicle, GError **error)
{
  VehicleRows *row = g_new0 (VehicleRows, 1);

  g_ptr_array_add (rows->vehicles, row);
  row->car = pin_car_rows_load (db, vehicle, error);
  row->marks = row->car ? pin_slot_mark_rows_load (db, vehicle, error) : NULL;
  row->last = row->marks ? pin_last_walk_load (db, vehicle, error) : NULL;
  return row->last != NULL;
}

static gboolean
is_sold (const PinVehicleRow *vehicle)
{
  return g_strcmp0 (vehicle->state, "sold") == 0;
}

static PinStableRows *
load_some (PinDb *db, const GPtrArray *vehicles, gboolean sold, guint most, GError **error)
{
  g_autoptr (PinStableRows) rows = g_new0 (PinStableRows, 1);

  rows->vehicles = g_ptr_array_new_with_free_func ((GDestroyNotify) vehicle_rows_free);
  for (guint i = 0; i < vehicles->len && rows->vehicles->len < most; i++)
    {
      const PinVehicleRow *vehicle = vehicles->pdata[i];

      if (g_strcmp0 (vehicle->state, "withdrawn") != 0 && (sold || !is_sold (vehicle)) &&
          !load_vehicle (rows, db, vehicle->id, error))
        return NULL;
    }
  return g_steal_pointer (&rows);
}

PinStableRows *
pin_stable_rows_load (PinDb *db, GError **error)
{
  g_autoptr (GPtrArray) vehicles = pin_query_vehicles (db, error);

  return vehicles != NULL ? load_some (db, vehicles, TRUE, G_MAXUINT, error) : NULL;
}

/* Sold ones stand last, so the first are the first of the others. */
PinStableRows *
pin_stable_rows_load_first (PinDb *db, guint n, gboolean *more, GError **error)
{
  g_autoptr (GPtrArray) vehicles = pin_query_vehicles (db, error);

  if (vehicles == NULL)
    return NULL;
  *more = vehicles->len > n;
  return load_some (db, vehicles, !*more, n, error);
}

/* ---- One vehicle ---- */

static void
vehicle_free (PinStableVehicle *self)
{
  g_free (self->name);
  g_free (self->chassis);
  g_free (self->chassis_title);
  g_free (self->state);
  g_clear_pointer (&self->readiness, pin_readiness_free);
  g_free (self->inspected);
  g_free (self->open_walk_title);
  g_free (self->open_walk_day);
  g_clear_pointer (&self->marks, g_hash_table_unref);
  g_clear_pointer (&self->car, pin_car_free);
  g_free (self);
}

static void
note_open_walk (PinStableVehicle *self, PinLibrary *library)
{
  for (guint i = 0; i < self->car->rows->open_walks->len; i++)
    {
      const PinInspectionRow *row = self->car->rows->open_walks->pdata[i];

      if (row->verdict != NULL)
        continue;
      self->open_walk = row->id;
      self->open_walk_title = pin_plan_title (row->plan);
      self->open_walk_day = g_strdup (row->day);
      return;
    }
}

static PinStableVehicle *
vehicle_new (VehicleRows *rows, PinLibrary *library, gint64 now, GError **error)
{
  PinCar *car = pin_car_new (g_steal_pointer (&rows->car), library, error);
  PinStableVehicle *self;

  if (car == NULL)
    return NULL;
  self = g_new0 (PinStableVehicle, 1);
  self->car = car;
  self->id = car->id;
  self->name = g_strdup (car->name);
  self->chassis = g_strdup (car->chassis->id);
  self->chassis_title = g_strdup (car->chassis->title);
  self->state = g_strdup (car->rows->vehicle->state ? car->rows->vehicle->state : "in-use");
  self->readiness = pin_readiness_new (library, car, rows->last, now);
  self->usage = pin_usage_of_vehicle (car->rows->vehicle);
  self->burns_fuel = pin_car_burns_fuel (car);
  self->inspected = g_strdup (rows->last->day);
  self->marks = pin_slot_marks_new (car, rows->marks);
  note_open_walk (self, library);
  return self;
}

/* ---- The sentence ---- */

static const char *
number_word (int n)
{
  static const char *const words[] = {
    N_("none"), N_("one"), N_("two"), N_("three"), N_("four"), N_("five"), N_("six"),
    N_("seven"), N_("eight"), N_("nine"), N_("ten"), N_("eleven"), N_("twelve") };
  static char digits[16];

  if (n >= 0 && n < (int) G_N_ELEMENTS (words))
    return _(words[n]);
  g_snprintf (digits, sizeof digits, "%d", n);
  return digits;
}

static gboolean
is_counted (const PinStableVehicle *vehicle)
{
  return g_str_equal (vehicle->state, "in-use") || g_str_equal (vehicle->state, "for-sale");
}

static char *
names_at (const PinStable *self, PinLevel level)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < self->vehicles->len; i++)
    {
      const PinStableVehicle *vehicle = self->vehicles->pdata[i];

      if (is_counted (vehicle) && vehicle->readiness->level == level)
        g_ptr_array_add (names, vehicle->name);
    }
  for (guint i = 0; i < names->len; i++)
    g_string_append_printf (text, "%s%s", i == 0 ? "" : i + 1 < names->len ? ", " : _(" and "),
                            (char *) names->pdata[i]);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
say_level (GString *text, const PinStable *self, PinLevel level, int n, const char *one,
           const char *many)
{
  g_autofree char *names = n > 0 ? names_at (self, level) : NULL;

  if (names != NULL)
    g_string_append_printf (text, "; %s %s", names, n == 1 ? one : many);
}

static char *
say_ready (const PinStable *self, int all)
{
  int may = self->ready + self->watch;
  g_autofree char *some = g_strdup (number_word (may));
  g_autofree char *of = g_strdup (number_word (all));

  if (may == all)
    return all == 1 ? g_strdup (_("It is ready"))
                    : g_strdup_printf (_("All %s are ready"), of);
  if (all == 1)
    return g_strdup (_("It is not ready"));
  return g_strdup_printf (may == 1 ? _("%s of %s is ready") : _("%s of %s are ready"), some, of);
}

/* "Two of six are ready; Marsh Hare must not run." */
static char *
sentence (const PinStable *self)
{
  int all = self->ready + self->watch + self->not_known + self->not_ready + self->unsafe;
  g_autofree char *first = NULL, *begun = NULL;
  g_autoptr (GString) text = NULL;

  if (self->vehicles->len == 0)
    return g_strdup (_("No vehicle yet: add the first one."));
  if (all == 0)
    return g_strdup (_("No vehicle is in use."));
  first = say_ready (self, all);
  begun = pin_sentence_case (first);
  text = g_string_new (begun);
  say_level (text, self, PIN_LEVEL_UNSAFE, self->unsafe, _("must not run"), _("must not run"));
  say_level (text, self, PIN_LEVEL_NOT_KNOWN, self->not_known, _("is not known"),
             _("are not known"));
  g_string_append_c (text, '.');
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* ---- The stable ---- */

static void
count (PinStable *self, const PinStableVehicle *vehicle)
{
  if (!is_counted (vehicle))
    return;
  switch (vehicle->readiness->level)
    {
    case PIN_LEVEL_UNSAFE:
      self->unsafe++;
      break;
    case PIN_LEVEL_NOT_READY:
      self->not_ready++;
      break;
    case PIN_LEVEL_NOT_KNOWN:
      self->not_known++;
      break;
    case PIN_LEVEL_WATCH:
      self->watch++;
      break;
    case PIN_LEVEL_READY:
      self->ready++;
      break;
    }
}

static int
sold_last (gconstpointer a, gconstpointer b)
{
  const PinStableVehicle *x = *(PinStableVehicle *const *) a, *y = *(PinStableVehicle *const *) b;
  int sold = g_str_equal (x->state, "sold") - g_str_equal (y->state, "sold");

  return sold ? sold : (x->id > y->id) - (x->id < y->id);
}

PinStable *
pin_stable_new (PinStableRows *rows, PinLibrary *library, gint64 now, GError **error)
{
  g_autoptr (PinStableRows) taken = rows;
  g_autoptr (PinStable) self = g_new0 (PinStable, 1);

  self->vehicles = g_ptr_array_new_with_free_func ((GDestroyNotify) vehicle_free);
  for (guint i = 0; i < taken->vehicles->len; i++)
    {
      PinStableVehicle *vehicle = vehicle_new (taken->vehicles->pdata[i], library, now, error);

      if (vehicle == NULL)
        return NULL;
      g_ptr_array_add (self->vehicles, vehicle);
      count (self, vehicle);
    }
  g_ptr_array_sort (self->vehicles, sold_last);
  self->sentence = sentence (self);
  return g_steal_pointer (&self);
}

void
pin_stable_free (PinStable *self)
{
  if (self == NULL)
    return;
  g_clear_pointer (&self->vehicles, g_ptr_array_unref);
  g_free (self->sentence);
  g_free (self);
}

GPtrArray *
pin_stable_names (PinStable *self)
{
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < self->vehicles->len; i++)
    g_ptr_array_add (names, g_strdup (((PinStableVehicle *) self->vehicles->pdata[i])->name));
  return names;
}

/* ---- Finding one by what a person types ---- */

static gboolean
is_called (const PinStableVehicle *vehicle, const char *folded, gboolean whole)
{
  g_autofree char *name = g_utf8_casefold (vehicle->name, -1);

  return whole ? g_str_equal (name, folded) : g_str_has_prefix (name, folded);
}

static PinStableVehicle *
by_name (PinStable *self, const char *folded, gboolean whole, int *n)
{
  PinStableVehicle *found = NULL;

  *n = 0;
  for (guint i = 0; i < self->vehicles->len; i++)
    if (is_called (self->vehicles->pdata[i], folded, whole))
      {
        found = self->vehicles->pdata[i];
        (*n)++;
      }
  return found;
}

static PinStableVehicle *
by_id (PinStable *self, const char *text)
{
  gint64 id = g_ascii_strtoll (text, NULL, 10);

  for (guint i = 0; id > 0 && i < self->vehicles->len; i++)
    if (((PinStableVehicle *) self->vehicles->pdata[i])->id == id)
      return self->vehicles->pdata[i];
  return NULL;
}

PinStableVehicle *
pin_stable_find (PinStable *self, const char *text, GError **error)
{
  g_autofree char *folded = g_utf8_casefold (text, -1);
  PinStableVehicle *found = by_id (self, text);
  int n = 1;

  if (found == NULL)
    found = by_name (self, folded, TRUE, &n);
  if (found == NULL)
    found = by_name (self, folded, FALSE, &n);
  if (found != NULL && n == 1)
    return found;
  if (n > 1)
    g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_UNKNOWN,
                 _("%d vehicles begin with “%s”: write more of the name"), n, text);
  else
    g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_UNKNOWN,
                 _("There is no vehicle “%s” in this book: “hingepin vehicles” lists them"),
                 text);
  return NULL;
}
