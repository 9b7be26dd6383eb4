#pragma once

#include "sheet/plan-view.h"

/* The pointer of an inspection step, and the plan's text.  Private to the
 * sheet room. */

PangoLayout *pin_plan_text      (const PinPlan *plan,
                                 const char    *words,
                                 double         size_px,
                                 gboolean       bold);
void         pin_plan_draw_here (cairo_t       *cr,
                                 const PinPlan *plan);
