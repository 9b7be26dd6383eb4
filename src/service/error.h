#pragma once

#include <glib.h>

/* What can be wrong with a change that the keeper asks for. */
typedef enum
{
  PIN_SERVICE_ERROR_NAME,      /* empty, too long or taken */
  PIN_SERVICE_ERROR_DAY,       /* no date, in the future, before what it follows */
  PIN_SERVICE_ERROR_UNKNOWN,   /* no such chassis type, deed, spec, part … */
  PIN_SERVICE_ERROR_PLACE,     /* that kind of part does not belong there */
  PIN_SERVICE_ERROR_VALUE,     /* a value that cannot be read */
  PIN_SERVICE_ERROR_NOTHING,   /* nothing chosen, nothing fitted, nothing to change */
  PIN_SERVICE_ERROR_NOT_YET,   /* owed, and may not be settled by hand now */
  PIN_SERVICE_ERROR_NOT_LAST,  /* cannot be taken back any more */
} PinServiceError;

#define PIN_SERVICE_ERROR (pin_service_error_quark ())
GQuark pin_service_error_quark (void);
