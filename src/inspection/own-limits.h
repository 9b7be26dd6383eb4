#pragma once

#include "book/facts.h"
#include "library/procedure.h"

/* The keeper's own limits, ready to judge with. */
typedef struct _PinOwnLimits PinOwnLimits;

PinOwnLimits    *pin_own_limits_new  (const GPtrArray    *rows);   /* PinOwnLimit*, all ever, by id; borrowed */
void             pin_own_limits_free (PinOwnLimits       *self);
const PinLimits *pin_own_limits_find (const PinOwnLimits *self,
                                      const char         *step,
                                      gint64              part,
                                      gint64              vehicle,
                                      gint64              before); /* as known then; 0: now */
