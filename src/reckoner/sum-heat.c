#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/heat.h"
#include "reckoner/work.h"

#define REFERENCE 25.0        /* °C of air, that trends are told for */
#define HOTTER 10.0           /* K against before, at the same gearing: something drags */

static const char *const parts[] = { "brushless", "brushed", "speed-control", "pack", "servo", "nitro-head",
                                     "petrol-head", NULL };

/* °C, from many keepers and some makers; the owner's own go before them. */
static const struct { double good, most, cold; } limits[] = {
  { 65, 77, -INFINITY }, { 65, 80, -INFINITY }, { 60, 74, -INFINITY }, { 49, 60, -INFINITY }, { 50, 65, -INFINITY },
  { 115, 130, 85 }, { 160, 180, 100 },
};

static const PinInput inputs[] = {
  { .id = "part", .title = N_("Part"), .kind = PIN_INPUT_CHOICE, .preset = "brushless", .choices = parts },
  { .id = "temperature", .title = N_("Temperature"), .unit = "degC", .least = -40, .most = 300,
    .hint = N_("The hottest, within 15 s of the stop and again after a minute or two") },
  { .id = "air", .title = N_("Air"), .unit = "degC", .least = -40, .most = 60 },
  { .id = "good", .title = N_("Good up to"), .unit = "degC", .least = 20, .most = 250, .preset = "",
    .hint = N_("Left out: as is usual for the part") },
  { .id = "most", .title = N_("Too hot above"), .unit = "degC", .least = 20, .most = 250, .preset = "",
    .hint = N_("The maker's limit; left out: as is usual for the part") },
  { .id = "before", .title = N_("Temperature before"), .unit = "degC", .least = -40, .most = 300, .preset = "",
    .hint = N_("Of an earlier outing with the same gearing") },
  { .id = "air-before", .title = N_("Air before"), .unit = "degC", .least = -40, .most = 60, .preset = "" },
  { .id = "cold-resistance", .title = N_("Winding cold"), .unit = "mohm", .least = 0.1, .most = 100000, .preset = "" },
  { .id = "cold-temperature", .title = N_("Winding cold at"), .unit = "degC", .least = -40, .most = 60,
    .preset = "20 C" },
  { .id = "hot-resistance", .title = N_("Winding hot"), .unit = "mohm", .least = 0.1, .most = 100000, .preset = "" },
  { .id = "copper", .title = N_("Constant of copper"), .unit = "1", .least = 230, .most = 240, .preset = "234.5",
    .hint = N_("234.5 or 235, by the standard") },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "rise", .title = N_("Rise over the air"), .unit = "difC", .decimals = 0 },
  { .id = "corrected", .title = N_("As in air of 25 °C"), .unit = "degC", .decimals = 0 },
  { .id = "judgement", .title = N_("Judged"), .kind = PIN_OUTPUT_TEXT },
  { .id = "within-limit", .title = N_("Within its limit"), .kind = PIN_OUTPUT_GATE },
  { .id = "left", .title = N_("Left to the limit"), .unit = "difC", .decimals = 0 },
  { .id = "trend", .title = N_("Hotter than before, in the same air"), .unit = "difC", .decimals = 0 },
  { .id = "winding", .title = N_("Winding, on average"), .unit = "degC", .decimals = 1 },
  { 0 },
};

static const char *const formulas[] = {
  N_("rise = temperature − air"),
  N_("in air of 25 °C = temperature + (25 °C − air)"),
  N_("hotter than before = (temperature − air) − (temperature before − air before)"),
  N_("winding = hot ÷ cold × (constant + cold temperature) − constant"),
  NULL,
};

static int
nth_part (PinReckoning *self)
{
  for (int i = 0; parts[i] != NULL; i++)
    if (g_str_equal (parts[i], pin_choice (self, "part")))
      return i;
  return 0;
}

static double
own_or (PinReckoning *self, const char *id, double usual)
{
  return pin_given (self, id) ? pin_value (self, id) : usual;
}

/* On what was measured: the part does not know how warm the air was. */
static void
judge (PinReckoning *self, double good, double most, double cold)
{
  double at = pin_value (self, "temperature");
  const char *word = at > most ? _("too hot") : at > good ? _("watch") : at < cold ? _("too cold") : _("good");
  const char *measured = pin_say (self, at, "degC", 0);

  pin_result_text (self, "judgement", "%s", word);
  pin_result_gate (self, "within-limit", at > most ? PIN_GATE_NOT_MET : PIN_GATE_MET, _("%s of %s"), measured,
                   pin_say (self, most, "degC", 0));
  pin_result_value (self, "left", most - at);
  pin_answer (self, _("%s is %s for this part, %s over the air."), measured, word,
              pin_say (self, at - pin_value (self, "air"), "difC", 0));
  if (at > most)
    pin_warn (self, _("Stop, let it cool, and find out why before the next run: spin the train by hand first, then "
                      "gear down by two or three teeth."));
  if (nth_part (self) == 3 && (at >= 40 || at <= 0))
    pin_warn (self, _("Charge the pack only between 0 and 40 °C."));
}

