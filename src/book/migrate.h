#pragma once

#include "book/db-private.h"

/* One step of the way from an older book to this version: @up brings a book of
 * version @to - 1 to version @to, inside a transaction that the caller holds. */
typedef struct
{
  int to;
  gboolean (*up) (PinDb *db, GError **error);
} PinMigration;

gboolean pin_migrate      (PinDb               *db,
                           GError             **error);
gboolean pin_migrate_with (PinDb               *db,
                           const PinMigration  *steps,
                           int                  n_steps,
                           GError             **error);
