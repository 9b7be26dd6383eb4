#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/fluids.h"
#include "reckoner/work.h"

#define MOST_RUNS 100
#define LOW 0.8               /* of the baseline: thinner than a hand test's scatter explains */
#define HIGH 1.25

static const char *const pulls[] = { "thread", "lever", NULL };
static const char *const holds[] = { "spur", "other-wheel", NULL };

static const PinInput inputs[] = {
  { .id = "runs", .title = N_("Masses and times"), .kind = PIN_INPUT_PAIRS, .unit = "g", .least = 1, .most = 5000,
    .second = "s", .second_least = 0.2, .second_most = 3600,
    .hint = N_("Mass, colon, time: 50:6.2, 100:3.0. Two different masses tell friction from fluid") },
  { .id = "arm", .title = N_("Arm"), .unit = "mm", .least = 2, .most = 500,
    .hint = N_("From the axle's middle to the thread, or to the mass on the lever") },
  { .id = "pull", .title = N_("The mass hangs on"), .kind = PIN_INPUT_CHOICE, .choices = pulls, .preset = "thread" },
  { .id = "turns", .title = N_("Turns of the wheel"), .unit = "1", .least = 0.1, .most = 20, .preset = "1",
    .hint = N_("With a thread; start the watch once it turns evenly") },
  { .id = "swing", .title = N_("Swing of the lever"), .unit = "deg", .least = 5, .most = 150, .preset = "60 deg",
    .hint = N_("From half above the level to half below; balance the lever first") },
  { .id = "held", .title = N_("Held still"), .kind = PIN_INPUT_CHOICE, .choices = holds, .preset = "spur" },
  { .id = "temperature", .title = N_("Temperature"), .unit = "degC", .least = -20, .most = 80, .preset = "" },
  { .id = "baseline", .title = N_("Baseline"), .unit = "N.m", .least = 1e-6, .most = 1000, .preset = "",
    .hint = N_("The torque at a turn a second that came out after the fill") },
  { .id = "baseline-temperature", .title = N_("Temperature then"), .unit = "degC", .least = -20, .most = 80,
    .preset = "" },
  { .id = "fill", .title = N_("Fluid filled"), .unit = "cSt", .least = 2, .most = 2e6, .preset = "" },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "damping", .title = N_("Torque at a turn a second between the outdrives"), .unit = "N.m", .decimals = 4 },
  { .id = "friction", .title = N_("Friction of seals and gears"), .unit = "N.m", .decimals = 4 },
  { .id = "against-baseline", .title = N_("Against the baseline"), .unit = "%", .decimals = 0 },
  { .id = "acts-like", .title = N_("Acts like"), .unit = "cSt", .decimals = 0 },
  { .id = "same", .title = N_("As after the fill"), .kind = PIN_OUTPUT_GATE },
  { 0 },
};

static const char *const formulas[] = {
  N_("torque = mass × 9.807 m/s² × arm, speed = turns ÷ time"),
  N_("torque = friction + damping × speed"),
  N_("against the baseline = damping now, at the temperature then, ÷ baseline"),
  NULL,
};

/* With the spur held the outdrives turn against each other at twice the speed
 * of the wheel, and the torque between them is half of what the mass gives. */
static double
between_outdrives (const PinReckoning *self, double damping)
{
  return g_str_equal (pin_choice (self, "held"), "spur") ? damping / 4 : damping;
}

static void
judge (PinReckoning *self, double damping)
{
  double now = pin_value (self, "temperature"), then = pin_value (self, "baseline-temperature");
  double ratio, correction = 1;

  if (!pin_given (self, "baseline"))
    {
      pin_result_gate (self, "same", PIN_GATE_UNKNOWN, _("no baseline: this can be the first, if just filled"));
      return;
    }
  if (!isnan (now) && !isnan (then))
    pin_fluid_silicone_ratio (now, then, &correction);
  ratio = damping * correction / pin_value (self, "baseline");
  pin_result_value (self, "against-baseline", ratio);
  pin_figures (self, 2, "%s × %.3f ÷ %s = %s", pin_say (self, damping, "N.m", 4), correction,
               pin_say (self, pin_value (self, "baseline"), "N.m", 4), pin_say (self, ratio, "%", 0));
  if (pin_given (self, "fill"))
    pin_result_value (self, "acts-like", pin_value (self, "fill") * ratio);
  pin_result_gate (self, "same", ratio >= LOW && ratio <= HIGH ? PIN_GATE_MET : PIN_GATE_NOT_MET,
                   _("%s of the baseline, 80 to 125 %% is as good as the same"), pin_say (self, ratio, "%", 0));
  if (ratio < LOW)
    pin_warn (self, _("Thinner than after the fill: look for a leak at the outdrives and the gasket."));
  if (ratio > HIGH)
    pin_warn (self, _("Stiffer than after the fill: look for water, grit, a shim too many or an overfilled case."));
  if (isnan (now) || isnan (then))
    pin_warn (self, _("Without both temperatures a cold day passes for thicker fluid: about 1 %% a degree."));
}

