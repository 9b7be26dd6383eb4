#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/linkage.h"
#include "reckoner/work.h"

#define LIMIT 600e-6          /* s either way of the centre: 900 to 2100 µs of 1500 */
#define MOST_SHARE 1.5        /* that radios allow as an end point */
#define SLACK_ANGLE (30 * G_PI / 180) /* of rod and arm: less is near a dead point */

static const char *const layouts[] = { "knuckle", "bellcranks", NULL };
static const char *const lies[] = { "standing", "lying", NULL };
static const char *const turns[] = { "clockwise", "anticlockwise", NULL };

static const PinInput inputs[] = {
  { .id = "layout", .title = N_("Drag link goes to"), .kind = PIN_INPUT_CHOICE, .choices = layouts,
    .preset = "knuckle", .hint = N_("The left knuckle, with one tie rod across; or the left of two bellcranks that "
                                    "turn alike, with a tie rod each") },
  { .id = "kingpins", .title = N_("Between the kingpins"), .unit = "mm", .least = 30, .most = 600 },
  { .id = "wheelbase", .title = N_("Wheelbase"), .unit = "mm", .least = 60, .most = 1000, .preset = "" },
  { .id = "arm", .title = N_("Knuckle arm"), .unit = "mm", .least = 5, .most = 100,
    .hint = N_("Kingpin to the tie rod's ball, from above") },
  { .id = "arm-angle", .title = N_("Knuckle arm's angle"), .unit = "deg", .least = -180, .most = 180,
    .hint = N_("From straight back, towards the middle of the car; 180° is straight ahead") },
  { .id = "drag-arm", .title = N_("Arm for the drag link"), .unit = "mm", .least = 3, .most = 100, .preset = "",
    .hint = N_("Of the left knuckle or bellcrank; left out: the same arm as for the tie rod") },
  { .id = "drag-arm-angle", .title = N_("That arm's angle"), .unit = "deg", .least = -180, .most = 180, .preset = "" },
  { .id = "cranks", .title = N_("Between the bellcranks"), .unit = "mm", .least = 5, .most = 500, .preset = "" },
  { .id = "crank-back", .title = N_("Bellcranks behind the kingpins"), .unit = "mm", .least = -200, .most = 200,
    .preset = "0 mm" },
  { .id = "crank-arm", .title = N_("Bellcrank's arm to the tie rod"), .unit = "mm", .least = 3, .most = 100,
    .preset = "" },
  { .id = "crank-angle", .title = N_("That arm's angle"), .unit = "deg", .least = -180, .most = 180,
    .preset = "180 deg" },
  { .id = "servo", .title = N_("Servo"), .kind = PIN_INPUT_CHOICE, .choices = lies, .preset = "standing",
    .hint = N_("Standing: the horn swings level; lying: across the car") },
  { .id = "servo-across", .title = N_("Horn's centre from the middle of the car"), .unit = "mm", .least = -300,
    .most = 300, .hint = N_("To the right; to the left with a minus") },
  { .id = "servo-back", .title = N_("Horn's centre behind the kingpins"), .unit = "mm", .least = -300, .most = 300 },
  { .id = "servo-up", .title = N_("Horn's centre above the other balls"), .unit = "mm", .least = -100, .most = 100,
    .preset = "0 mm" },
  { .id = "horn", .title = N_("Servo horn"), .unit = "mm", .least = 3, .most = 80,
    .hint = N_("Centre to the hole in use") },
  { .id = "horn-angle", .title = N_("Horn's angle at the centre pulse"), .unit = "deg", .least = -180, .most = 180,
    .hint = N_("From straight back, or straight down if it lies, towards the right; 180° is ahead or up") },
  { .id = "link", .title = N_("Drag link"), .unit = "mm", .least = 5, .most = 500, .preset = "",
    .hint = N_("Ball to ball; left out: as long as makes the wheels straight") },
  { .id = "turn", .title = N_("A longer pulse turns the horn"), .kind = PIN_INPUT_CHOICE, .choices = turns,
    .preset = "clockwise", .hint = N_("Seen from above, or from behind if it lies") },
  { .id = "centre", .title = N_("Centre pulse"), .unit = "us", .least = 1300, .most = 1700, .preset = "1500 us" },
  { .id = "full", .title = N_("Pulse from centre at 100 %"), .unit = "us", .least = 200, .most = 600,
    .preset = "400 us" },
  { .id = "travel", .title = N_("Servo's way at 100 %"), .unit = "deg", .least = 10, .most = 100,
    .preset = "45 deg", .hint = N_("To one side") },
  { .id = "stop", .title = N_("Stop of the inner wheel"), .unit = "deg", .least = 3, .most = 80, .preset = "",
    .hint = N_("Turned by hand, link off, until something stops it") },
  { .id = "stop-outer", .title = N_("Stop of the outer wheel"), .unit = "deg", .least = 3, .most = 80, .preset = "" },
  { .id = "margin", .title = N_("Stay off the stop by"), .unit = "deg", .least = 0, .most = 2.5, .preset = "1 deg" },
  { 0 },
};

