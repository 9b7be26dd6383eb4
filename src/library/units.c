#include "library/quantity.h"

#include <math.h>

/* Factors are exact definitions (international inch and pound of 1959, the
 * standard acceleration of free fall, the US gallon of 231 cubic inches), as
 * printed in NIST Special Publication 811, appendix B, and the SI brochure. */

#define INCH 0.0254
#define POUND 0.45359237
#define OUNCE 0.028349523125
#define FREE_FALL 9.80665

static const PinUnit units[] = {
  { "1", "", PIN_DIMENSION_NUMBER, 1, 0 },
  { "%", "%", PIN_DIMENSION_NUMBER, 0.01, 0 },

  { "s", "s", PIN_DIMENSION_TIME, 1, 0 },
  { "ms", "ms", PIN_DIMENSION_TIME, 1e-3, 0 },
  { "min", "min", PIN_DIMENSION_TIME, 60, 0 },
  { "h", "h", PIN_DIMENSION_TIME, 3600, 0 },

  { "m", "m", PIN_DIMENSION_LENGTH, 1, 0 },
  { "cm", "cm", PIN_DIMENSION_LENGTH, 1e-2, 0 },
  { "mm", "mm", PIN_DIMENSION_LENGTH, 1e-3, 0 },
  { "in", "in", PIN_DIMENSION_LENGTH, INCH, 0 },

  { "kg", "kg", PIN_DIMENSION_MASS, 1, 0 },
  { "g", "g", PIN_DIMENSION_MASS, 1e-3, 0 },
  { "lb", "lb", PIN_DIMENSION_MASS, POUND, 0 },
  { "oz", "oz", PIN_DIMENSION_MASS, OUNCE, 0 },

  { "N.m", "N·m", PIN_DIMENSION_TORQUE, 1, 0 },
  { "kgfcm", "kgf·cm", PIN_DIMENSION_TORQUE, FREE_FALL * 0.01, 0 },
  { "ozfin", "ozf·in", PIN_DIMENSION_TORQUE, 0.00706155181422604375, 0 },
  { "lbfin", "lbf·in", PIN_DIMENSION_TORQUE, 0.1129848290276167, 0 },

  { "V", "V", PIN_DIMENSION_VOLTAGE, 1, 0 },
  { "mV", "mV", PIN_DIMENSION_VOLTAGE, 1e-3, 0 },
  { "ohm", "Ω", PIN_DIMENSION_RESISTANCE, 1, 0 },
  { "mohm", "mΩ", PIN_DIMENSION_RESISTANCE, 1e-3, 0 },
  { "A", "A", PIN_DIMENSION_CURRENT, 1, 0 },
  { "mA", "mA", PIN_DIMENSION_CURRENT, 1e-3, 0 },
  { "Ah", "Ah", PIN_DIMENSION_CHARGE, 3600, 0 },
  { "mAh", "mAh", PIN_DIMENSION_CHARGE, 3.6, 0 },

  { "cSt", "cSt", PIN_DIMENSION_VISCOSITY, 1e-6, 0 },

  { "degC", "°C", PIN_DIMENSION_TEMPERATURE, 1, 0 },
  { "degF", "°F", PIN_DIMENSION_TEMPERATURE, 5.0 / 9, -160.0 / 9 },
  { "kelvin", "K", PIN_DIMENSION_TEMPERATURE, 1, -273.15 },
  { "K", "K", PIN_DIMENSION_TEMPERATURE_DIFFERENCE, 1, 0 },
  { "difC", "°C", PIN_DIMENSION_TEMPERATURE_DIFFERENCE, 1, 0 },
  { "difF", "°F", PIN_DIMENSION_TEMPERATURE_DIFFERENCE, 5.0 / 9, 0 },

  { "rad", "rad", PIN_DIMENSION_ANGLE, 1, 0 },
  { "deg", "°", PIN_DIMENSION_ANGLE, G_PI / 180, 0 },

  { "l", "l", PIN_DIMENSION_VOLUME, 1e-3, 0 },
  { "ml", "ml", PIN_DIMENSION_VOLUME, 1e-6, 0 },
  { "cc", "cc", PIN_DIMENSION_VOLUME, 1e-6, 0 },
  { "floz", "US fl oz", PIN_DIMENSION_VOLUME, 29.5735295625e-6, 0 },

  { "Pa", "Pa", PIN_DIMENSION_PRESSURE, 1, 0 },
  { "kPa", "kPa", PIN_DIMENSION_PRESSURE, 1e3, 0 },
  { "bar", "bar", PIN_DIMENSION_PRESSURE, 1e5, 0 },
  { "psi", "psi", PIN_DIMENSION_PRESSURE, POUND * FREE_FALL / (INCH * INCH), 0 },

  { "N", "N", PIN_DIMENSION_FORCE, 1, 0 },

  { "m/s", "m/s", PIN_DIMENSION_SPEED, 1, 0 },
  { "km/h", "km/h", PIN_DIMENSION_SPEED, 1 / 3.6, 0 },
  { "mph", "mph", PIN_DIMENSION_SPEED, 0.44704, 0 },

  /* The module in mm; a diametral pitch is its reciprocal in inches. */
  { "mod", "mod", PIN_DIMENSION_PITCH, 1e-3, 0 },
  { "dp", "dp", PIN_DIMENSION_PITCH, INCH, 0 },
};

