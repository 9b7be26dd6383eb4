#include "maths/endpoints.h"

#include <math.h>

static PinMathsStatus
check (double horn, double share, double travel)
{
  if (!isfinite (horn) || !isfinite (share) || !isfinite (travel))
    return PIN_MATHS_NOT_FINITE;
  if (horn <= 0 || share <= 0 || travel <= 0 || share * travel > M_PI / 2)
    return PIN_MATHS_RANGE;
  return PIN_MATHS_OK;
}

/* Horn whose ball has the same way to the side with all of the travel.
 *
 *   ideal = horn sin (share travel) / sin travel
 *
 * @travel: of the servo at a share of 1, rad; more than 0.  Source: geometry of a
 * horn square to its link.  Errors: RANGE also where the horn turns past 90°. */
PinMathsStatus
pin_endpoints_ideal_horn (double horn, double share, double travel, double *ideal)
{
  PinMathsStatus status = check (horn, share, travel);

  if (status == PIN_MATHS_OK)
    *ideal = horn * sin (share * travel) / sin (fmin (travel, M_PI / 2));
  return status;
}

/* Share of the travel that a @hole needs for the way that @horn has at @share.
 *
 *   needed = asin (horn sin (share travel) / hole) / travel
 *
 * Source: as above.  Errors: RANGE; NO_ANSWER for a hole that never has that way. */
PinMathsStatus
pin_endpoints_other_hole (double horn, double share, double travel, double hole, double *needed)
{
  PinMathsStatus status = check (horn, share, travel);
  double sine;

  if (status != PIN_MATHS_OK)
    return status;
  if (!isfinite (hole))
    return PIN_MATHS_NOT_FINITE;
  if (hole <= 0)
    return PIN_MATHS_RANGE;
  sine = horn * sin (share * travel) / hole;
  if (sine > 1)
    return PIN_MATHS_NO_ANSWER;
  *needed = asin (sine) / travel;
  return PIN_MATHS_OK;
}
