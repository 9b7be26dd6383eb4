#include "sheet/plan-pen.h"

#include <math.h>

/* What each primitive of a chassis file looks like from above.  All lengths
 * here are mm of the car unless a name says px. */

static double
number (const PinPrimitive *p, PinNumber which)
{
  return p->number[which];
}

static double
number_or (const PinPrimitive *p, PinNumber which, double usual)
{
  return isnan (p->number[which]) ? usual : p->number[which];
}

static PinStroke
stroke_of (PinLine line)
{
  static const PinStroke strokes[] = {
    [PIN_LINE_OUTLINE] = PIN_STROKE_OUTLINE,
    [PIN_LINE_PLATE] = PIN_STROKE_PLATE,
    [PIN_LINE_INNER] = PIN_STROKE_INNER,
    [PIN_LINE_SURFACE] = PIN_STROKE_SURFACE,
    [PIN_LINE_TREAD] = PIN_STROKE_TREAD,
    [PIN_LINE_BAR] = PIN_STROKE_BAR,
    [PIN_LINE_PIPE] = PIN_STROKE_OUTLINE,
    [PIN_LINE_PHANTOM] = PIN_STROKE_PHANTOM,
  };

  return strokes[line];
}

static void
draw_outline (PinPen *pen, const PinPrimitive *p)
{
  guint corners = p->n_points / 2;
  double radius = number_or (p, PIN_NUMBER_RADIUS, 0);

  if (p->line == PIN_LINE_PIPE && corners >= 2)
    pin_pen_tube (pen, p->points, corners, number_or (p, PIN_NUMBER_WIDTH, 9));
  else if ((p->open || p->line == PIN_LINE_BAR) && corners >= 2)
    pin_pen_polyline (pen, p->points, corners, radius, stroke_of (p->line));
  else if (corners >= 3)
    pin_pen_polygon (pen, p->points, corners, radius, stroke_of (p->line));
}

static void
draw_rect (PinPen *pen, const PinPrimitive *p)
{
  pin_pen_rect (pen, number (p, PIN_NUMBER_X), number (p, PIN_NUMBER_Y), number (p, PIN_NUMBER_LENGTH),
                number (p, PIN_NUMBER_WIDTH), number_or (p, PIN_NUMBER_RADIUS, 0),
                number_or (p, PIN_NUMBER_TURN, 0), stroke_of (p->line));
}

static void
draw_circle (PinPen *pen, const PinPrimitive *p)
{
  pin_pen_circle (pen, number (p, PIN_NUMBER_X), number (p, PIN_NUMBER_Y), number (p, PIN_NUMBER_RADIUS),
                  stroke_of (p->line));
}

static void
draw_line (PinPen *pen, const PinPrimitive *p)
{
  pin_pen_line (pen, number (p, PIN_NUMBER_X1), number (p, PIN_NUMBER_Y1), number (p, PIN_NUMBER_X2),
                number (p, PIN_NUMBER_Y2), stroke_of (p->line));
}

typedef struct
{
  double x, side, y1, y2, root, tip, shift;
} Arm;

/* The arm between the fractions u1 and u2 of its length, hw1 and hw2 of its
 * half width there. */
static void
arm_panel (PinPen *pen, const Arm *arm, double u1, double hw1, double u2, double hw2, double radius,
           PinStroke stroke)
{
  double half1 = (arm->root + (arm->tip - arm->root) * u1) * hw1;
  double half2 = (arm->root + (arm->tip - arm->root) * u2) * hw2;
  double y1 = arm->side * (arm->y1 + (arm->y2 - arm->y1) * u1);
  double y2 = arm->side * (arm->y1 + (arm->y2 - arm->y1) * u2);
  double x1 = arm->x + arm->shift * u1;
  double x2 = arm->x + arm->shift * u2;
  double points[] = { x1 - half1, y1, x1 + half1, y1, x2 + half2, y2, x2 - half2, y2 };

  pin_pen_polygon (pen, points, 4, radius, stroke);
}

