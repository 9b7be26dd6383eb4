#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/heat.h"
#include "reckoner/gear-pairs.h"
#include "reckoner/work.h"

#define REACH 12              /* teeth either way of the pinion, without a list of those in the box */

static const PinInput inputs[] = {
  { .id = "tyre", .title = N_("Tyre diameter now"), .unit = "mm", .least = 15, .most = 300,
    .hint = N_("Standing on its wheel, with the car's weight on it") },
  { .id = "tyre-then", .title = N_("Tyre diameter then"), .unit = "mm", .least = 15, .most = 300,
    .hint = N_("The new tyre, or the same worn down or grown at speed") },
  { .id = "pinion", .title = N_("Pinion now"), .unit = "teeth", .least = 6, .most = 80, .whole = TRUE },
  { .id = "spur", .title = N_("Spur now"), .unit = "teeth", .least = 20, .most = 200, .whole = TRUE },
  { .id = "gearbox", .title = N_("Gearbox ratio"), .unit = "1", .least = 0.5, .most = 20, .preset = "1",
    .hint = N_("Turns of the spur for one of the wheel") },
  { .id = "within", .title = N_("Rollout to within"), .unit = "%", .least = 0.1, .most = 20, .preset = "3 %" },
  { .id = "own-pinions", .title = N_("Pinions in the box"), .kind = PIN_INPUT_LIST, .unit = "teeth", .least = 6,
    .most = 80, .preset = "", .at_most = 24, .whole = TRUE, .hint = N_("Left out: any within twelve teeth") },
  { .id = "own-spurs", .title = N_("Spurs in the box"), .kind = PIN_INPUT_LIST, .unit = "teeth", .least = 20,
    .most = 200, .preset = "", .at_most = 8, .whole = TRUE, .hint = N_("Left out: the one that is fitted") },
  { .id = "motor", .title = N_("Hottest motor now"), .unit = "degC", .least = -40, .most = 200, .preset = "" },
  { .id = "air", .title = N_("Air"), .unit = "degC", .least = -40, .most = 60, .preset = "",
    .hint = N_("When the motor was read") },
  { .id = "air-then", .title = N_("Air then"), .unit = "degC", .least = -40, .most = 60, .preset = "",
    .hint = N_("Left out: as it was") },
  { .id = "motor-limit", .title = N_("Motor at most"), .unit = "degC", .least = 30, .most = 150, .preset = "70 C" },
  { 0 },
};

static const PinColumn columns[] = {
  { "pinion", N_("Pinion"), "teeth", 0 },
  { "spur", N_("Spur"), "teeth", 0 },
  { "rollout", N_("Rollout"), "mm", 1 },
  { "change", N_("Against now"), "%", 1 },
  { "heat", N_("Rise at least"), "%", 0 },
  { "motor", N_("Motor at least"), "degC", 0 },
  { "note", N_("Note"), NULL, 0 },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "rollout", .title = N_("Rollout now"), .unit = "mm", .decimals = 1 },
  { .id = "rollout-then", .title = N_("Rollout then, gears as they are"), .unit = "mm", .decimals = 1 },
  { .id = "change", .title = N_("Change of gearing"), .unit = "%", .decimals = 1 },
  { .id = "heat", .title = N_("Motor's rise against now, at least"), .unit = "%", .decimals = 0 },
  { .id = "motor-then", .title = N_("Motor then, at least"), .unit = "degC", .decimals = 0 },
  { .id = "pairs", .title = N_("Gears that bring the rollout back, nearest first"), .kind = PIN_OUTPUT_TABLE,
    .columns = columns },
  { 0 },
};

static const char *const formulas[] = {
  N_("rollout = π × tyre diameter × pinion ÷ spur ÷ gearbox ratio"),
  N_("change of gearing = tyre diameter then ÷ tyre diameter now − 1"),
  N_("motor then = air then + rise now × (rollout then ÷ rollout now)²"),
  NULL,
};

/* °C with a rollout of @ratio times that of now; NAN where it is not known. */
static double
motor_at (PinReckoning *self, double ratio)
{
  double air = pin_value (self, "air"), rise;
  double then = pin_given (self, "air-then") ? pin_value (self, "air-then") : air;

  if (!pin_given (self, "motor") || !pin_given (self, "air")
      || pin_heat_geared (pin_value (self, "motor") - air, ratio, 2, &rise) != PIN_MATHS_OK)
    return NAN;
  return then + rise;
}

