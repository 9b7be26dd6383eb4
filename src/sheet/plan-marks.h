#pragma once

#include "base/outcome.h"
#include "sheet/plan-view.h"

/* Marks: one shape for each outcome, told apart without colour, and the places
 * where they stand on a plan view so that none covers another. */

typedef enum
{
  PIN_MARK_NONE,
  PIN_MARK_PASS,
  PIN_MARK_WATCH,
  PIN_MARK_FAIL,
  PIN_MARK_UNSAFE,
  PIN_MARK_NOT_CHECKED,
  PIN_MARK_DOES_NOT_APPLY,
  PIN_MARK_OWED,
} PinMark;

typedef struct
{
  guint index;                /* the caller's own number for the position */
  double x, y;                /* mm of the car */
  PinMark mark;
} PinMarkPlace;

typedef struct
{
  guint index;
  PinMark mark;
  double diameter;            /* px */
  double px, py;              /* where the mark stands */
  double ax, ay;              /* where the part is */
  int crowd;                  /* which crowd it was fanned out from; -1: none */
} PinMarkSpot;

/* A crowd keeps one dot at its place; a line leads from there to the row. */
typedef struct
{
  double x, y;                /* the dot, px */
  double row_x1, row_y1, row_x2, row_y2;
  double to_x, to_y;          /* where the leader meets the row */
} PinMarkCrowd;

typedef struct
{
  GArray *spots;              /* PinMarkSpot: in the order given, those shown */
  GArray *crowds;             /* PinMarkCrowd */
} PinMarkLayout;

PinMark              pin_mark_of_outcome    (PinOutcome           outcome,
                                             gboolean             unsafe);
double               pin_mark_diameter      (PinMark              mark,
                                             PinPlanSize          size);
void                 pin_mark_draw          (cairo_t             *cr,
                                             const PinPalette    *palette,
                                             PinMark              mark,
                                             double               x,
                                             double               y,
                                             double               diameter,
                                             gboolean             halo);
void                 pin_mark_draw_ring     (cairo_t             *cr,
                                             const PinPalette    *palette,
                                             double               x,
                                             double               y,
                                             double               diameter);
PinMarkLayout       *pin_mark_layout_new    (const PinPlan       *plan,
                                             const PinMarkPlace  *places,
                                             guint                n_places,
                                             const PinPlanRect   *avoid);
void                 pin_mark_layout_free   (PinMarkLayout       *self);
const PinMarkSpot   *pin_mark_layout_near   (const PinMarkLayout *self,
                                             double               px,
                                             double               py,
                                             double               within);
void                 pin_marks_draw         (cairo_t             *cr,
                                             const PinPlan       *plan,
                                             const PinMarkLayout *layout,
                                             const gboolean      *ringed);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinMarkLayout, pin_mark_layout_free)
