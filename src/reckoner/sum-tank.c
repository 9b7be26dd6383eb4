#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>

#include "maths/fuel.h"
#include "reckoner/work.h"

static const PinInput inputs[] = {
  { .id = "tank", .title = N_("Tank"), .unit = "ml", .least = 5, .most = 2000, .preset = "" },
  { .id = "burnt", .title = N_("Fuel burnt"), .unit = "ml", .least = 1, .most = 20000, .preset = "",
    .hint = N_("What it took to fill the tank again") },
  { .id = "time", .title = N_("In a time of"), .unit = "min", .least = 0.2, .most = 600, .preset = "" },
  { .id = "kept", .title = N_("Left in at the stop"), .unit = "%", .least = 0, .most = 90, .preset = "15 %",
    .hint = N_("Before it runs lean: the last of the tank foams") },
  { .id = "can", .title = N_("Fuel at hand"), .unit = "l", .least = 0.05, .most = 100, .preset = "" },
  { .id = "petrol", .title = N_("Petrol to be mixed"), .unit = "l", .least = 0.05, .most = 100, .preset = "" },
  { .id = "oil-ratio", .title = N_("Petrol to one of oil"), .unit = "1", .least = 10, .most = 100, .preset = "25",
    .hint = N_("25 for 25:1") },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "run-time", .title = N_("Run time of a tank"), .unit = "min", .decimals = 1 },
  { .id = "in-a-minute", .title = N_("Burnt in a minute"), .unit = "ml", .decimals = 1 },
  { .id = "can-time", .title = N_("Run time of the fuel at hand"), .unit = "min", .decimals = 0 },
  { .id = "oil", .title = N_("Oil to the petrol"), .unit = "ml", .decimals = 0 },
  { .id = "oil-share", .title = N_("Oil in the mixture"), .unit = "%", .decimals = 2 },
  { 0 },
};

static const char *const formulas[] = {
  N_("run time = tank × (1 − left in) × time ÷ fuel burnt"),
  N_("oil = petrol ÷ ratio"),
  NULL,
};

static void
work_tank (PinReckoning *self)
{
  double tank = pin_value (self, "tank"), kept = pin_value (self, "kept"), burnt = pin_value (self, "burnt");
  double time = pin_value (self, "time"), run, all;

  if (!pin_ok (self, pin_tank_time (tank, kept, burnt, time, &run), _("the run time")))
    return;
  pin_result_value (self, "run-time", run);
  pin_result_value (self, "in-a-minute", burnt / time * 60);
  pin_figures (self, 0, "%s × (1 − %s) × %s ÷ %s = %s", pin_say (self, tank, "ml", 0), pin_say (self, kept, "%", 0),
               pin_say (self, time, "min", 1), pin_say (self, burnt, "ml", 0), pin_say (self, run, "min", 1));
  if (pin_given (self, "can")
      && pin_ok (self, pin_tank_time (pin_value (self, "can"), 0, burnt, time, &all), _("the run time")))
    pin_result_value (self, "can-time", all);
  pin_answer (self, _("A tank lasts %s with %s left in."), pin_say (self, run, "min", 1), pin_say (self, kept, "%", 0));
}

static void
work_oil (PinReckoning *self, gboolean answer)
{
  double petrol = pin_value (self, "petrol"), ratio = pin_value (self, "oil-ratio"), oil;

  if (!pin_ok (self, pin_petrol_oil (petrol, ratio, &oil), _("the oil")))
    return;
  pin_result_value (self, "oil", oil);
  pin_result_value (self, "oil-share", oil / (petrol + oil));
  pin_figures (self, 1, "%s ÷ %g = %s", pin_say (self, petrol, "ml", 0), ratio, pin_say (self, oil, "ml", 0));
  if (ratio > 32)
    pin_warn (self, _("Leaner than 32:1: only if the engine's maker says so."));
  if (answer)
    pin_answer (self, _("Add %s of oil to %s of petrol."), pin_say (self, oil, "ml", 0),
                pin_say (self, petrol, "l", 2));
}

static void
work (PinReckoning *self)
{
  gboolean tank = pin_given (self, "tank") && pin_given (self, "burnt") && pin_given (self, "time");

  if (!tank && !pin_given (self, "petrol"))
    {
      pin_refuse (self, _("give tank, fuel burnt and time, or the petrol to be mixed"));
      return;
    }
  if (tank)
    work_tank (self);
  if (pin_given (self, "petrol"))
    work_oil (self, !tank);
}

const PinSum pin_sum_tank = {
  .id = "tank",
  .title = N_("Tank"),
  .group = N_("Packs and fuel"),
  .about = N_("How long a tank lasts, and how much oil goes to petrol."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Proportion. 25:1 to 32:1 for small two-stroke engines is common practice; the engine's maker decides."),
  .validity = N_("The same driving, needle settings and fuel. Petrol with oil in it: label with ratio and date, use "
                 "within 60 days. 25:1 is by volume, oil to petrol."),
  .hazard = N_("Warning: Fuel burns and its fumes explode. Fill outdoors with the engine stopped and cool, no flame "
               "near, gloves on, from a can made for it."),
  .work = work,
};
