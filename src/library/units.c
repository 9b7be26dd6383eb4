#include "library/quantity.h"

#include <glib/gi18n.h>
#include <math.h>

#include "library/suggest.h"

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
  { "teeth", "T", PIN_DIMENSION_NUMBER, 1, 0 },

  { "s", "s", PIN_DIMENSION_TIME, 1, 0 },
  { "ms", "ms", PIN_DIMENSION_TIME, 1e-3, 0 },
  { "us", "µs", PIN_DIMENSION_TIME, 1e-6, 0 },
  { "min", "min", PIN_DIMENSION_TIME, 60, 0 },
  { "h", "h", PIN_DIMENSION_TIME, 3600, 0 },

  { "m", "m", PIN_DIMENSION_LENGTH, 1, 0 },
  { "cm", "cm", PIN_DIMENSION_LENGTH, 1e-2, 0 },
  { "mm", "mm", PIN_DIMENSION_LENGTH, 1e-3, 0 },
  { "um", "µm", PIN_DIMENSION_LENGTH, 1e-6, 0 },
  { "in", "in", PIN_DIMENSION_LENGTH, INCH, 0 },
  { "ft", "ft", PIN_DIMENSION_LENGTH, 12 * INCH, 0 },
  { "km", "km", PIN_DIMENSION_LENGTH, 1e3, 0 },
  { "mile", "mile", PIN_DIMENSION_LENGTH, 1609.344, 0 },

  { "kg", "kg", PIN_DIMENSION_MASS, 1, 0 },
  { "g", "g", PIN_DIMENSION_MASS, 1e-3, 0 },
  { "lb", "lb", PIN_DIMENSION_MASS, POUND, 0 },
  { "oz", "oz", PIN_DIMENSION_MASS, OUNCE, 0 },

  { "N.m", "N·m", PIN_DIMENSION_TORQUE, 1, 0 },
  { "kgfcm", "kgf·cm", PIN_DIMENSION_TORQUE, FREE_FALL * 0.01, 0 },
  { "ozfin", "ozf·in", PIN_DIMENSION_TORQUE, 0.00706155181422604375, 0 },
  { "lbfin", "lbf·in", PIN_DIMENSION_TORQUE, 0.1129848290276167, 0 },
  { "lbfft", "lbf·ft", PIN_DIMENSION_TORQUE, 1.3558179483314004, 0 },

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
  { "gal", "US gal", PIN_DIMENSION_VOLUME, 3.785411784e-3, 0 },
  { "in3", "in³", PIN_DIMENSION_VOLUME, 16.387064e-6, 0 },

  { "Pa", "Pa", PIN_DIMENSION_PRESSURE, 1, 0 },
  { "kPa", "kPa", PIN_DIMENSION_PRESSURE, 1e3, 0 },
  { "bar", "bar", PIN_DIMENSION_PRESSURE, 1e5, 0 },
  { "psi", "psi", PIN_DIMENSION_PRESSURE, POUND * FREE_FALL / (INCH * INCH), 0 },

  { "MPa", "MPa", PIN_DIMENSION_PRESSURE, 1e6, 0 },
  { "GPa", "GPa", PIN_DIMENSION_PRESSURE, 1e9, 0 },

  { "N", "N", PIN_DIMENSION_FORCE, 1, 0 },
  { "kN", "kN", PIN_DIMENSION_FORCE, 1e3, 0 },
  { "gf", "gf", PIN_DIMENSION_FORCE, FREE_FALL * 1e-3, 0 },
  { "kgf", "kgf", PIN_DIMENSION_FORCE, FREE_FALL, 0 },
  { "lbf", "lbf", PIN_DIMENSION_FORCE, POUND * FREE_FALL, 0 },

  { "m/s", "m/s", PIN_DIMENSION_SPEED, 1, 0 },
  { "km/h", "km/h", PIN_DIMENSION_SPEED, 1 / 3.6, 0 },
  { "mph", "mph", PIN_DIMENSION_SPEED, 0.44704, 0 },

  /* The module in mm; a diametral pitch is its reciprocal in inches. */
  { "mod", "mod", PIN_DIMENSION_PITCH, 1e-3, 0 },
  { "dp", "dp", PIN_DIMENSION_PITCH, INCH, 0 },

  { "Hz", "Hz", PIN_DIMENSION_FREQUENCY, 1, 0 },
  { "rpm", "rpm", PIN_DIMENSION_FREQUENCY, 1.0 / 60, 0 },
  { "rpm/V", "rpm/V", PIN_DIMENSION_SPEED_CONSTANT, 1.0 / 60, 0 },

  { "N/m", "N/m", PIN_DIMENSION_STIFFNESS, 1, 0 },
  { "N/mm", "N/mm", PIN_DIMENSION_STIFFNESS, 1e3, 0 },
  { "gf/mm", "gf/mm", PIN_DIMENSION_STIFFNESS, FREE_FALL, 0 },
  { "lbf/in", "lbf/in", PIN_DIMENSION_STIFFNESS, POUND * FREE_FALL / INCH, 0 },
  { "N.s/m", "N·s/m", PIN_DIMENSION_DAMPING, 1, 0 },
  { "rpm/s", "rpm/s", PIN_DIMENSION_SLOWING, 1.0 / 60, 0 },
  { "N.s2/m2", "N·s²/m²", PIN_DIMENSION_AIR_DRAG, 1, 0 },

  { "W", "W", PIN_DIMENSION_POWER, 1, 0 },
  { "hp", "hp", PIN_DIMENSION_POWER, 745.69987158227022, 0 },
  { "J", "J", PIN_DIMENSION_ENERGY, 1, 0 },
  { "Wh", "Wh", PIN_DIMENSION_ENERGY, 3600, 0 },

  { "kg/m3", "kg/m³", PIN_DIMENSION_DENSITY, 1, 0 },
  { "g/ml", "g/ml", PIN_DIMENSION_DENSITY, 1e3, 0 },
  { "kg.m2", "kg·m²", PIN_DIMENSION_INERTIA, 1, 0 },
  { "g.cm2", "g·cm²", PIN_DIMENSION_INERTIA, 1e-7, 0 },
  { "m2", "m²", PIN_DIMENSION_AREA, 1, 0 },
  { "cm2", "cm²", PIN_DIMENSION_AREA, 1e-4, 0 },
  { "mm2", "mm²", PIN_DIMENSION_AREA, 1e-6, 0 },
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
  { "T", "teeth" },
  { "µs", "us" },     { "μs", "us" },
  { "µm", "um" },     { "μm", "um" },
  { "kV", "rpm/V" },  { "kv", "rpm/V" },
  { "N·s/m", "N.s/m" }, { "Ns/m", "N.s/m" },
  { "g/cm3", "g/ml" }, { "g/cm³", "g/ml" },  { "kg/m³", "kg/m3" },
  { "g·cm²", "g.cm2" }, { "gcm2", "g.cm2" }, { "kg·m²", "kg.m2" },
  { "m²", "m2" },     { "cm²", "cm2" }, { "mm²", "mm2" },
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

