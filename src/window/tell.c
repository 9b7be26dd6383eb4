#include "window/tell.h"

#include <glib/gi18n.h>

#include "window/window.h"

static PinWindow *
window_of (GtkWidget *from)
{
  GtkRoot *root = PIN_IS_WINDOW (from) ? GTK_ROOT (from) : gtk_widget_get_root (from);

  return PIN_IS_WINDOW (root) ? PIN_WINDOW (root) : NULL;
}

static void
show (GtkWidget *from, PinStrip *strip)
{
  PinWindow *window = window_of (from);

  g_object_ref_sink (strip);
  if (window != NULL)
    pin_window_add_strip (window, strip);
  g_object_unref (strip);
}

void
pin_tell_error (GtkWidget *from, const char *title, const GError *error)
{
  if (error != NULL && g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  g_info ("%s %s", title, error != NULL ? error->message : "");
  show (from, pin_strip_new (PIN_STRIP_ERROR, title, error != NULL ? error->message : NULL));
}

/* What went wrong went right since: its strips close. */
void
pin_tell_settled (GtkWidget *from)
{
  PinWindow *window = window_of (from);

  if (window != NULL)
    pin_window_close_errors (window);
}

void
pin_tell_done (GtkWidget *from, const char *title, const char *text)
{
  show (from, pin_strip_new (PIN_STRIP_DONE, title, text));
}

/* Ctrl+Z and the strip's button do the same. */
void
pin_tell_undo (GtkWidget      *from,
               const char     *title,
               const char     *text,
               PinUndo         undo,
               gpointer        data,
               GDestroyNotify  data_free)
{
  PinWindow *window = window_of (from);

  if (window != NULL)
    pin_window_offer_undo (window, title, text, undo, data, data_free);
  else if (data_free != NULL)
    data_free (data);
}

static void
cancel (gpointer data)
{
  g_cancellable_cancel (data);
}

/* Close the strip when the work ends.  Returns: (transfer full) */
PinStrip *
pin_tell_working (GtkWidget *from, const char *title, GCancellable *cancellable)
{
  PinStrip *strip = pin_strip_new (PIN_STRIP_WORKING, title, NULL);

  g_object_ref_sink (strip);
  if (cancellable != NULL)
    pin_strip_add_button (strip, _("Cancel"), NULL, cancel, g_object_ref (cancellable),
                          g_object_unref);
  show (from, strip);
  return strip;
}
