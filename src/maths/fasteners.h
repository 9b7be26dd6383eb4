#pragma once

#include <stddef.h>

#include "maths/status.h"

/* Metric screws with coarse thread: m, m², Pa, N, N·m. */

typedef struct
{
  const char *name;           /* "M3" */
  double diameter, pitch;
  double face, hole;          /* least bearing diameter of a hexagon head, clearance hole */
  double plastic, aluminium;  /* usual torque into them, N·m; 0: none is known */
  const char *keys;           /* cap, button or countersunk, grub; mm */
} PinThread;

typedef struct
{
  const char *name;           /* "8.8", "stainless-70" */
  double yield;               /* least, or 0.2 % proof stress */
  double proof;               /* stress under proof load; 0: the yield */
} PinScrewClass;

const PinThread     *pin_thread_find       (const char          *name);
const PinScrewClass *pin_screw_class_find  (const char          *name);
PinMathsStatus       pin_thread_area       (const PinThread     *self,
                                            double              *area);
PinMathsStatus       pin_thread_preload    (const PinThread     *self,
                                            double               yield,
                                            double               share,
                                            double               friction,
                                            double              *preload);
PinMathsStatus       pin_thread_torque     (const PinThread     *self,
                                            double               preload,
                                            double               friction,
                                            double               seat_friction,
                                            double               seat,
                                            double              *torque);
