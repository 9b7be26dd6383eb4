#include "maths/fuel.h"

#include <math.h>

static PinMathsStatus
check (PinFuel fuel)
{
  if (!isfinite (fuel.nitro) || !isfinite (fuel.oil))
    return PIN_MATHS_NOT_FINITE;
  return fuel.nitro >= 0 && fuel.oil >= 0 && fuel.nitro + fuel.oil <= 1 ? PIN_MATHS_OK : PIN_MATHS_RANGE;
}

static PinMathsStatus
check_all (PinFuel first, PinFuel second, double nitro, double volume)
{
  PinMathsStatus status = check (first);

  if (status == PIN_MATHS_OK)
    status = check (second);
  if (status != PIN_MATHS_OK)
    return status;
  if (!isfinite (nitro) || !isfinite (volume))
    return PIN_MATHS_NOT_FINITE;
  return nitro >= 0 && nitro <= 1 && volume > 0 ? PIN_MATHS_OK : PIN_MATHS_RANGE;
}

/* How much of two cans makes @volume with the share @nitro, and the share of
 * oil in it.  Cans alike in nitro: degenerate; a target outside them: no answer.
 * Source: balance of volumes; a mixture shrinks by a trace, which is left out. */
PinMathsStatus
pin_fuel_mix (PinFuel first, PinFuel second, double nitro, double volume, PinFuelMix *mix, double *oil)
{
  PinMathsStatus status = check_all (first, second, nitro, volume);
  double share;

  if (status != PIN_MATHS_OK)
    return status;
  if (first.nitro == second.nitro)
    return PIN_MATHS_DEGENERATE;
  share = (nitro - first.nitro) / (second.nitro - first.nitro);
  if (share < 0 || share > 1)
    return PIN_MATHS_NO_ANSWER;
  *mix = (PinFuelMix) { volume * (1 - share), volume * share, 0 };
  *oil = (1 - share) * first.oil + share * second.oil;
  return PIN_MATHS_OK;
}

/* The same with pure oil added until both nitro and oil are right: three
 * balances with three unknowns.  No answer if any part came out below 0. */
PinMathsStatus
pin_fuel_mix_to_oil (PinFuel first, PinFuel second, PinFuel target, double volume, PinFuelMix *mix)
{
  PinMathsStatus status = check_all (first, second, target.nitro, volume);
  double a, b, c, d, e, f, whole, x, y, oil;

  if (status == PIN_MATHS_OK)
    status = check (target);
  if (status != PIN_MATHS_OK)
    return status;
  /* Nitro, and what is no oil: a x + b y = c, d x + e y = f. */
  a = first.nitro, b = second.nitro, c = target.nitro;
  d = 1 - first.oil, e = 1 - second.oil, f = 1 - target.oil;
  whole = a * e - b * d;
  if (fabs (whole) < 1e-9)
    return PIN_MATHS_DEGENERATE;
  x = (c * e - b * f) / whole;
  y = (a * f - c * d) / whole;
  oil = 1 - x - y;
  if (x < -1e-12 || y < -1e-12 || oil < -1e-12)
    return PIN_MATHS_NO_ANSWER;
  *mix = (PinFuelMix) { volume * fmax (x, 0), volume * fmax (y, 0), volume * fmax (oil, 0) };
  return PIN_MATHS_OK;
}

/* s that @tank lasts when @burnt went in @time and the share @kept stays in it:
 * tank * (1 - kept) * time / burnt. */
PinMathsStatus
pin_tank_time (double tank, double kept, double burnt, double time, double *run)
{
  if (!isfinite (tank) || !isfinite (kept) || !isfinite (burnt) || !isfinite (time))
    return PIN_MATHS_NOT_FINITE;
  if (tank <= 0 || kept < 0 || kept >= 1 || burnt <= 0 || time <= 0)
    return PIN_MATHS_RANGE;
  *run = tank * (1 - kept) * time / burnt;
  return PIN_MATHS_OK;
}

/* Oil for @petrol at @parts of petrol to one of oil. */
PinMathsStatus
pin_petrol_oil (double petrol, double parts, double *oil)
{
  if (!isfinite (petrol) || !isfinite (parts))
    return PIN_MATHS_NOT_FINITE;
  if (petrol <= 0 || parts <= 0)
    return PIN_MATHS_RANGE;
  *oil = petrol / parts;
  return PIN_MATHS_OK;
}
