#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/gearing.h"
#include "maths/gears.h"
#include "maths/heat.h"
#include "reckoner/gear-pairs.h"
#include "reckoner/work.h"

static const PinInput inputs[] = {
  { .id = "pinion", .title = N_("Pinion now"), .unit = "teeth", .least = 6, .most = 80, .whole = TRUE },
  { .id = "spur", .title = N_("Spur now"), .unit = "teeth", .least = 20, .most = 200, .whole = TRUE },
  { .id = "gearbox", .title = N_("Gearbox ratio"), .unit = "1", .least = 0.5, .most = 20, .preset = "1",
    .hint = N_("Turns of the spur for one of the wheel") },
  { .id = "tyre", .title = N_("Tyre diameter"), .unit = "mm", .least = 15, .most = 300,
    .hint = N_("Standing on its wheel, with the car's weight on it") },
  { .id = "pitch", .title = N_("Pitch"), .unit = "mod", .least = 0.2, .most = 2.5, .preset = "",
    .hint = N_("As on the gear: 48 dp, or 0.6 mod") },
  { .id = "steps", .title = N_("Teeth either way"), .unit = "teeth", .least = 1, .most = 12, .preset = "3",
    .whole = TRUE },
  { .id = "own-pinions", .title = N_("Pinions in the box"), .kind = PIN_INPUT_LIST, .unit = "teeth", .least = 6,
    .most = 80, .preset = "", .at_most = 24, .whole = TRUE },
  { .id = "own-spurs", .title = N_("Spurs in the box"), .kind = PIN_INPUT_LIST, .unit = "teeth", .least = 20,
    .most = 200, .preset = "", .at_most = 8, .whole = TRUE },
  { .id = "least-centre", .title = N_("Shafts at nearest"), .unit = "mm", .least = 4, .most = 250, .preset = "",
    .hint = N_("Between the middles of both gears, motor at the near end of its slot") },
  { .id = "most-centre", .title = N_("Shafts at furthest"), .unit = "mm", .least = 4, .most = 250, .preset = "",
    .hint = N_("The same, motor at the far end of its slot") },
  { .id = "motor", .title = N_("Hottest motor now"), .unit = "degC", .least = -40, .most = 200, .preset = "" },
  { .id = "air", .title = N_("Air"), .unit = "degC", .least = -40, .most = 60, .preset = "",
    .hint = N_("When the motor was read") },
  { .id = "motor-limit", .title = N_("Motor at most"), .unit = "degC", .least = 30, .most = 150, .preset = "70 C" },
  { 0 },
};

static const PinColumn columns[] = {
  { "spur", N_("Spur"), "teeth", 0 },
  { "pinion", N_("Pinion"), "teeth", 0 },
  { "rollout", N_("Rollout"), "mm", 1 },
  { "change", N_("Against now"), "%", 1 },
  { "centre", N_("Shafts"), "mm", 2 },
  { "motor", N_("Motor at least"), "degC", 0 },
  { "note", N_("Note"), NULL, 0 },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "rollout", .title = N_("Rollout now"), .unit = "mm", .decimals = 1 },
  { .id = "tooth-change", .title = N_("One tooth more on the pinion"), .unit = "%", .decimals = 1 },
  { .id = "centre", .title = N_("Shafts apart now"), .unit = "mm", .decimals = 2 },
  { .id = "centre-step", .title = N_("Motor moves for each tooth"), .unit = "mm", .decimals = 2 },
  { .id = "rollout-limit", .title = N_("Rollout at the motor's limit"), .unit = "mm", .decimals = 1 },
  { .id = "pairs", .title = N_("Pinions and spurs"), .kind = PIN_OUTPUT_TABLE, .columns = columns },
  { 0 },
};

static const char *const formulas[] = {
  N_("rollout = π × tyre diameter × pinion ÷ spur ÷ gearbox ratio"),
  N_("shafts apart = module × (pinion + spur) ÷ 2"),
  N_("rollout at the limit = rollout now × √(rise allowed ÷ rise now)"),
  NULL,
};

