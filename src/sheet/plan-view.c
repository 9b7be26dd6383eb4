#include "sheet/plan-view.h"

#include <glib/gi18n.h>
#include <math.h>

#include "sheet/plan-here.h"
#include "sheet/plan-pen.h"

/* Room that dimensions take beside the car, px at a factor of 1. */
#define TRACK_STAND 44        /* from the rearmost line to the track's dimension */
#define WHEELBASE_STAND 18    /* from the widest line to the wheelbase's */
#define FRONT_STAND 76        /* "front" and its arrow */

typedef struct
{
  double x0, y0, x1, y1;
} Bounds;

static void
bounds_add (Bounds *b, double x, double y)
{
  b->x0 = MIN (b->x0, x);
  b->y0 = MIN (b->y0, y);
  b->x1 = MAX (b->x1, x);
  b->y1 = MAX (b->y1, y);
}

static void
bounds_add_box (Bounds *b, const PinPrimitive *p, double length, double width)
{
  double x = p->number[PIN_NUMBER_X], y = p->number[PIN_NUMBER_Y];

  bounds_add (b, x - length / 2, y - width / 2);
  bounds_add (b, x + length / 2, y + width / 2);
}

/* Only what can stick out of a car: outlines, bars and boxes, wheels. */
static void
bounds_add_primitive (Bounds *b, const PinPrimitive *p)
{
  switch ((int) p->kind)
    {
    case PIN_PRIMITIVE_OUTLINE:
      for (guint i = 0; i + 1 < p->n_points; i += 2)
        bounds_add (b, p->points[i], p->points[i + 1]);
      break;
    case PIN_PRIMITIVE_RECT:
    case PIN_PRIMITIVE_BAR:
      bounds_add_box (b, p, p->number[PIN_NUMBER_LENGTH], p->number[PIN_NUMBER_WIDTH]);
      break;
    case PIN_PRIMITIVE_WHEEL:
      bounds_add_box (b, p, p->number[PIN_NUMBER_DIAMETER], p->number[PIN_NUMBER_WIDTH]);
      break;
    default:
      break;
    }
}

/* The rectangle, mm of the car's frame, that holds everything drawn: tyres,
 * bumpers, wing. */
void
pin_plan_extents (const PinChassis *chassis, double *x0, double *y0, double *x1, double *y1)
{
  Bounds b = { -chassis->wheelbase / 2 - chassis->rear, -chassis->track / 2,
               chassis->wheelbase / 2 + chassis->front, chassis->track / 2 };

  for (guint i = 0; i < chassis->shapes->len; i++)
    {
      const PinShape *shape = g_ptr_array_index (chassis->shapes, i);

      for (guint k = 0; k < shape->primitives->len; k++)
        bounds_add_primitive (&b, g_ptr_array_index (shape->primitives, k));
    }
  *x0 = b.x0;
  *y0 = b.y0;
  *x1 = b.x1;
  *y1 = b.y1;
}

/* Sets scale, origin and field so that the car, and its dimensions if it has
 * any, fills width × height px but for the margin on each side. */
void
pin_plan_fit (PinPlan *plan, double width, double height, double margin)
{
  double behind = plan->dimensions ? TRACK_STAND + 10 : 0;
  double ahead = plan->dimensions ? FRONT_STAND : 0;
  double beside = plan->dimensions ? WHEELBASE_STAND + 10 : 0;
  double along = (plan->turn == 90 ? height : width) - 2 * margin - behind - ahead;
  double across = (plan->turn == 90 ? width : height) - 2 * margin - beside;
  double x0, y0, x1, y1, start, side;

  pin_plan_extents (plan->chassis, &x0, &y0, &x1, &y1);
  plan->width = width;
  plan->height = height;
  plan->scale = MAX (MIN (along / (x1 - x0), across / (y1 - y0)), 0.01);
  start = margin + behind + (along - plan->scale * (x1 - x0)) / 2 - plan->scale * x0;
  side = margin + (across - plan->scale * (y1 - y0)) / 2 + plan->scale * y1;
  plan->x = plan->turn == 90 ? side : start;
  plan->y = plan->turn == 90 ? height - start : side;
}

