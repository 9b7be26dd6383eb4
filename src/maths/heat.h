#pragma once

#include <stddef.h>

#include "maths/status.h"

/* How hot, and how hot it will be.  Temperatures in °C, rises in K. */

PinMathsStatus pin_heat_corrected  (double  measured,
                                    double  air,
                                    double  reference,
                                    double *corrected);
PinMathsStatus pin_heat_true       (double  reading,
                                    double  set,
                                    double  emissivity,
                                    double  reflected,
                                    double *temperature);
PinMathsStatus pin_heat_reading    (double  temperature,
                                    double  set,
                                    double  emissivity,
                                    double  reflected,
                                    double *reading);
PinMathsStatus pin_heat_true_slope (double  reading,
                                    double  set,
                                    double  emissivity,
                                    double  reflected,
                                    double *slope);
PinMathsStatus pin_heat_winding    (double  cold_resistance,
                                    double  cold,
                                    double  hot_resistance,
                                    double  constant,
                                    double *hot);
PinMathsStatus pin_heat_geared     (double  rise,
                                    double  ratio,
                                    double  exponent,
                                    double *geared);
PinMathsStatus pin_heat_rollout    (double  rise,
                                    double  rollout,
                                    double  allowed,
                                    double *most);

/* How the rise went with the rollout, from a keeper's own runs. */
typedef struct
{
  double exponent;
  double error;               /* one standard error; NAN from two runs */
} PinHeatPower;

PinMathsStatus pin_heat_power      (const double *rollouts,
                                    const double *rises,
                                    size_t        n,
                                    PinHeatPower *power);
