#pragma once

#include <gtk/gtk.h>

#include "window/choice.h"

G_BEGIN_DECLS

/* Record work on the chosen parts: starts blank, so that nothing is recorded by habit. */

#define PIN_TYPE_RECORD_WORK (pin_record_work_get_type ())
G_DECLARE_FINAL_TYPE (PinRecordWork, pin_record_work, PIN, RECORD_WORK, GtkBox)

void pin_record_work_set_choice (PinRecordWork *self,
                        const PinChoice *choice);

G_END_DECLS