/* Where a point of the car, mm, stands on the target, px. */
void
pin_plan_point (const PinPlan *plan, double x_mm, double y_mm, double *px, double *py)
{
  if (plan->turn == 90)
    {
      *px = plan->x - y_mm * plan->scale;
      *py = plan->y - x_mm * plan->scale;
    }
  else
    {
      *px = plan->x + x_mm * plan->scale;
      *py = plan->y - y_mm * plan->scale;
    }
}

/* The way back from the target to the car. */
void
pin_plan_unpoint (const PinPlan *plan, double px, double py, double *x_mm, double *y_mm)
{
  double right = (px - plan->x) / plan->scale;
  double up = (plan->y - py) / plan->scale;

  *x_mm = plan->turn == 90 ? up : right;
  *y_mm = plan->turn == 90 ? -right : up;
}

/* Small if the caller says so, or if the scale leaves no room for detail. */
PinPlanSize
pin_plan_size (const PinPlan *plan)
{
  return plan->small || plan->scale < 0.4 ? PIN_PLAN_SMALL : PIN_PLAN_FULL;
}

static void
draw_centre_lines (PinPen *pen)
{
  const PinChassis *chassis = pen->plan->chassis;
  double half = chassis->wheelbase / 2;
  double reach = chassis->track / 2 + (pen->plan->dimensions ? 22 : 6) / pen->plan->scale;
  double x0, y0, x1, y1;

  pin_plan_extents (chassis, &x0, &y0, &x1, &y1);
  pin_pen_line (pen, x0 - 10, 0, x1 + 12, 0, PIN_STROKE_CENTRE);
  pin_pen_line (pen, half, -reach, half, reach, PIN_STROKE_CENTRE);
  pin_pen_line (pen, -half, -reach, -half, reach, PIN_STROKE_CENTRE);
}

static gboolean
is_off (const PinPlan *plan, const PinShape *shape)
{
  return plan->off != NULL && shape->assembly != NULL && g_strv_contains (plan->off, shape->assembly);
}

/* A shape lights up for the step's place, or for a part chosen alone. */
static gboolean
is_accented (const PinPlan *plan, const PinShape *shape)
{
  gboolean alone = plan->chosen != NULL && g_hash_table_size (plan->chosen) == 1;

  for (char **id = shape->positions; id != NULL && *id != NULL; id++)
    if ((plan->here != NULL && g_str_equal (*id, plan->here))
        || (alone && g_hash_table_contains (plan->chosen, *id)))
      return TRUE;
  return FALSE;
}

static void
draw_shapes (PinPen *pen, gboolean accented_only)
{
  const GPtrArray *shapes = pen->plan->chassis->shapes;

  for (guint i = 0; i < shapes->len; i++)
    {
      const PinShape *shape = g_ptr_array_index (shapes, i);

      pen->off = is_off (pen->plan, shape);
      pen->accent = is_accented (pen->plan, shape);
      if (pen->accent || !accented_only)
        pin_shape_draw (pen, shape);
    }
  pen->off = pen->accent = FALSE;
}

typedef struct
{
  double x1, y1, x2, y2;      /* px */
  const char *words;
} Dimension;

static double
pen_factor (const PinPlan *plan)
{
  return plan->pen > 0 ? plan->pen : 1;
}

static void
set_pencil (cairo_t *cr, const PinPlan *plan)
{
  const PinInk *pencil = &plan->palette->pencil;

  cairo_set_source_rgb (cr, pencil->r, pencil->g, pencil->b);
  cairo_set_line_width (cr, 0.8 * pen_factor (plan));
  cairo_set_dash (cr, NULL, 0, 0);
}

/* An arrow of 9 × 5 with its tip at x, y, pointing along the radians given. */
static void
draw_arrow (cairo_t *cr, double x, double y, double radians)
{
  cairo_save (cr);
  cairo_translate (cr, x, y);
  cairo_rotate (cr, radians);
  cairo_move_to (cr, 0, 0);
  cairo_line_to (cr, -9, -2.5);
  cairo_line_to (cr, -9, 2.5);
  cairo_close_path (cr);
  cairo_fill (cr);
  cairo_restore (cr);
}

