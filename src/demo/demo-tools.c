#include "demo/demo-private.h"

#include <math.h>
#include <stdio.h>

#include "base/day.h"

/* Goes to an evening of the past, on this thread's clock. */
gboolean
demo_go_to (Demo *demo, int days, int hour)
{
  g_autofree char *day = demo_day (demo, days);
  int y = 0, m = 0, d = 0;
  g_autoptr (GDateTime) when = NULL;

  if (day == NULL || sscanf (day, "%d-%d-%d", &y, &m, &d) != 3)
    return FALSE;
  when = g_date_time_new_local (y, m, d, hour, pin_dice_int (&demo->dice, 0, 40), 0);
  demo->now = g_date_time_to_unix (when) * 1000;
  pin_pretend_now (demo->now);
  return TRUE;
}

char *
demo_day (Demo *demo, int days)
{
  return pin_day_add (demo->today, -days);
}

/* Outings gather in one batch until something has to build on them. */
gboolean
demo_flush (Demo *demo, GError **error)
{
  g_autoptr (PinBatch) batch = g_steal_pointer (&demo->pending);

  return batch == NULL || pin_book_commit (demo->book, batch, error);
}

static gpointer
load_car (PinDb *db, gpointer data, GError **error)
{
  return pin_car_rows_load (db, *(gint64 *) data, error);
}

PinCar *
demo_load (Demo *demo, DemoCar car, GError **error)
{
  PinCarRows *rows;

  if (!demo_flush (demo, error))
    return NULL;
  rows = pin_book_run (demo->book, load_car, &demo->cars[car], error);
  return rows ? pin_car_new (rows, demo->library, error) : NULL;
}

PinDeedDone *
demo_begin (Demo *demo, const char *person)
{
  return pin_deed_done_new (demo->book, person);
}

gboolean
demo_finish (Demo *demo, PinDeedDone *done, gboolean ok, GError **error)
{
  return ok && pin_book_commit (demo->book, pin_deed_done_batch (done), error);
}

GPtrArray *
demo_slots (const PinCar *car, const char *kind, const char *classes)
{
  GPtrArray *slots = g_ptr_array_new ();
  g_auto (GStrv) tokens = g_strsplit (classes, " ", -1);

  for (guint i = 0; i < car->slots->len; i++)
    {
      const PinSlot *slot = car->slots->pdata[i];

      if (slot->part != 0 && slot->position != NULL && g_str_equal (slot->kind, kind) &&
          (*classes == '\0' || pin_position_is (slot->position, (const char *const *) tokens)))
        g_ptr_array_add (slots, (gpointer) slot);
    }
  return slots;
}

gboolean
demo_add (Demo *demo, DemoCar car, const PinNewVehicle *what, GError **error)
{
  g_autoptr (PinDeedDone) done = demo_begin (demo, "RH");
  g_autofree char *today = pin_today ();

  if (!demo_flush (demo, error))
    return FALSE;
  demo->cars[car] = pin_inventory_add_vehicle (done, demo->library, what, NULL, error);
  if (demo->cars[car] == 0)
    return FALSE;
  pin_deed_done_trait (done, &(PinTrait) {
    .thing = demo->cars[car], .code = (char *) "demo", .day = today, .value = NAN,
    .text = (char *) "yes", .origin = (char *) "default" });
  return demo_finish (demo, done, TRUE, error);
}

gboolean
demo_work (Demo *demo, DemoCar which, const char *kind, const char *classes,
           const char *deed, const char *note, int cost, GError **error)
{
  g_autoptr (PinDeedDone) done = demo_begin (demo, "RH");
  g_autoptr (PinCar) car = demo_load (demo, which, error);
  g_autoptr (GPtrArray) slots = car ? demo_slots (car, kind, classes) : NULL;
  const char *deeds[] = { deed, NULL };
  PinWorkDone work = { .deeds = deeds, .note = note, .cost = cost,
                       .currency = cost >= 0 ? "EUR" : NULL };

  return slots != NULL &&
         demo_finish (demo, done,
                      pin_inventory_work (done, demo->library, car, slots, &work, error), error);
}

gboolean
demo_told (Demo *demo, DemoCar which, const char *kind, const char *classes,
           const char *deed, const char *sure, int days, GError **error)
{
  g_autoptr (PinDeedDone) done = demo_begin (demo, "RH");
  g_autoptr (PinCar) car = demo_load (demo, which, error);
  g_autoptr (GPtrArray) slots = car ? demo_slots (car, kind, classes) : NULL;
  g_autofree char *day = demo_day (demo, days);

  return slots != NULL &&
         demo_finish (demo, done,
                      pin_inventory_back_fill (done, demo->library, car, slots, deed, sure, day,
                                               NULL, error), error);
}

gboolean
demo_spec (Demo *demo, DemoCar which, const char *kind, const char *classes,
           const char *spec, const char *typed, GError **error)
{
  g_autoptr (PinDeedDone) done = demo_begin (demo, "RH");
  g_autoptr (PinCar) car = demo_load (demo, which, error);
  g_autoptr (GPtrArray) slots = car ? demo_slots (car, kind, classes) : NULL;

  return slots != NULL &&
         demo_finish (demo, done,
                      pin_inventory_set_spec (done, demo->library, car, slots, spec, typed, NULL,
                                              error), error);
}

/* Everything owed as @what; nothing owed is fine. */
gboolean
demo_settle (Demo *demo, DemoCar which, const char *what, GError **error)
{
  g_autoptr (PinDeedDone) done = demo_begin (demo, "RH");
  g_autoptr (PinCar) car = demo_load (demo, which, error);
  gboolean ok = car != NULL;

  for (guint i = 0; ok && i < car->rows->owed->len; i++)
    {
      const PinOwed *owed = car->rows->owed->pdata[i];

      if (g_str_equal (owed->what, what))
        ok = pin_inventory_settle (done, demo->library, car, owed, error);
    }
  if (!ok || pin_deed_done_n (done) == 0)
    return ok;
  return demo_finish (demo, done, TRUE, error);
}
