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
} PinSlotMark;

/* What the marks need beyond the car; loaded on the book's thread. */
typedef struct
{
  GPtrArray *answers;         /* PinAnswer*, of its last signed walks, newest walk first */
  GHashTable *days;           /* inspection id → day (char *) */
} PinSlotMarkRows;

PinSlotMarkRows *pin_slot_mark_rows_load (PinDb                  *db,
                                          gint64                  vehicle,
                                          GError                **error);
void             pin_slot_mark_rows_free (PinSlotMarkRows        *rows);
/* code (char *) → PinSlotMark*, one for every slot of the car. */
GHashTable      *pin_slot_marks_new      (const PinCar           *car,
                                          const PinSlotMarkRows  *rows);
/* Unsafe 6 … pass 1, does not apply 0; for worst first. */
int              pin_slot_mark_weight    (const PinSlotMark      *mark);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinSlotMarkRows, pin_slot_mark_rows_free)
