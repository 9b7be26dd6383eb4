#pragma once

#include "maths/status.h"

/* A car on four scales.  Masses kg, lengths m, angles rad. */

typedef struct
{
  double front_left, front_right, rear_left, rear_right;
} PinCorners;

typedef struct
{
  double total;
  double front, left;         /* shares of the total */
  double cross;               /* front right and rear left */
  double heave, pitch, roll, warp; /* kg a wheel: front, left, and front left with rear right are more */
} PinCornerShares;

PinMathsStatus pin_corners_shares (PinCorners       masses,
                                   PinCornerShares *shares);
PinMathsStatus pin_corners_centre (PinCorners       masses,
                                   double           wheelbase,
                                   double           front_track,
                                   double           rear_track,
                                   double          *behind,
                                   double          *to_left);
PinMathsStatus pin_corners_height (double           total,
                                   double           gained,
                                   double           wheelbase,
                                   double           tilt,
                                   double          *height);
PinMathsStatus pin_corners_shift  (PinCorners       masses,
                                   double           target,
                                   double           front_track,
                                   double           rear_track,
                                   double          *front,
                                   double          *rear);