static void
work_trend (PinReckoning *self)
{
  double rise = pin_value (self, "temperature") - pin_value (self, "air");
  double before = pin_value (self, "before") - pin_value (self, "air-before");

  if (!pin_given (self, "before") || !pin_given (self, "air-before"))
    return;
  pin_result_value (self, "trend", rise - before);
  pin_figures (self, 2, "%s − %s = %s", pin_say (self, rise, "difC", 0), pin_say (self, before, "difC", 0),
               pin_say (self, rise - before, "difC", 0));
  if (rise - before >= HOTTER)
    pin_warn (self, _("Ten degrees hotter and more with the same gearing: something drags. Check that it rolls "
                      "freely."));
}

static void
work_winding (PinReckoning *self)
{
  double cold = pin_value (self, "cold-resistance"), hot = pin_value (self, "hot-resistance");
  double at = pin_value (self, "cold-temperature"), copper = pin_value (self, "copper"), winding;

  if (!pin_given (self, "cold-resistance") || !pin_given (self, "hot-resistance")
      || !pin_ok (self, pin_heat_winding (cold, at, hot, copper, &winding), _("the winding's temperature")))
    return;
  pin_result_value (self, "winding", winding);
  pin_figures (self, 3, "%s ÷ %s × (%s + %s) − %s = %s", pin_say (self, hot, "mohm", 3),
               pin_say (self, cold, "mohm", 3), pin_say (self, copper, "1", 1), pin_say (self, at, "degC", 1),
               pin_say (self, copper, "1", 1), pin_say (self, winding, "degC", 1));
}

static void
draw (PinReckoning *self, double good, double most)
{
  double air = pin_value (self, "air"), at = pin_value (self, "temperature");
  PinChart *chart = pin_chart_new (_("The same work in other air"), _("air, °C"), _("temperature, °C"));
  PinSeries *series = pin_chart_add_series (chart, _("same rise"), PIN_SERIES_LINE, FALSE);

  for (double other = MIN (air, 0); other <= MAX (air, 40); other += 5)
    pin_series_add (series, other, other + at - air);
  pin_chart_add_limit (chart, _("good"), good, 0);
  pin_chart_add_limit (chart, _("too hot"), most, 1);
  pin_chart_add_mark (chart, pin_say (self, at, "degC", 0), air, at, TRUE);
  if (pin_given (self, "before") && pin_given (self, "air-before"))
    pin_chart_add_mark (chart, _("before"), pin_value (self, "air-before"), pin_value (self, "before"), FALSE);
  pin_result_chart (self, chart);
}

static void
work (PinReckoning *self)
{
  double at = pin_value (self, "temperature"), air = pin_value (self, "air"), corrected;
  int part = nth_part (self);
  double good = own_or (self, "good", limits[part].good), most = own_or (self, "most", limits[part].most);

  if (!pin_ok (self, pin_heat_corrected (at, air, REFERENCE, &corrected), _("the corrected temperature")))
    return;
  if (good > most)
    {
      pin_refuse (self, _("“good up to” lies above “too hot above”: give both, the first the lower"));
      return;
    }
  pin_result_value (self, "rise", at - air);
  pin_result_value (self, "corrected", corrected);
  pin_figures (self, 0, "%s − %s = %s", pin_say (self, at, "degC", 0), pin_say (self, air, "degC", 0),
               pin_say (self, at - air, "difC", 0));
  pin_figures (self, 1, "%s + (25 °C − %s) = %s", pin_say (self, at, "degC", 0), pin_say (self, air, "degC", 0),
               pin_say (self, corrected, "degC", 0));
  judge (self, good, most, limits[part].cold);
  work_trend (self);
  work_winding (self);
  draw (self, good, most);
}

const PinSum pin_sum_heat = {
  .id = "heat",
  .title = N_("Heat"),
  .group = N_("Heat"),
  .about = N_("How hot a part is: judged as measured, compared as if the air were at 25 °C."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Newton's law of cooling; linear law of resistance of copper, 234.5 as printed in standards of "
               "electrical safety. The limits and the times to a burn are common practice; a maker's own go "
               "before them."),
  .validity = N_("Limits hold for what was measured, trends for the same gearing, place and minutes of running. Bare "
                 "metal reads too low by infrared: see there. The winding is hotter than the can."),
  .hazard = N_("Warning: burns. A motor at 60 °C burns in less than five seconds, at 68 °C in about one. Touching is "
               "no way to measure: use a probe or an infrared thermometer."),
  .work = work,
};
