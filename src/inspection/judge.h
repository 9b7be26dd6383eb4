#pragma once

#include "library/procedure.h"
#include "book/facts.h"
#include "library/kinds.h"

/* What a reading is held against.  NAN: there is none. */
typedef struct
{
  const char *scale, *power, *surface;
  double partner, baseline, best, last_fill;  /* canonical */
  char baseline_day[11];
  const PinLimits *own;       /* the keeper's, which stand in for the text's; NULL: none */
} PinReferences;

/* What a reading says.  The person answers; this only proposes. */
typedef struct
{
  PinOutcome outcome;         /* NONE: nothing is proposed */
  const PinLimits *limits;    /* those that decided */
  gboolean own;               /* they are the keeper's own */
  PinAgainst against;
  double reference;           /* what it was held against; NAN: plain */
  double pass_min, pass_max;  /* canonical edges for the gauge; NAN: open */
  double watch_min, watch_max;
} PinProposal;

PinProposal    pin_judge            (const PinMeasure    *measure,
                                     double               value,
                                     const PinReferences *references);
double         pin_judge_take       (const PinMeasure    *measure,
                                     const double        *repeats,
                                     guint                n);
/* Baseline and best of like readings of one thing; see docs/words.md. */
void           pin_judge_baseline   (const GPtrArray     *readings, /* PinReading*, by day and id */
                                     const GPtrArray     *works,    /* PinWork* */
                                     gint64               thing,
                                     gboolean             whole,    /* thing is the whole vehicle */
                                     const PinQuantity   *quantity,
                                     const char          *conditions,
                                     gint64               before,   /* ids below this only; 0: all */
                                     GHashTable          *good,     /* set of answer ids that passed (gint64*) or NULL */
                                     PinReferences       *references);
gboolean       pin_conditions_alike (const PinQuantity   *quantity,
                                     const char          *a,
                                     const char          *b);
