#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/springs.h"
#include "reckoner/work.h"

static const PinInput inputs[] = {
  { .id = "heights", .title = N_("Heights of the tops"), .kind = PIN_INPUT_LIST, .unit = "mm", .least = 0.1,
    .most = 500, .preset = "", .fewest = 2, .at_most = 30,
    .hint = N_("In a row, above the height at rest: from a film against a ruler") },
  { .id = "count", .title = N_("Rebounds counted"), .unit = "1", .least = 0, .most = 50, .whole = TRUE, .preset = "",
    .hint = N_("Instead of the heights: how many can be seen after the first push") },
  { .id = "seen", .title = N_("Smallest that is seen"), .unit = "%", .least = 1, .most = 50, .preset = "10 %",
    .hint = N_("Of the first push, for counting") },
  { .id = "period", .title = N_("Time of one bounce"), .unit = "s", .least = 0.02, .most = 5, .preset = "" },
  { .id = "mass", .title = N_("Mass on this wheel"), .unit = "g", .least = 10, .most = 20000, .preset = "" },
  { .id = "other-heights", .title = N_("Heights on the other side"), .kind = PIN_INPUT_LIST, .unit = "mm",
    .least = 0.1, .most = 500, .preset = "", .fewest = 2, .at_most = 30 },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "decrement", .title = N_("Logarithmic decrement"), .unit = "1", .decimals = 3 },
  { .id = "damping-ratio", .title = N_("Damping ratio"), .unit = "1", .decimals = 3 },
  { .id = "left-over", .title = N_("Left of a push at the next top"), .unit = "%", .decimals = 0 },
  { .id = "frequency", .title = N_("Natural frequency"), .unit = "Hz", .decimals = 2 },
  { .id = "damping", .title = N_("Damping at the wheel"), .unit = "N.s/m", .decimals = 1 },
  { .id = "other-ratio", .title = N_("Damping ratio of the other side"), .unit = "1", .decimals = 3 },
  { .id = "pair", .title = N_("The pair is alike"), .kind = PIN_OUTPUT_GATE },
  { 0 },
};

static const char *const formulas[] = {
  N_("decrement = slope of the logarithm of the heights; counted: −ln (smallest seen) ÷ (count + ½)"),
  N_("damping ratio = decrement ÷ √(4π² + decrement²)"),
  N_("natural frequency = 1 ÷ (time of one bounce × √(1 − ratio²))"),
  N_("damping = 4π × ratio × natural frequency × mass"),
  NULL,
};

static void
draw (PinReckoning *self, double decrement)
{
  const GArray *heights = pin_list (self, "heights");
  double first = heights->len > 0 ? g_array_index (heights, double, 0) * 1e3 : 100;
  PinChart *chart = pin_chart_new (_("How the bounce dies"), _("bounces"),
                                   heights->len > 0 ? _("height, mm") : _("height, % of the push"));
  PinSeries *line = pin_chart_add_series (chart, _("worked out"), PIN_SERIES_LINE, FALSE);
  PinSeries *points = pin_chart_add_series (chart, _("tops"), PIN_SERIES_POINTS, TRUE);

  for (double bounce = 0; bounce <= MAX (heights->len, 4); bounce += 0.05)
    pin_series_add (line, bounce, first * exp (-decrement * bounce) * cos (2 * G_PI * bounce));
  for (guint i = 0; i < heights->len; i++)
    pin_series_add (points, i, g_array_index (heights, double, i) * 1e3);
  pin_result_chart (self, chart);
}

