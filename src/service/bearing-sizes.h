#pragma once

#include "book/queries.h"

/* The bearings of a stable by size: what to buy from. */

typedef struct
{
  double bore, outside, width; /* mm */
  char *size;                 /* "5 × 10 × 4 mm" */
  const char *designation;    /* of the boundary dimensions; NULL: none that is known */
  const char *closure;        /* "open", "shielded or sealed", "any"; NULL with it */
  guint fitted, shelved;
  GPtrArray *cars;            /* char*: "Plum 4", in the order they came */
} PinBearingSize;

/* PinBearingSize*, smallest first; cars that are sold are left out, and sizes that
 * are no three numbers stand last with their text alone.  On the book's thread.
 * Returns: (transfer full) */
GPtrArray *pin_bearing_sizes_load (PinDb          *db,
                                   GError        **error);
void       pin_bearing_size_free  (PinBearingSize *self);
