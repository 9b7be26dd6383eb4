#include "sheet/summary-page.h"

#include <glib/gi18n.h>
#include <math.h>

#define TEXT_SIZE PIN_SHEET_TEXT
#define CAPTION_SIZE 7.0

typedef struct
{
  cairo_t *cr;
  const PinPalette *palette;
  PinSummary *summary;
  const PinSheetLayout *layout;
} Painter;

static void
ink (Painter *p, const PinInk *colour)
{
  cairo_set_source_rgb (p->cr, colour->r, colour->g, colour->b);
}

static PangoLayout *
text_new (Painter *p, const char *text, double size, gboolean bold, double width)
{
  PangoLayout *layout = pango_cairo_create_layout (p->cr);

  pin_sheet_set_font (layout, size, bold);
  pango_layout_set_text (layout, text, -1);
  if (width > 0)
    {
      pango_layout_set_width (layout, (int) (width * PANGO_SCALE));
      pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
    }
  return layout;
}

/* Draws from the baseline at @y, and below it what does not fit @width; returns
 * the width.  @align 0 left, 1 right. */
static double
put (Painter *p, const char *text, double x, double y, double size, gboolean bold,
     const PinInk *colour, double width, double align)
{
  PangoLayout *layout;
  int w, baseline;

  if (*text == '\0')
    return 0;
  layout = text_new (p, text, size, bold, width);
  pango_layout_get_size (layout, &w, NULL);
  baseline = pango_layout_get_baseline (layout);
  if (width > 0 && align > 0)
    pango_layout_set_alignment (layout, align < 1 ? PANGO_ALIGN_CENTER : PANGO_ALIGN_RIGHT);
  ink (p, colour);
  cairo_move_to (p->cr, x, y - (double) baseline / PANGO_SCALE);
  pango_cairo_show_layout (p->cr, layout);
  g_object_unref (layout);
  return (double) w / PANGO_SCALE;
}

/* One line as long as @least lets it be one, then two lines around @y. */
static void
put_fitted (Painter *p, const char *text, double x, double y, double size, double least, gboolean bold, double width)
{
  PangoLayout *layout = NULL;
  int lines = 0;

  for (;; size -= 0.4)
    {
      g_clear_object (&layout);
      layout = text_new (p, text, size, bold, width);
      lines = pango_layout_get_line_count (layout);
      if (lines == 1 || size - 0.4 < least)
        break;
    }
  g_object_unref (layout);
  put (p, text, x, lines > 1 ? y - size * 0.6 : y, size, bold, &p->palette->ink, width, 0);
}

static void
rule (Painter *p, double x1, double y1, double x2, double y2, double width, const PinInk *colour)
{
  ink (p, colour);
  cairo_set_line_width (p->cr, width);
  cairo_move_to (p->cr, x1, y1);
  cairo_line_to (p->cr, x2, y2);
  cairo_stroke (p->cr);
}

/* The pen of a mark is meant for a screen: drawn at twice its size and scaled. */
static void
mark (Painter *p, PinMark what, double x, double y, double diameter)
{
  cairo_save (p->cr);
  cairo_translate (p->cr, x, y);
  cairo_scale (p->cr, 0.5, 0.5);
  pin_mark_draw (p->cr, p->palette, what, 0, 0, diameter * 2, FALSE);
  cairo_restore (p->cr);
}

/* ---- frame, head, foot -------------------------------------------------------- */

static void
draw_frame (Painter *p)
{
  double w = p->layout->width, h = p->layout->height, f = PIN_SHEET_FRAME;

  ink (p, &p->palette->ink);
  cairo_set_line_width (p->cr, 1);
  cairo_rectangle (p->cr, f, f, w - 2 * f, h - 2 * f);
  cairo_stroke (p->cr);
  rule (p, w / 2, f - 5, w / 2, f + 5, 1, &p->palette->ink);
  rule (p, w / 2, h - f - 5, w / 2, h - f + 5, 1, &p->palette->ink);
  rule (p, f - 5, h / 2, f + 5, h / 2, 1, &p->palette->ink);
  rule (p, w - f - 5, h / 2, w - f + 5, h / 2, 1, &p->palette->ink);
}

