#include "maths/pairs.h"

#include <math.h>

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_statistics.h>

#include "maths/repeats.h"

#define NORMAL_MAD 1.4826     /* of the MAD to a standard deviation, for a normal distribution */
#define NORMAL_975 1.96
#define NO_SPREAD 1e-13       /* of the size of the readings: rounding, no scatter */

enum { MOST = 64 };           /* as of the repeats */

static PinMathsStatus
check (const double *values, size_t n, size_t fewest)
{
  if (n < fewest)
    return PIN_MATHS_TOO_FEW;
  if (n > MOST)
    return PIN_MATHS_RANGE;
  for (size_t i = 0; i < n; i++)
    if (!isfinite (values[i]))
      return PIN_MATHS_NOT_FINITE;
  return PIN_MATHS_OK;
}

/* The middle of the distances from the middle.  At most 64 values.  Errors:
 * TOO_FEW, RANGE (more than 64), NOT_FINITE. */
PinMathsStatus
pin_pairs_mad (const double *values, size_t n, double *mad)
{
  double off[MOST];
  PinMathsStatus status = check (values, n, 1);
  double middle;

  if (status != PIN_MATHS_OK)
    return status;
  middle = pin_repeats_median (values, n);
  for (size_t i = 0; i < n; i++)
    off[i] = fabs (values[i] - middle);
  *mad = pin_repeats_median (off, n);
  return PIN_MATHS_OK;
}

/* How far the oddest reading is from the middle, in MADs made alike to standard
 * deviations; beyond 3.5 it is taken for an outlier.
 *
 *   score = |x − median| / (1.4826 MAD)
 *
 * Source: Iglewicz and Hoaglin 1993 (limit and, as 0.6745, the factor; from memory).  Errors: as of
 * pin_pairs_mad(); DEGENERATE for a MAD of 0. */
PinMathsStatus
pin_pairs_oddest (const double *values, size_t n, double *score, size_t *which)
{
  double mad, middle;
  size_t found = 0;
  PinMathsStatus status = pin_pairs_mad (values, n, &mad);

  if (status != PIN_MATHS_OK)
    return status;
  middle = pin_repeats_median (values, n);
  if (mad <= NO_SPREAD * fabs (middle))
    return PIN_MATHS_DEGENERATE;
  for (size_t i = 1; i < n; i++)
    if (fabs (values[i] - middle) > fabs (values[found] - middle))
      found = i;
  *score = fabs (values[found] - middle) / (NORMAL_MAD * mad);
  *which = found;
  return PIN_MATHS_OK;
}

/* t, p and the interval from a difference and its error.  @size: of the readings,
 * against which an error is none. */
static PinMathsStatus
contrast_of (double difference, double error, double freedom, double size, PinContrast *to)
{
  double half;

  if (!isfinite (difference) || !isfinite (error) || !isfinite (freedom))
    return PIN_MATHS_NOT_FINITE;
  if (error <= NO_SPREAD * size || freedom <= 0)
    return PIN_MATHS_DEGENERATE;
  half = gsl_cdf_tdist_Pinv (0.975, freedom) * error;
  if (!isfinite (half))
    return PIN_MATHS_NO_ANSWER;
  *to = (PinContrast) { difference, error, difference / error, freedom, 0, difference - half, difference + half };
  to->p = 2 * gsl_cdf_tdist_Q (fabs (to->t), freedom);
  return PIN_MATHS_OK;
}

static double
size_of (const double *values, size_t n)
{
  return fmax (fabs (pin_repeats_min (values, n)), fabs (pin_repeats_max (values, n)));
}

/* Student's t of the differences of pairs: freedom n − 1.  2 to 64 pairs.  Source:
 * Student 1908.  Errors: TOO_FEW, NOT_FINITE; DEGENERATE where all differences are
 * alike. */
PinMathsStatus
pin_pairs_paired (const double *first, const double *second, size_t n, PinContrast *contrast)
{
  double off[MOST];
  PinMathsStatus status = check (first, n, 2);

  if (status == PIN_MATHS_OK)
    status = check (second, n, 2);
  if (status != PIN_MATHS_OK)
    return status;
  for (size_t i = 0; i < n; i++)
    off[i] = first[i] - second[i];
  return contrast_of (gsl_stats_mean (off, 1, n), gsl_stats_sd (off, 1, n) / sqrt (n), n - 1,
                      size_of (first, n) + size_of (second, n), contrast);
}

