#pragma once

#include "reckoner/sum.h"
#include "service/vehicle-view.h"

/* What is known of a vehicle that a sum asks for. */

typedef struct
{
  const char *input;          /* id */
  char *typed;                /* "22", "84 mm" */
  char *origin;               /* "as fitted, 22 Nov 2026" */
} PinFill;

/* PinFill*, for those inputs that something is known of.  Returns: (transfer full) */
GPtrArray *pin_reckon_fill (const PinSum         *sum,
                            const PinVehicleView *view);
void       pin_fill_free   (PinFill              *self);
