#include "window/long-job.h"

#include <glib/gi18n.h>

#include "book/keeping.h"
#include "window/window-private.h"
#ifdef PIN_HAVE_DEMO
#include "demo/demo.h"
#endif

typedef struct _LongJob LongJob;

struct _LongJob
{
  PinWindow *window;          /* owned */
  PinDesk *desk;              /* owned, or NULL */
  char *path;
  PinStrip *strip;            /* owned */
  GCancellable *cancellable;
  int share;                  /* per mille, written by the worker */
  guint tick;
  char *kept;                 /* restore: where the old book stands */
  GPtrArray *problems;        /* verify */
  gboolean (*work) (LongJob *job, GError **error);
  void     (*done) (LongJob *job, const GError *error);
};

static void
long_job_free (gpointer data)
{
  LongJob *job = data;

  g_clear_handle_id (&job->tick, g_source_remove);
  g_clear_object (&job->desk);
  g_clear_object (&job->strip);
  g_clear_object (&job->cancellable);
  g_clear_object (&job->window);
  g_clear_pointer (&job->problems, g_ptr_array_unref);
  g_free (job->path);
  g_free (job->kept);
  g_free (job);
}

static void
progress (double done, gpointer data)
{
  LongJob *job = data;

  g_atomic_int_set (&job->share, (int) (done * 1000));
}

static gboolean
tick (gpointer data)
{
  LongJob *job = data;

  pin_strip_set_progress (job->strip, g_atomic_int_get (&job->share) / 1000.0);
  return G_SOURCE_CONTINUE;
}

