#include "library/error.h"

G_DEFINE_QUARK (pin-library-error-quark, pin_library_error)
