#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/packs.h"
#include "maths/repeats.h"
#include "reckoner/work.h"

static const PinInput inputs[] = {
  { .id = "pulses", .title = N_("Currents and volts"), .kind = PIN_INPUT_PAIRS, .unit = "A", .least = 0,
    .most = 500, .second = "V", .second_least = 0.5, .second_most = 60, .preset = "", .fewest = 2, .at_most = 20,
    .hint = N_("Current, colon, volts of the pack after the same short time: 1:7.48, 5:7.32") },
  { .id = "cell-resistances", .title = N_("Cells by the charger"), .kind = PIN_INPUT_LIST, .unit = "mohm",
    .least = 0.05, .most = 2000, .preset = "", .at_most = 16 },
  { .id = "cells", .title = N_("Cells in series"), .unit = "1", .least = 1, .most = 16, .whole = TRUE,
    .preset = "2" },
  { .id = "capacity", .title = N_("Capacity"), .unit = "mAh", .least = 50, .most = 50000, .preset = "" },
  { .id = "temperature", .title = N_("Temperature of the pack"), .unit = "degC", .least = -20, .most = 80,
    .preset = "" },
  { .id = "baseline", .title = N_("A cell when new"), .unit = "mohm", .least = 0.05, .most = 2000, .preset = "",
    .hint = N_("Your own first reading, with the same charger") },
  { .id = "load", .title = N_("Current when driving"), .unit = "A", .least = 0.1, .most = 500, .preset = "" },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "resistance", .title = N_("Resistance of the pack"), .unit = "mohm", .decimals = 2 },
  { .id = "per-cell", .title = N_("Of a cell"), .unit = "mohm", .decimals = 2 },
  { .id = "open-volts", .title = N_("Volts without load"), .unit = "V", .decimals = 3 },
  { .id = "by-capacity", .title = N_("Of a cell by its capacity, mΩ·Ah"), .unit = "1", .decimals = 1 },
  { .id = "against-baseline", .title = N_("Against new"), .unit = "1", .decimals = 2 },
  { .id = "volts-lost", .title = N_("Volts lost when driving"), .unit = "V", .decimals = 2 },
  { .id = "heat", .title = N_("Heat when driving"), .unit = "W", .decimals = 1 },
  { .id = "trend", .title = N_("Against its own first reading"), .kind = PIN_OUTPUT_GATE },
  { .id = "neighbours", .title = N_("Cells alike"), .kind = PIN_OUTPUT_GATE },
  { 0 },
};

static const char *const formulas[] = {
  N_("resistance = (volts at low − volts at high current) ÷ (high − low current)"),
  N_("a cell = resistance ÷ cells"),
  N_("against new = a cell ÷ a cell when new"),
  N_("volts lost = current × resistance, heat = current² × resistance"),
  NULL,
};

static gboolean
by_pulses (PinReckoning *self, double *resistance)
{
  const GArray *currents = pin_list (self, "pulses"), *volts = pin_list_second (self, "pulses");
  PinChart *chart = pin_chart_new (_("Volts under load"), _("current, A"), _("volts"));
  PinSeries *points = pin_chart_add_series (chart, _("readings"), PIN_SERIES_POINTS, TRUE);
  PinSeries *line = pin_chart_add_series (chart, "", PIN_SERIES_LINE, FALSE);
  double open = 0, uncertainty = NAN, most = 0;

  pin_result_chart (self, chart);
  if (!pin_ok (self, pin_pack_line ((const double *) currents->data, (const double *) volts->data, currents->len,
                                    resistance, &open, &uncertainty), _("the resistance")))
    return FALSE;
  for (guint i = 0; i < currents->len; i++)
    {
      pin_series_add (points, g_array_index (currents, double, i), g_array_index (volts, double, i));
      most = MAX (most, g_array_index (currents, double, i));
    }
  pin_series_add (line, 0, open);
  pin_series_add (line, most, open - *resistance * most);
  pin_result_estimate (self, "resistance", *resistance, uncertainty);
  pin_result_value (self, "open-volts", open);
  pin_figures (self, 0, "%s", pin_say (self, *resistance, "mohm", 2));
  return TRUE;
}

static double
by_charger (PinReckoning *self)
{
  const GArray *cells = pin_list (self, "cell-resistances");
  double sum = 0;

  for (guint i = 0; i < cells->len; i++)
    sum += g_array_index (cells, double, i);
  pin_result_value (self, "resistance", sum);
  return sum;
}

