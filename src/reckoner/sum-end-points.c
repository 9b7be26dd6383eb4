#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/endpoints.h"
#include "reckoner/work.h"

static const PinInput inputs[] = {
  { .id = "left", .title = N_("End point left"), .unit = "%", .least = 1, .most = 200, .preset = "",
    .hint = N_("As the radio shows it; or the pulse below") },
  { .id = "right", .title = N_("End point right"), .unit = "%", .least = 1, .most = 200, .preset = "" },
  { .id = "left-pulse", .title = N_("Pulse at the left end"), .unit = "us", .least = 600, .most = 2400, .preset = "" },
  { .id = "right-pulse", .title = N_("Pulse at the right end"), .unit = "us", .least = 600, .most = 2400,
    .preset = "" },
  { .id = "centre", .title = N_("Centre pulse"), .unit = "us", .least = 1300, .most = 1700, .preset = "1500 us" },
  { .id = "full", .title = N_("Pulse from centre at 100 %"), .unit = "us", .least = 200, .most = 600,
    .preset = "400 us" },
  { .id = "travel", .title = N_("Servo's way at 100 %"), .unit = "deg", .least = 10, .most = 100,
    .preset = "45 deg", .hint = N_("To one side") },
  { .id = "sub-trim", .title = N_("Sub-trim"), .unit = "us", .least = -300, .most = 300, .preset = "" },
  { .id = "spline", .title = N_("Teeth of the servo's spline"), .unit = "teeth", .least = 15, .most = 30,
    .preset = "25", .whole = TRUE },
  { .id = "touch-left", .title = N_("Touches the stop left at"), .unit = "%", .least = 1, .most = 200, .preset = "" },
  { .id = "touch-right", .title = N_("Touches the stop right at"), .unit = "%", .least = 1, .most = 200,
    .preset = "" },
  { .id = "lock-left", .title = N_("Inner wheel, locked to the left"), .unit = "deg", .least = 1, .most = 80,
    .preset = "" },
  { .id = "lock-right", .title = N_("Inner wheel, locked to the right"), .unit = "deg", .least = 1, .most = 80,
    .preset = "" },
  { .id = "horn", .title = N_("Hole in use"), .unit = "mm", .least = 3, .most = 80, .preset = "",
    .hint = N_("From the horn's centre") },
  { .id = "holes", .title = N_("Holes that there are"), .kind = PIN_INPUT_LIST, .unit = "mm", .least = 3, .most = 80,
    .at_most = 12, .preset = "" },
  { .id = "stalls", .title = N_("Stall current of each servo"), .kind = PIN_INPUT_LIST, .unit = "A", .least = 0.05,
    .most = 30, .at_most = 12, .preset = "" },
  { .id = "supply", .title = N_("Radio supply, lasting"), .unit = "A", .least = 0.1, .most = 60, .preset = "",
    .hint = N_("Of the receiver's supply, at the voltage of the stall currents") },
  { 0 },
};

