#include "window/bench-page-private.h"

#include <glib/gi18n.h>

#include "sheet/photo.h"
#include "window/tell.h"

static void
read_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  GError *error = NULL;
  GBytes *jpeg = pin_photo_prepare (data, &error);

  if (jpeg != NULL)
    g_task_return_pointer (task, jpeg, (GDestroyNotify) g_bytes_unref);
  else
    g_task_return_error (task, error);
}

static void
read_done (GObject *source, GAsyncResult *result, gpointer user_data)
{
  PinBenchPage *self = PIN_BENCH_PAGE (source);
  g_autoptr (GError) error = NULL;
  GBytes *jpeg = g_task_propagate_pointer (G_TASK (result), &error);

  if (jpeg == NULL)
    {
      pin_tell_error (GTK_WIDGET (self), _("The photo could not be read:"), error);
      return;
    }
  if (self->draft == NULL)
    {
      g_bytes_unref (jpeg);
      return;
    }
  g_clear_pointer (&self->draft->photo, g_bytes_unref);
  self->draft->photo = jpeg;
  gtk_button_set_label (self->photo, _("Photo added"));
}

/* It goes with the next answer. */
void
pin_bench_page_take_photo (PinBenchPage *self, const char *path)
{
  g_autoptr (GTask) task = g_task_new (self, NULL, read_done, NULL);

  g_task_set_task_data (task, g_strdup (path), g_free);
  g_task_run_in_thread (task, read_thread);
}

static void
chosen (GtkNativeDialog *dialog, int response, PinBenchPage *self)
{
  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

      if (path != NULL)
        pin_bench_page_take_photo (self, path);
    }
  g_object_unref (dialog);
}

void
pin_bench_page_choose_photo (PinBenchPage *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (_("Photo"), GTK_WINDOW (root),
                                                              GTK_FILE_CHOOSER_ACTION_OPEN,
                                                              _("Add"), NULL);
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();

  gtk_file_filter_add_pixbuf_formats (filter);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), filter);
  g_signal_connect_object (dialog, "response", G_CALLBACK (chosen), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}