static void
draw_arm (PinPen *pen, const PinPrimitive *p)
{
  Arm arm = { number (p, PIN_NUMBER_X), number_or (p, PIN_NUMBER_SIDE, 1), number (p, PIN_NUMBER_Y1),
              number (p, PIN_NUMBER_Y2), number (p, PIN_NUMBER_ROOT), number (p, PIN_NUMBER_TIP),
              number_or (p, PIN_NUMBER_SHIFT, 0) };
  double pin = arm.root + 5;

  arm_panel (pen, &arm, 0, 1, 1, 1, pen->small ? 3 : 4, pen->small ? PIN_STROKE_THIN : PIN_STROKE_OUTLINE);
  if (!pin_pen_detail (pen))
    return;
  arm_panel (pen, &arm, 0.12, 0.68, 0.42, 0.6, 3, PIN_STROKE_TREAD);
  arm_panel (pen, &arm, 0.52, 0.55, 0.86, 0.42, 3, PIN_STROKE_TREAD);
  pin_pen_line (pen, arm.x - pin, arm.side * arm.y1, arm.x + pin, arm.side * arm.y1, PIN_STROKE_OUTLINE);
  pin_pen_dot (pen, arm.x - pin, arm.side * arm.y1, 1.7);
  pin_pen_dot (pen, arm.x + pin, arm.side * arm.y1, 1.7);
}

static void
frame_line (PinPen *pen, const PinFrame *frame, double u1, double v1, double u2, double v2, PinStroke stroke)
{
  double x1, y1, x2, y2;

  pin_frame_at (frame, u1, v1, &x1, &y1);
  pin_frame_at (frame, u2, v2, &x2, &y2);
  pin_pen_line (pen, x1, y1, x2, y2, stroke);
}

static void
frame_circle (PinPen *pen, const PinFrame *frame, double u, double v, double radius, PinStroke stroke)
{
  double x, y;

  pin_frame_at (frame, u, v, &x, &y);
  pin_pen_circle (pen, x, y, radius, stroke);
}

/* The end of a shaft at u; outward is 1 or -1 along the frame. */
static void
shaft_end (PinPen *pen, const PinFrame *frame, double u, int outward, const char *end)
{
  if (g_strcmp0 (end, "cup") == 0)
    {
      pin_pen_frame_rect (pen, frame, u - outward * 4, 0, 13, 11, 2, PIN_STROKE_OUTLINE);
      frame_line (pen, frame, u - outward * 7, 0, u, 0, PIN_STROKE_INNER);
    }
  else if (g_strcmp0 (end, "bone") == 0)
    frame_circle (pen, frame, u, 0, 4.2, PIN_STROKE_OUTLINE);
  else if (g_strcmp0 (end, "joint") == 0)
    {
      frame_circle (pen, frame, u, 0, 6, PIN_STROKE_OUTLINE);
      frame_line (pen, frame, u, 6, u, -6, PIN_STROKE_INNER);
    }
}

static void
draw_shaft (PinPen *pen, const PinPrimitive *p)
{
  double length;
  PinFrame frame = pin_frame_between (number (p, PIN_NUMBER_X1), number (p, PIN_NUMBER_Y1),
                                      number (p, PIN_NUMBER_X2), number (p, PIN_NUMBER_Y2), &length);

  if (pen->small)
    {
      frame_line (pen, &frame, 0, 0, length, 0, PIN_STROKE_THIN);
      return;
    }
  pin_pen_frame_rect (pen, &frame, length / 2, 0, length, number_or (p, PIN_NUMBER_WIDTH, 5), 0.5,
                      PIN_STROKE_OUTLINE);
  shaft_end (pen, &frame, 0, -1, p->end1);
  shaft_end (pen, &frame, length, 1, p->end2);
}

static void
four_screws (PinPen *pen, const PinFrame *frame, double u, double v, double radius, PinStroke stroke)
{
  frame_circle (pen, frame, u, v, radius, stroke);
  frame_circle (pen, frame, -u, v, radius, stroke);
  frame_circle (pen, frame, u, -v, radius, stroke);
  frame_circle (pen, frame, -u, -v, radius, stroke);
}

