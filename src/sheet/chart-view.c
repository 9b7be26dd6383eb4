#include "sheet/chart-pen.h"

#include <math.h>
#include <pango/pangocairo.h>

#include "library/quantity.h"

#define FONT "Cantarell, DejaVu Sans, sans-serif"
#define MARGIN 15.0           /* px, from the field's edge to the outermost thing */
#define GAP 6.0               /* px, between words and what they belong to */
#define MOST_LINES 7          /* of the grid, either way */

void
pin_chart_ink (PinChartPen *pen, const PinInk *ink)
{
  cairo_set_source_rgb (pen->cr, ink->r, ink->g, ink->b);
}

/* ---- words ------------------------------------------------------------------------------------ */

/* Returns: (transfer full) */
static PangoLayout *
layout_of (PinChartPen *pen, const char *words, gboolean bold)
{
  PangoLayout *layout = pango_cairo_create_layout (pen->cr);
  PangoFontDescription *font = pango_font_description_new ();

  pango_font_description_set_family (font, pen->look->font != NULL ? pen->look->font : FONT);
  pango_font_description_set_absolute_size (font, pen->text * PANGO_SCALE);
  pango_font_description_set_weight (font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_layout_set_font_description (layout, font);
  pango_layout_set_text (layout, words, -1);
  pango_font_description_free (font);
  return layout;
}

void
pin_chart_words_size (PinChartPen *pen, const char *words, gboolean bold, double *width, double *height)
{
  g_autoptr (PangoLayout) layout = layout_of (pen, words, bold);
  int w, h;

  pango_layout_get_pixel_size (layout, &w, &h);
  if (width != NULL)
    *width = w;
  if (height != NULL)
    *height = h;
}

/* @at: 0 begins at x, 0.5 is centred on it, 1 ends there; y is the middle. */
void
pin_chart_words (PinChartPen *pen, const char *words, double x, double y, double at, gboolean bold)
{
  g_autoptr (PangoLayout) layout = layout_of (pen, words, bold);
  int width, height;

  pango_layout_get_pixel_size (layout, &width, &height);
  cairo_move_to (pen->cr, round (x - at * width), round (y - height / 2.0));
  pango_cairo_show_layout (pen->cr, layout);
  cairo_new_path (pen->cr);
}

/* ---- the scale ---------------------------------------------------------------------------------- */

double
pin_chart_step (double span, int most)
{
  double raw = span / MAX (most, 1);
  double power = pow (10, floor (log10 (raw)));

  if (raw <= power)
    return power;
  if (raw <= 2 * power)
    return 2 * power;
  return raw <= 5 * power ? 5 * power : 10 * power;
}

static void
take_in (double value, double *low, double *high)
{
  *low = MIN (*low, value);
  *high = MAX (*high, value);
}

/* Never of no width, and with a little room at the ends. */
static void
widen (double *low, double *high, double share)
{
  double span = *high - *low;

  if (span <= 0)
    span = fabs (*high) > 0 ? fabs (*high) : 1;
  *low -= span * share;
  *high += span * share;
}

static void
take_limits (PinChartPen *pen)
{
  for (guint i = 0; i < pen->chart->limits->len; i++)
    take_in (((PinChartLimit *) g_ptr_array_index (pen->chart->limits, i))->y, &pen->y0, &pen->y1);
}

static void
scale_chart (PinChartPen *pen)
{
  pen->x0 = pen->y0 = G_MAXDOUBLE;
  pen->x1 = pen->y1 = -G_MAXDOUBLE;
  for (guint i = 0; i < pen->chart->series->len; i++)
    {
      const PinSeries *series = g_ptr_array_index (pen->chart->series, i);

      for (guint k = 0; k < series->x->len; k++)
        {
          take_in (g_array_index (series->x, double, k), &pen->x0, &pen->x1);
          take_in (g_array_index (series->y, double, k), &pen->y0, &pen->y1);
        }
    }
  for (guint i = 0; i < pen->chart->marks->len; i++)
    {
      const PinChartMark *mark = g_ptr_array_index (pen->chart->marks, i);

      take_in (mark->x, &pen->x0, &pen->x1);
      take_in (mark->y, &pen->y0, &pen->y1);
    }
  take_limits (pen);
  widen (&pen->x0, &pen->x1, 0.06);
  widen (&pen->y0, &pen->y1, 0.1);
}

/* A thing drawn to scale: as many px for a unit one way as the other. */
static void
scale_drawing (PinChartPen *pen)
{
  double per = MIN (pen->width / (pen->x1 - pen->x0), pen->height / (pen->y1 - pen->y0));
  double x = (pen->x0 + pen->x1) / 2, y = (pen->y0 + pen->y1) / 2;

  pen->x0 = x - pen->width / per / 2;
  pen->x1 = x + pen->width / per / 2;
  pen->y0 = y - pen->height / per / 2;
  pen->y1 = y + pen->height / per / 2;
}

double
pin_chart_x (const PinChartPen *pen, double x)
{
  return pen->x + (x - pen->x0) / (pen->x1 - pen->x0) * pen->width;
}

double
pin_chart_y (const PinChartPen *pen, double y)
{
  return pen->y + pen->height - (y - pen->y0) / (pen->y1 - pen->y0) * pen->height;
}

/* ---- grid and frame ------------------------------------------------------------------------------- */

static char *
grid_text (double value, double step)
{
  return pin_number_format (value, step >= 1 ? 0 : (int) ceil (-log10 (step) - 1e-9));
}

static double
widest_label (PinChartPen *pen)
{
  double step = pin_chart_step (pen->y1 - pen->y0, MOST_LINES);
  double widest = 0, width;

  for (double y = ceil (pen->y0 / step) * step; y <= pen->y1; y += step)
    {
      g_autofree char *text = grid_text (y, step);

      pin_chart_words_size (pen, text, FALSE, &width, NULL);
      widest = MAX (widest, width);
    }
  return widest;
}

void
pin_chart_line (PinChartPen *pen, double x0, double y0, double x1, double y1)
{
  cairo_move_to (pen->cr, x0, y0);
  cairo_line_to (pen->cr, x1, y1);
  cairo_stroke (pen->cr);
}

static void
draw_grid (PinChartPen *pen)
{
  const PinPalette *palette = pen->look->palette;
  double x_step = pin_chart_step (pen->x1 - pen->x0, MOST_LINES);
  double y_step = pin_chart_step (pen->y1 - pen->y0, MOST_LINES);

  cairo_set_line_width (pen->cr, 1);
  for (double y = ceil (pen->y0 / y_step) * y_step; y <= pen->y1; y += y_step)
    {
      double at = round (pin_chart_y (pen, y)) + 0.5;
      g_autofree char *text = grid_text (y, y_step);

      pin_chart_ink (pen, &palette->hair);
      pin_chart_line (pen, pen->x, at, pen->x + pen->width, at);
      pin_chart_ink (pen, &palette->pencil);
      pin_chart_words (pen, text, pen->x - GAP, at, 1, FALSE);
    }
  for (double x = ceil (pen->x0 / x_step) * x_step; x <= pen->x1; x += x_step)
    {
      double at = round (pin_chart_x (pen, x)) + 0.5;
      g_autofree char *text = grid_text (x, x_step);

      pin_chart_ink (pen, &palette->hair);
      pin_chart_line (pen, at, pen->y, at, pen->y + pen->height);
      pin_chart_ink (pen, &palette->pencil);
      pin_chart_words (pen, text, at, pen->y + pen->height + GAP + pen->text / 2, 0.5, FALSE);
    }
}

static void
draw_frame (PinChartPen *pen)
{
  cairo_set_line_width (pen->cr, 1);
  pin_chart_ink (pen, &pen->look->palette->ink);
  cairo_rectangle (pen->cr, round (pen->x) + 0.5, round (pen->y) + 0.5, round (pen->width), round (pen->height));
  cairo_stroke (pen->cr);
}

/* ---- limits ------------------------------------------------------------------------------------------ */

/* Where it is bad is hatched, so that it is told without colour too. */
static void
hatch (PinChartPen *pen, double from, double to)
{
  double height = to - from;

  cairo_save (pen->cr);
  cairo_rectangle (pen->cr, pen->x, from, pen->width, height);
  cairo_clip (pen->cr);
  cairo_set_line_width (pen->cr, 1);
  for (double x = pen->x - height; x < pen->x + pen->width; x += 9)
    {
      cairo_move_to (pen->cr, x, to);
      cairo_line_to (pen->cr, x + height, from);
    }
  cairo_set_source_rgba (pen->cr, pen->look->palette->fail_edge.r, pen->look->palette->fail_edge.g,
                         pen->look->palette->fail_edge.b, 0.45);
  cairo_stroke (pen->cr);
  cairo_restore (pen->cr);
}

static void
draw_limit (PinChartPen *pen, const PinChartLimit *limit)
{
  static const double dashes[] = { 6, 4 };
  double y = pin_chart_y (pen, limit->y);

  if (limit->bad > 0)
    hatch (pen, pen->y, y);
  else if (limit->bad < 0)
    hatch (pen, y, pen->y + pen->height);
  pin_chart_ink (pen, limit->bad != 0 ? &pen->look->palette->fail_edge : &pen->look->palette->ink);
  cairo_set_line_width (pen->cr, 1.5);
  if (limit->bad == 0)
    cairo_set_dash (pen->cr, dashes, G_N_ELEMENTS (dashes), 0);
  pin_chart_line (pen, pen->x, y, pen->x + pen->width, y);
  cairo_set_dash (pen->cr, NULL, 0, 0);
}

/* ---- curves ------------------------------------------------------------------------------------------- */

static void
draw_point (PinChartPen *pen, const PinSeries *series, guint k)
{
  double x = pin_chart_x (pen, g_array_index (series->x, double, k));
  double y = pin_chart_y (pen, g_array_index (series->y, double, k));

  cairo_new_sub_path (pen->cr);
  if (series->accent)
    cairo_rectangle (pen->cr, x - 3.5, y - 3.5, 7, 7);
  else
    cairo_arc (pen->cr, x, y, 4, 0, 2 * G_PI);
  if (!series->accent)
    {
      pin_chart_ink (pen, &pen->look->palette->raised);
      cairo_fill_preserve (pen->cr);
    }
  pin_chart_ink (pen, series->accent ? &pen->look->palette->accent : &pen->look->palette->ink);
  if (series->accent)
    cairo_fill (pen->cr);
  else
    cairo_stroke (pen->cr);
}

static void
draw_series (PinChartPen *pen, const PinSeries *series)
{
  cairo_set_line_width (pen->cr, pen->chart->drawing ? 2 : 1.5);
  pin_chart_ink (pen, series->accent ? &pen->look->palette->accent : &pen->look->palette->ink);
  if (series->look != PIN_SERIES_POINTS)
    {
      for (guint k = 0; k < series->x->len; k++)
        cairo_line_to (pen->cr, pin_chart_x (pen, g_array_index (series->x, double, k)),
                       pin_chart_y (pen, g_array_index (series->y, double, k)));
      cairo_stroke (pen->cr);
    }
  for (guint k = 0; series->look != PIN_SERIES_LINE && k < series->x->len; k++)
    draw_point (pen, series, k);
}

/* ---- titles at the right edge ---------------------------------------------------------------------------- */

typedef struct
{
  const char *title;
  double y;
  const PinInk *ink;
} Title;

static int
by_y (gconstpointer a, gconstpointer b)
{
  double first = ((const Title *) a)->y, second = ((const Title *) b)->y;

  return (first > second) - (first < second);
}

static void
add_title (GArray *titles, const char *words, double y, const PinInk *ink)
{
  Title title = { words, y, ink };

  if (words != NULL && *words != '\0')
    g_array_append_val (titles, title);
}

/* What the lines and limits are called, at the height where they end. */
static GArray *
titles_of (PinChartPen *pen)
{
  const PinPalette *palette = pen->look->palette;
  GArray *titles = g_array_new (FALSE, FALSE, sizeof (Title));

  for (guint i = 0; i < pen->chart->series->len; i++)
    {
      const PinSeries *series = g_ptr_array_index (pen->chart->series, i);

      if (series->y->len > 0)
        add_title (titles, series->title, pin_chart_y (pen, g_array_index (series->y, double, series->y->len - 1)),
                   series->accent ? &palette->accent : &palette->ink);
    }
  for (guint i = 0; i < pen->chart->limits->len; i++)
    {
      const PinChartLimit *limit = g_ptr_array_index (pen->chart->limits, i);

      add_title (titles, limit->title, pin_chart_y (pen, limit->y),
                 limit->bad != 0 ? &palette->fail_edge : &palette->ink);
    }
  g_array_sort (titles, by_y);
  return titles;
}

static double
widest_title (PinChartPen *pen)
{
  double widest = 0, width;

  for (guint i = 0; i < pen->chart->series->len; i++)
    {
      const PinSeries *series = g_ptr_array_index (pen->chart->series, i);

      pin_chart_words_size (pen, series->title, FALSE, &width, NULL);
      widest = MAX (widest, width);
    }
  for (guint i = 0; i < pen->chart->limits->len; i++)
    {
      const PinChartLimit *limit = g_ptr_array_index (pen->chart->limits, i);

      pin_chart_words_size (pen, limit->title, FALSE, &width, NULL);
      widest = MAX (widest, width);
    }
  return MIN (widest, pen->look->width * 0.3);
}

/* Pushed apart so that none lies on another. */
static void
draw_titles (PinChartPen *pen)
{
  g_autoptr (GArray) titles = titles_of (pen);
  double last = -G_MAXDOUBLE, least = pen->text * 1.35;

  for (guint i = 0; i < titles->len; i++)
    {
      Title *title = &g_array_index (titles, Title, i);

      title->y = MAX (title->y, last + least);
      last = title->y;
    }
  last = pen->y + pen->height;
  for (guint i = titles->len; i-- > 0;)
    {
      Title *title = &g_array_index (titles, Title, i);

      title->y = MIN (title->y, last);
      last = title->y - least;
    }
  for (guint i = 0; i < titles->len; i++)
    {
      const Title *title = &g_array_index (titles, Title, i);

      pin_chart_ink (pen, title->ink);
      pin_chart_words (pen, title->title, pen->x + pen->width + GAP + 2, title->y, 0, FALSE);
    }
}

/* ---- all of it ----------------------------------------------------------------------------------------- */

static void
place (PinChartPen *pen)
{
  double top = MARGIN + pen->text * 1.35 + 2 * GAP;
  double bottom = pen->chart->drawing ? MARGIN : MARGIN + 2 * (pen->text * 1.35 + GAP);

  pen->y = top;
  pen->height = MAX (pen->look->height - top - bottom, 10);
  pen->x = MARGIN + (pen->chart->drawing ? 0 : widest_label (pen) + GAP);
  pen->width = MAX (pen->look->width - pen->x - MARGIN - widest_title (pen) - GAP, 10);
}

static void
draw_heads (PinChartPen *pen)
{
  const PinPalette *palette = pen->look->palette;
  double line_height = pen->text * 1.35;

  pin_chart_ink (pen, &palette->ink);
  pin_chart_words (pen, pen->chart->title, MARGIN, MARGIN + line_height / 2, 0, TRUE);
  pin_chart_ink (pen, &palette->pencil);
  pin_chart_words (pen, pen->chart->y_title, pen->x + pen->width, MARGIN + line_height / 2, 1, FALSE);
  if (!pen->chart->drawing)
    pin_chart_words (pen, pen->chart->x_title, pen->x + pen->width / 2,
              pen->look->height - MARGIN - line_height / 2, 0.5, FALSE);
}

static gboolean
is_blank (const PinChart *chart)
{
  for (guint i = 0; i < chart->series->len; i++)
    if (((PinSeries *) g_ptr_array_index (chart->series, i))->x->len > 0)
      return FALSE;
  return chart->marks->len == 0;
}

void
pin_chart_draw (cairo_t *cr, const PinChart *chart, const PinChartLook *look)
{
  PinChartPen pen = { .cr = cr, .chart = chart, .look = look, .text = look->text > 0 ? look->text : 13 };

  if (is_blank (chart))
    return;
  scale_chart (&pen);
  place (&pen);
  if (chart->drawing)
    scale_drawing (&pen);
  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  if (!chart->drawing)
    draw_grid (&pen);
  for (guint i = 0; i < chart->limits->len; i++)
    draw_limit (&pen, g_ptr_array_index (chart->limits, i));
  for (guint i = 0; i < chart->series->len; i++)
    draw_series (&pen, g_ptr_array_index (chart->series, i));
  pin_chart_draw_marks (&pen);
  if (!chart->drawing)
    draw_frame (&pen);
  draw_titles (&pen);
  draw_heads (&pen);
  cairo_restore (cr);
}