static const PinColumn hole_columns[] = {
  { "hole", N_("Hole, mm"), "mm", 1 },
  { "left", N_("Left, %"), "%", 0 },
  { "right", N_("Right, %"), "%", 0 },
  { "says", N_("What of it"), NULL, 0 },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "share-left", .title = N_("Used to the left"), .unit = "%", .decimals = 0 },
  { .id = "share-right", .title = N_("Used to the right"), .unit = "%", .decimals = 0 },
  { .id = "pulse-left", .title = N_("Pulse from centre, left"), .unit = "us", .decimals = 0 },
  { .id = "pulse-right", .title = N_("Pulse from centre, right"), .unit = "us", .decimals = 0 },
  { .id = "throw-left", .title = N_("Servo's throw left"), .unit = "deg", .decimals = 1 },
  { .id = "throw-right", .title = N_("Servo's throw right"), .unit = "deg", .decimals = 1 },
  { .id = "asymmetry", .title = N_("Left more than right"), .unit = "%", .decimals = 0 },
  { .id = "over-left", .title = N_("Past the stop left"), .unit = "%", .decimals = 0 },
  { .id = "over-right", .title = N_("Past the stop right"), .unit = "%", .decimals = 0 },
  { .id = "ideal-hole", .title = N_("Horn for 100 % on the larger side"), .unit = "mm", .decimals = 1 },
  { .id = "best-hole", .title = N_("Best of the holes"), .unit = "mm", .decimals = 1 },
  { .id = "stall-sum", .title = N_("Stall currents together"), .unit = "A", .decimals = 1 },
  { .id = "used-well", .title = N_("80 to 120 % used on both sides"), .kind = PIN_OUTPUT_GATE },
  { .id = "clear", .title = N_("At least 2 % off both stops"), .kind = PIN_OUTPUT_GATE },
  { .id = "even", .title = N_("Locks within a degree"), .kind = PIN_OUTPUT_GATE },
  { .id = "in-range", .title = N_("Pulses within 900 to 2100 µs"), .kind = PIN_OUTPUT_GATE },
  { .id = "trimmed", .title = N_("Sub-trim within half a spline"), .kind = PIN_OUTPUT_GATE },
  { .id = "supplied", .title = N_("Supply above the stall currents"), .kind = PIN_OUTPUT_GATE },
  { .id = "holes-compared", .title = N_("Holes"), .kind = PIN_OUTPUT_TABLE, .columns = hole_columns },
  { 0 },
};

static const char *const formulas[] = {
  N_("servo's throw = its way at 100 % × end point"),
  N_("way of the ball = hole × sin throw, the same for another hole"),
  N_("horn for 100 % = hole in use × sin throw ÷ sin (way at 100 %)"),
  N_("half a spline = 180° ÷ teeth ÷ way at 100 % × pulse at 100 %"),
  NULL,
};

static gboolean
read_share (PinReckoning *self, const char *share, const char *pulse, double *to)
{
  if (pin_given (self, share))
    *to = pin_value (self, share);
  else if (pin_given (self, pulse))
    *to = fabs (pin_value (self, pulse) - pin_value (self, "centre")) / pin_value (self, "full");
  else
    {
      pin_refuse (self, _("give “%s” or “%s”"), share, pulse);
      return FALSE;
    }
  if (*to > 0)
    return TRUE;
  pin_refuse (self, _("“%s” is the centre pulse: nothing is steered"), pulse);
  return FALSE;
}

static PinGate
met_if (gboolean met)
{
  return met ? PIN_GATE_MET : PIN_GATE_NOT_MET;
}

static void
tell_throw (PinReckoning *self, double left, double right)
{
  double full = pin_value (self, "full"), centre = pin_value (self, "centre"), travel = pin_value (self, "travel");
  double trim = pin_given (self, "sub-trim") ? fabs (pin_value (self, "sub-trim")) : 0;
  double most = MAX (left, right) * full + trim;

  pin_result_value (self, "share-left", left);
  pin_result_value (self, "share-right", right);
  pin_result_value (self, "pulse-left", left * full);
  pin_result_value (self, "pulse-right", right * full);
  pin_result_value (self, "throw-left", left * travel);
  pin_result_value (self, "throw-right", right * travel);
  pin_result_value (self, "asymmetry", left - right);
  pin_figures (self, 0, "%s × %s = %s", pin_say (self, travel, "deg", 0), pin_say (self, MAX (left, right), "%", 0),
               pin_say (self, MAX (left, right) * travel, "deg", 1));
  pin_result_gate (self, "used-well", met_if (MIN (left, right) >= 0.8 && MAX (left, right) <= 1.2), "%s, %s",
                   pin_say (self, left, "%", 0), pin_say (self, right, "%", 0));
  pin_result_gate (self, "in-range", met_if (centre - most >= 900e-6 - 1e-12 && centre + most <= 2100e-6 + 1e-12),
                   _("%s to %s, whichever way it turns"), pin_say (self, centre - most, "us", 0),
                   pin_say (self, centre + most, "us", 0));
  if (MIN (left, right) < 0.6)
    pin_warn (self, _("Below 60 %% the servo's force and fineness are wasted: the horn is too long."));
  if (MAX (left, right) > 1.4)
    pin_warn (self, _("Above 140 %% the servo is overthrown: the horn is too short, or the linkage binds."));
}

