#include "window/chart-area.h"

#include "sheet/chart-view.h"
#include "sheet/plan-view.h"
#include "window/appearance.h"
#include "window/fields.h"
#include "window/restack.h"

#define HEIGHT 300            /* px, at the usual text size */

struct _PinChartArea
{
  GtkWidget parent_instance;

  const PinChart *chart;      /* borrowed, or NULL */
  GskRenderNode *node;        /* as drawn for the size it has */
};

G_DEFINE_FINAL_TYPE (PinChartArea, pin_chart_area, GTK_TYPE_WIDGET)

static void
forget (PinChartArea *self)
{
  g_clear_pointer (&self->node, gsk_render_node_unref);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
draw (PinChartArea *self, cairo_t *cr, int width, int height)
{
  const PinPalette *palette = pin_appearance_palette ();
  PinChartLook look = {
    .palette = palette, .text = 13 * pin_text_scale (GTK_WIDGET (self)), .width = width, .height = height,
  };

  pin_plan_field (cr, palette, 0, 0, width, height);
  pin_chart_draw (cr, self->chart, &look);
}

static void
pin_chart_area_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  PinChartArea *self = PIN_CHART_AREA (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);

  if (self->chart == NULL || width <= 0 || height <= 0)
    return;
  if (self->node == NULL)
    {
      GtkSnapshot *once = gtk_snapshot_new ();
      cairo_t *cr = gtk_snapshot_append_cairo (once, &GRAPHENE_RECT_INIT (0, 0, width, height));

      draw (self, cr, width, height);
      cairo_destroy (cr);
      self->node = gtk_snapshot_free_to_node (once);
    }
  if (self->node != NULL)
    gtk_snapshot_append_node (snapshot, self->node);
}

static void
pin_chart_area_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                        int *minimum_baseline, int *natural_baseline)
{
  double scale = pin_text_scale (widget);

  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 280 : (int) (HEIGHT * scale);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    *natural = 560;
}

static void
pin_chart_area_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  g_clear_pointer (&PIN_CHART_AREA (widget)->node, gsk_render_node_unref);
}

static void
pin_chart_area_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (pin_chart_area_parent_class)->css_changed (widget, change);
  forget (PIN_CHART_AREA (widget));
}

static void
pin_chart_area_dispose (GObject *object)
{
  g_clear_pointer (&PIN_CHART_AREA (object)->node, gsk_render_node_unref);
  G_OBJECT_CLASS (pin_chart_area_parent_class)->dispose (object);
}

static void
pin_chart_area_class_init (PinChartAreaClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pin_chart_area_dispose;
  widget_class->snapshot = pin_chart_area_snapshot;
  widget_class->measure = pin_chart_area_measure;
  widget_class->size_allocate = pin_chart_area_size_allocate;
  widget_class->css_changed = pin_chart_area_css_changed;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  gtk_widget_class_set_css_name (widget_class, "chart");
}

static void
pin_chart_area_init (PinChartArea *self)
{
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_widget_hide (GTK_WIDGET (self));
}

/* The title and what is marked: the curves themselves stand in the results. */
static char *
words_of (const PinChart *chart)
{
  GString *words = g_string_new (chart->title);

  for (guint i = 0; i < chart->marks->len; i++)
    {
      const PinChartMark *mark = g_ptr_array_index (chart->marks, i);

      if (*mark->title != '\0')
        g_string_append_printf (words, "; %s", mark->title);
    }
  return g_string_free (words, FALSE);
}

void
pin_chart_area_set (PinChartArea *self, const PinChart *chart)
{
  g_autofree char *words = chart != NULL ? words_of (chart) : g_strdup ("");

  self->chart = chart;
  pin_field_name (self, words);
  gtk_widget_set_visible (GTK_WIDGET (self), chart != NULL);
  forget (self);
}
