#pragma once

#include "maths/status.h"

/* Rolling, road load and free spinning.  m, s, kg, N; speeds m/s. */

PinMathsStatus pin_drag_ramp       (double  height,
                                    double  run,
                                    double  flat,
                                    double *rolling);
PinMathsStatus pin_drag_foot_speed (double  height,
                                    double  run,
                                    double  rolling,
                                    double  rotating,
                                    double *speed);
PinMathsStatus pin_drag_rolling    (double  force,
                                    double  mass,
                                    double *rolling);
PinMathsStatus pin_drag_air        (double  square,
                                    double  density,
                                    double *area);
PinMathsStatus pin_drag_interval   (double  mass,
                                    double  change,
                                    double  time,
                                    double *force);
PinMathsStatus pin_drag_spin_stop  (double  dry,
                                    double  viscous,
                                    double  speed,
                                    double *time);
