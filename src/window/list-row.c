#include "window/list-row.h"

#include "window/fields.h"

typedef struct
{
  GObject *item;              /* owned, or NULL */
} PinListRowPrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (PinListRow, pin_list_row, GTK_TYPE_BOX)

enum
{
  PROP_0,
  PROP_ITEM,
};

static PinListRowPrivate *
of (gpointer self)
{
  return pin_list_row_get_instance_private (self);
}

static void
name_row (PinListRow *self)
{
  GtkWidget *parent = gtk_widget_get_parent (GTK_WIDGET (self));
  g_autofree char *name = NULL;

  if (parent == NULL || of (self)->item == NULL)
    return;
  name = PIN_LIST_ROW_GET_CLASS (self)->name (of (self)->item);
  pin_field_name (parent, name);
}

static void
pin_list_row_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  PinListRow *self = PIN_LIST_ROW (object);

  if (id != PROP_ITEM)
    {
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
      return;
    }
  g_set_object (&of (self)->item, g_value_get_object (value));
  if (of (self)->item == NULL)
    return;
  PIN_LIST_ROW_GET_CLASS (self)->show (self, of (self)->item);
  name_row (self);
}

/* The list's own widget becomes known only now. */
static void
pin_list_row_root (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (pin_list_row_parent_class)->root (widget);
  name_row (PIN_LIST_ROW (widget));
}

static void
pin_list_row_dispose (GObject *object)
{
  g_clear_object (&of (object)->item);
  G_OBJECT_CLASS (pin_list_row_parent_class)->dispose (object);
}

static void
pin_list_row_class_init (PinListRowClass *klass)
{
  G_OBJECT_CLASS (klass)->set_property = pin_list_row_set_property;
  G_OBJECT_CLASS (klass)->dispose = pin_list_row_dispose;
  GTK_WIDGET_CLASS (klass)->root = pin_list_row_root;
  g_object_class_install_property (G_OBJECT_CLASS (klass), PROP_ITEM,
    g_param_spec_object ("item", NULL, NULL, G_TYPE_OBJECT, G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS));
}

static void
pin_list_row_init (PinListRow *self)
{
}

/* What it shows; NULL: nothing yet. */
gpointer
pin_list_row_item (gpointer self)
{
  return of (self)->item;
}
