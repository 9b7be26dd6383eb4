#pragma once

#include "book/queries.h"

/* The parts that are not on a vehicle but on the shelf. */

typedef struct
{
  PinPartRow *row;
  char *last_code;            /* the place it came from, or NULL */
  char *last_vehicle;         /* and the vehicle's name, or NULL */
} PinShelfPart;

typedef struct
{
  GPtrArray *parts;           /* PinShelfPart* */
} PinShelf;

/* On the book's thread. */
PinShelf           *pin_shelf_load (PinDb           *db,
                                    GError         **error);
void                pin_shelf_free (PinShelf        *self);
const PinShelfPart *pin_shelf_part (const PinShelf  *self,
                                    gint64           part);
/* Those of a kind, not inside another: PinShelfPart*, transfer container. */
GPtrArray          *pin_shelf_of   (const PinShelf  *self,
                                    const char      *kind);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinShelf, pin_shelf_free)
