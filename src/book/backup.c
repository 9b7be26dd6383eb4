#include "book/keeping.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>

#include "base/day.h"
#include "book/book-private.h"
#include "book/copy.h"
#include "book/derive.h"

/* Pages copied between two looks at the cancel button. */
#define PAGES_A_STEP 256

static gboolean
refuse (GError **error, PinBookError code, const char *path, const char *why)
{
  g_set_error (error, PIN_BOOK_ERROR, code, _ ("“%s”: %s"), path, why);
  return FALSE;
}

/* --- the copy --------------------------------------------------------------- */

/* SQLITE_DONE, or what went wrong.  Pages written meanwhile by the book's own
 * thread make SQLite begin again by itself.  Patience is for one wait, not for
 * the whole of a long copy. */
static int
copy_pages (sqlite3_backup *backup, PinProgress progress, gpointer data, GCancellable *cancellable)
{
  gint64 waiting_since = 0;

  for (;;)
    {
      int rc, all;

      if (g_cancellable_is_cancelled (cancellable))
        return SQLITE_INTERRUPT;
      rc = sqlite3_backup_step (backup, PAGES_A_STEP);
      all = sqlite3_backup_pagecount (backup);
      if (rc == SQLITE_BUSY || rc == SQLITE_LOCKED)
        {
          gint64 now = g_get_monotonic_time ();

          waiting_since = waiting_since ? waiting_since : now;
          if (now - waiting_since > (gint64) pin_db_patience () * 1000)
            return rc;
          g_usleep (10000);
          continue;
        }
      waiting_since = 0;
      if (rc != SQLITE_OK && rc != SQLITE_DONE)
        return rc;
      if (progress != NULL && all > 0)
        progress (1 - (double) sqlite3_backup_remaining (backup) / all, data);
      if (rc == SQLITE_DONE)
        return rc;
    }
}

static gboolean
copy_all (PinDb *from, PinDb *to, PinProgress progress, gpointer data, GCancellable *cancellable,
          GError **error)
{
  sqlite3_backup *backup = sqlite3_backup_init (to->sqlite, "main", from->sqlite, "main");
  int rc;

  if (backup == NULL)
    return pin_db_fail (to, error);
  rc = copy_pages (backup, progress, data, cancellable);
  sqlite3_backup_finish (backup);
  if (rc == SQLITE_DONE)
    return TRUE;
  if (!g_cancellable_set_error_if_cancelled (cancellable, error))
    pin_db_fail (rc == SQLITE_BUSY || rc == SQLITE_LOCKED ? from : to, error);
  if (error != NULL && *error == NULL)
    refuse (error, PIN_BOOK_ERROR_FAILED, to->path, sqlite3_errstr (rc));
  return FALSE;
}

/* A copy is told from its original, so that one put in the other's place while
 * that is open is noticed. */
static gboolean
name_copy (PinDb *db, GError **error)
{
  g_autofree char *name = g_uuid_string_random ();
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, "UPDATE book SET copy = ?1", error);

  if (stmt == NULL)
    return FALSE;
  pin_stmt_bind_text (stmt, 1, name);
  return pin_stmt_run (stmt, error);
}

static gboolean
copy_and_check (const char *from, const char *half, PinProgress progress, gpointer data,
                GCancellable *cancellable, GError **error)
{
  g_autoptr (PinDb) source = pin_db_connect (from, SQLITE_OPEN_READONLY, error);
  g_autoptr (PinDb) copy = NULL;

  if (source == NULL)
    return FALSE;
  copy = pin_db_connect (half, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, error);
  if (copy == NULL)
    return FALSE;
  copy->making = TRUE;
  return copy_all (source, copy, progress, data, cancellable, error) &&
         pin_db_quick_check (copy, error) && name_copy (copy, error);
}

/* Removes a copy that was not finished. */
void
pin_copy_drop (const char *half)
{
  g_autofree char *journal = g_strconcat (half, "-journal", NULL);

  g_unlink (half);
  g_unlink (journal);
}

/* As pin_copy_book(), to a file that is new and keeps its name. */
gboolean
pin_copy_to (const char *from, const char *half, PinProgress progress, gpointer data,
             GCancellable *cancellable, GError **error)
{
  if (copy_and_check (from, half, progress, data, cancellable, error) &&
      pin_db_sync_file (half, error))
    return TRUE;
  pin_copy_drop (half);
  return FALSE;
}

gboolean
pin_copy_book (const char *from, const char *to, PinProgress progress, gpointer data,
               GCancellable *cancellable, GError **error)
{
  g_autofree char *half = g_strdup_printf ("%s.part-%08x", to, g_random_int ());

  if (!pin_copy_to (from, half, progress, data, cancellable, error))
    return FALSE;
  if (g_rename (half, to) == 0)
    return pin_db_sync_file (to, error);
  refuse (error, PIN_BOOK_ERROR_OPEN, to, g_strerror (errno));
  pin_copy_drop (half);
  return FALSE;
}

/* --- what a backup may replace ---------------------------------------------- */

