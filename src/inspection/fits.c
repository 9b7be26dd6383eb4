#include "inspection/car.h"

static gboolean
among (char **words, const char *word)
{
  return words == NULL || *words == NULL ||
         (word && g_strv_contains ((const char *const *) words, word));
}

static gboolean
chassis_fits (const PinFits *fits, const PinChassis *chassis)
{
  return among (fits->power, chassis->power) && among (fits->drive, chassis->drive) &&
         among (fits->scale, chassis->scale) && among (fits->surface, chassis->surface);
}

/* "Not filled" has to be said: a shock of which nothing is known is oil-filled,
 * as all but friction dampers are (common practice). */
static gboolean
filled_fits (const char *filled, const PinSlot *slot)
{
  const PinTrait *trait = pin_slot_spec (slot, "filled");
  const char *is = trait && trait->text ? trait->text : "yes";

  return filled == NULL || g_str_equal (filled, is);
}

static gboolean
part_fits (const PinFits *fits, const PinSlot *slot)
{
  return among (fits->part, slot->kind) && filled_fits (fits->filled, slot);
}

/* Whether a text is meant for this vehicle: its chassis type matches, and it
 * has a part of the kind if one is named. */
gboolean
pin_fits_car (const PinFits *fits, const PinCar *car)
{
  if (fits == NULL)
    return TRUE;
  if (!chassis_fits (fits, car->chassis))
    return FALSE;
  if ((fits->part == NULL || *fits->part == NULL) && fits->filled == NULL)
    return TRUE;
  for (guint i = 0; i < car->slots->len; i++)
    if (part_fits (fits, g_ptr_array_index (car->slots, i)))
      return TRUE;
  return FALSE;
}

/* The same for one position of it; @slot NULL asks for the vehicle. */
gboolean
pin_fits_slot (const PinFits *fits, const PinCar *car, const PinSlot *slot)
{
  if (fits == NULL)
    return TRUE;
  if (slot == NULL)
    return pin_fits_car (fits, car);
  return chassis_fits (fits, car->chassis) && part_fits (fits, slot);
}

static gboolean
any_fits (const GPtrArray *fits, const PinCar *car)
{
  for (guint i = 0; i < fits->len; i++)
    if (pin_fits_car (g_ptr_array_index (fits, i), car))
      return TRUE;
  return fits->len == 0;
}

gboolean
pin_procedure_fits (const PinProcedure *procedure, const PinCar *car)
{
  return any_fits (procedure->fits, car);
}

gboolean
pin_teardown_fits (const PinTeardown *teardown, const PinCar *car)
{
  return any_fits (teardown->fits, car);
}
