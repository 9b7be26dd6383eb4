#include "sheet/chart-pen.h"

/* The marks of a chart: rings round points that are spoken of, with words beside
 * them that hide as little as can be. */

typedef struct
{
  double x0, y0, x1, y1;      /* px */
} Box;

/* Where the words of a mark go: by a corner of the ring. */
typedef struct
{
  double x, y;                /* px: the end of the stem */
  gboolean left, up;
  Box box;
} Place;

static double
overlap (const Box *a, const Box *b)
{
  double width = MIN (a->x1, b->x1) - MAX (a->x0, b->x0), height = MIN (a->y1, b->y1) - MAX (a->y0, b->y0);

  return MAX (width, 0) * MAX (height, 0);
}

static double
outside (const PinChartPen *pen, const Box *box)
{
  return MAX (pen->x - box->x0, 0) + MAX (box->x1 - pen->x - pen->width, 0) + MAX (pen->y - box->y0, 0)
         + MAX (box->y1 - pen->y - pen->height, 0);
}

/* How much of the curves would lie under the box, in points along them. */
static guint
crossed (const PinChartPen *pen, const Box *box)
{
  guint n = 0;

  for (guint i = 0; i < pen->chart->series->len; i++)
    {
      const PinSeries *series = g_ptr_array_index (pen->chart->series, i);

      for (guint k = 0; k + 1 < series->x->len; k++)
        for (int part = 0; part < 8; part++)
          {
            double share = part / 8.0;
            double x = pin_chart_x (pen, g_array_index (series->x, double, k) * (1 - share)
                                + g_array_index (series->x, double, k + 1) * share);
            double y = pin_chart_y (pen, g_array_index (series->y, double, k) * (1 - share)
                                + g_array_index (series->y, double, k + 1) * share);

            n += x > box->x0 && x < box->x1 && y > box->y0 && y < box->y1;
          }
    }
  return n;
}

static Place
place_at (PinChartPen *pen, const PinChartMark *mark, gboolean left, gboolean up)
{
  double stem = pen->text * 1.4, width, height;
  Place place = { .left = left, .up = up };

  pin_chart_words_size (pen, mark->title, TRUE, &width, &height);
  place.x = pin_chart_x (pen, mark->x) + (left ? -stem : stem);
  place.y = pin_chart_y (pen, mark->y) + (up ? -stem : stem);
  place.box.x0 = left ? place.x - width - 2 : place.x + 2;
  place.box.x1 = place.box.x0 + width;
  place.box.y0 = up ? place.y - height : place.y;
  place.box.y1 = place.box.y0 + height;
  return place;
}

static Place
best_place (PinChartPen *pen, const PinChartMark *mark, const GArray *taken)
{
  double least = G_MAXDOUBLE;
  Place best = { 0 };

  for (int i = 0; i < 4; i++)
    {
      Place place = place_at (pen, mark, i & 1, i < 2);
      double cost = outside (pen, &place.box) * 100 + crossed (pen, &place.box) * 10;

      for (guint k = 0; k < taken->len; k++)
        cost += overlap (&place.box, &g_array_index (taken, Box, k));
      if (cost < least)
        {
          least = cost;
          best = place;
        }
    }
  return best;
}

/* A ring round the point, and its words where least is hidden by them. */
static void
draw_mark (PinChartPen *pen, const PinChartMark *mark, GArray *taken)
{
  double x = pin_chart_x (pen, mark->x), y = pin_chart_y (pen, mark->y);
  Place place;

  pin_chart_ink (pen, mark->accent ? &pen->look->palette->accent : &pen->look->palette->ink);
  cairo_set_line_width (pen->cr, 2);
  cairo_new_sub_path (pen->cr);
  cairo_arc (pen->cr, x, y, 9, 0, 2 * G_PI);
  cairo_stroke (pen->cr);
  if (*mark->title == '\0')
    return;
  place = best_place (pen, mark, taken);
  g_array_append_val (taken, place.box);
  cairo_set_line_width (pen->cr, 1);
  pin_chart_line (pen, x + (place.left ? -7 : 7), y + (place.up ? -7 : 7), place.x, place.y);
  pin_chart_words (pen, mark->title, place.box.x0, (place.box.y0 + place.box.y1) / 2, 0, TRUE);
}

void
pin_chart_draw_marks (PinChartPen *pen)
{
  g_autoptr (GArray) taken = g_array_new (FALSE, FALSE, sizeof (Box));

  for (guint i = 0; i < pen->chart->marks->len; i++)
    {
      const PinChartMark *mark = g_ptr_array_index (pen->chart->marks, i);
      double x = pin_chart_x (pen, mark->x), y = pin_chart_y (pen, mark->y);
      Box ring = { x - 10, y - 10, x + 10, y + 10 };

      g_array_append_val (taken, ring);
    }
  for (guint i = 0; i < pen->chart->marks->len; i++)
    draw_mark (pen, g_ptr_array_index (pen->chart->marks, i), taken);
}