/* The ring gear of a diff, seen edge-on on one side of its barrel. */
static void
ring_gear (PinPen *pen, double x, double y, double length, double width, double side)
{
  pin_pen_rect (pen, x, y + side * width * 0.24, length, width * 0.13, 0.5, 0, PIN_STROKE_LID);
  for (int i = -4; i <= 4; i++)
    pin_pen_add_line (pen, x + length * 0.105 * i, y + side * width * 0.175,
                      x + length * 0.105 * i, y + side * width * 0.305);
  pin_pen_finish (pen, PIN_STROKE_SURFACE);
}

/* A diff across the car, in its case, with an outdrive on each side. */
static void
draw_diff (PinPen *pen, const PinPrimitive *p)
{
  double x = number (p, PIN_NUMBER_X), y = number (p, PIN_NUMBER_Y);
  double length = number_or (p, PIN_NUMBER_LENGTH, 50), width = number_or (p, PIN_NUMBER_WIDTH, 46);
  double barrel = number_or (p, PIN_NUMBER_BARREL, 30), ring = number_or (p, PIN_NUMBER_RING, 1);
  PinFrame frame = pin_frame (x, y, 0);

  pin_pen_rect (pen, x, y, length, width, 9, 0, PIN_STROKE_OUTLINE);
  if (pen->small)
    return;
  if (!pen->off)
    {
      pin_pen_rect (pen, x, y - ring, barrel, width * 0.62, 4, 0, PIN_STROKE_INNER);
      ring_gear (pen, x, y, barrel * 1.18, width, ring);
    }
  for (int side = -1; side <= 1; side += 2)
    pin_pen_rect (pen, x, y + side * (width / 2 + 3), 11, 8, 1.5, 0, PIN_STROKE_OUTLINE);
  if (number_or (p, PIN_NUMBER_SCREWS, 1) > 0)
    four_screws (pen, &frame, length / 2 - 5, width / 2 - 5, 2, PIN_STROKE_SURFACE);
}

static void
draw_centre_diff (PinPen *pen, const PinPrimitive *p)
{
  double x = number (p, PIN_NUMBER_X), y = number (p, PIN_NUMBER_Y);
  double length = number_or (p, PIN_NUMBER_LENGTH, 30), half = number_or (p, PIN_NUMBER_WIDTH, 36) / 2;

  pin_pen_rect (pen, x, y, length, 2 * half, 4, 0, PIN_STROKE_OUTLINE);
  if (!pin_pen_detail (pen))
    return;
  pin_pen_line (pen, x - length * 0.2, y - half, x - length * 0.2, y + half, PIN_STROKE_SURFACE);
  pin_pen_line (pen, x + length * 0.27, y - half, x + length * 0.27, y + half, PIN_STROKE_SURFACE);
}

/* Spur, pinion or bell seen edge-on: teeth crowd towards its rim. */
static void
draw_gear (PinPen *pen, const PinPrimitive *p)
{
  double x = number (p, PIN_NUMBER_X), y = number (p, PIN_NUMBER_Y);
  double diameter = number (p, PIN_NUMBER_DIAMETER), width = number (p, PIN_NUMBER_WIDTH);
  gboolean along = p->axis != 'y';
  int teeth = MAX (5, (int) lround (diameter / 4.4));

  pin_pen_rect (pen, x, y, along ? width : diameter, along ? diameter : width, 1, 0, PIN_STROKE_OUTLINE);
  if (!pin_pen_detail (pen))
    return;
  for (int i = 1; i < teeth; i++)
    {
      double at = sin ((180.0 * i / teeth - 90) * G_PI / 180) * diameter / 2;

      if (along)
        pin_pen_add_line (pen, x - width / 2, y + at, x + width / 2, y + at);
      else
        pin_pen_add_line (pen, x + at, y - width / 2, x + at, y + width / 2);
    }
  pin_pen_finish (pen, PIN_STROKE_SURFACE);
}

/* A motor's can from above: shaft at the end that direction points to, end
 * bell and solder tabs at the other. */
