#pragma once

#include "reckoner/sum.h"
#include "service/deed-done.h"
#include "service/vehicle-view.h"

/* What is known of a vehicle that a sum asks for. */

typedef struct
{
  const char *input;          /* id */
  char *typed;                /* "22", "84 mm" */
  char *origin;               /* "as fitted, 22 Nov 2026" */
} PinFill;

/* What of a sum's inputs would be news to the book: the way back. */
typedef struct
{
  const PinSlot *slot;        /* NULL: of the vehicle as a whole */
  const char *spec;           /* set-up of the part; NULL: a reading */
  const char *quantity;
  char *typed;
  char *says;                 /* "pinion, teeth 22 (was 21)" */
} PinKeep;

/* PinFill*, for those inputs that something is known of.  Returns: (transfer full) */
GPtrArray *pin_reckon_fill  (const PinSum         *sum,
                             const PinVehicleView *view);
void       pin_fill_free    (PinFill              *self);
/* PinKeep*, for those of @typed (id → as typed) that differ from what is known;
 * borrows from @view.  Returns: (transfer full) */
GPtrArray *pin_reckon_keeps (const PinSum         *sum,
                             PinLibrary           *library,
                             const PinVehicleView *view,
                             GHashTable           *typed);
void       pin_keep_free    (PinKeep              *self);
/* Writes them, as the set-up and the readings of today.  FALSE with a
 * PIN_SERVICE_ERROR. */
gboolean   pin_reckon_keep  (PinDeedDone          *done,
                             PinLibrary           *library,
                             const PinVehicleView *view,
                             GPtrArray            *keeps,
                             GError              **error);
