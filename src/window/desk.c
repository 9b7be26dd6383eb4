#include "window/desk.h"

#include "base/day.h"

struct _PinDesk
{
  GObject parent_instance;

  PinBook *book;              /* owned */
  PinTexts *texts;            /* owned */
  PinLibrary *library;        /* theirs: read by now */
  char *person;
  GPtrArray *names;           /* char*: of the vehicles, as last read; or NULL */
  char *day;                  /* the day that readiness is judged for */
};

G_DEFINE_FINAL_TYPE (PinDesk, pin_desk, G_TYPE_OBJECT)

enum
{
  SIGNAL_CHANGED,
  SIGNAL_DAY,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static void
pin_desk_finalize (GObject *object)
{
  PinDesk *self = PIN_DESK (object);

  g_clear_pointer (&self->book, pin_book_close);
  g_clear_pointer (&self->texts, pin_texts_unref);
  g_clear_pointer (&self->names, g_ptr_array_unref);
  g_free (self->person);
  g_free (self->day);
  G_OBJECT_CLASS (pin_desk_parent_class)->finalize (object);
}

static void
pin_desk_class_init (PinDeskClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = pin_desk_finalize;

  /* The argument is the vehicle that the facts are about, 0: several. */
  signals[SIGNAL_CHANGED] = g_signal_new ("changed", PIN_TYPE_DESK, G_SIGNAL_RUN_LAST, 0, NULL,
                                          NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT64);
  signals[SIGNAL_DAY] = g_signal_new ("day-changed", PIN_TYPE_DESK, G_SIGNAL_RUN_LAST, 0, NULL,
                                      NULL, NULL, G_TYPE_NONE, 0);
}

static void
pin_desk_init (PinDesk *self)
{
  self->day = pin_today ();
}

/* Takes @book; @texts must have been read. */
PinDesk *
pin_desk_new (PinBook *book, PinTexts *texts)
{
  PinDesk *self = g_object_new (PIN_TYPE_DESK, NULL);

  self->book = book;
  self->texts = pin_texts_ref (texts);
  self->library = pin_texts_wait (texts, NULL);
  return self;
}

PinBook *
pin_desk_book (PinDesk *self)
{
  return self->book;
}

PinLibrary *
pin_desk_library (PinDesk *self)
{
  return self->library;
}

/* The initials that answers are signed with, or NULL. */
const char *
pin_desk_person (PinDesk *self)
{
  return self->person;
}

void
pin_desk_set_person (PinDesk *self, const char *person)
{
  g_free (self->person);
  self->person = person != NULL && *person != '\0' ? g_strdup (person) : NULL;
}

/* Names in use (char *), for what asks for a new one; NULL: not read yet. */
GPtrArray *
pin_desk_names (PinDesk *self)
{
  return self->names;
}

/* Takes @names. */
void
pin_desk_take_names (PinDesk *self, GPtrArray *names)
{
  g_clear_pointer (&self->names, g_ptr_array_unref);
  self->names = names;
}

const char *
pin_desk_day (PinDesk *self)
{
  return self->day;
}

void
pin_desk_set_day (PinDesk *self, const char *day)
{
  if (g_strcmp0 (self->day, day) == 0)
    return;
  g_free (self->day);
  self->day = g_strdup (day);
  g_signal_emit (self, signals[SIGNAL_DAY], 0);
}

static void
read_done (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GTask) task = user_data;
  PinDesk *self = g_task_get_source_object (task);
  GError *error = NULL;
  gpointer rows = pin_book_run_finish (self->book, result, &error);

  if (error != NULL)
    g_task_return_error (task, error);
  else
    g_task_return_pointer (task, rows, g_task_get_task_data (task));
}

/* Runs @job on the book's thread; the desk, and with it the book, lives until
 * the callback has been called. */
void
pin_desk_read (PinDesk             *self,
               PinBookJob           job,
               gpointer             data,
               GDestroyNotify       data_free,
               GDestroyNotify       result_free,
               GCancellable        *cancellable,
               GAsyncReadyCallback  callback,
               gpointer             user_data)
{
  GTask *task = g_task_new (self, cancellable, callback, user_data);

  g_task_set_task_data (task, result_free, NULL);
  pin_book_run_async (self->book, job, data, data_free, result_free, cancellable, read_done, task);
}

/* What the job returned; free it as it wants to be freed. */
gpointer
pin_desk_read_finish (PinDesk *self, GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

typedef struct
{
  gint64 vehicle;
} Write;

static void
write_done (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GTask) task = user_data;
  PinDesk *self = g_task_get_source_object (task);
  Write *write = g_task_get_task_data (task);
  GError *error = NULL;

  if (!pin_book_commit_finish (self->book, result, &error))
    {
      g_task_return_error (task, error);
      return;
    }
  g_task_return_boolean (task, TRUE);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0, write->vehicle);
}

/* Takes @batch.  The callback comes only when the facts are on disk, or could
 * not be put there; then nothing of the batch is in the book. */
void
pin_desk_write (PinDesk             *self,
                PinBatch            *batch,
                gint64               vehicle,
                GAsyncReadyCallback  callback,
                gpointer             user_data)
{
  GTask *task = g_task_new (self, NULL, callback, user_data);
  Write *write = g_new0 (Write, 1);

  write->vehicle = vehicle;
  g_task_set_task_data (task, write, g_free);
  pin_book_commit_async (self->book, batch, NULL, write_done, task);
}

gboolean
pin_desk_write_finish (PinDesk *self, GAsyncResult *result, GError **error)
{
  return g_task_propagate_boolean (G_TASK (result), error);
}
