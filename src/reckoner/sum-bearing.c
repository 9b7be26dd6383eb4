#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/bearings.h"
#include "reckoner/turning.h"

#define EXACT 0.06            /* mm in all: what callipers miss */
#define NEAR 2.5              /* mm in all */
#define MOST_ROWS 8
#define GREASE_LIMIT 500000   /* mm/min: greased and shielded, from memory */

static const char *const closures[] = { "closed", "open", NULL };

static const PinInput inputs[] = {
  { .id = "bore", .title = N_("Bore"), .unit = "mm", .least = 1, .most = 30, .preset = "" },
  { .id = "outside", .title = N_("Outside"), .unit = "mm", .least = 3, .most = 62, .preset = "" },
  { .id = "width", .title = N_("Width"), .unit = "mm", .least = 1, .most = 20, .preset = "" },
  { .id = "closure", .title = N_("Closure"), .kind = PIN_INPUT_CHOICE, .choices = closures, .preset = "closed",
    .hint = N_("With shields or seals, or open: the width depends on it") },
  PIN_TURNING_INPUTS,
  { 0 },
};

static const PinColumn columns[] = {
  { .id = "designation", .title = N_("Designation") },
  { .id = "also", .title = N_("Also") },
  { .id = "bore", .title = N_("Bore"), .unit = "mm", .decimals = 1 },
  { .id = "outside", .title = N_("Outside"), .unit = "mm", .decimals = 1 },
  { .id = "width", .title = N_("Width"), .unit = "mm", .decimals = 1 },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "designation", .title = N_("Designation"), .kind = PIN_OUTPUT_TEXT },
  { .id = "fits", .title = N_("In the table"), .kind = PIN_OUTPUT_GATE },
  { .id = "turning", .title = N_("Speed of turning"), .unit = "rpm", .decimals = 0 },
  { .id = "speed-factor", .title = N_("Speed factor, mm/min"), .unit = "1", .decimals = 0 },
  { .id = "sizes", .title = N_("Sizes, nearest first"), .kind = PIN_OUTPUT_TABLE, .columns = columns },
  { 0 },
};

static const char *const formulas[] = {
  N_("speed of turning = top speed ÷ (π × tyre diameter)"),
  N_("speed factor = speed of turning × (bore + outside) ÷ 2"),
  NULL,
};

typedef struct
{
  const PinBearing *bearing;
  double miss;
} Match;

static int
by_miss (gconstpointer a, gconstpointer b)
{
  const Match *one = a, *two = b;

  return one->miss < two->miss ? -1 : one->miss > two->miss;
}

static GArray *
matches (PinReckoning *self, gboolean closed)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (Match));
  size_t n;
  const PinBearing *all = pin_bearings (&n);

  for (size_t i = 0; i < n; i++)
    {
      Match match = { &all[i], pin_bearing_miss (&all[i], pin_value (self, "bore"), pin_value (self, "outside"),
                                                 pin_value (self, "width"), closed) };

      g_array_append_val (found, match);
    }
  g_array_sort (found, by_miss);
  return found;
}

static void
tell_speed (PinReckoning *self, const PinBearing *bearing)
{
  double turns = pin_turning_speed (self), factor;

  if (isnan (turns)
      || !pin_ok (self, pin_bearing_speed_factor (turns, bearing->bore * 1e-3, bearing->outside * 1e-3, &factor),
                  _("the speed factor")))
    return;
  pin_result_value (self, "turning", turns);
  pin_result_value (self, "speed-factor", factor);
  if (!pin_given (self, "speed"))
    pin_figures (self, 0, "%s ÷ (π × %s) = %s", pin_say (self, pin_value (self, "top-speed"), "km/h", 1),
                 pin_say (self, pin_value (self, "tyre"), "mm", 1), pin_say (self, turns, "rpm", 0));
  pin_figures (self, 1, "%s × (%g + %g) ÷ 2 = %.0f mm/min", pin_say (self, turns, "rpm", 0), bearing->bore,
               bearing->outside, factor);
  if (factor > GREASE_LIMIT)
    pin_warn (self, _("Above 500 000 mm/min grease is thrown out: thin oil, renewed often, and a bearing made for "
                      "it."));
}

static void
tell_size (PinReckoning *self, const Match *best, gboolean closed)
{
  const PinBearing *bearing = best->bearing;
  double width = closed ? bearing->closed : bearing->open;
  gboolean exact = best->miss <= EXACT;

  pin_result_gate (self, "fits", exact ? PIN_GATE_MET : PIN_GATE_NOT_MET, _("nearest is %g × %g × %g, %.2f mm off"),
                   bearing->bore, bearing->outside, width, best->miss);
  if (exact)
    {
      pin_result_text (self, "designation", "%s", bearing->designation);
      pin_answer (self, _("%g × %g × %g mm is %s."), bearing->bore, bearing->outside, width, bearing->designation);
      tell_speed (self, bearing);
      return;
    }
  pin_answer (self, _("No bearing of the table has these measures; nearest is %s, %g × %g × %g mm."),
              bearing->designation, bearing->bore, bearing->outside, width);
  pin_warn (self, _("Inch bearings and engine bearings are in no metric series: measure again, and look at the maker's "
                    "list of parts."));
}

static void
work (PinReckoning *self)
{
  gboolean closed = g_str_equal (pin_choice (self, "closure"), "closed");
  g_autoptr (GArray) found = NULL;

  if (pin_given (self, "bore") + pin_given (self, "outside") + pin_given (self, "width") < 2)
    {
      pin_refuse (self, _("give two measures of bore, outside and width"));
      return;
    }
  found = matches (self, closed);
  for (guint i = 0; i < MIN (found->len, MOST_ROWS); i++)
    {
      const Match *match = &g_array_index (found, Match, i);

      if (i > 0 && match->miss > NEAR)
        break;
      pin_result_row (self, "sizes", match->bearing->designation, match->bearing->also, match->bearing->bore * 1e-3,
                      match->bearing->outside * 1e-3,
                      (closed ? match->bearing->closed : match->bearing->open) * 1e-3);
      if (i == 0 && match->miss <= EXACT)
        pin_result_mark_row (self, "sizes");
    }
  if (found->len > 1 && g_array_index (found, Match, 1).miss <= EXACT)
    pin_warn (self, _("More than one size has these measures: take the third one too."));
  tell_size (self, &g_array_index (found, Match, 0), closed);
}

const PinSum pin_sum_bearing = {
  .id = "bearing",
  .title = N_("Bearing size"),
  .group = N_("Bearings"),
  .about = N_("Which bearing it is, from any two of its measures, and its speed factor."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Boundary dimensions: ISO 15, most of them printed alike in two open tables, a few from memory. The "
               "limit of the speed factor is from memory."),
  .validity = N_("Metric ball bearings as cars use them. The width belongs to designation and closure together. A "
                 "flange or a suffix for shields and seals is not told by the measures."),
  .work = work,
};
