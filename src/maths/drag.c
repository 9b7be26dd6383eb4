#include "maths/drag.h"

#include <math.h>

#define FREE_FALL 9.80665     /* m/s², standard */

/* Coefficient of rolling resistance from a ramp: what the height gave, the way took.
 *
 *   rolling = height / (run + flat)
 *
 * @height: of the car's fall on the ramp.  @run: the level length of that way.
 * @flat: from the ramp's foot to where it stands, on the level.  All m, more than
 * 0.  Air and the bump at the foot are left out.  Source: balance of energy. */
PinMathsStatus
pin_drag_ramp (double height, double run, double flat, double *rolling)
{
  if (!isfinite (height) || !isfinite (run) || !isfinite (flat))
    return PIN_MATHS_NOT_FINITE;
  if (height <= 0 || run <= 0 || flat <= 0)
    return PIN_MATHS_RANGE;
  *rolling = height / (run + flat);
  return PIN_MATHS_OK;
}

/* Speed at the ramp's foot, m/s.
 *
 *   speed = sqrt (2 g (height − rolling run) / (1 + rotating))
 *
 * @rotating: what turns, as a share of the mass, 0 or more.  Source: balance of
 * energy.  Errors: NO_ANSWER on a ramp too gentle to roll. */
PinMathsStatus
pin_drag_foot_speed (double height, double run, double rolling, double rotating, double *speed)
{
  double fall = height - rolling * run;

  if (!isfinite (fall) || !isfinite (rotating))
    return PIN_MATHS_NOT_FINITE;
  if (height <= 0 || run <= 0 || rolling < 0 || rotating < 0)
    return PIN_MATHS_RANGE;
  if (fall < 0)
    return PIN_MATHS_NO_ANSWER;
  *speed = sqrt (2 * FREE_FALL * fall / (1 + rotating));
  return PIN_MATHS_OK;
}

/* Coefficient of rolling resistance from the constant part of the road load:
 * force / (mass g).  @force: N, 0 or more; @mass: kg.  Source: definition. */
PinMathsStatus
pin_drag_rolling (double force, double mass, double *rolling)
{
  if (!isfinite (force) || !isfinite (mass))
    return PIN_MATHS_NOT_FINITE;
  if (force < 0 || mass <= 0)
    return PIN_MATHS_RANGE;
  *rolling = force / (mass * FREE_FALL);
  return PIN_MATHS_OK;
}

/* Drag area Cd A, m², from the part with the square of the speed: 2 C / density.
 * @square: N·s²/m², 0 or more; @density: of the air, kg/m³.  Source: definition. */
PinMathsStatus
pin_drag_air (double square, double density, double *area)
{
  if (!isfinite (square) || !isfinite (density))
    return PIN_MATHS_NOT_FINITE;
  if (square < 0 || density <= 0)
    return PIN_MATHS_RANGE;
  *area = 2 * square / density;
  return PIN_MATHS_OK;
}

/* Mean force that takes @change m/s off @mass kg (with what rotates) in @time s.
 * Source: the interval method of coast-downs; it belongs to the mean speed but for
 * about 0.1 %. */
PinMathsStatus
pin_drag_interval (double mass, double change, double time, double *force)
{
  if (!isfinite (mass) || !isfinite (change) || !isfinite (time))
    return PIN_MATHS_NOT_FINITE;
  if (mass <= 0 || time <= 0)
    return PIN_MATHS_RANGE;
  *force = mass * change / time;
  return PIN_MATHS_OK;
}

/* Time until a spin with the slowing dry + viscous × speed stands, s.
 *
 *   time = ln (1 + speed viscous / dry) / viscous
 *
 * @dry: rad/s²; @viscous: 1/s; @speed: rad/s; none negative.  Errors: NO_ANSWER
 * without dry drag, with which it never stands. */
PinMathsStatus
pin_drag_spin_stop (double dry, double viscous, double speed, double *time)
{
  if (!isfinite (dry) || !isfinite (viscous) || !isfinite (speed))
    return PIN_MATHS_NOT_FINITE;
  if (dry < 0 || viscous < 0 || speed < 0)
    return PIN_MATHS_RANGE;
  if (dry <= 0)
    return PIN_MATHS_NO_ANSWER;
  *time = viscous * speed <= 1e-12 * dry ? speed / dry : log1p (speed * viscous / dry) / viscous;
  if (!isfinite (*time))
    return PIN_MATHS_NO_ANSWER;
  return PIN_MATHS_OK;
}
