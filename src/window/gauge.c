#include "window/gauge.h"

#include <glib/gi18n.h>
#include <math.h>

#include "sheet/plan-marks.h"
#include "window/appearance.h"

#define BAR 8

struct _PinGauge
{
  GtkWidget parent_instance;

  PinProposal proposal;
  const PinUnit *unit;
  int decimals;
  double value;
  GArray *repeats;            /* double */
};

G_DEFINE_FINAL_TYPE (PinGauge, pin_gauge, GTK_TYPE_WIDGET)

static void
set_ink (cairo_t *cr, const PinInk *ink)
{
  cairo_set_source_rgb (cr, ink->r, ink->g, ink->b);
}

/* The value stands over the bar, the edges under it: by the height of the text. */
static int
text_height (PinGauge *self)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), "0");
  int height;

  pango_layout_get_pixel_size (layout, NULL, &height);
  return height;
}

static int
bar_y (PinGauge *self)
{
  return text_height (self) + 18;
}

/* ---- the scale ----------------------------------------------------------------- */

static void
take_in (double value, double *low, double *high)
{
  if (isnan (value) || isinf (value))
    return;
  *low = isnan (*low) ? value : MIN (*low, value);
  *high = isnan (*high) ? value : MAX (*high, value);
}

/* All edges, all readings, and a margin. */
static void
scale_of (PinGauge *self, double *low, double *high)
{
  const PinProposal *p = &self->proposal;
  double span;

  *low = *high = NAN;
  take_in (p->pass_min, low, high);
  take_in (p->pass_max, low, high);
  take_in (p->watch_min, low, high);
  take_in (p->watch_max, low, high);
  take_in (p->reference, low, high);
  take_in (self->value, low, high);
  for (guint i = 0; i < self->repeats->len; i++)
    take_in (g_array_index (self->repeats, double, i), low, high);
  if (isnan (*low))
    return;
  span = *high - *low;
  if (span <= 0)
    span = fabs (*high) > 0 ? fabs (*high) : 1;
  *low -= span * 0.35;
  *high += span * 0.35;
}

static double
x_of (PinGauge *self, double value, double low, double high)
{
  return (value - low) / (high - low) * gtk_widget_get_width (GTK_WIDGET (self));
}

/* ---- drawing -------------------------------------------------------------------- */

static void
band (PinGauge *self, cairo_t *cr, const PinInk *ink, double from, double to, double low, double high)
{
  double x0 = isnan (from) ? 0 : x_of (self, from, low, high);
  double x1 = isnan (to) ? gtk_widget_get_width (GTK_WIDGET (self)) : x_of (self, to, low, high);

  set_ink (cr, ink);
  cairo_rectangle (cr, x0, bar_y (self), MAX (x1 - x0, 0), BAR);
  cairo_fill (cr);
}

static void
words (PinGauge *self, cairo_t *cr, const char *text, double x, double y, gboolean bold)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), text);
  int width;

  if (bold)
    {
      g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();

      pango_attr_list_insert (attributes, pango_attr_weight_new (PANGO_WEIGHT_BOLD));
      pango_layout_set_attributes (layout, attributes);
    }
  pango_layout_get_pixel_size (layout, &width, NULL);
  x = CLAMP (x - width / 2.0, 0, MAX (gtk_widget_get_width (GTK_WIDGET (self)) - width, 0));
  cairo_move_to (cr, x, y);
  pango_cairo_show_layout (cr, layout);
}

static void
edge (PinGauge *self, cairo_t *cr, double value, double low, double high)
{
  g_autofree char *text = NULL;
  double x;

  if (isnan (value))
    return;
  x = x_of (self, value, low, high);
  text = pin_value_format (value, self->unit, self->decimals);
  set_ink (cr, &pin_appearance_palette ()->pencil);
  cairo_move_to (cr, x, bar_y (self) - 6);
  cairo_line_to (cr, x, bar_y (self) + BAR + 6);
  cairo_stroke (cr);
  words (self, cr, text, x, bar_y (self) + BAR + 7, FALSE);
}

