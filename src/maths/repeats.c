#include "maths/repeats.h"

#include <math.h>
#include <string.h>

#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics.h>

/* A person repeats a reading a handful of times; more than this is no hand
 * measurement and is refused rather than allocated for. */
enum { MOST = 64 };

/* The middle of @n repeats, in their own unit; the mean of the middle two for
 * an even count (gsl_stats_median_from_sorted_data).  NAN for none, for more
 * than 64, or if any is not finite. */
double
pin_repeats_median (const double *values, size_t n)
{
  double sorted[MOST];

  if (n == 0 || n > MOST)
    return NAN;
  for (size_t i = 0; i < n; i++)
    if (!isfinite (values[i]))
      return NAN;
  memcpy (sorted, values, n * sizeof *sorted);
  gsl_sort (sorted, 1, n);
  return gsl_stats_median_from_sorted_data (sorted, 1, n);
}

double
pin_repeats_mean (const double *values, size_t n)
{
  return n ? gsl_stats_mean (values, 1, n) : NAN;
}

double
pin_repeats_min (const double *values, size_t n)
{
  return n ? gsl_stats_min (values, 1, n) : NAN;
}

double
pin_repeats_max (const double *values, size_t n)
{
  return n ? gsl_stats_max (values, 1, n) : NAN;
}

/* Greatest less least, in the repeats' own unit; 0 for one, NAN for none. */
double
pin_repeats_spread (const double *values, size_t n)
{
  return n ? gsl_stats_max (values, 1, n) - gsl_stats_min (values, 1, n) : NAN;
}
