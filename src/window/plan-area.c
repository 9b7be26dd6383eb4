#include "window/plan-area.h"

#include <glib/gi18n.h>
#include <math.h>

#include "sheet/plan-marks.h"
#include "window/appearance.h"
#include "window/fields.h"
#include "window/plan-paint.h"

#define PRESS_WITHIN 22

struct _PinPlanArea
{
  GtkWidget parent_instance;

  PinChassis *chassis;        /* owned, or NULL */
  GPtrArray *items;           /* PinPlanItem*, owned */
  GPtrArray *buttons;         /* GtkWidget* by item; NULL where none is shown */
  char *layer;                /* NULL: all */
  char **off;
  char *here, *here_label;
  double fixed_scale;         /* px/mm; 0: fits */
  int turn;
  gboolean interactive, dimensions, fresh, framed;
  int margin;

  PinMarkLayout *layout;      /* of the last allocation */
  PinPlan plan;
  GskRenderNode *node;        /* marks, and the drawing where it is small, as cached */
  PinPlanPaint *asked, *shown; /* the drawing as it was last asked for, and in the picture */
  GdkTexture *picture;        /* NULL: not painted yet */
  GCancellable *painting;
  gboolean settling;          /* buttons are being set, not pressed */
};

G_DEFINE_FINAL_TYPE (PinPlanArea, pin_plan_area, GTK_TYPE_WIDGET)

enum
{
  PROP_0,
  PROP_SCALE,
  PROP_INTERACTIVE,
  PROP_DIMENSIONS,
  PROP_FRESH,
  PROP_FRAMED,
  PROP_MARGIN,
  N_PROPS,
};

static GParamSpec *props[N_PROPS];
static guint chosen_changed;

/* ---- what is shown ------------------------------------------------------ */

static const PinPlanItem *
nth_item (PinPlanArea *self, guint i)
{
  return g_ptr_array_index (self->items, i);
}

static gboolean
is_shown (PinPlanArea *self, guint i)
{
  return self->layer == NULL || g_strcmp0 (self->layer, nth_item (self, i)->layer) == 0;
}

static gboolean
is_chosen (PinPlanArea *self, guint i)
{
  GtkWidget *button = self->buttons->len > i ? g_ptr_array_index (self->buttons, i) : NULL;

  return button != NULL && gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (button));
}

static void
forget_drawing (PinPlanArea *self)
{
  g_clear_pointer (&self->node, gsk_render_node_unref);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
forget_layout (PinPlanArea *self)
{
  forget_drawing (self);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
}

static gboolean
is_small (PinPlanArea *self)
{
  return self->fixed_scale > 0 && self->fixed_scale < 0.4;
}

/* What nobody has looked at is drawn as not checked, but not where a few marks
 * have to say what matters. */
static PinMark
mark_of (PinPlanArea *self, const PinPlanItem *item)
{
  if (item->outcome == PIN_OUTCOME_NONE)
    return is_small (self) ? PIN_MARK_NONE : PIN_MARK_NOT_CHECKED;
  return pin_mark_of_outcome (item->outcome, item->unsafe);
}

static GHashTable *
chosen_set (PinPlanArea *self)
{
  GHashTable *set = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < self->items->len; i++)
    if (is_chosen (self, i))
      g_hash_table_add (set, nth_item (self, i)->code);
  return set;
}

static void
lay_out (PinPlanArea *self, double width, double height)
{
  g_autoptr (GArray) places = g_array_new (FALSE, FALSE, sizeof (PinMarkPlace));

  g_clear_pointer (&self->layout, pin_mark_layout_free);
  self->plan = (PinPlan) {
    .chassis = self->chassis,
    .turn = self->turn,
    .dimensions = self->dimensions,
    .fresh = self->fresh,
    .small = is_small (self),
    .off = (const char *const *) self->off,
    .here = self->here,
    .here_label = self->here_label,
  };
  pin_plan_fit (&self->plan, width, height, self->margin);
  if (self->fixed_scale > 0)
    {
      double x0, y0, x1, y1;

      pin_plan_extents (self->chassis, &x0, &y0, &x1, &y1);
      self->plan.scale = MIN (self->fixed_scale, self->plan.scale);
      self->plan.x = width / 2 - self->plan.scale * (x0 + x1) / 2;
      self->plan.y = height / 2 + self->plan.scale * (y0 + y1) / 2;
    }
  for (guint i = 0; i < self->items->len; i++)
    {
      const PinPlanItem *item = nth_item (self, i);
      PinMarkPlace place = { i, item->x, item->y, mark_of (self, item) };

      if (is_shown (self, i))
        g_array_append_val (places, place);
    }
  self->layout = pin_mark_layout_new (&self->plan, (PinMarkPlace *) places->data, places->len, NULL);
}

