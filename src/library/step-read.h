#pragma once

#include "library/reading.h"

/* The steps of a file by id, so that a step can ask again what another asks,
 * wherever that stands. */
typedef struct
{
  GHashTable *nodes;            /* char* -> xmlNode*, first of each id */
  GHashTable *repeats;          /* xmlNode* -> how often it is asked again */
  PinRemarks *remarks;
} PinSteps;

PinStep *pin_step_read (const xmlNode *node,
                        PinSteps      *steps);
