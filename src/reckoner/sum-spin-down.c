#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/coasting.h"
#include "maths/drag.h"
#include "maths/pairs.h"
#include "maths/repeats.h"
#include "reckoner/work.h"

#define FEWEST_TAPS 6

static const PinInput inputs[] = {
  { .id = "coasts", .title = N_("Times to standstill"), .kind = PIN_INPUT_LIST, .unit = "s", .least = 0.05, .most = 600,
    .at_most = 30, .preset = "", .hint = N_("Three flicks with the same effort, by stopwatch") },
  { .id = "baseline", .title = N_("Times of the baseline"), .kind = PIN_INPUT_LIST, .unit = "s", .least = 0.05,
    .most = 600, .at_most = 30, .preset = "", .hint = N_("The first good ones after a service") },
  { .id = "taps", .title = N_("Taps"), .kind = PIN_INPUT_LIST, .unit = "s", .least = 0, .most = 600,
    .fewest = FEWEST_TAPS, .at_most = 100, .preset = "", .hint = N_("The times at which the mark passed, in turn") },
  { .id = "baseline-taps", .title = N_("Taps of the baseline"), .kind = PIN_INPUT_LIST, .unit = "s", .least = 0,
    .most = 600, .fewest = FEWEST_TAPS, .at_most = 100, .preset = "" },
  { .id = "turns", .title = N_("Turns between taps"), .unit = "1", .least = 0.05, .most = 1000, .preset = "1" },
  { .id = "inertia", .title = N_("Moment of inertia"), .unit = "g.cm2", .least = 0.01, .most = 1e6, .preset = "",
    .hint = N_("Of all that turns; for the drag as a torque") },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "median", .title = N_("Middle time"), .unit = "s", .decimals = 2 },
  { .id = "spread", .title = N_("Spread of the times"), .unit = "s", .decimals = 2 },
  { .id = "mad", .title = N_("Median distance from the middle"), .unit = "s", .decimals = 2 },
  { .id = "share", .title = N_("Of the baseline"), .unit = "%", .decimals = 0 },
  { .id = "change", .title = N_("Mean time against the baseline"), .unit = "s", .decimals = 2 },
  { .id = "start-speed", .title = N_("Speed at the first tap"), .unit = "rpm", .decimals = 0 },
  { .id = "dry", .title = N_("Slowing by dry drag"), .unit = "rpm/s", .decimals = 1 },
  { .id = "viscous", .title = N_("Slowing by viscous drag, at the first tap"), .unit = "rpm/s", .decimals = 1 },
  { .id = "time-constant", .title = N_("Time constant of the viscous drag"), .unit = "s", .decimals = 2 },
  { .id = "stop-time", .title = N_("From the first tap to standstill"), .unit = "s", .decimals = 1 },
  { .id = "dry-torque", .title = N_("Dry drag"), .unit = "N.m", .decimals = 6 },
  { .id = "viscous-torque", .title = N_("Viscous drag at the first tap"), .unit = "N.m", .decimals = 6 },
  { .id = "tap-scatter", .title = N_("Scatter of a tap"), .unit = "ms", .decimals = 0 },
  { .id = "drag-change", .title = N_("Drag against the baseline"), .unit = "%", .decimals = 0 },
  { .id = "p", .title = N_("By chance, p"), .unit = "1", .decimals = 4 },
  { .id = "free", .title = N_("At least 75 % of the baseline"), .kind = PIN_OUTPUT_GATE },
  { .id = "steady", .title = N_("No different from the baseline"), .kind = PIN_OUTPUT_GATE },
  { 0 },
};

static const char *const formulas[] = {
  N_("of the baseline = middle time ÷ middle time of the baseline"),
  N_("t = (mean − mean of the baseline) ÷ standard error, both scattering alike"),
  N_("slowing = dry + viscous × speed, fitted to the taps by least squares"),
  N_("standstill after ln (1 + viscous ÷ dry) × time constant"),
  N_("drag = moment of inertia × slowing"),
  N_("t = (slowing − slowing of the baseline) ÷ standard error, at the same speed"),
  NULL,
};

static const double *
numbers (const GArray *list)
{
  return (const double *) list->data;
}

static void
tell_steady (PinReckoning *self, const PinContrast *it)
{
  gboolean real = it->p < 0.05;

  pin_result_value (self, "p", it->p);
  pin_result_gate (self, "steady", real ? PIN_GATE_NOT_MET : PIN_GATE_MET,
                   real ? _("the change is more than the scatter (p = %.3f)")
                        : _("the change is within the scatter (p = %.3f)"), it->p);
}

/* ---- the stopwatch -------------------------------------------------------------------------- */

