#include "sheet/plan-marks.h"

#include <math.h>

/* Which mark an answer gets.  What is not answered has none: that a question is
 * open is shown by the caller's own means, never by the mark of an outcome. */
PinMark
pin_mark_of_outcome (PinOutcome outcome, gboolean unsafe)
{
  switch (outcome)
    {
    case PIN_OUTCOME_PASS:
      return PIN_MARK_PASS;
    case PIN_OUTCOME_WATCH:
      return PIN_MARK_WATCH;
    case PIN_OUTCOME_FAIL:
      return unsafe ? PIN_MARK_UNSAFE : PIN_MARK_FAIL;
    case PIN_OUTCOME_NOT_CHECKED:
      return PIN_MARK_NOT_CHECKED;
    case PIN_OUTCOME_DOES_NOT_APPLY:
      return PIN_MARK_DOES_NOT_APPLY;
    case PIN_OUTCOME_NONE:
    case PIN_OUTCOME_DONE:
      return PIN_MARK_NONE;
    default:
      g_return_val_if_reached (PIN_MARK_NONE);
    }
}

/* The mark's size on a plan, px; 0 if it is not shown there. */
double
pin_mark_diameter (PinMark mark, PinPlanSize size)
{
  switch (mark)
    {
    case PIN_MARK_NONE:
      return 0;
    case PIN_MARK_PASS:
      return size == PIN_PLAN_SMALL ? 0 : 11;
    case PIN_MARK_DOES_NOT_APPLY:
      return size == PIN_PLAN_SMALL ? 0 : 14;
    case PIN_MARK_WATCH:
    case PIN_MARK_FAIL:
    case PIN_MARK_UNSAFE:
    case PIN_MARK_NOT_CHECKED:
    case PIN_MARK_OWED:
      return size == PIN_PLAN_SMALL ? 9 : 14;
    default:
      g_return_val_if_reached (0);
    }
}

static void
set_ink (cairo_t *cr, const PinInk *ink)
{
  cairo_set_source_rgb (cr, ink->r, ink->g, ink->b);
}

static void
fill_and_edge (cairo_t *cr, const PinInk *fill, const PinInk *edge, double width)
{
  set_ink (cr, fill);
  cairo_fill_preserve (cr);
  set_ink (cr, edge);
  cairo_set_line_width (cr, width);
  cairo_stroke (cr);
}

static void
draw_disc (cairo_t *cr, const PinPalette *palette, double x, double y, double r)
{
  cairo_arc (cr, x, y, r - 0.5, 0, 2 * G_PI);
  fill_and_edge (cr, &palette->pass, &palette->pass_edge, 1.2);
}

static void
draw_triangle (cairo_t *cr, const PinPalette *palette, double x, double y, double r)
{
  cairo_move_to (cr, x, y - r * 0.98);
  cairo_line_to (cr, x + r * 1.02, y + r * 0.78);
  cairo_line_to (cr, x - r * 1.02, y + r * 0.78);
  cairo_close_path (cr);
  fill_and_edge (cr, &palette->watch, &palette->watch_edge, 1.3);
}

/* A square with a rising diagonal: open for a fail, filled for what is unsafe. */
static void
draw_square (cairo_t *cr, const PinPalette *palette, double x, double y, double r, gboolean unsafe)
{
  double q = r * 0.9;
  double line = r < 6 ? 1.4 : 1.8; /* else a small square closes up */

  cairo_rectangle (cr, x - q, y - q, 2 * q, 2 * q);
  fill_and_edge (cr, unsafe ? &palette->unsafe : &palette->raised, &palette->fail_edge, line);
  cairo_move_to (cr, x - q, y + q);
  cairo_line_to (cr, x + q, y - q);
  set_ink (cr, unsafe ? &palette->raised : &palette->fail_edge);
  cairo_stroke (cr);
}

static void
draw_dashed_ring (cairo_t *cr, const PinPalette *palette, double x, double y, double r)
{
  double dash = 2 * G_PI * (r - 0.7) / 8;
  double dashes[] = { dash * 0.6, dash * 0.4 };

  cairo_arc (cr, x, y, r - 0.7, 0, 2 * G_PI);
  set_ink (cr, &palette->raised);
  cairo_fill_preserve (cr);
  set_ink (cr, &palette->pencil);
  cairo_set_line_width (cr, 1.4);
  cairo_set_dash (cr, dashes, 2, 0);
  cairo_stroke (cr);
}

