#include "sheet/plan-here.h"

#include <glib/gi18n.h>
#include <math.h>

#define FONT "Cantarell, DejaVu Sans, sans-serif"
#define OUTER_RING 36.0       /* px; 4 px thick */
#define LEAST_RING 20.0       /* px, for a part at the edge of the field */
#define BETWEEN_RINGS 6.0     /* px; the inner one is 2 px thick */

/* A layout in the plan's font, at a size in px of the target so that it does not
 * depend on the resolution.  Returns: (transfer full) */
PangoLayout *
pin_plan_text (const PinPlan *plan, const char *words, double size_px, gboolean bold)
{
  PangoContext *context = pango_font_map_create_context (pango_cairo_font_map_get_default ());
  PangoFontDescription *font = pango_font_description_new ();
  PangoLayout *layout = pango_layout_new (context);

  pango_font_description_set_family (font, plan->font != NULL ? plan->font : FONT);
  pango_font_description_set_absolute_size (font, size_px * PANGO_SCALE);
  pango_font_description_set_weight (font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_layout_set_font_description (layout, font);
  pango_layout_set_text (layout, words, -1);
  g_object_unref (context);
  pango_font_description_free (font);
  return layout;
}

static double
overlap (const PinPlanRect *a, const PinPlanRect *b)
{
  double width = MIN (a->x + a->width, b->x + b->width) - MAX (a->x, b->x);
  double height = MIN (a->y + a->height, b->y + b->height) - MAX (a->y, b->y);

  return MAX (width, 0) * MAX (height, 0);
}

static PinPlanRect
wheel_box (const PinPlan *plan, const PinPrimitive *p)
{
  double half_length = p->number[PIN_NUMBER_DIAMETER] / 2, half_width = p->number[PIN_NUMBER_WIDTH] / 2;
  double x1, y1, x2, y2;

  pin_plan_point (plan, p->number[PIN_NUMBER_X] - half_length, p->number[PIN_NUMBER_Y] - half_width, &x1, &y1);
  pin_plan_point (plan, p->number[PIN_NUMBER_X] + half_length, p->number[PIN_NUMBER_Y] + half_width, &x2, &y2);
  return (PinPlanRect) { MIN (x1, x2) - 4, MIN (y1, y2) - 4, fabs (x2 - x1) + 8, fabs (y2 - y1) + 8 };
}

/* px² of tyres that the flag would hide. */
static double
hidden_tyres (const PinPlan *plan, const PinPlanRect *flag)
{
  double hidden = 0;

  for (guint i = 0; i < plan->chassis->shapes->len; i++)
    {
      const PinShape *shape = g_ptr_array_index (plan->chassis->shapes, i);

      for (guint k = 0; k < shape->primitives->len; k++)
        {
          const PinPrimitive *p = g_ptr_array_index (shape->primitives, k);
          PinPlanRect box;

          if (p->kind != PIN_PRIMITIVE_WHEEL)
            continue;
          box = wheel_box (plan, p);
          hidden += overlap (flag, &box);
        }
    }
  return hidden;
}

static guint
hidden_parts (const PinPlan *plan, const PinPlanRect *flag)
{
  guint hidden = 0;

  for (guint i = 0; i < plan->chassis->positions->len; i++)
    {
      const PinPosition *position = g_ptr_array_index (plan->chassis->positions, i);
      double px, py;

      pin_plan_point (plan, position->x, position->y, &px, &py);
      hidden += px > flag->x - 6 && px < flag->x + flag->width + 6
                && py > flag->y - 6 && py < flag->y + flag->height + 6;
    }
  return hidden;
}

/* px by which the flag would stick out of the field. */
static double
sticking_out (const PinPlan *plan, const PinPlanRect *flag)
{
  if (plan->width <= 0 || plan->height <= 0)
    return 0;
  return MAX (6 - flag->x, 0) + MAX (6 - flag->y, 0)
         + MAX (flag->x + flag->width + 6 - plan->width, 0)
         + MAX (flag->y + flag->height + 6 - plan->height, 0);
}

/* The box round what is drawn with the plate's line: floor, rails, skid. */
static PinPlanRect
plate_box (const PinPlan *plan)
{
  double x0 = G_MAXDOUBLE, y0 = G_MAXDOUBLE, x1 = -G_MAXDOUBLE, y1 = -G_MAXDOUBLE;

  for (guint i = 0; i < plan->chassis->shapes->len; i++)
    {
      const PinShape *shape = g_ptr_array_index (plan->chassis->shapes, i);

      for (guint k = 0; k < shape->primitives->len; k++)
        {
          const PinPrimitive *p = g_ptr_array_index (shape->primitives, k);

          for (guint n = 0; p->line == PIN_LINE_PLATE && n + 1 < p->n_points; n += 2)
            {
              double px, py;

              pin_plan_point (plan, p->points[n], p->points[n + 1], &px, &py);
              x0 = MIN (x0, px);
              y0 = MIN (y0, py);
              x1 = MAX (x1, px);
              y1 = MAX (y1, py);
            }
        }
    }
  return (PinPlanRect) { x0, y0, MAX (x1 - x0, 0), MAX (y1 - y0, 0) };
}

static double
cost_of (const PinPlan *plan, const PinPlanRect *plate, const PinPlanRect *flag, double stem)
{
  return sticking_out (plan, flag) * 1000 + hidden_tyres (plan, flag) + hidden_parts (plan, flag) * 20
         + overlap (flag, plate) / 80 + stem;
}

typedef struct
{
  PinPlanRect flag, plate;
  double x, y, ring;          /* px: where the ring stands, and its radius */
  double best;
} Search;

/* Tries a flag whose near edge is stem px beyond the ring, towards (dx, dy), and
 * which is slid along that edge: gladly by up to its half, so that the stem stays
 * straight, and a little farther where a tyre is in the way. */
static void
try_flags (const PinPlan *plan, Search *search, PinPlanRect flag, int dx, int dy, double bias)
{
  double room = (dy != 0 ? flag.width / 2 : flag.height / 2) + 42;

  for (double stem = 18; stem <= 240; stem += 6)
    for (int slide = -4; slide <= 4; slide++)
      {
        double across = slide * room / 4;
        double cx = search->x + dx * (search->ring + stem + flag.width / 2) + (dx == 0 ? across : 0);
        double cy = search->y + dy * (search->ring + stem + flag.height / 2) + (dy == 0 ? across : 0);
        double cost;

        flag.x = round (cx - flag.width / 2);
        flag.y = round (cy - flag.height / 2);
        cost = cost_of (plan, &search->plate, &flag, stem) + bias + abs (slide) * 2;
        if (cost < search->best)
          {
            search->best = cost;
            search->flag = flag;
          }
      }
}

/* Marks stand off the middle of a part where they would crowd; the ring goes
 * round the part itself, if it is one thing drawn near the mark's place. */
static void
ring_centre (const PinPlan *plan, const PinPosition *position, double *px, double *py)
{
  double x = position->x, y = position->y;

  for (guint i = 0; i < plan->chassis->shapes->len; i++)
    {
      const PinShape *shape = g_ptr_array_index (plan->chassis->shapes, i);
      const PinPrimitive *p;
      double mid_x, mid_y;

      if (shape->primitives->len != 1 || shape->positions == NULL || g_strv_length (shape->positions) != 1
          || !g_str_equal (shape->positions[0], position->id))
        continue;
      p = g_ptr_array_index (shape->primitives, 0);
      mid_x = p->number[PIN_NUMBER_X];
      mid_y = p->number[PIN_NUMBER_Y];
      if (hypot (mid_x - x, mid_y - y) * plan->scale < OUTER_RING - BETWEEN_RINGS) /* false for NAN */
        {
          x = mid_x;
          y = mid_y;
          break;
        }
    }
  pin_plan_point (plan, x, y, px, py);
}

/* The ring stays within the field, whole. */
static double
ring_radius (const PinPlan *plan, double x, double y)
{
  double room;

  if (plan->width <= 0 || plan->height <= 0)
    return OUTER_RING;
  room = MIN (MIN (x, plan->width - x), MIN (y, plan->height - y));
  return CLAMP (room - 4, LEAST_RING, OUTER_RING);
}

static PangoLayout *
flag_words (const PinPlan *plan, const PinPosition *position)
{
  const char *label = plan->here_label != NULL ? plan->here_label : position->label;
  g_autofree char *words = g_strdup_printf (_("here: %s"), label);
  PangoLayout *layout = pin_plan_text (plan, words, plan->flag_text > 0 ? plan->flag_text : 18, TRUE);
  int width, height;

  pango_layout_get_pixel_size (layout, &width, &height);
  if (plan->width > 0 && width + 2.6 * height > plan->width - 12)
    {
      pango_layout_set_width (layout, (int) (MAX (plan->width - 12 - 2.6 * height, 1) * PANGO_SCALE));
      pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
    }
  return layout;
}

/* Where the flag of the step's place stands: clear of the tyres, within the
 * field, over as few parts as can be.
 * Returns: FALSE if there is no such place on this chassis. */
gboolean
pin_plan_here_flag (const PinPlan *plan, PinPlanRect *flag)
{
  const PinPosition *position = plan->here != NULL ? pin_chassis_position (plan->chassis, plan->here) : NULL;
  g_autoptr (PangoLayout) layout = NULL;
  Search search = { .best = G_MAXDOUBLE };
  int width, height;

  if (position == NULL)
    return FALSE;
  layout = flag_words (plan, position);
  pango_layout_get_pixel_size (layout, &width, &height);
  search.flag = (PinPlanRect) { 0, 0, width + 2.6 * height, 1.7 * height };
  search.plate = plate_box (plan);
  ring_centre (plan, position, &search.x, &search.y);
  search.ring = ring_radius (plan, search.x, search.y);
  try_flags (plan, &search, search.flag, 0, 1, 0);
  try_flags (plan, &search, search.flag, 0, -1, 8);
  try_flags (plan, &search, search.flag, 1, 0, 24);
  try_flags (plan, &search, search.flag, -1, 0, 24);
  *flag = search.flag;
  return TRUE;
}

static void
draw_ring (cairo_t *cr, double x, double y, double radius, double width)
{
  cairo_new_path (cr);
  cairo_arc (cr, x, y, radius, 0, 2 * G_PI);
  cairo_set_line_width (cr, width);
  cairo_stroke (cr);
}

static void
draw_stem (cairo_t *cr, double x, double y, double ring, const PinPlanRect *flag)
{
  double to_x = CLAMP (x, flag->x, flag->x + flag->width);
  double to_y = CLAMP (y, flag->y, flag->y + flag->height);
  double length = hypot (to_x - x, to_y - y);

  if (length <= ring)
    return;
  cairo_move_to (cr, x + (to_x - x) / length * ring, y + (to_y - y) / length * ring);
  cairo_line_to (cr, to_x, to_y);
  cairo_set_line_width (cr, 2);
  cairo_stroke (cr);
}

/* Two rings round the place, a stem, and a flag that says what it is. */
void
pin_plan_draw_here (cairo_t *cr, const PinPlan *plan)
{
  const PinInk *accent = &plan->palette->accent, *on_accent = &plan->palette->on_accent;
  const PinPosition *position = pin_chassis_position (plan->chassis, plan->here);
  g_autoptr (PangoLayout) layout = NULL;
  PinPlanRect flag;
  int width, height;
  double x, y, ring;

  if (!pin_plan_here_flag (plan, &flag))
    return;
  ring_centre (plan, position, &x, &y);
  ring = ring_radius (plan, x, y);
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_set_source_rgb (cr, accent->r, accent->g, accent->b);
  draw_ring (cr, x, y, ring - BETWEEN_RINGS, 2);
  draw_ring (cr, x, y, ring, 4);
  draw_stem (cr, x, y, ring, &flag);
  cairo_rectangle (cr, flag.x, flag.y, flag.width, flag.height);
  cairo_fill (cr);
  layout = flag_words (plan, position);
  pango_layout_get_pixel_size (layout, &width, &height);
  cairo_set_source_rgb (cr, on_accent->r, on_accent->g, on_accent->b);
  cairo_move_to (cr, flag.x + (flag.width - width) / 2, flag.y + (flag.height - height) / 2);
  pango_cairo_show_layout (cr, layout);
}
