#pragma once

#include "reckoner/reckoning.h"

/* Pinions and spurs that may be fitted, for the sums that have the inputs pinion,
 * spur, gearbox, own-pinions and own-spurs. */
typedef struct
{
  double pinion, spur;
  double rollout;             /* m */
} PinGearPair;

gboolean pin_gear_pairs_rollout (PinReckoning      *self,
                                 PinGearPair       *pair,
                                 double             tyre);
gboolean pin_gear_pairs_owned   (PinReckoning      *self,
                                 const PinGearPair *pair);
GArray  *pin_gear_pairs         (PinReckoning      *self,
                                 double             tyre,
                                 int                steps);
