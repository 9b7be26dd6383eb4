#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* What the rows of the lists have in common: a row shows the "item" that it is
 * given, one after another as the list scrolls, and tells the list's own widget
 * around it by what name assistive technology reads it. */

#define PIN_TYPE_LIST_ROW (pin_list_row_get_type ())
G_DECLARE_DERIVABLE_TYPE (PinListRow, pin_list_row, PIN, LIST_ROW, GtkBox)

struct _PinListRowClass
{
  GtkBoxClass parent_class;

  void  (*show) (PinListRow *self, gpointer item);
  char *(*name) (gpointer item);          /* to be freed with g_free() */
};

gpointer pin_list_row_item (gpointer self);

G_END_DECLS
