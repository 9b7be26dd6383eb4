#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "maths/pairs.h"
#include "maths/repeats.h"
#include "reckoner/work.h"

#define ODD 3.5               /* MADs made alike to standard deviations */

static const char *const ways[] = { "apart", "pairs", NULL };

static const PinInput inputs[] = {
  { .id = "left", .title = N_("Left"), .kind = PIN_INPUT_LIST, .unit = "1", .least = -1e6, .most = 1e6, .fewest = 2,
    .at_most = 60, .hint = N_("Readings without a unit, left and right in the same one") },
  { .id = "right", .title = N_("Right"), .kind = PIN_INPUT_LIST, .unit = "1", .least = -1e6, .most = 1e6, .fewest = 2,
    .at_most = 60 },
  { .id = "readings", .title = N_("Readings belong together"), .kind = PIN_INPUT_CHOICE, .choices = ways,
    .preset = "apart", .hint = N_("Pairs: the first with the first and so on; apart: repeats of each side") },
  { .id = "gauge", .title = N_("Step of the gauge"), .unit = "1", .least = 0, .most = 1e5, .preset = "" },
  { .id = "allowed", .title = N_("Difference allowed"), .unit = "1", .least = 0, .most = 1e6, .preset = "" },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "difference", .title = N_("Left less right"), .unit = "1", .decimals = 3 },
  { .id = "low", .title = N_("At least, 95 %"), .unit = "1", .decimals = 3 },
  { .id = "high", .title = N_("At most, 95 %"), .unit = "1", .decimals = 3 },
  { .id = "t", .title = N_("t"), .unit = "1", .decimals = 3 },
  { .id = "freedom", .title = N_("Degrees of freedom"), .unit = "1", .decimals = 2 },
  { .id = "p", .title = N_("By chance, p"), .unit = "1", .decimals = 4 },
  { .id = "agreement-low", .title = N_("Limits of agreement, from"), .unit = "1", .decimals = 3 },
  { .id = "agreement-high", .title = N_("Limits of agreement, to"), .unit = "1", .decimals = 3 },
  { .id = "left-median", .title = N_("Left, middle"), .unit = "1", .decimals = 3 },
  { .id = "right-median", .title = N_("Right, middle"), .unit = "1", .decimals = 3 },
  { .id = "left-spread", .title = N_("Left, spread"), .unit = "1", .decimals = 3 },
  { .id = "right-spread", .title = N_("Right, spread"), .unit = "1", .decimals = 3 },
  { .id = "left-mad", .title = N_("Left, median distance from the middle"), .unit = "1", .decimals = 3 },
  { .id = "right-mad", .title = N_("Right, median distance from the middle"), .unit = "1", .decimals = 3 },
  { .id = "left-oddest", .title = N_("Left, oddest reading by that"), .unit = "1", .decimals = 1 },
  { .id = "right-oddest", .title = N_("Right, oddest reading by that"), .unit = "1", .decimals = 1 },
  { .id = "alike", .title = N_("Left and right are alike as far as can be told"), .kind = PIN_OUTPUT_GATE },
  { .id = "within", .title = N_("Within what is allowed"), .kind = PIN_OUTPUT_GATE },
  { 0 },
};

static const char *const formulas[] = {
  N_("t of pairs = mean difference ÷ (sd of the differences ÷ √pairs)"),
  N_("t apart = difference of the means ÷ √(sd² ÷ n left + sd² ÷ n right), Welch's degrees of freedom"),
  N_("limits of agreement = mean difference ± 1.96 × sd of the differences"),
  N_("oddest = distance from the median ÷ (1.4826 × median distance)"),
  NULL,
};

static const double *
numbers (const GArray *list)
{
  return (const double *) list->data;
}

static void
tell_side (PinReckoning *self, const char *side, const GArray *list)
{
  g_autofree char *median = g_strconcat (side, "-median", NULL);
  g_autofree char *spread = g_strconcat (side, "-spread", NULL);
  g_autofree char *mad_id = g_strconcat (side, "-mad", NULL);
  g_autofree char *oddest = g_strconcat (side, "-oddest", NULL);
  double mad, score;
  size_t which;

  pin_result_value (self, median, pin_repeats_median (numbers (list), list->len));
  pin_result_value (self, spread, pin_repeats_spread (numbers (list), list->len));
  if (!pin_ok (self, pin_pairs_mad (numbers (list), list->len, &mad), _("the spread")))
    return;
  pin_result_value (self, mad_id, mad);
  if (pin_pairs_oddest (numbers (list), list->len, &score, &which) != PIN_MATHS_OK)
    return;
  pin_result_value (self, oddest, score);
  pin_figures (self, 3, "|%s − %s| ÷ (1.4826 × %s) = %s", pin_say (self, numbers (list)[which], "1", 3),
               pin_say (self, pin_repeats_median (numbers (list), list->len), "1", 3), pin_say (self, mad, "1", 3),
               pin_say (self, score, "1", 1));
  if (score > ODD && list->len >= 5)
    pin_warn (self, _("The reading %s is far from its fellows: measure that one again before leaving it out."),
              pin_say (self, numbers (list)[which], "1", 3));
}

/* All readings of a side alike: only the gauge can tell. */
static void
tell_without_scatter (PinReckoning *self, double difference)
{
  double step = pin_given (self, "gauge") ? pin_value (self, "gauge") : NAN;
  const char *said = pin_say (self, difference, "1", 3);

  pin_result_value (self, "difference", difference);
  if (isnan (step))
    {
      pin_result_gate (self, "alike", PIN_GATE_UNKNOWN, _("the readings do not scatter, so the gauge's step decides"));
      pin_answer (self, _("Left less right is %s, and the readings do not scatter: give the step of the gauge."), said);
      return;
    }
  pin_result_gate (self, "alike", fabs (difference) > step ? PIN_GATE_NOT_MET : PIN_GATE_MET,
                   _("%s, and the gauge steps by %s"), said, pin_say (self, step, "1", 3));
  pin_answer (self, fabs (difference) > step ? _("Left less right is %s: more than a step of the gauge.")
                                             : _("Left less right is %s: no more than a step of the gauge."), said);
}

