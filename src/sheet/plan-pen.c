#include "sheet/plan-pen.h"

#include <math.h>

typedef struct
{
  double width;               /* px; 0: not drawn at all */
  const PinInk *line;
  const PinInk *fill;         /* NULL: none */
  const double *dashes;
  int n_dashes;
} Style;

static const double off_dashes[] = { 4, 3 };
static const double phantom_dashes[] = { 12, 3, 2, 3, 2, 3 };
static const double centre_dashes[] = { 14, 3, 2, 3 };

static void
set_dashes (Style *style, const double *dashes, int n_dashes)
{
  style->dashes = dashes;
  style->n_dashes = n_dashes;
}

static gboolean
is_edge (PinStroke stroke)
{
  return stroke == PIN_STROKE_OUTLINE || stroke == PIN_STROKE_PLATE
         || stroke == PIN_STROKE_TYRE || stroke == PIN_STROKE_THIN;
}

static gboolean
is_surface (PinStroke stroke)
{
  return stroke == PIN_STROKE_SURFACE || stroke == PIN_STROKE_TREAD;
}

/* Part on the car, checked before: ink, filled so that it hides what is under it. */
static Style
ink_style (const PinPen *pen, PinStroke stroke)
{
  const PinPalette *colours = pen->plan->palette;
  double edge = pen->small ? 0.9 : 1.2;

  switch (stroke)
    {
    case PIN_STROKE_OUTLINE:
      return (Style) { edge, &colours->ink, &colours->raised };
    case PIN_STROKE_PLATE:
      return (Style) { edge, &colours->ink, &colours->plate };
    case PIN_STROKE_TYRE:
      return (Style) { edge, &colours->ink, &colours->tyre };
    case PIN_STROKE_THIN:
      return (Style) { 0.7, &colours->ink, &colours->raised };
    case PIN_STROKE_INNER:
    case PIN_STROKE_BAR:
      return (Style) { 0.9, &colours->ink, NULL };
    case PIN_STROKE_LID:
      return (Style) { 0.9, &colours->ink, &colours->raised };
    case PIN_STROKE_SURFACE:
      return (Style) { 0.7, &colours->pencil, NULL };
    case PIN_STROKE_TREAD:
      return (Style) { 0.7, &colours->pencil, &colours->tread };
    case PIN_STROKE_PHANTOM:
      return (Style) { 0.9, &colours->pencil, NULL, phantom_dashes, G_N_ELEMENTS (phantom_dashes) };
    case PIN_STROKE_CENTRE:
      return (Style) { 0.75, &colours->pencil, NULL, centre_dashes, G_N_ELEMENTS (centre_dashes) };
    default:
      g_return_val_if_reached ((Style) { 0 });
    }
}

/* Off the car: pencil dashes, nothing filled, no detail. */
static void
take_off (const PinPen *pen, PinStroke stroke, Style *style)
{
  style->fill = NULL;
  if (is_edge (stroke) || stroke == PIN_STROKE_BAR || stroke == PIN_STROKE_PHANTOM)
    {
      style->width = pen->small ? 0.7 : 1;
      style->line = &pen->plan->palette->pencil;
      set_dashes (style, off_dashes, G_N_ELEMENTS (off_dashes));
    }
  else
    style->width = 0;
}

/* A car that nobody has checked yet: all there, nothing in ink. */
static void
make_fresh (const PinPen *pen, PinStroke stroke, Style *style)
{
  const PinPalette *colours = pen->plan->palette;

  if (stroke == PIN_STROKE_PHANTOM)
    return;
  style->line = is_surface (stroke) ? &colours->rule : &colours->pencil;
  if (style->fill != NULL)
    style->fill = &colours->raised;
  if (!is_surface (stroke))
    set_dashes (style, off_dashes, G_N_ELEMENTS (off_dashes));
}

static void
make_accent (const PinPen *pen, PinStroke stroke, Style *style)
{
  const PinPalette *colours = pen->plan->palette;

  style->line = &colours->accent;
  if (style->fill != NULL)
    style->fill = &colours->chosen;
  if (is_edge (stroke))
    style->width = pen->small ? 1.6 : 2.2;
}

static Style
style_of (const PinPen *pen, PinStroke stroke)
{
  Style style = ink_style (pen, stroke);

  if (stroke == PIN_STROKE_CENTRE)
    return style;
  if (pen->plan->fresh)
    make_fresh (pen, stroke, &style);
  if (pen->off)
    take_off (pen, stroke, &style);
  if (pen->accent && style.width > 0)
    make_accent (pen, stroke, &style);
  if (pen->over)
    {
      style.fill = NULL;
      style.width = is_edge (stroke) ? style.width : 0;
    }
  return style;
}

static double
weight (const PinPen *pen)
{
  return pen->plan->pen > 0 ? pen->plan->pen : 1;
}

static void
set_ink (cairo_t *cr, const PinInk *ink)
{
  cairo_set_source_rgb (cr, ink->r, ink->g, ink->b);
}

