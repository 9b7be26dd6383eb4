#pragma once

#include <stddef.h>

double pin_repeats_median (const double *values, size_t n);
double pin_repeats_mean   (const double *values, size_t n);
double pin_repeats_min    (const double *values, size_t n);
double pin_repeats_max    (const double *values, size_t n);
double pin_repeats_spread (const double *values, size_t n);
