#pragma once

#include <glib.h>

/* What can be wrong with a file or a value.  Messages always read
 * "file:line: what is wrong, what would be right". */
typedef enum
{
  PIN_LIBRARY_ERROR_READ,       /* cannot be opened or read */
  PIN_LIBRARY_ERROR_HOSTILE,    /* DOCTYPE, too large, too deep, not UTF-8 */
  PIN_LIBRARY_ERROR_FORM,       /* not well-formed XML */
  PIN_LIBRARY_ERROR_SCHEMA,     /* not what the grammar allows */
  PIN_LIBRARY_ERROR_MEANING,    /* allowed by the grammar, makes no sense */
  PIN_LIBRARY_ERROR_VALUE,      /* a typed value or unit that is not one */
  PIN_LIBRARY_ERROR_UNKNOWN,    /* no such procedure, chassis type, kind … */
} PinLibraryError;

#define PIN_LIBRARY_ERROR (pin_library_error_quark ())
GQuark pin_library_error_quark (void);
