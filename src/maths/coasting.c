#include "maths/coasting.h"

#include <math.h>
#include <string.h>

#include <gsl/gsl_blas.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_fit.h>
#include <gsl/gsl_multifit_nlinear.h>

/* The way at the first reading is fitted beside the terms. */
enum { WAY = PIN_COAST_TERMS, N_PLACES, SENSITIVE = 2 * PIN_COAST_TERMS, MOST = 200, ITERATIONS = 200 };

#define STEP (1.0 / 200)      /* of the whole time, for the integration */
#define ABSURD 1e3            /* of a term, in units of the whole coast */

/* Everything in units of the whole time and of the way or speed of the coast. */
typedef struct
{
  size_t n;
  double times[MOST], values[MOST];
  double weights[MOST];
  double rate[MOST];          /* the speeds of the last model, or what is guessed */
  bool distances;
  bool fitted[N_PLACES];
} Problem;

typedef struct
{
  double way, speed;
  double by[SENSITIVE];       /* way by each term, then speed by each term */
} State;

/* ---- the motion ----------------------------------------------------------------------------- */

static State
change_of (const State *at, const double *terms)
{
  double a = terms[PIN_COAST_A], b = terms[PIN_COAST_B], c = terms[PIN_COAST_C];
  double slope = b + 2 * c * at->speed;
  double direct[PIN_COAST_TERMS] = { 0, 1, at->speed, at->speed * at->speed };
  State to = { at->speed, -(a + b * at->speed + c * at->speed * at->speed), { 0 } };

  for (int i = 0; i < PIN_COAST_TERMS; i++)
    {
      to.by[i] = at->by[PIN_COAST_TERMS + i];
      to.by[PIN_COAST_TERMS + i] = -slope * at->by[PIN_COAST_TERMS + i] - direct[i];
    }
  return to;
}

static State
moved (const State *at, const State *change, double by)
{
  State to = { at->way + by * change->way, at->speed + by * change->speed, { 0 } };

  for (int i = 0; i < SENSITIVE; i++)
    to.by[i] = at->by[i] + by * change->by[i];
  return to;
}

/* One step of Runge and Kutta's fourth order. */
static void
step (State *at, const double *terms, double by)
{
  State first = change_of (at, terms);
  State half = moved (at, &first, by / 2);
  State second = change_of (&half, terms);
  State again = moved (at, &second, by / 2);
  State third = change_of (&again, terms);
  State end = moved (at, &third, by);
  State fourth = change_of (&end, terms);

  *at = moved (at, &first, by / 6);
  *at = moved (at, &second, by / 3);
  *at = moved (at, &third, by / 3);
  *at = moved (at, &fourth, by / 6);
}

static void
run (State *at, const double *terms, double time)
{
  int steps = (int) ceil (time / STEP);

  for (int i = 0; i < steps; i++)
    step (at, terms, time / steps);
}

static State
start_of (const double *places)
{
  State at = { places[WAY], places[PIN_COAST_START], { 0 } };

  at.by[PIN_COAST_TERMS + PIN_COAST_START] = 1;
  return at;
}

/* ---- the fit -------------------------------------------------------------------------------- */

static void
spread_out (const Problem *self, const gsl_vector *x, double *places)
{
  size_t next = 0;

  for (int i = 0; i < N_PLACES; i++)
    places[i] = self->fitted[i] ? gsl_vector_get (x, next++) : 0;
}

static bool
is_absurd (const double *places)
{
  for (int i = 0; i < N_PLACES; i++)
    if (!(fabs (places[i]) < ABSURD))
      return true;
  return false;
}

static void
put_gradient (const Problem *self, const State *at, size_t row, gsl_matrix *to)
{
  size_t next = 0;

  for (int i = 0; i < N_PLACES; i++)
    if (self->fitted[i])
      {
        double by = i == WAY ? 1 : at->by[self->distances ? i : PIN_COAST_TERMS + i];

        gsl_matrix_set (to, row, next++, isfinite (by) ? by / self->weights[row] : 0);
      }
}

