#include "maths/fluids.h"

#include <math.h>

#include <gsl/gsl_fit.h>

#define ZERO 273.15
#define CENTISTOKES 1e-6
#define WALTHER 0.7
#define BARRY 763.1           /* K */
#define FREE_FALL 9.80665     /* m/s² */

/* The logarithm needs cSt + 0.7 above 1. */
static PinMathsStatus
check_viscosity (double viscosity)
{
  if (!isfinite (viscosity))
    return PIN_MATHS_NOT_FINITE;
  return viscosity > 0.31 * CENTISTOKES ? PIN_MATHS_OK : PIN_MATHS_RANGE;
}

static PinMathsStatus
check_temperature (double temperature)
{
  if (!isfinite (temperature))
    return PIN_MATHS_NOT_FINITE;
  return temperature > -ZERO ? PIN_MATHS_OK : PIN_MATHS_RANGE;
}

static double
walther (double viscosity)
{
  return log10 (log10 (viscosity / CENTISTOKES + WALTHER));
}

static double
walther_back (double height)
{
  return (pow (10, pow (10, height)) - WALTHER) * CENTISTOKES;
}

/* The line of Walther through two points:
 *
 *   log10 log10 (cSt + 0.7) = a - b * log10 K
 *
 * Both viscosities above 0.31e-6 m²/s (meant from 2e-6 on), temperatures apart.
 * Source: ASTM D341, published for petroleum products. */
PinMathsStatus
pin_fluid_walther_line (double cold, double cold_viscosity, double hot, double hot_viscosity, double *a, double *b)
{
  PinMathsStatus checks[] = { check_temperature (cold), check_temperature (hot), check_viscosity (cold_viscosity),
                              check_viscosity (hot_viscosity) };
  double slope;

  for (size_t i = 0; i < sizeof checks / sizeof *checks; i++)
    if (checks[i] != PIN_MATHS_OK)
      return checks[i];
  if (cold == hot)
    return PIN_MATHS_DEGENERATE;
  slope = (walther (cold_viscosity) - walther (hot_viscosity)) / (log10 (hot + ZERO) - log10 (cold + ZERO));
  *a = walther (cold_viscosity) + slope * log10 (cold + ZERO);
  *b = slope;
  return PIN_MATHS_OK;
}

/* m²/s at @temperature on the line.  No answer where that leaves 0.1e-6 to 1e2
 * m²/s. */
PinMathsStatus
pin_fluid_walther_at (double a, double b, double temperature, double *viscosity)
{
  PinMathsStatus status = check_temperature (temperature);
  double found;

  if (!isfinite (a) || !isfinite (b))
    return PIN_MATHS_NOT_FINITE;
  if (status != PIN_MATHS_OK)
    return status;
  found = walther_back (a - b * log10 (temperature + ZERO));
  if (!isfinite (found) || found < 0.1 * CENTISTOKES || found > 1e2)
    return PIN_MATHS_NO_ANSWER;
  *viscosity = found;
  return PIN_MATHS_OK;
}

/* How many times as thick silicone fluid is at @to as at @from:
 *
 *   log10 ratio = 763.1 * (1 / K_to - 1 / K_from)
 *
 * -60 to 250 °C.  Source: Barry 1946 for dimethyl silicone; the slope is from
 * memory.  Other silicones and thickened diff fluids differ. */
PinMathsStatus
pin_fluid_silicone_ratio (double from, double to, double *ratio)
{
  if (!isfinite (from) || !isfinite (to))
    return PIN_MATHS_NOT_FINITE;
  if (from < -60 || from > 250 || to < -60 || to > 250)
    return PIN_MATHS_RANGE;
  *ratio = pow (10, BARRY * (1 / (to + ZERO) - 1 / (from + ZERO)));
  return PIN_MATHS_OK;
}

static double
scale (PinBlendRule rule, double viscosity)
{
  return rule == PIN_BLEND_LOG ? log (viscosity) : walther (viscosity);
}

/* The viscosity with a share of @second in @first: their heights on the rule's
 * scale, weighed by volume.  @share: 0 to 1.  Source: ASTM D7152 for Walther's
 * scale, for petroleum; the plain logarithm is common practice for silicone. */
PinMathsStatus
pin_fluid_blend (PinBlendRule rule, double first, double second, double share, double *viscosity)
{
  double height;

  if (!isfinite (first) || !isfinite (second) || !isfinite (share))
    return PIN_MATHS_NOT_FINITE;
  if (check_viscosity (first) != PIN_MATHS_OK || check_viscosity (second) != PIN_MATHS_OK || share < 0 || share > 1)
    return PIN_MATHS_RANGE;
  height = (1 - share) * scale (rule, first) + share * scale (rule, second);
  *viscosity = rule == PIN_BLEND_LOG ? exp (height) : walther_back (height);
  return PIN_MATHS_OK;
}

