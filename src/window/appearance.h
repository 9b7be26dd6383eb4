#pragma once

#include <gtk/gtk.h>

#include "sheet/palette.h"

/* Light and dark: the desktop's choice unless the person made one.  The style
 * sheet and the drawings take their colours from the same palette. */

void              pin_appearance_start   (GdkDisplay *display);
void              pin_appearance_choose  (const char *choice); /* system, light, dark */
char             *pin_appearance_choice  (void);
const PinPalette *pin_appearance_palette (void);
