#include "window/flow-child.h"

struct _PinFlowChild
{
  GtkFlowBoxChild parent_instance;
};

G_DEFINE_FINAL_TYPE (PinFlowChild, pin_flow_child, GTK_TYPE_FLOW_BOX_CHILD)

static gboolean
pin_flow_child_focus (GtkWidget *widget, GtkDirectionType direction)
{
  GtkWidget *child = gtk_flow_box_child_get_child (GTK_FLOW_BOX_CHILD (widget));

  return child != NULL && gtk_widget_child_focus (child, direction);
}

static gboolean
pin_flow_child_grab_focus (GtkWidget *widget)
{
  GtkWidget *child = gtk_flow_box_child_get_child (GTK_FLOW_BOX_CHILD (widget));

  return child != NULL && gtk_widget_grab_focus (child);
}

static void
pin_flow_child_class_init (PinFlowChildClass *klass)
{
  GTK_WIDGET_CLASS (klass)->focus = pin_flow_child_focus;
  GTK_WIDGET_CLASS (klass)->grab_focus = pin_flow_child_grab_focus;
}

static void
pin_flow_child_init (PinFlowChild *self)
{
  gtk_widget_set_focusable (GTK_WIDGET (self), FALSE);
}

void
pin_flow_add (GtkFlowBox *box, GtkWidget *child)
{
  GtkWidget *place = g_object_new (PIN_TYPE_FLOW_CHILD, "child", child, NULL);

  /* The box passes over what cannot be used. */
  g_object_bind_property (child, "sensitive", place, "sensitive", G_BINDING_SYNC_CREATE);
  gtk_flow_box_insert (box, place, -1);
}
