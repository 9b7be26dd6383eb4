#pragma once

#include "maths/status.h"

/* Servo horns that are square to their link at centre.  Lengths m, angles rad,
 * shares of the travel. */

PinMathsStatus pin_endpoints_ideal_horn (double  horn,
                                         double  share,
                                         double  travel,
                                         double *ideal);
PinMathsStatus pin_endpoints_other_hole (double  horn,
                                         double  share,
                                         double  travel,
                                         double  hole,
                                         double *needed);
