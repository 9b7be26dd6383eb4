#include "window/change.h"

#include <glib/gi18n.h>

#include "window/tell.h"

typedef struct
{
  GtkWidget *from;            /* owned */
  PinDesk *desk;              /* owned */
  PinDeedDone *done;          /* owned */
  gint64 vehicle, done_id;
  PinChanged changed;
} Change;

static void
change_free (gpointer data)
{
  Change *change = data;

  g_clear_object (&change->from);
  g_clear_object (&change->desk);
  g_clear_pointer (&change->done, pin_deed_done_free);
  g_free (change);
}

static void
undone (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GtkWidget) window = user_data;
  g_autoptr (GError) error = NULL;

  if (!pin_desk_write_finish (PIN_DESK (source), result, &error))
    pin_tell_error (window, _("Not taken back:"), error);
}

static void
undo (GtkWidget *window, gpointer data)
{
  Change *change = data;

  pin_desk_write (change->desk, pin_deed_done_undo (change->done, pin_desk_book (change->desk)),
                  change->vehicle, undone, g_object_ref (window));
}

static void
written (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Change *change = user_data;
  g_autoptr (GError) error = NULL;

  if (!pin_desk_write_finish (PIN_DESK (source), result, &error))
    {
      pin_tell_error (change->from, _("Nothing was written:"), error);
      if (change->changed != NULL)
        change->changed (change->from, FALSE, change->done_id);
      change_free (change);
      return;
    }
  if (change->changed != NULL)
    change->changed (change->from, TRUE, change->done_id);
  pin_tell_undo (change->from, _("Kept:"), pin_deed_done_text (change->done), undo, change,
                 change_free);
}

/* Takes @done.  The strip that tells of it offers the way back. */
void
pin_change_write (GtkWidget   *from,
                  PinDesk     *desk,
                  PinDeedDone *done,
                  gint64       vehicle,
                  gint64       done_id,
                  PinChanged   changed)
{
  Change *change = g_new0 (Change, 1);

  change->from = g_object_ref (from);
  change->desk = g_object_ref (desk);
  change->done = done;
  change->vehicle = vehicle;
  change->done_id = done_id;
  change->changed = changed;
  pin_desk_write (desk, pin_deed_done_steal_batch (done), vehicle, written, change);
}
