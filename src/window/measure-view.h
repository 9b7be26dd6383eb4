#pragma once

#include <gtk/gtk.h>

#include "inspection/walk.h"
#include "library/library.h"
#include "window/draft.h"

G_BEGIN_DECLS

/* A reading: typed, or timed by the stopwatch; repeats, what they come to,
 * what it is held against.  It proposes, the person answers. */

#define PIN_TYPE_MEASURE_VIEW (pin_measure_view_get_type ())
G_DECLARE_FINAL_TYPE (PinMeasureView, pin_measure_view, PIN, MEASURE_VIEW, GtkBox)

void        pin_measure_view_set       (PinMeasureView    *self,
                                        PinLibrary        *library,
                                        const PinWalk     *walk,
                                        const PinQuestion *question,
                                        PinDraft          *draft);
void        pin_measure_view_clear     (PinMeasureView    *self);
gboolean    pin_measure_view_has_watch (PinMeasureView    *self);
void        pin_measure_view_toggle    (PinMeasureView    *self);
void        pin_measure_view_type      (PinMeasureView    *self,
                                        const char        *digit);
gboolean    pin_measure_view_take      (PinMeasureView    *self,
                                        GError           **error);
PinOutcome  pin_measure_view_proposal  (PinMeasureView    *self);
const GArray *pin_measure_view_repeats (PinMeasureView    *self);
void        pin_measure_view_set_tight (PinMeasureView    *self,
                                        gboolean           tight);

G_END_DECLS
