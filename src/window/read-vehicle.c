#include "window/read-vehicle.h"

#include "base/day.h"

typedef struct
{
  gint64 vehicle;
  PinLibrary *library;
} Wanted;

/* On the book's thread, the view and all: the main loop only shows it. */
static gpointer
load_view (PinDb *db, gpointer data, GError **error)
{
  const Wanted *wanted = data;
  PinVehicleRows *rows = pin_vehicle_rows_load (db, wanted->vehicle, error);

  return rows != NULL ? pin_vehicle_view_new (rows, wanted->library, pin_now (), error) : NULL;
}

void
pin_read_vehicle (PinDesk *desk, gint64 vehicle, GCancellable **cancellable, GAsyncReadyCallback callback,
                  gpointer user_data)
{
  Wanted wanted = { vehicle, pin_desk_library (desk) };

  g_cancellable_cancel (*cancellable);
  g_clear_object (cancellable);
  *cancellable = g_cancellable_new ();
  pin_desk_read (desk, load_view, g_memdup2 (&wanted, sizeof wanted), g_free, (GDestroyNotify) pin_vehicle_view_free,
                 *cancellable, callback, user_data);
}
