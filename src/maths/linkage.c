#include "maths/linkage.h"

#include <math.h>
#include <stddef.h>

#define TURN (2 * M_PI)
#define FURTHEST (M_PI / 2)   /* of a wheel: beyond is no steering */
#define NO_LEVER 1e-6         /* rad from a dead point: the side that the bars bend to is open */
enum { STEPS = 400 };         /* of the throw that is searched; then halving */

/* Within half a turn either way. */
static double
wrap (double angle)
{
  return angle - TURN * round (angle / TURN);
}

static bool
all_finite (const double *values, size_t n)
{
  for (size_t i = 0; i < n; i++)
    if (!isfinite (values[i]))
      return false;
  return true;
}

/* ---- one arm and one rod ------------------------------------------------------------------- */

/* Angle of an arm whose ball is @rod away from @ball, on the @side (+1, -1) of
 * the line from its pivot to @ball.
 *
 *   angle = direction of ball ± acos ((q² + arm² + z² − rod²) / (2 q arm))
 *
 * with q the distance of pivot and ball in the plan.  Source: the cosine rule;
 * the closure of a four-bar linkage (Freudenstein 1954), with z of a spatial one.
 * @dead: angle that is left to the dead point, in which arm and rod line up. */
static PinMathsStatus
solve_arm (const PinArm *arm, PinPlace ball, double rod, int side, double *angle, double *dead)
{
  double x = ball.x - arm->x, y = ball.y - arm->y;
  double q = hypot (x, y);
  double cosine, inside, sine;

  if (q <= 0)
    return PIN_MATHS_DEGENERATE;
  cosine = (q * q + arm->length * arm->length + ball.z * ball.z - rod * rod) / (2 * q * arm->length);
  if (!(fabs (cosine) <= 1))
    return PIN_MATHS_NOT_CLOSED;
  inside = acos (cosine);
  /* Moment of the rod's pull about the pivot, by arm and rod. */
  sine = q * sin (inside) / rod;
  *dead = asin (fmin (fabs (sine), 1));
  *angle = atan2 (y, x) + side * inside;
  return PIN_MATHS_OK;
}

static PinPlace
arm_ball (const PinArm *arm, double turned)
{
  return (PinPlace) { arm->x + arm->length * cos (arm->angle + turned),
                      arm->y + arm->length * sin (arm->angle + turned), 0 };
}

static double
apart (PinPlace a, PinPlace b)
{
  return hypot (hypot (a.x - b.x, a.y - b.y), a.z - b.z);
}

/* Which of the two solutions the arm stands in, seen from where it stands now. */
static int
side_of (const PinArm *arm, PinPlace ball)
{
  return sin (arm->angle - atan2 (ball.y - arm->y, ball.x - arm->x)) < 0 ? -1 : 1;
}

/* How far @arm has turned when @moved is the other end of a @rod that is at @rest
 * while the wheels are straight. */
static PinMathsStatus
turned_by (const PinArm *arm, PinPlace rest, PinPlace moved, double rod, double *turned, double *dead)
{
  double angle = 0;
  PinMathsStatus status = solve_arm (arm, moved, rod, side_of (arm, rest), &angle, dead);

  if (status == PIN_MATHS_OK)
    *turned = wrap (angle - arm->angle);
  return status;
}

/* ---- the four-bar of the textbooks --------------------------------------------------------- */

/* Angles of coupler and rocker of a planar four-bar, from the ground bar, which
 * points from the crank's pivot to the rocker's; the open (or @crossed) circuit.
 *
 *   rocker, from the closure  crank + coupler = ground + rocker
 *
 * All lengths in one unit, more than 0.  Source: Freudenstein, "An analytical
 * approach to the design of four-link mechanisms" (1954).  Errors: NOT_CLOSED,
 * DEGENERATE where the crank's end is on the rocker's pivot. */
PinMathsStatus
pin_linkage_four_bar (double crank, double coupler, double rocker, double ground, double angle, bool crossed,
                      double *coupler_angle, double *rocker_angle)
{
  const double lengths[] = { crank, coupler, rocker, ground, angle };
  PinArm arm = { ground, 0, rocker, 0 };
  PinPlace ball;
  double found = 0, dead = 0;
  PinMathsStatus status;

  if (!all_finite (lengths, 5))
    return PIN_MATHS_NOT_FINITE;
  if (crank <= 0 || coupler <= 0 || rocker <= 0 || ground <= 0)
    return PIN_MATHS_RANGE;
  ball = (PinPlace) { crank * cos (angle), crank * sin (angle), 0 };
  status = solve_arm (&arm, ball, coupler, crossed ? 1 : -1, &found, &dead);
  if (status != PIN_MATHS_OK)
    return status;
  *rocker_angle = wrap (found);
  *coupler_angle = atan2 (rocker * sin (found) - ball.y, ground + rocker * cos (found) - ball.x);
  return PIN_MATHS_OK;
}

/* ---- the whole steering -------------------------------------------------------------------- */

