#pragma once

#include "book/book.h"
#include "window/texts.h"

#include <gio/gio.h>

G_BEGIN_DECLS

/* What the pages of one window share: the open book, the shelf of texts, who
 * is at the bench.  Says "changed" when a batch of facts has become durable. */

#define PIN_TYPE_DESK (pin_desk_get_type ())
G_DECLARE_FINAL_TYPE (PinDesk, pin_desk, PIN, DESK, GObject)

PinDesk    *pin_desk_new           (PinBook              *book,
                                    PinTexts             *texts);
PinBook    *pin_desk_book          (PinDesk              *self);
PinLibrary *pin_desk_library       (PinDesk              *self);
const char *pin_desk_person        (PinDesk              *self);
void        pin_desk_set_person    (PinDesk              *self,
                                    const char           *person);
const char *pin_desk_day           (PinDesk              *self);
void        pin_desk_set_day       (PinDesk              *self,
                                    const char           *day);
GPtrArray  *pin_desk_names         (PinDesk              *self);
void        pin_desk_take_names    (PinDesk              *self,
                                    GPtrArray            *names);
void        pin_desk_read          (PinDesk              *self,
                                    PinBookJob            job,
                                    gpointer              data,
                                    GDestroyNotify        data_free,
                                    GDestroyNotify        result_free,
                                    GCancellable         *cancellable,
                                    GAsyncReadyCallback   callback,
                                    gpointer              user_data);
gpointer    pin_desk_read_finish   (PinDesk              *self,
                                    GAsyncResult         *result,
                                    GError              **error);
void        pin_desk_write         (PinDesk              *self,
                                    PinBatch             *batch,
                                    gint64                vehicle,
                                    GAsyncReadyCallback   callback,
                                    gpointer              user_data);
gboolean    pin_desk_write_finish  (PinDesk              *self,
                                    GAsyncResult         *result,
                                    GError              **error);

G_END_DECLS
