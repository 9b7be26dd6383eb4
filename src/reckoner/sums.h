#pragma once

#include "reckoner/sum.h"

/* Each is described in sum-NAME.c. */
extern const PinSum pin_sum_gearing;
extern const PinSum pin_sum_linkage;