static void
tell_contrast (PinReckoning *self, const PinContrast *it)
{
  double step = pin_given (self, "gauge") ? pin_value (self, "gauge") : 0;
  gboolean differs = it->p < 0.05 && fabs (it->difference) > step;
  const char *said = pin_say (self, it->difference, "1", 3);

  pin_result_estimate (self, "difference", it->difference, it->error);
  pin_result_value (self, "low", it->low);
  pin_result_value (self, "high", it->high);
  pin_result_value (self, "t", it->t);
  pin_result_value (self, "freedom", it->freedom);
  pin_result_value (self, "p", it->p);
  pin_result_gate (self, "alike", differs ? PIN_GATE_NOT_MET : PIN_GATE_MET, _("p = %.4f, 95 %% from %s to %s"), it->p,
                   pin_say (self, it->low, "1", 3), pin_say (self, it->high, "1", 3));
  pin_answer (self, differs ? _("Left and right differ by %s, more than the measurement can err.")
                            : _("The difference of %s is within what the measurement can tell."), said);
}

static void
tell_allowed (PinReckoning *self, const PinContrast *it, double difference)
{
  double allowed = pin_value (self, "allowed");
  double low = it != NULL ? it->low : difference, high = it != NULL ? it->high : difference;
  PinGate gate = PIN_GATE_UNKNOWN;

  if (!pin_given (self, "allowed"))
    return;
  if (low >= -allowed && high <= allowed)
    gate = PIN_GATE_MET;
  else if (low > allowed || high < -allowed)
    gate = PIN_GATE_NOT_MET;
  pin_result_gate (self, "within", gate, gate == PIN_GATE_UNKNOWN ? _("%s to %s straddles it: more repeats")
                                                                  : _("%s to %s"),
                   pin_say (self, low, "1", 3), pin_say (self, high, "1", 3));
}

static void
draw (PinReckoning *self, const GArray *left, const GArray *right)
{
  PinChart *chart = pin_chart_new (_("Readings in their order"), _("reading"), "");
  const GArray *const sides[] = { left, right };

  for (int side = 0; side < 2; side++)
    {
      PinSeries *series = pin_chart_add_series (chart, side ? _("right") : _("left"), PIN_SERIES_BOTH, side);

      for (guint i = 0; i < sides[side]->len; i++)
        pin_series_add (series, i + 1, numbers (sides[side])[i]);
    }
  pin_result_chart (self, chart);
}

static PinMathsStatus
contrast_of (PinReckoning *self, const GArray *left, const GArray *right, PinContrast *contrast)
{
  double low, high;
  PinMathsStatus status;
  int nth = g_str_equal (pin_choice (self, "readings"), "pairs") ? 0 : 1;

  status = nth == 0 ? pin_pairs_paired (numbers (left), numbers (right), left->len, contrast)
                    : pin_pairs_welch (numbers (left), left->len, numbers (right), right->len, contrast);
  if (nth == 0 && pin_pairs_agreement (numbers (left), numbers (right), left->len, &low, &high) == PIN_MATHS_OK)
    {
      pin_result_value (self, "agreement-low", low);
      pin_result_value (self, "agreement-high", high);
      pin_figures (self, 2, _("%s to %s"), pin_say (self, low, "1", 3), pin_say (self, high, "1", 3));
    }
  if (status == PIN_MATHS_OK)
    pin_figures (self, nth, "%s ÷ %s = %s", pin_say (self, contrast->difference, "1", 3),
                 pin_say (self, contrast->error, "1", 4), pin_say (self, contrast->t, "1", 3));
  return status;
}

static void
work (PinReckoning *self)
{
  const GArray *left = pin_list (self, "left"), *right = pin_list (self, "right");
  double difference = pin_repeats_mean (numbers (left), left->len) - pin_repeats_mean (numbers (right), right->len);
  PinContrast contrast;
  PinMathsStatus status;

  if (g_str_equal (pin_choice (self, "readings"), "pairs") && left->len != right->len)
    {
      pin_refuse (self, _("%u readings on the left and %u on the right make no pairs"), left->len, right->len);
      return;
    }
  tell_side (self, "left", left);
  tell_side (self, "right", right);
  draw (self, left, right);
  status = contrast_of (self, left, right, &contrast);
  if (status == PIN_MATHS_DEGENERATE)
    tell_without_scatter (self, difference);
  else if (pin_ok (self, status, _("the difference")))
    tell_contrast (self, &contrast);
  tell_allowed (self, status == PIN_MATHS_OK ? &contrast : NULL, difference);
  if (MIN (left->len, right->len) < 3)
    pin_warn (self, _("Two readings of a side say little about its scatter: take three or more."));
}

const PinSum pin_sum_pair_match = {
  .id = "pair-match",
  .title = N_("Pair match"),
  .group = N_("Chassis"),
  .about = N_("Whether left and right differ more than the measurement can tell."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Student 1908 and Welch 1947 for t, Bland and Altman 1986 for the limits of agreement; 3.5 for an odd "
               "reading is Iglewicz and Hoaglin's, from memory. 5 % for chance is common practice."),
  .validity = N_("Readings that scatter evenly about their mean and were taken alike, in any order. No difference seen "
                 "is no proof of none: the 95 % figures say how large it may still be."),
  .work = work,
};
