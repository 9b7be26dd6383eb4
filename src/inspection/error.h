#pragma once

#include <glib.h>

typedef enum
{
  PIN_INSPECTION_ERROR_FITS_NOT,   /* procedure and vehicle do not go together */
  PIN_INSPECTION_ERROR_ORDER,      /* something must come off or go on first */
  PIN_INSPECTION_ERROR_ANSWER,     /* an answer that the question does not take */
  PIN_INSPECTION_ERROR_NO_QUESTION,/* the walk does not ask that (now) */
  PIN_INSPECTION_ERROR_OWED,       /* parts off the car or debts payable now */
  PIN_INSPECTION_ERROR_OPEN,       /* another walk on this vehicle is open */
  PIN_INSPECTION_ERROR_PLAN,       /* the kept plan cannot be read */
} PinInspectionError;

#define PIN_INSPECTION_ERROR (pin_inspection_error_quark ())
GQuark pin_inspection_error_quark (void);
