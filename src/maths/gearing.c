#include "maths/gearing.h"

#include <math.h>

/* Final drive ratio: turns of the motor for one of the wheel.
 *
 *   ratio = spur / pinion * gearbox
 *
 * @pinion, @spur: teeth, more than 0.  @gearbox: turns into it for one out of
 * it, more than 0.  Source: definition of a gear ratio (ISO 1122-1). */
PinMathsStatus
pin_gearing_final_drive (double pinion, double spur, double gearbox, double *ratio)
{
  if (!isfinite (pinion) || !isfinite (spur) || !isfinite (gearbox))
    return PIN_MATHS_NOT_FINITE;
  if (pinion <= 0 || spur <= 0 || gearbox <= 0)
    return PIN_MATHS_RANGE;
  *ratio = spur / pinion * gearbox;
  return PIN_MATHS_OK;
}

/* Way on the road for one turn of the motor, without slip.
 *
 *   rollout = pi * tyre / ratio
 *
 * @tyre: diameter under load, m.  Source: geometry of a rolling wheel. */
PinMathsStatus
pin_gearing_rollout (double tyre, double ratio, double *rollout)
{
  if (!isfinite (tyre) || !isfinite (ratio))
    return PIN_MATHS_NOT_FINITE;
  if (tyre <= 0 || ratio <= 0)
    return PIN_MATHS_RANGE;
  *rollout = M_PI * tyre / ratio;
  return PIN_MATHS_OK;
}

/* Speed of the motor in turns per second.
 *
 *   turns = kv * volts * share
 *
 * @kv: turns per second for a volt.  @share: of the speed without load that is
 * left under load, more than 0 and at most 1.  Source: speed constant of a
 * permanent-magnet motor; the share is common practice (0.85 to 0.9). */
PinMathsStatus
pin_gearing_motor_speed (double kv, double volts, double share, double *turns)
{
  if (!isfinite (kv) || !isfinite (volts) || !isfinite (share))
    return PIN_MATHS_NOT_FINITE;
  if (kv <= 0 || volts <= 0 || share <= 0 || share > 1)
    return PIN_MATHS_RANGE;
  *turns = kv * volts * share;
  return PIN_MATHS_OK;
}

/* m/s from the rollout in m and the motor's turns per second. */
PinMathsStatus
pin_gearing_road_speed (double rollout, double turns, double *speed)
{
  if (!isfinite (rollout) || !isfinite (turns))
    return PIN_MATHS_NOT_FINITE;
  if (rollout <= 0 || turns < 0)
    return PIN_MATHS_RANGE;
  *speed = rollout * turns;
  return PIN_MATHS_OK;
}
