#pragma once

#include "maths/status.h"

/* Fuel for engines: volumes m³, times s, shares by volume from 0 to 1. */

typedef struct { double nitro, oil; } PinFuel;
typedef struct { double first, second, oil; } PinFuelMix;

PinMathsStatus pin_fuel_mix        (PinFuel     first,
                                    PinFuel     second,
                                    double      nitro,
                                    double      volume,
                                    PinFuelMix *mix,
                                    double     *oil);
PinMathsStatus pin_fuel_mix_to_oil (PinFuel     first,
                                    PinFuel     second,
                                    PinFuel     target,
                                    double      volume,
                                    PinFuelMix *mix);
PinMathsStatus pin_tank_time       (double      tank,
                                    double      kept,
                                    double      burnt,
                                    double      time,
                                    double     *run);
PinMathsStatus pin_petrol_oil      (double      petrol,
                                    double      parts,
                                    double     *oil);
