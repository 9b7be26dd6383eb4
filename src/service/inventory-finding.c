#include <glib/gi18n.h>
#include <math.h>

#include "base/day.h"
#include "service/finding-text.h"
#include "service/inventory-check.h"

static gboolean
check_open (const PinFindingRow *finding, GError **error)
{
  if (!finding->closed)
    return TRUE;
  g_set_error_literal (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NOTHING,
                       _("That finding is closed already"));
  return FALSE;
}

static void
write_event (PinDeedDone *done, const PinFindingRow *finding, const char *event,
             PinGravity gravity, const char *note)
{
  g_autofree char *today = pin_today ();

  pin_deed_done_finding (done, &(PinFinding) {
    .opens = finding->id, .event = (char *) event, .vehicle = finding->vehicle,
    .place = finding->place, .part = finding->part, .gravity = gravity,
    .note = (char *) note, .day = today });
}

gboolean
pin_inventory_accept (PinDeedDone *done, const PinCar *car, const PinFindingRow *finding,
                      const char *note, GError **error)
{
  g_autofree char *where = pin_place_text (car, finding->place, finding->part);

  if (!check_open (finding, error))
    return FALSE;
  if (finding->gravity != PIN_GRAVITY_WATCH)
    {
      g_set_error_literal (
          error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NOT_YET,
          _("Only a watch can be accepted: a fail needs work, or has to be found sound"));
      return FALSE;
    }
  write_event (done, finding, "accepted", PIN_GRAVITY_WATCH, note);
  pin_deed_done_say (done, _("Accepted as it is: %s"), *where ? where : car->name);
  return TRUE;
}

gboolean
pin_inventory_close (PinDeedDone *done, const PinCar *car, const PinFindingRow *finding,
                     const char *note, GError **error)
{
  g_autofree char *where = pin_place_text (car, finding->place, finding->part);

  if (!check_open (finding, error))
    return FALSE;
  write_event (done, finding, "closed", PIN_GRAVITY_NONE,
               note && *note ? note : "found sound");
  pin_deed_done_say (done, _("Closed: %s"), *where ? where : car->name);
  return TRUE;
}

/* ---- Debts ---- */

static gboolean
refuse (GError **error, const char *title, const char *why)
{
  g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NOT_YET, "%s: %s", title, why);
  return FALSE;
}

static gboolean
has_run_since (const PinCar *car, const char *day)
{
  const char *last = car->rows->vehicle->last_day;

  return last != NULL && pin_day_diff (day, last) >= 0;
}

gboolean
pin_inventory_may_settle (PinLibrary *library, const PinCar *car, const PinOwed *owed,
                          GError **error)
{
  g_autofree char *title = pin_owed_title (library, owed->what);
  const PinDebt *debt = pin_library_debt (library, owed->what);

  if (g_str_has_prefix (owed->what, "job:"))
    return refuse (error, title, _("signing that inspection settles it"));
  if (debt == NULL)
    return TRUE;
  switch (debt->payable)
    {
    case PIN_PAYABLE_NOW:
      return refuse (error, title, _("it is settled at the bench, in the inspection"));
    case PIN_PAYABLE_TIME:
      if (owed->ready_at > pin_now ())
        return refuse (error, title, _("its time is not over yet"));
      break;
    case PIN_PAYABLE_USE:
      if (!has_run_since (car, owed->day))
        return refuse (error, title, _("log the outing first"));
      break;
    case PIN_PAYABLE_BEFORE_USE:
      break;
    }
  return TRUE;
}

static void
write_settled (PinDeedDone *done, const PinOwed *owed, gint64 cause, const char *day)
{
  pin_deed_done_owed (done, &(PinOwed) {
    .vehicle = owed->vehicle, .place = owed->place, .what = owed->what,
    .cause = cause, .settles = owed->id, .day = (char *) day });
}

gboolean
pin_inventory_settle (PinDeedDone *done, PinLibrary *library, const PinCar *car,
                      const PinOwed *owed, GError **error)
{
  g_autofree char *title = pin_owed_title (library, owed->what);
  g_autofree char *today = pin_today ();

  if (!pin_inventory_may_settle (library, car, owed, error))
    return FALSE;
  write_settled (done, owed, owed->cause, today);
  pin_deed_done_say (done, _("%s: settled, %s"), car->name, title);
  return TRUE;
}

/* ---- A day of use ---- */

static gboolean
check_outing (const PinOuting *outing, GError **error)
{
  static const char *const water[] = { "none", "damp", "splashed", "soaked", "submerged", NULL };

  if (outing->water != NULL && !g_strv_contains (water, outing->water))
    {
      g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_VALUE,
                   _("“%s” is no word for water: none, damp, splashed, soaked or submerged"),
                   outing->water);
      return FALSE;
    }
  if (outing->seconds < 0 || outing->litres < 0 || outing->runs < 0)
    {
      g_set_error_literal (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_VALUE,
                           _("A car cannot run for less than nothing"));
      return FALSE;
    }
  return TRUE;
}

static gboolean
is_wet (const char *water)
{
  return water != NULL && !g_str_equal (water, "none") && !g_str_equal (water, "damp");
}

static void
open_after_wet (PinDeedDone *done, PinLibrary *library, const PinCar *car,
                gint64 outing, const char *day)
{
  const PinJob *job = pin_library_job (library, "after-wet");
  gint64 now = pin_instant_on (day);

  if (job == NULL)
    return;
  pin_deed_done_owed (done, &(PinOwed) {
    .vehicle = car->id, .what = (char *) "job:after-wet",
    .due_at = now ? now + job->within_minutes * G_GINT64_CONSTANT (60000) : 0,
    .cause = outing, .day = (char *) day });
}

gboolean
pin_inventory_outing (PinDeedDone *done, PinLibrary *library, const PinCar *car,
                      const PinOuting *outing, GError **error)
{
  g_autofree char *day = pin_check_day (outing->day, error);
  PinOuting row = *outing;
  gint64 id;

  if (day == NULL || !check_outing (outing, error))
    return FALSE;
  row.vehicle = car->id;
  row.day = day;
  if (row.at == 0)
    row.at = pin_instant_on (day);
  id = pin_deed_done_outing (done, &row);
  for (guint i = 0; i < car->rows->owed->len; i++)
    {
      const PinOwed *owed = car->rows->owed->pdata[i];
      const PinDebt *debt = pin_library_debt (library, owed->what);

      if (debt != NULL && debt->payable == PIN_PAYABLE_BEFORE_USE &&
          pin_day_diff (owed->day, day) >= 0)
        write_settled (done, owed, id, day);
    }
  if (is_wet (row.water))
    open_after_wet (done, library, car, id, day);
  pin_deed_done_say (done, _("%s: outing logged"), car->name);
  return TRUE;
}
