#pragma once

#include <gtk/gtk.h>

#include "service/walk-record.h"
#include "window/desk.h"

G_BEGIN_DECLS

/* A form that puts an answer of a signed inspection right: what stands, what it
 * should be, why, and who says so.  Says "closed" when it is done with. */

#define PIN_TYPE_CORRECT_ANSWER (pin_correct_answer_get_type ())
G_DECLARE_FINAL_TYPE (PinCorrectAnswer, pin_correct_answer, PIN, CORRECT_ANSWER, GtkBox)

/* @record is borrowed until the next call of pin_correct_answer_set_record(). */
gboolean pin_correct_answer_show       (PinCorrectAnswer    *self,
                                        PinDesk             *desk,
                                        const PinWalkRecord *record,
                                        const PinRecordLine *line);
/* The same inspection, read again; NULL: none any more. */
void     pin_correct_answer_set_record (PinCorrectAnswer    *self,
                                        const PinWalkRecord *record);

G_END_DECLS