/* Residuals into @f, their gradient into @j; either may be NULL. */
static void
work_out (Problem *self, const gsl_vector *x, gsl_vector *f, gsl_matrix *j)
{
  double places[N_PLACES];
  double time = 0;
  State at;
  bool absurd;

  spread_out (self, x, places);
  absurd = is_absurd (places);
  at = start_of (places);
  for (size_t i = 0; i < self->n; i++)
    {
      double off;

      if (!absurd)
        run (&at, places, self->times[i] - time);
      time = self->times[i];
      off = ((self->distances ? at.way : at.speed) - self->values[i]) / self->weights[i];
      /* A step that leads nowhere is not taken: it only has to be worse. */
      if (f != NULL)
        gsl_vector_set (f, i, absurd || !(fabs (off) < ABSURD) ? ABSURD : off);
      if (j != NULL)
        put_gradient (self, &at, i, j);
      self->rate[i] = at.speed;
    }
}

static int
residuals (const gsl_vector *x, void *data, gsl_vector *f)
{
  work_out (data, x, f, NULL);
  return GSL_SUCCESS;
}

static int
gradient (const gsl_vector *x, void *data, gsl_matrix *j)
{
  work_out (data, x, NULL, j);
  return GSL_SUCCESS;
}

static size_t
count_fitted (const Problem *self)
{
  size_t n = 0;

  for (int i = 0; i < N_PLACES; i++)
    n += self->fitted[i];
  return n;
}

/* @matrix has rows of the places that are fitted; @to all of them. */
static bool
take_covariance (const Problem *self, const gsl_matrix *matrix, double factor, double to[N_PLACES][N_PLACES])
{
  size_t row = 0;

  memset (to, 0, N_PLACES * sizeof to[0]);
  for (int i = 0; i < N_PLACES; i++)
    {
      size_t column = 0;

      if (!self->fitted[i])
        continue;
      for (int j = 0; j < N_PLACES; j++)
        if (self->fitted[j])
          to[i][j] = factor * gsl_matrix_get (matrix, row, column++);
      if (!isfinite (to[i][i]) || gsl_matrix_get (matrix, row, row) <= 0)
        return false;
      row++;
    }
  return true;
}

static bool
finish (Problem *self, gsl_multifit_nlinear_workspace *work, double *places, double covariance[N_PLACES][N_PLACES],
        double *scatter)
{
  size_t p = count_fitted (self);
  gsl_matrix *matrix = gsl_matrix_alloc (p, p);
  double norm = gsl_blas_dnrm2 (gsl_multifit_nlinear_residual (work));
  bool good = false;

  spread_out (self, gsl_multifit_nlinear_position (work), places);
  *scatter = norm / sqrt ((double) (self->n - p));
  if (matrix != NULL && gsl_multifit_nlinear_covar (gsl_multifit_nlinear_jac (work), 0, matrix) == GSL_SUCCESS)
    good = take_covariance (self, matrix, *scatter * *scatter, covariance) && isfinite (*scatter)
           && !is_absurd (places);
  if (matrix != NULL)
    gsl_matrix_free (matrix);
  return good;
}

/* From @places to the best ones nearby. */
static bool
improve (Problem *self, double *places, double covariance[N_PLACES][N_PLACES], double *scatter)
{
  gsl_multifit_nlinear_parameters how = gsl_multifit_nlinear_default_parameters ();
  gsl_multifit_nlinear_fdf fdf = { .f = residuals, .df = gradient, .n = self->n, .p = count_fitted (self),
                                   .params = self };
  gsl_multifit_nlinear_workspace *work = gsl_multifit_nlinear_alloc (gsl_multifit_nlinear_trust, &how, fdf.n, fdf.p);
  gsl_vector *start = gsl_vector_alloc (fdf.p);
  bool good = false;
  int info = 0;

  if (work != NULL && start != NULL)
    {
      size_t next = 0;

      for (int i = 0; i < N_PLACES; i++)
        if (self->fitted[i])
          gsl_vector_set (start, next++, places[i]);
      if (gsl_multifit_nlinear_init (start, &fdf, work) == GSL_SUCCESS)
        {
          /* No further progress is what exact readings end with, and good enough. */
          gsl_multifit_nlinear_driver (ITERATIONS, 1e-12, 1e-14, 0, NULL, NULL, &info, work);
          good = finish (self, work, places, covariance, scatter);
        }
    }
  if (start != NULL)
    gsl_vector_free (start);
  if (work != NULL)
    gsl_multifit_nlinear_free (work);
  return good;
}

