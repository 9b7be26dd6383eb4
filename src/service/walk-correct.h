#pragma once

#include "inspection/walk.h"

/* Putting one answer of a signed inspection right.  Nothing is rewritten: the
 * new answer names the one that it replaces, and both stay in the book. */

typedef struct
{
  PinOutcome outcome;         /* NONE: the grade, the reading or the count says it */
  gboolean unsafe;            /* a fail, raised */
  const char *grade;          /* id, where one is chosen; else NULL */
  const char *typed;          /* readings, "1.9, 1.7 s", or a count, "11"; else NULL */
  const char *reason;         /* not checked: why; else NULL */
  const char *why;            /* it is corrected; has to be said */
  const char *person;         /* initials; have to be given */
} PinCorrection;

/* The question that @answer answers; NULL: none. Borrowed from @walk. */
const PinQuestion *pin_walk_question_of (const PinWalk       *walk,
                                         gint64               answer);
/* FALSE with a reason if that answer is not put right in a record. */
gboolean           pin_walk_may_correct (const PinWalk       *walk,
                                         const PinQuestion   *question,
                                         GError             **error);
/* Fills @batch.  What the correction does not say stays as it was: work, what
 * was written down, method and conditions of a reading, note, pictures.
 * FALSE and nothing in @batch if it does not fit the question. */
gboolean           pin_walk_correct     (const PinWalk       *walk,
                                         const PinQuestion   *question,
                                         const PinCorrection *correction,
                                         PinBatch            *batch,
                                         GError             **error);