static void
draw_motor (PinPen *pen, const PinPrimitive *p)
{
  double length = number (p, PIN_NUMBER_LENGTH), diameter = number (p, PIN_NUMBER_DIAMETER);
  double direction = number_or (p, PIN_NUMBER_DIRECTION, 1);
  double turn = (p->axis == 'y' ? G_PI / 2 : 0) + (direction < 0 ? G_PI : 0);
  PinFrame frame = pin_frame (number (p, PIN_NUMBER_X), number (p, PIN_NUMBER_Y), turn);

  pin_pen_frame_rect (pen, &frame, 0, 0, length, diameter, 4, PIN_STROKE_OUTLINE);
  if (pen->small)
    return;
  if (!pen->off)
    {
      for (int i = -2; i <= 2; i++)
        frame_line (pen, &frame, -length * 0.3, diameter * 0.15 * i, length * 0.36, diameter * 0.15 * i,
                    PIN_STROKE_SURFACE);
      pin_pen_frame_rect (pen, &frame, -length * 0.4, 0, length * 0.16, diameter * 0.99, 2, PIN_STROKE_LID);
      pin_pen_frame_rect (pen, &frame, length * 0.43, 0, length * 0.1, diameter * 0.86, 1, PIN_STROKE_INNER);
    }
  pin_pen_frame_rect (pen, &frame, length / 2 + 5, 0, 10, 4, 0.5, PIN_STROKE_OUTLINE);
  if (number_or (p, PIN_NUMBER_TABS, 1) > 0)
    for (int i = -1; i <= 1; i++)
      pin_pen_frame_rect (pen, &frame, -length / 2 - 2.5, i * diameter * 0.2, 5, 3.2, 0.5, PIN_STROKE_LID);
}

/* The ears by which a crankcase is screwed down. */
static void
engine_lugs (PinPen *pen, double x, double y)
{
  for (int u = -1; u <= 1; u += 2)
    for (int v = -1; v <= 1; v += 2)
      {
        pin_pen_rect (pen, x + u * 16, y + v * 22, 10, 8, 2, 0, PIN_STROKE_OUTLINE);
        pin_pen_circle (pen, x + u * 16, y + v * 22.5, 1.8, PIN_STROKE_SURFACE);
      }
}

/* Cooling head: fins as rings, plug in the middle, four screws. */
static void
engine_head (PinPen *pen, double x, double y)
{
  static const double fins[] = { 19.6, 16.2, 12.8 };

  pin_pen_circle (pen, x, y, 23, PIN_STROKE_OUTLINE);
  if (!pin_pen_detail (pen))
    return;
  for (guint i = 0; i < G_N_ELEMENTS (fins); i++)
    pin_pen_circle (pen, x, y, fins[i], PIN_STROKE_SURFACE);
  pin_pen_circle (pen, x, y, 8.4, PIN_STROKE_INNER);
  pin_pen_circle (pen, x, y, 3.2, PIN_STROKE_INNER);
  for (int degrees = 45; degrees < 360; degrees += 90)
    pin_pen_dot (pen, x + 18 * cos (degrees * G_PI / 180), y + 18 * sin (degrees * G_PI / 180),
                 1.7 * pen->plan->scale);
}

/* A glow engine, its shaft along the car, its head seen from above. */
static void
draw_engine (PinPen *pen, const PinPrimitive *p)
{
  double x = number (p, PIN_NUMBER_X), y = number (p, PIN_NUMBER_Y);

  if (pen->small)
    {
      pin_pen_rect (pen, x + 8, y, 52, 28, 4, 0, PIN_STROKE_OUTLINE);
      pin_pen_circle (pen, x, y, 19, PIN_STROKE_OUTLINE);
      return;
    }
  pin_pen_rect (pen, x + 29, y, 26, 20, 3, 0, PIN_STROKE_OUTLINE);
  pin_pen_rect (pen, x + 2, y, 46, 38, 5, 0, PIN_STROKE_OUTLINE);
  pin_pen_rect (pen, x - 25, y, 10, 26, 3, 0, PIN_STROKE_OUTLINE);
  engine_lugs (pen, x, y);
  engine_head (pen, x, y);
}

