#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/heat.h"
#include "reckoner/work.h"

static const PinInput inputs[] = {
  { .id = "reading", .title = N_("Reading"), .unit = "degC", .least = -40, .most = 400 },
  { .id = "emissivity", .title = N_("Emissivity of the surface"), .unit = "1", .least = 0.03, .most = 1,
    .hint = N_("Paint or tape 0.95, oxidised aluminium 0.2 to 0.4, polished 0.04 to 0.1") },
  { .id = "give-or-take", .title = N_("Emissivity give or take"), .unit = "1", .least = 0, .most = 0.5, .preset = "",
    .hint = N_("How far it may be off") },
  { .id = "set", .title = N_("Thermometer's setting"), .unit = "1", .least = 0.1, .most = 1, .preset = "0.95" },
  { .id = "reflected", .title = N_("Reflected temperature"), .unit = "degC", .least = -60, .most = 200,
    .preset = "25 C", .hint = N_("Of what the surface mirrors: the air's indoors, less under an open sky") },
  { .id = "distance", .title = N_("Distance"), .unit = "cm", .least = 0.5, .most = 500, .preset = "" },
  { .id = "spot-ratio", .title = N_("Distance to spot"), .unit = "1", .least = 0.5, .most = 100, .preset = "",
    .hint = N_("12 for a thermometer marked 12:1") },
  { .id = "target", .title = N_("Width of the target"), .unit = "mm", .least = 1, .most = 500, .preset = "" },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "temperature", .title = N_("True temperature"), .unit = "degC", .decimals = 0 },
  { .id = "off", .title = N_("Reads too little by"), .unit = "difC", .decimals = 0 },
  { .id = "per-hundredth", .title = N_("For 0.01 of emissivity"), .unit = "difC", .decimals = 1 },
  { .id = "spot", .title = N_("Spot"), .unit = "mm", .decimals = 0 },
  { .id = "spot-fits", .title = N_("Spot within the target"), .kind = PIN_OUTPUT_GATE },
  { 0 },
};

static const char *const formulas[] = {
  N_("true⁴ = reflected⁴ + setting ÷ emissivity × (reading⁴ − reflected⁴), in kelvin"),
  N_("spot = distance ÷ distance to spot"),
  NULL,
};

static void
work_spot (PinReckoning *self)
{
  double spot = pin_value (self, "distance") / pin_value (self, "spot-ratio");

  if (!pin_given (self, "distance") || !pin_given (self, "spot-ratio"))
    {
      pin_result_gate (self, "spot-fits", PIN_GATE_UNKNOWN, _("distance or spot is not given"));
      return;
    }
  pin_result_value (self, "spot", spot);
  pin_figures (self, 1, "%s ÷ %s = %s", pin_say (self, pin_value (self, "distance"), "mm", 0),
               pin_say (self, pin_value (self, "spot-ratio"), "1", 0), pin_say (self, spot, "mm", 0));
  if (!pin_given (self, "target"))
    pin_result_gate (self, "spot-fits", PIN_GATE_UNKNOWN, _("the width of the target is not given"));
  else
    pin_result_gate (self, "spot-fits", spot <= pin_value (self, "target") ? PIN_GATE_MET : PIN_GATE_NOT_MET,
                     _("spot %s, target %s"), pin_say (self, spot, "mm", 0),
                     pin_say (self, pin_value (self, "target"), "mm", 0));
}

static void
draw (PinReckoning *self, double temperature)
{
  PinChart *chart = pin_chart_new (_("What this reading means"), _("emissivity"), _("true temperature, °C"));
  PinSeries *series = pin_chart_add_series (chart, "", PIN_SERIES_LINE, FALSE);

  for (double emissivity = 0.1; emissivity < 1.005; emissivity += 0.05)
    {
      double at;

      if (pin_heat_true (pin_value (self, "reading"), pin_value (self, "set"), fmin (emissivity, 1),
                         pin_value (self, "reflected"), &at) == PIN_MATHS_OK)
        pin_series_add (series, fmin (emissivity, 1), at);
    }
  pin_chart_add_mark (chart, pin_say (self, temperature, "degC", 0), pin_value (self, "emissivity"), temperature, TRUE);
  pin_result_chart (self, chart);
}

static void
work (PinReckoning *self)
{
  double reading = pin_value (self, "reading"), emissivity = pin_value (self, "emissivity");
  double set = pin_value (self, "set"), reflected = pin_value (self, "reflected"), temperature, slope;

  if (!pin_ok (self, pin_heat_true (reading, set, emissivity, reflected, &temperature), _("the true temperature"))
      || !pin_ok (self, pin_heat_true_slope (reading, set, emissivity, reflected, &slope), _("the true temperature")))
    return;
  pin_result_estimate (self, "temperature", temperature,
                       pin_given (self, "give-or-take") ? fabs (slope) * pin_value (self, "give-or-take") : NAN);
  pin_result_value (self, "off", temperature - reading);
  pin_result_value (self, "per-hundredth", fabs (slope) / 100);
  pin_figures (self, 0, "⁴√(%s⁴ + %s ÷ %s × (%s⁴ − %s⁴)) = %s", pin_say (self, reflected, "kelvin", 1),
               pin_say (self, set, "1", 2), pin_say (self, emissivity, "1", 2), pin_say (self, reading, "kelvin", 1),
               pin_say (self, reflected, "kelvin", 1), pin_say (self, temperature, "kelvin", 1));
  pin_answer (self, _("The surface is at %s where the thermometer shows %s."), pin_say (self, temperature, "degC", 0),
              pin_say (self, reading, "degC", 0));
  if (emissivity < 0.6)
    pin_warn (self, _("Bare metal mirrors more than it sends: a hundredth of emissivity is %s here. Stick on a matt "
                      "black patch and read that."), pin_say (self, fabs (slope) / 100, "difC", 1));
  work_spot (self);
  draw (self, temperature);
}

const PinSum pin_sum_infrared = {
  .id = "infrared",
  .title = N_("Infrared"),
  .group = N_("Heat"),
  .about = N_("The true temperature of a surface behind the reading of an infrared thermometer."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Stefan–Boltzmann law for a grey surface. Emissivities of surfaces are common practice."),
  .validity = N_("Over all wavelengths. A thermometer that sees 8 to 14 µm only differs: hardly on a patch, by some "
                 "degrees on bare metal. The spot has to lie within the target."),
  .hazard = N_("Warning: burns. What looks cool to an infrared thermometer may not be; bare metal at 68 °C burns "
               "within about a second. Touching is no way to measure."),
  .work = work,
};