static PinPlace
horn_ball (const PinLinkage *self, double turned)
{
  double angle = self->horn_angle + turned;
  double along = self->horn * cos (angle), beside = self->horn * sin (angle);

  return (PinPlace) { self->servo.x + along, self->servo.y + (self->lying ? 0 : beside),
                      self->servo.z + (self->lying ? beside : 0) };
}

static PinArm
left_knuckle (const PinLinkage *self)
{
  return (PinArm) { -self->half, 0, self->arm, self->arm_angle };
}

static PinArm
right_knuckle (const PinLinkage *self)
{
  return (PinArm) { self->half, 0, self->arm, M_PI - self->arm_angle };
}

static PinArm
left_crank (const PinLinkage *self)
{
  return (PinArm) { self->drag.x, self->drag.y, self->crank, self->crank_angle };
}

static PinArm
right_crank (const PinLinkage *self)
{
  return (PinArm) { -self->drag.x, self->drag.y, self->crank, M_PI - self->crank_angle };
}

static PinMathsStatus
check (const PinLinkage *self)
{
  const double all[] = { self->servo.x, self->servo.y, self->servo.z, self->horn, self->horn_angle, self->drag.x,
                         self->drag.y, self->drag.length, self->drag.angle, self->half, self->arm, self->arm_angle,
                         self->bellcranks ? self->crank : 1, self->bellcranks ? self->crank_angle : 0 };

  if (!all_finite (all, sizeof all / sizeof *all))
    return PIN_MATHS_NOT_FINITE;
  if (self->horn <= 0 || self->drag.length <= 0 || self->half <= 0 || self->arm <= 0
      || (self->bellcranks && self->crank <= 0))
    return PIN_MATHS_RANGE;
  return PIN_MATHS_OK;
}

static PinMathsStatus
check_rods (const PinLinkage *self)
{
  if (!isfinite (self->link) || !isfinite (self->tie))
    return PIN_MATHS_NOT_FINITE;
  return self->link > 0 && self->tie > 0 ? check (self) : PIN_MATHS_RANGE;
}

/* Lengthens the tie rods, and @with_link the drag link, until the wheels are
 * straight at the neutral pulse.  Errors: RANGE; DEGENERATE where two balls are on
 * one place. */
PinMathsStatus
pin_linkage_straighten (PinLinkage *self, bool with_link)
{
  PinMathsStatus status = check (self);
  PinArm left = left_knuckle (self), right = right_knuckle (self), crank = left_crank (self);
  double tie, link;

  if (status != PIN_MATHS_OK)
    return status;
  link = apart (horn_ball (self, 0), arm_ball (&self->drag, 0));
  tie = self->bellcranks ? apart (arm_ball (&crank, 0), arm_ball (&left, 0))
                         : apart (arm_ball (&right, 0), arm_ball (&left, 0));
  if (tie <= 0 || (with_link && link <= 0))
    return PIN_MATHS_DEGENERATE;
  self->tie = tie;
  if (with_link)
    self->link = link;
  return PIN_MATHS_OK;
}

/* Both knuckles from the turn of the first body. */
static PinMathsStatus
steer_from (const PinLinkage *self, double body, double *left, double *right, double *dead)
{
  PinArm left_arm = left_knuckle (self), right_arm = right_knuckle (self);
  PinArm from_left = self->bellcranks ? left_crank (self) : left_arm;
  PinArm from_right = self->bellcranks ? right_crank (self) : left_arm;
  double other = M_PI;
  PinMathsStatus status;

  status = turned_by (&right_arm, arm_ball (&from_right, 0), arm_ball (&from_right, body), self->tie, right, dead);
  if (status != PIN_MATHS_OK)
    return status;
  *left = body;
  if (self->bellcranks)
    status = turned_by (&left_arm, arm_ball (&from_left, 0), arm_ball (&from_left, body), self->tie, left, &other);
  *dead = fmin (*dead, other);
  return status;
}

/* Angles of both wheels when the horn has @turned (rad, in the direction of its
 * own angle) from neutral.
 *
 * In the plane, or with a horn that lies across it; rigid bars, no saver, no play,
 * balls in one plane, kingpins upright.  The bars stay on the side to which they
 * bend in the neutral position.  Source: closure of four-bar linkages (see above).
 * Errors: NOT_CLOSED; DEGENERATE at a dead point; RANGE beyond 90° of a wheel. */
PinMathsStatus
pin_linkage_steer (const PinLinkage *self, double turned, PinSteer *steer)
{
  double body = 0, left = 0, right = 0, first = 0, second = 0;
  PinMathsStatus status = check_rods (self);

  if (!isfinite (turned))
    return PIN_MATHS_NOT_FINITE;
  if (status != PIN_MATHS_OK)
    return status;
  status = turned_by (&self->drag, horn_ball (self, 0), horn_ball (self, turned), self->link, &body, &first);
  if (status == PIN_MATHS_OK)
    status = steer_from (self, body, &left, &right, &second);
  if (status != PIN_MATHS_OK)
    return status;
  if (fmin (first, second) < NO_LEVER)
    return PIN_MATHS_DEGENERATE;
  if (fabs (left) > FURTHEST || fabs (right) > FURTHEST)
    return PIN_MATHS_RANGE;
  *steer = (PinSteer) { -left, -right, fmin (first, second) };
  return PIN_MATHS_OK;
}