static const PinColumn angle_columns[] = {
  { "share", N_("Travel, %"), "%", 0 },
  { "pulse", N_("Pulse, µs"), "us", 0 },
  { "left", N_("Left wheel, °"), "deg", 1 },
  { "right", N_("Right wheel, °"), "deg", 1 },
  { "outer-ideal", N_("Outer without scrub, °"), "deg", 1 },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "end-left", .title = N_("End point left"), .unit = "us", .decimals = 0 },
  { .id = "end-right", .title = N_("End point right"), .unit = "us", .decimals = 0 },
  { .id = "share-left", .title = N_("End point left"), .unit = "%", .decimals = 0 },
  { .id = "share-right", .title = N_("End point right"), .unit = "%", .decimals = 0 },
  { .id = "lock-left", .title = N_("Left wheel, locked to the left"), .unit = "deg", .decimals = 1 },
  { .id = "lock-right", .title = N_("Right wheel, locked to the right"), .unit = "deg", .decimals = 1 },
  { .id = "lock-difference", .title = N_("Lock, left less right"), .unit = "deg", .decimals = 1 },
  { .id = "ackermann-left", .title = N_("Ackermann, locked to the left"), .unit = "%", .decimals = 0 },
  { .id = "ackermann-right", .title = N_("Ackermann, locked to the right"), .unit = "%", .decimals = 0 },
  { .id = "radius", .title = N_("Tightest radius, middle of the rear axle"), .unit = "mm", .decimals = 0 },
  { .id = "left-centre", .title = N_("Left wheel at centre"), .unit = "deg", .decimals = 2 },
  { .id = "right-centre", .title = N_("Right wheel at centre"), .unit = "deg", .decimals = 2 },
  { .id = "link-length", .title = N_("Drag link"), .unit = "mm", .decimals = 1 },
  { .id = "tie-rod", .title = N_("Tie rod for straight wheels"), .unit = "mm", .decimals = 1 },
  { .id = "dead-point", .title = N_("Left to a dead point"), .unit = "deg", .decimals = 0 },
  { .id = "angles", .title = N_("Wheel angles, right is more"), .kind = PIN_OUTPUT_TABLE, .columns = angle_columns },
  { 0 },
};

static const char *const formulas[] = {
  N_("horn's turn at the end = its way at 100 % × (pulse − centre) ÷ pulse at 100 %"),
  N_("arm = direction of the ball ± arccos ((distance² + arm² + height² − rod²) ÷ (2 × distance × arm))"),
  N_("cot outer without scrub − cot inner = between the kingpins ÷ wheelbase"),
  N_("Ackermann = (inner − outer) ÷ (inner − outer without scrub)"),
  N_("radius = wheelbase ÷ tan inner + between the kingpins ÷ 2"),
  NULL,
};

typedef struct
{
  double share;               /* of the travel, of either sign */
  PinSteer steer;
} End;

/* Angles of the left side are given from straight back towards the middle. */
static double
from_back (double angle)
{
  return angle - G_PI / 2;
}

static double
or_else (const PinReckoning *self, const char *id, double other)
{
  return pin_given (self, id) ? pin_value (self, id) : other;
}

static gboolean
describe_cranks (PinReckoning *self, PinLinkage *to)
{
  if (!pin_given (self, "cranks") || !pin_given (self, "crank-arm"))
    {
      pin_refuse (self, _("with bellcranks, “cranks” and “crank-arm” are needed"));
      return FALSE;
    }
  to->bellcranks = TRUE;
  to->crank = pin_value (self, "crank-arm");
  to->crank_angle = from_back (pin_value (self, "crank-angle"));
  to->drag.x = -pin_value (self, "cranks") / 2;
  to->drag.y = -pin_value (self, "crank-back");
  return TRUE;
}

