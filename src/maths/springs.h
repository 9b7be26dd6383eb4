#pragma once

#include <stddef.h>

#include "maths/status.h"

/* Coil springs and what dampers leave of a bounce: m, kg, N/m, Hz. */

PinMathsStatus pin_spring_rate        (double        wire,
                                       double        mean,
                                       double        coils,
                                       double        modulus,
                                       double       *rate);
PinMathsStatus pin_spring_wheel_rate  (double        rate,
                                       double        motion,
                                       double       *wheel_rate);
PinMathsStatus pin_spring_sag         (double        rate,
                                       double        motion,
                                       double        mass,
                                       double        preload,
                                       double       *sag);
PinMathsStatus pin_spring_frequency   (double        rate,
                                       double        mass,
                                       double       *frequency);
PinMathsStatus pin_rebound_decrement  (const double *heights,
                                       size_t        n,
                                       double       *decrement,
                                       double       *uncertainty);
PinMathsStatus pin_rebound_counted    (double        count,
                                       double        seen,
                                       double       *decrement);
PinMathsStatus pin_rebound_ratio      (double        decrement,
                                       double       *ratio);
