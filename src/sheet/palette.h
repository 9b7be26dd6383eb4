#pragma once

#include <glib.h>

/* Every colour of window and paper, in one place.  The window's style sheet is
 * written from it (pin_palette_css) and the drawings read it directly. */

typedef struct
{
  double r, g, b;             /* sRGB, 0 to 1 */
} PinInk;

typedef struct
{
  PinInk paper;               /* window, header */
  PinInk raised;              /* fields, entries; fills drawn parts */
  PinInk button;
  PinInk ink;
  PinInk pencil;              /* secondary text, control borders, dimensions */
  PinInk rule;                /* inside fields */
  PinInk hair;                /* table lines, grids */
  PinInk accent, on_accent;   /* chosen, here, focus, primary action, link */
  PinInk chosen;              /* tint behind what is chosen */
  PinInk plate, tyre, tread;  /* of the plan view */
  PinInk band;                /* between limits */
  PinInk pass, pass_edge;
  PinInk watch, watch_edge;
  PinInk unsafe, fail_edge;
  PinInk warning, on_warning; /* hazard levels */
  PinInk danger, on_danger;
  PinInk caution, on_caution;
} PinPalette;

const PinPalette *pin_palette_light  (void);
const PinPalette *pin_palette_dark   (void);
const PinPalette *pin_palette_print  (void);
guint             pin_palette_size   (void);
const char       *pin_palette_name   (guint             nth);
const PinInk     *pin_palette_nth    (const PinPalette *self,
                                      guint             nth);
char             *pin_palette_css    (const PinPalette *self);
double            pin_ink_contrast   (const PinInk     *a,
                                      const PinInk     *b);
