#include "inspection/judge.h"

#include <math.h>
#include <string.h>

#include "maths/repeats.h"

/* What the repeats come to, by the way that the step asks for. */
double
pin_judge_take (const PinMeasure *measure, const double *repeats, guint n)
{
  switch (measure->take)
    {
    case PIN_TAKE_MEDIAN:
      return pin_repeats_median (repeats, n);
    case PIN_TAKE_MEAN:
      return pin_repeats_mean (repeats, n);
    case PIN_TAKE_MIN:
      return pin_repeats_min (repeats, n);
    case PIN_TAKE_MAX:
      return pin_repeats_max (repeats, n);
    }
  return NAN;
}

static double
reference_for (PinAgainst against, const PinReferences *references)
{
  switch (against)
    {
    case PIN_AGAINST_PARTNER:
      return references->partner;
    case PIN_AGAINST_BASELINE:
      return references->baseline;
    case PIN_AGAINST_NEW:
      return references->best;
    case PIN_AGAINST_LAST_FILL:
      return references->last_fill;
    case PIN_AGAINST_PLAIN:
      break;
    }
  return NAN;
}

/* A band as two edges in the canonical unit; NAN is an open end. */
static void
band_edges (const PinBand *band, double reference, double *low, double *high)
{
  double scale = band->relative ? reference : 1;

  *low = isnan (band->min) ? NAN : band->min * scale;
  *high = isnan (band->max) ? NAN : band->max * scale;
  if (!isnan (band->within))
    {
      double most = band->within_share ? band->within * fabs (reference) : band->within;

      *low = reference - most;
      *high = reference + most;
    }
}

/* Edges belong to the band: 0.5 mm is within "at most 0.5 mm".  The width of a
 * last rounding is allowed for, since 69 °F and 0.1 mm are no exact doubles. */
static gboolean
inside (double value, double low, double high)
{
  double slack = 1e-9 * fmax (fabs (value), 1e-6);

  return (isnan (low) || value >= low - slack) && (isnan (high) || value <= high + slack);
}

static gboolean
limits_fit (const PinLimits *limits, const PinReferences *references)
{
  return (limits->scale == NULL || g_strcmp0 (limits->scale, references->scale) == 0) &&
         (limits->power == NULL || g_strcmp0 (limits->power, references->power) == 0) &&
         (limits->surface == NULL || g_strcmp0 (limits->surface, references->surface) == 0);
}

static PinProposal
judge_by (const PinLimits *limits, double value, double reference)
{
  PinProposal proposal = { .limits = limits, .against = limits->against, .reference = reference,
                           .watch_min = NAN, .watch_max = NAN };

  band_edges (&limits->pass, reference, &proposal.pass_min, &proposal.pass_max);
  if (limits->has_watch)
    band_edges (&limits->watch, reference, &proposal.watch_min, &proposal.watch_max);
  if (inside (value, proposal.pass_min, proposal.pass_max))
    proposal.outcome = PIN_OUTCOME_PASS;
  else if (limits->has_watch && inside (value, proposal.watch_min, proposal.watch_max))
    proposal.outcome = PIN_OUTCOME_WATCH;
  else
    proposal.outcome = PIN_OUTCOME_FAIL;
  return proposal;
}

/* For each of baseline, new, partner, last fill and plain limits the first
 * that fits the car judges @value (canonical unit); the worst is proposed.
 * What there is no reference for proposes nothing.  A limit of the keeper's own
 * judges alone. */
PinProposal
pin_judge (const PinMeasure *measure, double value, const PinReferences *references)
{
  PinProposal worst = { .reference = NAN, .pass_min = NAN, .pass_max = NAN,
                        .watch_min = NAN, .watch_max = NAN };
  gboolean seen[PIN_AGAINST_LAST_FILL + 1] = { FALSE };

  if (references->own && isfinite (value))
    {
      worst = judge_by (references->own, value, NAN);
      worst.own = TRUE;
      return worst;
    }
  for (guint i = 0; i < measure->limits->len && isfinite (value); i++)
    {
      const PinLimits *limits = g_ptr_array_index (measure->limits, i);
      double reference = reference_for (limits->against, references);
      PinProposal proposal;

      if (seen[limits->against] || !limits_fit (limits, references))
        continue;
      seen[limits->against] = TRUE;
      if (limits->against != PIN_AGAINST_PLAIN && isnan (reference))
        continue;
      proposal = judge_by (limits, value, reference);
      if (pin_outcome_weight (proposal.outcome) > pin_outcome_weight (worst.outcome))
        worst = proposal;
    }
  return worst;
}