/* Errors of a hand are errors of time, which weigh as the speed of the moment. */
static bool
weigh_again (Problem *self)
{
  for (size_t i = 0; i < self->n; i++)
    if (!(self->rate[i] > 1e-6))
      return false;
  memcpy (self->weights, self->rate, sizeof self->weights);
  return true;
}

static bool
fit_terms (Problem *self, double *places, double covariance[N_PLACES][N_PLACES], double *scatter)
{
  double before[MOST];

  memcpy (before, self->weights, sizeof before);
  if (!improve (self, places, covariance, scatter))
    return false;
  for (int pass = 0; self->distances && pass < 3 && weigh_again (self); pass++)
    if (!improve (self, places, covariance, scatter))
      return false;
  memcpy (self->weights, before, sizeof before);
  return true;
}

/* The term that came out below 0 though nothing pushes; 0 for none. */
static int
worst_term (const Problem *self, const double *places, double covariance[N_PLACES][N_PLACES], bool signed_linear)
{
  int worst = 0;
  double least = 0;

  for (int i = PIN_COAST_A; i <= PIN_COAST_C; i++)
    {
      double by = places[i] / fmax (sqrt (covariance[i][i]), 1e-300);

      if (self->fitted[i] && by < least && !(i == PIN_COAST_B && signed_linear))
        {
          worst = i;
          least = by;
        }
    }
  return worst;
}

/* ---- readings ------------------------------------------------------------------------------- */

static PinMathsStatus
check (const double *times, const double *values, size_t n, size_t fewest, bool distances)
{
  if (n > MOST)
    return PIN_MATHS_RANGE;
  if (n < fewest)
    return PIN_MATHS_TOO_FEW;
  for (size_t i = 0; i < n; i++)
    if (!isfinite (times[i]) || !isfinite (values[i]))
      return PIN_MATHS_NOT_FINITE;
  for (size_t i = 1; i < n; i++)
    if (times[i] < times[i - 1] || (distances && (times[i] == times[i - 1] || values[i] <= values[i - 1])))
      return PIN_MATHS_RANGE;
  for (size_t i = 0; i < n; i++)
    if (!distances && values[i] <= 0)
      return PIN_MATHS_RANGE;
  return times[n - 1] > times[0] ? PIN_MATHS_OK : PIN_MATHS_RANGE;
}

/* In its own units; *scale is what a speed of 1 is. */
static void
take_readings (Problem *self, const double *times, const double *values, size_t n, double *whole, double *scale)
{
  double greatest = 0;

  for (size_t i = 0; i < n; i++)
    greatest = fmax (greatest, values[i]);
  *whole = times[n - 1] - times[0];
  *scale = self->distances ? (values[n - 1] - values[0]) / *whole : greatest;
  self->n = n;
  for (size_t i = 0; i < n; i++)
    {
      self->times[i] = (times[i] - times[0]) / *whole;
      self->values[i] = self->distances ? (values[i] - values[0]) / (*scale * *whole) : values[i] / *scale;
      self->weights[i] = 1;
    }
  for (size_t i = 0; self->distances && i < n; i++)
    {
      size_t last = i > 0 ? i - 1 : 0, next = i + 1 < n ? i + 1 : n - 1;

      self->weights[i] = (self->values[next] - self->values[last]) / (self->times[next] - self->times[last]);
    }
}

/* A straight line through the speeds; FALSE if they do not fall. */
static bool
guess (const Problem *self, double *places)
{
  const double *speeds = self->distances ? self->weights : self->values;
  double slope = 0, unused[4];

  gsl_fit_linear (self->times, 1, speeds, 1, self->n, &places[PIN_COAST_START], &slope, &unused[0], &unused[1],
                  &unused[2], &unused[3]);
  places[PIN_COAST_A] = -slope;
  return isfinite (slope) && slope < 0;
}

static PinMathsStatus
solve (Problem *self, bool signed_linear, double *places, double covariance[N_PLACES][N_PLACES], double *scatter)
{
  double first[N_PLACES] = { 0 };
  int worst;

  if (!guess (self, first))
    return PIN_MATHS_DEGENERATE;
  do
    {
      memcpy (places, first, sizeof first);
      /* Without a constant term another has to start with the slowing. */
      if (!self->fitted[PIN_COAST_A])
        places[self->fitted[PIN_COAST_B] ? PIN_COAST_B : PIN_COAST_C] = first[PIN_COAST_A];
      if (!fit_terms (self, places, covariance, scatter))
        return PIN_MATHS_DEGENERATE;
      worst = worst_term (self, places, covariance, signed_linear);
      if (worst != 0)
        self->fitted[worst] = false;
    }
  while (worst != 0 && (self->fitted[PIN_COAST_A] || self->fitted[PIN_COAST_B] || self->fitted[PIN_COAST_C]));
  return worst != 0 ? PIN_MATHS_DEGENERATE : PIN_MATHS_OK;
}