void
pin_pen_init (PinPen *pen, cairo_t *cr, const PinPlan *plan)
{
  *pen = (PinPen) { .cr = cr, .plan = plan, .small = pin_plan_size (plan) == PIN_PLAN_SMALL };
}

/* Whether this shape shows more than its outline. */
gboolean
pin_pen_detail (const PinPen *pen)
{
  return !pen->small && !pen->off && !pen->over;
}

/* Fills and strokes what was added to the path, and forgets the path. */
void
pin_pen_finish (PinPen *pen, PinStroke stroke)
{
  Style style = style_of (pen, stroke);
  double scaled[6];

  if (style.width <= 0)
    {
      cairo_new_path (pen->cr);
      return;
    }
  if (style.fill != NULL)
    {
      set_ink (pen->cr, style.fill);
      cairo_fill_preserve (pen->cr);
    }
  for (int i = 0; i < style.n_dashes; i++)
    scaled[i] = style.dashes[i] * weight (pen);
  cairo_set_dash (pen->cr, scaled, style.n_dashes, 0);
  cairo_set_line_width (pen->cr, style.width * weight (pen));
  set_ink (pen->cr, style.line);
  cairo_stroke (pen->cr);
}

typedef struct
{
  double x, y;
} Point;

static Point
corner (const PinPen *pen, const double *points, guint i)
{
  Point p;

  pin_plan_point (pen->plan, points[2 * i], points[2 * i + 1], &p.x, &p.y);
  return p;
}

/* The point at most reach away from b on the way to a, and not past half way,
 * so that the rounding of neighbours never meets. */
static Point
towards (Point b, Point a, double reach)
{
  double length = hypot (a.x - b.x, a.y - b.y);
  double part = length > 0 ? reach / length : 0;

  return (Point) { b.x + (a.x - b.x) * part, b.y + (a.y - b.y) * part };
}

static void
line_or_move (cairo_t *cr, Point p)
{
  if (cairo_has_current_point (cr))
    cairo_line_to (cr, p.x, p.y);
  else
    cairo_move_to (cr, p.x, p.y);
}

/* A rounded corner: a quadratic curve whose control point is the corner. */
static void
round_corner (cairo_t *cr, Point a, Point b, Point c, double radius)
{
  double half = MIN (hypot (a.x - b.x, a.y - b.y), hypot (c.x - b.x, c.y - b.y)) / 2;
  double reach = MIN (radius, half);
  Point u = towards (b, a, reach);
  Point v = towards (b, c, reach);

  line_or_move (cr, u);
  if (reach < 0.15)
    return;
  cairo_curve_to (cr, u.x + (b.x - u.x) * 2 / 3, u.y + (b.y - u.y) * 2 / 3,
                  v.x + (b.x - v.x) * 2 / 3, v.y + (b.y - v.y) * 2 / 3, v.x, v.y);
}

/* Adds a closed polygon of n_points corners, its corners rounded by radius mm. */
void
pin_pen_add_polygon (PinPen *pen, const double *points, guint n_points, double radius)
{
  g_return_if_fail (n_points >= 3);

  cairo_new_sub_path (pen->cr);
  for (guint i = 0; i < n_points; i++)
    round_corner (pen->cr, corner (pen, points, (i + n_points - 1) % n_points),
                  corner (pen, points, i), corner (pen, points, (i + 1) % n_points),
                  radius * pen->plan->scale);
  cairo_close_path (pen->cr);
}

void
pin_pen_polygon (PinPen *pen, const double *points, guint n_points, double radius, PinStroke stroke)
{
  pin_pen_add_polygon (pen, points, n_points, radius);
  pin_pen_finish (pen, stroke);
}

void
pin_pen_polyline (PinPen *pen, const double *points, guint n_points, double radius, PinStroke stroke)
{
  g_return_if_fail (n_points >= 2);

  cairo_new_path (pen->cr);
  line_or_move (pen->cr, corner (pen, points, 0));
  for (guint i = 1; i + 1 < n_points; i++)
    round_corner (pen->cr, corner (pen, points, i - 1), corner (pen, points, i),
                  corner (pen, points, i + 1), radius * pen->plan->scale);
  line_or_move (pen->cr, corner (pen, points, n_points - 1));
  pin_pen_finish (pen, stroke);
}

/* Unit normal of the stretch from corner i to the next. */
static Point
normal_of (const double *points, guint i)
{
  double dx = points[2 * i + 2] - points[2 * i];
  double dy = points[2 * i + 3] - points[2 * i + 1];
  double length = hypot (dx, dy);

  return length > 0 ? (Point) { -dy / length, dx / length } : (Point) { 0, 0 };
}

/* How far the edge of a tube stands off its corner i, for a half width of 1:
 * along the mean of the two normals, longer where they part. */
static Point
mitre (const double *points, guint n_points, guint i)
{
  Point a = normal_of (points, i > 0 ? i - 1 : 0);
  Point b = normal_of (points, i + 1 < n_points ? i : n_points - 2);
  double dot = 1 + a.x * b.x + a.y * b.y;

  return dot > 0.2 ? (Point) { (a.x + b.x) / dot, (a.y + b.y) / dot } : a;
}

