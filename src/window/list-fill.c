#include "window/list-fill.h"

/* GTK takes two to five milliseconds to make a row, lay it out and draw it, and
 * makes about two hundred, in sight or not; rows beyond those cost nothing. */
#define MOST_WIDGETS 220

struct _PinListFill
{
  GtkWidget *on;              /* whose frames count; outlives this */
  GListStore *store;          /* owned */
  GEqualFunc same;            /* would both be shown alike?  NULL: never */
  GPtrArray *items;           /* GObject*: what is to be in the list, or NULL */
  guint filled;               /* of them are */
  gboolean more;              /* and what stands behind them stays */
  guint tick;                 /* goes on; 0: none */
};

PinListFill *
pin_list_fill_new (GtkWidget *on, GListStore *store, GEqualFunc same)
{
  PinListFill *self = g_new0 (PinListFill, 1);

  self->on = on;
  self->store = g_object_ref (store);
  self->same = same;
  return self;
}

static void
stop (PinListFill *self)
{
  if (self->tick != 0)
    gtk_widget_remove_tick_callback (self->on, self->tick);
  self->tick = 0;
  g_clear_pointer (&self->items, g_ptr_array_unref);
}

void
pin_list_fill_free (PinListFill *self)
{
  stop (self);
  g_object_unref (self->store);
  g_free (self);
}

GListStore *
pin_list_fill_store (PinListFill *self)
{
  return self->store;
}

static gboolean
is_there (PinListFill *self)
{
  g_autoptr (GObject) old = g_list_model_get_item (G_LIST_MODEL (self->store), self->filled);

  return old != NULL && self->same != NULL
         && self->same (old, g_ptr_array_index (self->items, self->filled));
}

/* The next in the place of the old one; rows that say the same stay, with the
 * widget that shows them.  TRUE: there are more. */
static gboolean
fill (PinListFill *self)
{
  guint n = 1;
  guint old = g_list_model_get_n_items (G_LIST_MODEL (self->store));

  while (self->filled < self->items->len && is_there (self))
    self->filled++;
  if (self->filled >= MOST_WIDGETS || self->filled == self->items->len)
    n = self->items->len - self->filled;
  if (n > 0)
    g_list_store_splice (self->store, self->filled, MIN (n, old - self->filled),
                         self->items->pdata + self->filled, n);
  self->filled += n;
  if (self->filled < self->items->len)
    return TRUE;
  old = g_list_model_get_n_items (G_LIST_MODEL (self->store));
  if (!self->more && old > self->filled)
    g_list_store_splice (self->store, self->filled, old - self->filled, NULL, 0);
  return FALSE;
}

/* Once a frame: what is put in between two frames is laid out in one turn. */
static gboolean
go_on (GtkWidget *on, GdkFrameClock *clock, gpointer data)
{
  PinListFill *self = data;

  if (fill (self))
    return G_SOURCE_CONTINUE;
  self->tick = 0;
  stop (self);
  return G_SOURCE_REMOVE;
}

/* A row that is replaced in the middle costs work for all that follow; where few
 * can stay, the list begins anew. */
static void
drop_others (PinListFill *self)
{
  guint old = g_list_model_get_n_items (G_LIST_MODEL (self->store));
  guint same = 0;

  for (self->filled = 0; self->filled < MIN (old, self->items->len); self->filled++)
    same += is_there (self) ? 1 : 0;
  if (2 * same < old)
    g_list_store_remove_all (self->store);
  self->filled = 0;
}

/* Takes @items (GObject*, owned by the array).  @more: only the first of them. */
void
pin_list_fill_with (PinListFill *self, GPtrArray *items, gboolean more)
{
  stop (self);
  self->items = items;
  self->more = more;
  drop_others (self);
  if (fill (self))
    self->tick = gtk_widget_add_tick_callback (self->on, go_on, self, NULL);
  else
    stop (self);
}