/* Spring over a shock: a stroke across in front for each coil, and a fainter
 * one back behind. */
static void
coils (PinPen *pen, const PinFrame *frame, double length, double width)
{
  const int turns = 7;
  double first = length * 0.2, pitch = length * 0.64 / turns;

  for (int i = 0; i + 1 < turns; i++)
    frame_line (pen, frame, first + pitch * (i + 0.62), width / 2, first + pitch * (i + 1), -width / 2,
                PIN_STROKE_SURFACE);
  for (int i = 0; i < turns; i++)
    frame_line (pen, frame, first + pitch * i, -width / 2, first + pitch * (i + 0.62), width / 2,
                PIN_STROKE_INNER);
}

static void
draw_shock (PinPen *pen, const PinPrimitive *p)
{
  double width = number_or (p, PIN_NUMBER_WIDTH, 15);
  double length;
  PinFrame frame = pin_frame_between (number (p, PIN_NUMBER_X1), number (p, PIN_NUMBER_Y1),
                                      number (p, PIN_NUMBER_X2), number (p, PIN_NUMBER_Y2), &length);

  if (pen->small)
    {
      pin_pen_frame_rect (pen, &frame, length * 0.45, 0, length * 0.8, width * 0.62, 1, PIN_STROKE_THIN);
      return;
    }
  pin_pen_frame_rect (pen, &frame, length * 0.76, 0, length * 0.44, 3.4, 0.5, PIN_STROKE_OUTLINE);
  pin_pen_frame_rect (pen, &frame, length * 0.3, 0, length * 0.5, width * 0.66, 2, PIN_STROKE_OUTLINE);
  if (!pen->off)
    coils (pen, &frame, length, width);
  pin_pen_frame_rect (pen, &frame, length * 0.1, 0, length * 0.13, width * 0.92, 2.5, PIN_STROKE_OUTLINE);
  pin_pen_frame_rect (pen, &frame, length * 0.87, 0, length * 0.05, width * 1.02, 1, PIN_STROKE_OUTLINE);
  frame_circle (pen, &frame, 0, 0, 3.4, PIN_STROKE_OUTLINE);
  frame_circle (pen, &frame, length, 0, 3.8, PIN_STROKE_OUTLINE);
  frame_circle (pen, &frame, length, 0, 1.5, PIN_STROKE_INNER);
}

/* horn: degrees of the car's frame, left about from forward */
static void
servo_horn (PinPen *pen, const PinFrame *servo, double horn)
{
  double x, y;
  PinFrame frame;

  pin_frame_at (servo, 10, 0, &x, &y);
  frame = pin_frame (x, y, horn * G_PI / 180);
  pin_pen_frame_rect (pen, &frame, 9, 0, 22, 7, 3, PIN_STROKE_OUTLINE);
  pin_pen_circle (pen, x, y, 5.5, PIN_STROKE_OUTLINE);
  pin_pen_circle (pen, x, y, 2, PIN_STROKE_INNER);
  frame_circle (pen, &frame, 18, 0, 1.6, PIN_STROKE_INNER);
}

static void
draw_servo (PinPen *pen, const PinPrimitive *p)
{
  double turn = number_or (p, PIN_NUMBER_TURN, 0);
  PinFrame frame = pin_frame (number (p, PIN_NUMBER_X), number (p, PIN_NUMBER_Y), turn * G_PI / 180);

  pin_pen_frame_rect (pen, &frame, 0, 0, 40, 20, 2, PIN_STROKE_OUTLINE);
  if (pen->small)
    return;
  pin_pen_frame_rect (pen, &frame, 23.5, 0, 7, 18, 1.2, PIN_STROKE_OUTLINE);
  pin_pen_frame_rect (pen, &frame, -23.5, 0, 7, 18, 1.2, PIN_STROKE_OUTLINE);
  four_screws (pen, &frame, 24, 5, 1.5, PIN_STROKE_SURFACE);
  servo_horn (pen, &frame, number_or (p, PIN_NUMBER_HORN, 90));
}