/* The share of @second that makes @target.  No answer outside the two. */
PinMathsStatus
pin_fluid_blend_share (PinBlendRule rule, double first, double second, double target, double *share)
{
  if (!isfinite (first) || !isfinite (second) || !isfinite (target))
    return PIN_MATHS_NOT_FINITE;
  if (check_viscosity (first) != PIN_MATHS_OK || check_viscosity (second) != PIN_MATHS_OK
      || check_viscosity (target) != PIN_MATHS_OK)
    return PIN_MATHS_RANGE;
  if (first == second)
    return PIN_MATHS_DEGENERATE;
  if (target < fmin (first, second) || target > fmax (first, second))
    return PIN_MATHS_NO_ANSWER;
  *share = (scale (rule, target) - scale (rule, first)) / (scale (rule, second) - scale (rule, first));
  return PIN_MATHS_OK;
}

/* What a keeper's own table gives for @label; between two labels by the
 * logarithm, never beyond the table. */
PinMathsStatus
pin_fluid_label (const double *labels, const double *viscosities, size_t n, double label, double *viscosity)
{
  size_t below = n, above = n;
  double share;

  if (!isfinite (label))
    return PIN_MATHS_NOT_FINITE;
  for (size_t i = 0; i < n; i++)
    {
      if (!isfinite (labels[i]) || !isfinite (viscosities[i]))
        return PIN_MATHS_NOT_FINITE;
      if (viscosities[i] <= 0)
        return PIN_MATHS_RANGE;
      if (labels[i] <= label && (below == n || labels[i] > labels[below]))
        below = i;
      if (labels[i] >= label && (above == n || labels[i] < labels[above]))
        above = i;
    }
  if (below == n || above == n)
    return PIN_MATHS_NO_ANSWER;
  share = labels[above] > labels[below] ? (label - labels[below]) / (labels[above] - labels[below]) : 0;
  *viscosity = exp ((1 - share) * log (viscosities[below]) + share * log (viscosities[above]));
  return PIN_MATHS_OK;
}

/* ---- diff ----------------------------------------------------------------------------------- */

/* The part of a level lever's torque that counts when it sinks against a fluid
 * from half of @swing above the level to half below:
 *
 *   share = swing / (2 * asinh (tan (swing / 2)))
 *
 * @swing: rad, above 0, below pi.  Source: the time of a massless lever with
 * torque m g r cos(angle) against damping in proportion to speed. */
PinMathsStatus
pin_diff_lever_share (double swing, double *share)
{
  if (!isfinite (swing))
    return PIN_MATHS_NOT_FINITE;
  if (swing <= 0 || swing > 3.1)
    return PIN_MATHS_RANGE;
  *share = swing / (2 * asinh (tan (swing / 2)));
  return PIN_MATHS_OK;
}

/* N·m of @mass kg that hangs @arm m off the axle, times @share. */
PinMathsStatus
pin_diff_torque (double mass, double arm, double share, double *torque)
{
  if (!isfinite (mass) || !isfinite (arm) || !isfinite (share))
    return PIN_MATHS_NOT_FINITE;
  if (mass <= 0 || arm <= 0 || share <= 0 || share > 1)
    return PIN_MATHS_RANGE;
  *torque = mass * FREE_FALL * arm * share;
  return PIN_MATHS_OK;
}

/* Friction in N·m and damping in N·m for a turn a second, of torque = friction
 * + damping * speed.  @speeds: turns a second.  With speeds that differ by less
 * than a tenth the friction is left at 0 and the damping is mean over mean. */
PinMathsStatus
pin_diff_line (const double *speeds, const double *torques, size_t n, double *friction, double *damping)
{
  double least = INFINITY, most = 0, speed = 0, torque = 0, c00, c01, c11, rest, intercept, slope;

  if (n == 0)
    return PIN_MATHS_TOO_FEW;
  for (size_t i = 0; i < n; i++)
    {
      if (!isfinite (speeds[i]) || !isfinite (torques[i]))
        return PIN_MATHS_NOT_FINITE;
      if (speeds[i] <= 0 || torques[i] <= 0)
        return PIN_MATHS_RANGE;
      least = fmin (least, speeds[i]);
      most = fmax (most, speeds[i]);
      speed += speeds[i];
      torque += torques[i];
    }
  intercept = 0;
  slope = torque / speed;
  if (n > 1 && most > 1.1 * least)
    gsl_fit_linear (speeds, 1, torques, 1, n, &intercept, &slope, &c00, &c01, &c11, &rest);
  if (slope <= 0)
    return PIN_MATHS_DEGENERATE;
  *friction = intercept;
  *damping = slope;
  return PIN_MATHS_OK;
}