static gboolean
describe (PinReckoning *self, PinLinkage *to)
{
  *to = (PinLinkage) {
    .servo = { pin_value (self, "servo-across"), -pin_value (self, "servo-back"), pin_value (self, "servo-up") },
    .lying = g_str_equal (pin_choice (self, "servo"), "lying"),
    .horn = pin_value (self, "horn"),
    .horn_angle = from_back (pin_value (self, "horn-angle")),
    .half = pin_value (self, "kingpins") / 2,
    .arm = pin_value (self, "arm"),
    .arm_angle = from_back (pin_value (self, "arm-angle")),
  };
  to->drag.x = -to->half;
  if (g_str_equal (pin_choice (self, "layout"), "bellcranks") && !describe_cranks (self, to))
    return FALSE;
  to->drag.length = or_else (self, "drag-arm", to->bellcranks ? to->crank : to->arm);
  to->drag.angle = pin_given (self, "drag-arm-angle") ? from_back (pin_value (self, "drag-arm-angle"))
                                                      : to->bellcranks ? to->crank_angle : to->arm_angle;
  if (pin_given (self, "link"))
    to->link = pin_value (self, "link");
  return pin_ok (self, pin_linkage_straighten (to, !pin_given (self, "link")), _("the tie rod"));
}

/* Radians of the horn for one share of the travel. */
static double
per_share (const PinReckoning *self)
{
  return pin_value (self, "travel") * (g_str_equal (pin_choice (self, "turn"), "clockwise") ? -1 : 1);
}

static double
pulse_of (const PinReckoning *self, double share)
{
  return pin_value (self, "centre") + share * pin_value (self, "full");
}

static double
most_share (const PinReckoning *self)
{
  return MIN (MOST_SHARE, LIMIT / pin_value (self, "full"));
}

static gboolean
end_at (PinReckoning *self, const PinLinkage *linkage, double share, End *end)
{
  end->share = share;
  return pin_ok (self, pin_linkage_steer (linkage, share * per_share (self), &end->steer), _("the lock"));
}

/* Where the throw to one side ends; a stop that is not reached is told. */
static gboolean
find_end (PinReckoning *self, const PinLinkage *linkage, int sign, End *end)
{
  double most = sign * most_share (self) * per_share (self);
  double inner = or_else (self, "stop", G_PI / 2) - pin_value (self, "margin");
  double outer = or_else (self, "stop-outer", G_PI / 2) - pin_value (self, "margin");
  double turned = 0;
  PinMathsStatus status;

  if (!pin_given (self, "stop") && !pin_given (self, "stop-outer"))
    {
      double reach = 0;

      if (!pin_ok (self, pin_linkage_reach (linkage, sign * per_share (self), &reach), _("the steering")))
        return FALSE;
      return end_at (self, linkage, reach / per_share (self), end);
    }
  status = pin_linkage_stop (linkage, most, inner, outer, &turned);
  if (status == PIN_MATHS_RANGE)
    pin_refuse (self, _("the wheels are past their stop with the servo at centre: correct the drag link or the horn"));
  else if (status != PIN_MATHS_NO_ANSWER && status != PIN_MATHS_NOT_CLOSED)
    pin_ok (self, status, _("the end point"));
  if (status == PIN_MATHS_OK)
    return end_at (self, linkage, turned / per_share (self), end);
  if (!pin_ok (self, pin_linkage_reach (linkage, most, &turned), _("the steering")))
    return FALSE;
  pin_warn (self, status == PIN_MATHS_NO_ANSWER
                    ? _("One side does not come to its stop within 900 to 2100 µs and 150 %%: the horn is short.")
                    : _("To one side the bars reach a dead point before the wheels reach their stop: never let the "
                        "servo go there."));
  return end_at (self, linkage, turned / per_share (self), end);
}

/* ---- what comes out ------------------------------------------------------------------------ */

