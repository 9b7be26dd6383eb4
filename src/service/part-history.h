#pragma once

#include "inspection/car.h"

/* What happened to a part, or to several at once, newest first. */

typedef enum
{
  PIN_EVENT_WORK,
  PIN_EVENT_ANSWER,
  PIN_EVENT_READING,
  PIN_EVENT_FITTING,
  PIN_EVENT_FINDING,
} PinEventKind;

typedef struct
{
  PinEventKind kind;
  char *day;
  char *text;                 /* "Oiled, all four. Spin-down 2.6 s." */
  PinOutcome outcome;         /* NONE: no mark */
  gboolean unsafe;
  gboolean told;              /* from memory, not written at the time */
  guint n;                    /* of how many of the parts */
  gint64 id;                  /* newest of its rows */
} PinEvent;

typedef struct _PinHistoryRows PinHistoryRows;

/* @parts: gint64.  On the book's thread. */
PinHistoryRows *pin_history_rows_load (PinDb          *db,
                                       GArray         *parts,
                                       GError        **error);
void            pin_history_rows_free (PinHistoryRows *rows);
/* PinEvent*; events of one day and one sort on several parts become one. */
GPtrArray      *pin_history_new       (PinHistoryRows *rows,      /* borrowed */
                                       PinLibrary     *library,
                                       const PinCar   *car);      /* for labels; may be NULL */
void            pin_event_free        (PinEvent       *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinHistoryRows, pin_history_rows_free)
