#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/drag.h"
#include "maths/pairs.h"
#include "maths/repeats.h"
#include "reckoner/work.h"

static const PinInput inputs[] = {
  { .id = "height", .title = N_("Height of the ramp"), .unit = "mm", .least = 2, .most = 2000,
    .hint = N_("By which the car comes down on it, axle to axle") },
  { .id = "run", .title = N_("Level length of the ramp"), .unit = "mm", .least = 10, .most = 10000,
    .hint = N_("From where the car stood to the foot, along the floor") },
  { .id = "flat", .title = N_("Ways on the flat"), .kind = PIN_INPUT_LIST, .unit = "m", .least = 0.05, .most = 100,
    .at_most = 60, .hint = N_("From the ramp's foot to where it stood, each repeat") },
  { .id = "before", .title = N_("Ways of the time before"), .kind = PIN_INPUT_LIST, .unit = "m", .least = 0.05,
    .most = 100, .at_most = 60, .preset = "", .hint = N_("From the same ramp on the same floor") },
  { .id = "height-error", .title = N_("Height is known to"), .unit = "mm", .least = 0, .most = 20, .preset = "0.5 mm" },
  { .id = "rotating", .title = N_("Rotating share of the mass"), .unit = "%", .least = 0, .most = 50,
    .preset = "4 %" },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "rolling", .title = N_("Rolling resistance coefficient"), .unit = "1", .decimals = 4 },
  { .id = "median", .title = N_("Middle way on the flat"), .unit = "m", .decimals = 2 },
  { .id = "spread", .title = N_("Spread of the ways"), .unit = "m", .decimals = 2 },
  { .id = "foot-speed", .title = N_("Speed at the foot"), .unit = "m/s", .decimals = 2 },
  { .id = "short-form", .title = N_("Height by way alone, for comparison"), .unit = "1", .decimals = 4 },
  { .id = "change", .title = N_("Way against before"), .unit = "m", .decimals = 2 },
  { .id = "steady", .title = N_("No different from before"), .kind = PIN_OUTPUT_GATE },
  { 0 },
};

static const char *const formulas[] = {
  N_("coefficient = height ÷ (level length of the ramp + mean way on the flat)"),
  N_("speed at the foot = √(2 × g × (height − coefficient × level length) ÷ (1 + rotating share))"),
  N_("t = (mean − mean before) ÷ standard error, both scattering alike"),
  NULL,
};

static void
compare (PinReckoning *self, const GArray *flat)
{
  const GArray *before = pin_list (self, "before");
  PinContrast contrast;

  if (!pin_given (self, "before"))
    return;
  if (pin_pairs_pooled ((double *) flat->data, flat->len, (double *) before->data, before->len, &contrast)
      != PIN_MATHS_OK)
    {
      pin_result_gate (self, "steady", PIN_GATE_UNKNOWN, _("more repeats that are not all alike are needed to tell"));
      return;
    }
  pin_result_estimate (self, "change", contrast.difference, contrast.error);
  pin_figures (self, 2, "%s ÷ %s = %.2f, p = %.3f", pin_say (self, contrast.difference, "m", 2),
               pin_say (self, contrast.error, "m", 3), contrast.t, contrast.p);
  pin_result_gate (self, "steady", contrast.p < 0.05 ? PIN_GATE_NOT_MET : PIN_GATE_MET,
                   contrast.p < 0.05 ? _("the change is more than the repeats scatter (p = %.3f)")
                                     : _("the change is within the scatter (p = %.3f)"), contrast.p);
}

static double
error_of (const PinReckoning *self, const GArray *flat, double whole, double rolling)
{
  const double *ways = (const double *) flat->data;
  double middle = pin_repeats_mean (ways, flat->len), squares = 0;
  double of_height = pin_value (self, "height-error") / whole;

  if (flat->len < 2)
    return NAN;
  for (guint i = 0; i < flat->len; i++)
    squares += (ways[i] - middle) * (ways[i] - middle);
  return hypot (of_height, rolling * sqrt (squares / (flat->len - 1) / flat->len) / whole);
}

static void
work (PinReckoning *self)
{
  const GArray *flat = pin_list (self, "flat");
  const double *ways = (const double *) flat->data;
  double height = pin_value (self, "height"), run = pin_value (self, "run");
  double mean = pin_repeats_mean (ways, flat->len), rolling = 0, speed = 0;

  if (!pin_ok (self, pin_drag_ramp (height, run, mean, &rolling), _("the coefficient"))
      || !pin_ok (self, pin_drag_foot_speed (height, run, rolling, pin_value (self, "rotating"), &speed),
                  _("the speed at the foot")))
    return;
  pin_result_estimate (self, "rolling", rolling, error_of (self, flat, run + mean, rolling));
  pin_result_value (self, "median", pin_repeats_median (ways, flat->len));
  pin_result_value (self, "spread", pin_repeats_spread (ways, flat->len));
  pin_result_value (self, "foot-speed", speed);
  pin_result_value (self, "short-form", height / mean);
  pin_figures (self, 0, "%s ÷ (%s + %s) = %s", pin_say (self, height, "mm", 0), pin_say (self, run, "mm", 0),
               pin_say (self, mean, "m", 2), pin_say (self, rolling, "1", 4));
  pin_figures (self, 1, "√(2 × 9.807 × (%s − %s × %s) ÷ (1 + %s)) = %s", pin_say (self, height, "mm", 0),
               pin_say (self, rolling, "1", 4), pin_say (self, run, "mm", 0),
               pin_say (self, pin_value (self, "rotating"), "%", 0), pin_say (self, speed, "m/s", 2));
  pin_answer (self, _("Rolling takes %s of the car's weight."), pin_say (self, rolling, "%", 2));
  if (flat->len < 3)
    pin_warn (self, _("Three repeats or more show how far one can be trusted."));
  if (rolling >= height / run * 0.5)
    pin_warn (self, _("The ramp takes much of the height itself: a steeper one measures better."));
  if (speed > 3)
    pin_warn (self, _("Above 3 m/s the air takes its part: use a lower ramp or a coast-down."));
  compare (self, flat);
}

const PinSum pin_sum_ramp = {
  .id = "ramp",
  .title = N_("Ramp"),
  .group = N_("Drag"),
  .about = N_("Rolling resistance from how far the car rolls off a ramp, and whether it has changed."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Balance of energy; Student's t with a common scatter. The distance is the one on the flat, from the "
               "ramp's foot; the car's way on the ramp is reckoned in. Three repeats, and 3 m/s as the speed up to "
               "which air does not count, are common practice."),
  .validity = N_("A level, even floor, no bump at the foot, electric car with its motor out or always in. "
                 "Compare only runs on the same floor."),
  .work = work,
};
