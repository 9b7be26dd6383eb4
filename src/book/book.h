#pragma once

#include <gio/gio.h>

#include "book/db.h"
#include "book/error.h"
#include "book/facts.h"

/* The service book: one SQLite file.  All work on the file happens on one
 * thread of the book's own, in the order it was asked for: jobs that read are
 * given the connection, writing is a PinBatch of facts in one transaction.
 * The main loop never touches SQLite. */

typedef struct _PinBook PinBook;

/* Runs on the book's thread. Returns what the caller gets (NULL on error). */
typedef gpointer (*PinBookJob) (PinDb     *db,
                                gpointer   data,
                                GError   **error);

PinBook    *pin_book_create        (const char           *path,
                                    GError              **error);
PinBook    *pin_book_open          (const char           *path,
                                    gboolean              read_only,
                                    GError              **error);
PinBook    *pin_book_open_as_known (const char           *path,
                                    gint64                instant,
                                    GError              **error);
PinBook    *pin_book_open_or_create(const char           *path,
                                    GError              **error);
void        pin_book_close         (PinBook              *self);
const char *pin_book_path          (PinBook              *self);
gboolean    pin_book_read_only     (PinBook              *self);
char       *pin_book_default_path  (void);
char       *pin_book_demo_path     (void);

gint64      pin_book_next_id       (PinBook              *self);
gint64      pin_book_id_instant    (gint64                id); /* when a row was entered */

/* Blocking: for the terminal, tests and worker threads, never the main loop. */
gpointer    pin_book_run           (PinBook              *self,
                                    PinBookJob            job,
                                    gpointer              data,
                                    GError              **error);
/* As pin_book_run(), on the book as it was known at @instant: every query sees
 * only rows entered up to then, corrections made since undone. */
gpointer    pin_book_run_as_known  (PinBook              *self,
                                    gint64                instant,
                                    PinBookJob            job,
                                    gpointer              data,
                                    GError              **error);
gboolean    pin_book_commit        (PinBook              *self,
                                    PinBatch             *batch,
                                    GError              **error);

/* For the window: the callback runs on the caller's main context. */
void        pin_book_run_async     (PinBook              *self,
                                    PinBookJob            job,
                                    gpointer              data,
                                    GDestroyNotify        data_free,
                                    GDestroyNotify        result_free,
                                    GCancellable         *cancellable,
                                    GAsyncReadyCallback   callback,
                                    gpointer              user_data);
gpointer    pin_book_run_finish    (PinBook              *self,
                                    GAsyncResult         *result,
                                    GError              **error);
/* Takes the batch.  Finished only when the rows are durable on disk. */
void        pin_book_commit_async  (PinBook              *self,
                                    PinBatch             *batch,
                                    GCancellable         *cancellable,
                                    GAsyncReadyCallback   callback,
                                    gpointer              user_data);
gboolean    pin_book_commit_finish (PinBook              *self,
                                    GAsyncResult         *result,
                                    GError              **error);
gint64      pin_book_kept_at       (PinBook              *self); /* instant of the last commit, 0: none yet */

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinBook, pin_book_close)
