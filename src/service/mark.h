#pragma once

#include "inspection/car.h"

/* The mark of each position on the plan: the worst of the open findings there,
 * else what it came to when it was last looked at.  Never inspected is
 * PIN_OUTCOME_NONE, which is drawn as not checked. */

typedef struct
{
  PinOutcome outcome;
  gboolean unsafe;
  gint64 finding;             /* the weightiest open one, 0: none */
  char *day;                  /* last looked at, or NULL */
} PinMark;

/* What the marks need beyond the car; loaded on the book's thread. */
typedef struct
{
  GPtrArray *answers;         /* PinAnswer*, of its last signed walks, newest walk first */
  GHashTable *days;           /* inspection id → day (char *) */
} PinMarkRows;

PinMarkRows *pin_mark_rows_load (PinDb             *db,
                                 gint64             vehicle,
                                 GError           **error);
void         pin_mark_rows_free (PinMarkRows       *rows);
/* code (char *) → PinMark*, one for every slot of the car. */
GHashTable  *pin_marks_of_car   (const PinCar      *car,
                                 const PinMarkRows *rows);
int          pin_mark_weight    (const PinMark     *mark);   /* unsafe 5 … pass 1; for worst first */

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinMarkRows, pin_mark_rows_free)
