#pragma once

#include "sheet/plan-marks.h"

/* What the tests of the plan view share: the shipped chassis types, and marks
 * for all their positions. */

GPtrArray    *plan_fixture_chassis (void);
PinMarkPlace *plan_fixture_places  (const PinChassis *chassis,
                                    gboolean          all_unchecked);
