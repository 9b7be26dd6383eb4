#pragma once

#include "inspection/car.h"

/* Clocks in numbers and in words.  NAN is "not known", never zero. */

typedef struct
{
  double seconds, runs, outings, litres;            /* logged in this book */
  double before_seconds, before_runs, before_litres;/* told; NAN: not known */
} PinUsage;

PinUsage  pin_usage_of_vehicle (const PinVehicleRow *row);
PinUsage  pin_usage_of_slot    (const PinCar        *car,
                                const PinSlot       *slot);
/* NAN if what went before is not known. */
double    pin_usage_seconds    (const PinUsage      *self);
double    pin_usage_litres     (const PinUsage      *self);
gboolean  pin_usage_is_known   (const PinUsage      *self);

/* All strings are the caller's; free with g_free(). */
char     *pin_usage_text       (const PinUsage      *self,
                                gboolean             litres); /* "41.3 h, 58 outings, 34.2 l" */
const char *pin_usage_since    (const PinUsage      *self);   /* "since new", … */
char     *pin_usage_hours      (const PinUsage      *self);   /* "12.4 h +": more before, unknown */
char     *pin_hours_text       (double               seconds);/* "41.3 h"; "not known" */
char     *pin_minutes_text     (double               minutes);/* "1 h 50 min" */
char     *pin_litres_text      (double               litres); /* "34.2 l" */
gboolean  pin_car_burns_fuel   (const PinCar        *car);
