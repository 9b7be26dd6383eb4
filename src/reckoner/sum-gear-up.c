#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/heat.h"
#include "reckoner/work.h"

#define FREE_ROLL 0.75        /* of the baseline, from which it is good */
#define RUNS 3                /* that count for the hottest */

static const char *const meshes[] = { "right", "tight", "loose", NULL };

static const PinInput inputs[] = {
  { .id = "rollout", .title = N_("Rollout now"), .unit = "mm", .least = 1, .most = 500 },
  { .id = "rollout-then", .title = N_("Rollout then"), .unit = "mm", .least = 1, .most = 500 },
  { .id = "motor", .title = N_("Hottest motor, last outings"), .kind = PIN_INPUT_LIST, .unit = "degC", .least = -40,
    .most = 200, .at_most = 20, .hint = N_("One for each, the newest last; the last three count") },
  { .id = "air", .title = N_("Air at those"), .unit = "degC", .least = -40, .most = 60,
    .hint = N_("At the hottest of them") },
  { .id = "air-then", .title = N_("Air then"), .unit = "degC", .least = -40, .most = 60, .preset = "",
    .hint = N_("As forecast") },
  { .id = "speed-control", .title = N_("Hottest speed control, last outings"), .kind = PIN_INPUT_LIST, .unit = "degC",
    .least = -40, .most = 200, .preset = "", .at_most = 20 },
  { .id = "own-runs", .title = N_("Own runs"), .kind = PIN_INPUT_PAIRS, .unit = "mm", .least = 1, .most = 500,
    .second = "difC", .second_least = 0.1, .second_most = 300, .preset = "", .fewest = 2, .at_most = 60,
    .hint = N_("Rollout and rise over the air, same track: 26 mm:40 C, 27.5 mm:45 C") },
  { .id = "free-roll", .title = N_("Free roll"), .unit = "%", .least = 0, .most = 300, .preset = "",
    .hint = N_("Coasting time against its baseline") },
  { .id = "mesh", .title = N_("Mesh"), .kind = PIN_INPUT_CHOICE, .preset = "", .choices = meshes },
  { .id = "pinion-then", .title = N_("Pinion then"), .unit = "teeth", .least = 6, .most = 80, .preset = "",
    .whole = TRUE },
  { .id = "pinion-most", .title = N_("Largest pinion, by the maker"), .unit = "teeth", .least = 6, .most = 80,
    .preset = "", .whole = TRUE },
  { .id = "motor-before", .title = N_("Motor before, at most"), .unit = "degC", .least = 30, .most = 120,
    .preset = "60 C" },
  { .id = "speed-control-before", .title = N_("Speed control before, at most"), .unit = "degC", .least = 30,
    .most = 120, .preset = "55 C" },
  { .id = "motor-limit", .title = N_("Motor forecast, at most"), .unit = "degC", .least = 30, .most = 150,
    .preset = "70 C" },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "change", .title = N_("Change of gearing"), .unit = "%", .decimals = 1 },
  { .id = "floor", .title = N_("Motor then, at least"), .unit = "degC", .decimals = 0 },
  { .id = "exponent", .title = N_("Power of the rollout, own runs"), .unit = "1", .decimals = 1 },
  { .id = "fitted", .title = N_("Motor then, by own runs"), .unit = "degC", .decimals = 0 },
  { .id = "rollout-limit", .title = N_("Rollout at the motor's limit"), .unit = "mm", .decimals = 1 },
  { .id = "free-roll-good", .title = N_("Free roll passes"), .kind = PIN_OUTPUT_GATE },
  { .id = "mesh-right", .title = N_("Mesh is right"), .kind = PIN_OUTPUT_GATE },
  { .id = "motor-cool", .title = N_("Motor cool enough, last three outings"), .kind = PIN_OUTPUT_GATE },
  { .id = "speed-control-cool", .title = N_("Speed control cool enough, last three outings"),
    .kind = PIN_OUTPUT_GATE },
  { .id = "forecast-cool", .title = N_("Motor forecast below its limit"), .kind = PIN_OUTPUT_GATE },
  { .id = "pinion-allowed", .title = N_("Pinion within the maker's largest"), .kind = PIN_OUTPUT_GATE },
  { .id = "air-no-hotter", .title = N_("Air not forecast hotter"), .kind = PIN_OUTPUT_GATE },
  { 0 },
};