static void
draw_marks (PinPlanArea *self, cairo_t *cr)
{
  g_autofree gboolean *ringed = g_new0 (gboolean, MAX (self->items->len, 1));

  for (guint i = 0; i < self->items->len; i++)
    ringed[i] = is_chosen (self, i);
  pin_marks_draw (cr, &self->plan, self->layout, ringed);
}

/* Marks, and the car itself where it is small: little to draw. */
static GskRenderNode *
draw (PinPlanArea *self, int width, int height)
{
  GtkSnapshot *once = gtk_snapshot_new ();
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, 0, width, height);
  cairo_t *cr = gtk_snapshot_append_cairo (once, &bounds);

  if (is_small (self))
    {
      if (self->framed)
        pin_plan_field (cr, self->plan.palette, 0, 0, width, height);
      pin_plan_draw (cr, &self->plan);
    }
  draw_marks (self, cr);
  cairo_destroy (cr);
  return gtk_snapshot_free_to_node (once);
}

static void
painted (GObject *source, GAsyncResult *result, gpointer user_data)
{
  PinPlanArea *self = PIN_PLAN_AREA (source);
  PinPlanPaint *paint;
  g_autoptr (GdkTexture) picture = pin_plan_paint_finish (result, &paint);

  /* Something else may have been asked for since, or nothing any more. */
  if (picture == NULL || self->asked != paint)
    return;
  g_set_object (&self->picture, picture);
  g_clear_pointer (&self->shown, pin_plan_paint_unref);
  self->shown = pin_plan_paint_ref (paint);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* Asks for the drawing as it has to be now, unless that is done already. */
static void
ask_for_picture (PinPlanArea *self, int width, int height)
{
  g_autoptr (PinPlanPaint) paint =
      pin_plan_paint_new (self->chassis, &self->plan, self->framed, width, height,
                          gtk_widget_get_scale_factor (GTK_WIDGET (self)));

  if (self->asked != NULL && pin_plan_paint_equal (self->asked, paint))
    return;
  g_cancellable_cancel (self->painting);
  g_clear_object (&self->painting);
  self->painting = g_cancellable_new ();
  g_clear_pointer (&self->asked, pin_plan_paint_unref);
  self->asked = g_steal_pointer (&paint);
  pin_plan_paint_start (self->asked, self, self->painting, painted);
}

/* Until the new picture is there, the old one of the same car stands in. */
static void
snapshot_picture (PinPlanArea *self, GtkSnapshot *snapshot, int width, int height)
{
  ask_for_picture (self, width, height);
  if (self->picture != NULL && pin_plan_paint_alike (self->shown, self->asked))
    gtk_snapshot_append_texture (snapshot, self->picture, &GRAPHENE_RECT_INIT (0, 0, width, height));
}

static void
pin_plan_area_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  PinPlanArea *self = PIN_PLAN_AREA (widget);
  int width = gtk_widget_get_width (widget);
  int height = gtk_widget_get_height (widget);
  g_autoptr (GHashTable) chosen = NULL;

  if (self->layout == NULL || width <= 0 || height <= 0)
    return;
  chosen = chosen_set (self);
  self->plan.palette = pin_appearance_palette ();
  self->plan.chosen = g_hash_table_size (chosen) == 1 ? chosen : NULL;
  if (!is_small (self))
    snapshot_picture (self, snapshot, width, height);
  if (self->node == NULL)
    self->node = draw (self, width, height);
  self->plan.chosen = NULL;
  if (self->node != NULL)
    gtk_snapshot_append_node (snapshot, self->node);
  GTK_WIDGET_CLASS (pin_plan_area_parent_class)->snapshot (widget, snapshot);
}

