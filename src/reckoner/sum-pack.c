#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/packs.h"
#include "maths/repeats.h"
#include "reckoner/work.h"

static const char *const chemistries[] = { "LiPo", "Li-ion", "LiFe", "NiMH", NULL };

static const PinInput inputs[] = {
  { .id = "chemistry", .title = N_("Chemistry"), .kind = PIN_INPUT_CHOICE, .choices = chemistries,
    .preset = "LiPo" },
  { .id = "cells", .title = N_("Cells in series"), .unit = "1", .least = 1, .most = 16, .whole = TRUE },
  { .id = "capacity", .title = N_("Capacity"), .unit = "mAh", .least = 50, .most = 50000 },
  { .id = "left", .title = N_("Charge left"), .unit = "%", .least = 0, .most = 100, .preset = "",
    .hint = N_("Of the capacity: by the charger, or by what the last run took") },
  { .id = "cell-volts", .title = N_("Volts of the cells"), .kind = PIN_INPUT_LIST, .unit = "V", .least = 0,
    .most = 5, .preset = "", .at_most = 16, .hint = N_("Rested, one after the other") },
  { .id = "charge-rate", .title = N_("Charge rate, C"), .unit = "1", .least = 0.1, .most = 10, .preset = "1",
    .hint = N_("The pack's label says the highest") },
  { .id = "allowance", .title = N_("For the end of the charge"), .unit = "%", .least = 0, .most = 100,
    .preset = "20 %", .hint = N_("Lithium slows down towards full, NiMH loses some as heat") },
  { .id = "mean-current", .title = N_("Mean current when driving"), .unit = "A", .least = 0.05, .most = 500,
    .preset = "" },
  { .id = "kept", .title = N_("Left in at the end of a run"), .unit = "%", .least = 0, .most = 90,
    .preset = "20 %" },
  { .id = "returned", .title = N_("Put back by the last charge"), .unit = "mAh", .least = 0, .most = 60000,
    .preset = "", .hint = N_("From empty at the cut-off to full") },
  { .id = "temperature", .title = N_("Temperature of the pack"), .unit = "degC", .least = -20, .most = 90,
    .preset = "" },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "nominal-volts", .title = N_("Nominal volts"), .unit = "V", .decimals = 1 },
  { .id = "full-volts", .title = N_("Full"), .unit = "V", .decimals = 2 },
  { .id = "storage-volts", .title = N_("For storage, at least"), .unit = "V", .decimals = 2 },
  { .id = "storage-volts-most", .title = N_("For storage, at most"), .unit = "V", .decimals = 2 },
  { .id = "storage-charge", .title = N_("For storage: in, or out with −"), .unit = "mAh", .decimals = 0 },
  { .id = "charge-current", .title = N_("Charge current"), .unit = "A", .decimals = 1 },
  { .id = "charge-time", .title = N_("Charge time"), .unit = "min", .decimals = 0 },
  { .id = "run-time", .title = N_("Run time"), .unit = "min", .decimals = 1 },
  { .id = "energy", .title = N_("Energy"), .unit = "Wh", .decimals = 1 },
  { .id = "spread", .title = N_("Spread of the cells"), .unit = "mV", .decimals = 0 },
  { .id = "alike", .title = N_("Cells alike"), .kind = PIN_OUTPUT_GATE },
  { .id = "lowest", .title = N_("No cell too low or too high"), .kind = PIN_OUTPUT_GATE },
  { .id = "at-storage", .title = N_("At storage volts"), .kind = PIN_OUTPUT_GATE },
  { .id = "capacity-kept", .title = N_("Capacity kept"), .kind = PIN_OUTPUT_GATE },
  { .id = "chargeable", .title = N_("Temperature fit for charging"), .kind = PIN_OUTPUT_GATE },
  { 0 },
};

static const char *const formulas[] = {
  N_("charge for storage = (storage share − charge left) × capacity"),
  N_("charge current = charge rate × capacity ÷ 1 h"),
  N_("charge time = (1 − charge left) × capacity × (1 + allowance) ÷ charge current"),
  N_("run time = capacity × (1 − left in) ÷ mean current"),
  N_("energy = capacity × nominal volts"),
  NULL,
};

