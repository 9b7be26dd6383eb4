#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A place in a flow box that Tab walks through: the usual one takes the focus for
 * itself, and one that may not be focused holds Tab up for good. */

#define PIN_TYPE_FLOW_CHILD (pin_flow_child_get_type ())
G_DECLARE_FINAL_TYPE (PinFlowChild, pin_flow_child, PIN, FLOW_CHILD, GtkFlowBoxChild)

/* @child at the end of @box. */
void pin_flow_add (GtkFlowBox *box,
                   GtkWidget  *child);

G_END_DECLS