/* The value of condition @name in "ambient=21;wheels=off". */
static char *
condition (const char *conditions, const char *name)
{
  g_auto (GStrv) pairs = g_strsplit (conditions ? conditions : "", ";", -1);

  for (guint i = 0; pairs[i]; i++)
    {
      const char *equals = strchr (pairs[i], '=');

      if (equals && strlen (name) == (gsize) (equals - pairs[i]) && g_str_has_prefix (pairs[i], name))
        return g_strdup (equals + 1);
    }
  return NULL;
}

/* "Nearly" is for what changes a hand reading a little: within 10 in the
 * condition's own unit (10 °C of ambient; from memory, a working choice). */
static gboolean
nearly (const char *a, const char *b)
{
  double x, y;

  if (a == NULL || b == NULL)
    return TRUE;
  if (!pin_number_parse (a, &x) || !pin_number_parse (b, &y))
    return g_str_equal (a, b);
  return fabs (x - y) <= 10;
}

/* Whether two readings were taken alike enough to be compared. */
gboolean
pin_conditions_alike (const PinQuantity *quantity, const char *a, const char *b)
{
  for (guint i = 0; quantity && quantity->exactly && quantity->exactly[i]; i++)
    {
      g_autofree char *x = condition (a, quantity->exactly[i]);
      g_autofree char *y = condition (b, quantity->exactly[i]);

      if (g_strcmp0 (x, y) != 0)
        return FALSE;
    }
  for (guint i = 0; quantity && quantity->nearly && quantity->nearly[i]; i++)
    {
      g_autofree char *x = condition (a, quantity->nearly[i]);
      g_autofree char *y = condition (b, quantity->nearly[i]);

      if (!nearly (x, y))
        return FALSE;
    }
  return TRUE;
}

static gboolean
resets (const PinQuantity *quantity, const char *deed)
{
  return quantity->reset && g_strv_contains ((const char *const *) quantity->reset, deed);
}

/* Work on any part resets what is measured on the whole car. */
static gboolean
has_reset_between (const GPtrArray *works, gint64 thing, gboolean whole,
                   const PinQuantity *quantity, const PinReading *from, gint64 before)
{
  for (guint i = 0; i < works->len; i++)
    {
      const PinWork *work = g_ptr_array_index (works, i);

      if ((whole || work->thing == thing) && resets (quantity, work->deed) && work->id > from->id &&
          (before == 0 || work->id < before) && g_strcmp0 (work->day, from->day) >= 0)
        return TRUE;
    }
  return FALSE;
}

/* Fills baseline and best of @references: baseline is the first good reading
 * of @thing taken alike since the last deed that resets the quantity, best is
 * the best ever, if more or less is better.  NAN where there is none. */
void
pin_judge_baseline (const GPtrArray *readings, const GPtrArray *works, gint64 thing,
                    gboolean whole, const PinQuantity *quantity, const char *conditions,
                    gint64 before, GHashTable *good, PinReferences *references)
{
  references->baseline = references->best = NAN;
  references->baseline_day[0] = '\0';
  for (guint i = 0; quantity && i < readings->len; i++)
    {
      const PinReading *reading = g_ptr_array_index (readings, i);

      if (reading->thing != thing || !g_str_equal (reading->quantity, quantity->id) ||
          (before && reading->id >= before) ||
          !pin_conditions_alike (quantity, reading->conditions, conditions))
        continue;
      if (good && reading->answer && !g_hash_table_contains (good, &reading->answer))
        continue;
      if (quantity->better &&
          (isnan (references->best) || (reading->value - references->best) * quantity->better > 0))
        references->best = reading->value;
      if (!isnan (references->baseline) || has_reset_between (works, thing, whole, quantity, reading, before))
        continue;
      references->baseline = reading->value;
      g_strlcpy (references->baseline_day, reading->day, sizeof references->baseline_day);
    }
}
