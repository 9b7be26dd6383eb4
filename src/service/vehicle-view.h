#pragma once

#include "service/gearing-change.h"
#include "service/slot-mark.h"
#include "service/part-history.h"
#include "service/readiness.h"
#include "service/setup.h"
#include "service/usage.h"

/* Everything that the page of one vehicle shows. */

typedef struct _PinVehicleRows PinVehicleRows;

typedef struct
{
  gint64 place, part;         /* part 0: nothing fitted */
  const PinSlot *slot;
  PinSlotMark mark;               /* its strings are the table's */
  char *group;                /* library group id: the layer */
  char *label, *kind, *size;  /* "front left hub, outer", "bearing", "8 × 16 × 5 mm" or "" */
  PinUsage usage;
  char *since_new;            /* "18.4 h", "12.4 h +", "not known" */
  char *last_work;            /* "oiled 4 Oct, 6.4 h ago", or "" */
  char *last_work_day;        /* NULL: none */
  char *state;                /* "watch", "pass, free", "not checked" */
  char *finding;              /* text of the weightiest open one, or "" */
} PinPartLine;

typedef struct
{
  char *id, *title;           /* "bearings"; "" and "Everything" */
  int n;
} PinLayer;

typedef struct
{
  const PinOuting *outing;
  char *day;                  /* "28 Nov 2026" */
  char *text;                 /* "22 min, 2 runs, 0.4 l" */
  char *conditions;           /* "wet grass, muddy, 1 knock" */
} PinOutingLine;

typedef struct
{
  gint64 id;
  char *what, *title;
  char *day, *verdict;        /* verdict "open", "signed", "abandoned" */
  char *person;
} PinInspectionLine;

typedef struct
{
  const PinFindingRow *row;
  PinGravity gravity;
  char *text;                 /* "front left hub, outer: sandy all round" */
  char *state;                /* "open since 21 Nov", "accepted 24 Nov", "closed 3 Oct" */
  char *closes;               /* what closes it; "" if closed */
  gboolean may_accept, may_close;
} PinFindingLine;

typedef struct
{
  gint64 id;                  /* owed row */
  char *text;
  char *settles;              /* how: "By hand, once it has run; …" */
  gboolean may_settle;        /* by hand, now */
} PinOwedLine;

typedef struct
{
  PinCar *car;                /* owned */
  PinUsage usage;
  gboolean burns_fuel;
  char *usage_text, *since;
  PinReadiness *readiness;
  PinGearingChange *gearing;  /* NULL: none that matters */
  GHashTable *marks;          /* code → PinSlotMark* */
  GPtrArray *layers;          /* PinLayer*, "Everything" first */
  GPtrArray *parts;           /* PinPartLine*, worst first */
  GPtrArray *outings;         /* PinOutingLine*, newest first */
  GPtrArray *inspections;     /* PinInspectionLine*, newest first */
  GPtrArray *findings;        /* PinFindingLine*, open and heaviest first */
  GPtrArray *owed;            /* PinOwedLine* */
  GPtrArray *setup;           /* PinSetupGroup* */
  GPtrArray *readings;        /* PinReading*, of it and of the parts on it */
  GPtrArray *works;           /* PinWork* */
} PinVehicleView;

PinVehicleRows *pin_vehicle_rows_load (PinDb          *db,
                                       gint64          vehicle,
                                       GError        **error);
void            pin_vehicle_rows_free (PinVehicleRows *rows);
PinVehicleView *pin_vehicle_view_new  (PinVehicleRows *rows,     /* taken */
                                       PinLibrary     *library,
                                       gint64          now,
                                       GError        **error);
void            pin_vehicle_view_free (PinVehicleView *self);
const PinPartLine *pin_vehicle_view_part (const PinVehicleView *self,
                                       gint64          place);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinVehicleRows, pin_vehicle_rows_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinVehicleView, pin_vehicle_view_free)
