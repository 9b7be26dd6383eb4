#pragma once

#include <gtk/gtk.h>

#include "inspection/walk.h"
#include "library/library.h"
#include "window/draft.h"

G_BEGIN_DECLS

/* What is noted with a reading and the walk cannot know by itself: the air's
 * temperature, the tyres.  What was said last in this walk is offered again. */

#define PIN_TYPE_CONDITION_LIST (pin_condition_list_get_type ())
G_DECLARE_FINAL_TYPE (PinConditionList, pin_condition_list, PIN, CONDITION_LIST, GtkBox)

void  pin_condition_list_set        (PinConditionList *self,
                                     PinLibrary       *library,
                                     const PinWalk    *walk,
                                     const PinMeasure *measure,
                                     PinDraft         *draft);
void  pin_condition_list_clear      (PinConditionList *self);
char *pin_condition_title           (const char       *title,
                                     const PinUnit   **unit);
char *pin_condition_of              (const char       *conditions,
                                     const char       *name);

G_END_DECLS
