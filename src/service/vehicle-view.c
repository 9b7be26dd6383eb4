#include "service/vehicle-view.h"

#include "service/vehicle-lines.h"

struct _PinVehicleRows
{
  PinCarRows *car;
  PinSlotMarkRows *marks;
  PinLastWalk *last;
  PinSetupRows *setup;
  PinGearingRows *gearing;
  GPtrArray *inspections, *outings, *findings, *readings, *works, *clocks;
};

/* The view and the rows that it was made from. */
typedef struct
{
  PinVehicleView view;        /* first: given out as PinVehicleView* */
  GPtrArray *outing_rows, *finding_rows;
} View;

void
pin_vehicle_rows_free (PinVehicleRows *rows)
{
  if (rows == NULL)
    return;
  pin_car_rows_free (rows->car);
  pin_slot_mark_rows_free (rows->marks);
  pin_last_walk_free (rows->last);
  pin_setup_rows_free (rows->setup);
  pin_gearing_rows_free (rows->gearing);
  g_clear_pointer (&rows->inspections, g_ptr_array_unref);
  g_clear_pointer (&rows->outings, g_ptr_array_unref);
  g_clear_pointer (&rows->findings, g_ptr_array_unref);
  g_clear_pointer (&rows->readings, g_ptr_array_unref);
  g_clear_pointer (&rows->works, g_ptr_array_unref);
  g_clear_pointer (&rows->clocks, g_ptr_array_unref);
  g_free (rows);
}

/* On the book's thread. */
PinVehicleRows *
pin_vehicle_rows_load (PinDb *db, gint64 vehicle, GError **error)
{
  g_autoptr (PinVehicleRows) rows = g_new0 (PinVehicleRows, 1);

  if (!(rows->car = pin_car_rows_load (db, vehicle, error)) ||
      !(rows->marks = pin_slot_mark_rows_load (db, vehicle, error)) ||
      !(rows->last = pin_last_walk_load (db, vehicle, error)) ||
      !(rows->setup = pin_setup_rows_load (db, vehicle, NULL, error)) ||
      !(rows->gearing = pin_gearing_rows_load (db, rows->car, error)) ||
      !(rows->inspections = pin_query_inspections (db, vehicle, error)) ||
      !(rows->outings = pin_query_outings (db, vehicle, 0, error)) ||
      !(rows->findings = pin_query_findings (db, vehicle, TRUE, error)) ||
      !(rows->readings = pin_query_readings (db, vehicle, error)) ||
      !(rows->works = pin_query_works (db, vehicle, error)) ||
      !(rows->clocks = pin_query_marks (db, vehicle, error)))
    return NULL;
  return g_steal_pointer (&rows);
}

static void
fill (View *self, PinVehicleRows *rows, PinLibrary *library, gint64 now)
{
  PinVehicleView *view = &self->view;

  view->usage = pin_usage_of_vehicle (view->car->rows->vehicle);
  view->burns_fuel = pin_car_burns_fuel (view->car);
  view->usage_text = pin_usage_text (&view->usage, view->burns_fuel);
  view->since = g_strdup (pin_usage_since (&view->usage));
  view->readiness = pin_readiness_new (library, view->car, rows->last, now);
  view->gearing = pin_gearing_change_new (rows->gearing, view->car, rows->readings);
  view->marks = pin_slot_marks_new (view->car, rows->marks);
  view->parts = pin_part_lines (library, view->car, view->marks, rows->works, rows->clocks);
  view->layers = pin_layers_of (library, view->parts);
  view->outings = pin_outing_lines (rows->outings);
  view->inspections = pin_inspection_lines (rows->inspections);
  view->findings = pin_finding_lines (library, view->car, rows->findings);
  view->owed = pin_owed_lines (library, view->car, now);
  view->setup = pin_setup_new (rows->setup, library, view->car, FALSE);
  view->readings = g_steal_pointer (&rows->readings);
  view->works = g_steal_pointer (&rows->works);
  self->outing_rows = g_steal_pointer (&rows->outings);
  self->finding_rows = g_steal_pointer (&rows->findings);
}

/* On the thread that uses the library. */
PinVehicleView *
pin_vehicle_view_new (PinVehicleRows *rows, PinLibrary *library, gint64 now, GError **error)
{
  g_autoptr (PinVehicleRows) taken = rows;
  PinCar *car = pin_car_new (g_steal_pointer (&taken->car), library, error);
  View *self;

  if (car == NULL)
    return NULL;
  self = g_new0 (View, 1);
  self->view.car = car;
  fill (self, taken, library, now);
  return &self->view;
}

void
pin_vehicle_view_free (PinVehicleView *view)
{
  View *self = (View *) view;

  if (view == NULL)
    return;
  g_free (view->usage_text);
  g_free (view->since);
  pin_readiness_free (view->readiness);
  pin_gearing_change_free (view->gearing);
  g_ptr_array_unref (view->parts);
  g_hash_table_unref (view->marks);
  g_ptr_array_unref (view->layers);
  g_ptr_array_unref (view->outings);
  g_ptr_array_unref (view->inspections);
  g_ptr_array_unref (view->findings);
  g_ptr_array_unref (view->owed);
  g_ptr_array_unref (view->setup);
  g_ptr_array_unref (view->readings);
  g_ptr_array_unref (view->works);
  g_ptr_array_unref (self->outing_rows);
  g_ptr_array_unref (self->finding_rows);
  pin_car_free (view->car);
  g_free (self);
}

/* NULL: the vehicle has no such place. */
const PinPartLine *
pin_vehicle_view_part (const PinVehicleView *self, gint64 place)
{
  for (guint i = 0; i < self->parts->len; i++)
    if (((PinPartLine *) self->parts->pdata[i])->place == place)
      return self->parts->pdata[i];
  return NULL;
}
