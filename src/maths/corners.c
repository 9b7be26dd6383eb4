#include "maths/corners.h"

#include <math.h>

static PinMathsStatus
check (PinCorners m)
{
  if (!isfinite (m.front_left) || !isfinite (m.front_right) || !isfinite (m.rear_left) || !isfinite (m.rear_right))
    return PIN_MATHS_NOT_FINITE;
  if (m.front_left <= 0 || m.front_right <= 0 || m.rear_left <= 0 || m.rear_right <= 0)
    return PIN_MATHS_RANGE;
  return PIN_MATHS_OK;
}

static double
total_of (PinCorners m)
{
  return m.front_left + m.front_right + m.rear_left + m.rear_right;
}

/* Shares of the mass, and what each of the four ways to load a wheel has of it.
 *
 *   cross = (front right + rear left) / total
 *   warp = (front left − front right − rear left + rear right) / 4
 *
 * All masses kg, more than 0.  Source: definitions; that the cross is front right
 * and rear left is the more usual way, the other diagonal is 1 − cross. */
PinMathsStatus
pin_corners_shares (PinCorners m, PinCornerShares *shares)
{
  PinMathsStatus status = check (m);
  double total = total_of (m);

  if (status != PIN_MATHS_OK)
    return status;
  *shares = (PinCornerShares) {
    .total = total,
    .front = (m.front_left + m.front_right) / total,
    .left = (m.front_left + m.rear_left) / total,
    .cross = (m.front_right + m.rear_left) / total,
    .heave = total / 4,
    .pitch = (m.front_left + m.front_right - m.rear_left - m.rear_right) / 4,
    .roll = (m.front_left - m.front_right + m.rear_left - m.rear_right) / 4,
    .warp = (m.front_left - m.front_right - m.rear_left + m.rear_right) / 4,
  };
  return PIN_MATHS_OK;
}

/* Centre of mass: m behind the front axle, and m to the left of the middle.
 * Lengths more than 0.  Source: balance of moments. */
PinMathsStatus
pin_corners_centre (PinCorners m, double wheelbase, double front_track, double rear_track, double *behind,
                    double *to_left)
{
  PinMathsStatus status = check (m);
  double total = total_of (m);

  if (!isfinite (wheelbase) || !isfinite (front_track) || !isfinite (rear_track))
    return PIN_MATHS_NOT_FINITE;
  if (status == PIN_MATHS_OK && (wheelbase <= 0 || front_track <= 0 || rear_track <= 0))
    status = PIN_MATHS_RANGE;
  if (status != PIN_MATHS_OK)
    return status;
  *behind = wheelbase * (m.rear_left + m.rear_right) / total;
  *to_left = ((m.front_left - m.front_right) * front_track + (m.rear_left - m.rear_right) * rear_track) / (2 * total);
  return PIN_MATHS_OK;
}

/* Height of the centre of mass above the axles, m, from the mass that one end
 * gains when the other is lifted.
 *
 *   height = wheelbase gained / (total tan tilt)
 *
 * @gained: kg, 0 or more.  @tilt: more than 0, less than 90°.  With wheels that
 * cannot roll and springs that cannot move.  Source: balance of moments; the form
 * of ISO 10392 (from memory). */
PinMathsStatus
pin_corners_height (double total, double gained, double wheelbase, double tilt, double *height)
{
  if (!isfinite (total) || !isfinite (gained) || !isfinite (wheelbase) || !isfinite (tilt))
    return PIN_MATHS_NOT_FINITE;
  if (total <= 0 || gained < 0 || wheelbase <= 0 || tilt <= 0 || tilt >= M_PI / 2)
    return PIN_MATHS_RANGE;
  *height = wheelbase * gained / (total * tan (tilt));
  return PIN_MATHS_OK;
}

/* What has to go onto each wheel of the cross, front right and rear left, and off
 * the other two, for a cross of @target; kg, negative the other way round.
 *
 *   front + rear = target total − cross;  front front_track = rear rear_track
 *
 * so that the car does not roll by it.  @target: more than 0, less than 1.
 * Source: balance of moments.  Errors: NO_ANSWER where a wheel would leave the
 * ground. */
PinMathsStatus
pin_corners_shift (PinCorners m, double target, double front_track, double rear_track, double *front, double *rear)
{
  PinMathsStatus status = check (m);
  double by, f, r;

  if (!isfinite (target) || !isfinite (front_track) || !isfinite (rear_track))
    return PIN_MATHS_NOT_FINITE;
  if (status == PIN_MATHS_OK && (target <= 0 || target >= 1 || front_track <= 0 || rear_track <= 0))
    status = PIN_MATHS_RANGE;
  if (status != PIN_MATHS_OK)
    return status;
  by = target * total_of (m) - m.front_right - m.rear_left;
  f = by * rear_track / (front_track + rear_track);
  r = by - f;
  if (m.front_right + f <= 0 || m.rear_left + r <= 0 || m.front_left - f <= 0 || m.rear_right - r <= 0)
    return PIN_MATHS_NO_ANSWER;
  *front = f;
  *rear = r;
  return PIN_MATHS_OK;
}