static const char *const formulas[] = {
  N_("change of gearing = rollout then ÷ rollout now − 1"),
  N_("motor then, at least = air then + rise now × (rollout then ÷ rollout now)²"),
  N_("by own runs = air then + rise now × (rollout then ÷ rollout now)^power"),
  NULL,
};

/* ---- gates -------------------------------------------------------------------------------------- */

static double
hottest (const GArray *list)
{
  double most = -INFINITY;

  for (guint i = list->len > RUNS ? list->len - RUNS : 0; i < list->len; i++)
    most = fmax (most, g_array_index (list, double, i));
  return most;
}

static void
gate_runs (PinReckoning *self, const char *gate, const char *list_id, const char *limit_id)
{
  const GArray *list = pin_list (self, list_id);
  double most = hottest (list), limit = pin_value (self, limit_id);
  g_autoptr (GString) told = g_string_new (NULL);

  if (list->len == 0)
    {
      pin_result_gate (self, gate, PIN_GATE_UNKNOWN, _("no readings"));
      return;
    }
  for (guint i = list->len > RUNS ? list->len - RUNS : 0; i < list->len; i++)
    g_string_append_printf (told, "%s%s", told->len ? ", " : "",
                            pin_say (self, g_array_index (list, double, i), "degC", 0));
  if (most <= limit && list->len < RUNS)
    pin_result_gate (self, gate, PIN_GATE_UNKNOWN, _("%s, and three outings are wanted"), told->str);
  else
    pin_result_gate (self, gate, most <= limit ? PIN_GATE_MET : PIN_GATE_NOT_MET, _("%s, at most %s"), told->str,
                     pin_say (self, limit, "degC", 0));
}

static void
gate_train (PinReckoning *self)
{
  const char *mesh = pin_choice (self, "mesh");

  if (!pin_given (self, "free-roll"))
    pin_result_gate (self, "free-roll-good", PIN_GATE_UNKNOWN, _("not checked"));
  else
    pin_result_gate (self, "free-roll-good",
                     pin_value (self, "free-roll") >= FREE_ROLL - 1e-12 ? PIN_GATE_MET : PIN_GATE_NOT_MET,
                     _("%s of baseline, at least 75 %%"), pin_say (self, pin_value (self, "free-roll"), "%", 0));
  if (mesh == NULL)
    pin_result_gate (self, "mesh-right", PIN_GATE_UNKNOWN, _("not checked"));
  else
    pin_result_gate (self, "mesh-right", g_str_equal (mesh, "right") ? PIN_GATE_MET : PIN_GATE_NOT_MET, "%s", mesh);
}

static void
gate_pinion (PinReckoning *self)
{
  double pinion = pin_value (self, "pinion-then"), most = pin_value (self, "pinion-most");

  if (!pin_given (self, "pinion-then") || !pin_given (self, "pinion-most"))
    pin_result_gate (self, "pinion-allowed", PIN_GATE_UNKNOWN, _("the pinion or the maker's largest is not given"));
  else
    pin_result_gate (self, "pinion-allowed", pinion <= most ? PIN_GATE_MET : PIN_GATE_NOT_MET, _("%g of %s"), pinion,
                     pin_say (self, most, "teeth", 0));
}

