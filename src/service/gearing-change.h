#pragma once

#include "inspection/car.h"

/* What the last change of pinion, spur or tyres did to the gearing of a car,
 * and whether anybody has measured its motor since. */

typedef struct _PinGearingRows PinGearingRows;

typedef struct
{
  char *day;                  /* of the change */
  double factor;              /* rollout now over rollout before */
  char *text;                 /* "Geared up 4.8 % on 8 Mar 2026: pinion 21 to 22." */
  gboolean measured;          /* a temperature was read on that day or later */
} PinGearingChange;

/* On the book's thread; @car: rows of the vehicle. */
PinGearingRows   *pin_gearing_rows_load   (PinDb            *db,
                                           const PinCarRows *car,
                                           GError          **error);
void              pin_gearing_rows_free   (PinGearingRows   *rows);
/* @readings: PinReading*, of the vehicle.  NULL: nothing was changed, or nothing
 * that can be reckoned. */
PinGearingChange *pin_gearing_change_new  (const PinGearingRows *rows,
                                           const PinCar         *car,
                                           const GPtrArray      *readings);
void              pin_gearing_change_free (PinGearingChange *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinGearingRows, pin_gearing_rows_free)
