#pragma once

#include <gtk/gtk.h>

#include "window/draft.h"
#include "window/measure-view.h"

G_BEGIN_DECLS

/* Where a question is answered, but for the outcome keys: grades, ways, a
 * reading, a count, what was done and what is in it. */

#define PIN_TYPE_ANSWER_VIEW (pin_answer_view_get_type ())
G_DECLARE_FINAL_TYPE (PinAnswerView, pin_answer_view, PIN, ANSWER_VIEW, GtkBox)

void            pin_answer_view_set        (PinAnswerView     *self,
                                            PinLibrary        *library,
                                            const PinWalk     *walk,
                                            const PinQuestion *question,
                                            PinDraft          *draft);
void            pin_answer_view_clear      (PinAnswerView     *self);
gboolean        pin_answer_view_digit      (PinAnswerView     *self,
                                            const char        *digit);
PinMeasureView *pin_answer_view_measure    (PinAnswerView     *self);
PinOutcome      pin_answer_view_proposal   (PinAnswerView     *self);
void            pin_answer_view_ask_reason (PinAnswerView     *self,
                                            gboolean           ask);
gboolean        pin_answer_view_asks_reason(PinAnswerView     *self);
void            pin_answer_view_set_tight (PinAnswerView *self,
                                           gboolean       tight);

G_END_DECLS
