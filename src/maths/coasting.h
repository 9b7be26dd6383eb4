#pragma once

#include <stdbool.h>
#include <stddef.h>

#include "maths/status.h"

/* What slows a thing that coasts, from readings on the way.  The slowing is
 * a + b v + c v²; v is m/s or rad/s, and a, b and c go with it. */

enum { PIN_COAST_START, PIN_COAST_A, PIN_COAST_B, PIN_COAST_C, PIN_COAST_TERMS };

typedef struct
{
  double value[PIN_COAST_TERMS]; /* the speed at the first reading, a, b, c */
  double covariance[PIN_COAST_TERMS][PIN_COAST_TERMS];
  bool fitted[PIN_COAST_TERMS]; /* false: held at 0 */
  double scatter;             /* of one reading: s for distances, speed for speeds */
  double freedom;
} PinCoast;

typedef struct
{
  bool distances;             /* the values are ways since the start, else speeds */
  bool linear, square;        /* whether b and c are looked for */
  bool signed_linear;         /* b may be negative */
} PinCoastForm;

PinMathsStatus pin_coast_fit     (const double  *times,
                                  const double  *values,
                                  size_t         n,
                                  PinCoastForm   form,
                                  PinCoast      *coast);
PinMathsStatus pin_coast_slowing (const PinCoast *self,
                                  double          speed,
                                  double         *slowing,
                                  double         *error);
PinMathsStatus pin_coast_run     (const PinCoast *self,
                                  double          time,
                                  double         *way,
                                  double         *speed);
