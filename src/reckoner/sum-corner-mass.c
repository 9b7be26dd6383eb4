#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/corners.h"
#include "reckoner/work.h"

#define FREE_FALL 9.80665     /* m/s²: kg of a scale to N of a spring */
#define CROSS_BAND 0.005      /* of the target, from memory */

static const PinInput inputs[] = {
  { .id = "front-left", .title = N_("Front left"), .unit = "g", .least = 5, .most = 30000 },
  { .id = "front-right", .title = N_("Front right"), .unit = "g", .least = 5, .most = 30000 },
  { .id = "rear-left", .title = N_("Rear left"), .unit = "g", .least = 5, .most = 30000 },
  { .id = "rear-right", .title = N_("Rear right"), .unit = "g", .least = 5, .most = 30000 },
  { .id = "wheelbase", .title = N_("Wheelbase"), .unit = "mm", .least = 60, .most = 1000, .preset = "" },
  { .id = "front-track", .title = N_("Front track"), .unit = "mm", .least = 40, .most = 800, .preset = "" },
  { .id = "rear-track", .title = N_("Rear track"), .unit = "mm", .least = 40, .most = 800, .preset = "",
    .hint = N_("Left out: as in front") },
  { .id = "target", .title = N_("Cross wanted"), .unit = "%", .least = 40, .most = 60, .preset = "50 %",
    .hint = N_("Front right and rear left, of the total") },
  { .id = "scale-step", .title = N_("Step of the scales"), .unit = "g", .least = 0.01, .most = 100, .preset = "1 g" },
  { .id = "front-spring", .title = N_("Front spring rate"), .unit = "N/mm", .least = 0.02, .most = 50, .preset = "" },
  { .id = "rear-spring", .title = N_("Rear spring rate"), .unit = "N/mm", .least = 0.02, .most = 50, .preset = "" },
  { .id = "front-ratio", .title = N_("Front shock's way by the wheel's"), .unit = "1", .least = 0.2, .most = 1.5,
    .preset = "0.7" },
  { .id = "rear-ratio", .title = N_("Rear shock's way by the wheel's"), .unit = "1", .least = 0.2, .most = 1.5,
    .preset = "0.7" },
  { .id = "collar-pitch", .title = N_("Collar's way in a turn"), .unit = "mm", .least = 0.2, .most = 5,
    .preset = "1 mm" },
  { .id = "tilt", .title = N_("Tilt, for the height"), .unit = "deg", .least = 3, .most = 45, .preset = "",
    .hint = N_("Of the whole car, rear lifted, wheels and springs blocked") },
  { .id = "front-tilted", .title = N_("Front axle's mass when tilted"), .unit = "g", .least = 5, .most = 60000,
    .preset = "" },
  { 0 },
};

static const PinColumn collar_columns[] = {
  { "corner", N_("Corner"), NULL, 0 },
  { "way", N_("Load"), NULL, 0 },
  { "mass", N_("Mass to add, g"), "g", 1 },
  { "turns", N_("Turns of the collar"), "1", 2 },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "total", .title = N_("Total"), .unit = "g", .decimals = 0 },
  { .id = "cross", .title = N_("Cross, front right and rear left"), .unit = "%", .decimals = 2 },
  { .id = "cross-other", .title = N_("Front left and rear right"), .unit = "%", .decimals = 2 },
  { .id = "front", .title = N_("Front"), .unit = "%", .decimals = 2 },
  { .id = "rear", .title = N_("Rear"), .unit = "%", .decimals = 2 },
  { .id = "left", .title = N_("Left"), .unit = "%", .decimals = 2 },
  { .id = "right", .title = N_("Right"), .unit = "%", .decimals = 2 },
  { .id = "centre-behind", .title = N_("Centre of mass behind the front axle"), .unit = "mm", .decimals = 1 },
  { .id = "centre-left", .title = N_("Centre of mass left of the middle"), .unit = "mm", .decimals = 2 },
  { .id = "centre-height", .title = N_("Centre of mass above the axles"), .unit = "mm", .decimals = 1 },
  { .id = "heave", .title = N_("Heave, a wheel's share"), .unit = "g", .decimals = 1 },
  { .id = "pitch", .title = N_("Pitch, more in front"), .unit = "g", .decimals = 1 },
  { .id = "roll", .title = N_("Roll, more to the left"), .unit = "g", .decimals = 1 },
  { .id = "warp", .title = N_("Warp, more front left and rear right"), .unit = "g", .decimals = 1 },
  { .id = "even", .title = N_("Cross within half a percent"), .kind = PIN_OUTPUT_GATE },
  { .id = "collars", .title = N_("Collars"), .kind = PIN_OUTPUT_TABLE, .columns = collar_columns },
  { 0 },
};

