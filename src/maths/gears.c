#include "maths/gears.h"

#include <math.h>

/* The involute function, inv a = tan a - a. */
static double
involute (double angle)
{
  return tan (angle) - angle;
}

/* Tables of gears go from 14.5 to 30 degrees; from 5 to 45 the formulas hold. */
static int
is_pressure_angle (double angle)
{
  return angle >= 5 * M_PI / 180 && angle <= 45 * M_PI / 180;
}

/* Distance of the shafts at which two gears of standard teeth mesh without play.
 *
 *   distance = module * (teeth + other) / 2
 *
 * @module in m, more than 0; @teeth and @other more than 0.  Source: definition of
 * the module (ISO 21771). */
PinMathsStatus
pin_gears_centre (double module, double teeth, double other, double *distance)
{
  if (!isfinite (module) || !isfinite (teeth) || !isfinite (other))
    return PIN_MATHS_NOT_FINITE;
  if (module <= 0 || teeth <= 0 || other <= 0)
    return PIN_MATHS_RANGE;
  *distance = module * (teeth + other) / 2;
  return PIN_MATHS_OK;
}

/* What comes of running gears of two pitches together.
 *
 *   share = other / module - 1          step = pi * (other - module)
 *
 * @share: by how much the other's teeth are larger.  @step: by how far its teeth
 * miss the next one's place at each tooth, m.  Source: definition of the module. */
PinMathsStatus
pin_gears_mixing (double module, double other, double *share, double *step)
{
  if (!isfinite (module) || !isfinite (other))
    return PIN_MATHS_NOT_FINITE;
  if (module <= 0 || other <= 0)
    return PIN_MATHS_RANGE;
  *share = other / module - 1;
  *step = M_PI * (other - module);
  return PIN_MATHS_OK;
}

/* Pressure angle at which two gears work when their shafts stand further apart.
 *
 *   cos working = distance * cos angle / (distance + opened)
 *
 * @distance: without play, m, more than 0.  @opened: m, 0 or more.  @angle: rad,
 * 5 to 45 degrees.  Source: geometry of the involute (ISO 21771). */
PinMathsStatus
pin_gears_working_angle (double distance, double opened, double angle, double *working)
{
  if (!isfinite (distance) || !isfinite (opened) || !isfinite (angle))
    return PIN_MATHS_NOT_FINITE;
  if (distance <= 0 || opened < 0 || !is_pressure_angle (angle))
    return PIN_MATHS_RANGE;
  *working = acos (distance * cos (angle) / (distance + opened));
  return PIN_MATHS_OK;
}

/* Play at the working pitch circle of two gears whose teeth fill the pitch at
 * @distance.
 *
 *   backlash = 2 * (distance + opened) * (inv working - inv angle)
 *
 * In m; other arguments as above.  For small openings it is 2 * opened * tan angle,
 * a percent or so too little.  Source: geometry of the involute (ISO 21771). */
PinMathsStatus
pin_gears_backlash (double distance, double opened, double angle, double *backlash)
{
  double working;
  PinMathsStatus status = pin_gears_working_angle (distance, opened, angle, &working);

  if (status != PIN_MATHS_OK)
    return status;
  *backlash = opened > 0 ? 2 * (distance + opened) * (involute (working) - involute (angle)) : 0;
  return PIN_MATHS_OK;
}

/* How far the shafts stand apart beyond the distance without play, from the play at
 * the teeth: the inverse of the above, by bisection.  @backlash: m, 0 or more.
 * PIN_MATHS_NO_ANSWER if it is more than a tenth of the distance would bring. */
PinMathsStatus
pin_gears_opened_by (double distance, double backlash, double angle, double *opened)
{
  double low = 0, high = distance / 10, at;
  PinMathsStatus status = pin_gears_backlash (distance, high, angle, &at);

  if (status != PIN_MATHS_OK)
    return status;
  if (!isfinite (backlash))
    return PIN_MATHS_NOT_FINITE;
  if (backlash < 0)
    return PIN_MATHS_RANGE;
  if (backlash > at)
    return PIN_MATHS_NO_ANSWER;
  for (int i = 0; i < 200; i++)
    {
      double middle = low + (high - low) / 2;

      pin_gears_backlash (distance, middle, angle, &at);
      if (at < backlash)
        low = middle;
      else
        high = middle;
    }
  *opened = backlash > 0 ? low + (high - low) / 2 : 0;
  return PIN_MATHS_OK;
}

/* Pairs of teeth that share the work on average, for standard teeth one module high
 * at the distance without play.
 *
 *   ratio = (sqrt (ra1^2 - rb1^2) + sqrt (ra2^2 - rb2^2) - a * sin angle) / (pi * cos angle)
 *
 * in modules: ra = z / 2 + 1, rb = z / 2 * cos angle, a = (z1 + z2) / 2.  Undercut
 * below 2 / sin^2 angle teeth is not reckoned with.  Source: ISO 21771. */
PinMathsStatus
pin_gears_contact_ratio (double teeth, double other, double angle, double *ratio)
{
  double ra1 = teeth / 2 + 1, ra2 = other / 2 + 1;
  double rb1 = teeth / 2 * cos (angle), rb2 = other / 2 * cos (angle);

  if (!isfinite (teeth) || !isfinite (other) || !isfinite (angle))
    return PIN_MATHS_NOT_FINITE;
  if (teeth <= 0 || other <= 0 || !is_pressure_angle (angle))
    return PIN_MATHS_RANGE;
  *ratio = (sqrt (ra1 * ra1 - rb1 * rb1) + sqrt (ra2 * ra2 - rb2 * rb2) - (teeth + other) / 2 * sin (angle))
           / (M_PI * cos (angle));
  return PIN_MATHS_OK;
}

/* Callipers over @over teeth of a gear, by which its module can be told.
 *
 *   span = module * cos angle * ((over - 1/2) * pi + teeth * inv angle)
 *
 * In m; @over at least 1 and fewer than @teeth.  Source: ISO 21771. */
PinMathsStatus
pin_gears_span (double module, double teeth, double over, double angle, double *span)
{
  if (!isfinite (module) || !isfinite (teeth) || !isfinite (over) || !isfinite (angle))
    return PIN_MATHS_NOT_FINITE;
  if (module <= 0 || teeth <= 0 || over < 1 || over >= teeth || !is_pressure_angle (angle))
    return PIN_MATHS_RANGE;
  *span = module * cos (angle) * ((over - 0.5) * M_PI + teeth * involute (angle));
  return PIN_MATHS_OK;
}
