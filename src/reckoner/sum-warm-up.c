#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/warming.h"
#include "reckoner/work.h"

static const PinInput inputs[] = {
  { .id = "readings", .title = N_("Readings"), .kind = PIN_INPUT_PAIRS, .unit = "s", .least = 0, .most = 36000,
    .second = "degC", .second_least = -40, .second_most = 400, .fewest = 2, .at_most = 100,
    .hint = N_("Time and temperature: 0 s:78 C, 60 s:70.5 C") },
  { .id = "final", .title = N_("Final temperature, if known"), .unit = "degC", .least = -40, .most = 400, .preset = "",
    .hint = N_("Of something that only cools: the air's") },
  { .id = "limit", .title = N_("Temperature waited for"), .unit = "degC", .least = -40, .most = 400, .preset = "",
    .hint = N_("Too hot above it, or cool enough below") },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "final", .title = N_("Final temperature"), .unit = "degC", .decimals = 1 },
  { .id = "constant", .title = N_("Time constant"), .unit = "s", .decimals = 0 },
  { .id = "first", .title = N_("At 0 s"), .unit = "degC", .decimals = 1 },
  { .id = "nearly", .title = N_("95 % of the way after"), .unit = "s", .decimals = 0 },
  { .id = "scatter", .title = N_("Scatter of the readings"), .unit = "difC", .decimals = 2 },
  { .id = "when", .title = N_("Comes to it after"), .unit = "s", .decimals = 0 },
  { 0 },
};

static const char *const formulas[] = {
  N_("temperature = final + (at 0 s − final) × e^(−time ÷ constant)"),
  N_("comes to it after = constant × ln ((at 0 s − final) ÷ (waited for − final))"),
  NULL,
};

static void
work_when (PinReckoning *self, const PinWarming *curve)
{
  double limit = pin_value (self, "limit"), when;

  if (!pin_given (self, "limit"))
    return;
  if (pin_warming_when (curve, limit, &when) != PIN_MATHS_OK)
    {
      pin_warn (self, _("It never comes to %s: it ends at %s."), pin_say (self, limit, "degC", 0),
                pin_say (self, curve->last, "degC", 1));
      return;
    }
  pin_result_value (self, "when", when);
  pin_figures (self, 1, "%s × ln ((%s − %s) ÷ (%s − %s)) = %s", pin_say (self, curve->constant, "s", 0),
               pin_say (self, curve->first, "degC", 1), pin_say (self, curve->last, "degC", 1),
               pin_say (self, limit, "degC", 1), pin_say (self, curve->last, "degC", 1), pin_say (self, when, "s", 0));
}

static void
draw (PinReckoning *self, const PinWarming *curve)
{
  const GArray *times = pin_list (self, "readings"), *values = pin_list_second (self, "readings");
  PinChart *chart = pin_chart_new (_("Readings and curve"), _("time, s"), _("temperature, °C"));
  PinSeries *read = pin_chart_add_series (chart, _("read"), PIN_SERIES_POINTS, FALSE);
  PinSeries *line = pin_chart_add_series (chart, _("curve"), PIN_SERIES_LINE, TRUE);
  double most = 0;

  for (guint i = 0; i < times->len; i++)
    {
      most = MAX (most, g_array_index (times, double, i));
      pin_series_add (read, g_array_index (times, double, i), g_array_index (values, double, i));
    }
  for (int i = 0; i <= 60; i++)
    pin_series_add (line, 1.5 * most * i / 60, pin_warming_at (curve, 1.5 * most * i / 60));
  pin_chart_add_limit (chart, _("final"), curve->last, 0);
  if (pin_given (self, "limit"))
    pin_chart_add_limit (chart, pin_say (self, pin_value (self, "limit"), "degC", 0), pin_value (self, "limit"), 0);
  pin_result_chart (self, chart);
}

static void
tell (PinReckoning *self, const PinWarming *curve)
{
  pin_result_estimate (self, "final", curve->last, pin_given (self, "final") ? NAN : curve->last_error);
  pin_result_estimate (self, "constant", curve->constant, curve->constant_error);
  pin_result_estimate (self, "first", curve->first, curve->first_error);
  pin_result_value (self, "nearly", curve->constant * log (20));
  if (!isnan (curve->scatter))
    pin_result_value (self, "scatter", curve->scatter);
  pin_figures (self, 0, "%s + (%s − %s) × e^(−t ÷ %s)", pin_say (self, curve->last, "degC", 1),
               pin_say (self, curve->first, "degC", 1), pin_say (self, curve->last, "degC", 1),
               pin_say (self, curve->constant, "s", 0));
  if (isnan (curve->scatter) || pin_given (self, "final"))
    pin_answer (self, _("It goes towards %s with a time constant of %s."), pin_say (self, curve->last, "degC", 1),
                pin_say (self, curve->constant, "s", 0));
  else
    pin_answer (self, _("It goes towards %s, give or take %s, with a time constant of %s."),
                pin_say (self, curve->last, "degC", 1), pin_say (self, curve->last_error, "difC", 1),
                pin_say (self, curve->constant, "s", 0));
}

static void
work (PinReckoning *self)
{
  const GArray *times = pin_list (self, "readings"), *values = pin_list_second (self, "readings");
  PinWarming curve;
  PinMathsStatus status = pin_warming_fit ((const double *) times->data, (const double *) values->data, times->len,
                                           pin_value (self, "final"), &curve);

  if (status == PIN_MATHS_DEGENERATE)
    {
      pin_refuse (self, _("the readings do not bend enough to tell where they end: read for longer, or more closely"));
      return;
    }
  if (!pin_ok (self, status, _("the curve")))
    return;
  tell (self, &curve);
  work_when (self, &curve);
  draw (self, &curve);
  if (isnan (curve.scatter))
    pin_warn (self, _("Just as many readings as unknowns: nothing tells how far they are to be trusted."));
}

const PinSum pin_sum_warm_up = {
  .id = "warm-up",
  .title = N_("Warm-up"),
  .group = N_("Heat"),
  .about = N_("From timed readings while something warms up or cools down: where it ends, and how fast."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Newton's law of cooling; least squares with one standard error (Levenberg–Marquardt)."),
  .validity = N_("One body, steady load and steady air. A motor in its can is more than one body: just after a stop "
                 "the can still warms, so leave out the first minute. The end is a prediction until it is read."),
  .hazard = N_("Caution: burns. Read with a probe or an infrared thermometer, never by touch."),
  .work = work,
};