static const char *const formulas[] = {
  N_("cross = (front right + rear left) ÷ total"),
  N_("warp = (front left − front right − rear left + rear right) ÷ 4"),
  N_("centre behind the front axle = wheelbase × rear ÷ total"),
  N_("mass to shift at each wheel of an axle = (cross wanted × total − front right − rear left) ÷ 2, by the tracks"),
  N_("turns = mass × g ÷ (spring rate × shock's way by the wheel's × collar's way in a turn)"),
  N_("height above the axles = wheelbase × mass gained in front ÷ (total × tan tilt)"),
  NULL,
};

static void
tell_shares (PinReckoning *self, PinCorners m, const PinCornerShares *shares)
{
  double own = 2 * (1 - shares->cross) * (1 - shares->cross) + 2 * shares->cross * shares->cross;
  double error = pin_value (self, "scale-step") / sqrt (12) * sqrt (own) / shares->total;

  pin_result_value (self, "total", shares->total);
  pin_result_estimate (self, "cross", shares->cross, error);
  pin_result_value (self, "cross-other", 1 - shares->cross);
  pin_result_value (self, "front", shares->front);
  pin_result_value (self, "rear", 1 - shares->front);
  pin_result_value (self, "left", shares->left);
  pin_result_value (self, "right", 1 - shares->left);
  pin_result_value (self, "heave", shares->heave);
  pin_result_value (self, "pitch", shares->pitch);
  pin_result_value (self, "roll", shares->roll);
  pin_result_value (self, "warp", shares->warp);
  pin_figures (self, 0, "(%s + %s) ÷ %s = %s", pin_say (self, m.front_right, "g", 1),
               pin_say (self, m.rear_left, "g", 1), pin_say (self, shares->total, "g", 1),
               pin_say (self, shares->cross, "%", 2));
  pin_figures (self, 1, "(%s − %s − %s + %s) ÷ 4 = %s", pin_say (self, m.front_left, "g", 1),
               pin_say (self, m.front_right, "g", 1), pin_say (self, m.rear_left, "g", 1),
               pin_say (self, m.rear_right, "g", 1), pin_say (self, shares->warp, "g", 1));
}

static void
draw (PinReckoning *self, PinCorners m, double wheelbase, double front, double rear, double behind, double to_left)
{
  PinChart *chart = pin_chart_new (_("From above, front at the top"), "mm", "mm");
  PinSeries *outline = pin_chart_add_series (chart, "", PIN_SERIES_BOTH, FALSE);
  const double x[] = { -front / 2, front / 2, rear / 2, -rear / 2, -front / 2 };
  const double y[] = { 0, 0, -wheelbase, -wheelbase, 0 };
  const double masses[] = { m.front_left, m.front_right, m.rear_right, m.rear_left };

  chart->drawing = TRUE;
  for (int i = 0; i < 5; i++)
    pin_series_add (outline, x[i] * 1e3, y[i] * 1e3);
  for (int i = 0; i < 4; i++)
    pin_chart_add_mark (chart, pin_say (self, masses[i], "g", 0), x[i] * 1e3, y[i] * 1e3, FALSE);
  pin_chart_add_mark (chart, _("centre of mass"), -to_left * 1e3, -behind * 1e3, TRUE);
  pin_result_chart (self, chart);
}

static void
tell_height (PinReckoning *self, const PinCornerShares *shares, double wheelbase)
{
  double tilt = pin_value (self, "tilt"), height = 0;
  double gained = pin_value (self, "front-tilted") - shares->front * shares->total;

  if (!pin_given (self, "tilt") || !pin_given (self, "front-tilted"))
    return;
  if (pin_corners_height (shares->total, gained, wheelbase, tilt, &height) != PIN_MATHS_OK
      || gained >= (1 - shares->front) * shares->total)
    {
      pin_warn (self, _("The front gains no mass, or all of it, when the rear is lifted: weigh the tilt again."));
      return;
    }
  pin_result_value (self, "centre-height", height);
  pin_figures (self, 5, "%s × %s ÷ (%s × tan %s) = %s", pin_say (self, wheelbase, "mm", 0),
               pin_say (self, gained, "g", 1), pin_say (self, shares->total, "g", 0), pin_say (self, tilt, "deg", 1),
               pin_say (self, height, "mm", 1));
}

static void
tell_centre (PinReckoning *self, PinCorners m, const PinCornerShares *shares)
{
  double wheelbase = pin_value (self, "wheelbase"), front = pin_value (self, "front-track");
  double rear = pin_given (self, "rear-track") ? pin_value (self, "rear-track") : front;
  double behind = 0, to_left = 0;

  if (!pin_given (self, "wheelbase"))
    return;
  tell_height (self, shares, wheelbase);
  behind = wheelbase * (1 - shares->front);
  pin_result_value (self, "centre-behind", behind);
  pin_figures (self, 2, "%s × %s = %s", pin_say (self, wheelbase, "mm", 1), pin_say (self, 1 - shares->front, "%", 2),
               pin_say (self, behind, "mm", 1));
  if (!pin_given (self, "front-track")
      || !pin_ok (self, pin_corners_centre (m, wheelbase, front, rear, &behind, &to_left), _("the centre of mass")))
    return;
  pin_result_value (self, "centre-left", to_left);
  draw (self, m, wheelbase, front, rear, behind, to_left);
}

