#pragma once

#include "book/db.h"
#include "book/facts.h"
#include "book/queries.h"

/* What the answers of one walk brought into the book: every live row that
 * names one of them as its answer or its cause.  Undoing an answer withdraws
 * these. */

typedef struct
{
  GPtrArray *readings;        /* PinReading* */
  GPtrArray *works;           /* PinWork* */
  GPtrArray *traits;          /* PinTrait* */
  GPtrArray *fittings;        /* PinFitting* */
  GPtrArray *owed;            /* PinOwed*: debts made and debts settled */
  GPtrArray *findings;        /* PinFinding*: every event */
  GPtrArray *photos;          /* PinPhoto* */
} PinTraces;

PinTraces  *pin_query_traces      (PinDb      *db,
                                   gint64      inspection,
                                   GError    **error);
void        pin_traces_free       (PinTraces  *traces);
/* Set of gint64*: live answers on @vehicle that passed and have a reading. */
GHashTable *pin_query_passed      (PinDb      *db,
                                   gint64      vehicle,
                                   GError    **error);
/* NULL without error: there is none. */
PinInspectionRow *pin_query_inspection (PinDb *db,
                                   gint64      inspection,
                                   GError    **error);
gint64      pin_query_last_outing (PinDb      *db,
                                   gint64      vehicle,
                                   GError    **error); /* id, 0: none, -1: error */
/* Of the answers of one walk, which took the place of which: gint64* → gint64*. */
GHashTable *pin_query_corrected   (PinDb      *db,
                                   gint64      inspection,
                                   GError    **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinTraces, pin_traces_free)