/* A dimension line with its number standing in a gap in the middle. */
static void
draw_dimension (cairo_t *cr, const PinPlan *plan, const Dimension *d)
{
  g_autoptr (PangoLayout) layout = pin_plan_text (plan, d->words, plan->text > 0 ? plan->text : 13, FALSE);
  double length = hypot (d->x2 - d->x1, d->y2 - d->y1);
  int width, height;

  pango_layout_get_pixel_size (layout, &width, &height);
  cairo_save (cr);
  set_pencil (cr, plan);
  cairo_translate (cr, d->x1, d->y1);
  cairo_rotate (cr, atan2 (d->y2 - d->y1, d->x2 - d->x1));
  cairo_move_to (cr, 0, 0);
  cairo_line_to (cr, length / 2 - width / 2.0 - 6, 0);
  cairo_move_to (cr, length / 2 + width / 2.0 + 6, 0);
  cairo_line_to (cr, length, 0);
  cairo_stroke (cr);
  draw_arrow (cr, 0, 0, G_PI);
  draw_arrow (cr, length, 0, 0);
  cairo_move_to (cr, length / 2 - width / 2.0, -height / 2.0);
  pango_cairo_show_layout (cr, layout);
  cairo_restore (cr);
}

/* A point of the car, moved on by px forward and to the left. */
static void
stand_off (const PinPlan *plan, double x, double y, double forward, double left, double *px, double *py)
{
  pin_plan_point (plan, x + forward / plan->scale, y + left / plan->scale, px, py);
}

static void
draw_wheelbase (cairo_t *cr, const PinPlan *plan, const Bounds *b)
{
  g_autofree char *words = g_strdup_printf ("%.0f", plan->chassis->wheelbase);
  double half = plan->chassis->wheelbase / 2;
  double y = MIN (b->y0, -plan->chassis->track / 2);
  Dimension d = { .words = words };

  stand_off (plan, -half, y, 0, -WHEELBASE_STAND, &d.x1, &d.y1);
  stand_off (plan, half, y, 0, -WHEELBASE_STAND, &d.x2, &d.y2);
  draw_dimension (cr, plan, &d);
}

/* The rearmost line of the tyres, which the track's extension lines stop short of. */
static double
rear_of_tyres (const PinChassis *chassis)
{
  double rear = -chassis->wheelbase / 2;

  for (guint i = 0; i < chassis->shapes->len; i++)
    {
      const PinShape *shape = g_ptr_array_index (chassis->shapes, i);

      for (guint k = 0; k < shape->primitives->len; k++)
        {
          const PinPrimitive *p = g_ptr_array_index (shape->primitives, k);

          if (p->kind == PIN_PRIMITIVE_WHEEL)
            rear = MIN (rear, p->number[PIN_NUMBER_X] - p->number[PIN_NUMBER_DIAMETER] / 2);
        }
    }
  return rear;
}

static void
draw_track (cairo_t *cr, const PinPlan *plan, const Bounds *b)
{
  g_autofree char *words = g_strdup_printf ("%.0f", plan->chassis->track);
  double half = plan->chassis->track / 2;
  double tyres = rear_of_tyres (plan->chassis);
  Dimension d = { .words = words };

  set_pencil (cr, plan);
  for (int side = -1; side <= 1; side += 2)
    {
      double x1, y1, x2, y2;

      stand_off (plan, b->x0, side * half, -TRACK_STAND - 6, 0, &x1, &y1);
      stand_off (plan, tyres, side * half, -6, 0, &x2, &y2);
      cairo_move_to (cr, x1, y1);
      cairo_line_to (cr, x2, y2);
    }
  cairo_stroke (cr);
  stand_off (plan, b->x0, -half, -TRACK_STAND, 0, &d.x1, &d.y1);
  stand_off (plan, b->x0, half, -TRACK_STAND, 0, &d.x2, &d.y2);
  if (plan->turn == 90)
    {
      Dimension other = { d.x2, d.y2, d.x1, d.y1, words };

      d = other;
    }
  draw_dimension (cr, plan, &d);
}