/* A turnbuckle between two ball cups, its wrench flat in the middle. */
static void
draw_link (PinPen *pen, const PinPrimitive *p)
{
  double length;
  PinFrame frame = pin_frame_between (number (p, PIN_NUMBER_X1), number (p, PIN_NUMBER_Y1),
                                      number (p, PIN_NUMBER_X2), number (p, PIN_NUMBER_Y2), &length);

  if (pen->small)
    {
      frame_line (pen, &frame, 0, 0, length, 0, PIN_STROKE_SURFACE);
      return;
    }
  pin_pen_frame_rect (pen, &frame, length / 2, 0, MAX (length - 8, 1), 2.6, 0.5, PIN_STROKE_OUTLINE);
  pin_pen_frame_rect (pen, &frame, length / 2, 0, length * 0.16, 4.4, 0.8, PIN_STROKE_OUTLINE);
  frame_circle (pen, &frame, 0, 0, 3.6, PIN_STROKE_OUTLINE);
  frame_circle (pen, &frame, length, 0, 3.6, PIN_STROKE_OUTLINE);
}

/* Lines that divide a box into n: cells of a pack, fins of a heat sink. */
static void
divide (PinPen *pen, const PinFrame *frame, double length, double width, double margin, double n)
{
  for (int i = 1; i < n; i++)
    frame_line (pen, frame, length * (i / n - 0.5), -width / 2 + margin, length * (i / n - 0.5),
                width / 2 - margin, PIN_STROKE_SURFACE);
}

static void
box_fittings (PinPen *pen, const PinPrimitive *p, const PinFrame *frame)
{
  double cap = number_or (p, PIN_NUMBER_CAP_R, 0), fan = number_or (p, PIN_NUMBER_FAN_R, 0);
  double cap_x = number_or (p, PIN_NUMBER_CAP_X, 0), cap_y = number_or (p, PIN_NUMBER_CAP_Y, 0);
  double fan_x = number_or (p, PIN_NUMBER_FAN_X, 0), fan_y = number_or (p, PIN_NUMBER_FAN_Y, 0);

  if (cap > 0)
    {
      frame_circle (pen, frame, cap_x, cap_y, cap, PIN_STROKE_OUTLINE);
      frame_circle (pen, frame, cap_x, cap_y, cap * 0.72, PIN_STROKE_SURFACE);
    }
  if (fan > 0)
    {
      frame_circle (pen, frame, fan_x, fan_y, fan, PIN_STROKE_LID);
      frame_circle (pen, frame, fan_x, fan_y, fan * 0.35, PIN_STROKE_SURFACE);
    }
}

/* Pack, tank, speed control, receiver. */
static void
draw_box (PinPen *pen, const PinPrimitive *p)
{
  double length = number (p, PIN_NUMBER_LENGTH), width = number (p, PIN_NUMBER_WIDTH);
  double radius = number_or (p, PIN_NUMBER_RADIUS, 2), inner = number_or (p, PIN_NUMBER_INNER, 0);
  double screws = number_or (p, PIN_NUMBER_SCREWS, 0);
  PinFrame frame = pin_frame (number (p, PIN_NUMBER_X), number (p, PIN_NUMBER_Y),
                              number_or (p, PIN_NUMBER_TURN, 0) * G_PI / 180);

  pin_pen_frame_rect (pen, &frame, 0, 0, length, width, radius, PIN_STROKE_OUTLINE);
  if (!pin_pen_detail (pen))
    return;
  if (inner > 0)
    pin_pen_frame_rect (pen, &frame, 0, 0, length - inner * 2, width - inner * 2, MAX (1, radius - inner / 2),
                        PIN_STROKE_SURFACE);
  if (screws > 0)
    four_screws (pen, &frame, length / 2 - screws, width / 2 - screws, 1.8, PIN_STROKE_INNER);
  divide (pen, &frame, length, width, 4, number_or (p, PIN_NUMBER_FINS, 0));
  divide (pen, &frame, length, width, 2, number_or (p, PIN_NUMBER_CELLS, 0));
  box_fittings (pen, p, &frame);
}

