#pragma once

#include "library/step-read.h"

PinStage *pin_stage_read (const xmlNode *node,
                          PinSteps      *steps);
