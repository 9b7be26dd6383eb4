#pragma once

#include <stddef.h>

#include "maths/status.h"

/* A thing that warms up or cools down towards a last temperature:
 *
 *   T(t) = last + (first - last) * exp (-t / constant)
 *
 * Times in s from the zero of the watch, temperatures in °C.  The errors are one
 * standard error each; NAN where there are no more readings than unknowns, and 0 for
 * what was known. */
typedef struct
{
  double last, last_error;
  double first, first_error;  /* at 0 s */
  double constant, constant_error;
  double scatter;             /* standard deviation of the readings from the curve, K; NAN as above */
} PinWarming;

PinMathsStatus pin_warming_fit  (const double     *times,
                                 const double     *temperatures,
                                 size_t            n,
                                 double            known_last,
                                 PinWarming       *warming);
double         pin_warming_at   (const PinWarming *warming,
                                 double            time);
PinMathsStatus pin_warming_when (const PinWarming *warming,
                                 double            temperature,
                                 double           *time);