static gboolean
same_file (const char *a, const char *b)
{
  GStatBuf first, second;

  return g_stat (a, &first) == 0 && g_stat (b, &second) == 0 && first.st_dev == second.st_dev &&
         first.st_ino == second.st_ino;
}

/* A journal left beside the name would be played into the new file. */
static gboolean
no_journal (const char *path, GError **error)
{
  static const char *const tails[] = { "-journal", "-wal" };

  for (gsize i = 0; i < G_N_ELEMENTS (tails); i++)
    {
      g_autofree char *beside = g_strconcat (path, tails[i], NULL);

      if (g_file_test (beside, G_FILE_TEST_EXISTS))
        return refuse (
            error, PIN_BOOK_ERROR_EXISTS, beside,
            _ ("there is unfinished work of another file of this name. Choose another name"));
    }
  return TRUE;
}

/* An older copy of this stable may be replaced, nothing else. */
static gboolean
may_replace (const char *to, const char *uuid, GError **error)
{
  g_autoptr (PinDb) db = NULL;
  gint64 ours = 0, version;

  if (!g_file_test (to, G_FILE_TEST_EXISTS))
    return TRUE;
  if (pin_db_check_file (to, &version, NULL))
    db = pin_db_connect (to, SQLITE_OPEN_READONLY, NULL);
  if (db != NULL)
    {
      g_autoptr (PinStmt) stmt = pin_db_prepare (db, "SELECT uuid = ?1 FROM book", NULL);

      if (stmt != NULL)
        {
          pin_stmt_bind_text (stmt, 1, uuid);
          ours = pin_stmt_next (stmt, NULL) ? pin_stmt_int (stmt, 0) : 0;
        }
    }
  return ours ||
         refuse (error, PIN_BOOK_ERROR_EXISTS, to,
                 _ ("there is a file already that is no copy of this book. It was left as it is; "
                    "choose another name"));
}

/* --- remembering it --------------------------------------------------------- */

static gboolean
write_kept (PinDb *db, const char *to, GError **error)
{
  g_autoptr (PinStmt) stmt =
      pin_db_prepare (db, "INSERT OR REPLACE INTO kept (one, at, path) VALUES (1, ?1, ?2)", error);

  if (stmt == NULL)
    return FALSE;
  pin_stmt_bind_int (stmt, 1, pin_now ());
  pin_stmt_bind_text (stmt, 2, to);
  return pin_stmt_run (stmt, error);
}

static gpointer
remember (PinDb *db, gpointer to, GError **error)
{
  if (!pin_db_begin (db, error))
    return NULL;
  if (!write_kept (db, to, error))
    {
      pin_db_rollback (db);
      return NULL;
    }
  return pin_db_commit (db, error) ? db : NULL;
}

static gpointer
read_uuid (PinDb *db, gpointer data, GError **error)
{
  return g_strdup (db->uuid);
}

/* Copies the book while it stays in use; runs on the calling thread, which is
 * not the main loop's.  @progress may be NULL.  Only a copy that passed its
 * check gets the name @to; an older copy of the same stable there is replaced.
 * Errors: EXISTS, OPEN, FULL, LOCKED, DAMAGED, G_IO_ERROR_CANCELLED. */
gboolean
pin_book_backup (PinBook *self, const char *to, PinProgress progress, gpointer data,
                 GCancellable *cancellable, GError **error)
{
  g_autofree char *absolute = g_canonicalize_filename (to, NULL);
  g_autofree char *uuid = pin_book_run_bare (self, read_uuid, NULL, error);

  if (uuid == NULL)
    return FALSE;
  if (same_file (absolute, pin_book_path (self)))
    return refuse (error, PIN_BOOK_ERROR_EXISTS, absolute,
                   _ ("this is the service book itself. Choose another name for the copy"));
  if (!no_journal (absolute, error) || !may_replace (absolute, uuid, error) ||
      !pin_copy_book (pin_book_path (self), absolute, progress, data, cancellable, error))
    return FALSE;
  /* The copy is made; a book that cannot be written just does not remember it. */
  pin_book_run_bare (self, remember, absolute, NULL);
  return TRUE;
}

static gpointer
last_copy (PinDb *db, gpointer data, GError **error)
{
  gint64 at;

  if (!pin_db_int (db, "SELECT at FROM kept", 0, &at, error) || at == 0)
    return NULL;
  return pin_instant_text (at);
}

char *
pin_book_last_copy (PinBook *self)
{
  return pin_book_run (self, last_copy, NULL, NULL);
}

static gpointer
rebuild (PinDb *db, gpointer data, GError **error)
{
  if (!pin_db_begin (db, error))
    return NULL;
  if (!pin_derive_rebuild (db, error))
    {
      pin_db_rollback (db);
      return NULL;
    }
  return pin_db_commit (db, error) ? db : NULL;
}

/* Makes the derived tables anew from the facts. */
gboolean
pin_book_rebuild (PinBook *self, GError **error)
{
  return pin_book_run_bare (self, rebuild, NULL, error) != NULL;
}
