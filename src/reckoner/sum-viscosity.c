#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>

#include "maths/fluids.h"
#include "reckoner/labels.h"

static const PinInput inputs[] = {
  { .id = "viscosity", .title = N_("Viscosity"), .unit = "cSt", .least = 2, .most = 2e6, .preset = "",
    .hint = N_("Off the bottle") },
  PIN_LABEL_INPUTS,
  { .id = "label-temperature", .title = N_("Told at"), .unit = "degC", .least = 0, .most = 100, .preset = "25 C" },
  { .id = "temperature", .title = N_("Wanted at"), .unit = "degC", .least = -30, .most = 150,
    .hint = N_("Of the fluid, not of the air") },
  { .id = "second-viscosity", .title = N_("Viscosity at a second temperature"), .unit = "cSt", .least = 2,
    .most = 2e6, .preset = "", .hint = N_("From the maker's sheet: the line goes through both") },
  { .id = "second-temperature", .title = N_("Second temperature"), .unit = "degC", .least = -30, .most = 150,
    .preset = "" },
  { 0 },
};

static const PinColumn columns[] = {
  { .id = "temperature", .title = N_("Temperature"), .unit = "degC", .decimals = 0 },
  { .id = "viscosity", .title = N_("Viscosity"), .unit = "cSt", .decimals = 0 },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "at-temperature", .title = N_("Viscosity there"), .unit = "cSt", .decimals = 1 },
  { .id = "ratio", .title = N_("Of the label"), .unit = "%", .decimals = 1 },
  { .id = "fill-instead", .title = N_("Label that is the same there"), .unit = "cSt", .decimals = 0 },
  { .id = "line-a", .title = N_("Walther line, A"), .unit = "1", .decimals = 4 },
  { .id = "line-b", .title = N_("Walther line, B"), .unit = "1", .decimals = 4 },
  { .id = "by-temperature", .title = N_("Over the temperature"), .kind = PIN_OUTPUT_TABLE, .columns = columns },
  { 0 },
};

static const char *const formulas[] = {
  N_("silicone: viscosity there = viscosity × 10^(763.1 K × (1 ÷ T there − 1 ÷ T told))"),
  N_("two points: log log (viscosity in cSt + 0.7) = A − B × log T"),
  N_("label that is the same there = viscosity² ÷ viscosity there"),
  NULL,
};

typedef struct
{
  double viscosity, told;
  gboolean line;
  double a, b;
} Fluid;

static PinMathsStatus
at (const Fluid *fluid, double temperature, double *viscosity)
{
  double ratio;
  PinMathsStatus status;

  if (fluid->line)
    return pin_fluid_walther_at (fluid->a, fluid->b, temperature, viscosity);
  status = pin_fluid_silicone_ratio (fluid->told, temperature, &ratio);
  if (status == PIN_MATHS_OK)
    *viscosity = fluid->viscosity * ratio;
  return status;
}

static void
draw (PinReckoning *self, const Fluid *fluid, double wanted, double there)
{
  PinChart *chart = pin_chart_new (_("Thickness over temperature"), _("temperature, °C"), _("cSt"));
  PinSeries *series = pin_chart_add_series (chart, "", PIN_SERIES_LINE, TRUE);

  for (double temperature = MIN (0, wanted); temperature <= MAX (80, wanted); temperature += 2)
    {
      double viscosity;

      if (at (fluid, temperature, &viscosity) == PIN_MATHS_OK)
        pin_series_add (series, temperature, viscosity * 1e6);
    }
  pin_chart_add_mark (chart, _("told"), fluid->told, fluid->viscosity * 1e6, FALSE);
  pin_chart_add_mark (chart, _("there"), wanted, there * 1e6, TRUE);
  pin_result_chart (self, chart);
  for (double temperature = 0; temperature <= 80; temperature += 10)
    {
      double viscosity;

      if (at (fluid, temperature, &viscosity) == PIN_MATHS_OK)
        pin_result_row (self, "by-temperature", temperature, viscosity);
    }
}

static gboolean
read_line (PinReckoning *self, Fluid *fluid)
{
  double second = pin_value (self, "second-viscosity"), temperature = pin_value (self, "second-temperature");

  fluid->line = pin_given (self, "second-viscosity") && pin_given (self, "second-temperature");
  if (!fluid->line)
    return TRUE;
  if (!pin_ok (self, pin_fluid_walther_line (fluid->told, fluid->viscosity, temperature, second, &fluid->a, &fluid->b),
               _("the line through both points")))
    return FALSE;
  if (fluid->b < 0)
    {
      pin_refuse (self, _("the fluid would be thicker when hot, look at the two points again"));
      return FALSE;
    }
  pin_result_value (self, "line-a", fluid->a);
  pin_result_value (self, "line-b", fluid->b);
  return TRUE;
}

static void
work (PinReckoning *self)
{
  Fluid fluid = { .told = pin_value (self, "label-temperature") };
  double wanted = pin_value (self, "temperature"), there, same;

  if (!pin_labelled_viscosity (self, "viscosity", &fluid.viscosity) || !read_line (self, &fluid)
      || !pin_ok (self, at (&fluid, wanted, &there), _("the viscosity there")))
    return;
  same = fluid.viscosity * fluid.viscosity / there;
  pin_result_value (self, "at-temperature", there);
  pin_result_value (self, "ratio", there / fluid.viscosity);
  pin_result_value (self, "fill-instead", same);
  if (fluid.line)
    pin_figures (self, 1, "%.4f − %.4f × log %.2f K: %s", fluid.a, fluid.b, wanted + 273.15,
                 pin_say (self, there, "cSt", 1));
  else
    pin_figures (self, 0, "%s × 10^(763.1 × (1 ÷ %.2f − 1 ÷ %.2f)) = %s", pin_say (self, fluid.viscosity, "cSt", 0),
                 wanted + 273.15, fluid.told + 273.15, pin_say (self, there, "cSt", 1));
  pin_figures (self, 2, "%s² ÷ %s = %s", pin_say (self, fluid.viscosity, "cSt", 0), pin_say (self, there, "cSt", 1),
               pin_say (self, same, "cSt", 0));
  draw (self, &fluid, wanted, there);
  pin_answer (self, _("At %s it is about %s, that is %s of what the label says."), pin_say (self, wanted, "degC", 0),
              pin_say (self, there, "cSt", 0), pin_say (self, there / fluid.viscosity, "%", 0));
}

const PinSum pin_sum_viscosity = {
  .id = "viscosity",
  .title = N_("Viscosity"),
  .group = N_("Fluids and shocks"),
  .about = N_("How thick a fluid is when cold or hot."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("With two points: the relation of Walther, as in ASTM D341. With one: the slope of dimethyl silicone "
               "after Barry (1946), from memory."),
  .validity = N_("The relation of Walther was published for mineral oils; for silicone it is an estimate, and so is "
                 "the slope for thick diff fluids. Labels in weight are no standard: only your own table counts."),
  .work = work,
};