/* The id of the unit that was probably meant by @typed, or NULL. */
const char *
pin_unit_suggest (const char *typed)
{
  g_autofree const char **ids = pin_unit_ids ();

  for (size_t i = 0; ids[i] != NULL; i++)
    if (g_ascii_strcasecmp (ids[i], typed) == 0)
      return ids[i];
  return pin_suggest (typed, ids);
}

/* In words, with its article: "a length". */
const char *
pin_dimension_word (PinDimension dimension)
{
  switch (dimension)
    {
    case PIN_DIMENSION_NUMBER: return _("a number or a share");
    case PIN_DIMENSION_TIME: return _("a time");
    case PIN_DIMENSION_LENGTH: return _("a length");
    case PIN_DIMENSION_MASS: return _("a mass");
    case PIN_DIMENSION_TORQUE: return _("a torque");
    case PIN_DIMENSION_VOLTAGE: return _("a voltage");
    case PIN_DIMENSION_RESISTANCE: return _("a resistance");
    case PIN_DIMENSION_CURRENT: return _("a current");
    case PIN_DIMENSION_CHARGE: return _("a charge");
    case PIN_DIMENSION_VISCOSITY: return _("a viscosity");
    case PIN_DIMENSION_TEMPERATURE: return _("a temperature");
    case PIN_DIMENSION_TEMPERATURE_DIFFERENCE: return _("a difference of temperature");
    case PIN_DIMENSION_ANGLE: return _("an angle");
    case PIN_DIMENSION_VOLUME: return _("a volume");
    case PIN_DIMENSION_PRESSURE: return _("a pressure");
    case PIN_DIMENSION_FORCE: return _("a force");
    case PIN_DIMENSION_SPEED: return _("a speed");
    case PIN_DIMENSION_PITCH: return _("a gear pitch");
    case PIN_DIMENSION_FREQUENCY: return _("a speed of turning");
    case PIN_DIMENSION_SPEED_CONSTANT: return _("a motor's speed constant");
    case PIN_DIMENSION_STIFFNESS: return _("a spring rate");
    case PIN_DIMENSION_POWER: return _("a power");
    case PIN_DIMENSION_ENERGY: return _("an energy");
    case PIN_DIMENSION_DENSITY: return _("a density");
    case PIN_DIMENSION_INERTIA: return _("a moment of inertia");
    case PIN_DIMENSION_AREA: return _("an area");
    case PIN_DIMENSION_DAMPING: return _("a damping");
    case PIN_DIMENSION_SLOWING: return _("a loss of speed of turning");
    case PIN_DIMENSION_AIR_DRAG: return _("a drag of the air");
    }
  return _("a value");
}

