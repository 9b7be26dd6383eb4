#pragma once

#include "service/slot-mark.h"
#include "service/readiness.h"
#include "service/usage.h"

/* The stable: every vehicle with the answer to "may it run?". */

typedef struct _PinStableRows PinStableRows;

typedef struct
{
  gint64 id;
  char *name;
  char *chassis, *chassis_title;
  char *state;                /* "in-use", "laid-up", "for-sale", "sold" */
  PinReadiness *readiness;
  PinUsage usage;
  gboolean burns_fuel;
  char *inspected;            /* day of the last sign-off, NULL: never */
  gint64 open_walk;           /* inspection, 0: none */
  char *open_walk_title;      /* "Quarterly teardown" */
  char *open_walk_day;
  GHashTable *marks;          /* code → PinSlotMark* */
  PinCar *car;
} PinStableVehicle;

typedef struct
{
  GPtrArray *vehicles;        /* PinStableVehicle*, in the order they came; sold ones last */
  char *sentence;             /* "Two of six are ready; …" */
  int ready, watch, not_known, not_ready, unsafe; /* of those in use */
} PinStable;

/* On the book's thread … */
PinStableRows *pin_stable_rows_load (PinDb         *db,
                                     GError       **error);
/* … of the first @n only, as they will stand in the list; @more: there are others. */
PinStableRows *pin_stable_rows_load_first (PinDb     *db,
                                           guint      n,
                                           gboolean  *more,
                                           GError   **error);
void           pin_stable_rows_free (PinStableRows *rows);
/* … and on the one that uses the library. */
PinStable     *pin_stable_new       (PinStableRows *rows,    /* taken */
                                     PinLibrary    *library,
                                     gint64         now,
                                     GError       **error);
void           pin_stable_free      (PinStable     *self);
/* By id as text, by name (case does not matter), or by the beginning of one. */
PinStableVehicle *pin_stable_find   (PinStable     *self,
                                     const char    *text,
                                     GError       **error);
GPtrArray     *pin_stable_names     (PinStable     *self);   /* char*, for "taken" */

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinStableRows, pin_stable_rows_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinStable, pin_stable_free)
