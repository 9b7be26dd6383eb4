#pragma once

#include "reckoner/work.h"

/* How fast a bearing turns: as given, or as a wheel at the car's top speed. */
double pin_turning_speed (const PinReckoning *self); /* turns a second; NAN: not given */

#define PIN_TURNING_INPUTS \
  { .id = "speed", .title = N_("Speed of turning"), .unit = "rpm", .least = 1, .most = 200000, .preset = "", \
    .hint = N_("Of the shaft; for a wheel give top speed and tyre instead") }, \
  { .id = "top-speed", .title = N_("Top speed of the car"), .unit = "km/h", .least = 0.5, .most = 250, \
    .preset = "" }, \
  { .id = "tyre", .title = N_("Tyre diameter"), .unit = "mm", .least = 15, .most = 300, .preset = "" }
