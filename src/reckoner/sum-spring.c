#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/springs.h"
#include "reckoner/work.h"

static const char *const materials[] = { "steel", "stainless", NULL };

static const PinInput inputs[] = {
  { .id = "wire", .title = N_("Wire"), .unit = "mm", .least = 0.2, .most = 8, .preset = "" },
  { .id = "outside", .title = N_("Outside of the coil"), .unit = "mm", .least = 2, .most = 80, .preset = "" },
  { .id = "coils", .title = N_("Active coils"), .unit = "1", .least = 1, .most = 60, .preset = "",
    .hint = N_("All coils less the two flat ones at the ends") },
  { .id = "material", .title = N_("Material"), .kind = PIN_INPUT_CHOICE, .choices = materials, .preset = "steel" },
  { .id = "modulus", .title = N_("Modulus of shear"), .unit = "GPa", .least = 5, .most = 120, .preset = "",
    .hint = N_("If it is known; else 81.5 GPa for steel, 70 GPa for stainless") },
  { .id = "rate", .title = N_("Rate"), .unit = "N/mm", .least = 0.005, .most = 100, .preset = "",
    .hint = N_("If it is known: then wire, coil and count are not needed") },
  { .id = "mass", .title = N_("Mass on this wheel"), .unit = "g", .least = 10, .most = 20000, .preset = "",
    .hint = N_("From a scale under the wheel, less wheel and hub") },
  { .id = "motion", .title = N_("Motion ratio"), .unit = "1", .least = 0.2, .most = 2, .preset = "1",
    .hint = N_("Way of the shock for one of the wheel") },
  { .id = "preload", .title = N_("Preload"), .unit = "mm", .least = 0, .most = 50, .preset = "0 mm",
    .hint = N_("How far the collar presses the spring at full droop") },
  { .id = "rate-before", .title = N_("Rate before"), .unit = "N/mm", .least = 0.005, .most = 100, .preset = "" },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "spring-rate", .title = N_("Rate"), .unit = "N/mm", .decimals = 3 },
  { .id = "wheel-rate", .title = N_("Rate at the wheel"), .unit = "N/mm", .decimals = 3 },
  { .id = "sag", .title = N_("Sag at the wheel"), .unit = "mm", .decimals = 1 },
  { .id = "frequency", .title = N_("Natural frequency"), .unit = "Hz", .decimals = 2 },
  { .id = "change", .title = N_("Against before"), .unit = "%", .decimals = 1 },
  { 0 },
};

static const char *const formulas[] = {
  N_("rate = modulus × wire⁴ ÷ (8 × mean coil³ × active coils)"),
  N_("rate at the wheel = rate × motion ratio²"),
  N_("sag = (mass × 9.807 m/s² ÷ motion ratio ÷ rate − preload) ÷ motion ratio"),
  N_("natural frequency = √(rate at the wheel ÷ mass) ÷ 2π"),
  NULL,
};

static gboolean
rate_of_coil (PinReckoning *self, double *rate)
{
  double wire = pin_value (self, "wire"), mean = pin_value (self, "outside") - wire;
  double modulus = g_str_equal (pin_choice (self, "material"), "steel") ? 81.5e9 : 70e9;

  if (!pin_given (self, "wire") || !pin_given (self, "outside") || !pin_given (self, "coils"))
    {
      pin_refuse (self, _("give the rate, or wire, outside and active coils"));
      return FALSE;
    }
  if (pin_given (self, "modulus"))
    modulus = pin_value (self, "modulus");
  if (!pin_ok (self, pin_spring_rate (wire, mean, pin_value (self, "coils"), modulus, rate), _("the rate")))
    return FALSE;
  pin_figures (self, 0, "%s × %s⁴ ÷ (8 × %s³ × %g) = %s", pin_say (self, modulus, "GPa", 1),
               pin_say (self, wire, "mm", 2), pin_say (self, mean, "mm", 2), pin_value (self, "coils"),
               pin_say (self, *rate, "N/mm", 3));
  if (mean / wire < 4 || mean / wire > 20)
    pin_warn (self, _("A coil this tight or this wide for its wire is outside the formula's usual range of 4 to 20."));
  pin_warn (self, _("A hundredth of a millimetre on the wire is %s of the rate: measure it where there is no paint."),
            pin_say (self, 4 * 1e-5 / wire, "%", 1));
  return TRUE;
}

