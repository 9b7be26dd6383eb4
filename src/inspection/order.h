#pragma once

#include "inspection/car.h"

/* One stage of one procedure of a walk. */
typedef struct
{
  PinProcedure *procedure;    /* a reference */
  const PinStage *stage;
} PinStageRef;

/* The stages to be walked, in order: of one procedure as written, of a
 * teardown by its file.  This is the one place that decides the order. */
GPtrArray *pin_order_stages (GPtrArray          *procedures, /* PinProcedure* */
                             const char *const  *order,      /* "procedure/stage", NULL: as written */
                             const PinCar       *car,
                             GError            **error);
