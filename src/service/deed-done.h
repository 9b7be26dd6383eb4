#pragma once

#include "book/book.h"

/* One change that the keeper made: the facts to be written, what to say of it,
 * and afterwards what is needed to take it back.  Fill it with functions of
 * service/inventory.h, commit its batch, keep it for the undo strip.  A failed
 * pin_inventory_…() may leave facts in it: free it, commit nothing. */

typedef struct _PinDeedDone PinDeedDone;

PinDeedDone *pin_deed_done_new         (PinBook            *book,
                                        const char         *person);   /* or NULL */
void         pin_deed_done_free        (PinDeedDone        *self);
const char  *pin_deed_done_person      (const PinDeedDone  *self);
/* The facts, borrowed; for pin_book_commit(). */
PinBatch    *pin_deed_done_batch       (PinDeedDone        *self);
/* The facts, to be given to pin_book_commit_async(); once. */
PinBatch    *pin_deed_done_steal_batch (PinDeedDone        *self);
/* "Oiled: rear left hub, outer, and 3 more", for the undo strip. */
const char  *pin_deed_done_text        (const PinDeedDone  *self);
guint        pin_deed_done_n           (const PinDeedDone  *self);     /* rows */
/* A batch that withdraws every row, newest first; free with pin_batch_free().
 * A vehicle cannot be unwritten: it is marked as withdrawn and no longer shown. */
PinBatch    *pin_deed_done_undo        (const PinDeedDone  *self,
                                        PinBook            *book);

/* For the functions that fill it. */
void         pin_deed_done_say         (PinDeedDone        *self,
                                        const char         *format,
                                        ...) G_GNUC_PRINTF (2, 3);
void         pin_deed_done_set_vehicle (PinDeedDone        *self,
                                        gint64              vehicle);
/* Each keeps the row and returns its id. */
gint64       pin_deed_done_trait       (PinDeedDone        *self,
                                        const PinTrait     *row);
gint64       pin_deed_done_fitting     (PinDeedDone        *self,
                                        const PinFitting   *row);
gint64       pin_deed_done_reading     (PinDeedDone        *self,
                                        const PinReading   *row);
gint64       pin_deed_done_work        (PinDeedDone        *self,
                                        const PinWork      *row);
gint64       pin_deed_done_owed        (PinDeedDone        *self,
                                        const PinOwed      *row);
gint64       pin_deed_done_finding     (PinDeedDone        *self,
                                        const PinFinding   *row);
gint64       pin_deed_done_outing      (PinDeedDone        *self,
                                        const PinOuting    *row);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinDeedDone, pin_deed_done_free)