/* A shock tower seen from above, with its rows of holes. */
static void
draw_bar (PinPen *pen, const PinPrimitive *p)
{
  double x = number (p, PIN_NUMBER_X), y = number (p, PIN_NUMBER_Y);

  pin_pen_rect (pen, x, y, number (p, PIN_NUMBER_LENGTH), number (p, PIN_NUMBER_WIDTH),
                number_or (p, PIN_NUMBER_RADIUS, 2), 0, PIN_STROKE_OUTLINE);
  if (!pin_pen_detail (pen))
    return;
  for (guint i = 0; i < p->n_points; i++)
    pin_pen_circle (pen, x, y + p->points[i], 1.5, PIN_STROKE_SURFACE);
}

static void
draw_hub (PinPen *pen, const PinPrimitive *p)
{
  double x = number (p, PIN_NUMBER_X), y = number (p, PIN_NUMBER_Y);
  double length = number (p, PIN_NUMBER_LENGTH), width = number (p, PIN_NUMBER_WIDTH);

  pin_pen_rect (pen, x, y, length, width, 3, 0, PIN_STROKE_OUTLINE);
  if (pin_pen_detail (pen))
    pin_pen_rect (pen, x, y, length * 0.5, width * 0.98, 1, 0, PIN_STROKE_SURFACE);
}

static void
draw_belt (PinPen *pen, const PinPrimitive *p)
{
  double x1 = number (p, PIN_NUMBER_X1), x2 = number (p, PIN_NUMBER_X2);
  double y = number (p, PIN_NUMBER_Y), width = number (p, PIN_NUMBER_WIDTH);
  int teeth = (int) lround (fabs (x2 - x1) / 5);

  pin_pen_rect (pen, (x1 + x2) / 2, y, fabs (x2 - x1), width, 1, 0, PIN_STROKE_OUTLINE);
  if (!pin_pen_detail (pen))
    return;
  for (int i = 1; i < teeth; i++)
    {
      double x = x1 + (x2 - x1) * i / teeth;

      pin_pen_add_line (pen, x, y - width / 2, x, y + width / 2);
    }
  pin_pen_finish (pen, PIN_STROKE_SURFACE);
}

typedef void (*Draw) (PinPen *pen, const PinPrimitive *p);

static const Draw draws[] = {
  [PIN_PRIMITIVE_OUTLINE] = draw_outline,
  [PIN_PRIMITIVE_RECT] = draw_rect,
  [PIN_PRIMITIVE_CIRCLE] = draw_circle,
  [PIN_PRIMITIVE_LINE] = draw_line,
  [PIN_PRIMITIVE_WHEEL] = pin_wheel_draw,
  [PIN_PRIMITIVE_ARM] = draw_arm,
  [PIN_PRIMITIVE_SHAFT] = draw_shaft,
  [PIN_PRIMITIVE_DIFF] = draw_diff,
  [PIN_PRIMITIVE_CENTRE_DIFF] = draw_centre_diff,
  [PIN_PRIMITIVE_GEAR] = draw_gear,
  [PIN_PRIMITIVE_MOTOR] = draw_motor,
  [PIN_PRIMITIVE_ENGINE] = draw_engine,
  [PIN_PRIMITIVE_SHOCK] = draw_shock,
  [PIN_PRIMITIVE_SERVO] = draw_servo,
  [PIN_PRIMITIVE_LINK] = draw_link,
  [PIN_PRIMITIVE_BOX] = draw_box,
  [PIN_PRIMITIVE_BAR] = draw_bar,
  [PIN_PRIMITIVE_HUB] = draw_hub,
  [PIN_PRIMITIVE_BELT] = draw_belt,
};

/* Draws one shape with the pen as it is set (on or off the car, chosen or not). */
void
pin_shape_draw (PinPen *pen, const PinShape *shape)
{
  for (guint i = 0; i < shape->primitives->len; i++)
    {
      const PinPrimitive *primitive = g_ptr_array_index (shape->primitives, i);

      if (primitive->detail && pen->small)
        continue;
      draws[primitive->kind] (pen, primitive);
    }
}
