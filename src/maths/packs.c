#include "maths/packs.h"

#include <math.h>
#include <string.h>

#include <gsl/gsl_fit.h>

/* Common practice; the limits of the spread are from memory. */
static const PinChemistry chemistries[] = {
  { "LiPo", 3.7, 4.2, 3.8, 3.85, 0.5, 3.3, 0.03, 0.1 },
  { "Li-ion", 3.6, 4.2, 3.7, 3.85, 0.5, 3.0, 0.03, 0.1 },
  { "LiFe", 3.3, 3.6, 3.3, 3.3, 0.5, 2.8, 0.03, 0.1 },
  { "NiMH", 1.2, 1.45, 1.2, 1.2, 0.4, 0.9, 0.05, 0.15 },
};

const PinChemistry *
pin_chemistry_find (const char *name)
{
  for (size_t i = 0; i < sizeof chemistries / sizeof *chemistries; i++)
    if (strcmp (chemistries[i].name, name) == 0)
      return &chemistries[i];
  return NULL;
}

/* s in which @current moves @charge: both above 0 (the charge may be 0). */
PinMathsStatus
pin_pack_time (double charge, double current, double *time)
{
  if (!isfinite (charge) || !isfinite (current))
    return PIN_MATHS_NOT_FINITE;
  if (charge < 0 || current <= 0)
    return PIN_MATHS_RANGE;
  *time = charge / current;
  return PIN_MATHS_OK;
}

/* Inner resistance and volts without load, of volts = open - resistance *
 * current through two or more pulses, by least squares; with two it is
 * (U1 - U2) / (I2 - I1).  @uncertainty: of the resistance, one standard error;
 * NAN with two.  Source: the two-pulse method of IEC 61960. */
PinMathsStatus
pin_pack_line (const double *currents, const double *volts, size_t n, double *resistance, double *open,
               double *uncertainty)
{
  double least = INFINITY, most = 0, start, slope, c00, c01, c11, rest;

  if (n < 2)
    return PIN_MATHS_TOO_FEW;
  for (size_t i = 0; i < n; i++)
    {
      if (!isfinite (currents[i]) || !isfinite (volts[i]))
        return PIN_MATHS_NOT_FINITE;
      if (currents[i] < 0 || volts[i] <= 0)
        return PIN_MATHS_RANGE;
      least = fmin (least, currents[i]);
      most = fmax (most, currents[i]);
    }
  if (most - least < 1e-3 * most)
    return PIN_MATHS_DEGENERATE;
  gsl_fit_linear (currents, 1, volts, 1, n, &start, &slope, &c00, &c01, &c11, &rest);
  if (!(slope < 0))
    return PIN_MATHS_DEGENERATE;
  *resistance = -slope;
  *open = start;
  *uncertainty = n > 2 ? sqrt (c11) : NAN;
  return PIN_MATHS_OK;
}