static void
compare_coasts (PinReckoning *self, const GArray *now, double middle)
{
  const GArray *then = pin_list (self, "baseline");
  double share = middle / pin_repeats_median (numbers (then), then->len);
  PinContrast it;

  pin_result_value (self, "share", share);
  pin_figures (self, 0, "%s ÷ %s = %s", pin_say (self, middle, "s", 2),
               pin_say (self, pin_repeats_median (numbers (then), then->len), "s", 2), pin_say (self, share, "%", 0));
  pin_result_gate (self, "free", share >= 0.75 ? PIN_GATE_MET : PIN_GATE_NOT_MET,
                   share >= 0.75 ? "%s" : share >= 0.5 ? _("%s: watch it") : _("%s: it fails"),
                   pin_say (self, share, "%", 0));
  if (share < 0.5)
    pin_warn (self, _("Less than half of the baseline: find what drags before the car runs."));
  if (pin_pairs_pooled (numbers (now), now->len, numbers (then), then->len, &it) != PIN_MATHS_OK)
    {
      pin_result_gate (self, "steady", PIN_GATE_UNKNOWN, _("more repeats that are not all alike are needed to tell"));
      pin_answer (self, _("It coasts for %s of the baseline."), pin_say (self, share, "%", 0));
      return;
    }
  pin_result_estimate (self, "change", it.difference, it.error);
  pin_figures (self, 1, "%s ÷ %s = %.2f", pin_say (self, it.difference, "s", 2), pin_say (self, it.error, "s", 3),
               it.t);
  tell_steady (self, &it);
  pin_answer (self, it.p < 0.05 ? _("It coasts for %s of the baseline, and that is more than the scatter.")
                                : _("It coasts for %s of the baseline, which is within the scatter."),
              pin_say (self, share, "%", 0));
}

static void
work_coasts (PinReckoning *self)
{
  const GArray *now = pin_list (self, "coasts");
  double middle = pin_repeats_median (numbers (now), now->len), mad;

  pin_result_value (self, "median", middle);
  pin_result_value (self, "spread", pin_repeats_spread (numbers (now), now->len));
  if (!pin_ok (self, pin_pairs_mad (numbers (now), now->len, &mad), _("the spread")))
    return;
  pin_result_value (self, "mad", mad);
  pin_answer (self, _("It coasts for %s, the middle of %u."), pin_say (self, middle, "s", 2), now->len);
  if (now->len < 3)
    pin_warn (self, _("Fewer than three flicks: take three and keep the middle one."));
  if (pin_given (self, "baseline"))
    compare_coasts (self, now, middle);
}

/* ---- the taps --------------------------------------------------------------------------------- */

static gboolean
fit_taps (PinReckoning *self, const char *id, PinCoast *coast)
{
  const GArray *taps = pin_list (self, id);
  g_autofree double *angles = g_new (double, taps->len);
  PinCoastForm form = { .distances = TRUE, .linear = TRUE };
  PinMathsStatus status;

  for (guint i = 0; i < taps->len; i++)
    angles[i] = 2 * G_PI * pin_value (self, "turns") * i;
  status = pin_coast_fit (numbers (taps), angles, taps->len, form, coast);
  if (status == PIN_MATHS_RANGE)
    pin_refuse (self, _("the times of “%s” do not come one after the other"), id);
  else if (status == PIN_MATHS_DEGENERATE)
    pin_refuse (self, _("the marks of “%s” do not come slower and slower in a way that can be fitted"), id);
  else
    pin_ok (self, status, _("the drag"));
  return status == PIN_MATHS_OK && coast->value[PIN_COAST_START] > 0;
}

/* Turns a second from radians a second. */
static double
per_turn (double radians)
{
  return radians / (2 * G_PI);
}

static void
tell_part (PinReckoning *self, const char *id, const char *torque, double slowing, double error)
{
  double inertia = pin_value (self, "inertia");

  pin_result_estimate (self, id, per_turn (slowing), per_turn (error));
  if (pin_given (self, "inertia"))
    pin_result_estimate (self, torque, inertia * slowing, inertia * error);
}

static double
error_or_none (const PinCoast *coast, int term, double by)
{
  return coast->fitted[term] ? by * sqrt (coast->covariance[term][term]) : NAN;
}

static void
tell_fit (PinReckoning *self, const PinCoast *coast)
{
  double start = coast->value[PIN_COAST_START], dry = coast->value[PIN_COAST_A], rate = coast->value[PIN_COAST_B];
  double stop = 0;

  pin_result_estimate (self, "start-speed", per_turn (start), per_turn (error_or_none (coast, PIN_COAST_START, 1)));
  tell_part (self, "dry", "dry-torque", dry, error_or_none (coast, PIN_COAST_A, 1));
  tell_part (self, "viscous", "viscous-torque", rate * start, error_or_none (coast, PIN_COAST_B, start));
  pin_result_value (self, "tap-scatter", coast->scatter);
  pin_figures (self, 2, "%s + %s", pin_say (self, per_turn (dry), "rpm/s", 1),
               pin_say (self, per_turn (rate * start), "rpm/s", 1));
  if (rate > 0 && isfinite (1 / rate))
    pin_result_value (self, "time-constant", 1 / rate);
  if (pin_drag_spin_stop (dry, rate, start, &stop) == PIN_MATHS_OK)
    {
      pin_result_value (self, "stop-time", stop);
      pin_figures (self, 3, _("%s after the first tap"), pin_say (self, stop, "s", 1));
    }
  if (pin_given (self, "inertia"))
    pin_figures (self, 4, "%s × %s = %s", pin_say (self, pin_value (self, "inertia"), "g.cm2", 1),
                 pin_say (self, per_turn (dry), "rpm/s", 1),
                 pin_say (self, pin_value (self, "inertia") * dry, "N.m", 6));
  if (!coast->fitted[PIN_COAST_A] || !coast->fitted[PIN_COAST_B])
    pin_warn (self, _("The taps cannot tell dry from viscous drag: one of them comes out as none."));
}

