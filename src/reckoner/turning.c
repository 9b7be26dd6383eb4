#include "reckoner/turning.h"

#include <math.h>

double
pin_turning_speed (const PinReckoning *self)
{
  if (pin_given (self, "speed"))
    return pin_value (self, "speed");
  return pin_value (self, "top-speed") / (G_PI * pin_value (self, "tyre"));
}