/* t of two means whose scatter may differ, with the freedom of Welch and
 * Satterthwaite.  2 to 64 of each.  Source: Welch 1947.  Errors: as above. */
PinMathsStatus
pin_pairs_welch (const double *first, size_t n_first, const double *second, size_t n_second, PinContrast *contrast)
{
  PinMathsStatus status = check (first, n_first, 2);

  if (status == PIN_MATHS_OK)
    status = check (second, n_second, 2);
  if (status != PIN_MATHS_OK)
    return status;
  return pin_pairs_estimates (gsl_stats_mean (first, 1, n_first), gsl_stats_sd (first, 1, n_first) / sqrt (n_first),
                              n_first - 1, gsl_stats_mean (second, 1, n_second),
                              gsl_stats_sd (second, 1, n_second) / sqrt (n_second), n_second - 1, contrast);
}

/* t of two means that are taken to scatter alike: the same hand and the same
 * stopwatch.  At least one of each and three in all, at most 64 of each.  Source:
 * Student's two-sample t.  Errors: as above. */
PinMathsStatus
pin_pairs_pooled (const double *first, size_t n_first, const double *second, size_t n_second, PinContrast *contrast)
{
  PinMathsStatus status = check (first, n_first, 1);
  double squares, mean, other, freedom = (double) n_first + (double) n_second - 2;

  if (status == PIN_MATHS_OK)
    status = check (second, n_second, 1);
  if (status == PIN_MATHS_OK && freedom < 1)
    status = PIN_MATHS_TOO_FEW;
  if (status != PIN_MATHS_OK)
    return status;
  mean = gsl_stats_mean (first, 1, n_first);
  other = gsl_stats_mean (second, 1, n_second);
  squares = gsl_stats_tss_m (first, 1, n_first, mean) + gsl_stats_tss_m (second, 1, n_second, other);
  return contrast_of (mean - other, sqrt (squares / freedom * (1.0 / n_first + 1.0 / n_second)), freedom,
                      size_of (first, n_first) + size_of (second, n_second), contrast);
}

/* The same of two estimates with their standard errors and freedoms, such as of
 * two fits.  Errors: NOT_FINITE; RANGE for a negative error or a freedom of 0;
 * DEGENERATE where neither has an error. */
PinMathsStatus
pin_pairs_estimates (double first, double first_error, double first_freedom, double second, double second_error,
                     double second_freedom, PinContrast *contrast)
{
  double a = first_error * first_error, b = second_error * second_error;

  if (!isfinite (first) || !isfinite (first_error) || !isfinite (first_freedom) || !isfinite (second)
      || !isfinite (second_error) || !isfinite (second_freedom))
    return PIN_MATHS_NOT_FINITE;
  if (first_error < 0 || second_error < 0 || first_freedom <= 0 || second_freedom <= 0)
    return PIN_MATHS_RANGE;
  if (!(a + b > 0))
    return PIN_MATHS_DEGENERATE;
  /* By shares, which neither over- nor underflow. */
  a /= first_error * first_error + b;
  b = 1 - a;
  return contrast_of (first - second, hypot (first_error, second_error),
                      1 / (a * a / first_freedom + b * b / second_freedom), fabs (first) + fabs (second), contrast);
}

/* Between which limits 95 of 100 differences lie: mean ± 1.96 sd.  2 to 64 pairs.
 * Source: Bland and Altman 1986.  Errors: TOO_FEW, RANGE, NOT_FINITE. */
PinMathsStatus
pin_pairs_agreement (const double *first, const double *second, size_t n, double *low, double *high)
{
  double off[MOST];
  double mean, sd;
  PinMathsStatus status = check (first, n, 2);

  if (status == PIN_MATHS_OK)
    status = check (second, n, 2);
  if (status != PIN_MATHS_OK)
    return status;
  for (size_t i = 0; i < n; i++)
    off[i] = first[i] - second[i];
  mean = gsl_stats_mean (off, 1, n);
  sd = gsl_stats_sd (off, 1, n);
  *low = mean - NORMAL_975 * sd;
  *high = mean + NORMAL_975 * sd;
  return PIN_MATHS_OK;
}