static gboolean
ideal_outer (const PinReckoning *self, const PinSteer *steer, double *inner, double *outer, double *ideal)
{
  gboolean to_left = steer->left + steer->right < 0;

  *inner = to_left ? -steer->left : steer->right;
  *outer = to_left ? -steer->right : steer->left;
  return pin_given (self, "wheelbase") && *inner > 0.1 * G_PI / 180
         && pin_linkage_ideal_outer (*inner, pin_value (self, "kingpins"), pin_value (self, "wheelbase"), ideal)
              == PIN_MATHS_OK;
}

static void
tell_ackermann (PinReckoning *self, const char *id, const PinSteer *steer, double *tightest)
{
  double inner, outer, ideal = NAN, radius = NAN;

  if (!ideal_outer (self, steer, &inner, &outer, &ideal))
    return;
  pin_result_value (self, id, (inner - outer) / (inner - ideal));
  pin_figures (self, 3, "(%s − %s) ÷ (%s − %s) = %s", pin_say (self, inner, "deg", 1), pin_say (self, outer, "deg", 1),
               pin_say (self, inner, "deg", 1), pin_say (self, ideal, "deg", 1),
               pin_say (self, (inner - outer) / (inner - ideal), "%", 0));
  pin_figures (self, 2, "cot %s − %s ÷ %s: %s", pin_say (self, ideal, "deg", 1),
               pin_say (self, pin_value (self, "kingpins"), "mm", 1),
               pin_say (self, pin_value (self, "wheelbase"), "mm", 1), pin_say (self, inner, "deg", 1));
  if (pin_linkage_radius (inner, pin_value (self, "kingpins"), pin_value (self, "wheelbase"), &radius) == PIN_MATHS_OK
      && radius < *tightest)
    {
      *tightest = radius;
      pin_result_value (self, "radius", radius);
      pin_figures (self, 4, "%s ÷ tan %s + %s ÷ 2 = %s", pin_say (self, pin_value (self, "wheelbase"), "mm", 1),
                   pin_say (self, inner, "deg", 1), pin_say (self, pin_value (self, "kingpins"), "mm", 1),
                   pin_say (self, radius, "mm", 0));
    }
}

static void
tell_end (PinReckoning *self, const End *end, const char *pulse, const char *share)
{
  pin_result_value (self, pulse, pulse_of (self, end->share));
  pin_result_value (self, share, fabs (end->share));
}

static void
tell_locks (PinReckoning *self, const End *left, const End *right)
{
  double tightest = G_MAXDOUBLE;
  double difference = fabs (left->steer.left) - fabs (right->steer.right);

  tell_end (self, left, "end-left", "share-left");
  tell_end (self, right, "end-right", "share-right");
  pin_result_value (self, "lock-left", -left->steer.left);
  pin_result_value (self, "lock-right", right->steer.right);
  pin_result_value (self, "lock-difference", difference);
  tell_ackermann (self, "ackermann-left", &left->steer, &tightest);
  tell_ackermann (self, "ackermann-right", &right->steer, &tightest);
  pin_figures (self, 0, "%s × (%s − %s) ÷ %s = %s", pin_say (self, pin_value (self, "travel"), "deg", 0),
               pin_say (self, pulse_of (self, right->share), "us", 0),
               pin_say (self, pin_value (self, "centre"), "us", 0), pin_say (self, pin_value (self, "full"), "us", 0),
               pin_say (self, right->share * pin_value (self, "travel"), "deg", 1));
  if (fabs (difference) > 3 * G_PI / 180)
    pin_warn (self, _("The locks differ by more than 3°: look for a horn a spline out or links of unequal length."));
  for (int i = 0; i < 2; i++)
    {
      double share = fabs ((i ? right : left)->share);

      if (pin_given (self, "stop") && share < 0.6)
        pin_warn (self, _("An end point below 60 %%: the horn is too long; take a hole further in."));
    }
}