static void
worker (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  LongJob *job = data;
  GError *error = NULL;

  if (job->work (job, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
finished (GObject *source, GAsyncResult *result, gpointer user_data)
{
  LongJob *job = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;

  g_task_propagate_boolean (G_TASK (result), &error);
  g_clear_handle_id (&job->tick, g_source_remove);
  pin_strip_close (job->strip);
  job->done (job, error);
}

static void
start (PinWindow *window, const char *path, const char *title, gboolean can_cancel,
       gboolean (*work) (LongJob *, GError **), void (*done) (LongJob *, const GError *))
{
  LongJob *job = g_new0 (LongJob, 1);
  g_autoptr (GTask) task = NULL;

  job->window = g_object_ref (window);
  job->desk = pin_window_desk (window) != NULL ? g_object_ref (pin_window_desk (window)) : NULL;
  job->path = g_strdup (path);
  job->cancellable = g_cancellable_new ();
  job->work = work;
  job->done = done;
  job->strip = pin_tell_working (GTK_WIDGET (window), title, can_cancel ? job->cancellable : NULL);
  job->tick = g_timeout_add (100, tick, job);
  /* The worker must report its own outcome: a half-made file is removed by it. */
  task = g_task_new (window, NULL, finished, NULL);
  g_task_set_task_data (task, job, long_job_free);
  g_task_run_in_thread (task, worker);
}

/* ---- back up ----------------------------------------------------------- */

static gboolean
backup_work (LongJob *job, GError **error)
{
  return pin_book_backup (pin_desk_book (job->desk), job->path, progress, job, job->cancellable,
                          error);
}

static void
backup_done (LongJob *job, const GError *error)
{
  if (error != NULL)
    {
      pin_tell_error (GTK_WIDGET (job->window), _("The copy was not made:"), error);
      return;
    }
  pin_tell_done (GTK_WIDGET (job->window), _("Copy made:"), job->path);
  pin_window_read_last_copy (job->window);
}

void
pin_long_backup (PinWindow *window, const char *path)
{
  if (pin_window_desk (window) != NULL)
    start (window, path, _("Making a copy"), TRUE, backup_work, backup_done);
}

/* ---- export ------------------------------------------------------------ */

static gboolean
export_work (LongJob *job, GError **error)
{
  return pin_book_export (pin_desk_book (job->desk), job->path, progress, job, job->cancellable,
                          error);
}

static void
export_done (LongJob *job, const GError *error)
{
  if (error != NULL)
    pin_tell_error (GTK_WIDGET (job->window), _("The export was not finished:"), error);
  else
    pin_tell_done (GTK_WIDGET (job->window), _("Exported to:"), job->path);
}

void
pin_long_export (PinWindow *window, const char *folder)
{
  if (pin_window_desk (window) != NULL)
    start (window, folder, _("Exporting the book"), TRUE, export_work, export_done);
}

/* ---- verify ------------------------------------------------------------ */

static gboolean
verify_work (LongJob *job, GError **error)
{
  job->problems = pin_book_verify (pin_desk_book (job->desk), error);
  return job->problems != NULL;
}

static void
verify_done (LongJob *job, const GError *error)
{
  g_autoptr (GError) found = NULL;

  if (error != NULL)
    {
      pin_tell_error (GTK_WIDGET (job->window), _("The book could not be verified:"), error);
      return;
    }
  if (job->problems->len == 0)
    {
      pin_tell_done (GTK_WIDGET (job->window), _("The book is sound."),
                     _("Every fact and every derived number agrees."));
      return;
    }
  found = g_error_new (PIN_BOOK_ERROR, PIN_BOOK_ERROR_VERIFY,
                       ngettext ("%u problem; the first: %s. Make a copy now, before anything else.",
                                 "%u problems; the first: %s. Make a copy now, before anything else.",
                                 job->problems->len),
                       job->problems->len, (char *) g_ptr_array_index (job->problems, 0));
  pin_tell_error (GTK_WIDGET (job->window), _("The book is not sound:"), found);
}

void
pin_long_verify (PinWindow *window)
{
  if (pin_window_desk (window) != NULL)
    start (window, NULL, _("Verifying the book"), FALSE, verify_work, verify_done);
}

/* ---- restore ----------------------------------------------------------- */

static gboolean
restore_work (LongJob *job, GError **error)
{
  g_autofree char *to = g_strdup (job->desk != NULL ? pin_book_path (pin_desk_book (job->desk))
                                                    : NULL);

  if (to == NULL)
    to = pin_book_default_path ();
  return pin_book_restore (job->path, to, &job->kept, error);
}

static void
restore_done (LongJob *job, const GError *error)
{
  g_autofree char *to = g_strdup (job->desk != NULL ? pin_book_path (pin_desk_book (job->desk))
                                                    : NULL);
  g_autofree char *text = NULL;

  if (error != NULL)
    {
      pin_tell_error (GTK_WIDGET (job->window), _("The copy was not restored:"), error);
      return;
    }
  if (to == NULL)
    to = pin_book_default_path ();
  text = job->kept != NULL ? g_strdup_printf (_("What stood there is kept as %s."), job->kept)
                           : g_strdup (_("It is open now."));
  pin_tell_done (GTK_WIDGET (job->window), _("Copy restored."), text);
  pin_window_open_book (job->window, to);
}

void
pin_long_restore (PinWindow *window, const char *path)
{
  start (window, path, _("Restoring a copy"), FALSE, restore_work, restore_done);
}

#ifdef PIN_HAVE_DEMO
/* ---- demo stable -------------------------------------------------------- */

static gboolean
demo_work (LongJob *job, GError **error)
{
  /* A library serves one thread; this is another. */
  g_autoptr (PinLibrary) library = pin_library_new_default (error);
  g_autofree char *folder = g_path_get_dirname (job->path);

  /* On a first start it is not there yet; what fails says so when it is used. */
  g_mkdir_with_parents (folder, 0700);
  return library != NULL
         && pin_demo_make (job->path, library, NULL, progress, job, job->cancellable, error);
}

static void
demo_done (LongJob *job, const GError *error)
{
  if (error != NULL)
    pin_tell_error (GTK_WIDGET (job->window), _("The demo stable was not made:"), error);
  else
    pin_window_open_book (job->window, job->path);
}

/* Opens the demo stable, made anew. */
void
pin_long_demo (PinWindow *window)
{
  g_autofree char *path = pin_book_demo_path ();

  start (window, path, _("Making the demo stable"), TRUE, demo_work, demo_done);
}
#endif