static void
draw_front (cairo_t *cr, const PinPlan *plan, const Bounds *b)
{
  g_autoptr (PangoLayout) layout = pin_plan_text (plan, _("front"), plan->text > 0 ? plan->text : 13, FALSE);
  int width, height;
  double px, py;

  pango_layout_get_pixel_size (layout, &width, &height);
  set_pencil (cr, plan);
  if (plan->turn == 90)
    {
      stand_off (plan, b->x1, 0, 24 + height / 2.0, 0, &px, &py);
      cairo_move_to (cr, px - width / 2.0, py - height / 2.0);
      pango_cairo_show_layout (cr, layout);
      draw_arrow (cr, px, py - height / 2.0 - 11, -G_PI / 2);
      return;
    }
  stand_off (plan, b->x1, 0, 20, 0, &px, &py);
  cairo_move_to (cr, px, py - height / 2.0);
  pango_cairo_show_layout (cr, layout);
  draw_arrow (cr, px + width + 17, py, 0);
}

static void
draw_dimensions (cairo_t *cr, const PinPlan *plan)
{
  Bounds b;

  pin_plan_extents (plan->chassis, &b.x0, &b.y0, &b.x1, &b.y1);
  draw_wheelbase (cr, plan, &b);
  draw_track (cr, plan, &b);
  draw_front (cr, plan, &b);
}

/* Draws the whole plan but for the marks, which pin_marks_draw puts on top. */
void
pin_plan_draw (cairo_t *cr, const PinPlan *plan)
{
  PinPen pen;

  cairo_save (cr);
  cairo_new_path (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  pin_pen_init (&pen, cr, plan);
  if (plan->centres || plan->dimensions)
    draw_centre_lines (&pen);
  draw_shapes (&pen, FALSE);
  pen.over = TRUE;
  draw_shapes (&pen, TRUE);
  if (plan->dimensions)
    draw_dimensions (cr, plan);
  if (plan->here != NULL)
    pin_plan_draw_here (cr, plan);
  cairo_restore (cr);
}

/* A bar of 100 mm, or of 50 where that would not fit 160 px, that ends at right, y. */
void
pin_plan_scale_bar (cairo_t *cr, const PinPlan *plan, double right, double y)
{
  double mm = plan->scale * 100 > 160 ? 50 : 100;
  g_autofree char *words = g_strdup_printf ("%.0f mm", mm);
  g_autoptr (PangoLayout) layout = pin_plan_text (plan, words, plan->text > 0 ? plan->text : 13, FALSE);
  double left, end;
  int width, height;

  pango_layout_get_pixel_size (layout, &width, &height);
  end = right - width - 7;
  left = end - mm * plan->scale;
  cairo_save (cr);
  set_pencil (cr, plan);
  for (int i = 0; i <= 2; i++)
    {
      double x = left + (end - left) * i / 2;

      cairo_move_to (cr, x, y - (i == 1 ? 3 : 4));
      cairo_line_to (cr, x, y + (i == 1 ? 3 : 4));
    }
  cairo_move_to (cr, left, y);
  cairo_line_to (cr, end, y);
  cairo_stroke (cr);
  cairo_move_to (cr, right - width, y - height / 2.0);
  pango_cairo_show_layout (cr, layout);
  cairo_restore (cr);
}

/* The raised, ink-bordered panel of drawings and charts, with a centring tick
 * of 8 px in the middle of each side. */
void
pin_plan_field (cairo_t *cr, const PinPalette *palette, double x, double y, double width, double height)
{
  cairo_save (cr);
  cairo_rectangle (cr, x + 0.5, y + 0.5, width - 1, height - 1);
  cairo_set_source_rgb (cr, palette->raised.r, palette->raised.g, palette->raised.b);
  cairo_fill_preserve (cr);
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_set_line_width (cr, 1);
  cairo_set_source_rgb (cr, palette->ink.r, palette->ink.g, palette->ink.b);
  cairo_stroke (cr);
  cairo_set_line_width (cr, 1.6);
  cairo_move_to (cr, x + width / 2, y);
  cairo_rel_line_to (cr, 0, 8);
  cairo_move_to (cr, x + width / 2, y + height);
  cairo_rel_line_to (cr, 0, -8);
  cairo_move_to (cr, x, y + height / 2);
  cairo_rel_line_to (cr, 8, 0);
  cairo_move_to (cr, x + width, y + height / 2);
  cairo_rel_line_to (cr, -8, 0);
  cairo_stroke (cr);
  cairo_restore (cr);
}
