#include "window/mark-image.h"

#include "sheet/plan-marks.h"
#include "window/appearance.h"

struct _PinMarkImage
{
  GtkWidget parent_instance;

  int outcome;
  gboolean unsafe, owed;
  int size;                   /* px */
};

G_DEFINE_FINAL_TYPE (PinMarkImage, pin_mark_image, GTK_TYPE_WIDGET)

enum
{
  PROP_0,
  PROP_OUTCOME,
  PROP_UNSAFE,
  PROP_OWED,
  PROP_SIZE,
  N_PROPS,
};

static GParamSpec *props[N_PROPS];

static void
pin_mark_image_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = PIN_MARK_IMAGE (widget)->size + 4;
}

/* What nobody has looked at is drawn as not checked. */
static PinMark
mark_of (PinMarkImage *self)
{
  if (self->owed)
    return PIN_MARK_OWED;
  if (self->outcome == PIN_OUTCOME_NONE)
    return PIN_MARK_NOT_CHECKED;
  return pin_mark_of_outcome (self->outcome, self->unsafe);
}

static void
pin_mark_image_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  PinMarkImage *self = PIN_MARK_IMAGE (widget);
  double width = gtk_widget_get_width (widget);
  double height = gtk_widget_get_height (widget);
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, 0, width, height);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  double size = self->size;

  /* A disc looks larger than a square of its diameter. */
  if (self->outcome == PIN_OUTCOME_PASS || self->outcome == PIN_OUTCOME_DONE)
    size *= 0.9;
  pin_mark_draw (cr, pin_appearance_palette (),
                 mark_of (self),
                 width / 2, height / 2, size, FALSE);
  cairo_destroy (cr);
}

static void
pin_mark_image_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (pin_mark_image_parent_class)->css_changed (widget, change);
  gtk_widget_queue_draw (widget);
}

static void
pin_mark_image_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  PinMarkImage *self = PIN_MARK_IMAGE (object);

  switch (id)
    {
    case PROP_OUTCOME:
      self->outcome = g_value_get_int (value);
      break;
    case PROP_UNSAFE:
      self->unsafe = g_value_get_boolean (value);
      break;
    case PROP_OWED:
      self->owed = g_value_get_boolean (value);
      break;
    case PROP_SIZE:
      self->size = g_value_get_int (value);
      gtk_widget_queue_resize (GTK_WIDGET (self));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
pin_mark_image_class_init (PinMarkImageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->set_property = pin_mark_image_set_property;
  widget_class->measure = pin_mark_image_measure;
  widget_class->snapshot = pin_mark_image_snapshot;
  widget_class->css_changed = pin_mark_image_css_changed;
  props[PROP_OUTCOME] = g_param_spec_int ("outcome", NULL, NULL, PIN_OUTCOME_NONE, PIN_OUTCOME_DONE,
                                          PIN_OUTCOME_NONE, G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS);
  props[PROP_UNSAFE] = g_param_spec_boolean ("unsafe", NULL, NULL, FALSE,
                                             G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS);
  props[PROP_OWED] = g_param_spec_boolean ("owed", NULL, NULL, FALSE,
                                           G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS);
  props[PROP_SIZE] = g_param_spec_int ("size", NULL, NULL, 6, 64, 15,
                                       G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (G_OBJECT_CLASS (klass), N_PROPS, props);
  /* The word beside it says the same; a second reading would only tire. */
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
pin_mark_image_init (PinMarkImage *self)
{
  self->size = 15;
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
  gtk_widget_set_halign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
}

GtkWidget *
pin_mark_image_new (PinOutcome outcome, gboolean unsafe, int size)
{
  return g_object_new (PIN_TYPE_MARK_IMAGE, "outcome", (int) outcome, "unsafe", unsafe,
                       "size", size, NULL);
}

void
pin_mark_image_set (PinMarkImage *self, PinOutcome outcome, gboolean unsafe)
{
  g_object_set (self, "outcome", (int) outcome, "unsafe", unsafe, NULL);
}