static void
draw_title (Painter *p, gboolean first)
{
  double right = p->layout->width - PIN_SHEET_MARGIN;

  put_fitted (p, p->summary->name, PIN_SHEET_MARGIN, first ? 54 : 46, first ? 25 : 15, 11, TRUE,
              right - PIN_SHEET_MARGIN - 190);
  put (p, first ? _("Summary sheet") : _("Summary sheet, continued"), right - 180, first ? 43 : 37, TEXT_SIZE, FALSE,
       &p->palette->ink, 180, 1);
  put (p, p->summary->day, right - 180, first ? 54 : 48, TEXT_SIZE, FALSE, &p->palette->ink, 180, 1);
}

static void
draw_identity (Painter *p)
{
  static const double share[] = { 0.24, 0.16, 0.15, 0.25, 0.20 };
  double x = PIN_SHEET_MARGIN, width = p->layout->width - 2 * PIN_SHEET_MARGIN;

  ink (p, &p->palette->ink);
  cairo_set_line_width (p->cr, 0.7);
  cairo_rectangle (p->cr, x, 62, width, 27);
  cairo_stroke (p->cr);
  for (guint i = 0; i < p->summary->identity->len && i < G_N_ELEMENTS (share); i++)
    {
      const PinSheetRow *cell = g_ptr_array_index (p->summary->identity, i);
      double w = width * share[i];
      g_autofree char *caption = g_strdup (cell->cell[0]);

      caption[0] = g_ascii_toupper (caption[0]);
      put (p, caption, x + 5, 71.5, CAPTION_SIZE, FALSE, &p->palette->pencil, w - 8, 0);
      put_fitted (p, cell->cell[1], x + 5, 83.5, TEXT_SIZE, 6.4, FALSE, w - 8);
      x += w;
      if (i + 1 < p->summary->identity->len)
        rule (p, x, 62, x, 89, 0.5, &p->palette->pencil);
    }
}

static void
draw_verdict (Painter *p)
{
  double x = PIN_SHEET_MARGIN, right = p->layout->width - PIN_SHEET_MARGIN;

  mark (p, p->summary->verdict, x + 6, 104, 11);
  x += 18 + put (p, p->summary->verdict_lead, x + 18, 107.5, 11, TRUE, &p->palette->ink, -1, 0);
  put_fitted (p, p->summary->verdict_text, x + 8, 107.5, TEXT_SIZE, 7.2, FALSE, right - x - 8);
}

static void
draw_foot (Painter *p, int page)
{
  const char *const captions[] = { _("Checked by"), _("Signed"), _("Readings kept in"), _("Sheet") };
  static const double at[] = { 0, 0.22, 0.44, 0.86, 1 };
  double left = PIN_SHEET_FRAME, width = p->layout->width - 2 * PIN_SHEET_FRAME;
  double y = p->layout->height - PIN_SHEET_FRAME - PIN_SHEET_FOOT;
  g_autofree char *pages = g_strdup_printf (_("%d of %u"), page + 1, p->layout->pages->len);
  const char *const values[] = { p->summary->record ? p->summary->record->person : "", "", p->summary->footer, pages };

  rule (p, left, y, left + width, y, 1, &p->palette->ink);
  for (int i = 0; i < 4; i++)
    {
      double x = i ? left + width * at[i] : PIN_SHEET_MARGIN - 5;

      if (i)
        rule (p, x, y, x, y + PIN_SHEET_FOOT, 0.5, &p->palette->pencil);
      put (p, captions[i], x + 5, y + 9.5, CAPTION_SIZE, FALSE, &p->palette->pencil, -1, 0);
      put_fitted (p, values[i] ? values[i] : "", x + 5, y + 21.5, TEXT_SIZE, 6.4, FALSE,
                  width * (at[i + 1] - at[i]) - 9);
    }
}

/* ---- plan ----------------------------------------------------------------------- */

static void
draw_legend (Painter *p, double x, double y)
{
  static const PinMark marks[] = { PIN_MARK_PASS, PIN_MARK_WATCH, PIN_MARK_FAIL, PIN_MARK_UNSAFE,
                                   PIN_MARK_NOT_CHECKED, PIN_MARK_DOES_NOT_APPLY };
  const char *const words[] = { _("pass"), _("watch"), _("fail"), _("unsafe"), _("not checked"), _("does not apply") };

  for (gsize i = 0; i < G_N_ELEMENTS (marks); i++, y += 10.5)
    {
      mark (p, marks[i], x, y - 2.6, 6.5);
      put (p, words[i], x + 8, y, 7.6, FALSE, &p->palette->ink, -1, 0);
    }
  cairo_save (p->cr);
  cairo_translate (p->cr, x, y - 2.6);
  cairo_scale (p->cr, 0.5, 0.5);
  pin_mark_draw_ring (p->cr, p->palette, 0, 0, 8);
  cairo_restore (p->cr);
  put (p, _("oiled this time"), x + 8, y, 7.6, FALSE, &p->palette->ink, -1, 0);
}

