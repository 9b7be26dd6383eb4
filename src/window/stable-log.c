#include "window/stable-log.h"

#include <glib/gi18n.h>
#include <math.h>

#include "service/inventory.h"
#include "window/fields.h"
#include "window/tell.h"

typedef struct
{
  GtkWidget *from;            /* owned */
  PinDesk *desk;              /* owned */
  gint64 vehicle;
  double seconds, runs;
  PinChanged logged;
} Log;

static void
log_free (Log *self)
{
  g_object_unref (self->from);
  g_object_unref (self->desk);
  g_free (self);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Log, log_free)

static void
refuse (GtkWidget *from, const GError *error, PinChanged logged, gint64 vehicle)
{
  pin_tell_error (from, _("The outing was not logged:"), error);
  logged (from, FALSE, vehicle);
}

typedef struct
{
  PinLibrary *library;        /* the desk's */
  gint64 vehicle;
} Wanted;

/* On the book's thread. */
static gpointer
load_car (PinDb *db, gpointer data, GError **error)
{
  const Wanted *wanted = data;
  PinCarRows *rows = pin_car_rows_load (db, wanted->vehicle, error);

  return rows != NULL ? pin_car_new (rows, wanted->library, error) : NULL;
}

static void
car_free (gpointer data)
{
  pin_car_free (data);
}

static void
car_loaded (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (Log) self = user_data;
  g_autoptr (GError) error = NULL;
  g_autoptr (PinCar) car = pin_desk_read_finish (self->desk, result, &error);
  g_autoptr (PinDeedDone) done = NULL;
  PinOuting outing = { .vehicle = self->vehicle, .seconds = self->seconds, .runs = self->runs,
                       .litres = NAN, .ambient = NAN, .salt = -1, .knocks = -1 };

  done = pin_deed_done_new (pin_desk_book (self->desk), pin_desk_person (self->desk));
  if (car == NULL
      || !pin_inventory_outing (done, pin_desk_library (self->desk), car, &outing, &error))
    {
      refuse (self->from, error, self->logged, self->vehicle);
      return;
    }
  pin_change_write (self->from, self->desk, g_steal_pointer (&done), self->vehicle, self->vehicle,
                    self->logged);
}

/* An Enter too many is no outing. */
static gboolean
is_some (double seconds, double runs, GError **error)
{
  if (!isnan (seconds) || !isnan (runs))
    return TRUE;
  g_set_error_literal (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_VALUE,
                       _("Write how many minutes it ran, or how many packs or tanks."));
  return FALSE;
}

void
pin_stable_log (GtkWidget *from, PinDesk *desk, gint64 vehicle, const char *minutes,
                const char *runs, PinChanged logged)
{
  g_autoptr (GError) error = NULL;
  Wanted wanted = { pin_desk_library (desk), vehicle };
  Log *self;
  double seconds, times;

  if (!pin_field_value (minutes, "min", &seconds, &error)
      || !pin_field_value (runs, "1", &times, &error) || !is_some (seconds, times, &error))
    {
      refuse (from, error, logged, vehicle);
      return;
    }
  self = g_new0 (Log, 1);
  self->from = g_object_ref (from);
  self->desk = g_object_ref (desk);
  self->vehicle = vehicle;
  self->seconds = seconds;
  self->runs = times;
  self->logged = logged;
  pin_desk_read (desk, load_car, g_memdup2 (&wanted, sizeof wanted), g_free, car_free, NULL,
                 car_loaded, self);
}
