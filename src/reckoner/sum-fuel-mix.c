#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>

#include "maths/fuel.h"
#include "reckoner/work.h"

static const PinInput inputs[] = {
  { .id = "first-nitro", .title = N_("First can, nitro"), .unit = "%", .least = 0, .most = 50 },
  { .id = "first-oil", .title = N_("First can, oil"), .unit = "%", .least = 0, .most = 40 },
  { .id = "second-nitro", .title = N_("Second can, nitro"), .unit = "%", .least = 0, .most = 50 },
  { .id = "second-oil", .title = N_("Second can, oil"), .unit = "%", .least = 0, .most = 40 },
  { .id = "nitro", .title = N_("Wanted, nitro"), .unit = "%", .least = 0, .most = 50 },
  { .id = "oil", .title = N_("Wanted, oil"), .unit = "%", .least = 0, .most = 40, .preset = "",
    .hint = N_("By adding oil made for the purpose; left out: as it comes") },
  { .id = "amount", .title = N_("Amount"), .unit = "l", .least = 0.05, .most = 20, .preset = "1 l" },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "first-amount", .title = N_("Of the first can"), .unit = "ml", .decimals = 0 },
  { .id = "second-amount", .title = N_("Of the second can"), .unit = "ml", .decimals = 0 },
  { .id = "oil-amount", .title = N_("Oil to add"), .unit = "ml", .decimals = 0 },
  { .id = "oil-share", .title = N_("Oil in the mixture"), .unit = "%", .decimals = 1 },
  { 0 },
};

static const char *const formulas[] = {
  N_("share of the second = (wanted − first nitro) ÷ (second nitro − first nitro)"),
  N_("with oil: the three balances of nitro, oil and amount, solved together"),
  NULL,
};

static void
tell (PinReckoning *self, const PinFuelMix *mix, double oil)
{
  pin_result_value (self, "first-amount", mix->first);
  pin_result_value (self, "second-amount", mix->second);
  pin_result_value (self, "oil-amount", mix->oil);
  pin_result_value (self, "oil-share", oil);
  if (mix->oil > 0)
    pin_answer (self, _("%s of the first can, %s of the second and %s of oil."), pin_say (self, mix->first, "ml", 0),
                pin_say (self, mix->second, "ml", 0), pin_say (self, mix->oil, "ml", 0));
  else
    pin_answer (self, _("%s of the first can and %s of the second; it holds %s of oil."),
                pin_say (self, mix->first, "ml", 0), pin_say (self, mix->second, "ml", 0), pin_say (self, oil, "%", 1));
  if (oil < 0.08)
    pin_warn (self, _("Less than 8 %% of oil wears an engine out fast: keep to what its maker asks for."));
}

static void
work (PinReckoning *self)
{
  PinFuel first = { pin_value (self, "first-nitro"), pin_value (self, "first-oil") };
  PinFuel second = { pin_value (self, "second-nitro"), pin_value (self, "second-oil") };
  double nitro = pin_value (self, "nitro"), amount = pin_value (self, "amount"), oil = pin_value (self, "oil");
  PinFuelMix mix;

  if (pin_given (self, "oil"))
    {
      if (!pin_ok (self, pin_fuel_mix_to_oil (first, second, (PinFuel) { nitro, oil }, amount, &mix),
                   _("a mixture of these cans and oil")))
        return;
      pin_figures (self, 1, "%s + %s + %s = %s", pin_say (self, mix.first, "ml", 0),
                   pin_say (self, mix.second, "ml", 0), pin_say (self, mix.oil, "ml", 0),
                   pin_say (self, amount, "ml", 0));
    }
  else
    {
      if (!pin_ok (self, pin_fuel_mix (first, second, nitro, amount, &mix, &oil), _("a mixture of these cans")))
        return;
      pin_figures (self, 0, "(%s − %s) ÷ (%s − %s) = %s", pin_say (self, nitro, "%", 1),
                   pin_say (self, first.nitro, "%", 1), pin_say (self, second.nitro, "%", 1),
                   pin_say (self, first.nitro, "%", 1), pin_say (self, mix.second / amount, "%", 1));
    }
  tell (self, &mix, oil);
}

const PinSum pin_sum_fuel_mix = {
  .id = "fuel-mix",
  .title = N_("Fuel mix"),
  .group = N_("Packs and fuel"),
  .about = N_("How much of two cans of model fuel makes the nitro and oil wanted."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Balance of volumes. At least 8 % of oil is from memory."),
  .validity = N_("All shares by volume; some cans tell them by weight. Cans of one kind of oil. A changed mixture "
                 "needs new needle settings, from rich."),
  .hazard = N_("Warning: Methanol poisons when drunk, breathed or on the skin, and burns with a flame that is hard to "
               "see; nitromethane can explode when mixed with the wrong stuff. Mix ready fuels only, outdoors, away "
               "from fire and children, with gloves and goggles, and label the can. Local rules may limit the nitro "
               "you may own."),
  .work = work,
};
