#include "sheet/plan-pen.h"

#include <math.h>

/* Tyres from above. */

typedef struct
{
  double x, y, diameter, width;
} Wheel;

/* Where on the plan a tread row stands that is this many degrees round the
 * tyre from the top: rows crowd towards the rim, so the tyre looks round. */
static double
row_x (const Wheel *w, double degrees)
{
  return w->x + w->diameter / 2 * sin (degrees * G_PI / 180);
}

static void
tread_slick (PinPen *pen, const Wheel *w)
{
  for (int side = -1; side <= 1; side += 2)
    {
      pin_pen_add_line (pen, w->x - w->diameter * 0.465, w->y + side * w->width * 0.36,
                        w->x + w->diameter * 0.465, w->y + side * w->width * 0.36);
      for (int degrees = -70; degrees <= 70; degrees += 20)
        pin_pen_add_line (pen, row_x (w, degrees), w->y + side * w->width * 0.36,
                          row_x (w, degrees), w->y + side * w->width * 0.27);
    }
  pin_pen_finish (pen, PIN_STROKE_SURFACE);
}

static void
tread_rib (PinPen *pen, const Wheel *w)
{
  static const double ribs[] = { -0.3, -0.1, 0.1, 0.3 };

  for (guint i = 0; i < G_N_ELEMENTS (ribs); i++)
    for (int side = -1; side <= 1; side += 2)
      {
        double y = w->y + w->width * (ribs[i] + side * 0.045);

        pin_pen_add_line (pen, w->x - w->diameter * 0.475, y, w->x + w->diameter * 0.475, y);
      }
  pin_pen_finish (pen, PIN_STROKE_SURFACE);
}

static void
tread_pin (PinPen *pen, const Wheel *w)
{
  static const double wide[] = { -0.33, -0.11, 0.11, 0.33 };
  static const double narrow[] = { -0.22, 0, 0.22 };
  int row = 0;

  for (double degrees = -66; degrees < 67; degrees += 9.5, row++)
    {
      double length = w->diameter * 0.042 * cos (degrees * G_PI / 180) + 0.6;
      const double *columns = row % 2 ? wide : narrow;

      for (int i = 0; i < (row % 2 ? 4 : 3); i++)
        pin_pen_add_rect (pen, row_x (w, degrees), w->y + w->width * columns[i], length, w->width * 0.085, 0.6);
    }
  pin_pen_finish (pen, PIN_STROKE_TREAD);
}

static void
add_lug (PinPen *pen, const Wheel *w, double x, double length, int side)
{
  double points[] = {
    x - length * 0.5, w->y + side * w->width * 0.45,
    x + length * 0.5, w->y + side * w->width * 0.45,
    x + length * 0.35, w->y + side * w->width * 0.07,
    x - length * 0.75, w->y + side * w->width * 0.12,
  };

  pin_pen_add_polygon (pen, points, 4, 1.2);
}

static void
tread_lug (PinPen *pen, const Wheel *w)
{
  int row = 0;

  for (double degrees = -66; degrees < 67; degrees += 15, row++)
    {
      double flat = cos (degrees * G_PI / 180);
      double step = w->diameter * 0.05 * flat;

      add_lug (pen, w, row_x (w, degrees) + (row % 2 ? step : 0), w->diameter * 0.095 * flat, -1);
      add_lug (pen, w, row_x (w, degrees) + (row % 2 ? 0 : step), w->diameter * 0.095 * flat, 1);
    }
  pin_pen_finish (pen, PIN_STROKE_TREAD);
}

/* A wheel with its tread: pin (which is also the usual one), rib, slick or lug. */
void
pin_wheel_draw (PinPen *pen, const PinPrimitive *p)
{
  Wheel w = { p->number[PIN_NUMBER_X], p->number[PIN_NUMBER_Y], p->number[PIN_NUMBER_DIAMETER],
              p->number[PIN_NUMBER_WIDTH] };

  pin_pen_rect (pen, w.x, w.y, w.diameter, w.width, MIN (11, w.width * 0.27), 0, PIN_STROKE_TYRE);
  if (!pin_pen_detail (pen))
    return;
  if (g_strcmp0 (p->tread, "slick") == 0)
    tread_slick (pen, &w);
  else if (g_strcmp0 (p->tread, "rib") == 0)
    tread_rib (pen, &w);
  else if (g_strcmp0 (p->tread, "lug") == 0)
    tread_lug (pen, &w);
  else
    tread_pin (pen, &w);
}