static void
draw_balloon (Painter *p, const PinPlan *plan, const PinSheetBalloon *balloon, double left, double right)
{
  g_autofree char *number = g_strdup_printf ("%d", balloon->number);
  double x, y, bx, by, angle;

  pin_plan_point (plan, balloon->x, balloon->y, &x, &y);
  /* Out to the nearer long side, spread by number so that they do not stack. */
  bx = CLAMP (x + (balloon->number % 3 - 1) * 16, left, right);
  by = y < plan->y ? fmax (y - 24, PIN_SHEET_PLAN + 8) : fmin (y + 24, PIN_SHEET_PLAN + p->layout->plan_height - 8);
  angle = atan2 (y - by, x - bx);
  rule (p, bx + cos (angle) * 6, by + sin (angle) * 6, x - cos (angle) * 3, y - sin (angle) * 3, 0.6, &p->palette->ink);
  cairo_arc (p->cr, bx, by, 6, 0, 2 * G_PI);
  ink (p, &p->palette->raised);
  cairo_fill_preserve (p->cr);
  ink (p, &p->palette->ink);
  cairo_set_line_width (p->cr, 0.8);
  cairo_stroke (p->cr);
  put (p, number, bx - 6, by + 2.9, 8, TRUE, &p->palette->ink, 12, 0.5);
}

static const char **
off_the_car (const PinCar *car)
{
  const char **off = g_new0 (const char *, car->tray->len + 1);

  for (guint i = 0; i < car->tray->len; i++)
    off[i] = ((PinTrayItem *) g_ptr_array_index (car->tray, i))->id;
  return off;
}

static void
draw_marks (Painter *p, const PinPlan *plan)
{
  const PinCar *car = p->summary->view->car;
  g_autofree PinMarkPlace *places = g_new0 (PinMarkPlace, car->slots->len);
  g_autofree gboolean *ringed = g_new0 (gboolean, car->slots->len);
  g_autoptr (PinMarkLayout) layout = NULL;
  guint n = 0;

  for (guint i = 0; i < car->slots->len; i++)
    {
      const PinSlot *slot = g_ptr_array_index (car->slots, i);
      const PinSlotMark *mark = g_hash_table_lookup (p->summary->view->marks, slot->code);

      ringed[i] = g_hash_table_contains (p->summary->oiled, &slot->place);
      if (slot->position == NULL || slot->part == 0)
        continue;
      places[n].index = i;
      places[n].x = slot->position->x;
      places[n].y = slot->position->y;
      places[n].mark = mark && mark->outcome != PIN_OUTCOME_NONE ?
                       pin_mark_of_outcome (mark->outcome, mark->unsafe) : PIN_MARK_NOT_CHECKED;
      n++;
    }
  layout = pin_mark_layout_new (plan, places, n, NULL);
  pin_marks_draw (p->cr, plan, layout, ringed);
}

/* The plan is drawn at twice its size and scaled, since its pen and marks are
 * meant for a screen. */
static void
draw_plan (Painter *p)
{
  double x = PIN_SHEET_MARGIN, y = PIN_SHEET_PLAN, zoom = 0.5;
  double width = p->layout->width - 2 * PIN_SHEET_MARGIN, height = p->layout->plan_height;
  g_autofree const char **off = off_the_car (p->summary->view->car);
  PinPlan plan = { .chassis = p->summary->view->car->chassis, .palette = p->palette, .off = off,
                   .dimensions = TRUE, .centres = TRUE, .text = 14 };

  pin_plan_field (p->cr, p->palette, x, y, width, height);
  cairo_save (p->cr);
  cairo_translate (p->cr, x, y);
  cairo_scale (p->cr, zoom, zoom);
  pin_plan_fit (&plan, (width - 70) / zoom, height / zoom, 26);
  pin_plan_draw (p->cr, &plan);
  draw_marks (p, &plan);
  pin_plan_scale_bar (p->cr, &plan, (width - 12) / zoom, (height - 10) / zoom);
  cairo_restore (p->cr);
  plan.scale *= zoom;
  plan.x = x + plan.x * zoom;
  plan.y = y + plan.y * zoom;
  for (guint i = 0; i < p->summary->balloons->len; i++)
    draw_balloon (p, &plan, &g_array_index (p->summary->balloons, PinSheetBalloon, i), x + 10, x + width - 90);
  draw_legend (p, x + width - 78, y + 15);
}

