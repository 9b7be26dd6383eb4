#pragma once

#include "book/clocks.h"
#include "book/rows.h"

/* The derived tables meter, standing and mark: kept in step with the facts in
 * the transaction that writes those, or rebuilt from all of them. */

typedef struct _PinDerive PinDerive;

typedef struct
{
  char *deed;                 /* "oiled" or "procedure:bearings" */
  PinMoment moment;
  gint64 id;                  /* of the work or sign-off */
  PinClocks clocks;           /* of the thing, then */
} PinLastDone;

PinDerive *pin_derive_new     (PinDb           *db);
void       pin_derive_free    (PinDerive       *self);
gboolean   pin_derive_note    (PinDerive       *self,
                               const PinTable  *table,
                               gconstpointer    row,
                               GError         **error);
gboolean   pin_derive_apply   (PinDerive       *self,
                               GError         **error);
gboolean   pin_derive_rebuild (PinDb           *db,
                               GError         **error);
GPtrArray *pin_derive_marks   (PinDb           *db,
                               PinClockwork    *clockwork,
                               gint64           thing,
                               GError         **error);
void       pin_last_done_free (PinLastDone     *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinDerive, pin_derive_free)
