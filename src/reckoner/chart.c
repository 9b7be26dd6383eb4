#include "reckoner/chart.h"

static void
series_free (gpointer data)
{
  PinSeries *self = data;

  g_free (self->title);
  g_array_unref (self->x);
  g_array_unref (self->y);
  g_free (self);
}

static void
limit_free (gpointer data)
{
  PinChartLimit *self = data;

  g_free (self->title);
  g_free (self);
}

static void
mark_free (gpointer data)
{
  PinChartMark *self = data;

  g_free (self->title);
  g_free (self);
}

PinChart *
pin_chart_new (const char *title, const char *x_title, const char *y_title)
{
  PinChart *self = g_new0 (PinChart, 1);

  self->title = g_strdup (title);
  self->x_title = g_strdup (x_title);
  self->y_title = g_strdup (y_title);
  self->series = g_ptr_array_new_with_free_func (series_free);
  self->limits = g_ptr_array_new_with_free_func (limit_free);
  self->marks = g_ptr_array_new_with_free_func (mark_free);
  return self;
}

void
pin_chart_free (PinChart *self)
{
  g_free (self->title);
  g_free (self->x_title);
  g_free (self->y_title);
  g_ptr_array_unref (self->series);
  g_ptr_array_unref (self->limits);
  g_ptr_array_unref (self->marks);
  g_free (self);
}

/* Returns: (transfer none) */
PinSeries *
pin_chart_add_series (PinChart *self, const char *title, PinSeriesLook look, gboolean accent)
{
  PinSeries *series = g_new0 (PinSeries, 1);

  series->title = g_strdup (title);
  series->look = look;
  series->accent = accent;
  series->x = g_array_new (FALSE, FALSE, sizeof (double));
  series->y = g_array_new (FALSE, FALSE, sizeof (double));
  g_ptr_array_add (self->series, series);
  return series;
}

void
pin_series_add (PinSeries *self, double x, double y)
{
  g_array_append_val (self->x, x);
  g_array_append_val (self->y, y);
}

void
pin_chart_add_limit (PinChart *self, const char *title, double y, int bad)
{
  PinChartLimit *limit = g_new0 (PinChartLimit, 1);

  limit->title = g_strdup (title);
  limit->y = y;
  limit->bad = bad;
  g_ptr_array_add (self->limits, limit);
}

void
pin_chart_add_mark (PinChart *self, const char *title, double x, double y, gboolean accent)
{
  PinChartMark *mark = g_new0 (PinChartMark, 1);

  mark->title = g_strdup (title);
  mark->x = x;
  mark->y = y;
  mark->accent = accent;
  g_ptr_array_add (self->marks, mark);
}
