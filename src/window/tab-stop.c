#include "window/tab-stop.h"

struct _PinTabStop
{
  GtkWidget parent_instance;

  GtkWidget *list;            /* its only child, or NULL */
};

static void pin_tab_stop_buildable_init (GtkBuildableIface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (PinTabStop, pin_tab_stop, GTK_TYPE_WIDGET,
                               G_IMPLEMENT_INTERFACE (GTK_TYPE_BUILDABLE, pin_tab_stop_buildable_init))

static GtkBuildableIface *parent_iface;

static gboolean
pin_tab_stop_focus (GtkWidget *widget, GtkDirectionType direction)
{
  PinTabStop *self = PIN_TAB_STOP (widget);
  gboolean tab = direction == GTK_DIR_TAB_FORWARD || direction == GTK_DIR_TAB_BACKWARD;
  GtkListBoxRow *row = GTK_IS_LIST_BOX (self->list) ? gtk_list_box_get_selected_row (GTK_LIST_BOX (self->list)) : NULL;

  if (tab && gtk_widget_get_focus_child (widget) != NULL)
    return FALSE;
  if (tab && row != NULL)
    return gtk_widget_grab_focus (GTK_WIDGET (row));
  return self->list != NULL && gtk_widget_child_focus (self->list, direction);
}

static void
pin_tab_stop_add_child (GtkBuildable *buildable, GtkBuilder *builder, GObject *child, const char *type)
{
  PinTabStop *self = PIN_TAB_STOP (buildable);

  if (!GTK_IS_WIDGET (child) || self->list != NULL)
    {
      parent_iface->add_child (buildable, builder, child, type);
      return;
    }
  self->list = GTK_WIDGET (child);
  gtk_widget_set_parent (self->list, GTK_WIDGET (self));
}

static void
pin_tab_stop_buildable_init (GtkBuildableIface *iface)
{
  parent_iface = g_type_interface_peek_parent (iface);
  iface->add_child = pin_tab_stop_add_child;
}

static void
pin_tab_stop_dispose (GObject *object)
{
  PinTabStop *self = PIN_TAB_STOP (object);

  if (self->list != NULL)
    gtk_widget_unparent (g_steal_pointer (&self->list));
  G_OBJECT_CLASS (pin_tab_stop_parent_class)->dispose (object);
}

static void
pin_tab_stop_class_init (PinTabStopClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = pin_tab_stop_dispose;
  GTK_WIDGET_CLASS (klass)->focus = pin_tab_stop_focus;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
pin_tab_stop_init (PinTabStop *self)
{
}
