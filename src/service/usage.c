#include "service/usage.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

static double
told (const PinTrait *trait)
{
  return trait ? trait->value : NAN;
}

PinUsage
pin_usage_of_vehicle (const PinVehicleRow *row)
{
  return (PinUsage) {
    .seconds = row->seconds, .runs = row->runs,
    .outings = row->outings, .litres = row->litres,
    .before_seconds = row->before_seconds, .before_runs = row->before_runs,
    .before_litres = row->before_litres,
  };
}

/* Nothing fitted: everything unknown. */
PinUsage
pin_usage_of_slot (const PinCar *car, const PinSlot *slot)
{
  const PinPartRow *row = slot->row;

  if (row == NULL)
    return (PinUsage) { NAN, NAN, NAN, NAN, NAN, NAN, NAN };
  return (PinUsage) {
    .seconds = row->seconds, .runs = row->runs,
    .outings = row->outings, .litres = row->litres,
    .before_seconds = told (pin_slot_spec (slot, "used.seconds")),
    .before_runs = told (pin_slot_spec (slot, "used.runs")),
    .before_litres = told (pin_slot_spec (slot, "used.litres")),
  };
}

double
pin_usage_seconds (const PinUsage *self)
{
  return self->seconds + self->before_seconds;
}

double
pin_usage_litres (const PinUsage *self)
{
  return self->litres + self->before_litres;
}

gboolean
pin_usage_is_known (const PinUsage *self)
{
  return !isnan (self->before_seconds);
}

/* ---- Words ---- */

char *
pin_hours_text (double seconds)
{
  g_autofree char *number = NULL;

  if (isnan (seconds))
    return g_strdup (_("not known"));
  number = pin_number_format (seconds / 3600, 1);
  return g_strdup_printf (_("%s h"), number);
}

char *
pin_litres_text (double litres)
{
  g_autofree char *number = NULL;

  if (isnan (litres))
    return g_strdup (_("not known"));
  number = pin_number_format (litres, 1);
  return g_strdup_printf (_("%s l"), number);
}

/* To the whole minute: "35 min", "2 h", "1 h 50 min". */
char *
pin_minutes_text (double minutes)
{
  int whole = isnan (minutes) ? 0 : (int) lround (minutes);

  if (whole < 60)
    return g_strdup_printf (_("%d min"), whole);
  if (whole % 60 == 0)
    return g_strdup_printf (_("%d h"), whole / 60);
  return g_strdup_printf (_("%d h %d min"), whole / 60, whole % 60);
}

/* What is logged plus what was told; "+" where more went before, unknown. */
char *
pin_usage_hours (const PinUsage *self)
{
  g_autofree char *logged = NULL;

  if (isnan (self->seconds))
    return g_strdup (_("not known"));
  if (pin_usage_is_known (self))
    return pin_hours_text (pin_usage_seconds (self));
  logged = pin_hours_text (self->seconds);
  return g_strdup_printf (_("%s +"), logged);
}

char *
pin_usage_text (const PinUsage *self, gboolean litres)
{
  g_autofree char *hours = pin_usage_hours (self);
  long outings = isnan (self->outings) ? 0 : lround (self->outings);
  g_autoptr (GString) text = g_string_new (hours);

  g_string_append (text, ", ");
  g_string_append_printf (text, ngettext ("%ld outing", "%ld outings", outings), outings);
  if (litres && !isnan (self->litres))
    {
      double all = isnan (self->before_litres) ? self->litres : pin_usage_litres (self);
      g_autofree char *fuel = pin_litres_text (all);

      g_string_append_printf (text, ", %s%s", fuel, isnan (self->before_litres) ? " +" : "");
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

const char *
pin_usage_since (const PinUsage *self)
{
  if (pin_usage_is_known (self))
    return _("since new");
  return _("since it entered the book; before that not known");
}

gboolean
pin_car_burns_fuel (const PinCar *car)
{
  return !g_str_equal (car->chassis->power, "electric");
}