/* The symbol of the canonical unit of @unit's dimension; "1" for numbers. */
const char *
pin_unit_si (const PinUnit *unit)
{
  switch (unit->dimension)
    {
    case PIN_DIMENSION_NUMBER: return "1";
    case PIN_DIMENSION_TIME: return "s";
    case PIN_DIMENSION_LENGTH: return "m";
    case PIN_DIMENSION_MASS: return "kg";
    case PIN_DIMENSION_TORQUE: return "N·m";
    case PIN_DIMENSION_VOLTAGE: return "V";
    case PIN_DIMENSION_RESISTANCE: return "Ω";
    case PIN_DIMENSION_CURRENT: return "A";
    case PIN_DIMENSION_CHARGE: return "C";
    case PIN_DIMENSION_VISCOSITY: return "m²/s";
    case PIN_DIMENSION_TEMPERATURE: return "°C";
    case PIN_DIMENSION_TEMPERATURE_DIFFERENCE: return "K";
    case PIN_DIMENSION_ANGLE: return "rad";
    case PIN_DIMENSION_VOLUME: return "m³";
    case PIN_DIMENSION_PRESSURE: return "Pa";
    case PIN_DIMENSION_FORCE: return "N";
    case PIN_DIMENSION_SPEED: return "m/s";
    case PIN_DIMENSION_PITCH: return "m";
    case PIN_DIMENSION_FREQUENCY: return "Hz";
    case PIN_DIMENSION_SPEED_CONSTANT: return "Hz/V";
    case PIN_DIMENSION_STIFFNESS: return "N/m";
    case PIN_DIMENSION_POWER: return "W";
    case PIN_DIMENSION_ENERGY: return "J";
    case PIN_DIMENSION_DENSITY: return "kg/m³";
    case PIN_DIMENSION_INERTIA: return "kg·m²";
    case PIN_DIMENSION_AREA: return "m²";
    case PIN_DIMENSION_DAMPING: return "N·s/m";
    case PIN_DIMENSION_SLOWING: return "Hz/s";
    case PIN_DIMENSION_AIR_DRAG: return "N·s²/m²";
    }
  return "1";
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