static void
work_pair (PinReckoning *self, double decrement, double uncertainty)
{
  const GArray *others = pin_list (self, "other-heights");
  double other, other_uncertainty, ratio, gap, noise;

  if (!pin_given (self, "other-heights"))
    return;
  if (!pin_ok (self, pin_rebound_decrement ((const double *) others->data, others->len, &other, &other_uncertainty),
               _("the other side")) || !pin_ok (self, pin_rebound_ratio (other, &ratio), _("the other side")))
    return;
  pin_result_value (self, "other-ratio", ratio);
  gap = fabs (exp (-decrement) - exp (-other));
  noise = 2 * hypot (uncertainty, other_uncertainty);
  pin_result_gate (self, "pair", gap <= 0.1 ? PIN_GATE_MET : PIN_GATE_NOT_MET,
                   _("a push leaves %s here and %s there, up to 10 %% apart is a pair"),
                   pin_say (self, exp (-decrement), "%", 0), pin_say (self, exp (-other), "%", 0));
  if (!isnan (noise) && fabs (decrement - other) <= noise)
    pin_warn (self, _("The difference between the sides is within what these heights can tell."));
}

static void
work_time (PinReckoning *self, double ratio)
{
  double frequency;

  if (!pin_given (self, "period"))
    return;
  frequency = 1 / (pin_value (self, "period") * sqrt (1 - ratio * ratio));
  pin_result_value (self, "frequency", frequency);
  pin_figures (self, 2, "1 ÷ (%s × √(1 − %.3f²)) = %s", pin_say (self, pin_value (self, "period"), "s", 3), ratio,
               pin_say (self, frequency, "Hz", 2));
  if (pin_given (self, "mass"))
    {
      double damping = 4 * G_PI * ratio * frequency * pin_value (self, "mass");

      pin_result_value (self, "damping", damping);
      pin_figures (self, 3, "4π × %.3f × %s × %s = %s", ratio, pin_say (self, frequency, "Hz", 2),
                   pin_say (self, pin_value (self, "mass"), "g", 0), pin_say (self, damping, "N.s/m", 1));
    }
}

static gboolean
read_decrement (PinReckoning *self, double *decrement, double *uncertainty)
{
  const GArray *heights = pin_list (self, "heights");

  *uncertainty = NAN;
  if (pin_given (self, "heights"))
    return pin_ok (self, pin_rebound_decrement ((const double *) heights->data, heights->len, decrement,
                                                uncertainty), _("the decrement"));
  if (pin_given (self, "count"))
    return pin_ok (self, pin_rebound_counted (pin_value (self, "count"), pin_value (self, "seen"), decrement),
                   _("the decrement"));
  pin_refuse (self, _("give the heights of the tops, or count the rebounds"));
  return FALSE;
}

static void
work (PinReckoning *self)
{
  double decrement, uncertainty, ratio, slope;

  if (!read_decrement (self, &decrement, &uncertainty)
      || !pin_ok (self, pin_rebound_ratio (decrement, &ratio), _("the damping ratio")))
    return;
  slope = 4 * G_PI * G_PI / pow (4 * G_PI * G_PI + decrement * decrement, 1.5);
  pin_result_estimate (self, "decrement", decrement, uncertainty);
  pin_result_estimate (self, "damping-ratio", ratio, uncertainty * slope);
  pin_result_value (self, "left-over", exp (-decrement));
  pin_figures (self, 0, "%.3f", decrement);
  pin_figures (self, 1, "%.3f ÷ √(4π² + %.3f²) = %.3f", decrement, decrement, ratio);
  work_time (self, ratio);
  work_pair (self, decrement, uncertainty);
  draw (self, decrement);
  if (!pin_given (self, "heights"))
    pin_warn (self, _("A count tells it to the nearest rebound only; a film against a ruler tells more."));
  pin_answer (self, _("The damping ratio is %.2f: of each push %s is left at the next top."), ratio,
              pin_say (self, exp (-decrement), "%", 0));
}

const PinSum pin_sum_rebound = {
  .id = "rebound",
  .title = N_("Rebound"),
  .group = N_("Fluids and shocks"),
  .about = N_("Damping from how a pushed corner comes to rest, and whether left and right are a pair."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Logarithmic decrement of a damped vibration, any text on vibration. A pair within 10 % is from "
               "memory."),
  .validity = N_("Damping in proportion to speed. A well-set shock comes back once and stays: then there is nothing "
                 "to count, and the drop test says more. Friction in the joints ends a bounce early."),
  .work = work,
};
