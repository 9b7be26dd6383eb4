#include "window/vehicle-page-private.h"

#include <glib/gi18n.h>

#include "inspection/walk.h"
#include "window/change.h"
#include "window/tell.h"

/* What can be done to the vehicle from its page and its lists. */

static gint64
id_of (GVariant *parameter)
{
  return g_ascii_strtoll (g_variant_get_string (parameter, NULL), NULL, 10);
}

static PinDeedDone *
new_change (PinVehiclePage *self)
{
  return pin_deed_done_new (pin_desk_book (self->desk), pin_desk_person (self->desk));
}

static void
finish (PinVehiclePage *self, PinDeedDone *done, gboolean good, GError **error)
{
  if (good)
    {
      pin_change_write (GTK_WIDGET (self), self->desk, done, self->vehicle, 0, NULL);
      return;
    }
  pin_tell_error (GTK_WIDGET (self), _("Nothing was changed:"), *error);
  pin_deed_done_free (done);
}

static const PinFindingRow *
finding (PinVehiclePage *self, gint64 id)
{
  for (guint i = 0; self->view != NULL && i < self->view->findings->len; i++)
    {
      const PinFindingLine *line = g_ptr_array_index (self->view->findings, i);

      if (line->row->id == id)
        return line->row;
    }
  return NULL;
}

static const char *
finding_note (PinVehiclePage *self)
{
  const char *note = gtk_editable_get_text (GTK_EDITABLE (self->finding_note));

  return *note != '\0' ? note : NULL;
}

static void
accept_finding (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  PinVehiclePage *self = user_data;
  const PinFindingRow *row = finding (self, id_of (parameter));
  g_autoptr (GError) error = NULL;
  PinDeedDone *done;

  if (row == NULL)
    return;
  done = new_change (self);
  finish (self, done, pin_inventory_accept (done, self->view->car, row, finding_note (self), &error),
          &error);
  gtk_editable_set_text (GTK_EDITABLE (self->finding_note), "");
}

static void
close_finding (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  PinVehiclePage *self = user_data;
  const PinFindingRow *row = finding (self, id_of (parameter));
  g_autoptr (GError) error = NULL;
  PinDeedDone *done;

  if (row == NULL)
    return;
  done = new_change (self);
  finish (self, done, pin_inventory_close (done, self->view->car, row, finding_note (self), &error),
          &error);
  gtk_editable_set_text (GTK_EDITABLE (self->finding_note), "");
}

static void
settle (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  PinVehiclePage *self = user_data;
  GPtrArray *owed = self->view != NULL ? self->view->car->rows->owed : NULL;

  for (guint i = 0; owed != NULL && i < owed->len; i++)
    {
      const PinOwed *row = g_ptr_array_index (owed, i);
      g_autoptr (GError) error = NULL;

      if (row->id == id_of (parameter))
        {
          PinDeedDone *done = new_change (self);

          finish (self, done, pin_inventory_settle (done, pin_desk_library (self->desk),
                                                    self->view->car, row, &error), &error);
          return;
        }
    }
}

static void
add_positions (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  PinVehiclePage *self = user_data;
  g_autoptr (GPtrArray) missing = NULL;
  g_autoptr (GError) error = NULL;
  PinDeedDone *done;

  if (self->view == NULL)
    return;
  missing = pin_inventory_missing_positions (self->view->car);
  done = new_change (self);
  finish (self, done, pin_inventory_add_positions (done, pin_desk_library (self->desk), self->view->car,
                                                   missing, NULL, &error), &error);
}

/* ---- beginning a walk ------------------------------------------------------------ */

typedef struct
{
  PinVehiclePage *page;       /* owned */
  gint64 inspection;
} Begin;

static void
begun (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Begin *begin = user_data;
  g_autoptr (GError) error = NULL;
  g_autofree char *id = g_strdup_printf ("%" G_GINT64_FORMAT, begin->inspection);

  if (!pin_desk_write_finish (PIN_DESK (source), result, &error))
    pin_tell_error (GTK_WIDGET (begin->page), _("The inspection was not begun:"), error);
  else
    gtk_widget_activate_action (GTK_WIDGET (begin->page), "win.bench", "s", id);
  g_object_unref (begin->page);
  g_free (begin);
}

static void
start (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  PinVehiclePage *self = user_data;
  g_autoptr (GError) error = NULL;
  PinBatch *batch;
  Begin *begin;
  gint64 id;

  if (self->view == NULL)
    return;
  batch = pin_batch_new (pin_desk_book (self->desk));
  id = pin_walk_begin (batch, pin_desk_library (self->desk), self->view->car,
                       g_variant_get_string (parameter, NULL), pin_desk_person (self->desk), &error);
  if (id == 0)
    {
      pin_tell_error (GTK_WIDGET (self), _("The inspection was not begun:"), error);
      pin_batch_free (batch);
      return;
    }
  begin = g_new0 (Begin, 1);
  begin->page = g_object_ref (self);
  begin->inspection = id;
  pin_desk_write (self->desk, batch, self->vehicle, begun, begin);
}

static const GActionEntry entries[] = {
  { "accept", accept_finding, "s" },
  { "close", close_finding, "s" },
  { "settle", settle, "s" },
  { "add-positions", add_positions },
  { "start", start, "s" },
};

void
pin_vehicle_page_add_actions (PinVehiclePage *self)
{
  g_autoptr (GSimpleActionGroup) group = g_simple_action_group_new ();

  g_action_map_add_action_entries (G_ACTION_MAP (group), entries, G_N_ELEMENTS (entries), self);
  gtk_widget_insert_action_group (GTK_WIDGET (self), "vehicle", G_ACTION_GROUP (group));
}