typedef struct
{
  double rollout;             /* now */
  double limit;               /* rollout at the motor's limit; NAN: not known */
} Now;

static gboolean
knows_heat (PinReckoning *self)
{
  return pin_given (self, "motor") && pin_given (self, "air") && pin_value (self, "motor") > pin_value (self, "air");
}

/* "now, have, too far, hot" */
static char *
note (PinReckoning *self, const Now *now, const PinGearPair *pair, double centre)
{
  g_autoptr (GPtrArray) words = g_ptr_array_new ();
  gboolean lists = pin_given (self, "own-pinions") || pin_given (self, "own-spurs");

  if (pair->pinion == pin_value (self, "pinion") && pair->spur == pin_value (self, "spur"))
    g_ptr_array_add (words, _("now"));
  else if (lists && pin_gear_pairs_owned (self, pair))
    g_ptr_array_add (words, _("have"));
  if (!isnan (centre) && pin_given (self, "most-centre") && centre > pin_value (self, "most-centre") + 1e-9)
    g_ptr_array_add (words, _("too far"));
  if (!isnan (centre) && pin_given (self, "least-centre") && centre < pin_value (self, "least-centre") - 1e-9)
    g_ptr_array_add (words, _("too near"));
  if (pair->rollout > now->limit)
    g_ptr_array_add (words, _("hot"));
  g_ptr_array_add (words, NULL);
  return g_strjoinv (", ", (char **) words->pdata);
}

static void
add_row (PinReckoning *self, const Now *now, const PinGearPair *pair)
{
  double centre = NAN, motor = NAN, rise;
  double change = pair->rollout / now->rollout - 1;
  g_autofree char *words = NULL;

  if (pin_given (self, "pitch"))
    pin_gears_centre (pin_value (self, "pitch"), pair->pinion, pair->spur, &centre);
  if (knows_heat (self)
      && pin_heat_geared (pin_value (self, "motor") - pin_value (self, "air"), 1 + change, 2, &rise) == PIN_MATHS_OK)
    motor = pin_value (self, "air") + rise;
  words = note (self, now, pair, centre);
  pin_result_row (self, "pairs", pair->spur, pair->pinion, pair->rollout, change, centre, motor, words);
  if (pair->pinion == pin_value (self, "pinion") && pair->spur == pin_value (self, "spur"))
    pin_result_mark_row (self, "pairs");
}

static void
work_centre (PinReckoning *self)
{
  double pinion = pin_value (self, "pinion"), spur = pin_value (self, "spur");
  double pitch = pin_value (self, "pitch"), centre;

  if (!pin_given (self, "pitch") || !pin_ok (self, pin_gears_centre (pitch, pinion, spur, &centre), _("the shafts")))
    return;
  pin_result_value (self, "centre", centre);
  pin_result_value (self, "centre-step", pitch / 2);
  pin_figures (self, 1, "%s × (%g + %g) ÷ 2 = %s", pin_say (self, pitch, "mm", 3), pinion, spur,
               pin_say (self, centre, "mm", 2));
  if (pin_given (self, "least-centre") && pin_given (self, "most-centre")
      && pin_value (self, "least-centre") > pin_value (self, "most-centre"))
    pin_warn (self, _("The nearest place of the shafts is further than the furthest: look at both again."));
}

static double
work_limit (PinReckoning *self, double rollout)
{
  double limit = NAN, air = pin_value (self, "air");
  double allowed = pin_value (self, "motor-limit") - air, rise = pin_value (self, "motor") - air;

  if (!knows_heat (self) || allowed <= 0
      || !pin_ok (self, pin_heat_rollout (rise, rollout, allowed, &limit), _("the limit")))
    return NAN;
  pin_result_value (self, "rollout-limit", limit);
  pin_figures (self, 2, "%s × √(%s ÷ %s) = %s", pin_say (self, rollout, "mm", 1), pin_say (self, allowed, "difC", 0),
               pin_say (self, rise, "difC", 0), pin_say (self, limit, "mm", 1));
  pin_warn (self, _("The motor's temperature is an estimate and a floor, from the loss in the copper alone: measure "
                    "after two minutes and after five."));
  return limit;
}