static void
draw_limits (PinGauge *self, cairo_t *cr, double low, double high)
{
  const PinPalette *palette = pin_appearance_palette ();
  const PinProposal *p = &self->proposal;
  gboolean watch = !isnan (p->watch_min) || !isnan (p->watch_max);

  band (self, cr, &palette->unsafe, NAN, NAN, low, high);
  if (watch)
    band (self, cr, &palette->watch, p->watch_min, p->watch_max, low, high);
  band (self, cr, &palette->pass, p->pass_min, p->pass_max, low, high);
  edge (self, cr, p->pass_min, low, high);
  edge (self, cr, p->pass_max, low, high);
  if (watch)
    {
      edge (self, cr, p->watch_min, low, high);
      edge (self, cr, p->watch_max, low, high);
    }
}

static void
draw_reference (PinGauge *self, cairo_t *cr, double low, double high)
{
  static const double dashes[] = { 3, 2 };
  double x;

  if (isnan (self->proposal.reference))
    return;
  x = x_of (self, self->proposal.reference, low, high);
  set_ink (cr, &pin_appearance_palette ()->ink);
  cairo_set_dash (cr, dashes, G_N_ELEMENTS (dashes), 0);
  cairo_move_to (cr, x, bar_y (self) - 10);
  cairo_line_to (cr, x, bar_y (self) + BAR + 4);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

static void
draw_value (PinGauge *self, cairo_t *cr, double low, double high)
{
  double x = x_of (self, self->value, low, high);
  g_autofree char *text = pin_value_format (self->value, self->unit, self->decimals);

  set_ink (cr, &pin_appearance_palette ()->ink);
  for (guint i = 0; i < self->repeats->len; i++)
    {
      double at = x_of (self, g_array_index (self->repeats, double, i), low, high);

      cairo_move_to (cr, at, bar_y (self) - 4);
      cairo_line_to (cr, at, bar_y (self) + BAR + 4);
      cairo_stroke (cr);
    }
  cairo_move_to (cr, x - 8, bar_y (self) - 15);
  cairo_line_to (cr, x + 8, bar_y (self) - 15);
  cairo_line_to (cr, x, bar_y (self) - 2);
  cairo_fill (cr);
  words (self, cr, text, x, 2, TRUE);
}

static void
pin_gauge_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  PinGauge *self = PIN_GAUGE (widget);
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, 0, gtk_widget_get_width (widget),
                                              gtk_widget_get_height (widget));
  double low, high;
  cairo_t *cr;

  scale_of (self, &low, &high);
  if (isnan (low) || self->proposal.limits == NULL)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  cairo_set_line_width (cr, 1.5);
  draw_limits (self, cr, low, high);
  draw_reference (self, cr, low, high);
  if (!isnan (self->value))
    draw_value (self, cr, low, high);
  cairo_destroy (cr);
}

static void
pin_gauge_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                   int *natural, int *minimum_baseline, int *natural_baseline)
{
  PinGauge *self = PIN_GAUGE (widget);

  *minimum = *natural = orientation == GTK_ORIENTATION_VERTICAL ? bar_y (self) + BAR + 7 + text_height (self) : 200;
}

static void
pin_gauge_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (pin_gauge_parent_class)->css_changed (widget, change);
  gtk_widget_queue_resize (widget);
}

static void
pin_gauge_finalize (GObject *object)
{
  g_array_unref (PIN_GAUGE (object)->repeats);
  G_OBJECT_CLASS (pin_gauge_parent_class)->finalize (object);
}

static void
pin_gauge_class_init (PinGaugeClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = pin_gauge_finalize;
  widget_class->measure = pin_gauge_measure;
  widget_class->snapshot = pin_gauge_snapshot;
  widget_class->css_changed = pin_gauge_css_changed;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
pin_gauge_init (PinGauge *self)
{
  self->repeats = g_array_new (FALSE, FALSE, sizeof (double));
  self->value = NAN;
}

void
pin_gauge_set (PinGauge *self, const PinProposal *proposal, const PinUnit *unit, int decimals,
               double value, const double *repeats, guint n_repeats)
{
  self->proposal = *proposal;
  self->unit = unit;
  self->decimals = decimals;
  self->value = value;
  g_array_set_size (self->repeats, 0);
  if (n_repeats > 0)
    g_array_append_vals (self->repeats, repeats, n_repeats);
  gtk_widget_set_visible (GTK_WIDGET (self), proposal->limits != NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("the reading between its limits"), -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
