#include "maths/bearings.h"

#include <math.h>

/* Boundary dimensions of ISO 15, mm: bore, outside, width open and closed. */
static const PinBearing bearings[] = {
  { "607", 7, 19, 6, 6, "" },
  { "608", 8, 22, 7, 7, "" },
  { "623", 3, 10, 4, 4, "" },
  { "624", 4, 13, 5, 5, "" },
  { "625", 5, 16, 5, 5, "" },
  { "683", 3, 7, 2, 3, "" },
  { "684", 4, 9, 2.5, 4, "" },
  { "685", 5, 11, 3, 5, "" },
  { "686", 6, 13, 3.5, 5, "" },
  { "688", 8, 16, 4, 5, "" },
  { "693", 3, 8, 3, 4, "" },
  { "694", 4, 11, 4, 4, "" },
  { "695", 5, 13, 4, 4, "" },
  { "696", 6, 15, 5, 5, "" },
  { "698", 8, 19, 6, 6, "" },
  { "MR63", 3, 6, 2, 2.5, "673" },
  { "MR74", 4, 7, 2, 2.5, "674" },
  { "MR84", 4, 8, 2, 3, "" },
  { "MR85", 5, 8, 2, 2.5, "675" },
  { "MR95", 5, 9, 2.5, 3, "" },
  { "MR105", 5, 10, 3, 4, "" },
  { "MR106", 6, 10, 2.5, 3, "676" },
  { "MR115", 5, 11, 4, 4, "" },
  { "MR117", 7, 11, 2.5, 3, "677" },
  { "MR126", 6, 12, 3, 4, "" },
  { "MR128", 8, 12, 2.5, 3.5, "678" },
  { "MR137", 7, 13, 3, 4, "" },
  { "MR148", 8, 14, 3.5, 4, "" },
  { "6700", 10, 15, 3, 4, "" },
  { "6701", 12, 18, 4, 4, "" },
  { "6702", 15, 21, 4, 4, "" },
  { "6800", 10, 19, 5, 5, "" },
  { "6802", 15, 24, 5, 5, "" },
  { "6900", 10, 22, 6, 6, "" },
};

/* The table, in the order of its designations' series; lives for ever. */
const PinBearing *
pin_bearings (size_t *n)
{
  *n = sizeof bearings / sizeof *bearings;
  return bearings;
}

static double
miss (double asked, double is)
{
  return isnan (asked) ? 0 : fabs (asked - is);
}

/* By how much @bearing differs from what was measured, mm, summed over the
 * measures; @bore, @outside, @width in m, NAN for one that was not taken. */
double
pin_bearing_miss (const PinBearing *bearing, double bore, double outside, double width, int closed)
{
  return miss (bore * 1e3, bearing->bore) + miss (outside * 1e3, bearing->outside)
         + miss (width * 1e3, closed ? bearing->closed : bearing->open);
}

/* Speed factor in mm/min, as catalogues write it: rpm * (bore + outside) / 2.
 * @turns: a second.  @bore, @outside: m. */
PinMathsStatus
pin_bearing_speed_factor (double turns, double bore, double outside, double *factor)
{
  if (!isfinite (turns) || !isfinite (bore) || !isfinite (outside))
    return PIN_MATHS_NOT_FINITE;
  if (turns < 0 || bore <= 0 || outside <= bore)
    return PIN_MATHS_RANGE;
  *factor = turns * 60 * (bore + outside) / 2 * 1e3;
  return PIN_MATHS_OK;
}

/* Turns that 90 of 100 ball bearings reach: 1e6 * (rating / load)³.  Both in N.
 * Source: ISO 281. */
PinMathsStatus
pin_bearing_life (double rating, double load, double *turns)
{
  if (!isfinite (rating) || !isfinite (load))
    return PIN_MATHS_NOT_FINITE;
  if (rating <= 0 || load <= 0)
    return PIN_MATHS_RANGE;
  *turns = 1e6 * pow (rating / load, 3);
  return PIN_MATHS_OK;
}

/* Factor for a reliability of 90, 95, 96, 97, 98 or 99 %: ISO 281:2007, from
 * memory; the edition of 1990 had 0.62, 0.53, 0.44, 0.33 and 0.21. */
PinMathsStatus
pin_bearing_reliability (int percent, double *factor)
{
  static const double after[] = { 0.64, 0.55, 0.47, 0.37, 0.25 };

  if (percent != 90 && (percent < 95 || percent > 99))
    return PIN_MATHS_RANGE;
  *factor = percent == 90 ? 1 : after[percent - 95];
  return PIN_MATHS_OK;
}
