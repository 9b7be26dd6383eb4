#include "book/book-private.h"

#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <unistd.h>

#include "base/day.h"
#include "book/batch.h"
#include "book/known.h"
#include "book/queries-private.h"

/* 2020-01-01 UTC in milliseconds since 1970: where ids begin to count. */
#define ID_EPOCH G_GINT64_CONSTANT (1577836800000)
#define ID_RANDOM_BITS 21

struct _PinBook
{
  char *path;
  gboolean read_only;
  PinDb *db; /* the thread's */
  GThread *thread;
  GAsyncQueue *queue; /* Work; one without a job ends the thread */
  GMutex lock;        /* guards last_id, kept_at and what waiters read */
  GCond answered;
  gint64 last_id, kept_at;
};

/* One thing asked of the book's thread. */
typedef struct
{
  PinBook *book;
  PinBookJob job;
  gpointer data;
  GDestroyNotify data_free, result_free;
  gboolean bare;
  GTask *task; /* NULL: somebody waits on done instead */
  gboolean done;
  gpointer result;
  GError *error;
} Work;

/* --- the thread ------------------------------------------------------------- */

/* What a known state took in from the file stays; nothing else was written. */
static void
end_reading (PinDb *db)
{
  if (db->known && !pin_db_exec (db, "COMMIT", NULL))
    db->known_version = -1;
  pin_db_rollback (db);
}

/* What one job reads is one state of the book, whatever others write. */
static gpointer
run_reading (PinDb *db, PinBookJob job, gpointer data, GError **error)
{
  gboolean began = sqlite3_get_autocommit (db->sqlite);
  gpointer result;

  if (began && !pin_db_exec (db, "BEGIN", error))
    return NULL;
  if (began && db->known && !pin_known_refresh (db, error))
    {
      pin_db_rollback (db);
      return NULL;
    }
  result = job (db, data, error);
  if (began)
    end_reading (db);
  return result;
}

static gpointer
run_job (PinBook *self, PinBookJob job, gpointer data, gboolean bare, GError **error)
{
  return bare ? job (self->db, data, error) : run_reading (self->db, job, data, error);
}

static void
work_free (Work *work)
{
  if (work->data_free != NULL)
    work->data_free (work->data);
  g_free (work);
}

static void
answer_task (Work *work)
{
  g_autoptr (GTask) task = g_steal_pointer (&work->task);
  g_autoptr (GError) error = NULL;
  gpointer result;

  if (g_task_return_error_if_cancelled (task))
    return;
  result = run_job (work->book, work->job, work->data, work->bare, &error);
  if (error == NULL)
    {
      g_task_return_pointer (task, result, work->result_free);
      return;
    }
  if (result != NULL && work->result_free != NULL)
    work->result_free (result);
  g_task_return_error (task, g_steal_pointer (&error));
}

static void
answer_waiting (PinBook *self, Work *work)
{
  gpointer result;
  GError *error = NULL;

  result = run_job (self, work->job, work->data, work->bare, &error);
  g_mutex_lock (&self->lock);
  work->result = result;
  work->error = error;
  work->done = TRUE; /* from here on the waiter may be gone, and work with it */
  g_cond_broadcast (&self->answered);
  g_mutex_unlock (&self->lock);
}

static gpointer
thread_main (gpointer data)
{
  PinBook *self = data;

  for (;;)
    {
      Work *work = g_async_queue_pop (self->queue);

      if (work->job == NULL)
        {
          g_free (work);
          return NULL;
        }
      if (work->task == NULL)
        {
          answer_waiting (self, work);
          continue;
        }
      answer_task (work);
      work_free (work);
    }
}

static gpointer
run_and_wait (PinBook *self, PinBookJob job, gpointer data, gboolean bare, GError **error)
{
  Work work = { .book = self, .job = job, .data = data, .bare = bare };

  if (g_thread_self () == self->thread)
    return run_job (self, job, data, bare, error);
  g_async_queue_push (self->queue, &work);
  g_mutex_lock (&self->lock);
  while (!work.done)
    g_cond_wait (&self->answered, &self->lock);
  g_mutex_unlock (&self->lock);
  if (work.error != NULL)
    g_propagate_error (error, work.error);
  return work.result;
}

static void
run_later (PinBook *self, PinBookJob job, gpointer data, GDestroyNotify data_free,
           GDestroyNotify result_free, gboolean bare, GTask *task)
{
  Work *work = g_new0 (Work, 1);

  work->book = self;
  work->job = job;
  work->data = data;
  work->data_free = data_free;
  work->result_free = result_free;
  work->bare = bare;
  work->task = task;
  g_async_queue_push (self->queue, work);
}

/* --- opening and closing ---------------------------------------------------- */