static void
judge_neighbours (PinReckoning *self)
{
  const GArray *cells = pin_list (self, "cell-resistances");
  const double *values = (const double *) cells->data;
  double worst, others = 0;

  if (cells->len < 2)
    return;
  worst = pin_repeats_max (values, cells->len);
  for (guint i = 0; i < cells->len; i++)
    others += values[i];
  others = (others - worst) / (cells->len - 1);
  pin_result_gate (self, "neighbours", worst < 2 * others ? PIN_GATE_MET : PIN_GATE_NOT_MET,
                   _("highest %s, the others %s; twice its neighbours is the end of the pack"),
                   pin_say (self, worst, "mohm", 1), pin_say (self, others, "mohm", 1));
}

static void
judge_trend (PinReckoning *self, double cell)
{
  double ratio = cell / pin_value (self, "baseline"), temperature = pin_value (self, "temperature");

  if (isnan (temperature))
    pin_warn (self, _("Resistance falls as a cell warms up: compare only at one temperature, 20 to 25 °C."));
  else if (temperature < 20 || temperature > 25)
    pin_warn (self, _("Read at %s: compare only with readings at that, better at 20 to 25 °C."),
              pin_say (self, temperature, "degC", 0));
  if (!pin_given (self, "baseline"))
    {
      pin_result_gate (self, "trend", PIN_GATE_UNKNOWN, _("no reading from when it was new"));
      return;
    }
  pin_result_value (self, "against-baseline", ratio);
  pin_figures (self, 2, "%s ÷ %s = %.2f", pin_say (self, cell, "mohm", 2),
               pin_say (self, pin_value (self, "baseline"), "mohm", 2), ratio);
  pin_result_gate (self, "trend", ratio <= 1.5 ? PIN_GATE_MET : PIN_GATE_NOT_MET,
                   ratio >= 2.5 ? _("%.2f times its first reading, stop using it at 2.5")
                                : _("%.2f times its first reading, watch it from 1.5, stop at 2.5"), ratio);
}

static void
work (PinReckoning *self)
{
  double resistance, cell, cells = pin_value (self, "cells"), load = pin_value (self, "load");

  if (!pin_given (self, "pulses") && !pin_given (self, "cell-resistances"))
    {
      pin_refuse (self, _("give two currents with their volts, or what the charger shows for the cells"));
      return;
    }
  if (pin_given (self, "pulses") && !by_pulses (self, &resistance))
    return;
  if (!pin_given (self, "pulses"))
    {
      resistance = by_charger (self);
      cells = pin_list (self, "cell-resistances")->len;
    }
  cell = resistance / cells;
  pin_result_value (self, "per-cell", cell);
  pin_figures (self, 1, "%s ÷ %g = %s", pin_say (self, resistance, "mohm", 2), cells, pin_say (self, cell, "mohm", 2));
  if (pin_given (self, "capacity"))
    pin_result_value (self, "by-capacity", cell * 1e3 * pin_value (self, "capacity") / 3600);
  if (!isnan (load))
    {
      pin_result_value (self, "volts-lost", load * resistance);
      pin_result_value (self, "heat", load * load * resistance);
      pin_figures (self, 3, "%s, %s", pin_say (self, load * resistance, "V", 2),
                   pin_say (self, load * load * resistance, "W", 1));
    }
  judge_neighbours (self);
  judge_trend (self, cell);
  pin_answer (self, _("A cell has %s."), pin_say (self, cell, "mohm", 1));
}

const PinSum pin_sum_resistance = {
  .id = "resistance",
  .title = N_("Pack resistance"),
  .group = N_("Packs and fuel"),
  .about = N_("Inner resistance from two loads or from the charger, against its neighbours and when it was new."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Two-pulse method as in IEC 61960. Limits of 1.5 and 2.5 times the first reading, twice the neighbours, "
               "and 5 to 20 mΩ·Ah for a healthy cell are from memory; 1 to 4 mΩ at 4 to 6 Ah is common practice."),
  .validity = N_("One charger, one temperature, one state of charge. Leads and plugs count in two loads on the pack."),
  .hazard = N_("Warning: A shorted or swollen lithium pack burns. Do not load or charge one that is soft, warm, smells "
               "or has changed its shape; ask your local collection point."),
  .work = work,
};
