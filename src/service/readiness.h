#pragma once

#include "inspection/car.h"

/* May it run?  Five answers, always with the reasons. */

typedef enum                  /* worst first */
{
  PIN_LEVEL_UNSAFE,
  PIN_LEVEL_NOT_READY,
  PIN_LEVEL_NOT_KNOWN,
  PIN_LEVEL_WATCH,
  PIN_LEVEL_READY,
} PinLevel;

typedef enum
{
  PIN_REASON_FINDING,
  PIN_REASON_OFF,             /* parts are off the car */
  PIN_REASON_OWED,
  PIN_REASON_NEVER,           /* never inspected */
  PIN_REASON_NOT_CHECKED,     /* over half of the last walk */
  PIN_REASON_FINE,            /* nothing owed, nothing open */
} PinReasonKind;

typedef struct
{
  PinReasonKind kind;
  PinLevel level;             /* what this reason alone makes of the car */
  PinGravity gravity;         /* of a finding */
  char *text;                 /* a sentence: "Clutch bell bearing, front: notchy." */
  gint64 id;                  /* finding or owed row; 0: none */
  gint64 place;               /* 0: the vehicle as a whole */
} PinReason;

/* Counts of the last signed walk. */
typedef struct
{
  char *day;                  /* signed; NULL: never inspected */
  char *what;                 /* procedure or teardown id */
  int asked, not_checked;
} PinLastWalk;

typedef struct
{
  PinLevel level;
  GPtrArray *reasons;         /* PinReason*, weightiest first; at least one */
} PinReadiness;

PinLastWalk  *pin_last_walk_load    (PinDb             *db,
                                     gint64             vehicle,
                                     GError           **error);
void          pin_last_walk_free    (PinLastWalk       *self);
PinReadiness *pin_readiness_new     (PinLibrary        *library,
                                     const PinCar      *car,
                                     const PinLastWalk *last,
                                     gint64             now);
void          pin_readiness_free    (PinReadiness      *self);
const char   *pin_readiness_text    (const PinReadiness *self); /* first reason's sentence */
const char   *pin_level_word        (PinLevel           level); /* stable key: "not-ready" */
const char   *pin_level_title       (PinLevel           level); /* "Not ready" */
gboolean      pin_level_may_run     (PinLevel           level);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinLastWalk, pin_last_walk_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinReadiness, pin_readiness_free)
