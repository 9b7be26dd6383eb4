#include "window/stable-page.h"

#include <glib/gi18n.h>

#include "base/day.h"
#include "service/stable.h"
#include "window/list-fill.h"
#include "window/stable-layout.h"
#include "window/stable-row.h"
#include "window/start-page.h"
#include "window/tell.h"
#include "window/vehicle-item.h"

#define FIRST 12              /* vehicles that are read first */

struct _PinStablePage
{
  GtkWidget parent_instance;

  PinDesk *desk;              /* owned */
  GCancellable *reading;      /* the newest reading; older ones are dropped */
  gboolean stale;             /* the book knows more than the page shows */
  gboolean adding;            /* the person asked for the start page */

  GtkStack *states;           /* template */
  GtkLabel *sentence, *on_day;
  GtkListView *list;
  GListStore *rows;
  PinListFill *fill;          /* of the rows */
  PinStartPage *start;
  GtkButton *demo;
};

G_DEFINE_FINAL_TYPE (PinStablePage, pin_stable_page, GTK_TYPE_WIDGET)

static void
show_state (PinStablePage *self)
{
  gboolean empty = g_list_model_get_n_items (G_LIST_MODEL (self->rows)) == 0;

  pin_start_page_set_first (self->start, empty);
  gtk_stack_set_visible_child_name (self->states, empty || self->adding ? "start" : "list");
}

/* What a reading brings to the page. */
typedef struct
{
  GPtrArray *items;           /* PinVehicleItem*; theirs once they are shown */
  GPtrArray *names;           /* the same */
  char *sentence;
  gboolean more;              /* only the first are read */
} Seen;

static void
seen_free (gpointer data)
{
  Seen *seen = data;

  g_clear_pointer (&seen->items, g_ptr_array_unref);
  g_clear_pointer (&seen->names, g_ptr_array_unref);
  g_free (seen->sentence);
  g_free (seen);
}

static void
show_stable (PinStablePage *self, Seen *seen)
{
  g_autofree char *day = pin_day_long (pin_desk_day (self->desk));
  g_autofree char *on_day = g_strdup_printf (_("On %s"), day);

  pin_list_fill_with (self->fill, g_steal_pointer (&seen->items), seen->more);
  gtk_label_set_label (self->on_day, on_day);
  if (!seen->more)
    {
      gtk_label_set_label (self->sentence, seen->sentence);
      pin_desk_take_names (self->desk, g_steal_pointer (&seen->names));
    }
  show_state (self);
}

typedef struct
{
  PinLibrary *library;        /* the desk's */
  guint most;                 /* so many vehicles; 0: all */
} Wanted;

/* On the book's thread, items and all: the main loop only shows them. */
static gpointer
load_stable (PinDb *db, gpointer data, GError **error)
{
  const Wanted *wanted = data;
  gboolean more = FALSE;
  PinStableRows *rows = wanted->most > 0 ? pin_stable_rows_load_first (db, wanted->most, &more, error)
                                         : pin_stable_rows_load (db, error);
  g_autoptr (PinStable) stable =
      rows != NULL ? pin_stable_new (rows, wanted->library, pin_now (), error) : NULL;
  Seen *seen;

  if (stable == NULL)
    return NULL;
  seen = g_new0 (Seen, 1);
  seen->more = more;
  seen->sentence = g_strdup (stable->sentence);
  seen->names = pin_stable_names (stable);
  seen->items = g_ptr_array_new_with_free_func (g_object_unref);
  for (guint i = 0; i < stable->vehicles->len; i++)
    g_ptr_array_add (seen->items, pin_vehicle_item_new (g_ptr_array_index (stable->vehicles, i)));
  return seen;
}

static void read_rows (PinStablePage *self, guint most);

static void
stable_loaded (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (PinStablePage) self = user_data;
  g_autoptr (GError) error = NULL;
  Seen *seen = pin_desk_read_finish (PIN_DESK (source), result, &error);

  if (seen == NULL)
    {
      pin_tell_error (GTK_WIDGET (self), _("The stable could not be read:"), error);
      return;
    }
  if (self->desk == PIN_DESK (source))
    {
      show_stable (self, seen);
      if (seen->more)
        read_rows (self, 0);
    }
  seen_free (seen);
}

/* The newest reading counts. */
static void
read_rows (PinStablePage *self, guint most)
{
  Wanted wanted = { pin_desk_library (self->desk), most };

  self->stale = FALSE;
  g_cancellable_cancel (self->reading);
  g_clear_object (&self->reading);
  self->reading = g_cancellable_new ();
  pin_desk_read (self->desk, load_stable, g_memdup2 (&wanted, sizeof wanted), g_free, seen_free,
                 self->reading, stable_loaded, g_object_ref (self));
}

