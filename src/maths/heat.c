#include "maths/heat.h"

#include <math.h>

#include <gsl/gsl_fit.h>

#define ABSOLUTE_ZERO -273.15 /* °C */

static int
is_temperature (double celsius)
{
  return celsius > ABSOLUTE_ZERO;
}

static int
is_emissivity (double emissivity)
{
  return emissivity > 0 && emissivity <= 1;
}

/* What would have been read in air of another temperature.
 *
 *   corrected = measured + (reference - air)
 *
 * One degree for one: the rise stays, as long as the losses go with the difference.
 * All in °C.  Source: Newton's law of cooling. */
PinMathsStatus
pin_heat_corrected (double measured, double air, double reference, double *corrected)
{
  if (!isfinite (measured) || !isfinite (air) || !isfinite (reference))
    return PIN_MATHS_NOT_FINITE;
  if (!is_temperature (measured) || !is_temperature (air) || !is_temperature (reference))
    return PIN_MATHS_RANGE;
  *corrected = measured + (reference - air);
  return PIN_MATHS_OK;
}

/* ---- infrared -------------------------------------------------------------------------------- */

static double
fourth (double celsius)
{
  double kelvin = celsius - ABSOLUTE_ZERO;

  return kelvin * kelvin * kelvin * kelvin;
}

static PinMathsStatus
check_infrared (double at, double set, double emissivity, double reflected)
{
  if (!isfinite (at) || !isfinite (set) || !isfinite (emissivity) || !isfinite (reflected))
    return PIN_MATHS_NOT_FINITE;
  if (!is_temperature (at) || !is_temperature (reflected) || !is_emissivity (set) || !is_emissivity (emissivity))
    return PIN_MATHS_RANGE;
  return PIN_MATHS_OK;
}

/* @at seen with one emissivity, as it looks with the other, in °C. */
static PinMathsStatus
seen_as (double at, double with, double as, double reflected, double *result)
{
  double power = fourth (reflected) + with / as * (fourth (at) - fourth (reflected));

  if (power <= 0)
    return PIN_MATHS_NO_ANSWER;
  *result = sqrt (sqrt (power)) + ABSOLUTE_ZERO;
  return PIN_MATHS_OK;
}

/* True temperature of a surface from an infrared thermometer's reading.
 *
 *   T^4 = Tr^4 + set / emissivity * (reading^4 - Tr^4)        (kelvin)
 *
 * @set: the emissivity that the thermometer reckons with, @emissivity: that of the
 * surface, both more than 0 and at most 1.  @reflected: temperature of what the
 * surface mirrors, °C.  Over all wavelengths; a thermometer that sees 8 to 14 µm is a
 * degree or few off.  Source: Stefan-Boltzmann law, grey surface.
 * PIN_MATHS_NO_ANSWER if no surface of that emissivity could send so little. */
PinMathsStatus
pin_heat_true (double reading, double set, double emissivity, double reflected, double *temperature)
{
  PinMathsStatus status = check_infrared (reading, set, emissivity, reflected);

  return status != PIN_MATHS_OK ? status : seen_as (reading, set, emissivity, reflected, temperature);
}

/* The reverse: what the thermometer will show. */
PinMathsStatus
pin_heat_reading (double temperature, double set, double emissivity, double reflected, double *reading)
{
  PinMathsStatus status = check_infrared (temperature, set, emissivity, reflected);

  return status != PIN_MATHS_OK ? status : seen_as (temperature, emissivity, set, reflected, reading);
}

/* Change of the true temperature with the surface's emissivity, K for 1.
 *
 *   dT/de = -set / emissivity^2 * (reading^4 - Tr^4) / (4 * T^3)        (kelvin)
 */
PinMathsStatus
pin_heat_true_slope (double reading, double set, double emissivity, double reflected, double *slope)
{
  double temperature, kelvin;
  PinMathsStatus status = pin_heat_true (reading, set, emissivity, reflected, &temperature);

  if (status != PIN_MATHS_OK)
    return status;
  kelvin = temperature - ABSOLUTE_ZERO;
  *slope = -set / (emissivity * emissivity) * (fourth (reading) - fourth (reflected)) / (4 * kelvin * kelvin * kelvin);
  return PIN_MATHS_OK;
}

