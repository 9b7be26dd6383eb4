#pragma once

#include "library/quantity.h"
#include "reckoner/sum.h"

/* An input as it was put in, read and found in range. */
typedef struct
{
  const PinInput *input;
  double value;               /* canonical; NAN: left out */
  GArray *list, *second;      /* double, canonical; empty if left out */
  const char *choice;         /* one of the input's */
  const PinUnit *unit;        /* of any value: as typed; of a unit: itself; else NULL */
} PinGiven;

PinGiven *pin_given_read (const PinInput *input,
                          const char     *typed,
                          GError        **error);
void      pin_given_free (PinGiven       *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinGiven, pin_given_free)