static void
tell_stops (PinReckoning *self, double left, double right)
{
  gboolean has_left = pin_given (self, "touch-left"), has_right = pin_given (self, "touch-right");
  double over_left = left - pin_value (self, "touch-left"), over_right = right - pin_value (self, "touch-right");
  gboolean past = (has_left && over_left > -0.02 + 1e-9) || (has_right && over_right > -0.02 + 1e-9);

  if (has_left)
    pin_result_value (self, "over-left", over_left);
  if (has_right)
    pin_result_value (self, "over-right", over_right);
  if (has_left || has_right)
    pin_result_gate (self, "clear", past ? PIN_GATE_NOT_MET : has_left && has_right ? PIN_GATE_MET : PIN_GATE_UNKNOWN,
                     _("left %s, right %s past it"), has_left ? pin_say (self, over_left, "%", 1) : _("not known"),
                     has_right ? pin_say (self, over_right, "%", 1) : _("not known"));
  if (past)
    pin_warn (self, _("The servo pushes against a stop: take the end point back until it is silent, 2 to 3 %% before "
                      "the stop."));
}

static void
tell_locks (PinReckoning *self)
{
  double off = fabs (pin_value (self, "lock-left") - pin_value (self, "lock-right"));

  if (!pin_given (self, "lock-left") || !pin_given (self, "lock-right"))
    return;
  pin_result_gate (self, "even", met_if (off <= G_PI / 180 * (1 + 1e-9)), "%s", pin_say (self, off, "deg", 1));
  if (off > 3 * G_PI / 180)
    pin_warn (self, _("The locks differ by more than 3°: match them by wheel angle, not by percent."));
}

static void
tell_trim (PinReckoning *self)
{
  double half = G_PI / pin_value (self, "spline") / pin_value (self, "travel") * pin_value (self, "full");

  if (!pin_given (self, "sub-trim"))
    return;
  pin_figures (self, 3, "180° ÷ %g ÷ %s × %s = %s", pin_value (self, "spline"),
               pin_say (self, pin_value (self, "travel"), "deg", 0), pin_say (self, pin_value (self, "full"), "us", 0),
               pin_say (self, half, "us", 0));
  pin_result_gate (self, "trimmed", met_if (fabs (pin_value (self, "sub-trim")) <= half), _("%s of %s"),
                   pin_say (self, fabs (pin_value (self, "sub-trim")), "us", 0), pin_say (self, half, "us", 0));
  if (fabs (pin_value (self, "sub-trim")) > half)
    pin_warn (self, _("Sub-trim of more than half a spline: put the horn on one spline further round."));
}

/* ---- the horn's hole ------------------------------------------------------------------------ */

static const char *
judged (double left, double right)
{
  if (isnan (left) || isnan (right))
    return _("too short");
  if (MAX (left, right) > 1.2)
    return _("rather short");
  if (MIN (left, right) < 0.8)
    return _("rather long");
  return _("good");
}

/* Better: nearer to 100 % on the side that needs more. */
static void
tell_holes (PinReckoning *self, double left, double right)
{
  const GArray *holes = pin_list (self, "holes");
  double horn = pin_value (self, "horn"), travel = pin_value (self, "travel"), least = G_MAXDOUBLE, best = 0;

  for (guint i = 0; i < holes->len; i++)
    {
      double hole = g_array_index (holes, double, i), to_left = NAN, to_right = NAN, off;

      pin_endpoints_other_hole (horn, left, travel, hole, &to_left);
      pin_endpoints_other_hole (horn, right, travel, hole, &to_right);
      pin_result_row (self, "holes-compared", hole, to_left, to_right, judged (to_left, to_right));
      off = fabs (MAX (to_left, to_right) - 1);
      if (!isnan (to_left) && !isnan (to_right) && off < least)
        {
          least = off;
          best = hole;
          pin_result_mark_row (self, "holes-compared");
        }
    }
  if (least < G_MAXDOUBLE)
    pin_result_value (self, "best-hole", best);
}

