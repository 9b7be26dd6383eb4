/* Fitting the sheet to the paper: a smaller plan, then the list of systems moved
 * to the left column, then like bearings sharing a line, then lines closer
 * together, and only then a second page. */

#include "sheet/summary-page.h"

#define GUTTER 12.0
#define TOP_NEXT 62.0

/* A row of one line, as a rule and when it has to be close. */
static const double line_heights[] = { 12.4, 11.3 };
static const double plan_heights[] = { 232, 200, 172, 150, 130 };

typedef struct
{
  PinSheetLayout *layout;
  double column_x[2], column_width[2];
} Setter;

static GArray *
page_at (PinSheetLayout *layout, guint nth)
{
  while (layout->pages->len <= nth)
    g_ptr_array_add (layout->pages, g_array_new (FALSE, FALSE, sizeof (PinSheetPiece)));
  return g_ptr_array_index (layout->pages, nth);
}

static double
top_of (const PinSheetLayout *layout, guint page)
{
  return page == 0 ? PIN_SHEET_PLAN + layout->plan_height + 6 : TOP_NEXT;
}

static double
bottom_of (const PinSheetLayout *layout)
{
  return layout->height - PIN_SHEET_FRAME - PIN_SHEET_FOOT - 4;
}

/* Rows of @block from @from that fit below @y, and their height; at least a
 * heading and one row have to, or none does.  A page of its own takes one row,
 * whatever its height. */
static guint
rows_that_fit (const PinSheetLayout *layout, const PinSheetPiece *piece, gboolean fresh, double *height)
{
  double room = bottom_of (layout) - piece->y - PIN_SHEET_HEAD;
  guint n = 0;

  *height = 0;
  for (guint i = piece->from; i < piece->block->rows->len; i++, n++)
    {
      double row = pin_sheet_row_height (piece->block, g_ptr_array_index (piece->block->rows, i), piece->width,
                                         layout->line);

      if (*height + row > room && !(fresh && n == 0))
        break;
      *height += row;
    }
  return n;
}

static void
set_block (Setter *setter, int column, const PinSheetBlock *block, guint *page, double *y)
{
  guint from = 0;

  while (from < block->rows->len)
    {
      PinSheetPiece piece = { .block = block, .from = from, .x = setter->column_x[column], .y = *y,
                              .width = setter->column_width[column], .continued = from > 0 };
      double height;

      piece.n = rows_that_fit (setter->layout, &piece, *y == top_of (setter->layout, *page), &height);
      if (piece.n > 0)
        {
          g_array_append_val (page_at (setter->layout, *page), piece);
          *y += PIN_SHEET_HEAD + height;
          from += piece.n;
        }
      if (from < block->rows->len)
        {
          (*page)++;
          *y = top_of (setter->layout, *page);
          page_at (setter->layout, *page);
        }
    }
}

static void
set_column (Setter *setter, int column, const PinSheetBlock *first, const GPtrArray *blocks,
            const PinSheetBlock *last)
{
  guint page = 0;
  double y = top_of (setter->layout, 0);

  if (first)
    set_block (setter, column, first, &page, &y);
  for (guint i = 0; i < blocks->len; i++)
    set_block (setter, column, g_ptr_array_index (blocks, i), &page, &y);
  if (last)
    set_block (setter, column, last, &page, &y);
}

static PinSheetLayout *
try_layout (PinSummary *summary, PinPaper paper, double plan_height, double line, gboolean moved, gboolean share)
{
  PinSheetLayout *layout = g_new0 (PinSheetLayout, 1);
  Setter setter = { .layout = layout };
  double inner;

  pin_paper_size (paper, &layout->width, &layout->height);
  layout->plan_height = plan_height;
  layout->line = line;
  layout->pages = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  page_at (layout, 0);
  inner = layout->width - 2 * PIN_SHEET_MARGIN - GUTTER;
  setter.column_width[0] = inner * 0.47;
  setter.column_width[1] = inner * 0.53;
  setter.column_x[0] = PIN_SHEET_MARGIN;
  setter.column_x[1] = PIN_SHEET_MARGIN + setter.column_width[0] + GUTTER;
  set_column (&setter, 0, NULL, summary->left, moved ? summary->by_system : NULL);
  set_column (&setter, 1, moved ? NULL : summary->by_system, summary->right,
              share ? summary->bearings_short : summary->bearings);
  return layout;
}

/* The largest plan that leaves room for the rest on one page, or NULL. */
static PinSheetLayout *
try_one_page (PinSummary *summary, PinPaper paper, double line, gboolean moved, gboolean share)
{
  for (gsize i = 0; i < G_N_ELEMENTS (plan_heights); i++)
    {
      PinSheetLayout *layout = try_layout (summary, paper, plan_heights[i], line, moved, share);

      if (layout->pages->len == 1)
        return layout;
      pin_sheet_layout_free (layout);
    }
  return NULL;
}

PinSheetLayout *
pin_sheet_layout_new (PinSummary *summary, PinPaper paper)
{
  PinSheetLayout *layout = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (line_heights); i++)
    for (int share = i > 0; share <= 1; share++)
      for (int moved = 0; moved <= 1; moved++)
        if ((layout = try_one_page (summary, paper, line_heights[i], moved, share)))
          return layout;
  /* Two pages it is: then with room to breathe. */
  return try_layout (summary, paper, plan_heights[0], line_heights[0], FALSE, FALSE);
}

void
pin_sheet_layout_free (PinSheetLayout *self)
{
  if (self == NULL)
    return;
  g_ptr_array_unref (self->pages);
  g_free (self);
}