static gboolean
cannot_write (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);

  return g_access (path, W_OK) != 0 || g_access (folder, W_OK) != 0;
}

/* Takes @db, which may be NULL for an error that is set. */
static PinBook *
book_on (PinDb *db, gboolean read_only, GError **error)
{
  gint64 last_id = 0;
  PinBook *self;

  if (db == NULL || !pin_query_greatest_id (db, &last_id, error))
    {
      pin_db_close (db);
      return NULL;
    }
  self = g_new0 (PinBook, 1);
  self->path = g_strdup (db->path);
  self->db = db;
  self->read_only = read_only || db->read_only || cannot_write (self->path);
  self->last_id = last_id;
  self->queue = g_async_queue_new ();
  g_mutex_init (&self->lock);
  g_cond_init (&self->answered);
  self->thread = g_thread_new ("book", thread_main, self);
  return self;
}

/* Opens a book that exists; one of an older version is migrated first.  A book
 * that cannot be written is opened for reading, and only writing fails.
 * Errors: OPEN, NOT_A_BOOK, NEWER, DAMAGED, LOCKED. */
PinBook *
pin_book_open (const char *path, gboolean read_only, GError **error)
{
  g_autofree char *absolute = g_canonicalize_filename (path, NULL);

  return book_on (pin_db_open (absolute, read_only, error), read_only, error);
}

/* The book as it was known at @instant (ms since 1970 UTC), for reading alone:
 * nothing entered later is in it, and what was corrected or withdrawn later
 * stands as it stood.  Errors: as pin_book_open(). */
PinBook *
pin_book_open_as_known (const char *path, gint64 instant, GError **error)
{
  g_autofree char *absolute = g_canonicalize_filename (path, NULL);

  return book_on (pin_known_open (absolute, instant, error), TRUE, error);
}

static gboolean
make_folder (const char *path, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (path);

  if (g_mkdir_with_parents (folder, 0700) == 0)
    return TRUE;
  g_set_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_OPEN,
               _ ("The folder “%s” cannot be made. Choose another place for the service book"),
               folder);
  return FALSE;
}

/* Makes an empty book; never over a file that exists (EXISTS). */
PinBook *
pin_book_create (const char *path, GError **error)
{
  g_autofree char *absolute = g_canonicalize_filename (path, NULL);

  if (!make_folder (absolute, error) || !pin_db_create (absolute, error))
    return NULL;
  return pin_book_open (absolute, FALSE, error);
}

PinBook *
pin_book_open_or_create (const char *path, GError **error)
{
  g_autoptr (GError) local = NULL;
  PinBook *self = NULL;

  if (!g_file_test (path, G_FILE_TEST_EXISTS))
    self = pin_book_create (path, &local);
  else
    return pin_book_open (path, FALSE, error);
  if (g_error_matches (local, PIN_BOOK_ERROR,
                       PIN_BOOK_ERROR_EXISTS)) /* another program was faster */
    return pin_book_open (path, FALSE, error);
  if (local != NULL)
    g_propagate_error (error, g_steal_pointer (&local));
  return self;
}

/* Waits for everything asked so far; results not fetched yet still arrive. */
void
pin_book_close (PinBook *self)
{
  if (self == NULL)
    return;
  g_async_queue_push (self->queue, g_new0 (Work, 1));
  g_thread_join (self->thread);
  g_async_queue_unref (self->queue);
  pin_db_close (self->db);
  g_mutex_clear (&self->lock);
  g_cond_clear (&self->answered);
  g_free (self->path);
  g_free (self);
}

const char *
pin_book_path (PinBook *self)
{
  return self->path;
}

gboolean
pin_book_read_only (PinBook *self)
{
  return self->read_only;
}

/* --- ids -------------------------------------------------------------------- */

/* 42 bits of milliseconds since 2020, 21 random bits, never below @last + 1. */
gint64
pin_book_id_from (gint64 instant, guint32 random, gint64 last)
{
  gint64 since = CLAMP (instant - ID_EPOCH, 0, (G_GINT64_CONSTANT (1) << 42) - 1);
  gint64 id = (since << ID_RANDOM_BITS) | (random & ((1u << ID_RANDOM_BITS) - 1));

  return MAX (id, last + 1);
}

/* From any thread. */
gint64
pin_book_next_id (PinBook *self)
{
  gint64 id;

  g_mutex_lock (&self->lock);
  id = self->last_id = pin_book_id_from (pin_now (), g_random_int (), self->last_id);
  g_mutex_unlock (&self->lock);
  return id;
}

/* The instant at which the row @id was entered (ms since 1970 UTC). */
gint64
pin_book_id_instant (gint64 id)
{
  return (id >> ID_RANDOM_BITS) + ID_EPOCH;
}