static void
draw (PinReckoning *self, const Now *now, const GArray *pairs)
{
  g_autofree char *title = g_strdup_printf (_("Gear chart, spur %g"), pin_value (self, "spur"));
  g_autofree char *mark = g_strdup_printf (_("now: %s, %s"), pin_say (self, pin_value (self, "pinion"), "teeth", 0),
                                           pin_say (self, now->rollout, "mm", 1));
  g_autofree char *line = g_strdup_printf (_("%s at %s air"),
                                           pin_say (self, pin_value (self, "motor-limit"), "degC", 0),
                                           pin_say (self, pin_value (self, "air"), "degC", 0));
  PinChart *chart = pin_chart_new (title, _("pinion, T"), _("rollout, mm"));
  PinSeries *series = pin_chart_add_series (chart, "", PIN_SERIES_BOTH, FALSE);

  for (guint i = 0; i < pairs->len; i++)
    {
      const PinGearPair *pair = &g_array_index (pairs, PinGearPair, i);

      if (pair->spur == pin_value (self, "spur"))
        pin_series_add (series, pair->pinion, 1000 * pair->rollout);
    }
  if (!isnan (now->limit))
    pin_chart_add_limit (chart, line, 1000 * now->limit, 1);
  pin_chart_add_mark (chart, mark, pin_value (self, "pinion"), 1000 * now->rollout, TRUE);
  pin_result_chart (self, chart);
}

static void
answer (PinReckoning *self, double rollout, double more)
{
  pin_answer (self, _("%s on %s rolls %s for each turn of the motor; one tooth more on the pinion is %s more."),
              pin_say (self, pin_value (self, "pinion"), "teeth", 0),
              pin_say (self, pin_value (self, "spur"), "teeth", 0), pin_say (self, rollout, "mm", 1),
              pin_say (self, more, "%", 1));
}

static void
work (PinReckoning *self)
{
  double pinion = pin_value (self, "pinion"), tyre = pin_value (self, "tyre");
  PinGearPair fitted = { pinion, pin_value (self, "spur"), 0 };
  g_autoptr (GArray) pairs = NULL;
  Now now;

  if (!pin_gear_pairs_rollout (self, &fitted, tyre))
    return;
  pin_result_value (self, "rollout", fitted.rollout);
  pin_result_value (self, "tooth-change", 1 / pinion);
  pin_figures (self, 0, "π × %s × %g ÷ %g ÷ %s = %s", pin_say (self, tyre, "mm", 1), pinion, fitted.spur,
               pin_say (self, pin_value (self, "gearbox"), "1", 2), pin_say (self, fitted.rollout, "mm", 1));
  answer (self, fitted.rollout, 1 / pinion);
  work_centre (self);
  now = (Now) { fitted.rollout, work_limit (self, fitted.rollout) };
  pairs = pin_gear_pairs (self, tyre, (int) pin_value (self, "steps"));
  for (guint i = 0; i < pairs->len; i++)
    add_row (self, &now, &g_array_index (pairs, PinGearPair, i));
  draw (self, &now, pairs);
}

const PinSum pin_sum_gear_chart = {
  .id = "gear-chart",
  .title = N_("Gear chart"),
  .group = N_("Gearing"),
  .about = N_("Rollout of the pinions and spurs about those fitted, what is in the box and what the motor's slot "
              "allows."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Geometry of a rolling wheel; definition of the module (ISO 21771). The motor's rise with the square "
               "of the rollout is the loss in the copper alone (Joule's law). The limit of 70 °C is common practice."),
  .validity = N_("Without slip. The temperatures are an estimate and a floor. Distances are those without play: the "
                 "mesh adds a tenth of a millimetre or so."),
  .hazard = N_("Warning: a pinion under power takes fingers and hair. Unplug the pack before working at the gears."),
  .work = work,
};
