#pragma once

#include <pango/pangocairo.h>

#include "service/vehicle-view.h"
#include "service/walk-record.h"
#include "sheet/plan-marks.h"
#include "sheet/summary-sheet.h"

/* What the sheet says, before it is known how it fits the paper. */

typedef enum
{
  PIN_FORM_LIST,              /* mark, text, note at the right */
  PIN_FORM_FACTS,             /* caption, text */
  PIN_FORM_MEASURED,          /* name, as found, as left, limit, outcome */
  PIN_FORM_SYSTEMS,           /* mark, inspection, day, counts */
  PIN_FORM_BEARINGS,          /* mark, position, feel, work */
} PinSheetForm;

#define PIN_SHEET_CELLS 4

typedef struct
{
  PinMark mark;
  int balloon;                /* number of a fault on the plan; 0: none */
  char *cell[PIN_SHEET_CELLS];
} PinSheetRow;

typedef struct
{
  char *title, *note;
  PinSheetForm form;
  GPtrArray *rows;            /* PinSheetRow* */
} PinSheetBlock;

typedef struct
{
  int number;
  double x, y;                /* mm on the car */
} PinSheetBalloon;

/* One system, as it was when it was last inspected. */
typedef struct
{
  const PinRecordGroup *group;
  const PinWalkRecord *record;
} PinSheetSystem;

struct _PinSummary
{
  PinVehicleView *view;       /* owned */
  GPtrArray *records;         /* PinWalkRecord*, owned, newest first */
  PinWalkRecord *record;      /* the newest; NULL: never inspected */
  GArray *systems;            /* PinSheetSystem, in the order of the newest walks */
  char *day;                  /* of the sheet, long */
  char *name, *footer;
  GPtrArray *identity;        /* PinSheetRow*: caption, value */
  PinMark verdict;
  char *verdict_lead, *verdict_text;
  GPtrArray *left, *right;    /* PinSheetBlock* */
  PinSheetBlock *by_system;   /* heads the right column, or ends the left one */
  PinSheetBlock *bearings, *bearings_short; /* one of them ends the right column */
  GArray *balloons;           /* PinSheetBalloon */
  GHashTable *oiled;          /* set of place ids: oiled or greased in the last walk */
};

PinSheetBlock *pin_sheet_block_new  (const char          *title,
                                     PinSheetForm         form);
PinSheetRow   *pin_sheet_block_add  (PinSheetBlock       *block,
                                     PinMark              mark,
                                     const char          *first,
                                     const char          *second,
                                     const char          *third,
                                     const char          *fourth);
void           pin_sheet_block_free (PinSheetBlock       *block);
void           pin_sheet_row_free   (PinSheetRow         *row);
void           pin_summary_bearings (PinSummary          *self,
                                     PinLibrary          *library);
/* Blocks of what is wrong, owed, not checked; of what was measured … */
void           pin_summary_faults   (PinSummary          *self,
                                     PinLibrary          *library);
void           pin_summary_measured (PinSummary          *self);
void           pin_summary_fitted   (PinSummary          *self,
                                     PinLibrary          *library,
                                     const GPtrArray     *shelf);
