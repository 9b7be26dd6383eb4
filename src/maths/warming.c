#include "maths/warming.h"

#include <math.h>

#include <gsl/gsl_blas.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_matrix.h>
#include <gsl/gsl_multifit_nlinear.h>
#include <gsl/gsl_vector.h>

enum { MOST = 128, STEPS = 160 };
enum { FALL, LOG_CONSTANT, LAST }; /* the unknowns; the last one only if it is not known */

typedef struct
{
  const double *times, *temperatures;
  size_t n;
  double known_last;          /* NAN: to be found */
  double least_time, span;
} Readings;

static int
is_last_known (const Readings *self)
{
  return !isnan (self->known_last);
}

static size_t
unknowns (const Readings *self)
{
  return is_last_known (self) ? 2 : 3;
}

/* ---- where to begin ------------------------------------------------------------------------ */

/* For a given constant the rest is a straight line over exp (-t / constant): its
 * intercept is the last temperature, its slope the fall.  Returns the sum of the
 * squares that are left. */
static double
line_at (const Readings *self, double constant, double *fall, double *last)
{
  double mean_x = 0, mean_y = 0, sxx = 0, sxy = 0, left = 0;

  for (size_t i = 0; i < self->n; i++)
    {
      mean_x += exp (-(self->times[i] - self->least_time) / constant) / self->n;
      mean_y += self->temperatures[i] / self->n;
    }
  if (is_last_known (self))
    {
      mean_x = 0;
      mean_y = self->known_last;
    }
  for (size_t i = 0; i < self->n; i++)
    {
      double x = exp (-(self->times[i] - self->least_time) / constant) - mean_x;

      sxx += x * x;
      sxy += x * (self->temperatures[i] - mean_y);
    }
  *fall = sxx > 0 ? sxy / sxx : 0;
  *last = mean_y - *fall * mean_x;
  for (size_t i = 0; i < self->n; i++)
    {
      double x = exp (-(self->times[i] - self->least_time) / constant);
      double off = self->temperatures[i] - *last - *fall * x;

      left += off * off;
    }
  return left;
}

/* The best of many constants, from a fiftieth of the time watched to fifty times it.
 * At an end of them the readings tell no constant: they are a straight line, or all
 * but one are alike. */
static PinMathsStatus
begin (const Readings *self, double *start)
{
  double best = INFINITY, fall, last;
  int at = 0;

  for (int i = 0; i <= STEPS; i++)
    {
      double constant = self->span * pow (50, 2.0 * i / STEPS - 1);
      double left = line_at (self, constant, &fall, &last);

      if (left < best)
        {
          best = left;
          at = i;
          start[FALL] = fall;
          start[LOG_CONSTANT] = log (constant);
          start[LAST] = last;
        }
    }
  return at > 0 && at < STEPS ? PIN_MATHS_OK : PIN_MATHS_DEGENERATE;
}

/* ---- the fit ---------------------------------------------------------------------------------- */

static int
residuals (const gsl_vector *x, void *data, gsl_vector *f)
{
  const Readings *self = data;
  double last = is_last_known (self) ? self->known_last : gsl_vector_get (x, LAST);
  double constant = exp (gsl_vector_get (x, LOG_CONSTANT));

  for (size_t i = 0; i < self->n; i++)
    gsl_vector_set (f, i, last - self->temperatures[i]
                          + gsl_vector_get (x, FALL) * exp (-(self->times[i] - self->least_time) / constant));
  return GSL_SUCCESS;
}

static int
slopes (const gsl_vector *x, void *data, gsl_matrix *j)
{
  const Readings *self = data;
  double constant = exp (gsl_vector_get (x, LOG_CONSTANT));

  for (size_t i = 0; i < self->n; i++)
    {
      double time = (self->times[i] - self->least_time) / constant;

      gsl_matrix_set (j, i, FALL, exp (-time));
      gsl_matrix_set (j, i, LOG_CONSTANT, gsl_vector_get (x, FALL) * exp (-time) * time);
      if (!is_last_known (self))
        gsl_matrix_set (j, i, LAST, 1);
    }
  return GSL_SUCCESS;
}

/* The first temperature is last + fall * g, with g = exp (least_time / constant) for
 * a watch that was not read at 0 s. */
static void
take (const Readings *self, const gsl_vector *x, const gsl_matrix *covariance, double scatter, PinWarming *to)
{
  double fall = gsl_vector_get (x, FALL);
  double constant = exp (gsl_vector_get (x, LOG_CONSTANT));
  double g = exp (self->least_time / constant);
  double slope[] = { g, -fall * g * self->least_time / constant, 1 };
  double variance = 0;

  for (size_t i = 0; i < unknowns (self); i++)
    for (size_t j = 0; j < unknowns (self); j++)
      variance += slope[i] * slope[j] * gsl_matrix_get (covariance, i, j);
  to->last = is_last_known (self) ? self->known_last : gsl_vector_get (x, LAST);
  to->first = to->last + fall * g;
  to->constant = constant;
  to->scatter = scatter;
  to->last_error = is_last_known (self) ? 0 : scatter * sqrt (gsl_matrix_get (covariance, LAST, LAST));
  to->first_error = scatter * sqrt (variance);
  to->constant_error = scatter * constant * sqrt (gsl_matrix_get (covariance, LOG_CONSTANT, LOG_CONSTANT));
}