static void
tell_angles (PinReckoning *self, const PinLinkage *linkage, const End *left, const End *right)
{
  PinChart *chart = pin_chart_new (_("Steering"), _("pulse, µs"), _("wheel to the right, °"));
  PinSeries *left_line = pin_chart_add_series (chart, _("left wheel"), PIN_SERIES_LINE, FALSE);
  PinSeries *right_line = pin_chart_add_series (chart, _("right wheel"), PIN_SERIES_LINE, TRUE);
  double dead = MIN (left->steer.dead, right->steer.dead);

  for (int step = -15; step <= 15; step++)
    {
      PinSteer at;
      double share = step / 10.0, inner, outer, ideal = NAN;

      if (fabs (share) > most_share (self) + 1e-9
          || pin_linkage_steer (linkage, share * per_share (self), &at) != PIN_MATHS_OK)
        continue;
      pin_series_add (left_line, pulse_of (self, share) * 1e6, at.left * 180 / G_PI);
      pin_series_add (right_line, pulse_of (self, share) * 1e6, at.right * 180 / G_PI);
      ideal_outer (self, &at, &inner, &outer, &ideal);
      pin_result_row (self, "angles", share, pulse_of (self, share), at.left, at.right, ideal);
    }
  if (pin_given (self, "stop"))
    {
      pin_chart_add_limit (chart, _("stop"), pin_value (self, "stop") * 180 / G_PI, 1);
      pin_chart_add_limit (chart, _("stop"), -pin_value (self, "stop") * 180 / G_PI, -1);
    }
  pin_chart_add_mark (chart, _("left end"), pulse_of (self, left->share) * 1e6, left->steer.left * 180 / G_PI, FALSE);
  pin_chart_add_mark (chart, _("right end"), pulse_of (self, right->share) * 1e6, right->steer.right * 180 / G_PI,
                      TRUE);
  pin_result_chart (self, chart);
  pin_result_value (self, "dead-point", dead);
  if (dead < SLACK_ANGLE)
    pin_warn (self, _("A rod and its arm come within %s of a dead point: play grows there and the servo strains."),
              pin_say (self, dead, "deg", 0));
}

/* What is known before the throw. */
static gboolean
tell_centre (PinReckoning *self, const PinLinkage *linkage)
{
  PinSteer centre;

  if (!pin_ok (self, pin_linkage_steer (linkage, 0, &centre), _("the steering at the centre pulse")))
    return FALSE;
  pin_result_value (self, "left-centre", centre.left);
  pin_result_value (self, "right-centre", centre.right);
  pin_result_value (self, "link-length", linkage->link);
  pin_result_value (self, "tie-rod", linkage->tie);
  pin_figures (self, 1, _("%s and %s rods, for each pulse of the table"), pin_say (self, linkage->link, "mm", 1),
               pin_say (self, linkage->tie, "mm", 1));
  return TRUE;
}

static void
work (PinReckoning *self)
{
  PinLinkage linkage;
  End more, less;
  gboolean more_is_right;

  if (!describe (self, &linkage) || !tell_centre (self, &linkage) || !find_end (self, &linkage, 1, &more)
      || !find_end (self, &linkage, -1, &less))
    return;
  more_is_right = more.steer.left + more.steer.right >= less.steer.left + less.steer.right;
  tell_locks (self, more_is_right ? &less : &more, more_is_right ? &more : &less);
  tell_angles (self, &linkage, more_is_right ? &less : &more, more_is_right ? &more : &less);
  if (!more_is_right)
    pin_warn (self, _("A longer pulse steers to the left: reverse the channel if the wheel turns the wrong way."));
  pin_answer (self, pin_given (self, "stop") || pin_given (self, "stop-outer")
                      ? _("End points of %s to the left and %s to the right stay off the stops.")
                      : _("No stop is given: at %s to the left and %s to the right the bars still move freely."),
              pin_say (self, fabs ((more_is_right ? less : more).share), "%", 0),
              pin_say (self, fabs ((more_is_right ? more : less).share), "%", 0));
}

const PinSum pin_sum_linkage = {
  .id = "linkage",
  .title = N_("Linkage"),
  .group = N_("Steering"),
  .about = N_("Wheel angles against the servo's pulse, Ackermann, and the end points that stay off the stops."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Closure of four-bar linkages (Freudenstein 1954) and Ackermann's condition, both published. The end "
               "points of 900 to 2100 µs, the least of 60 % and the differences of lock are common practice or from "
               "memory."),
  .validity = N_("Rigid rods, no play, no servo saver, kingpins upright, all balls but the horn's in one plane; "
                 "bellcranks are each other's mirror image and turn alike. Measured from above, within a millimetre. "
                 "Set the last percent by ear, with the wheels off the ground."),
  .hazard = N_("Caution: a stalled servo gets hot and a moving link pinches; wheels off the ground, fingers out."),
  .work = work,
};