static void
work_cells (PinReckoning *self, const PinChemistry *kind)
{
  const GArray *volts = pin_list (self, "cell-volts");
  const double *values = (const double *) volts->data;
  double spread, least, most;

  if (volts->len == 0)
    return;
  spread = pin_repeats_spread (values, volts->len);
  least = pin_repeats_min (values, volts->len);
  most = pin_repeats_max (values, volts->len);
  if (volts->len != pin_value (self, "cells"))
    pin_warn (self, _("%u cells were read, the pack has %g."), volts->len, pin_value (self, "cells"));
  pin_result_value (self, "spread", spread);
  pin_result_gate (self, "alike", spread <= kind->spread_good + 1e-9 ? PIN_GATE_MET : PIN_GATE_NOT_MET,
                   _("%s apart; good up to %s, out of use above %s"), pin_say (self, spread, "mV", 0),
                   pin_say (self, kind->spread_good, "mV", 0), pin_say (self, kind->spread_stop, "mV", 0));
  pin_result_gate (self, "lowest", least >= kind->stop && most <= kind->full + 0.05 ? PIN_GATE_MET : PIN_GATE_NOT_MET,
                   _("%s to %s; %s to %s when rested"), pin_say (self, least, "V", 2), pin_say (self, most, "V", 2),
                   pin_say (self, kind->stop, "V", 2), pin_say (self, kind->full + 0.05, "V", 2));
  if (kind->storage_high > kind->storage_low)
    pin_result_gate (self, "at-storage", least >= kind->storage_low - 1e-9 && most <= kind->storage_high + 1e-9
                                         ? PIN_GATE_MET : PIN_GATE_NOT_MET,
                     _("%s to %s, for storage %s to %s"), pin_say (self, least, "V", 2), pin_say (self, most, "V", 2),
                     pin_say (self, kind->storage_low, "V", 2), pin_say (self, kind->storage_high, "V", 2));
  else
    pin_result_gate (self, "at-storage", PIN_GATE_UNKNOWN, _("the volts of %s do not tell: go by the charge"),
                     kind->name);
  if (least < kind->stop || spread > kind->spread_stop)
    pin_warn (self, _("Do not charge or use this pack: a cell is too low, or the cells are too far apart."));
}

static void
work_charge (PinReckoning *self, const PinChemistry *kind, double capacity)
{
  double left = pin_value (self, "left"), rate = pin_value (self, "charge-rate"), current = rate * capacity / 3600;
  double time;

  pin_result_value (self, "charge-current", current);
  pin_figures (self, 1, "%g × %s ÷ 1 h = %s", rate, pin_say (self, capacity, "mAh", 0),
               pin_say (self, current, "A", 1));
  if (rate > 1)
    pin_warn (self, _("Above 1 C: only if the pack's label allows it."));
  if (isnan (left))
    left = 0;
  else
    {
      double charge = (kind->storage - left) * capacity;

      pin_result_value (self, "storage-charge", charge);
      pin_figures (self, 0, "(%s − %s) × %s = %s", pin_say (self, kind->storage, "%", 0), pin_say (self, left, "%", 0),
                   pin_say (self, capacity, "mAh", 0), pin_say (self, charge, "mAh", 0));
    }
  if (!pin_ok (self, pin_pack_time ((1 - left) * capacity * (1 + pin_value (self, "allowance")), current, &time),
               _("the charge time")))
    return;
  pin_result_value (self, "charge-time", time);
  pin_figures (self, 2, "%s", pin_say (self, time, "min", 0));
}