static void
tell_horn (PinReckoning *self, double left, double right)
{
  double horn = pin_value (self, "horn"), travel = pin_value (self, "travel"), more = MAX (left, right), ideal = 0;

  if (!pin_given (self, "horn"))
    return;
  if (pin_endpoints_ideal_horn (horn, more, travel, &ideal) != PIN_MATHS_OK)
    {
      pin_warn (self, _("The horn turns past 90°: no hole can be reckoned from that."));
      return;
    }
  pin_result_value (self, "ideal-hole", ideal);
  pin_figures (self, 1, "%s × sin %s = %s", pin_say (self, horn, "mm", 1), pin_say (self, more * travel, "deg", 1),
               pin_say (self, horn * sin (more * travel), "mm", 1));
  pin_figures (self, 2, "%s × sin %s ÷ sin %s = %s", pin_say (self, horn, "mm", 1),
               pin_say (self, more * travel, "deg", 1), pin_say (self, travel, "deg", 0),
               pin_say (self, ideal, "mm", 1));
  tell_holes (self, left, right);
}

/* ---- current --------------------------------------------------------------------------------- */

static void
tell_supply (PinReckoning *self)
{
  const GArray *stalls = pin_list (self, "stalls");
  double sum = 0;

  for (guint i = 0; i < stalls->len; i++)
    sum += g_array_index (stalls, double, i);
  if (stalls->len == 0)
    return;
  pin_result_value (self, "stall-sum", sum);
  if (!pin_given (self, "supply"))
    {
      pin_result_gate (self, "supplied", PIN_GATE_UNKNOWN, _("the supply is not given"));
      return;
    }
  pin_result_gate (self, "supplied", met_if (pin_value (self, "supply") > sum), _("%s of stall, %s of supply"),
                   pin_say (self, sum, "A", 1), pin_say (self, pin_value (self, "supply"), "A", 1));
  if (pin_value (self, "supply") <= sum)
    pin_warn (self, _("A servo that stalls can pull the receiver's voltage down and the car runs away: a stronger "
                      "supply, or servos that draw less."));
}

static void
work (PinReckoning *self)
{
  double left, right;

  if (!read_share (self, "left", "left-pulse", &left) || !read_share (self, "right", "right-pulse", &right))
    return;
  tell_throw (self, left, right);
  tell_stops (self, left, right);
  tell_locks (self);
  tell_trim (self);
  tell_horn (self, left, right);
  tell_supply (self);
  if (MAX (left, right) > 1.2)
    pin_answer (self, _("%s and %s: more throw than is good, a longer horn serves better."),
                pin_say (self, left, "%", 0), pin_say (self, right, "%", 0));
  else if (MIN (left, right) < 0.8)
    pin_answer (self, _("%s and %s: little of the throw is used, a shorter horn serves better."),
                pin_say (self, left, "%", 0), pin_say (self, right, "%", 0));
  else
    pin_answer (self, _("%s and %s: the throw is well used."), pin_say (self, left, "%", 0),
                pin_say (self, right, "%", 0));
}

const PinSum pin_sum_end_points = {
  .id = "end-points",
  .title = N_("End points"),
  .group = N_("Steering"),
  .about = N_("What measured end points say of the horn, the stops and the radio supply."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Geometry of a horn square to its link. Backing off 2 to 3 %, 80 to 120 % as good, 900 to 2100 µs and a "
               "supply above the stall currents are common practice; 60 and 140 %, 1° and 3° of lock are from memory."),
  .validity = N_("Link square to the horn at centre; for anything else use the linkage. Stall currents are the maker's "
                 "at the same voltage. From memory, for want of them: micro 0.5 to 1 A, standard 1 to 2 A, strong "
                 "digital 2.5 to 4 A, high-voltage 4 to 7 A, fifth scale 6 to 12 A."),
  .hazard = N_("Caution: a stalled servo gets hot enough to burn and a knuckle pinches; wheels off the ground."),
  .work = work,
};