/* Turns of one collar, NAN if its spring is not known. */
static double
turns_of (PinReckoning *self, double mass, const char *spring, const char *ratio)
{
  if (!pin_given (self, spring))
    return NAN;
  return mass * FREE_FALL / (pin_value (self, spring) * pin_value (self, ratio) * pin_value (self, "collar-pitch"));
}

static void
tell_collar (PinReckoning *self, const char *corner, double mass, const char *spring, const char *ratio)
{
  double turns = turns_of (self, mass, spring, ratio);
  const char *way = mass > 0 ? _("more: collar down") : mass < 0 ? _("less: collar up") : _("as it is");

  pin_result_row (self, "collars", corner, way, mass, turns);
  if (!isnan (turns))
    pin_figures (self, 4, "%s × 9.807 ÷ (%s × %s × %s) = %s", pin_say (self, mass, "g", 1),
                 pin_say (self, pin_value (self, spring), "N/mm", 2), pin_say (self, pin_value (self, ratio), "1", 2),
                 pin_say (self, pin_value (self, "collar-pitch"), "mm", 2), pin_say (self, turns, "1", 2));
}

static gboolean
tell_collars (PinReckoning *self, PinCorners m, double *front, double *rear)
{
  double front_track = pin_given (self, "front-track") ? pin_value (self, "front-track") : 1;
  double rear_track = pin_given (self, "front-track") && pin_given (self, "rear-track") ? pin_value (self, "rear-track")
                                                                                        : front_track;
  PinMathsStatus status = pin_corners_shift (m, pin_value (self, "target"), front_track, rear_track, front, rear);

  if (status == PIN_MATHS_NO_ANSWER)
    {
      pin_warn (self, _("Collars cannot bring that cross: a wheel would leave the ground. Look for a wrong spring, a "
                        "bent arm or a scale in the wrong place."));
      return FALSE;
    }
  if (!pin_ok (self, status, _("the shift")))
    return FALSE;
  pin_figures (self, 3, _("%s in front, %s behind"), pin_say (self, *front, "g", 1), pin_say (self, *rear, "g", 1));
  tell_collar (self, _("front left"), -*front, "front-spring", "front-ratio");
  tell_collar (self, _("front right"), *front, "front-spring", "front-ratio");
  tell_collar (self, _("rear left"), *rear, "rear-spring", "rear-ratio");
  tell_collar (self, _("rear right"), -*rear, "rear-spring", "rear-ratio");
  return TRUE;
}

static void
tell_answer (PinReckoning *self, const PinCornerShares *shares)
{
  double off = shares->cross - pin_value (self, "target");
  const char *cross = pin_say (self, shares->cross, "%", 2);

  pin_result_gate (self, "even", fabs (off) <= CROSS_BAND ? PIN_GATE_MET : PIN_GATE_NOT_MET, _("%s, wanted %s"), cross,
                   pin_say (self, pin_value (self, "target"), "%", 1));
  if (fabs (off) <= CROSS_BAND)
    pin_answer (self, _("The cross is %s, as wanted within half a percent: leave the collars."), cross);
  else if (off < 0)
    pin_answer (self, _("The cross is %s: load front right and rear left more, the others less."), cross);
  else
    pin_answer (self, _("The cross is %s: load front left and rear right more, the others less."), cross);
}

static void
work (PinReckoning *self)
{
  PinCorners m = { pin_value (self, "front-left"), pin_value (self, "front-right"), pin_value (self, "rear-left"),
                   pin_value (self, "rear-right") };
  PinCornerShares shares;
  double front, rear;

  if (!pin_ok (self, pin_corners_shares (m, &shares), _("the shares")))
    return;
  tell_shares (self, m, &shares);
  tell_centre (self, m, &shares);
  tell_collars (self, m, &front, &rear);
  tell_answer (self, &shares);
  if (fabs (shares.left - 0.5) > 0.01)
    pin_warn (self, _("Left and right differ by more than a percent of the total: collars cannot mend that, move the "
                      "pack or the radio gear."));
}

const PinSum pin_sum_corner_mass = {
  .id = "corner-mass",
  .title = N_("Corner mass"),
  .group = N_("Chassis"),
  .about = N_("Cross, shares and centre of mass from four scales, and which collars to turn."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Balance of moments; the height in the form of ISO 10392, from memory. The cross is front right with "
               "rear left; some count the other diagonal, which is shown too. Half a percent for the cross, one for "
               "left and right, and the shock's way of 0.7 of the wheel's are from memory."),
  .validity = N_("Four scales on one level, car ready to run, tyres even, bars off, settled by pressing it down. "
                 "All four collars turned as told keep the ride height; turned alone each changes it."),
  .work = work,
};
