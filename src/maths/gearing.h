#pragma once

#include "maths/status.h"

/* What stands between the motor and the road.  Turns and teeth are numbers,
 * lengths m, speeds m/s. */

PinMathsStatus pin_gearing_final_drive (double  pinion,
                                        double  spur,
                                        double  gearbox,
                                        double *ratio);
PinMathsStatus pin_gearing_rollout     (double  tyre,
                                        double  ratio,
                                        double *rollout);
PinMathsStatus pin_gearing_motor_speed (double  kv,
                                        double  volts,
                                        double  share,
                                        double *turns);
PinMathsStatus pin_gearing_road_speed  (double  rollout,
                                        double  turns,
                                        double *speed);
