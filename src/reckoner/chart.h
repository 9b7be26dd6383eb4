#pragma once

#include <glib.h>

/* A picture of a sum, as numbers: the sheet room draws it. */

typedef enum
{
  PIN_SERIES_LINE,
  PIN_SERIES_POINTS,
  PIN_SERIES_BOTH,
} PinSeriesLook;

typedef struct
{
  char *title;                /* at the end of the line; may be "" */
  PinSeriesLook look;
  gboolean accent;            /* what is asked about, against what is so now */
  GArray *x, *y;              /* double, in the units of the axes */
} PinSeries;

typedef struct
{
  char *title;                /* "70 °C at 14 °C air" */
  double y;
  int bad;                    /* 1: above is bad, -1: below is, 0: a mark only */
} PinChartLimit;

typedef struct
{
  char *title;                /* "now: 21 T, 27.4" */
  double x, y;
  gboolean accent;
} PinChartMark;

typedef struct
{
  char *title;
  char *x_title, *y_title;    /* with their units */
  gboolean drawing;           /* a thing drawn to scale: no axes, one scale for both */
  GPtrArray *series;          /* PinSeries* */
  GPtrArray *limits;          /* PinChartLimit* */
  GPtrArray *marks;           /* PinChartMark* */
} PinChart;

PinChart  *pin_chart_new        (const char    *title,
                                 const char    *x_title,
                                 const char    *y_title);
void       pin_chart_free       (PinChart      *self);
PinSeries *pin_chart_add_series (PinChart      *self,
                                 const char    *title,
                                 PinSeriesLook  look,
                                 gboolean       accent);
void       pin_series_add       (PinSeries     *self,
                                 double         x,
                                 double         y);
void       pin_chart_add_limit  (PinChart      *self,
                                 const char    *title,
                                 double         y,
                                 int            bad);
void       pin_chart_add_mark   (PinChart      *self,
                                 const char    *title,
                                 double         x,
                                 double         y,
                                 gboolean       accent);
