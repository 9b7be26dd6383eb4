#pragma once

#include <stddef.h>

#include "maths/status.h"

/* Whether two sets of readings differ by more than the measurement can tell.
 * Everything is in the readings' own unit. */

typedef struct
{
  double difference;          /* of the means, first less second */
  double error;               /* its standard error */
  double t, freedom, p;       /* two-sided */
  double low, high;           /* 95 % interval of the difference */
} PinContrast;

PinMathsStatus pin_pairs_mad       (const double *values,
                                    size_t        n,
                                    double       *mad);
PinMathsStatus pin_pairs_oddest    (const double *values,
                                    size_t        n,
                                    double       *score,
                                    size_t       *which);
PinMathsStatus pin_pairs_paired    (const double *first,
                                    const double *second,
                                    size_t        n,
                                    PinContrast  *contrast);
PinMathsStatus pin_pairs_welch     (const double *first,
                                    size_t        n_first,
                                    const double *second,
                                    size_t        n_second,
                                    PinContrast  *contrast);
PinMathsStatus pin_pairs_pooled    (const double *first,
                                    size_t        n_first,
                                    const double *second,
                                    size_t        n_second,
                                    PinContrast  *contrast);
PinMathsStatus pin_pairs_estimates (double        first,
                                    double        first_error,
                                    double        first_freedom,
                                    double        second,
                                    double        second_error,
                                    double        second_freedom,
                                    PinContrast  *contrast);
PinMathsStatus pin_pairs_agreement (const double *first,
                                    const double *second,
                                    size_t        n,
                                    double       *low,
                                    double       *high);
