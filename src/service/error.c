#include "service/error.h"

G_DEFINE_QUARK (pin-service-error-quark, pin_service_error)
