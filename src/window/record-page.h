#pragma once

#include <gtk/gtk.h>

#include "window/desk.h"

G_BEGIN_DECLS

/* One inspection as a record, to be read and not to be changed: what was found
 * and how it was left, by system and position. */

#define PIN_TYPE_RECORD_PAGE (pin_record_page_get_type ())
G_DECLARE_FINAL_TYPE (PinRecordPage, pin_record_page, PIN, RECORD_PAGE, GtkWidget)

void        pin_record_page_set_desk (PinRecordPage *self,
                                      PinDesk       *desk);
void        pin_record_page_show     (PinRecordPage *self,
                                      gint64         inspection);
const char *pin_record_page_name     (PinRecordPage *self);

G_END_DECLS
