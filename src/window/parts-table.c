#include "window/parts-table.h"

#include "window/mark-image.h"
#include "window/part-item.h"
#include "window/tab-stop.h"

struct _PinPartsTable
{
  GtkWidget parent_instance;

  char *layer;                /* NULL: all */
  gboolean settling;          /* the selection is being set, not made */
  gint64 vehicle;             /* whose parts are in it; 0: none yet */
  GPtrArray *filling;         /* PinPartItem*: all rows to come, or NULL */
  guint filled;               /* of them are in the table */
  guint tick;                 /* goes on filling; 0: none */
  GPtrArray *wanted;          /* char*: chosen, while filling */

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

static GPtrArray *
selected (PinPartsTable *self)
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

/* Returns the first position that was chosen, G_MAXUINT: none. */
static guint
select_codes (PinPartsTable *self, GPtrArray *codes)
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
  return gtk_bitset_is_empty (chosen) ? G_MAXUINT : gtk_bitset_get_minimum (chosen);
}

static gpointer
copy_code (gconstpointer code, gpointer data)
{
  return g_strdup (code);
}

static GPtrArray *
copy_codes (GPtrArray *codes)
{
  GPtrArray *copy = g_ptr_array_copy (codes, copy_code, NULL);

  g_ptr_array_set_free_func (copy, g_free);
  return copy;
}

static void
want (PinPartsTable *self, GPtrArray *codes)
{
  g_clear_pointer (&self->wanted, g_ptr_array_unref);
  self->wanted = codes;
}

static void
on_selection (PinPartsTable *self)
{
  if (self->settling)
    return;
  if (self->filling != NULL)
    want (self, selected (self));
  g_signal_emit (self, chosen_changed, 0);
}

static void
stop_filling (PinPartsTable *self)
{
  if (self->tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->tick);
  self->tick = 0;
  g_clear_pointer (&self->filling, g_ptr_array_unref);
  g_clear_pointer (&self->wanted, g_ptr_array_unref);
}

static void
pin_parts_table_dispose (GObject *object)
{
  PinPartsTable *self = PIN_PARTS_TABLE (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  stop_filling (self);
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
  g_type_ensure (PIN_TYPE_TAB_STOP);
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

/* ---- filling ------------------------------------------------------------------ */

/* GTK takes near two milliseconds to make a row, and as long to lay it out: so many
 * with each frame. */
#define IN_A_FRAME 1

static gboolean
is_there (PinPartsTable *self, guint at)
{
  g_autoptr (PinPartItem) old = g_list_model_get_item (G_LIST_MODEL (self->rows), at);

  return old != NULL && pin_part_item_equal (old, g_ptr_array_index (self->filling, at));
}

/* Puts the next @n rows in the place of the old ones; rows that say the same
 * stay.  TRUE: there are more. */
static gboolean
fill (PinPartsTable *self, guint n)
{
  guint old = g_list_model_get_n_items (G_LIST_MODEL (self->rows));
  guint all = self->filling->len;

  while (self->filled < all && is_there (self, self->filled))
    self->filled++;
  n = MIN (n, all - self->filled);
  self->settling = TRUE;
  g_list_store_splice (self->rows, self->filled, MIN (n, old - self->filled),
                       self->filling->pdata + self->filled, n);
  self->filled += n;
  old = g_list_model_get_n_items (G_LIST_MODEL (self->rows));
  if (self->filled == all && old > all)
    g_list_store_splice (self->rows, all, old - all, NULL, 0);
  self->settling = FALSE;
  select_codes (self, self->wanted);
  return self->filled < all;
}

/* Once a frame: what is put in between two frames is laid out in one turn. */
static gboolean
go_on_filling (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  PinPartsTable *self = data;

  if (fill (self, IN_A_FRAME))
    return G_SOURCE_CONTINUE;
  self->tick = 0;
  stop_filling (self);
  return G_SOURCE_REMOVE;
}

void
pin_parts_table_set_view (PinPartsTable *self, const PinVehicleView *view)
{
  GPtrArray *chosen = pin_parts_table_chosen (self);

  stop_filling (self);
  want (self, chosen);
  /* A row that is replaced in the middle costs work for all that follow. */
  self->settling = TRUE;
  if (self->vehicle != view->car->id)
    g_list_store_remove_all (self->rows);
  self->settling = FALSE;
  self->vehicle = view->car->id;
  self->filling = g_ptr_array_new_with_free_func (g_object_unref);
  self->filled = 0;
  for (guint i = 0; i < view->parts->len; i++)
    g_ptr_array_add (self->filling, pin_part_item_new (g_ptr_array_index (view->parts, i)));
  if (fill (self, IN_A_FRAME))
    self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), go_on_filling, self, NULL);
  else
    stop_filling (self);
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

/* Chooses what is in the table now; what is still to come is chosen with it. */
void
pin_parts_table_choose (PinPartsTable *self, GPtrArray *codes)
{
  guint first;

  if (self->filling != NULL)
    want (self, copy_codes (codes));
  first = select_codes (self, codes);
  if (first != G_MAXUINT)
    scroll_to (self, first);
}

/* The codes (char *) of what is chosen.  Returns: (transfer full) */
GPtrArray *
pin_parts_table_chosen (PinPartsTable *self)
{
  return self->wanted != NULL ? copy_codes (self->wanted) : selected (self);
}
