#include "window/progress-strip.h"

#include <glib/gi18n.h>
#include <math.h>

#include "sheet/plan-marks.h"
#include "window/appearance.h"

#define BELOW_TITLE 30        /* px: the marks and the pointer under the one that is shown */

typedef struct
{
  char *title;
  int first, n;
} Group;

struct _PinProgressStrip
{
  GtkWidget parent_instance;

  GArray *marks;              /* PinMark of each question */
  GArray *groups;             /* Group */
  int current;                /* -1: at the sign-off */
};

G_DEFINE_FINAL_TYPE (PinProgressStrip, pin_progress_strip, GTK_TYPE_WIDGET)

static guint chosen;

static void
group_clear (gpointer data)
{
  g_free (((Group *) data)->title);
}

static int
title_height (GtkWidget *widget)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (widget, "X");
  int height;

  pango_layout_get_pixel_size (layout, NULL, &height);
  return height + 4;
}

static double
pitch (PinProgressStrip *self)
{
  int width = gtk_widget_get_width (GTK_WIDGET (self));

  return self->marks->len > 0 ? (width - 2.0) / self->marks->len : width;
}

static void
set_ink (cairo_t *cr, const PinInk *ink)
{
  cairo_set_source_rgb (cr, ink->r, ink->g, ink->b);
}

static gboolean
is_here (PinProgressStrip *self, const Group *group)
{
  return self->current >= group->first && self->current < group->first + group->n;
}

static PangoLayout *
title_layout (PinProgressStrip *self, const Group *group, int *width)
{
  PangoLayout *layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), group->title);

  if (is_here (self, group))
    {
      g_autoptr (PangoAttrList) bold = pango_attr_list_new ();

      pango_attr_list_insert (bold, pango_attr_weight_new (PANGO_WEIGHT_BOLD));
      pango_layout_set_attributes (layout, bold);
    }
  pango_layout_get_pixel_size (layout, width, NULL);
  return layout;
}

typedef struct
{
  double from, to;            /* px; nothing between them if from is not below to */
} Span;

/* The title of the stage that is shown, over as many others as it needs. */
static Span
draw_title_here (PinProgressStrip *self, cairo_t *cr, const PinPalette *palette)
{
  for (guint i = 0; i < self->groups->len; i++)
    {
      const Group *group = &g_array_index (self->groups, Group, i);
      g_autoptr (PangoLayout) layout = NULL;
      double x = 1 + group->first * pitch (self) + 6;
      int width;

      if (!is_here (self, group))
        continue;
      layout = title_layout (self, group, &width);
      x = CLAMP (gtk_widget_get_width (GTK_WIDGET (self)) - 6.0 - width, 0, x);
      set_ink (cr, &palette->accent);
      cairo_move_to (cr, x, 4);
      pango_cairo_show_layout (cr, layout);
      return (Span) { x - 4, x + width + 8 };
    }
  return (Span) { 0, 0 };
}

/* Of the others only what can be read whole; all are told by their tooltips. */
static void
draw_title (PinProgressStrip *self, cairo_t *cr, const Group *group, const PinPalette *palette,
            const Span *here)
{
  g_autoptr (PangoLayout) layout = NULL;
  double x = 1 + group->first * pitch (self) + 6;
  int width;

  if (is_here (self, group))
    return;
  layout = title_layout (self, group, &width);
  if (width > group->n * pitch (self) - 10 || (x < here->to && x + width > here->from))
    return;
  set_ink (cr, self->current >= 0 && group->first > self->current ? &palette->pencil : &palette->ink);
  cairo_move_to (cr, x, 4);
  pango_cairo_show_layout (cr, layout);
}

/* A rule at the left of each stage, from below the title that lies over it. */
static void
draw_rules (PinProgressStrip *self, cairo_t *cr, const PinPalette *palette, const Span *here)
{
  int below = title_height (GTK_WIDGET (self));

  cairo_set_line_width (cr, 1);
  set_ink (cr, &palette->pencil);
  for (guint i = 0; i <= self->groups->len; i++)
    {
      int first = i < self->groups->len ? g_array_index (self->groups, Group, i).first
                                        : (int) self->marks->len;
      double x = floor (first * pitch (self)) + 0.5;

      cairo_move_to (cr, x, x > here->from && x < here->to ? below : 6);
      cairo_line_to (cr, x, below + 24);
      cairo_stroke (cr);
    }
}

static void
draw_current (cairo_t *cr, const PinPalette *palette, double x, double y, double size)
{
  set_ink (cr, &palette->accent);
  cairo_rectangle (cr, x - size / 2, y - 9, size, 18);
  cairo_fill (cr);
  cairo_move_to (cr, x - 4, y + 9);
  cairo_line_to (cr, x + 4, y + 9);
  cairo_line_to (cr, x, y + 14);
  cairo_fill (cr);
  set_ink (cr, &palette->on_accent);
  cairo_arc (cr, x, y, 3, 0, 2 * G_PI);
  cairo_fill (cr);
}

static void
draw_mark (PinProgressStrip *self, cairo_t *cr, guint i, const PinPalette *palette)
{
  double x = 1 + (i + 0.5) * pitch (self);
  double y = title_height (GTK_WIDGET (self)) + 13;
  double size = CLAMP (pitch (self) - 3, 3, 11);
  PinMark mark = g_array_index (self->marks, PinMark, i);

  if ((int) i == self->current)
    draw_current (cr, palette, x, y, MAX (size + 6, 10));
  else if (mark != PIN_MARK_NONE)
    pin_mark_draw (cr, palette, mark, x, y, size, FALSE);
  else
    {
      set_ink (cr, &palette->pencil);
      cairo_set_line_width (cr, 1);
      cairo_move_to (cr, x - size / 3, y);
      cairo_line_to (cr, x + size / 3, y);
      cairo_stroke (cr);
    }
}