/* ---- room ---------------------------------------------------------------- */

static void
pin_plan_area_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                       int *natural, int *minimum_baseline, int *natural_baseline)
{
  PinPlanArea *self = PIN_PLAN_AREA (widget);
  int child_min, child_nat;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    gtk_widget_measure (child, orientation, -1, &child_min, &child_nat, NULL, NULL);
  *minimum = *natural = self->fixed_scale > 0 ? 40 : orientation == GTK_ORIENTATION_HORIZONTAL ? 240 : 200;
}

static void
place_button (PinPlanArea *self, const PinMarkSpot *spot)
{
  GtkWidget *button = g_ptr_array_index (self->buttons, spot->index);
  GtkRequisition size;

  if (button == NULL || !gtk_widget_get_visible (button))
    return;
  gtk_widget_get_preferred_size (button, &size, NULL);
  gtk_widget_allocate (button, size.width, size.height, -1,
                       gsk_transform_translate (NULL, &GRAPHENE_POINT_INIT (
                         roundf (spot->px - size.width / 2.0f),
                         roundf (spot->py - size.height / 2.0f))));
}

static void
pin_plan_area_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  PinPlanArea *self = PIN_PLAN_AREA (widget);

  if (self->chassis == NULL)
    return;
  g_clear_pointer (&self->node, gsk_render_node_unref);
  lay_out (self, width, height);
  for (guint i = 0; i < self->layout->spots->len && self->buttons->len > 0; i++)
    place_button (self, &g_array_index (self->layout->spots, PinMarkSpot, i));
}

static void
pin_plan_area_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (pin_plan_area_parent_class)->css_changed (widget, change);
  forget_drawing (PIN_PLAN_AREA (widget));
}

/* ---- choosing ------------------------------------------------------------ */

static void
set_active (PinPlanArea *self, guint i, gboolean active)
{
  GtkWidget *button = g_ptr_array_index (self->buttons, i);

  if (button != NULL)
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button), active);
}

static void
tell_chosen (PinPlanArea *self)
{
  forget_drawing (self);
  g_signal_emit (self, chosen_changed, 0);
}

static void
choose_alone (PinPlanArea *self, guint only)
{
  self->settling = TRUE;
  for (guint i = 0; i < self->buttons->len; i++)
    set_active (self, i, i == only);
  self->settling = FALSE;
  tell_chosen (self);
}

static void
on_toggled (GtkToggleButton *button, PinPlanArea *self)
{
  if (!self->settling)
    tell_chosen (self);
}

static void
on_pressed (GtkGestureClick *gesture, int n, double x, double y, PinPlanArea *self)
{
  GdkModifierType state = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (gesture));
  const PinMarkSpot *spot;

  if (!self->interactive || self->layout == NULL)
    return;
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  spot = pin_mark_layout_near (self->layout, x, y, PRESS_WITHIN);
  if (spot == NULL)
    {
      if ((state & (GDK_CONTROL_MASK | GDK_SHIFT_MASK)) == 0)
        choose_alone (self, G_MAXUINT);
      return;
    }
  gtk_widget_grab_focus (g_ptr_array_index (self->buttons, spot->index));
  if ((state & (GDK_CONTROL_MASK | GDK_SHIFT_MASK)) != 0)
    set_active (self, spot->index, !is_chosen (self, spot->index));
  else
    choose_alone (self, spot->index);
}

static gboolean
on_key (GtkEventControllerKey *keys, guint value, guint code, GdkModifierType state,
        PinPlanArea *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  guint i;

  if (value == GDK_KEY_Escape)
    {
      g_autoptr (GHashTable) chosen = chosen_set (self);

      if (g_hash_table_size (chosen) == 0)
        return GDK_EVENT_PROPAGATE;
      choose_alone (self, G_MAXUINT);
      return GDK_EVENT_STOP;
    }
  if ((value == GDK_KEY_Return || value == GDK_KEY_KP_Enter)
      && g_ptr_array_find (self->buttons, focus, &i))
    {
      choose_alone (self, i);
      return GDK_EVENT_STOP;
    }
  return GDK_EVENT_PROPAGATE;
}

