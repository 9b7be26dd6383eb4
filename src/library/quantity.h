#pragma once

#include <glib.h>

/* Units and typed values.  Inside the program every number is in the
 * canonical unit of its dimension: s, m, kg, N·m, V, Ω, A, m²/s, °C (K for
 * differences), rad, m³, Hz, Pa, N, and 1 for counts and shares.  Numbers are
 * read and written independently of the locale. */

typedef enum
{
  PIN_DIMENSION_NUMBER,       /* 1, %, count */
  PIN_DIMENSION_TIME,         /* s */
  PIN_DIMENSION_LENGTH,       /* m */
  PIN_DIMENSION_MASS,         /* kg */
  PIN_DIMENSION_TORQUE,       /* N·m */
  PIN_DIMENSION_VOLTAGE,      /* V */
  PIN_DIMENSION_RESISTANCE,   /* Ω */
  PIN_DIMENSION_CURRENT,      /* A */
  PIN_DIMENSION_CHARGE,       /* C */
  PIN_DIMENSION_VISCOSITY,    /* m²/s, kinematic */
  PIN_DIMENSION_TEMPERATURE,  /* °C */
  PIN_DIMENSION_TEMPERATURE_DIFFERENCE, /* K */
  PIN_DIMENSION_ANGLE,        /* rad */
  PIN_DIMENSION_VOLUME,       /* m³ */
  PIN_DIMENSION_PRESSURE,     /* Pa */
  PIN_DIMENSION_FORCE,        /* N */
  PIN_DIMENSION_SPEED,        /* m/s */
  PIN_DIMENSION_PITCH,        /* m, gear module */
  PIN_DIMENSION_FREQUENCY,    /* Hz; turns a second */
  PIN_DIMENSION_SPEED_CONSTANT, /* Hz/V, of a motor */
  PIN_DIMENSION_STIFFNESS,    /* N/m */
  PIN_DIMENSION_POWER,        /* W */
  PIN_DIMENSION_ENERGY,       /* J */
  PIN_DIMENSION_DENSITY,      /* kg/m³ */
  PIN_DIMENSION_INERTIA,      /* kg·m² */
  PIN_DIMENSION_AREA,         /* m² */
  PIN_DIMENSION_DAMPING,      /* N·s/m */
  PIN_DIMENSION_SLOWING,      /* Hz/s: turns a second lost in a second */
  PIN_DIMENSION_AIR_DRAG,     /* N·s²/m²: force by the square of the speed */
} PinDimension;

/* "K" is a difference of temperature; "kelvin" is a temperature.  A value in
 * "dp" (diametral pitch) is the reciprocal of the module: use the functions
 * below rather than factor and offset. */
typedef struct
{
  const char   *id;           /* as typed: "mm", "cSt", "degC" */
  const char   *symbol;       /* as shown: "mm", "cSt", "°C" */
  PinDimension  dimension;
  double        factor;       /* canonical = value * factor + offset */
  double        offset;
} PinUnit;

const PinUnit *pin_unit_find      (const char     *id);
const PinUnit *pin_unit_as        (const PinUnit  *unit,
                                   PinDimension    wanted);
const char   **pin_unit_ids       (void);
const char    *pin_unit_suggest   (const char     *typed);
const char    *pin_dimension_word (PinDimension    dimension);
const char    *pin_unit_si        (const PinUnit  *unit);
double         pin_unit_to        (const PinUnit  *unit,
                                   double          canonical);
double         pin_unit_from      (const PinUnit  *unit,
                                   double          value);
gboolean       pin_value_parse    (const char     *text,
                                   const PinUnit  *fallback,
                                   double         *canonical,
                                   const PinUnit **unit,
                                   GError        **error);
char          *pin_value_format   (double          canonical,
                                   const PinUnit  *unit,
                                   int             decimals);
gboolean       pin_number_parse   (const char     *text,
                                   double         *number);
char          *pin_number_format  (double          number,
                                   int             decimals);
