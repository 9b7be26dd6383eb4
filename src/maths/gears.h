#pragma once

#include "maths/status.h"

/* Two involute spur gears and the distance between them.  Lengths and modules in
 * m, angles in rad, teeth are numbers. */

PinMathsStatus pin_gears_centre        (double  module,
                                        double  teeth,
                                        double  other,
                                        double *distance);
PinMathsStatus pin_gears_mixing        (double  module,
                                        double  other,
                                        double *share,
                                        double *step);
PinMathsStatus pin_gears_working_angle (double  distance,
                                        double  opened,
                                        double  angle,
                                        double *working);
PinMathsStatus pin_gears_backlash      (double  distance,
                                        double  opened,
                                        double  angle,
                                        double *backlash);
PinMathsStatus pin_gears_opened_by     (double  distance,
                                        double  backlash,
                                        double  angle,
                                        double *opened);
PinMathsStatus pin_gears_contact_ratio (double  teeth,
                                        double  other,
                                        double  angle,
                                        double *ratio);
PinMathsStatus pin_gears_span          (double  module,
                                        double  teeth,
                                        double  over,
                                        double  angle,
                                        double *span);