/* ---- blocks ---------------------------------------------------------------------- */

static void
draw_number (Painter *p, int n, double x, double y)
{
  g_autofree char *number = g_strdup_printf ("%d", n);

  cairo_new_path (p->cr);
  cairo_arc (p->cr, x + 5, y - 3, 5, 0, 2 * G_PI);
  ink (p, &p->palette->ink);
  cairo_set_line_width (p->cr, 0.7);
  cairo_stroke (p->cr);
  put (p, number, x, y - 0.4, 7, FALSE, &p->palette->ink, 10, 0.5);
}

static void
draw_row (Painter *p, const PinSheetBlock *block, const PinSheetRow *row, double x, double y, double width)
{
  PinSheetCell cells[PIN_SHEET_CELLS];
  guint n = pin_sheet_cells (block, row, width, cells);

  if (row->balloon)
    draw_number (p, row->balloon, x, y);
  if (row->mark != PIN_MARK_NONE)
    mark (p, row->mark, x + (row->balloon ? 14 : 0) + 4, y - 3, 7);
  for (guint i = 0; i < n; i++)
    put (p, cells[i].text, x + cells[i].x, y, TEXT_SIZE, cells[i].bold,
         cells[i].caption ? &p->palette->pencil : &p->palette->ink, cells[i].width, cells[i].align);
}

static void
caption (Painter *p, const char *text, const PinSheetPiece *piece, double from, double share, double y)
{
  put (p, text, piece->x + piece->width * from, y, CAPTION_SIZE, FALSE, &p->palette->pencil,
       piece->width * share, 1);
}

static void
draw_piece (Painter *p, const PinSheetPiece *piece)
{
  double y = piece->y + 13, right = piece->x + piece->width;
  g_autofree char *title = piece->continued ? g_strdup_printf (_("%s, continued"), piece->block->title) :
                                              g_strdup (piece->block->title);

  put (p, title, piece->x, y, 9.8, TRUE, &p->palette->ink, -1, 0);
  if (piece->block->form == PIN_FORM_MEASURED)
    {
      caption (p, _("as found"), piece, 0.44, 0.17, y);
      caption (p, _("as left"), piece, 0.61, 0.18, y);
      caption (p, _("limit"), piece, 0.80, 0.20, y);
    }
  else if (piece->block->note)
    put (p, piece->block->note, right - 170, y, CAPTION_SIZE, FALSE, &p->palette->pencil, 170, 1);
  rule (p, piece->x, y + 4, right, y + 4, 0.7, &p->palette->ink);
  y += 4 + p->layout->line - 3;
  for (guint i = piece->from; i < piece->from + piece->n; i++)
    {
      const PinSheetRow *row = g_ptr_array_index (piece->block->rows, i);
      double height = pin_sheet_row_height (piece->block, row, piece->width, p->layout->line);

      draw_row (p, piece->block, row, piece->x, y, piece->width);
      y += height;
      rule (p, piece->x, y + 3.2 - p->layout->line, right, y + 3.2 - p->layout->line, 0.3, &p->palette->hair);
    }
}

void
pin_sheet_draw_page (PinSummary *summary, const PinSheetLayout *layout, int page, cairo_t *cr)
{
  Painter p = { .cr = cr, .palette = pin_palette_print (), .summary = summary, .layout = layout };
  const GArray *pieces = g_ptr_array_index (layout->pages, page);

  draw_frame (&p);
  draw_title (&p, page == 0);
  if (page == 0)
    {
      draw_identity (&p);
      draw_verdict (&p);
      draw_plan (&p);
    }
  for (guint i = 0; i < pieces->len; i++)
    draw_piece (&p, &g_array_index (pieces, PinSheetPiece, i));
  draw_foot (&p, page);
}
