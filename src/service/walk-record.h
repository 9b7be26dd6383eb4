#pragma once

#include "inspection/walk.h"

/* One inspection as a record: what was found and how it was left, position by
 * position.  "Not checked" stands in it as plainly as everything else. */

typedef struct
{
  char *step;                 /* "bearings/grade" */
  char *title;                /* of the step */
  char *place;                /* label, or "" for the vehicle */
  char *code;                 /* position, or NULL */
  gint64 part;
  const PinAnswer *found;     /* as found, or the only answer; NULL: not answered */
  const PinAnswer *left;      /* NULL: not asked again */
  char *found_text, *left_text; /* "sandy all round", "1.8 s", "126/130"; "" */
  const PinReading *found_reading, *left_reading; /* NULL: not a measure */
  char *unit;                 /* "s", of the readings, or "" */
  char *quantity;             /* title of what was measured, or "" */
  char *limit;                /* "≥ 1.95", or "" */
  char *reason;               /* why not checked, or "" */
  char *note;                 /* or "" */
  GPtrArray *deeds;           /* char*: "Oiled" … done here */
  GPtrArray *corrected;       /* char*: "corrected by CD, 25 Nov 2026; was 2.1 s, watch (AB)" …;
                               * see pin_walk_record_read_corrected() */
  PinOutcome outcome;         /* of the last answer; NONE: not answered */
  gboolean unsafe;
} PinRecordLine;

typedef struct
{
  char *id;                   /* of the procedure */
  char *title;
  GPtrArray *lines;           /* PinRecordLine* */
} PinRecordGroup;

typedef struct
{
  PinWalk *walk;              /* owned */
  gint64 id;
  char *what, *title;         /* "teardown", "Quarterly teardown" */
  char *day, *person;         /* signed, else begun */
  char *verdict;              /* "signed", "abandoned", "open" */
  GPtrArray *groups;          /* PinRecordGroup*, by procedure */
  GPtrArray *wrong;           /* PinRecordLine*, borrowed: unsafe, fail, watch */
  GPtrArray *not_checked;     /* PinRecordLine*, borrowed: with reasons, and unanswered ones */
  int passed, watched, failed, unsafe, n_not_checked, does_not_apply;
} PinWalkRecord;

/* On the thread that uses the library; rows from pin_walk_rows_load(). */
PinWalkRecord *pin_walk_record_new  (PinWalkRows    *rows,     /* taken */
                                     PinLibrary     *library,
                                     GError        **error);
/* Adds what stood before corrections, from the book: on its thread, once. */
gboolean       pin_walk_record_read_corrected (PinWalkRecord *self,
                                     PinDb          *db,
                                     PinLibrary     *library,
                                     GError        **error);
void           pin_walk_record_free (PinWalkRecord  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinWalkRecord, pin_walk_record_free)
