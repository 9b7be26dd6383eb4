#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Brings a list up to date without holding up the main loop: a row with each
 * frame. */
typedef struct _PinListFill PinListFill;

PinListFill *pin_list_fill_new   (GtkWidget   *on,
                                  GListStore  *store,
                                  GEqualFunc   same);
void         pin_list_fill_free  (PinListFill *self);
GListStore  *pin_list_fill_store (PinListFill *self);
void         pin_list_fill_with  (PinListFill *self,
                                  GPtrArray   *items,
                                  gboolean     more);

G_END_DECLS