static PinMathsStatus
run (const Readings *self, gsl_multifit_nlinear_workspace *work, const double *start, PinWarming *to)
{
  gsl_multifit_nlinear_fdf fdf = { .f = residuals, .df = slopes, .n = self->n, .p = unknowns (self),
                                   .params = (void *) self };
  gsl_vector_const_view from = gsl_vector_const_view_array (start, unknowns (self));
  gsl_matrix *covariance = gsl_matrix_alloc (unknowns (self), unknowns (self));
  double free = (double) self->n - (double) unknowns (self), left;
  PinMathsStatus status = PIN_MATHS_DEGENERATE;
  int info;

  if (covariance == NULL)
    return PIN_MATHS_NO_ANSWER;
  if (gsl_multifit_nlinear_init (&from.vector, &fdf, work) == GSL_SUCCESS)
    {
      /* At the bottom no step makes it less, which it tells as no progress. */
      gsl_multifit_nlinear_driver (200, 1e-13, 1e-13, 0, NULL, NULL, &info, work);
      gsl_multifit_nlinear_covar (gsl_multifit_nlinear_jac (work), 0, covariance);
      gsl_blas_ddot (gsl_multifit_nlinear_residual (work), gsl_multifit_nlinear_residual (work), &left);
      take (self, gsl_multifit_nlinear_position (work), covariance, free > 0 ? sqrt (left / free) : NAN, to);
      status = PIN_MATHS_OK;
    }
  gsl_matrix_free (covariance);
  return status;
}

static PinMathsStatus
fit (const Readings *self, const double *start, PinWarming *to)
{
  gsl_multifit_nlinear_parameters how = gsl_multifit_nlinear_default_parameters ();
  gsl_multifit_nlinear_workspace *work
    = gsl_multifit_nlinear_alloc (gsl_multifit_nlinear_trust, &how, self->n, unknowns (self));
  PinMathsStatus status;

  if (work == NULL)
    return PIN_MATHS_NO_ANSWER;
  status = run (self, work, start, to);
  gsl_multifit_nlinear_free (work);
  return status;
}

/* ---- what it says ------------------------------------------------------------------------------ */

static PinMathsStatus
take_readings (const double *times, const double *temperatures, size_t n, double known_last, Readings *to)
{
  size_t different = 0;
  double most = -INFINITY;

  *to = (Readings) { times, temperatures, n, known_last, INFINITY, 0 };
  if (isinf (known_last))
    return PIN_MATHS_NOT_FINITE;
  if (n < unknowns (to))
    return PIN_MATHS_TOO_FEW;
  if (n > MOST)
    return PIN_MATHS_RANGE;
  for (size_t i = 0; i < n; i++)
    {
      size_t before = 0;

      if (!isfinite (times[i]) || !isfinite (temperatures[i]))
        return PIN_MATHS_NOT_FINITE;
      while (before < i && times[before] != times[i])
        before++;
      different += before == i;
      to->least_time = fmin (to->least_time, times[i]);
      most = fmax (most, times[i]);
    }
  to->span = most - to->least_time;
  return different < unknowns (to) ? PIN_MATHS_TOO_FEW : PIN_MATHS_OK;
}

static int
is_told (const PinWarming *self)
{
  double last_error = isnan (self->last_error) ? 0 : self->last_error;
  double constant_error = isnan (self->constant_error) ? 0 : self->constant_error;

  return isfinite (self->last) && isfinite (self->first) && isfinite (self->constant) && self->constant > 0
         && self->first != self->last && last_error < fabs (self->first - self->last)
         && constant_error < self->constant;
}

/* The curve through timed readings, by least squares.
 *
 * @times in s and @temperatures in °C, @n of each, at most 128, at as many different
 * times as there are unknowns at least: three, or two with @known_last, the
 * temperature that it goes towards, NAN where that is to be found.
 * PIN_MATHS_DEGENERATE where the readings do not tell it: they lie on a straight
 * line, are all alike, or scatter so that the error is as large as what is found.
 * Source: Newton's law of cooling; gsl_multifit_nlinear (Levenberg-Marquardt). */
PinMathsStatus
pin_warming_fit (const double *times, const double *temperatures, size_t n, double known_last, PinWarming *warming)
{
  Readings readings;
  PinWarming found = { 0 };
  double start[3];
  PinMathsStatus status = take_readings (times, temperatures, n, known_last, &readings);

  if (status == PIN_MATHS_OK)
    status = begin (&readings, start);
  if (status == PIN_MATHS_OK)
    {
      gsl_error_handler_t *handler = gsl_set_error_handler_off ();

      status = fit (&readings, start, &found);
      gsl_set_error_handler (handler);
    }
  if (status != PIN_MATHS_OK)
    return status;
  if (!is_told (&found))
    return PIN_MATHS_DEGENERATE;
  *warming = found;
  return PIN_MATHS_OK;
}

/* °C at @time, in s. */
double
pin_warming_at (const PinWarming *warming, double time)
{
  return warming->last + (warming->first - warming->last) * exp (-time / warming->constant);
}

/* When it comes to @temperature, in s from the watch's zero; before that is negative.
 * PIN_MATHS_NO_ANSWER if it never does. */
PinMathsStatus
pin_warming_when (const PinWarming *warming, double temperature, double *time)
{
  double share = (temperature - warming->last) / (warming->first - warming->last);

  if (!isfinite (temperature))
    return PIN_MATHS_NOT_FINITE;
  if (!(share > 0) || !isfinite (share))
    return PIN_MATHS_NO_ANSWER;
  *time = -warming->constant * log (share);
  return PIN_MATHS_OK;
}