static void
work_motor (PinReckoning *self, double ratio)
{
  double motor = motor_at (self, ratio), air = pin_value (self, "air");

  if (isnan (motor))
    return;
  pin_result_value (self, "motor-then", motor);
  pin_figures (self, 2, "%s + %s × %s² = %s",
               pin_say (self, pin_given (self, "air-then") ? pin_value (self, "air-then") : air, "degC", 0),
               pin_say (self, pin_value (self, "motor") - air, "difC", 0), pin_say (self, ratio, "1", 3),
               pin_say (self, motor, "degC", 0));
  if (motor > pin_value (self, "motor-limit"))
    pin_warn (self, _("With the gears as they are the motor is forecast above %s: change the pinion with the tyres."),
              pin_say (self, pin_value (self, "motor-limit"), "degC", 0));
}

/* ---- gears that bring it back ------------------------------------------------------------------ */

static int
by_nearness (gconstpointer a, gconstpointer b, gpointer now)
{
  double first = fabs (log (((const PinGearPair *) a)->rollout / *(double *) now));
  double second = fabs (log (((const PinGearPair *) b)->rollout / *(double *) now));

  return (first > second) - (first < second);
}

static gboolean
is_wanted (PinReckoning *self, const PinGearPair *pair, double now)
{
  return fabs (pair->rollout / now - 1) <= pin_value (self, "within") + 1e-12
         && (!pin_given (self, "own-pinions") || pin_gear_pairs_owned (self, pair));
}

/* PinGearPair, nearest first. */
static GArray *
find_pairs (PinReckoning *self, double now)
{
  GArray *pairs = pin_gear_pairs (self, pin_value (self, "tyre-then"), pin_given (self, "own-pinions") ? 0 : REACH);

  for (guint i = pairs->len; i > 0; i--)
    if (!is_wanted (self, &g_array_index (pairs, PinGearPair, i - 1), now))
      g_array_remove_index (pairs, i - 1);
  g_array_sort_with_data (pairs, by_nearness, &now);
  return pairs;
}

static void
add_row (PinReckoning *self, const PinGearPair *pair, double now)
{
  double ratio = pair->rollout / now, motor = motor_at (self, ratio);
  gboolean fitted = pair->pinion == pin_value (self, "pinion") && pair->spur == pin_value (self, "spur");

  pin_result_row (self, "pairs", pair->pinion, pair->spur, pair->rollout, ratio - 1, ratio * ratio, motor,
                  motor > pin_value (self, "motor-limit") ? _("hot") : fitted ? _("as it is") : "");
}

static void
answer (PinReckoning *self, double change, const GArray *pairs, double now)
{
  const char *swap = fabs (change) < 5e-4 ? _("The tyres leave the gearing as it is")
                     : change > 0 ? _("Taller tyres gear it up") : _("Smaller tyres gear it down");
  const char *by = fabs (change) < 5e-4 ? "" : pin_say (self, fabs (change), "%", 1);

  if (pairs->len > 0)
    {
      const PinGearPair *best = &g_array_index (pairs, PinGearPair, 0);

      pin_answer (self, _("%s%s%s. %s on %s comes nearest to before: %s, %s off."), swap, *by ? " " : "", by,
                  pin_say (self, best->pinion, "teeth", 0), pin_say (self, best->spur, "teeth", 0),
                  pin_say (self, best->rollout, "mm", 1), pin_say (self, best->rollout / now - 1, "%", 1));
    }
  else
    pin_answer (self, _("%s%s%s. No gears of these come within %s of the rollout before."), swap, *by ? " " : "", by,
                pin_say (self, pin_value (self, "within"), "%", 1));
}

/* ---- the picture --------------------------------------------------------------------------------- */

static void
add_line (PinReckoning *self, PinChart *chart, double tyre, gboolean accent)
{
  g_autofree char *title = g_strdup_printf (_("%s tyre"), pin_say (self, tyre, "mm", -1));
  PinSeries *series = pin_chart_add_series (chart, title, PIN_SERIES_BOTH, accent);

  for (double at = MAX (6, pin_value (self, "pinion") - 3); at <= MIN (80, pin_value (self, "pinion") + 3); at++)
    {
      PinGearPair pair = { at, pin_value (self, "spur"), 0 };

      if (pin_gear_pairs_rollout (self, &pair, tyre))
        pin_series_add (series, at, 1000 * pair.rollout);
    }
}