static void
draw_dash (cairo_t *cr, const PinPalette *palette, double x, double y, double r)
{
  cairo_move_to (cr, x - r * 0.6, y);
  cairo_line_to (cr, x + r * 0.6, y);
  set_ink (cr, &palette->ink);
  cairo_set_line_width (cr, 2);
  cairo_stroke (cr);
}

static void
draw_open_square (cairo_t *cr, const PinPalette *palette, double x, double y, double r)
{
  double q = r * 12 / 14 - 1;

  cairo_rectangle (cr, x - q, y - q, 2 * q, 2 * q);
  fill_and_edge (cr, &palette->raised, &palette->ink, 2);
}

/* A disc of the field's colour; the dash needs less, so that it hides less. */
static void
draw_halo (cairo_t *cr, const PinPalette *palette, PinMark mark, double x, double y, double r)
{
  set_ink (cr, &palette->raised);
  if (mark == PIN_MARK_DOES_NOT_APPLY)
    {
      cairo_rectangle (cr, x - r * 0.6 - 1.8, y - 2.8, r * 1.2 + 3.6, 5.6);
      cairo_fill (cr);
      return;
    }
  cairo_arc (cr, x, y, r + 1.8, 0, 2 * G_PI);
  cairo_fill (cr);
}

/* Draws a mark with its middle at x, y.  With a halo, a disc of the field's
 * colour parts it from the lines under it. */
void
pin_mark_draw (cairo_t *cr, const PinPalette *palette, PinMark mark, double x, double y, double diameter,
               gboolean halo)
{
  double r = diameter / 2;

  if (mark == PIN_MARK_NONE)
    return;
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  if (halo)
    draw_halo (cr, palette, mark, x, y, r);
  if (mark == PIN_MARK_PASS)
    draw_disc (cr, palette, x, y, r);
  else if (mark == PIN_MARK_WATCH)
    draw_triangle (cr, palette, x, y, r);
  else if (mark == PIN_MARK_FAIL || mark == PIN_MARK_UNSAFE)
    draw_square (cr, palette, x, y, r, mark == PIN_MARK_UNSAFE);
  else if (mark == PIN_MARK_NOT_CHECKED)
    draw_dashed_ring (cr, palette, x, y, r);
  else if (mark == PIN_MARK_DOES_NOT_APPLY)
    draw_dash (cr, palette, x, y, r);
  else
    draw_open_square (cr, palette, x, y, r);
  cairo_restore (cr);
}

/* The ring of a chosen mark, 4 px outside it; to be drawn before the mark. */
void
pin_mark_draw_ring (cairo_t *cr, const PinPalette *palette, double x, double y, double diameter)
{
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_arc (cr, x, y, diameter / 2 + 4, 0, 2 * G_PI);
  fill_and_edge (cr, &palette->raised, &palette->accent, 2.2);
  cairo_restore (cr);
}

static void
draw_crowd (cairo_t *cr, const PinPalette *palette, const PinMarkCrowd *crowd)
{
  cairo_new_path (cr);
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_set_line_width (cr, 0.8);
  set_ink (cr, &palette->ink);
  cairo_move_to (cr, crowd->x, crowd->y);
  cairo_line_to (cr, crowd->to_x, crowd->to_y);
  cairo_move_to (cr, crowd->row_x1, crowd->row_y1);
  cairo_line_to (cr, crowd->row_x2, crowd->row_y2);
  cairo_stroke (cr);
  cairo_arc (cr, crowd->x, crowd->y, 1.8, 0, 2 * G_PI);
  cairo_fill (cr);
}

/* Draws a layout: leaders, then rings, then marks with their halos.
 * ringed: (nullable): by the caller's index, which marks are chosen */
void
pin_marks_draw (cairo_t *cr, const PinPlan *plan, const PinMarkLayout *layout, const gboolean *ringed)
{
  cairo_save (cr);
  for (guint i = 0; i < layout->crowds->len; i++)
    draw_crowd (cr, plan->palette, &g_array_index (layout->crowds, PinMarkCrowd, i));
  for (guint i = 0; i < layout->spots->len; i++)
    {
      const PinMarkSpot *spot = &g_array_index (layout->spots, PinMarkSpot, i);

      if (ringed != NULL && ringed[spot->index])
        pin_mark_draw_ring (cr, plan->palette, spot->px, spot->py, spot->diameter);
    }
  for (guint i = 0; i < layout->spots->len; i++)
    {
      const PinMarkSpot *spot = &g_array_index (layout->spots, PinMarkSpot, i);

      pin_mark_draw (cr, plan->palette, spot->mark, spot->px, spot->py, spot->diameter, TRUE);
    }
  cairo_restore (cr);
}