/* ---- limits of the throw ------------------------------------------------------------------- */

typedef struct
{
  double inner, outer;        /* greatest angle of a wheel outwards and inwards */
} Stops;

/* 1 if the steering is free at @turned, 0 if a wheel is past its stop, -1 if the
 * bars do not meet. */
static int
is_free (const PinLinkage *self, double turned, Stops stops)
{
  PinSteer at;

  if (pin_linkage_steer (self, turned, &at) != PIN_MATHS_OK)
    return -1;
  return -at.left <= stops.inner && at.left <= stops.outer && at.right <= stops.inner && -at.right <= stops.outer;
}

/* The furthest that is free without anything in the way between; *stopped whether
 * a stop or the bars end it, unchanged if nothing does. */
static double
furthest_free (const PinLinkage *self, double most, Stops stops, int *ended)
{
  double free = 0, bad = most;
  int step;

  for (step = 1; step <= STEPS; step++)
    {
      int state = is_free (self, most * step / STEPS, stops);

      if (state == 1)
        continue;
      *ended = state;
      free = most * (step - 1) / STEPS;
      bad = most * step / STEPS;
      break;
    }
  if (step > STEPS)
    return most;
  for (int i = 0; i < 60; i++)
    {
      double middle = (free + bad) / 2;

      if (is_free (self, middle, stops) == 1)
        free = middle;
      else
        bad = middle;
    }
  return free;
}

/* How far the horn can turn towards @most (rad, of either sign) before the bars no
 * longer meet or reach a dead point; @most itself if they always do.  Errors: as
 * of pin_linkage_steer() at the neutral position. */
PinMathsStatus
pin_linkage_reach (const PinLinkage *self, double most, double *reach)
{
  Stops none = { FURTHEST, FURTHEST };
  PinSteer at;
  PinMathsStatus status = pin_linkage_steer (self, 0, &at);
  int ended = 1;

  if (!isfinite (most))
    return PIN_MATHS_NOT_FINITE;
  if (status == PIN_MATHS_OK)
    *reach = furthest_free (self, most, none, &ended);
  return status;
}

/* How far the horn turns towards @most until a wheel has the angle @inner away
 * from the car or @outer towards it (rad, more than 0, at most 90°).  Errors:
 * NO_ANSWER: neither is reached; NOT_CLOSED: the bars end first; RANGE: a wheel is
 * beyond one at neutral already. */
PinMathsStatus
pin_linkage_stop (const PinLinkage *self, double most, double inner, double outer, double *turned)
{
  Stops stops = { inner, outer };
  int ended = 1;
  double at;

  if (!isfinite (most) || !isfinite (inner) || !isfinite (outer))
    return PIN_MATHS_NOT_FINITE;
  if (inner <= 0 || outer <= 0 || inner > FURTHEST || outer > FURTHEST || is_free (self, 0, stops) == 0)
    return PIN_MATHS_RANGE;
  if (is_free (self, 0, stops) < 0)
    return PIN_MATHS_NOT_CLOSED;
  at = furthest_free (self, most, stops, &ended);
  if (ended != 0)
    return ended < 0 ? PIN_MATHS_NOT_CLOSED : PIN_MATHS_NO_ANSWER;
  *turned = at;
  return PIN_MATHS_OK;
}

/* ---- Ackermann ----------------------------------------------------------------------------- */

static PinMathsStatus
check_turn (double inner, double kingpins, double wheelbase)
{
  if (!isfinite (inner) || !isfinite (kingpins) || !isfinite (wheelbase))
    return PIN_MATHS_NOT_FINITE;
  return inner <= 0 || inner > FURTHEST || kingpins <= 0 || wheelbase <= 0 ? PIN_MATHS_RANGE : PIN_MATHS_OK;
}

/* Angle of the outer wheel with which both roll about one point without slip.
 *
 *   cot outer − cot inner = kingpins / wheelbase
 *
 * @inner: more than 0, at most 90°.  Source: Ackermann's condition, in any book on
 * the dynamics of vehicles. */
PinMathsStatus
pin_linkage_ideal_outer (double inner, double kingpins, double wheelbase, double *outer)
{
  PinMathsStatus status = check_turn (inner, kingpins, wheelbase);

  if (status == PIN_MATHS_OK)
    *outer = atan2 (1, cos (inner) / sin (inner) + kingpins / wheelbase);
  return status;
}

/* Radius on which the middle of the rear axle rolls, m.
 *
 *   radius = wheelbase / tan inner + kingpins / 2
 *
 * Source: geometry of the same condition; without slip. */
PinMathsStatus
pin_linkage_radius (double inner, double kingpins, double wheelbase, double *radius)
{
  PinMathsStatus status = check_turn (inner, kingpins, wheelbase);

  if (status == PIN_MATHS_OK)
    *radius = wheelbase * cos (inner) / sin (inner) + kingpins / 2;
  return status;
}