/* A bent tube, width mm across, as an outline: so it can be dashed like any part. */
void
pin_pen_tube (PinPen *pen, const double *points, guint n_points, double width)
{
  g_autofree double *edge = g_new (double, 4 * n_points);
  guint last = 2 * n_points - 1;

  g_return_if_fail (n_points >= 2);

  for (guint i = 0; i < n_points; i++)
    {
      Point m = mitre (points, n_points, i);

      edge[2 * i] = points[2 * i] + m.x * width / 2;
      edge[2 * i + 1] = points[2 * i + 1] + m.y * width / 2;
      edge[2 * (last - i)] = points[2 * i] - m.x * width / 2;
      edge[2 * (last - i) + 1] = points[2 * i + 1] - m.y * width / 2;
    }
  pin_pen_polygon (pen, edge, 2 * n_points, width / 4, pen->small ? PIN_STROKE_THIN : PIN_STROKE_OUTLINE);
}

PinFrame
pin_frame (double x, double y, double radians)
{
  return (PinFrame) { x, y, cos (radians), sin (radians) };
}

/* The frame with its origin at the first point and u towards the second.
 * length: (out): mm between the two */
PinFrame
pin_frame_between (double x1, double y1, double x2, double y2, double *length)
{
  double run = hypot (x2 - x1, y2 - y1);

  *length = run;
  if (run <= 0)
    return pin_frame (x1, y1, 0);
  return (PinFrame) { x1, y1, (x2 - x1) / run, (y2 - y1) / run };
}

void
pin_frame_at (const PinFrame *frame, double u, double v, double *x, double *y)
{
  *x = frame->x + u * frame->cos - v * frame->sin;
  *y = frame->y + u * frame->sin + v * frame->cos;
}

static void
add_frame_rect (PinPen *pen, const PinFrame *frame, double u, double v, double length, double width, double radius)
{
  static const double signs[4][2] = { { -1, -1 }, { 1, -1 }, { 1, 1 }, { -1, 1 } };
  double points[8];

  for (guint i = 0; i < 4; i++)
    pin_frame_at (frame, u + signs[i][0] * length / 2, v + signs[i][1] * width / 2,
                  &points[2 * i], &points[2 * i + 1]);
  pin_pen_add_polygon (pen, points, 4, radius);
}

void
pin_pen_frame_rect (PinPen *pen, const PinFrame *frame, double u, double v, double length, double width,
                    double radius, PinStroke stroke)
{
  add_frame_rect (pen, frame, u, v, length, width, radius);
  pin_pen_finish (pen, stroke);
}

void
pin_pen_add_rect (PinPen *pen, double x, double y, double length, double width, double radius)
{
  PinFrame frame = pin_frame (x, y, 0);

  add_frame_rect (pen, &frame, 0, 0, length, width, radius);
}

/* turn: degrees, left about from forward */
void
pin_pen_rect (PinPen *pen, double x, double y, double length, double width, double radius, double turn,
              PinStroke stroke)
{
  PinFrame frame = pin_frame (x, y, turn * G_PI / 180);

  pin_pen_frame_rect (pen, &frame, 0, 0, length, width, radius, stroke);
}

void
pin_pen_add_line (PinPen *pen, double x1, double y1, double x2, double y2)
{
  double px, py;

  pin_plan_point (pen->plan, x1, y1, &px, &py);
  cairo_move_to (pen->cr, px, py);
  pin_plan_point (pen->plan, x2, y2, &px, &py);
  cairo_line_to (pen->cr, px, py);
}

void
pin_pen_line (PinPen *pen, double x1, double y1, double x2, double y2, PinStroke stroke)
{
  pin_pen_add_line (pen, x1, y1, x2, y2);
  pin_pen_finish (pen, stroke);
}

void
pin_pen_circle (PinPen *pen, double x, double y, double radius, PinStroke stroke)
{
  double px, py;

  pin_plan_point (pen->plan, x, y, &px, &py);
  cairo_new_sub_path (pen->cr);
  cairo_arc (pen->cr, px, py, radius * pen->plan->scale, 0, 2 * G_PI);
  cairo_close_path (pen->cr);
  pin_pen_finish (pen, stroke);
}

/* A filled dot of a fixed size on the target; one of the details. */
void
pin_pen_dot (PinPen *pen, double x, double y, double radius_px)
{
  const PinPalette *colours = pen->plan->palette;
  double px, py;

  if (!pin_pen_detail (pen))
    return;
  pin_plan_point (pen->plan, x, y, &px, &py);
  cairo_new_path (pen->cr);
  cairo_arc (pen->cr, px, py, radius_px * weight (pen), 0, 2 * G_PI);
  set_ink (pen->cr, pen->accent ? &colours->accent : pen->plan->fresh ? &colours->pencil : &colours->ink);
  cairo_fill (pen->cr);
}
