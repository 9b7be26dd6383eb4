#pragma once

#include "reckoner/work.h"

/* A viscosity as given, or by its label from the keeper's own table, which are
 * the inputs "label" and "labels". */
gboolean pin_labelled_viscosity (PinReckoning *self, const char *id, double *viscosity);

#define PIN_LABEL_INPUTS \
  { .id = "label", .title = N_("Label in weight"), .unit = "1", .least = 0, .most = 2000, .preset = "", \
    .hint = N_("Instead of the viscosity; read off your own table") }, \
  { .id = "labels", .title = N_("Your own table of labels"), .kind = PIN_INPUT_PAIRS, .unit = "1", .least = 0, \
    .most = 2000, .second = "cSt", .second_least = 2, .second_most = 2e6, .preset = "", \
    .hint = N_("Label, colon, cSt, as the maker of the bottles says: 30:350, 40:500") }
