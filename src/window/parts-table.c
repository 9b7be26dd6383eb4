#include "window/parts-table.h"

#include "window/mark-image.h"
#include "window/part-item.h"

struct _PinPartsTable
{
  GtkWidget parent_instance;

  char *layer;                /* NULL: all */
  gboolean settling;          /* the selection is being set, not made */

  GtkColumnView *table;       /* template */
  GtkMultiSelection *selection;
  GtkCustomFilter *filter;
  GListStore *rows;
};

G_DEFINE_FINAL_TYPE (PinPartsTable, pin_parts_table, GTK_TYPE_WIDGET)

static guint chosen_changed;

static gboolean
is_on_layer (gpointer item, gpointer data)
{
  PinPartsTable *self = data;

  return self->layer == NULL || g_strcmp0 (pin_part_item_group (item), self->layer) == 0;
}

static void
on_selection (PinPartsTable *self)
{
  if (!self->settling)
    g_signal_emit (self, chosen_changed, 0);
}

static void
pin_parts_table_dispose (GObject *object)
{
  PinPartsTable *self = PIN_PARTS_TABLE (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  g_clear_pointer (&self->layer, g_free);
  if (child != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (pin_parts_table_parent_class)->dispose (object);
}

static void
pin_parts_table_class_init (PinPartsTableClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pin_parts_table_dispose;
  g_type_ensure (PIN_TYPE_PART_ITEM);
  g_type_ensure (PIN_TYPE_MARK_IMAGE);
  chosen_changed = g_signal_new ("chosen-changed", PIN_TYPE_PARTS_TABLE, G_SIGNAL_RUN_LAST, 0, NULL,
                                 NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/parts-table.ui");
  gtk_widget_class_bind_template_child (widget_class, PinPartsTable, table);
  gtk_widget_class_bind_template_child (widget_class, PinPartsTable, selection);
  gtk_widget_class_bind_template_child (widget_class, PinPartsTable, filter);
  gtk_widget_class_bind_template_child (widget_class, PinPartsTable, rows);
  gtk_widget_class_bind_template_callback (widget_class, on_selection);
}

static void
pin_parts_table_init (PinPartsTable *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_custom_filter_set_filter_func (self->filter, is_on_layer, self, NULL);
}

void
pin_parts_table_set_view (PinPartsTable *self, const PinVehicleView *view)
{
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);
  g_autoptr (GPtrArray) chosen = pin_parts_table_chosen (self);

  for (guint i = 0; i < view->parts->len; i++)
    g_ptr_array_add (items, pin_part_item_new (g_ptr_array_index (view->parts, i)));
  self->settling = TRUE;
  g_list_store_splice (self->rows, 0, g_list_model_get_n_items (G_LIST_MODEL (self->rows)),
                       items->pdata, items->len);
  self->settling = FALSE;
  pin_parts_table_choose (self, chosen);
}

void
pin_parts_table_set_layer (PinPartsTable *self, const char *layer)
{
  g_free (self->layer);
  self->layer = layer != NULL && *layer != '\0' ? g_strdup (layer) : NULL;
  self->settling = TRUE;
  gtk_filter_changed (GTK_FILTER (self->filter), GTK_FILTER_CHANGE_DIFFERENT);
  self->settling = FALSE;
}

/* Brings the first of them into sight. */
static void
scroll_to (PinPartsTable *self, guint position)
{
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self->table)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_LIST_VIEW (child))
      gtk_widget_activate_action (child, "list.scroll-to-item", "u", position);
}

void
pin_parts_table_choose (PinPartsTable *self, GPtrArray *codes)
{
  GListModel *model = G_LIST_MODEL (self->selection);
  guint n = g_list_model_get_n_items (model);
  g_autoptr (GtkBitset) chosen = gtk_bitset_new_empty ();
  g_autoptr (GtkBitset) all = gtk_bitset_new_range (0, n);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (PinPartItem) item = g_list_model_get_item (model, i);

      if (g_ptr_array_find_with_equal_func (codes, pin_part_item_code (item), g_str_equal, NULL))
        gtk_bitset_add (chosen, i);
    }
  self->settling = TRUE;
  gtk_selection_model_set_selection (GTK_SELECTION_MODEL (self->selection), chosen, all);
  self->settling = FALSE;
  if (!gtk_bitset_is_empty (chosen))
    scroll_to (self, gtk_bitset_get_minimum (chosen));
}

/* The codes (char *) of what is chosen.  Returns: (transfer full) */
GPtrArray *
pin_parts_table_chosen (PinPartsTable *self)
{
  GPtrArray *codes = g_ptr_array_new_with_free_func (g_free);
  GListModel *model = G_LIST_MODEL (self->selection);

  for (guint i = 0; i < g_list_model_get_n_items (model); i++)
    {
      g_autoptr (PinPartItem) item = g_list_model_get_item (model, i);

      if (gtk_selection_model_is_selected (GTK_SELECTION_MODEL (self->selection), i))
        g_ptr_array_add (codes, g_strdup (pin_part_item_code (item)));
    }
  return codes;
}