/* ---- windings --------------------------------------------------------------------------------- */

/* Mean temperature of a winding from its resistance.
 *
 *   hot = hot_resistance / cold_resistance * (constant + cold) - constant
 *
 * Resistances in one unit, more than 0; temperatures °C.  @constant: 234.5 or 235 for
 * copper, by the standard that is followed.  Source: linear law of resistance. */
PinMathsStatus
pin_heat_winding (double cold_resistance, double cold, double hot_resistance, double constant, double *hot)
{
  if (!isfinite (cold_resistance) || !isfinite (cold) || !isfinite (hot_resistance) || !isfinite (constant))
    return PIN_MATHS_NOT_FINITE;
  if (cold_resistance <= 0 || hot_resistance <= 0 || constant <= 0 || constant + cold <= 0)
    return PIN_MATHS_RANGE;
  *hot = hot_resistance / cold_resistance * (constant + cold) - constant;
  return PIN_MATHS_OK;
}

/* ---- gearing ------------------------------------------------------------------------------------ */

/* Rise over the air after a change of gearing.
 *
 *   geared = rise * ratio^exponent
 *
 * @rise: K, 0 or more.  @ratio: rollout then by rollout now, more than 0.  @exponent:
 * 2 for the loss in the copper alone (load torque, so current, goes with the rollout),
 * which is a floor when gearing up.  Source: Joule's law; an estimate. */
PinMathsStatus
pin_heat_geared (double rise, double ratio, double exponent, double *geared)
{
  if (!isfinite (rise) || !isfinite (ratio) || !isfinite (exponent))
    return PIN_MATHS_NOT_FINITE;
  if (rise < 0 || ratio <= 0)
    return PIN_MATHS_RANGE;
  *geared = rise * pow (ratio, exponent);
  return PIN_MATHS_OK;
}

/* The rollout at which the rise comes to @allowed by the floor above, in the unit of
 * @rollout.  @rise and @allowed: K, more than 0. */
PinMathsStatus
pin_heat_rollout (double rise, double rollout, double allowed, double *most)
{
  if (!isfinite (rise) || !isfinite (rollout) || !isfinite (allowed))
    return PIN_MATHS_NOT_FINITE;
  if (rise <= 0 || rollout <= 0 || allowed <= 0)
    return PIN_MATHS_RANGE;
  *most = rollout * sqrt (allowed / rise);
  return PIN_MATHS_OK;
}

enum { MOST_RUNS = 128 };

/* The power of the rollout with which the rise went: a straight line through the
 * logarithms of both.
 *
 * @rollouts, @rises: @n of each, 2 to 128, more than 0, in any unit.  Source: least
 * squares (gsl_fit_linear).  PIN_MATHS_DEGENERATE if all rollouts are alike. */
PinMathsStatus
pin_heat_power (const double *rollouts, const double *rises, size_t n, PinHeatPower *power)
{
  double x[MOST_RUNS], y[MOST_RUNS], least = INFINITY, most = -INFINITY;
  double c0, c1, cov00, cov01, cov11, sum;

  if (n < 2)
    return PIN_MATHS_TOO_FEW;
  if (n > MOST_RUNS)
    return PIN_MATHS_RANGE;
  for (size_t i = 0; i < n; i++)
    {
      if (!isfinite (rollouts[i]) || !isfinite (rises[i]))
        return PIN_MATHS_NOT_FINITE;
      if (rollouts[i] <= 0 || rises[i] <= 0)
        return PIN_MATHS_RANGE;
      x[i] = log (rollouts[i]);
      y[i] = log (rises[i]);
      least = fmin (least, x[i]);
      most = fmax (most, x[i]);
    }
  if (most - least < 1e-6)
    return PIN_MATHS_DEGENERATE;
  gsl_fit_linear (x, 1, y, 1, n, &c0, &c1, &cov00, &cov01, &cov11, &sum);
  power->exponent = c1;
  power->error = n > 2 ? sqrt (cov11) : NAN;
  return PIN_MATHS_OK;
}
