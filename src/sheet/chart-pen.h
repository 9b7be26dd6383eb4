#pragma once

#include "sheet/chart-view.h"

/* The pen of a chart: where the curves stand and how they are written on.
 * Private to the sheet room. */

typedef struct
{
  cairo_t *cr;
  const PinChart *chart;
  const PinChartLook *look;
  double text;
  double x, y, width, height; /* px: the frame of the curves */
  double x0, x1, y0, y1;      /* what its edges stand for */
} PinChartPen;

double pin_chart_x          (const PinChartPen *pen,
                             double             x);
double pin_chart_y          (const PinChartPen *pen,
                             double             y);
void   pin_chart_ink        (PinChartPen       *pen,
                             const PinInk      *ink);
void   pin_chart_line       (PinChartPen       *pen,
                             double             x0,
                             double             y0,
                             double             x1,
                             double             y1);
void   pin_chart_words      (PinChartPen       *pen,
                             const char        *words,
                             double             x,
                             double             y,
                             double             at,
                             gboolean           bold);
void   pin_chart_words_size (PinChartPen       *pen,
                             const char        *words,
                             gboolean           bold,
                             double            *width,
                             double            *height);
void   pin_chart_draw_marks (PinChartPen       *pen);