static void
work_run (PinReckoning *self, double capacity)
{
  double current = pin_value (self, "mean-current"), usable = capacity * (1 - pin_value (self, "kept")), time;
  PinChart *chart;
  PinSeries *line;

  if (isnan (current) || !pin_ok (self, pin_pack_time (usable, current, &time), _("the run time")))
    return;
  pin_result_value (self, "run-time", time);
  pin_figures (self, 3, "%s ÷ %s = %s", pin_say (self, usable, "mAh", 0), pin_say (self, current, "A", 1),
               pin_say (self, time, "min", 1));
  chart = pin_chart_new (_("Run time over current"), _("mean current, A"), _("run time, min"));
  line = pin_chart_add_series (chart, "", PIN_SERIES_LINE, TRUE);
  for (int i = 10; i <= 40; i++)
    pin_series_add (line, current * i / 20, usable / (current * i / 20) / 60);
  pin_chart_add_mark (chart, _("this pack"), current, time / 60, TRUE);
  pin_result_chart (self, chart);
}

static void
work_health (PinReckoning *self, double capacity)
{
  double returned = pin_value (self, "returned") / capacity, temperature = pin_value (self, "temperature");

  if (!isnan (returned))
    pin_result_gate (self, "capacity-kept", returned >= 0.85 ? PIN_GATE_MET : PIN_GATE_NOT_MET,
                     _("%s went back in; good from 85 %%, out of use below 70 %%"), pin_say (self, returned, "%", 0));
  if (isnan (temperature))
    return;
  pin_result_gate (self, "chargeable", temperature >= 0 && temperature <= 40 ? PIN_GATE_MET : PIN_GATE_NOT_MET,
                   _("%s, charge only from 0 to 40 °C"), pin_say (self, temperature, "degC", 0));
  if (temperature > 60)
    pin_warn (self, _("Above 60 °C: put it outside on something that does not burn, and stay away."));
}

static void
work (PinReckoning *self)
{
  const PinChemistry *kind = pin_chemistry_find (pin_choice (self, "chemistry"));
  double cells = pin_value (self, "cells"), capacity = pin_value (self, "capacity");
  double nominal = cells * kind->nominal;

  pin_result_value (self, "nominal-volts", nominal);
  pin_result_value (self, "full-volts", cells * kind->full);
  if (kind->storage_high > kind->storage_low)
    {
      pin_result_value (self, "storage-volts", cells * kind->storage_low);
      pin_result_value (self, "storage-volts-most", cells * kind->storage_high);
      pin_answer (self, _("Store it at %s to %s, and charge it with %s."),
                  pin_say (self, cells * kind->storage_low, "V", 2), pin_say (self, cells * kind->storage_high, "V", 2),
                  pin_say (self, pin_value (self, "charge-rate") * capacity / 3600, "A", 1));
    }
  else
    pin_answer (self, _("Store it about %s charged, and charge it with %s."), pin_say (self, kind->storage, "%", 0),
                pin_say (self, pin_value (self, "charge-rate") * capacity / 3600, "A", 1));
  pin_result_value (self, "energy", capacity * nominal);
  pin_figures (self, 4, "%s × %s = %s", pin_say (self, capacity, "mAh", 0), pin_say (self, nominal, "V", 1),
               pin_say (self, capacity * nominal, "Wh", 1));
  work_charge (self, kind, capacity);
  work_run (self, capacity);
  work_cells (self, kind);
  work_health (self, capacity);
}

const PinSum pin_sum_pack = {
  .id = "pack",
  .title = N_("Pack"),
  .group = N_("Packs and fuel"),
  .about = N_("Storage, charging and run time of a pack, and whether its cells are sound."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Volts a cell and half charge for lithium in storage are common practice, as is 1 C; 0 to 40 °C for "
               "charging is public fire-safety advice. The limits of the spread and of the capacity are from "
               "memory."),
  .validity = N_("Volts tell the charge of a rested cell only roughly, so the charge to move is reckoned from what is "
                 "left, not from volts. The maker's sheet and the charger's own programme come first."),
  .hazard = N_("Warning: Lithium packs burn. Charge with a balance charger set to the right chemistry and cells, on "
               "something that does not burn, never unwatched, never a swollen, hurt or hot one."),
  .work = work,
};
