#pragma once

#include <stddef.h>

#include "maths/status.h"

/* Oils and silicone fluids: kinematic viscosity in m²/s, temperatures in °C,
 * shares by volume from 0 to 1. */

typedef enum
{
  PIN_BLEND_LOG,              /* logarithms of the viscosities, by volume */
  PIN_BLEND_WALTHER,          /* as ASTM D7152, on log log (cSt + 0.7) */
} PinBlendRule;

PinMathsStatus pin_fluid_walther_line   (double        cold,
                                         double        cold_viscosity,
                                         double        hot,
                                         double        hot_viscosity,
                                         double       *a,
                                         double       *b);
PinMathsStatus pin_fluid_walther_at     (double        a,
                                         double        b,
                                         double        temperature,
                                         double       *viscosity);
PinMathsStatus pin_fluid_silicone_ratio (double        from,
                                         double        to,
                                         double       *ratio);
PinMathsStatus pin_fluid_blend          (PinBlendRule  rule,
                                         double        first,
                                         double        second,
                                         double        share,
                                         double       *viscosity);
PinMathsStatus pin_fluid_blend_share    (PinBlendRule  rule,
                                         double        first,
                                         double        second,
                                         double        target,
                                         double       *share);
PinMathsStatus pin_fluid_label          (const double *labels,
                                         const double *viscosities,
                                         size_t        n,
                                         double        label,
                                         double       *viscosity);

/* What a hung mass tells about a diff. */
PinMathsStatus pin_diff_lever_share     (double        swing,
                                         double       *share);
PinMathsStatus pin_diff_torque          (double        mass,
                                         double        arm,
                                         double        share,
                                         double       *torque);
PinMathsStatus pin_diff_line            (const double *speeds,
                                         const double *torques,
                                         size_t        n,
                                         double       *friction,
                                         double       *damping);
