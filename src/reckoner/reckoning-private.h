#pragma once

#include "reckoner/reckoning.h"

PinResult *pin_reckoning_result_at (PinReckoning *self,
                                    const char   *id);
