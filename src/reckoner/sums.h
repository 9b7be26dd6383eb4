#pragma once

#include "reckoner/sum.h"

/* Each is described in sum-NAME.c. */
extern const PinSum pin_sum_bearing;
extern const PinSum pin_sum_bearing_life;
extern const PinSum pin_sum_blend;
extern const PinSum pin_sum_coast_down;
extern const PinSum pin_sum_convert;
extern const PinSum pin_sum_corner_mass;
extern const PinSum pin_sum_diff_test;
extern const PinSum pin_sum_end_points;
extern const PinSum pin_sum_fuel_mix;
extern const PinSum pin_sum_gear_chart;
extern const PinSum pin_sum_gear_up;
extern const PinSum pin_sum_gearing;
extern const PinSum pin_sum_heat;
extern const PinSum pin_sum_infrared;
extern const PinSum pin_sum_linkage;
extern const PinSum pin_sum_mesh;
extern const PinSum pin_sum_pack;
extern const PinSum pin_sum_pair_match;
extern const PinSum pin_sum_ramp;
extern const PinSum pin_sum_rebound;
extern const PinSum pin_sum_resistance;
extern const PinSum pin_sum_spin_down;
extern const PinSum pin_sum_spring;
extern const PinSum pin_sum_tank;
extern const PinSum pin_sum_torque;
extern const PinSum pin_sum_tyre_swap;
extern const PinSum pin_sum_viscosity;
extern const PinSum pin_sum_warm_up;