/* --- running and committing ------------------------------------------------- */

/* Blocks until the book's thread has run @job; one job reads one state of the
 * book. */
gpointer
pin_book_run (PinBook *self, PinBookJob job, gpointer data, GError **error)
{
  return run_and_wait (self, job, data, FALSE, error);
}

gpointer
pin_book_run_bare (PinBook *self, PinBookJob job, gpointer data, GError **error)
{
  return run_and_wait (self, job, data, TRUE, error);
}

typedef struct
{
  gint64 instant;
  PinBookJob job;
  gpointer data;
} AsKnown;

static gpointer
read_as_known (PinDb *db, gpointer data, GError **error)
{
  const AsKnown *what = data;
  g_autoptr (PinDb) known = pin_known_open (db->path, what->instant, error);

  if (known == NULL)
    return NULL;
  if (g_strcmp0 (known->uuid, db->uuid) == 0 && g_strcmp0 (known->copy, db->copy) == 0)
    return run_reading (known, what->job, what->data, error);
  g_set_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_CHANGED,
               _ ("The service book “%s”: another book stands there now. Close this one and open "
                  "it again"),
               db->path);
  return NULL;
}

/* Blocks until @job has run on the book as it was known at @instant (ms since
 * 1970 UTC), on a second connection.  Nothing is kept of it: to read much of one
 * past state, open it with pin_book_open_as_known().  Errors: as that, CHANGED. */
gpointer
pin_book_run_as_known (PinBook *self, gint64 instant, PinBookJob job, gpointer data,
                       GError **error)
{
  AsKnown what = { instant, job, data };

  return run_and_wait (self, read_as_known, &what, TRUE, error);
}

typedef struct
{
  PinBook *book;
  PinBatch *batch;
} Commit;

static void
commit_free (gpointer data)
{
  Commit *commit = data;

  pin_batch_free (commit->batch);
  g_free (commit);
}

/* The job of a commit: its result is a token that only says it is done. */
static gpointer
write_batch (PinDb *db, gpointer data, GError **error)
{
  Commit *commit = data;

  if (!pin_batch_write (commit->batch, db, error))
    return NULL;
  g_mutex_lock (&commit->book->lock);
  commit->book->kept_at = pin_now ();
  g_mutex_unlock (&commit->book->lock);
  return commit->book;
}

/* Writes the batch (borrowed) in one transaction; TRUE once it is durable.
 * Errors: READ_ONLY, LOCKED, FULL, CHANGED, LAW, DAMAGED, FAILED; the book then
 * is as it was. */
gboolean
pin_book_commit (PinBook *self, PinBatch *batch, GError **error)
{
  Commit commit = { self, batch };

  return pin_book_run_bare (self, write_batch, &commit, error) != NULL;
}

/* @data and the result belong to the book until the callback has fetched the
 * result; a NULL free function means borrowed. */
void
pin_book_run_async (PinBook *self, PinBookJob job, gpointer data, GDestroyNotify data_free,
                    GDestroyNotify result_free, GCancellable *cancellable,
                    GAsyncReadyCallback callback, gpointer user_data)
{
  GTask *task = g_task_new (NULL, cancellable, callback, user_data);

  g_task_set_source_tag (task, pin_book_run_async);
  run_later (self, job, data, data_free, result_free, FALSE, task);
}

gpointer
pin_book_run_finish (PinBook *self, GAsyncResult *result, GError **error)
{
  g_return_val_if_fail (g_async_result_is_tagged (result, pin_book_run_async), NULL);
  return g_task_propagate_pointer (G_TASK (result), error);
}

void
pin_book_commit_async (PinBook *self, PinBatch *batch, GCancellable *cancellable,
                       GAsyncReadyCallback callback, gpointer user_data)
{
  GTask *task = g_task_new (NULL, cancellable, callback, user_data);
  Commit *commit = g_new0 (Commit, 1);

  /* Once written it is written: a late cancel must not deny it. */
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_source_tag (task, pin_book_commit_async);
  commit->book = self;
  commit->batch = batch;
  run_later (self, write_batch, commit, commit_free, NULL, TRUE, task);
}

gboolean
pin_book_commit_finish (PinBook *self, GAsyncResult *result, GError **error)
{
  g_return_val_if_fail (g_async_result_is_tagged (result, pin_book_commit_async), FALSE);
  return g_task_propagate_pointer (G_TASK (result), error) != NULL;
}

gint64
pin_book_kept_at (PinBook *self)
{
  gint64 at;

  g_mutex_lock (&self->lock);
  at = self->kept_at;
  g_mutex_unlock (&self->lock);
  return at;
}
