#include "window/restack.h"

#define USUAL_TEXT 15.0       /* px */

struct _PinRestack
{
  GtkLayoutManager parent_instance;

  double share;               /* of the width, for the first child */
  int spacing;
  int narrow;                 /* px at the usual text below which it stacks in any case */
};

G_DEFINE_FINAL_TYPE (PinRestack, pin_restack, GTK_TYPE_LAYOUT_MANAGER)

enum
{
  PROP_0,
  PROP_SHARE,
  PROP_SPACING,
  PROP_NARROW,
  N_PROPS,
};

static GParamSpec *props[N_PROPS];

static GtkWidget *
next_shown (GtkWidget *child)
{
  while (child != NULL && !gtk_widget_should_layout (child))
    child = gtk_widget_get_next_sibling (child);
  return child;
}

static GtkWidget *
first_shown (GtkWidget *widget)
{
  return next_shown (gtk_widget_get_first_child (widget));
}

static int
count (GtkWidget *widget)
{
  int n = 0;

  for (GtkWidget *child = first_shown (widget); child != NULL;
       child = next_shown (gtk_widget_get_next_sibling (child)))
    n++;
  return n;
}

static int
min_width (GtkWidget *child)
{
  int minimum;

  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &minimum, NULL, NULL, NULL);
  return minimum;
}

/* Half again the text wants half again the width: what is narrow grows with it. */
double
pin_text_scale (GtkWidget *widget)
{
  PangoContext *context = gtk_widget_get_pango_context (widget);
  const PangoFontDescription *font = pango_context_get_font_description (context);
  double size = pango_font_description_get_size (font) / (double) PANGO_SCALE;

  if (!pango_font_description_get_size_is_absolute (font))
    size *= pango_cairo_context_get_resolution (context) > 0
              ? pango_cairo_context_get_resolution (context) / 72 : 96.0 / 72;
  return MAX (size / USUAL_TEXT, 1);
}

/* The widths in a row; FALSE if they do not fit. */
static gboolean
row_widths (PinRestack *self, GtkWidget *widget, int width, int *first, int *rest)
{
  int n = count (widget);
  int others = MAX (n - 1, 1);
  int room = width - (n - 1) * self->spacing;
  int least = 0;
  GtkWidget *child = first_shown (widget);

  if (n < 2)
    {
      *first = *rest = width;
      return TRUE;
    }
  if (width < self->narrow * pin_text_scale (widget))
    return FALSE;
  *first = (int) (room * self->share);
  for (GtkWidget *other = next_shown (gtk_widget_get_next_sibling (child)); other != NULL;
       other = next_shown (gtk_widget_get_next_sibling (other)))
    least = MAX (least, min_width (other));
  if (*first < min_width (child))
    *first = min_width (child);
  *rest = (room - *first) / others;
  if (*rest < least)
    {
      *rest = least;
      *first = room - others * least;
    }
  return *first >= min_width (child);
}

static GtkSizeRequestMode
pin_restack_get_request_mode (GtkLayoutManager *layout, GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
measure_width (PinRestack *self, GtkWidget *widget, int *minimum, int *natural)
{
  int child_min, child_nat;

  for (GtkWidget *child = first_shown (widget); child != NULL;
       child = next_shown (gtk_widget_get_next_sibling (child)))
    {
      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &child_min, &child_nat, NULL, NULL);
      *minimum = MAX (*minimum, child_min);
      *natural += child_nat + self->spacing;
    }
}

static void
measure_height (PinRestack *self, GtkWidget *widget, int width, int *minimum, int *natural)
{
  int child_min, child_nat, first = width, rest = width;
  gboolean row = width < 0 || row_widths (self, widget, width, &first, &rest);
  gboolean is_first = TRUE;

  for (GtkWidget *child = first_shown (widget); child != NULL;
       child = next_shown (gtk_widget_get_next_sibling (child)))
    {
      gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, !row ? width : is_first ? first : rest,
                          &child_min, &child_nat, NULL, NULL);
      *minimum = row ? MAX (*minimum, child_min)
                     : *minimum + child_min + (is_first ? 0 : self->spacing);
      *natural = row ? MAX (*natural, child_nat)
                     : *natural + child_nat + (is_first ? 0 : self->spacing);
      is_first = FALSE;
    }
}

