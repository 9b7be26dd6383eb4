#pragma once

#include "sheet/summary-private.h"

/* How the sheet fits the paper.  Points throughout. */

typedef struct
{
  const PinSheetBlock *block;
  guint from, n;              /* rows of it on this page */
  double x, y, width;
  gboolean continued;
} PinSheetPiece;

typedef struct
{
  double width, height;       /* of the paper */
  double plan_height;         /* on the first page */
  double line;                /* height of a row of one line */
  GPtrArray *pages;           /* GArray of PinSheetPiece */
} PinSheetLayout;

/* A cell of a row, from the left edge of its block. */
typedef struct
{
  const char *text;
  double x, width, align;     /* 0 left, 1 right */
  gboolean bold, caption;
} PinSheetCell;

void            pin_sheet_set_font    (PangoLayout          *layout,
                                       double                size,
                                       gboolean              bold);
guint           pin_sheet_cells       (const PinSheetBlock  *block,
                                       const PinSheetRow    *row,
                                       double                width,
                                       PinSheetCell         *cells);
double          pin_sheet_row_height  (const PinSheetBlock  *block,
                                       const PinSheetRow    *row,
                                       double                width,
                                       double                line);
PinSheetLayout *pin_sheet_layout_new  (PinSummary           *summary,
                                       PinPaper              paper);
void            pin_sheet_layout_free (PinSheetLayout       *self);
void            pin_sheet_draw_page   (PinSummary           *summary,
                                       const PinSheetLayout *layout,
                                       int                   page,
                                       cairo_t              *cr);

/* Shared measures */
#define PIN_SHEET_FRAME 19.2
#define PIN_SHEET_MARGIN 29.8
#define PIN_SHEET_PLAN 118.0  /* top of the plan: below name, identity, verdict */
#define PIN_SHEET_TEXT 8.8
#define PIN_SHEET_HEAD 21.0   /* of a block, with the gap above it */
#define PIN_SHEET_FOOT 27.0

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinSheetLayout, pin_sheet_layout_free)