/* In a large stable the first screenful comes first. */
static void
read_anew (PinStablePage *self)
{
  gboolean empty = g_list_model_get_n_items (G_LIST_MODEL (self->rows)) == 0;

  read_rows (self, empty ? FIRST : 0);
}

/* A page that is not seen reads when it is. */
static void
read_if_seen (PinStablePage *self)
{
  self->stale = TRUE;
  if (gtk_widget_get_mapped (GTK_WIDGET (self)) && self->desk != NULL)
    read_anew (self);
}

static void
on_changed (PinDesk *desk, gint64 vehicle, PinStablePage *self)
{
  read_if_seen (self);
}

static void
pin_stable_page_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (pin_stable_page_parent_class)->map (widget);
  if (PIN_STABLE_PAGE (widget)->stale)
    read_if_seen (PIN_STABLE_PAGE (widget));
}

static void
on_activate (PinStablePage *self, guint position)
{
  g_autoptr (PinVehicleItem) item = g_list_model_get_item (G_LIST_MODEL (self->rows), position);
  g_autofree char *id = g_strdup_printf ("%" G_GINT64_FORMAT, item->id);

  gtk_widget_activate_action (GTK_WIDGET (self), "win.vehicle", "s", id);
}

static void
on_added (PinStablePage *self)
{
  self->adding = FALSE;
  show_state (self);
}

static void
on_cancelled (PinStablePage *self)
{
  self->adding = FALSE;
  show_state (self);
}

static void
drop_desk (PinStablePage *self)
{
  g_cancellable_cancel (self->reading);
  g_clear_object (&self->reading);
  if (self->desk != NULL)
    g_signal_handlers_disconnect_by_data (self->desk, self);
  g_clear_object (&self->desk);
}

static void
pin_stable_page_dispose (GObject *object)
{
  PinStablePage *self = PIN_STABLE_PAGE (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  drop_desk (self);
  g_clear_pointer (&self->fill, pin_list_fill_free);
  if (child != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (pin_stable_page_parent_class)->dispose (object);
}

static void
pin_stable_page_class_init (PinStablePageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pin_stable_page_dispose;
  widget_class->map = pin_stable_page_map;
  g_type_ensure (PIN_TYPE_VEHICLE_ITEM);
  g_type_ensure (PIN_TYPE_STABLE_ROW);
  g_type_ensure (PIN_TYPE_STABLE_LAYOUT);
  g_type_ensure (PIN_TYPE_START_PAGE);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/stable-page.ui");
  gtk_widget_class_bind_template_child (widget_class, PinStablePage, states);
  gtk_widget_class_bind_template_child (widget_class, PinStablePage, sentence);
  gtk_widget_class_bind_template_child (widget_class, PinStablePage, on_day);
  gtk_widget_class_bind_template_child (widget_class, PinStablePage, list);
  gtk_widget_class_bind_template_child (widget_class, PinStablePage, rows);
  gtk_widget_class_bind_template_child (widget_class, PinStablePage, start);
  gtk_widget_class_bind_template_child (widget_class, PinStablePage, demo);
  gtk_widget_class_bind_template_callback (widget_class, on_activate);
  gtk_widget_class_bind_template_callback (widget_class, on_added);
  gtk_widget_class_bind_template_callback (widget_class, on_cancelled);
}

static void
pin_stable_page_init (PinStablePage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->fill = pin_list_fill_new (GTK_WIDGET (self), self->rows, pin_vehicle_item_equal);
#ifndef PIN_HAVE_DEMO
  gtk_widget_set_visible (GTK_WIDGET (self->demo), FALSE);
#endif
}

void
pin_stable_page_set_desk (PinStablePage *self, PinDesk *desk)
{
  drop_desk (self);
  self->desk = g_object_ref (desk);
  self->adding = FALSE;
  pin_start_page_set_desk (self->start, desk);
  g_signal_connect (desk, "changed", G_CALLBACK (on_changed), self);
  g_signal_connect_swapped (desk, "day-changed", G_CALLBACK (read_if_seen), self);
  /* Another book: nothing of the old one stays. */
  pin_list_fill_with (self->fill, g_ptr_array_new (), FALSE);
  gtk_label_set_label (self->sentence, "");
  read_anew (self);
}

/* Shows the page that adds a vehicle. */
void
pin_stable_page_add (PinStablePage *self)
{
  if (self->desk == NULL)
    return;
  self->adding = TRUE;
  show_state (self);
}

/* No book is open, and the one that was wanted cannot be. */
void
pin_stable_page_show_none (PinStablePage *self)
{
  gtk_stack_set_visible_child_name (self->states, "none");
}
