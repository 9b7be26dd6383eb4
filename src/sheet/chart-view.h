#pragma once

#include <cairo.h>

#include "reckoner/chart.h"
#include "sheet/palette.h"

/* A chart of the reckoner, drawn for window and paper: px of the target. */

typedef struct
{
  const PinPalette *palette;
  const char *font;           /* Pango family list; NULL: the usual one */
  double text;                /* px of the words; 0: 13 */
  double width, height;       /* px of the field */
} PinChartLook;

void    pin_chart_draw  (cairo_t            *cr,
                         const PinChart     *chart,
                         const PinChartLook *look);
double  pin_chart_step  (double              span,
                         int                 most); /* of its grid: 1, 2 or 5 by a power of ten */