static void
gate_air (PinReckoning *self)
{
  double now = pin_value (self, "air"), then = pin_value (self, "air-then");

  if (!pin_given (self, "air-then"))
    pin_result_gate (self, "air-no-hotter", PIN_GATE_UNKNOWN, _("no forecast is given"));
  else
    pin_result_gate (self, "air-no-hotter", then <= now ? PIN_GATE_MET : PIN_GATE_NOT_MET, _("%s, was %s"),
                     pin_say (self, then, "degC", 0), pin_say (self, now, "degC", 0));
}

/* ---- the forecast ------------------------------------------------------------------------------ */

static double
air_then (PinReckoning *self)
{
  return pin_given (self, "air-then") ? pin_value (self, "air-then") : pin_value (self, "air");
}

/* By the keeper's own runs: °C, or NAN. */
static double
work_fitted (PinReckoning *self, double rise, double ratio)
{
  const GArray *rollouts = pin_list (self, "own-runs"), *rises = pin_list_second (self, "own-runs");
  PinHeatPower power;
  double geared = NAN;
  PinMathsStatus status;

  if (rollouts->len == 0)
    return NAN;
  status = pin_heat_power ((const double *) rollouts->data, (const double *) rises->data, rollouts->len, &power);
  if (status == PIN_MATHS_OK)
    status = pin_heat_geared (rise, ratio, power.exponent, &geared);
  if (status != PIN_MATHS_OK || !isfinite (geared) || geared > 1000)
    {
      pin_warn (self, _("The own runs tell no trend that could be used: more of them are needed, further apart."));
      return NAN;
    }
  pin_result_estimate (self, "exponent", power.exponent, power.error);
  pin_result_estimate (self, "fitted", air_then (self) + geared, geared * fabs (log (ratio)) * power.error);
  pin_figures (self, 2, "%s + %s × %s^%s = %s", pin_say (self, air_then (self), "degC", 0),
               pin_say (self, rise, "difC", 0), pin_say (self, ratio, "1", 3), pin_say (self, power.exponent, "1", 1),
               pin_say (self, air_then (self) + geared, "degC", 0));
  return air_then (self) + geared;
}

/* The hotter of both forecasts counts. */
static void
gate_forecast (PinReckoning *self, double floor, double fitted)
{
  double limit = pin_value (self, "motor-limit"), forecast = fmax (floor, fitted);

  pin_result_gate (self, "forecast-cool", forecast <= limit ? PIN_GATE_MET : PIN_GATE_NOT_MET,
                   _("%s at %s air, an estimate, at most %s"), pin_say (self, forecast, "degC", 0),
                   pin_say (self, air_then (self), "degC", 0), pin_say (self, limit, "degC", 0));
}

/* ---- the answer ----------------------------------------------------------------------------------- */

static int
count_gates (PinReckoning *self, PinGate gate)
{
  int count = 0;

  for (guint i = 0; i < self->results->len; i++)
    {
      const PinResult *result = g_ptr_array_index (self->results, i);

      count += result->set && result->output->kind == PIN_OUTPUT_GATE && result->gate == gate;
    }
  return count;
}

static void
answer (PinReckoning *self, double change, double forecast)
{
  int bad = count_gates (self, PIN_GATE_NOT_MET), unknown = count_gates (self, PIN_GATE_UNKNOWN);
  const char *motor = pin_say (self, forecast, "degC", 0);

  if (change <= 0)
    pin_answer (self, _("This does not gear up; the motor is estimated at %s."), motor);
  else if (bad > 0)
    pin_answer (self, ngettext ("Not yet: %d gate is not met. The motor is estimated at %s or more.",
                                "Not yet: %d gates are not met. The motor is estimated at %s or more.", bad),
                bad, motor);
  else if (unknown > 0)
    pin_answer (self, ngettext ("Not yet: %d gate is not known. The motor is estimated at %s or more.",
                                "Not yet: %d gates are not known. The motor is estimated at %s or more.", unknown),
                unknown, motor);
  else
    pin_answer (self, _("All gates are met: gear up and measure. The motor is estimated at %s or more."), motor);
  if (change > 0.08)
    pin_warn (self, _("Geared up by more than 8 %% in one step: go there in smaller ones."));
}

