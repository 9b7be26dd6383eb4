#include "maths/springs.h"

#include <math.h>

#include <gsl/gsl_fit.h>

#define FREE_FALL 9.80665     /* m/s² */
#define MOST_HEIGHTS 100

/* N/m of a coil spring of round wire:
 *
 *   rate = modulus * wire^4 / (8 * mean^3 * coils)
 *
 * @wire, @mean: diameters, m; mean is from wire middle to wire middle and more
 * than twice the wire.  @coils: active ones.  @modulus: of shear, Pa.  Source:
 * EN 13906-1, any handbook of machine elements. */
PinMathsStatus
pin_spring_rate (double wire, double mean, double coils, double modulus, double *rate)
{
  if (!isfinite (wire) || !isfinite (mean) || !isfinite (coils) || !isfinite (modulus))
    return PIN_MATHS_NOT_FINITE;
  if (wire <= 0 || mean <= 2 * wire || coils <= 0 || modulus <= 0)
    return PIN_MATHS_RANGE;
  *rate = modulus * pow (wire, 4) / (8 * pow (mean, 3) * coils);
  return PIN_MATHS_OK;
}

/* N/m at the wheel: rate * motion².  @motion: way of the shock for one of the
 * wheel, above 0 and at most 2.  Source: virtual work. */
PinMathsStatus
pin_spring_wheel_rate (double rate, double motion, double *wheel_rate)
{
  if (!isfinite (rate) || !isfinite (motion))
    return PIN_MATHS_NOT_FINITE;
  if (rate <= 0 || motion <= 0 || motion > 2)
    return PIN_MATHS_RANGE;
  *wheel_rate = rate * motion * motion;
  return PIN_MATHS_OK;
}

/* How far the wheel rises from full droop under @mass kg, in m:
 *
 *   sag = (mass * g / motion / rate - preload) / motion, and not below 0
 *
 * @preload: of the spring at full droop, m, 0 or more.  Source: balance of
 * forces; friction left out. */
PinMathsStatus
pin_spring_sag (double rate, double motion, double mass, double preload, double *sag)
{
  if (!isfinite (rate) || !isfinite (motion) || !isfinite (mass) || !isfinite (preload))
    return PIN_MATHS_NOT_FINITE;
  if (rate <= 0 || motion <= 0 || motion > 2 || mass <= 0 || preload < 0)
    return PIN_MATHS_RANGE;
  *sag = fmax (0, mass * FREE_FALL / motion / rate - preload) / motion;
  return PIN_MATHS_OK;
}

/* Hz of @mass kg on @rate N/m without damping: sqrt (rate / mass) / 2 pi. */
PinMathsStatus
pin_spring_frequency (double rate, double mass, double *frequency)
{
  if (!isfinite (rate) || !isfinite (mass))
    return PIN_MATHS_NOT_FINITE;
  if (rate <= 0 || mass <= 0)
    return PIN_MATHS_RANGE;
  *frequency = sqrt (rate / mass) / (2 * M_PI);
  return PIN_MATHS_OK;
}

/* Logarithmic decrement from the heights of two to a hundred tops in a row on
 * the same side: the slope of their logarithm, by least squares.  @uncertainty:
 * one standard error, NAN with two heights.  Heights above 0 and falling over
 * all, else degenerate.  Source: any text on vibration. */
PinMathsStatus
pin_rebound_decrement (const double *heights, size_t n, double *decrement, double *uncertainty)
{
  double tops[MOST_HEIGHTS], logs[MOST_HEIGHTS], start, slope, c00, c01, c11, rest;

  if (n < 2)
    return PIN_MATHS_TOO_FEW;
  if (n > MOST_HEIGHTS)
    return PIN_MATHS_RANGE;
  for (size_t i = 0; i < n; i++)
    {
      if (!isfinite (heights[i]))
        return PIN_MATHS_NOT_FINITE;
      if (heights[i] <= 0)
        return PIN_MATHS_RANGE;
      tops[i] = i;
      logs[i] = log (heights[i]);
    }
  gsl_fit_linear (tops, 1, logs, 1, n, &start, &slope, &c00, &c01, &c11, &rest);
  if (!(slope < 0))
    return PIN_MATHS_DEGENERATE;
  *decrement = -slope;
  *uncertainty = n > 2 ? sqrt (c11) : NAN;
  return PIN_MATHS_OK;
}

/* The decrement where @count rebounds can be told and the next is smaller than
 * the share @seen of the first push: -ln (seen) / (count + 1/2).  @count: 0 or
 * more; @seen: between 0 and 1.  Halfway between the two that it may be; an
 * estimate from a count. */
PinMathsStatus
pin_rebound_counted (double count, double seen, double *decrement)
{
  if (!isfinite (count) || !isfinite (seen))
    return PIN_MATHS_NOT_FINITE;
  if (count < 0 || seen <= 0 || seen >= 1)
    return PIN_MATHS_RANGE;
  *decrement = -log (seen) / (count + 0.5);
  return PIN_MATHS_OK;
}

/* Damping ratio: d / sqrt (4 pi² + d²), below 1. */
PinMathsStatus
pin_rebound_ratio (double decrement, double *ratio)
{
  if (!isfinite (decrement))
    return PIN_MATHS_NOT_FINITE;
  if (decrement <= 0)
    return PIN_MATHS_RANGE;
  *ratio = decrement / hypot (2 * M_PI, decrement);
  return PIN_MATHS_OK;
}
