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
} PinPartShelf;

/* On the book's thread. */
PinPartShelf       *pin_part_shelf_load (PinDb               *db,
                                         GError             **error);
void                pin_part_shelf_free (PinPartShelf        *self);
const PinShelfPart *pin_part_shelf_part (const PinPartShelf  *self,
                                         gint64               part);
/* Those of a kind, not inside another: PinShelfPart*, transfer container. */
GPtrArray          *pin_part_shelf_of   (const PinPartShelf  *self,
                                         const char          *kind);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinPartShelf, pin_part_shelf_free)
