#pragma once

#include "sheet/plan-view.h"

/* The pen of the plan view: takes mm of the car, puts lines of the drawing's
 * own weights on the target.  Private to the sheet room. */

typedef enum
{
  PIN_STROKE_OUTLINE,
  PIN_STROKE_PLATE,
  PIN_STROKE_TYRE,
  PIN_STROKE_THIN,            /* an outline too slight for the full weight */
  PIN_STROKE_INNER,
  PIN_STROKE_LID,             /* inner, filled: lies on top of what is drawn */
  PIN_STROKE_SURFACE,
  PIN_STROKE_TREAD,
  PIN_STROKE_BAR,
  PIN_STROKE_PHANTOM,
  PIN_STROKE_CENTRE,
} PinStroke;

typedef struct
{
  cairo_t *cr;
  const PinPlan *plan;
  gboolean small;
  gboolean off;               /* this shape is off the car */
  gboolean accent;            /* this shape is chosen, or here */
  gboolean over;              /* edges alone, over what has been drawn */
} PinPen;

/* Where a tilted thing stands: u along it, v to its left. */
typedef struct
{
  double x, y, cos, sin;
} PinFrame;

void      pin_pen_init       (PinPen         *pen,
                              cairo_t        *cr,
                              const PinPlan  *plan);
gboolean  pin_pen_detail     (const PinPen   *pen);
void      pin_pen_polygon    (PinPen         *pen,
                              const double   *points,
                              guint           n_points,
                              double          radius,
                              PinStroke       stroke);
void      pin_pen_polyline   (PinPen         *pen,
                              const double   *points,
                              guint           n_points,
                              double          radius,
                              PinStroke       stroke);
void      pin_pen_tube       (PinPen         *pen,
                              const double   *points,
                              guint           n_points,
                              double          width);
void      pin_pen_rect       (PinPen         *pen,
                              double          x,
                              double          y,
                              double          length,
                              double          width,
                              double          radius,
                              double          turn,
                              PinStroke       stroke);
void      pin_pen_line       (PinPen         *pen,
                              double          x1,
                              double          y1,
                              double          x2,
                              double          y2,
                              PinStroke       stroke);
void      pin_pen_circle     (PinPen         *pen,
                              double          x,
                              double          y,
                              double          radius,
                              PinStroke       stroke);
void      pin_pen_dot        (PinPen         *pen,
                              double          x,
                              double          y,
                              double          radius_px);

/* Many small lines under one stroke: add them, then draw once. */
void      pin_pen_add_line   (PinPen         *pen,
                              double          x1,
                              double          y1,
                              double          x2,
                              double          y2);
void      pin_pen_add_rect   (PinPen         *pen,
                              double          x,
                              double          y,
                              double          length,
                              double          width,
                              double          radius);
void      pin_pen_add_polygon (PinPen        *pen,
                              const double   *points,
                              guint           n_points,
                              double          radius);
void      pin_pen_finish     (PinPen         *pen,
                              PinStroke       stroke);

PinFrame  pin_frame          (double          x,
                              double          y,
                              double          radians);
PinFrame  pin_frame_between  (double          x1,
                              double          y1,
                              double          x2,
                              double          y2,
                              double         *length);
void      pin_frame_at       (const PinFrame *frame,
                              double          u,
                              double          v,
                              double         *x,
                              double         *y);
void      pin_pen_frame_rect (PinPen         *pen,
                              const PinFrame *frame,
                              double          u,
                              double          v,
                              double          length,
                              double          width,
                              double          radius,
                              PinStroke       stroke);

void      pin_wheel_draw     (PinPen         *pen,
                              const PinPrimitive *wheel);
void      pin_shape_draw     (PinPen         *pen,
                              const PinShape *shape);