static void
draw (PinReckoning *self, const PinCoast *coast)
{
  const GArray *taps = pin_list (self, "taps");
  PinChart *chart = pin_chart_new (_("Spin-down"), _("s since the first tap"), _("rpm"));
  PinSeries *points = pin_chart_add_series (chart, _("between taps"), PIN_SERIES_POINTS, FALSE);
  PinSeries *line = pin_chart_add_series (chart, _("fit"), PIN_SERIES_LINE, TRUE);
  double first = numbers (taps)[0], whole = numbers (taps)[taps->len - 1] - first;

  for (guint i = 1; i < taps->len; i++)
    pin_series_add (points, (numbers (taps)[i] + numbers (taps)[i - 1]) / 2 - first,
                    60 * pin_value (self, "turns") / (numbers (taps)[i] - numbers (taps)[i - 1]));
  for (int i = 0; i <= 60; i++)
    {
      double way, speed;

      if (pin_coast_run (coast, whole * i / 60, &way, &speed) == PIN_MATHS_OK)
        pin_series_add (line, whole * i / 60, 60 * per_turn (speed));
    }
  pin_result_chart (self, chart);
}

static void
compare_taps (PinReckoning *self, const PinCoast *now)
{
  PinCoast then;
  PinContrast it;
  double speed, slowing = 0, error = 0, before = 0, before_error = 0;

  if (!pin_given (self, "baseline-taps") || !fit_taps (self, "baseline-taps", &then))
    return;
  speed = MIN (now->value[PIN_COAST_START], then.value[PIN_COAST_START]);
  if (!pin_ok (self, pin_coast_slowing (now, speed, &slowing, &error), _("the drag"))
      || !pin_ok (self, pin_coast_slowing (&then, speed, &before, &before_error), _("the drag of the baseline")))
    return;
  pin_result_value (self, "drag-change", slowing / before - 1);
  if (pin_pairs_estimates (slowing, error, now->freedom, before, before_error, then.freedom, &it) != PIN_MATHS_OK)
    {
      pin_result_gate (self, "steady", PIN_GATE_UNKNOWN, _("the taps do not scatter, so nothing is to be tested"));
      return;
    }
  pin_figures (self, 5, "(%s − %s) ÷ %s = %.2f", pin_say (self, per_turn (slowing), "rpm/s", 1),
               pin_say (self, per_turn (before), "rpm/s", 1), pin_say (self, per_turn (it.error), "rpm/s", 2), it.t);
  tell_steady (self, &it);
  pin_answer (self, it.p < 0.05 ? _("The drag has changed by %s, and that is more than the scatter.")
                                : _("The drag differs by %s, which is within the scatter."),
              pin_say (self, slowing / before - 1, "%", 0));
}

static void
work_taps (PinReckoning *self)
{
  PinCoast coast;
  double start, dry;

  if (!fit_taps (self, "taps", &coast))
    {
      pin_refuse (self, _("the taps give no speed to begin with"));
      return;
    }
  start = coast.value[PIN_COAST_START];
  dry = coast.value[PIN_COAST_A] / (coast.value[PIN_COAST_A] + coast.value[PIN_COAST_B] * start);
  pin_answer (self, _("At %s, %s of the drag is dry."), pin_say (self, per_turn (start), "rpm", 0),
              pin_say (self, dry, "%", 0));
  tell_fit (self, &coast);
  draw (self, &coast);
  compare_taps (self, &coast);
}

static void
work (PinReckoning *self)
{
  if (!pin_given (self, "coasts") && !pin_given (self, "taps"))
    {
      pin_refuse (self, _("give “coasts” or “taps”"));
      return;
    }
  if (pin_given (self, "taps"))
    work_taps (self);
  if (pin_given (self, "coasts"))
    work_coasts (self);
}

const PinSum pin_sum_spin_down = {
  .id = "spin-down",
  .title = N_("Spin-down"),
  .group = N_("Drag"),
  .about = N_("How freely the train turns, from three times or from taps, and whether that has changed."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Equation of motion with dry and viscous drag, fitted by Levenberg and Marquardt's least squares with "
               "each tap as good in time as the next; Student's and Welch's t. 75 % and 50 % of the own baseline are "
               "from memory, three flicks common practice."),
  .validity = N_("Compare a train with itself only: same state, same hand, about the same warmth. Motor out or always "
                 "in; magnets that cog are no drag. A flick is a weak measure, taps are a better one."),
  .hazard = N_("Caution: flick by hand only, pack unplugged; a train under power bites fingers."),
  .work = work,
};
