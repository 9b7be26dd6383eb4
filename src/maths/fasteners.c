#include "maths/fasteners.h"

#include <math.h>
#include <string.h>

/* Pitch: ISO 261.  Face: ISO 4014, holes: ISO 273 medium.  Torques into plastic
 * and aluminium: common practice among keepers for M3, the others from memory. */
static const PinThread threads[] = {
  { "M2", 2e-3, 0.4e-3, 3.07e-3, 2.4e-3, 0.12, 0, "1.5 / 1.3 / 0.9" },
  { "M2.5", 2.5e-3, 0.45e-3, 4.07e-3, 2.9e-3, 0.2, 0.7, "2.0 / 1.5 / 1.3" },
  { "M3", 3e-3, 0.5e-3, 4.57e-3, 3.4e-3, 0.32, 1.25, "2.5 / 2.0 / 1.5" },
  { "M4", 4e-3, 0.7e-3, 5.88e-3, 4.5e-3, 0.8, 2.5, "3.0 / 2.5 / 2.0" },
  { "M5", 5e-3, 0.8e-3, 6.88e-3, 5.5e-3, 0, 0, "4.0 / 3.0 / 2.5" },
  { "M6", 6e-3, 1e-3, 8.88e-3, 6.6e-3, 0, 0, "5.0 / 4.0 / 3.0" },
};

/* ISO 898-1, and ISO 3506-1 from memory. */
static const PinScrewClass classes[] = {
  { "8.8", 640e6, 580e6 },
  { "10.9", 940e6, 830e6 },
  { "12.9", 1100e6, 970e6 },
  { "stainless-50", 210e6, 0 },
  { "stainless-70", 450e6, 0 },
  { "stainless-80", 600e6, 0 },
};

/* NULL for a size that is none. */
const PinThread *
pin_thread_find (const char *name)
{
  for (size_t i = 0; i < sizeof threads / sizeof *threads; i++)
    if (strcmp (threads[i].name, name) == 0)
      return &threads[i];
  return NULL;
}

const PinScrewClass *
pin_screw_class_find (const char *name)
{
  for (size_t i = 0; i < sizeof classes / sizeof *classes; i++)
    if (strcmp (classes[i].name, name) == 0)
      return &classes[i];
  return NULL;
}

/* Height of the sharp thread triangle is sqrt(3)/2 of the pitch (ISO 68-1). */
static double
flank_diameter (const PinThread *self)
{
  return self->diameter - 0.75 * sqrt (3) / 2 * self->pitch;
}

static double
stress_diameter (const PinThread *self)
{
  double root = self->diameter - 17.0 / 12 * sqrt (3) / 2 * self->pitch;

  return (flank_diameter (self) + root) / 2;
}

/* Stress area, m²: pi/4 * ((d2 + d3) / 2)².  Source: ISO 898-1. */
PinMathsStatus
pin_thread_area (const PinThread *self, double *area)
{
  *area = M_PI / 4 * pow (stress_diameter (self), 2);
  return PIN_MATHS_OK;
}

/* Clamping force, N, at which tension and twist together reach @share of the
 * yield stress @yield, Pa:
 *
 *   F = share * As * yield / sqrt (1 + 3 * (1.5 d2/d0 * (P / (pi d2) + 1.155 µ))²)
 *
 * @share: above 0, at most 1.  @friction: of the thread, 0.02 to 1.  Source:
 * VDI 2230. */
PinMathsStatus
pin_thread_preload (const PinThread *self, double yield, double share, double friction, double *preload)
{
  double d2 = flank_diameter (self), d0 = stress_diameter (self), twist, area;

  if (!isfinite (yield) || !isfinite (share) || !isfinite (friction))
    return PIN_MATHS_NOT_FINITE;
  if (yield <= 0 || share <= 0 || share > 1 || friction < 0.02 || friction > 1)
    return PIN_MATHS_RANGE;
  pin_thread_area (self, &area);
  twist = 1.5 * d2 / d0 * (self->pitch / (M_PI * d2) + 1.155 * friction);
  *preload = share * area * yield / sqrt (1 + 3 * twist * twist);
  return PIN_MATHS_OK;
}

/* N·m for @preload N: F * (0.16 P + 0.58 d2 µ + µ_seat * seat / 2).  @seat: mean
 * diameter under the head, m; 0 for a screw without a seat.  Source: VDI 2230. */
PinMathsStatus
pin_thread_torque (const PinThread *self, double preload, double friction, double seat_friction, double seat,
                   double *torque)
{
  if (!isfinite (preload) || !isfinite (friction) || !isfinite (seat_friction) || !isfinite (seat))
    return PIN_MATHS_NOT_FINITE;
  if (preload <= 0 || friction < 0.02 || friction > 1 || seat_friction < 0.02 || seat_friction > 1 || seat < 0)
    return PIN_MATHS_RANGE;
  *torque = preload * (0.16 * self->pitch + 0.58 * flank_diameter (self) * friction + seat_friction * seat / 2);
  return PIN_MATHS_OK;
}
