#pragma once

#include <gtk/gtk.h>

#include "sheet/plan-view.h"

G_BEGIN_DECLS

/* A plan view as it is to be painted, apart from the marks on it: thousands of
 * strokes, which a thread of their own turns into a picture. */
typedef struct _PinPlanPaint PinPlanPaint;

PinPlanPaint *pin_plan_paint_new       (PinChassis           *chassis,
                                        const PinPlan        *plan,
                                        gboolean              framed,
                                        int                   width,
                                        int                   height,
                                        int                   factor);
PinPlanPaint *pin_plan_paint_ref       (PinPlanPaint         *self);
void          pin_plan_paint_unref     (PinPlanPaint         *self);
gboolean      pin_plan_paint_equal     (const PinPlanPaint   *a,
                                        const PinPlanPaint   *b);
gboolean      pin_plan_paint_alike     (const PinPlanPaint   *a,
                                        const PinPlanPaint   *b);
void          pin_plan_paint_start     (PinPlanPaint         *self,
                                        gpointer              source,
                                        GCancellable         *cancellable,
                                        GAsyncReadyCallback   callback);
GdkTexture   *pin_plan_paint_finish    (GAsyncResult         *result,
                                        PinPlanPaint        **wanted);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinPlanPaint, pin_plan_paint_unref)

G_END_DECLS
