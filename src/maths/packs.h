#pragma once

#include <stddef.h>

#include "maths/status.h"

/* Packs: V, A, Ω, C (ampere seconds), s; shares from 0 to 1. */

typedef struct
{
  const char *name;           /* "LiPo" */
  double nominal, full;       /* V a cell */
  double storage_low, storage_high; /* V a cell; equal: told by the charge alone */
  double storage;             /* share of the capacity */
  double stop;                /* V of a rested cell under which it is done for */
  double spread_good, spread_stop;  /* V, of rested cells */
} PinChemistry;

const PinChemistry *pin_chemistry_find (const char   *name);
PinMathsStatus      pin_pack_time      (double        charge,
                                        double        current,
                                        double       *time);
PinMathsStatus      pin_pack_line      (const double *currents,
                                        const double *volts,
                                        size_t        n,
                                        double       *resistance,
                                        double       *open,
                                        double       *uncertainty);
