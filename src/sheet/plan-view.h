#pragma once

#include <cairo.h>
#include <glib.h>
#include <pango/pangocairo.h>

#include "library/chassis.h"
#include "sheet/palette.h"

/* The plan view: a chassis type drawn from above, for window and paper.
 *
 * Lengths of the car are mm in its own frame (x forward, y left, origin midway
 * between the axles); everything that is drawn at a fixed size is px of the
 * target.  Unturned, the front is to the right; turned by 90, it is up. */

typedef enum
{
  PIN_PLAN_FULL,
  PIN_PLAN_SMALL,             /* below 0.4 px/mm: outlines only */
} PinPlanSize;

typedef struct
{
  double x, y, width, height; /* px */
} PinPlanRect;

typedef struct
{
  const PinChassis *chassis;
  const PinPalette *palette;
  const char *font;           /* Pango family list; NULL: the usual one */
  double text;                /* px of dimension text; 0: 13 */
  double flag_text;           /* px of the flag's word; 0: 18 */
  double pen;                 /* factor on line weights; 0: 1, paper 1.25 */
  double scale;               /* px/mm */
  double x, y;                /* px: where the car's origin stands */
  double width, height;       /* px of the field, for flags and fans; 0: open */
  int turn;                   /* 0 or 90 */
  gboolean small;             /* no detail, thin outline, few marks */
  const char *const *off;     /* assemblies off the car, or NULL */
  const char *here;           /* position that the step is about, or NULL */
  const char *here_label;     /* NULL: the position's own label */
  GHashTable *chosen;         /* set of position ids (char *), or NULL */
  gboolean centres;           /* centre lines of car and axles */
  gboolean dimensions;        /* those, wheelbase, track and "front" */
  gboolean fresh;             /* a new car: nothing is checked, all dashed */
} PinPlan;

void        pin_plan_extents   (const PinChassis *chassis,
                                double           *x0,
                                double           *y0,
                                double           *x1,
                                double           *y1);
void        pin_plan_fit       (PinPlan          *plan,
                                double            width,
                                double            height,
                                double            margin);
void        pin_plan_point     (const PinPlan    *plan,
                                double            x_mm,
                                double            y_mm,
                                double           *px,
                                double           *py);
void        pin_plan_unpoint   (const PinPlan    *plan,
                                double            px,
                                double            py,
                                double           *x_mm,
                                double           *y_mm);
PinPlanSize pin_plan_size      (const PinPlan    *plan);
void        pin_plan_draw      (cairo_t          *cr,
                                const PinPlan    *plan);
gboolean    pin_plan_here_flag (const PinPlan    *plan,
                                PinPlanRect      *flag);
void        pin_plan_scale_bar (cairo_t          *cr,
                                const PinPlan    *plan,
                                double            right,
                                double            y);
void        pin_plan_field     (cairo_t          *cr,
                                const PinPalette *palette,
                                double            x,
                                double            y,
                                double            width,
                                double            height);