static void
draw (PinReckoning *self, double rate, double motion, double preload, double sag, double load)
{
  PinChart *chart = pin_chart_new (_("Load over wheel travel"), _("up from full droop, mm"), _("load, N"));
  PinSeries *line = pin_chart_add_series (chart, "", PIN_SERIES_LINE, TRUE);
  double most = MAX (2 * sag, 0.01);

  pin_series_add (line, 0, 0);
  pin_series_add (line, 0, preload * rate * motion);
  pin_series_add (line, most * 1e3, (preload + most * motion) * rate * motion);
  pin_chart_add_mark (chart, _("at rest"), sag * 1e3, load, TRUE);
  pin_result_chart (self, chart);
}

static void
work_mass (PinReckoning *self, double rate, double wheel_rate)
{
  double mass = pin_value (self, "mass"), motion = pin_value (self, "motion"), sag, frequency;
  double preload = pin_value (self, "preload");

  if (!pin_given (self, "mass"))
    return;
  if (!pin_ok (self, pin_spring_sag (rate, motion, mass, preload, &sag), _("the sag"))
      || !pin_ok (self, pin_spring_frequency (wheel_rate, mass, &frequency), _("the frequency")))
    return;
  pin_result_value (self, "sag", sag);
  pin_result_value (self, "frequency", frequency);
  pin_figures (self, 2, "(%s × 9.807 ÷ %g ÷ %s − %s) ÷ %g = %s", pin_say (self, mass, "g", 0), motion,
               pin_say (self, rate, "N/mm", 3), pin_say (self, preload, "mm", 1), motion, pin_say (self, sag, "mm", 1));
  pin_figures (self, 3, "√(%s ÷ %s) ÷ 2π = %s", pin_say (self, wheel_rate, "N/mm", 3), pin_say (self, mass, "g", 0),
               pin_say (self, frequency, "Hz", 2));
  if (sag == 0)
    pin_warn (self, _("The preload carries the car: the wheel hangs at full droop and has no sag."));
  draw (self, rate, motion, preload, sag, mass * 9.80665);
}

static void
work (PinReckoning *self)
{
  double rate = pin_value (self, "rate"), motion = pin_value (self, "motion"), wheel_rate;

  if (!pin_given (self, "rate") && !rate_of_coil (self, &rate))
    return;
  if (!pin_ok (self, pin_spring_wheel_rate (rate, motion, &wheel_rate), _("the rate at the wheel")))
    return;
  pin_result_value (self, "spring-rate", rate);
  pin_result_value (self, "wheel-rate", wheel_rate);
  pin_figures (self, 1, "%s × %g² = %s", pin_say (self, rate, "N/mm", 3), motion,
               pin_say (self, wheel_rate, "N/mm", 3));
  if (pin_given (self, "rate-before"))
    pin_result_value (self, "change", rate / pin_value (self, "rate-before") - 1);
  pin_answer (self, _("The spring has %s, %s at the wheel."), pin_say (self, rate, "N/mm", 3),
              pin_say (self, wheel_rate, "N/mm", 3));
  work_mass (self, rate, wheel_rate);
}

const PinSum pin_sum_spring = {
  .id = "spring",
  .title = N_("Spring"),
  .group = N_("Fluids and shocks"),
  .about = N_("Rate of a coil spring from wire, coil and count; sag and natural frequency on the car."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("EN 13906-1 and any handbook of machine elements; the moduli, 81.5 GPa for spring steel and 70 GPa "
               "for stainless, are handbook figures from memory."),
  .validity = N_("Round wire, even coils. Wire and coil measured with callipers give the rate to about 10 %; friction "
                 "and the air in the shock are left out."),
  .hazard = N_("Caution: A pressed spring jumps out: wear goggles, and hold it down while the cup comes off."),
  .work = work,
};