static GtkWidget *
make_button (PinPlanArea *self, const PinPlanItem *item)
{
  GtkWidget *button = gtk_toggle_button_new ();
  g_autofree char *name = item->state != NULL && *item->state != '\0'
                            ? g_strdup_printf ("%s: %s", item->label, item->state)
                            : g_strdup (item->label);

  gtk_widget_add_css_class (button, "plan-mark");
  pin_field_tooltip (button, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_set_parent (button, GTK_WIDGET (self));
  g_signal_connect (button, "toggled", G_CALLBACK (on_toggled), self);
  return button;
}

static void
drop_buttons (PinPlanArea *self)
{
  for (guint i = 0; i < self->buttons->len; i++)
    if (g_ptr_array_index (self->buttons, i) != NULL)
      gtk_widget_unparent (g_ptr_array_index (self->buttons, i));
  g_ptr_array_set_size (self->buttons, 0);
}

static void
show_buttons (PinPlanArea *self)
{
  for (guint i = 0; i < self->buttons->len; i++)
    if (g_ptr_array_index (self->buttons, i) != NULL)
      gtk_widget_set_visible (g_ptr_array_index (self->buttons, i), is_shown (self, i));
}

/* ---- class ---------------------------------------------------------------- */

static void
pin_plan_area_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  PinPlanArea *self = PIN_PLAN_AREA (object);

  switch (id)
    {
    case PROP_SCALE:
      self->fixed_scale = g_value_get_double (value);
      break;
    case PROP_INTERACTIVE:
      self->interactive = g_value_get_boolean (value);
      break;
    case PROP_DIMENSIONS:
      self->dimensions = g_value_get_boolean (value);
      break;
    case PROP_FRESH:
      self->fresh = g_value_get_boolean (value);
      break;
    case PROP_FRAMED:
      self->framed = g_value_get_boolean (value);
      break;
    case PROP_MARGIN:
      self->margin = g_value_get_int (value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
  forget_layout (self);
}

static void
pin_plan_area_dispose (GObject *object)
{
  PinPlanArea *self = PIN_PLAN_AREA (object);

  if (self->buttons != NULL)
    drop_buttons (self);
  g_clear_pointer (&self->buttons, g_ptr_array_unref);
  g_clear_pointer (&self->items, g_ptr_array_unref);
  g_clear_pointer (&self->chassis, pin_chassis_unref);
  g_clear_pointer (&self->layout, pin_mark_layout_free);
  g_clear_pointer (&self->node, gsk_render_node_unref);
  g_cancellable_cancel (self->painting);
  g_clear_object (&self->painting);
  g_clear_object (&self->picture);
  g_clear_pointer (&self->asked, pin_plan_paint_unref);
  g_clear_pointer (&self->shown, pin_plan_paint_unref);
  g_clear_pointer (&self->layer, g_free);
  g_clear_pointer (&self->off, g_strfreev);
  g_clear_pointer (&self->here, g_free);
  g_clear_pointer (&self->here_label, g_free);
  G_OBJECT_CLASS (pin_plan_area_parent_class)->dispose (object);
}

static void
install_properties (GObjectClass *klass)
{
  GParamFlags flags = G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS;

  props[PROP_SCALE] = g_param_spec_double ("scale", NULL, NULL, 0, 10, 0, flags);
  props[PROP_INTERACTIVE] = g_param_spec_boolean ("interactive", NULL, NULL, FALSE, flags);
  props[PROP_DIMENSIONS] = g_param_spec_boolean ("dimensions", NULL, NULL, FALSE, flags);
  props[PROP_FRESH] = g_param_spec_boolean ("fresh", NULL, NULL, FALSE, flags);
  props[PROP_FRAMED] = g_param_spec_boolean ("framed", NULL, NULL, FALSE, flags);
  props[PROP_MARGIN] = g_param_spec_int ("inner-margin", NULL, NULL, 0, 200, 8, flags);
  g_object_class_install_properties (klass, N_PROPS, props);
}

static void
pin_plan_area_class_init (PinPlanAreaClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pin_plan_area_dispose;
  G_OBJECT_CLASS (klass)->set_property = pin_plan_area_set_property;
  widget_class->measure = pin_plan_area_measure;
  widget_class->size_allocate = pin_plan_area_size_allocate;
  widget_class->snapshot = pin_plan_area_snapshot;
  widget_class->css_changed = pin_plan_area_css_changed;
  install_properties (G_OBJECT_CLASS (klass));
  chosen_changed = g_signal_new ("chosen-changed", PIN_TYPE_PLAN_AREA, G_SIGNAL_RUN_LAST, 0, NULL,
                                 NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_set_css_name (widget_class, "plan");
}

static void
pin_plan_area_init (PinPlanArea *self)
{
  GtkGesture *press = gtk_gesture_click_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->items = g_ptr_array_new ();
  self->buttons = g_ptr_array_new ();
  self->margin = 8;
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_event_controller_set_propagation_phase (GTK_EVENT_CONTROLLER (press), GTK_PHASE_CAPTURE);
  g_signal_connect (press, "pressed", G_CALLBACK (on_pressed), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (press));
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}

GtkWidget *
pin_plan_area_new (void)
{
  return g_object_new (PIN_TYPE_PLAN_AREA, NULL);
}

/* ---- what it shows --------------------------------------------------------- */

void
pin_plan_area_set_chassis (PinPlanArea *self, PinChassis *chassis)
{
  g_clear_pointer (&self->chassis, pin_chassis_unref);
  self->chassis = chassis != NULL ? pin_chassis_ref (chassis) : NULL;
  g_clear_pointer (&self->layout, pin_mark_layout_free);
  if (chassis != NULL)
    {
      g_autofree char *name = g_strdup_printf (_("plan view, %s"), chassis->title);

      gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
    }
  forget_layout (self);
}

/* Takes @items (PinPlanItem*, freed by the array).  What was chosen and is
 * still there stays chosen. */
void
pin_plan_area_set_items (PinPlanArea *self, GPtrArray *items)
{
  g_autoptr (GPtrArray) chosen = pin_plan_area_chosen (self);

  drop_buttons (self);
  g_ptr_array_unref (self->items);
  self->items = items;
  for (guint i = 0; self->interactive && i < items->len; i++)
    g_ptr_array_add (self->buttons, make_button (self, nth_item (self, i)));
  show_buttons (self);
  g_ptr_array_add (chosen, NULL);
  pin_plan_area_choose (self, (const char *const *) chosen->pdata);
  forget_layout (self);
}

void
pin_plan_area_set_layer (PinPlanArea *self, const char *layer)
{
  g_free (self->layer);
  self->layer = layer != NULL && *layer != '\0' ? g_strdup (layer) : NULL;
  show_buttons (self);
  forget_layout (self);
}

void
pin_plan_area_set_off (PinPlanArea *self, const char *const *assemblies)
{
  g_strfreev (self->off);
  self->off = g_strdupv ((char **) assemblies);
  forget_layout (self);
}

/* Points at the part that a step is about.  NULL: at none. */
void
pin_plan_area_set_here (PinPlanArea *self, const char *code, const char *label)
{
  char *new_code = g_strdup (code);
  char *new_label = g_strdup (label);

  g_free (self->here);
  g_free (self->here_label);
  self->here = new_code;
  self->here_label = new_label;
  forget_layout (self);
}

void
pin_plan_area_turn (PinPlanArea *self)
{
  self->turn = self->turn == 0 ? 90 : 0;
  forget_layout (self);
}

/* The codes (char *) of what is chosen.  Returns: (transfer full) */
GPtrArray *
pin_plan_area_chosen (PinPlanArea *self)
{
  GPtrArray *codes = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < self->items->len; i++)
    if (is_chosen (self, i))
      g_ptr_array_add (codes, g_strdup (nth_item (self, i)->code));
  return codes;
}

void
pin_plan_area_choose (PinPlanArea *self, const char *const *codes)
{
  self->settling = TRUE;
  for (guint i = 0; i < self->buttons->len; i++)
    set_active (self, i, g_strv_contains (codes, nth_item (self, i)->code));
  self->settling = FALSE;
  tell_chosen (self);
}