static void
pin_restack_measure (GtkLayoutManager *layout, GtkWidget *widget, GtkOrientation orientation,
                     int for_size, int *minimum, int *natural, int *minimum_baseline,
                     int *natural_baseline)
{
  PinRestack *self = PIN_RESTACK (layout);

  *minimum = *natural = 0;
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    measure_width (self, widget, minimum, natural);
  else
    measure_height (self, widget, for_size, minimum, natural);
  *natural = MAX (*minimum, *natural);
}

static void
allocate_row (PinRestack *self, GtkWidget *widget, int height, int first, int rest)
{
  gboolean rtl = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  int total = gtk_widget_get_width (widget);
  int x = 0;
  gboolean is_first = TRUE;

  for (GtkWidget *child = first_shown (widget); child != NULL;
       child = next_shown (gtk_widget_get_next_sibling (child)))
    {
      int width = is_first ? first : rest;

      gtk_widget_size_allocate (child, &(GtkAllocation) { rtl ? total - x - width : x, 0, width, height }, -1);
      x += width + self->spacing;
      is_first = FALSE;
    }
}

/* What is left over goes to the children that expand, evenly. */
static void
allocate_stack (PinRestack *self, GtkWidget *widget, int width, int height)
{
  int natural, y = 0;

  for (GtkWidget *child = first_shown (widget); child != NULL;
       child = next_shown (gtk_widget_get_next_sibling (child)))
    {
      gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, width, NULL, &natural, NULL, NULL);
      gtk_widget_size_allocate (child, &(GtkAllocation) { 0, y, width, natural }, -1);
      y += natural + self->spacing;
    }
}

static void
pin_restack_allocate (GtkLayoutManager *layout, GtkWidget *widget, int width, int height,
                      int baseline)
{
  PinRestack *self = PIN_RESTACK (layout);
  int first, rest;

  if (row_widths (self, widget, width, &first, &rest))
    allocate_row (self, widget, height, first, rest);
  else
    allocate_stack (self, widget, width, height);
}

static void
pin_restack_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  PinRestack *self = PIN_RESTACK (object);

  switch (id)
    {
    case PROP_SHARE:
      self->share = g_value_get_double (value);
      break;
    case PROP_SPACING:
      self->spacing = g_value_get_int (value);
      break;
    case PROP_NARROW:
      self->narrow = g_value_get_int (value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
  gtk_layout_manager_layout_changed (GTK_LAYOUT_MANAGER (self));
}

static void
pin_restack_class_init (PinRestackClass *klass)
{
  GtkLayoutManagerClass *layout_class = GTK_LAYOUT_MANAGER_CLASS (klass);
  GParamFlags flags = G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS;

  G_OBJECT_CLASS (klass)->set_property = pin_restack_set_property;
  layout_class->get_request_mode = pin_restack_get_request_mode;
  layout_class->measure = pin_restack_measure;
  layout_class->allocate = pin_restack_allocate;
  props[PROP_SHARE] = g_param_spec_double ("share", NULL, NULL, 0, 1, 0.5, flags);
  props[PROP_SPACING] = g_param_spec_int ("spacing", NULL, NULL, 0, 100, 16, flags);
  props[PROP_NARROW] = g_param_spec_int ("narrow", NULL, NULL, 0, 10000, 900, flags);
  g_object_class_install_properties (G_OBJECT_CLASS (klass), N_PROPS, props);
}

static void
pin_restack_init (PinRestack *self)
{
  self->share = 0.5;
  self->spacing = 16;
  self->narrow = 900;
}