static void
add_limit (PinReckoning *self, PinChart *chart, double now)
{
  double air = pin_given (self, "air-then") ? pin_value (self, "air-then") : pin_value (self, "air");
  double limit;

  if (isnan (motor_at (self, 1))
      || pin_heat_rollout (pin_value (self, "motor") - pin_value (self, "air"), now,
                           pin_value (self, "motor-limit") - air, &limit) != PIN_MATHS_OK)
    return;
  {
    g_autofree char *title = g_strdup_printf (_("%s at %s air"),
                                              pin_say (self, pin_value (self, "motor-limit"), "degC", 0),
                                              pin_say (self, air, "degC", 0));

    pin_chart_add_limit (chart, title, 1000 * limit, 1);
  }
}

static void
draw (PinReckoning *self, double now, const GArray *pairs)
{
  g_autofree char *title = g_strdup_printf (_("Gear chart, spur %g"), pin_value (self, "spur"));
  g_autofree char *mark = g_strdup_printf (_("now: %s, %s"), pin_say (self, pin_value (self, "pinion"), "teeth", 0),
                                           pin_say (self, now, "mm", 1));
  PinChart *chart = pin_chart_new (title, _("pinion, T"), _("rollout, mm"));

  add_line (self, chart, pin_value (self, "tyre"), FALSE);
  add_line (self, chart, pin_value (self, "tyre-then"), TRUE);
  pin_chart_add_limit (chart, _("as it runs now"), 1000 * now, 0);
  add_limit (self, chart, now);
  pin_chart_add_mark (chart, mark, pin_value (self, "pinion"), 1000 * now, FALSE);
  for (guint i = 0; i < pairs->len; i++)
    {
      const PinGearPair *pair = &g_array_index (pairs, PinGearPair, i);
      g_autofree char *then = g_strdup_printf (_("then: %s, %s"), pin_say (self, pair->pinion, "teeth", 0),
                                               pin_say (self, pair->rollout, "mm", 1));

      if (pair->spur != pin_value (self, "spur"))
        continue;
      pin_chart_add_mark (chart, then, pair->pinion, 1000 * pair->rollout, TRUE);
      break;
    }
  pin_result_chart (self, chart);
}

static void
work (PinReckoning *self)
{
  PinGearPair now = { pin_value (self, "pinion"), pin_value (self, "spur"), 0 };
  PinGearPair then = now;
  g_autoptr (GArray) pairs = NULL;
  double change = pin_value (self, "tyre-then") / pin_value (self, "tyre") - 1;

  if (!pin_gear_pairs_rollout (self, &now, pin_value (self, "tyre"))
      || !pin_gear_pairs_rollout (self, &then, pin_value (self, "tyre-then")))
    return;
  pin_result_value (self, "rollout", now.rollout);
  pin_result_value (self, "rollout-then", then.rollout);
  pin_result_value (self, "change", change);
  pin_result_value (self, "heat", (1 + change) * (1 + change));
  pin_figures (self, 0, "π × %s × %g ÷ %g ÷ %s = %s", pin_say (self, pin_value (self, "tyre"), "mm", 1), now.pinion,
               now.spur, pin_say (self, pin_value (self, "gearbox"), "1", 2), pin_say (self, now.rollout, "mm", 1));
  pin_figures (self, 1, "%s ÷ %s − 1 = %s", pin_say (self, pin_value (self, "tyre-then"), "mm", 1),
               pin_say (self, pin_value (self, "tyre"), "mm", 1), pin_say (self, change, "%", 1));
  work_motor (self, 1 + change);
  pairs = find_pairs (self, now.rollout);
  for (guint i = 0; i < pairs->len; i++)
    add_row (self, &g_array_index (pairs, PinGearPair, i), now.rollout);
  answer (self, change, pairs, now.rollout);
  draw (self, now.rollout, pairs);
}

const PinSum pin_sum_tyre_swap = {
  .id = "tyre-swap",
  .title = N_("Tyre swap"),
  .group = N_("Gearing"),
  .about = N_("What tyres of another diameter do to the gearing, and which gears bring the rollout back."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Geometry of a rolling wheel. The motor's rise with the square of the rollout is the loss in the "
               "copper alone (Joule's law). The limit of 70 °C is common practice."),
  .validity = N_("Without slip; both diameters measured the same way. The temperatures are an estimate and a floor: "
                 "measure after two minutes and after five."),
  .hazard = N_("Warning: tyres that spin without load can burst, and throw what they lost. Never stand in their plane, "
               "never hold some of the wheels to make the others spin faster."),
  .work = work,
};
