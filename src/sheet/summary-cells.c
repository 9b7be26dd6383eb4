/* The cells of a row and how many lines they take: nothing is cut, what is too
 * long for its cell goes on below. */

#include <math.h>

#include "sheet/summary-page.h"

#define FONT "Cantarell, DejaVu Sans, sans-serif"
#define FACT_CAPTION 70.0

void
pin_sheet_set_font (PangoLayout *layout, double size, gboolean bold)
{
  PangoFontDescription *font = pango_font_description_from_string (FONT);

  pango_font_description_set_absolute_size (font, size * PANGO_SCALE);
  pango_font_description_set_weight (font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
}

static PangoLayout *
measure_new (const char *text, gboolean bold)
{
  PangoContext *context = pango_font_map_create_context (pango_cairo_font_map_get_default ());
  PangoLayout *layout = pango_layout_new (context);

  g_object_unref (context);
  pin_sheet_set_font (layout, PIN_SHEET_TEXT, bold);
  pango_layout_set_text (layout, text, -1);
  return layout;
}

static double
width_of (const char *text)
{
  PangoLayout *layout = measure_new (text, FALSE);
  int width;

  pango_layout_get_size (layout, &width, NULL);
  g_object_unref (layout);
  return (double) width / PANGO_SCALE;
}

static double
lead_of (const PinSheetRow *row)
{
  return (row->balloon ? 14 : 0) + (row->mark != PIN_MARK_NONE ? 12 : 0);
}

/* The note stands at the right and takes what it needs, up to a little less than half. */
static guint
list_cells (const PinSheetRow *row, double width, PinSheetCell *cells)
{
  double lead = lead_of (row);
  double note = *row->cell[1] ? fmin (width_of (row->cell[1]) + 1, width * 0.45) : 0;

  cells[0] = (PinSheetCell) { .text = row->cell[0], .x = lead, .width = width - lead - (note > 0 ? note + 6 : 0) };
  cells[1] = (PinSheetCell) { .text = row->cell[1], .x = width - note, .width = note, .align = 1 };
  return 2;
}

static guint
fact_cells (const PinSheetRow *row, double width, PinSheetCell *cells)
{
  cells[0] = (PinSheetCell) { .text = row->cell[0], .width = FACT_CAPTION - 4, .caption = TRUE };
  cells[1] = (PinSheetCell) { .text = row->cell[1], .x = FACT_CAPTION, .width = width - FACT_CAPTION };
  return 2;
}

static guint
measured_cells (const PinSheetRow *row, double width, PinSheetCell *cells)
{
  cells[0] = (PinSheetCell) { .text = row->cell[0], .x = 12, .width = width * 0.44 - 12 };
  cells[1] = (PinSheetCell) { .text = row->cell[1], .x = width * 0.44, .width = width * 0.17, .align = 1 };
  cells[2] = (PinSheetCell) { .text = row->cell[2], .x = width * 0.61, .width = width * 0.18, .align = 1,
                              .bold = TRUE };
  cells[3] = (PinSheetCell) { .text = row->cell[3], .x = width * 0.80, .width = width * 0.20, .align = 1 };
  return 4;
}

static guint
three_cells (const PinSheetRow *row, double width, double second, double third, PinSheetCell *cells)
{
  cells[0] = (PinSheetCell) { .text = row->cell[0], .x = 12, .width = width * second - 14 };
  cells[1] = (PinSheetCell) { .text = row->cell[1], .x = width * second, .width = width * (third - second) - 2 };
  cells[2] = (PinSheetCell) { .text = row->cell[2], .x = width * third, .width = width * (1 - third) };
  return 3;
}

/* Where each cell of @row stands in a line of @width; returns how many there are. */
guint
pin_sheet_cells (const PinSheetBlock *block, const PinSheetRow *row, double width, PinSheetCell *cells)
{
  switch (block->form)
    {
    case PIN_FORM_LIST:
      return list_cells (row, width, cells);
    case PIN_FORM_FACTS:
      return fact_cells (row, width, cells);
    case PIN_FORM_MEASURED:
      return measured_cells (row, width, cells);
    case PIN_FORM_SYSTEMS:
      return three_cells (row, width, 0.44, 0.69, cells);
    case PIN_FORM_BEARINGS:
      break;
    }
  return three_cells (row, width, 0.45, 0.655, cells);
}

static double
extra_height (const PinSheetCell *cell)
{
  PangoLayout *layout;
  int height, lines;

  if (*cell->text == '\0')
    return 0;
  layout = measure_new (cell->text, cell->bold);
  pango_layout_set_width (layout, (int) (cell->width * PANGO_SCALE));
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_get_size (layout, NULL, &height);
  lines = pango_layout_get_line_count (layout);
  g_object_unref (layout);
  return (double) height / PANGO_SCALE * (lines - 1) / lines;
}

double
pin_sheet_row_height (const PinSheetBlock *block, const PinSheetRow *row, double width, double line)
{
  PinSheetCell cells[PIN_SHEET_CELLS];
  guint n = pin_sheet_cells (block, row, width, cells);
  double extra = 0;

  for (guint i = 0; i < n; i++)
    extra = fmax (extra, extra_height (&cells[i]));
  return line + extra;
}
