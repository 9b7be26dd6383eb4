#include "service/gearing-change.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "base/day.h"
#include "library/quantity.h"
#include "service/setup.h"

#define SAME 1e-4             /* share: what is less is rounding */

/* What gears a car: the kind of part and what of it counts. */
static const struct { const char *kind, *spec; } gears[] = {
  { "pinion", "teeth" }, { "spur", "teeth" }, { "tyre", "diameter" },
};

enum { PINION, SPUR, TYRE, N_GEARS };

/* One value before the change. */
typedef struct
{
  int gear;
  gint64 place;
  double value;               /* NAN: not known */
} Before;

struct _PinGearingRows
{
  char *day;                  /* NULL: never changed */
  GArray *before;             /* Before */
};

void
pin_gearing_rows_free (PinGearingRows *rows)
{
  if (rows == NULL)
    return;
  g_array_unref (rows->before);
  g_free (rows->day);
  g_free (rows);
}

void
pin_gearing_change_free (PinGearingChange *self)
{
  if (self == NULL)
    return;
  g_free (self->day);
  g_free (self->text);
  g_free (self);
}

static int
gear_of (const char *kind)
{
  for (int i = 0; i < N_GEARS; i++)
    if (g_strcmp0 (kind, gears[i].kind) == 0)
      return i;
  return -1;
}

/* A spec without a unit is kept as words. */
static double
number_of (const PinTrait *trait)
{
  double value;

  if (trait == NULL)
    return NAN;
  return !isfinite (trait->value) && pin_number_parse (trait->text, &value) ? value : trait->value;
}

/* ---- reading: when it was changed, and what was there before -------------------------------- */

static const PinTrait *
trait_in (const GPtrArray *traits, gint64 thing, const char *code)
{
  for (guint i = 0; i < traits->len; i++)
    {
      const PinTrait *trait = g_ptr_array_index (traits, i);

      if (trait->thing == thing && g_str_equal (trait->code, code))
        return trait;
    }
  return NULL;
}

/* The newest day on which a gear or tyre was fitted, or said to be another. */
static const char *
last_day (const PinCarRows *car)
{
  const char *last = NULL;

  for (guint i = 0; i < car->parts->len; i++)
    {
      const PinPartRow *part = g_ptr_array_index (car->parts, i);
      int gear = gear_of (part->kind);
      const PinTrait *trait = gear >= 0 ? trait_in (car->traits, part->id, gears[gear].spec) : NULL;

      if (gear < 0)
        continue;
      if (trait != NULL && (last == NULL || strcmp (trait->day, last) > 0))
        last = trait->day;
      if (part->since != NULL && (last == NULL || strcmp (part->since, last) > 0))
        last = part->since;
    }
  return last;
}

static gboolean
read_before (PinGearingRows *rows, PinDb *db, const PinPlaceRow *place, const char *day, GError **error)
{
  Before before = { gear_of (place->kind), place->id, NAN };
  gint64 part = pin_setup_part_on (db, place->id, day, error);
  g_autoptr (GPtrArray) traits = NULL;

  if (part < 0)
    return FALSE;
  if (part != 0)
    {
      const PinTrait *trait;

      traits = pin_query_traits (db, part, day, error);
      if (traits == NULL)
        return FALSE;
      trait = trait_in (traits, part, gears[before.gear].spec);
      /* What is usual for its type was never said of this car: to correct it
       * gears nothing up. */
      if (trait != NULL && g_strcmp0 (trait->origin, "default") != 0)
        before.value = number_of (trait);
    }
  g_array_append_val (rows->before, before);
  return TRUE;
}

PinGearingRows *
pin_gearing_rows_load (PinDb *db, const PinCarRows *car, GError **error)
{
  g_autoptr (PinGearingRows) rows = g_new0 (PinGearingRows, 1);
  const char *changed = last_day (car);
  g_autofree char *day = changed != NULL ? pin_day_add (changed, -1) : NULL;

  rows->before = g_array_new (FALSE, FALSE, sizeof (Before));
  rows->day = g_strdup (changed);
  for (guint i = 0; day != NULL && i < car->places->len; i++)
    {
      const PinPlaceRow *place = g_ptr_array_index (car->places, i);

      if (gear_of (place->kind) >= 0 && !read_before (rows, db, place, day, error))
        return NULL;
    }
  return g_steal_pointer (&rows);
}

/* ---- what it did --------------------------------------------------------------------------------- */

static const PinSlot *
slot_at (const PinCar *car, gint64 place)
{
  return g_hash_table_lookup (car->by_place, &place);
}

/* Mean of those places that are known on both sides, before and after; FALSE:
 * none is. */
static gboolean
means_of (const PinGearingRows *rows, const PinCar *car, int gear, double *before, double *after)
{
  guint n = 0;

  *before = *after = 0;
  for (guint i = 0; i < rows->before->len; i++)
    {
      const Before *was = &g_array_index (rows->before, Before, i);
      const PinSlot *slot = was->gear == gear ? slot_at (car, was->place) : NULL;
      double now = slot != NULL && slot->part != 0 ? number_of (pin_slot_spec (slot, gears[gear].spec)) : NAN;

      if (!isfinite (now) || !isfinite (was->value) || was->value <= 0 || now <= 0)
        continue;
      *before += was->value;
      *after += now;
      n++;
    }
  if (n == 0)
    return FALSE;
  *before /= n;
  *after /= n;
  return TRUE;
}

static void
say_gear (GString *text, int gear, double before, double after)
{
  static const char *const names[] = { N_("pinion"), N_("spur"), N_("tyres") };
  const PinUnit *unit = pin_unit_find (gear == TYRE ? "mm" : "1");
  g_autofree char *was = NULL;
  g_autofree char *is = NULL;

  if (fabs (after / before - 1) < SAME)
    return;
  was = pin_value_format (before, unit, gear == TYRE ? 1 : 0);
  is = pin_value_format (after, unit, gear == TYRE ? 1 : 0);
  g_string_append (text, text->len > 0 ? ", " : "");
  g_string_append_printf (text, _("%s %s to %s"), _(names[gear]), was, is);
}

static gboolean
measured_since (const GPtrArray *readings, const char *day)
{
  for (guint i = 0; i < readings->len; i++)
    {
      const PinReading *reading = g_ptr_array_index (readings, i);

      if (g_str_equal (reading->quantity, "temperature") && strcmp (reading->day, day) >= 0)
        return TRUE;
    }
  return FALSE;
}

PinGearingChange *
pin_gearing_change_new (const PinGearingRows *rows, const PinCar *car, const GPtrArray *readings)
{
  g_autoptr (GString) what = g_string_new (NULL);
  PinGearingChange *self;
  g_autofree char *day = NULL;
  g_autofree char *share = NULL;
  double factor = 1;

  for (int gear = 0; rows->day != NULL && gear < N_GEARS; gear++)
    {
      double before, after;

      if (!means_of (rows, car, gear, &before, &after))
        continue;
      factor *= gear == SPUR ? before / after : after / before;
      say_gear (what, gear, before, after);
    }
  if (fabs (factor - 1) < SAME)
    return NULL;
  day = pin_day_short (rows->day);
  self = g_new0 (PinGearingChange, 1);
  self->day = g_strdup (rows->day);
  self->factor = factor;
  self->measured = measured_since (readings, rows->day);
  share = pin_value_format (fabs (factor - 1), pin_unit_find ("%"), 1);
  self->text = g_strdup_printf (factor > 1 ? _("Geared up %s on %s: %s.") : _("Geared down %s on %s: %s."), share, day,
                                what->str);
  return self;
}
