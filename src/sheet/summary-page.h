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
  GPtrArray *pages;           /* GArray of PinSheetPiece */
} PinSheetLayout;

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
#define PIN_SHEET_LINE 12.4
#define PIN_SHEET_HEAD 21.0   /* of a block, with the gap above it */
#define PIN_SHEET_FOOT 27.0

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinSheetLayout, pin_sheet_layout_free)
