#pragma once

#include <stddef.h>

#include "maths/status.h"

/* Small ball bearings: m and turns a second, but the table in mm as printed. */

typedef struct
{
  const char *designation;
  double bore, outside, open, closed; /* mm; the last two are widths */
  const char *also;                   /* another designation, "" */
} PinBearing;

const PinBearing *pin_bearings             (size_t           *n);
double            pin_bearing_miss         (const PinBearing *bearing,
                                            double            bore,
                                            double            outside,
                                            double            width,
                                            int               closed);
PinMathsStatus    pin_bearing_speed_factor (double            turns,
                                            double            bore,
                                            double            outside,
                                            double           *factor);
PinMathsStatus    pin_bearing_life         (double            rating,
                                            double            load,
                                            double           *turns);
PinMathsStatus    pin_bearing_reliability  (int               percent,
                                            double           *factor);
