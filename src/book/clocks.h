#pragma once

#include "book/db-private.h"

/* Clocks reckoned from the facts alone: the one place that says what counts.
 *
 * An outing comes before a fitting or a work of the same day if both have a
 * time and its is earlier; without times the order of a day is fittings,
 * outings, work.  What is not known (NULL) adds nothing.  The outings clock
 * counts distinct days of use. */

typedef struct
{
  double seconds, runs, outings, litres;
} PinClocks;

/* When a part was fitted, or work was done. */
typedef struct
{
  char day[11];
  gint64 at;                  /* instant, 0: only the day is known */
  gboolean is_work;
} PinMoment;

/* The outings of each vehicle and the moves of each part, read once. */
typedef struct _PinClockwork PinClockwork;

/* What stands in the derived table meter. */
typedef struct
{
  PinClocks clocks;
  const char *first_day, *last_day; /* NULL: never out */
} PinMeter;

/* … and in standing. */
typedef struct
{
  gint64 vehicle, place, fitting; /* 0: none */
  PinClocks base;             /* its clocks, less its vehicle's meter */
} PinStanding;

PinClockwork *pin_clockwork_new      (PinDb           *db);
void          pin_clockwork_free     (PinClockwork    *self);
gboolean      pin_clockwork_meter    (PinClockwork    *self,
                                      gint64           vehicle,
                                      PinMeter        *meter,
                                      GError         **error);
gboolean      pin_clockwork_standing (PinClockwork    *self,
                                      gint64           part,
                                      PinStanding     *standing,
                                      GError         **error);
gboolean      pin_clockwork_at       (PinClockwork    *self,
                                      gint64           thing,
                                      const PinMoment *moment,
                                      PinClocks       *clocks,
                                      GError         **error);
void          pin_moment_set         (PinMoment       *self,
                                      const char      *day,
                                      gint64           at,
                                      gboolean         is_work);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinClockwork, pin_clockwork_free)
