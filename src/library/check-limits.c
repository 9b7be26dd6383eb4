#include <glib/gi18n.h>
#include <math.h>

#include "library/check.h"

static gboolean
same (double a, double b)
{
  return a == b || (isnan (a) && isnan (b));
}

/* Whether @outer leaves room for @inner, and somewhere more than that. */
static gboolean
is_nested (const PinBand *inner, const PinBand *outer)
{
  /* An open end holds everything; a closed one holds no open one. */
  if (!isnan (outer->min) && !(inner->min >= outer->min))
    return FALSE;
  if (!isnan (outer->max) && !(inner->max <= outer->max))
    return FALSE;
  if (!isnan (outer->within) && !(inner->within <= outer->within))
    return FALSE;
  return !(same (inner->min, outer->min) && same (inner->max, outer->max) &&
           same (inner->within, outer->within));
}

/* Both say it by bounds, or both by a difference, in the same manner. */
static gboolean
is_alike (const PinBand *a, const PinBand *b)
{
  return isnan (a->within) == isnan (b->within) && a->within_share == b->within_share &&
         a->relative == b->relative;
}

static void
check_band (PinCheck *check, const PinLimits *limits, const PinBand *band, const char *name)
{
  if (band->min > band->max)
    pin_remark (check->remarks, limits->line, _("min of <%s> is above its max, swap them"), name);
}

static void
check_nesting (PinCheck *check, const PinLimits *limits)
{
  if (!limits->has_watch)
    return;
  if (!is_alike (&limits->pass, &limits->watch))
    pin_remark (check->remarks, limits->line,
                _("<pass> and <watch> are said in different ways, write both with min and max, or both "
                "with within, in the same kind of unit"));
  else if (!is_nested (&limits->pass, &limits->watch))
    pin_remark (check->remarks, limits->line,
                _("<pass> does not lie inside <watch>, make <watch> the wider of the two"));
}

/* Limits after others that fit wherever they do never judge.  Only those that
 * fit everywhere are looked for: that is the slip that is made. */
static void
check_order (PinCheck *check, const PinMeasure *measure)
{
  const PinLimits *general[PIN_AGAINST_LAST_FILL + 1] = { NULL };

  for (guint i = 0; i < measure->limits->len; i++)
    {
      const PinLimits *limits = measure->limits->pdata[i];
      const PinLimits *before = general[limits->against];

      if (before != NULL)
        pin_remark (check->remarks, limits->line,
                    _("these limits never judge, as those in line %d fit first; put them above"), before->line);
      else if (limits->scale == NULL && limits->power == NULL && limits->surface == NULL)
        general[limits->against] = limits;
    }
}

/* Bands are the right way round, nested, and each can judge. */
void
pin_check_limits (PinCheck *check, const PinMeasure *measure)
{
  for (guint i = 0; i < measure->limits->len; i++)
    {
      const PinLimits *limits = measure->limits->pdata[i];

      check_band (check, limits, &limits->pass, "pass");
      check_band (check, limits, &limits->watch, "watch");
      check_nesting (check, limits);
    }
  check_order (check, measure);
}