static void
pin_progress_strip_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  PinProgressStrip *self = PIN_PROGRESS_STRIP (widget);
  const PinPalette *palette = pin_appearance_palette ();
  int width = gtk_widget_get_width (widget);
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, 0, width, gtk_widget_get_height (widget));
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  Span here = draw_title_here (self, cr, palette);

  draw_rules (self, cr, palette, &here);
  for (guint i = 0; i < self->groups->len; i++)
    draw_title (self, cr, &g_array_index (self->groups, Group, i), palette, &here);
  for (guint i = 0; i < self->marks->len; i++)
    draw_mark (self, cr, i, palette);
  cairo_destroy (cr);
}

static void
pin_progress_strip_measure (GtkWidget *widget, GtkOrientation orientation, int for_size,
                            int *minimum, int *natural, int *minimum_baseline,
                            int *natural_baseline)
{
  *minimum = *natural = orientation == GTK_ORIENTATION_VERTICAL ? title_height (widget) + BELOW_TITLE
                                                                : 200;
}

static void
pin_progress_strip_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (pin_progress_strip_parent_class)->css_changed (widget, change);
  gtk_widget_queue_draw (widget);
}

static gboolean
on_tooltip (PinProgressStrip *self, int x, int y, gboolean keyboard, GtkTooltip *tooltip)
{
  for (guint i = 0; i < self->groups->len; i++)
    {
      const Group *group = &g_array_index (self->groups, Group, i);

      if (x >= group->first * pitch (self) && x < (group->first + group->n) * pitch (self))
        {
          gtk_tooltip_set_text (tooltip, group->title);
          return TRUE;
        }
    }
  return FALSE;
}

static void
on_pressed (GtkGestureClick *gesture, int n, double x, double y, PinProgressStrip *self)
{
  int at = (int) (x / pitch (self));

  if (at >= 0 && at < (int) self->marks->len)
    g_signal_emit (self, chosen, 0, at);
}

static void
pin_progress_strip_finalize (GObject *object)
{
  PinProgressStrip *self = PIN_PROGRESS_STRIP (object);

  g_array_unref (self->marks);
  g_array_unref (self->groups);
  G_OBJECT_CLASS (pin_progress_strip_parent_class)->finalize (object);
}

static void
pin_progress_strip_class_init (PinProgressStripClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = pin_progress_strip_finalize;
  widget_class->measure = pin_progress_strip_measure;
  widget_class->snapshot = pin_progress_strip_snapshot;
  widget_class->css_changed = pin_progress_strip_css_changed;
  chosen = g_signal_new ("chosen", PIN_TYPE_PROGRESS_STRIP, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                         G_TYPE_NONE, 1, G_TYPE_INT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  gtk_widget_class_set_css_name (widget_class, "progress-strip");
}

static void
pin_progress_strip_init (PinProgressStrip *self)
{
  GtkGesture *press = gtk_gesture_click_new ();

  self->marks = g_array_new (FALSE, FALSE, sizeof (PinMark));
  self->groups = g_array_new (FALSE, FALSE, sizeof (Group));
  g_array_set_clear_func (self->groups, group_clear);
  g_signal_connect (press, "pressed", G_CALLBACK (on_pressed), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (press));
  gtk_widget_set_has_tooltip (GTK_WIDGET (self), TRUE);
  g_signal_connect (self, "query-tooltip", G_CALLBACK (on_tooltip), NULL);
}

static PinMark
mark_of (const PinAnswer *given)
{
  if (given == NULL)
    return PIN_MARK_NONE;
  /* Work is done or not; the strip shows it as it shows a pass. */
  if (given->outcome == PIN_OUTCOME_DONE)
    return PIN_MARK_PASS;
  return pin_mark_of_outcome (given->outcome, given->unsafe);
}

static const char *
stage_title (PinProgressStrip *self)
{
  for (guint i = 0; i < self->groups->len; i++)
    if (is_here (self, &g_array_index (self->groups, Group, i)))
      return g_array_index (self->groups, Group, i).title;
  return "";
}

/* @current: the question that is shown; -1: the sign-off. */
void
pin_progress_strip_set (PinProgressStrip *self, const PinWalk *walk, int current)
{
  const GPtrArray *questions = pin_walk_questions (walk);
  const GPtrArray *groups = pin_walk_groups (walk);
  g_autofree char *name = NULL;
  const char *stage;

  g_array_set_size (self->marks, 0);
  g_array_set_size (self->groups, 0);
  for (guint i = 0; i < questions->len; i++)
    {
      const PinQuestion *question = g_ptr_array_index (questions, i);
      PinMark mark = mark_of (question->given);

      g_array_append_val (self->marks, mark);
    }
  for (guint i = 0; i < groups->len; i++)
    {
      const PinWalkGroup *from = g_ptr_array_index (groups, i);
      Group group = { g_strdup (from->title), from->first, from->n };

      g_array_append_val (self->groups, group);
    }
  self->current = current;
  stage = stage_title (self);
  name = current < 0 ? g_strdup (_("progress: at the sign-off"))
                     : g_strdup_printf (_("progress: step %d of %u, %s"), current + 1, questions->len, stage);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
