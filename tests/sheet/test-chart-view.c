/* Charts: the grid's steps, and that everything stands inside the field. */
#include <cairo.h>
#include <math.h>

#include "sheet/chart-view.h"

enum { WIDTH = 625, HEIGHT = 300, ROUND = 20 };

static PinChart *
gear_chart (void)
{
  PinChart *chart = pin_chart_new ("Gear chart, spur 81", "pinion, teeth", "rollout, mm");
  PinSeries *now = pin_chart_add_series (chart, "84 mm tyre", PIN_SERIES_BOTH, FALSE);
  PinSeries *then = pin_chart_add_series (chart, "88 mm tyre", PIN_SERIES_BOTH, TRUE);

  for (int pinion = 18; pinion <= 23; pinion++)
    {
      pin_series_add (now, pinion, G_PI * 84 * pinion / 81 / 2.5);
      pin_series_add (then, pinion, G_PI * 88 * pinion / 81 / 2.5);
    }
  pin_chart_add_limit (chart, "70 °C at 14 °C air", 29.2, 1);
  pin_chart_add_limit (chart, "as it runs now", 27.4, 0);
  pin_chart_add_mark (chart, "now: 21 T, 27.4", 21, 27.37, FALSE);
  pin_chart_add_mark (chart, "then: 20 T, 27.3", 20, 27.3, TRUE);
  return chart;
}

/* On a sheet with a margin round the field, of one colour. */
static cairo_surface_t *
draw (const PinChart *chart)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH + 2 * ROUND, HEIGHT + 2 * ROUND);
  cairo_t *cr = cairo_create (surface);
  PinChartLook look = { .palette = pin_palette_light (), .width = WIDTH, .height = HEIGHT };

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_translate (cr, ROUND, ROUND);
  pin_chart_draw (cr, chart, &look);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static gboolean
is_inked (cairo_surface_t *surface, int x, int y)
{
  const guchar *row = cairo_image_surface_get_data (surface) + y * cairo_image_surface_get_stride (surface);

  return (((const guint32 *) row)[x] & 0xffffff) != 0xffffff;
}

static guint
inked (cairo_surface_t *surface, gboolean inside)
{
  guint n = 0;

  for (int y = 0; y < HEIGHT + 2 * ROUND; y++)
    for (int x = 0; x < WIDTH + 2 * ROUND; x++)
      {
        gboolean in = x >= ROUND && x < ROUND + WIDTH && y >= ROUND && y < ROUND + HEIGHT;

        n += in == inside && is_inked (surface, x, y);
      }
  return n;
}

static void
test_inside (void)
{
  PinChart *chart = gear_chart ();
  cairo_surface_t *surface = draw (chart);

  g_assert_cmpuint (inked (surface, TRUE), >, 2000);
  g_assert_cmpuint (inked (surface, FALSE), ==, 0);
  if (g_getenv ("PIN_PICTURES") != NULL)
    {
      g_autofree char *path = g_build_filename (g_getenv ("PIN_PICTURES"), "chart.png", NULL);

      cairo_surface_write_to_png (surface, path);
    }
  cairo_surface_destroy (surface);
  pin_chart_free (chart);
}

static void
test_blank (void)
{
  PinChart *chart = pin_chart_new ("Nothing yet", "x", "y");
  cairo_surface_t *surface;

  pin_chart_add_series (chart, "empty", PIN_SERIES_LINE, FALSE);
  surface = draw (chart);
  g_assert_cmpuint (inked (surface, TRUE), ==, 0);
  cairo_surface_destroy (surface);
  pin_chart_free (chart);
}

/* One point has no span; what is drawn is still somewhere. */
static void
test_point (void)
{
  PinChart *chart = pin_chart_new ("One point", "x", "y");
  cairo_surface_t *surface;

  pin_series_add (pin_chart_add_series (chart, "", PIN_SERIES_POINTS, FALSE), 0, 0);
  surface = draw (chart);
  g_assert_cmpuint (inked (surface, TRUE), >, 500);
  g_assert_cmpuint (inked (surface, FALSE), ==, 0);
  cairo_surface_destroy (surface);
  pin_chart_free (chart);
}

static void
test_steps (void)
{
  static const struct { double span; int most; double step; } cases[] = {
    { 10, 7, 2 }, { 7, 7, 1 }, { 0.3, 6, 0.05 }, { 900, 7, 200 }, { 33, 7, 5 }, { 1e-6, 5, 2e-7 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpfloat_with_epsilon (pin_chart_step (cases[i].span, cases[i].most), cases[i].step,
                                    cases[i].step * 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/chart/inside", test_inside);
  g_test_add_func ("/chart/blank", test_blank);
  g_test_add_func ("/chart/point", test_point);
  g_test_add_func ("/chart/steps", test_steps);
  return g_test_run ();
}
