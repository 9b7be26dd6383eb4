#pragma once

#include <gtk/gtk.h>

#include "base/outcome.h"
#include "window/list-row.h"

G_BEGIN_DECLS

/* One line of a list: a finding, a debt, an inspection, an outing, a fact of
 * the set-up.  Buttons name the action that they call and what it is given. */

typedef struct
{
  const char *label;          /* NULL: no button */
  const char *name;           /* for assistive technology; NULL: the label and the title */
  const char *action;
  gint64 target;
} PinLineButton;

#define PIN_TYPE_LINE_ITEM (pin_line_item_get_type ())
G_DECLARE_FINAL_TYPE (PinLineItem, pin_line_item, PIN, LINE_ITEM, GObject)

PinLineItem *pin_line_item_new        (const char          *title,
                                       const char          *text,
                                       const char          *detail,
                                       const char          *day);
void         pin_line_item_set_mark   (PinLineItem         *self,
                                       PinOutcome           outcome,
                                       gboolean             unsafe);
void         pin_line_item_set_owed   (PinLineItem         *self);
void         pin_line_item_add_button (PinLineItem         *self,
                                       const PinLineButton *button);
gboolean     pin_line_item_equal      (gconstpointer        a,
                                       gconstpointer        b);

#define PIN_TYPE_LINE_ROW (pin_line_row_get_type ())
G_DECLARE_FINAL_TYPE (PinLineRow, pin_line_row, PIN, LINE_ROW, PinListRow)

G_END_DECLS