/* The slowing a + b v + c v² of a coast, by least squares on its motion: of the
 * times at which distances were passed, or of the speeds at times.
 *
 *   dv/dt = −(a + b v + c v²)
 *
 * @times: s, ascending; @values: ways since the start (m or rad, ascending) or
 * speeds (m/s or rad/s, above 0).  One reading more than terms at least, at most
 * 200.  a, c and, unless it may be negative, b are held at 0 where the best fit is
 * below: nothing pushes.  The covariance comes of the scatter.  Source: the
 * equation of motion; fit of Levenberg and Marquardt (GSL).  Errors: TOO_FEW,
 * NOT_FINITE, RANGE (order), DEGENERATE (no slowing to be seen). */
PinMathsStatus
pin_coast_fit (const double *times, const double *values, size_t n, PinCoastForm form, PinCoast *coast)
{
  Problem it = { .distances = form.distances,
                 .fitted = { true, true, form.linear, form.square, form.distances } };
  double places[N_PLACES] = { 0 }, covariance[N_PLACES][N_PLACES] = { 0 };
  double whole, scale, scatter;
  gsl_error_handler_t *handler;
  PinMathsStatus status = check (times, values, n, count_fitted (&it) + 1, form.distances);

  if (status != PIN_MATHS_OK)
    return status;
  take_readings (&it, times, values, n, &whole, &scale);
  handler = gsl_set_error_handler_off ();
  status = solve (&it, form.signed_linear, places, covariance, &scatter);
  gsl_set_error_handler (handler);
  if (status == PIN_MATHS_OK)
    {
      const double units[] = { scale, scale / whole, 1 / whole, 1 / (scale * whole) };

      coast->scatter = scatter * (form.distances ? whole : scale);
      coast->freedom = (double) n - (double) count_fitted (&it);
      for (int i = 0; i < PIN_COAST_TERMS; i++)
        {
          coast->value[i] = places[i] * units[i];
          coast->fitted[i] = it.fitted[i];
          for (int j = 0; j < PIN_COAST_TERMS; j++)
            coast->covariance[i][j] = covariance[i][j] * units[i] * units[j];
        }
    }
  return status;
}

/* The slowing at @speed and its standard error.  Errors: NOT_FINITE. */
PinMathsStatus
pin_coast_slowing (const PinCoast *self, double speed, double *slowing, double *error)
{
  const double by[] = { 0, 1, speed, speed * speed };
  double value = 0, variance = 0;

  for (int i = 0; i < PIN_COAST_TERMS; i++)
    {
      value += by[i] * self->value[i];
      for (int j = 0; j < PIN_COAST_TERMS; j++)
        variance += by[i] * by[j] * self->covariance[i][j];
    }
  if (!isfinite (value) || !isfinite (variance))
    return PIN_MATHS_NOT_FINITE;
  *slowing = value;
  *error = sqrt (fmax (variance, 0));
  return PIN_MATHS_OK;
}

/* Way and speed @time s after the first reading, of a coast that slows as fitted.
 * Errors: NOT_FINITE, RANGE for a time before it or once it stands. */
PinMathsStatus
pin_coast_run (const PinCoast *self, double time, double *way, double *speed)
{
  State at = { 0, self->value[PIN_COAST_START], { 0 } };

  if (!isfinite (time))
    return PIN_MATHS_NOT_FINITE;
  if (time < 0)
    return PIN_MATHS_RANGE;
  for (int i = 0; time > 0 && i < (int) (1 / STEP); i++)
    step (&at, self->value, time * STEP);
  if (!isfinite (at.way) || !isfinite (at.speed))
    return PIN_MATHS_NOT_FINITE;
  if (at.speed < 0)
    return PIN_MATHS_RANGE;
  *way = at.way;
  *speed = at.speed;
  return PIN_MATHS_OK;
}
