/* Fitting the sheet to the paper: a smaller plan, then like bearings sharing a
 * line, and only then a second page. */

#include "sheet/summary-page.h"

#define GUTTER 12.0
#define TOP 118.0             /* first page: name, identity, verdict */
#define TOP_NEXT 62.0

static const double plan_heights[] = { 232, 200, 172, 150 };

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
  return page == 0 ? TOP + layout->plan_height + 6 : TOP_NEXT;
}

static double
bottom_of (const PinSheetLayout *layout)
{
  return layout->height - PIN_SHEET_FRAME - PIN_SHEET_FOOT - 4;
}

/* Rows of @block from @from that fit below @y; at least a heading and one row
 * have to, or none does. */
static guint
rows_that_fit (const PinSheetLayout *layout, const PinSheetBlock *block, guint from, double y)
{
  double room = bottom_of (layout) - y - PIN_SHEET_HEAD;
  guint n = room < PIN_SHEET_LINE ? 0 : (guint) (room / PIN_SHEET_LINE);

  return MIN (n, block->rows->len - from);
}

static void
set_block (Setter *setter, int column, const PinSheetBlock *block, guint *page, double *y)
{
  guint from = 0;

  while (from < block->rows->len)
    {
      guint n = rows_that_fit (setter->layout, block, from, *y);
      PinSheetPiece piece = { .block = block, .from = from, .n = n, .x = setter->column_x[column], .y = *y,
                              .width = setter->column_width[column], .continued = from > 0 };

      if (n > 0)
        {
          g_array_append_val (page_at (setter->layout, *page), piece);
          *y += PIN_SHEET_HEAD + n * PIN_SHEET_LINE;
          from += n;
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
set_column (Setter *setter, int column, const GPtrArray *blocks, const PinSheetBlock *last)
{
  guint page = 0;
  double y = top_of (setter->layout, 0);

  for (guint i = 0; i < blocks->len; i++)
    set_block (setter, column, g_ptr_array_index (blocks, i), &page, &y);
  if (last && last->rows->len)
    set_block (setter, column, last, &page, &y);
}

static PinSheetLayout *
try_layout (PinSummary *summary, PinPaper paper, double plan_height, gboolean share)
{
  PinSheetLayout *layout = g_new0 (PinSheetLayout, 1);
  Setter setter = { .layout = layout };
  double inner;

  pin_paper_size (paper, &layout->width, &layout->height);
  layout->plan_height = plan_height;
  layout->pages = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  page_at (layout, 0);
  inner = layout->width - 2 * PIN_SHEET_MARGIN - GUTTER;
  setter.column_width[0] = inner * 0.47;
  setter.column_width[1] = inner * 0.53;
  setter.column_x[0] = PIN_SHEET_MARGIN;
  setter.column_x[1] = PIN_SHEET_MARGIN + setter.column_width[0] + GUTTER;
  set_column (&setter, 0, summary->left, NULL);
  set_column (&setter, 1, summary->right, share ? summary->bearings_short : summary->bearings);
  return layout;
}

PinSheetLayout *
pin_sheet_layout_new (PinSummary *summary, PinPaper paper)
{
  PinSheetLayout *layout = NULL;

  for (int share = 0; share <= 1; share++)
    for (gsize i = 0; i < G_N_ELEMENTS (plan_heights); i++)
      {
        g_clear_pointer (&layout, pin_sheet_layout_free);
        layout = try_layout (summary, paper, plan_heights[i], share);
        if (layout->pages->len == 1)
          return layout;
      }
  /* Two pages it is: then with room to breathe. */
  pin_sheet_layout_free (layout);
  return try_layout (summary, paper, plan_heights[0], FALSE);
}

void
pin_sheet_layout_free (PinSheetLayout *self)
{
  if (self == NULL)
    return;
  g_ptr_array_unref (self->pages);
  g_free (self);
}