static void
draw (PinReckoning *self, double rise)
{
  double now = pin_value (self, "rollout"), then = pin_value (self, "rollout-then");
  double low = MIN (now, then) * 0.95, high = MAX (now, then) * 1.05, geared;
  PinChart *chart = pin_chart_new (_("Motor against rollout"), _("rollout, mm"), _("motor, °C"));
  PinSeries *series = pin_chart_add_series (chart, _("at least"), PIN_SERIES_LINE, TRUE);

  for (int i = 0; i <= 30; i++)
    {
      double rollout = low + (high - low) * i / 30;

      if (pin_heat_geared (rise, rollout / now, 2, &geared) == PIN_MATHS_OK)
        pin_series_add (series, 1000 * rollout, air_then (self) + geared);
    }
  pin_chart_add_limit (chart, pin_say (self, pin_value (self, "motor-limit"), "degC", 0),
                       pin_value (self, "motor-limit"), 1);
  pin_chart_add_mark (chart, _("now"), 1000 * now, air_then (self) + rise, FALSE);
  pin_result_chart (self, chart);
}

static void
work_gates (PinReckoning *self)
{
  gate_train (self);
  gate_runs (self, "motor-cool", "motor", "motor-before");
  gate_runs (self, "speed-control-cool", "speed-control", "speed-control-before");
  gate_pinion (self);
  gate_air (self);
}

static void
work (PinReckoning *self)
{
  double now = pin_value (self, "rollout"), then = pin_value (self, "rollout-then"), ratio = then / now;
  double rise = hottest (pin_list (self, "motor")) - pin_value (self, "air"), geared, fitted, limit;

  if (rise <= 0)
    {
      pin_refuse (self, _("the motor is no hotter than the air, so nothing tells what gearing does to it"));
      return;
    }
  if (!pin_ok (self, pin_heat_geared (rise, ratio, 2, &geared), _("the forecast")))
    return;
  pin_result_value (self, "change", ratio - 1);
  pin_result_value (self, "floor", air_then (self) + geared);
  pin_figures (self, 0, "%s ÷ %s − 1 = %s", pin_say (self, then, "mm", 1), pin_say (self, now, "mm", 1),
               pin_say (self, ratio - 1, "%", 1));
  pin_figures (self, 1, "%s + %s × %s² = %s", pin_say (self, air_then (self), "degC", 0),
               pin_say (self, rise, "difC", 0), pin_say (self, ratio, "1", 3),
               pin_say (self, air_then (self) + geared, "degC", 0));
  if (pin_heat_rollout (rise, now, pin_value (self, "motor-limit") - air_then (self), &limit) == PIN_MATHS_OK)
    pin_result_value (self, "rollout-limit", limit);
  fitted = work_fitted (self, rise, ratio);
  work_gates (self);
  gate_forecast (self, air_then (self) + geared, fitted);
  answer (self, ratio - 1, fmax (air_then (self) + geared, fitted));
  draw (self, rise);
}

const PinSum pin_sum_gear_up = {
  .id = "gear-up",
  .title = N_("Gear up"),
  .group = N_("Heat"),
  .about = N_("Is it safe to gear up: a forecast of the motor's temperature, and the gates before it."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Joule's law: the loss in the copper goes with the square of the load, and that with the rollout. A "
               "power of the keeper's own runs is fitted by least squares. The gates are common practice."),
  .validity = N_("An estimate, and the first figure a floor: iron, friction and slip come on top. Same motor, timing, "
                 "pack and track. Measure after two minutes and after five."),
  .hazard = N_("Warning: burns. A motor at 68 °C burns in about a second, and a hot pack can catch fire. Read with a "
               "probe or an infrared thermometer, never by touch; stop when a limit is passed."),
  .work = work,
};