/* Other ways to type the same unit. */
static const struct { const char *typed, *id; } others[] = {
  { "", "1" },        { "count", "1" },
  { "sec", "s" },     { "hr", "h" },
  { "inch", "in" },   { "\"", "in" },
  { "Nm", "N.m" },    { "N·m", "N.m" },
  { "kgf.cm", "kgfcm" }, { "kgf·cm", "kgfcm" }, { "kgcm", "kgfcm" },
  { "ozf.in", "ozfin" }, { "ozf·in", "ozfin" }, { "ozin", "ozfin" },
  { "lbf.in", "lbfin" }, { "lbf·in", "lbfin" }, { "lbin", "lbfin" },
  { "Ω", "ohm" },     { "mΩ", "mohm" },
  /* The same letter, as the ohm sign of old character sets. */
  { "\342\204\246", "ohm" }, { "m\342\204\246", "mohm" },
  { "cst", "cSt" },   { "mm²/s", "cSt" },
  { "C", "degC" },    { "°C", "degC" },
  { "F", "degF" },    { "°F", "degF" },
  { "°", "deg" },
  { "L", "l" },       { "mL", "ml" },  { "ccm", "cc" },
  { "kph", "km/h" },
  { "DP", "dp" },
};

/* The unit that is typed as @id ("mm", "degC", "C", "°C"), or NULL.  "K" is a
 * difference of temperature.  The result lives for ever. */
const PinUnit *
pin_unit_find (const char *id)
{
  g_return_val_if_fail (id != NULL, NULL);
  for (size_t i = 0; i < G_N_ELEMENTS (others); i++)
    if (g_str_equal (others[i].typed, id))
      id = others[i].id;
  for (size_t i = 0; i < G_N_ELEMENTS (units); i++)
    if (g_str_equal (units[i].id, id))
      return &units[i];
  return NULL;
}

/* The unit of @unit's size in dimension @wanted, where the same symbol serves
 * a temperature and a difference of temperatures; else @unit itself. */
const PinUnit *
pin_unit_as (const PinUnit *unit, PinDimension wanted)
{
  if (unit->dimension == wanted)
    return unit;
  if (unit->dimension != PIN_DIMENSION_TEMPERATURE &&
      unit->dimension != PIN_DIMENSION_TEMPERATURE_DIFFERENCE)
    return unit;
  for (size_t i = 0; i < G_N_ELEMENTS (units); i++)
    if (units[i].dimension == wanted && g_str_equal (units[i].symbol, unit->symbol))
      return &units[i];
  return unit;
}

/* NULL-terminated, for suggestions; ids in the order of the table.  Free the
 * array with g_free(), not its strings. */
const char **
pin_unit_ids (void)
{
  const char **ids = g_new0 (const char *, G_N_ELEMENTS (units) + 1);

  for (size_t i = 0; i < G_N_ELEMENTS (units); i++)
    ids[i] = units[i].id;
  return ids;
}

/* In words, with its article: "a length". */
const char *
pin_dimension_word (PinDimension dimension)
{
  switch (dimension)
    {
    case PIN_DIMENSION_NUMBER: return "a number or a share";
    case PIN_DIMENSION_TIME: return "a time";
    case PIN_DIMENSION_LENGTH: return "a length";
    case PIN_DIMENSION_MASS: return "a mass";
    case PIN_DIMENSION_TORQUE: return "a torque";
    case PIN_DIMENSION_VOLTAGE: return "a voltage";
    case PIN_DIMENSION_RESISTANCE: return "a resistance";
    case PIN_DIMENSION_CURRENT: return "a current";
    case PIN_DIMENSION_CHARGE: return "a charge";
    case PIN_DIMENSION_VISCOSITY: return "a viscosity";
    case PIN_DIMENSION_TEMPERATURE: return "a temperature";
    case PIN_DIMENSION_TEMPERATURE_DIFFERENCE: return "a difference of temperature";
    case PIN_DIMENSION_ANGLE: return "an angle";
    case PIN_DIMENSION_VOLUME: return "a volume";
    case PIN_DIMENSION_PRESSURE: return "a pressure";
    case PIN_DIMENSION_FORCE: return "a force";
    case PIN_DIMENSION_SPEED: return "a speed";
    case PIN_DIMENSION_PITCH: return "a gear pitch";
    }
  return "a value";
}

/* @canonical in @unit.  A pitch of 0 has no dp: infinity. */
double
pin_unit_to (const PinUnit *unit, double canonical)
{
  g_return_val_if_fail (unit != NULL, NAN);
  if (g_str_equal (unit->id, "dp"))
    return unit->factor / canonical;
  if (g_str_equal (unit->id, "degF"))
    return canonical * 9 / 5 + 32;
  return (canonical - unit->offset) / unit->factor;
}

/* @value, given in @unit, in the canonical unit of its dimension. */
double
pin_unit_from (const PinUnit *unit, double value)
{
  g_return_val_if_fail (unit != NULL, NAN);
  if (g_str_equal (unit->id, "dp"))
    return unit->factor / value;
  if (g_str_equal (unit->id, "degF"))
    return (value - 32) * 5 / 9;
  return value * unit->factor + unit->offset;
}
