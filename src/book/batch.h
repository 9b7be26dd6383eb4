#pragma once

#include "book/db-private.h"
#include "book/facts.h"

gboolean pin_batch_write (PinBatch  *self,
                          PinDb     *db,
                          GError   **error);