static void
draw (PinReckoning *self, const double *speeds, const double *torques, guint n, double friction, double damping)
{
  PinChart *chart = pin_chart_new (_("Torque over speed"), _("turns of the wheel a minute"), _("torque, mN·m"));
  PinSeries *points = pin_chart_add_series (chart, _("runs"), PIN_SERIES_POINTS, TRUE);
  PinSeries *line = pin_chart_add_series (chart, _("fit"), PIN_SERIES_LINE, FALSE);
  double most = 0;

  for (guint i = 0; i < n; i++)
    {
      pin_series_add (points, speeds[i] * 60, torques[i] * 1e3);
      most = MAX (most, speeds[i]);
    }
  pin_series_add (line, 0, friction * 1e3);
  pin_series_add (line, most * 60, (friction + damping * most) * 1e3);
  pin_result_chart (self, chart);
}

static gboolean
read_runs (PinReckoning *self, double *speeds, double *torques)
{
  const GArray *masses = pin_list (self, "runs"), *times = pin_list_second (self, "runs");
  gboolean lever = g_str_equal (pin_choice (self, "pull"), "lever");
  double share = 1, turns = lever ? pin_value (self, "swing") / (2 * G_PI) : pin_value (self, "turns");

  if (lever && !pin_ok (self, pin_diff_lever_share (pin_value (self, "swing"), &share), _("the lever")))
    return FALSE;
  for (guint i = 0; i < masses->len; i++)
    {
      speeds[i] = turns / g_array_index (times, double, i);
      if (!pin_ok (self, pin_diff_torque (g_array_index (masses, double, i), pin_value (self, "arm"), share,
                                          &torques[i]), _("the torque")))
        return FALSE;
    }
  return TRUE;
}

static void
work (PinReckoning *self)
{
  guint n = MIN (pin_list (self, "runs")->len, MOST_RUNS);
  double speeds[MOST_RUNS], torques[MOST_RUNS], friction, damping, between;

  if (!read_runs (self, speeds, torques)
      || !pin_ok (self, pin_diff_line (speeds, torques, n, &friction, &damping), _("the damping")))
    return;
  between = between_outdrives (self, damping);
  pin_result_value (self, "damping", between);
  pin_result_value (self, "friction", friction);
  pin_figures (self, 0, "%s, %s", pin_say (self, torques[0], "N.m", 4), pin_say (self, speeds[0], "rpm", 1));
  pin_figures (self, 1, "%s + %s × %s", pin_say (self, friction, "N.m", 4), pin_say (self, damping, "N.m", 4),
               _("turns a second of the wheel"));
  if (n < 2)
    pin_warn (self, _("One mass cannot tell the friction of the seals from the fluid: hang a second, heavier one."));
  if (friction < 0)
    pin_warn (self, _("The friction came out below nothing: the runs disagree, repeat them."));
  draw (self, speeds, torques, n, friction, damping);
  judge (self, between);
  pin_answer (self, _("The diff needs %s between its outdrives for a turn a second."),
              pin_say (self, between, "N.m", 4));
}

const PinSum pin_sum_diff_test = {
  .id = "diff-test",
  .title = N_("Diff, hung mass"),
  .group = N_("Fluids and shocks"),
  .about = N_("How stiff a filled diff is, from a mass that turns one wheel, and whether that has changed."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Mechanics of a hung mass against damping in proportion to speed. The limits of 80 and 125 % are from "
               "memory: how well a test by hand repeats."),
  .validity = N_("Compare only with the same diff tested the same way. Slow, even turning; for gear diffs with fluid, "
                 "not for ball diffs."),
  .hazard = N_("Caution: A falling mass hurts toes. Unplug the pack first: a wheel under power catches the thread."),
  .work = work,
};
