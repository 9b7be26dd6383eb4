#include "book/db-private.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n.h>
#include <inttypes.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#include "book/migrate.h"
#include "book-schema.h"

/* Making and opening the file of a book.  Nothing is written before the file
 * is known to be a service book of a version that this program knows. */

/* Up to this size a book is checked page by page when it is opened. */
#define SNIFF_BYTES (8 * 1024 * 1024)

/* Tables without which a file is no book of version 1. */
static const char tables_present[] =
    "SELECT count (*) FROM sqlite_schema WHERE type = 'table' AND name IN "
    "('book','source','kept','vehicle','place','part','supply','trait','fitting','outing',"
    "'outing_part','inspection','walk_plan','draft','sign_off','answer','reading','work','owed',"
    "'finding','own_rule','own_limit','stock','photo','image','meter','standing','mark')";
#define TABLES 28

static gboolean
refuse (GError **error, PinBookError code, const char *path, const char *why)
{
  g_set_error (error, PIN_BOOK_ERROR, code, _ ("The service book “%s”: %s"), path, why);
  return FALSE;
}

static gboolean
refuse_stat (const char *path, int cause, GError **error)
{
  if (cause == ENOENT || cause == ENOTDIR)
    return refuse (error, PIN_BOOK_ERROR_OPEN, path,
                   _ ("there is no such file. Check the name, or make a new book there"));
  return refuse (error, PIN_BOOK_ERROR_OPEN, path, g_strerror (cause));
}

/* A directory, a pipe or an empty file is told apart before SQLite opens it:
 * opening a pipe would wait for ever. */
static gboolean
check_kind (const char *path, GError **error)
{
  GStatBuf st;

  if (g_stat (path, &st) != 0)
    return refuse_stat (path, errno, error);
  if (S_ISDIR (st.st_mode))
    return refuse (error, PIN_BOOK_ERROR_NOT_A_BOOK, path,
                   _ ("this is a folder. Choose a file that ends in .hingepin"));
  if (!S_ISREG (st.st_mode))
    return refuse (error, PIN_BOOK_ERROR_NOT_A_BOOK, path,
                   _ ("this is not an ordinary file. Choose a file that ends in .hingepin"));
  if (st.st_size == 0)
    return refuse (error, PIN_BOOK_ERROR_NOT_A_BOOK, path,
                   _ ("the file is empty. Restore a backup, or remove it and make a new book"));
  return TRUE;
}

static gboolean
check_marks (PinDb *db, const char *path, gint64 *version, GError **error)
{
  gint64 id;

  if (!pin_db_int (db, "PRAGMA application_id", 0, &id, error) ||
      !pin_db_int (db, "PRAGMA user_version", 0, version, error))
    return FALSE;
  if (id != PIN_BOOK_APPLICATION_ID || *version < 1)
    return refuse (error, PIN_BOOK_ERROR_NOT_A_BOOK, path,
                   _ ("this is a database of another program. It was left as it is; "
                      "choose a file that ends in .hingepin"));
  if (*version > PIN_BOOK_VERSION)
    {
      g_set_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_NEWER,
                   _ ("The service book “%s” was made by a newer version of this program "
                      "(book version %" PRId64 ", known here: %d). It was left as it is; "
                      "install the newer version to open it"),
                   path, *version, PIN_BOOK_VERSION);
      return FALSE;
    }
  return TRUE;
}

/* Looks at the first page alone, through SQLite but without locks or recovery:
 * a book of a newer version must not even have its journal played back.
 * Opening the file by hand instead would drop this process's locks on it. */
gboolean
pin_db_check_file (const char *path, gint64 *version, GError **error)
{
  g_autofree char *uri = NULL, *frozen = NULL;
  g_autoptr (PinDb) db = NULL;

  if (!check_kind (path, error))
    return FALSE;
  uri = g_filename_to_uri (path, NULL, error);
  if (uri == NULL)
    return FALSE;
  frozen = g_strconcat (uri, "?immutable=1", NULL);
  db = pin_db_connect (frozen, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, error);
  if (db == NULL)
    return FALSE;
  return check_marks (db, path, version, error);
}

/* Every page and every index. */
gboolean
pin_db_quick_check (PinDb *self, GError **error)
{
  g_autoptr (PinStmt) stmt = pin_db_prepare (self, "PRAGMA quick_check (1)", error);
  g_autoptr (GError) local = NULL;
  const char *word;

  if (stmt == NULL)
    return FALSE;
  if (!pin_stmt_next (stmt, &local))
    {
      g_propagate_error (error, g_steal_pointer (&local));
      return FALSE;
    }
  word = pin_stmt_text (stmt, 0);
  if (g_strcmp0 (word, "ok") == 0)
    return TRUE;
  g_set_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_DAMAGED,
               _ ("The service book “%s”: the file is damaged (%s). It was left as it is; "
                  "keep it, and restore the newest backup"),
               self->path, word ? word : "");
  return FALSE;
}

static gboolean
sniff (PinDb *db, GError **error)
{
  gint64 tables, pages, size;

  if (!pin_db_int (db, tables_present, 0, &tables, error) ||
      !pin_db_int (db, "PRAGMA page_count", 0, &pages, error) ||
      !pin_db_int (db, "PRAGMA page_size", 0, &size, error))
    return FALSE;
  if (tables != TABLES)
    return refuse (
        error, PIN_BOOK_ERROR_DAMAGED, db->path,
        _ ("tables are missing from it. It was left as it is; restore the newest backup"));
  return pages * size > SNIFF_BYTES || pin_db_quick_check (db, error);
}

/* Reads who the book is.  A missing or foreign row is no error here: *found. */
static gboolean
read_identity (PinDb *self, char **uuid, char **copy, gint64 *generation, GError **error)
{
  g_autoptr (PinStmt) stmt =
      pin_db_prepare (self, "SELECT uuid, copy, generation FROM book", error);
  g_autoptr (GError) local = NULL;

  if (stmt == NULL)
    return FALSE;
  if (!pin_stmt_next (stmt, &local))
    {
      if (local != NULL)
        g_propagate_error (error, g_steal_pointer (&local));
      else
        refuse (error, PIN_BOOK_ERROR_DAMAGED, self->path,
                _ ("it has lost its name. It was left as it is; restore the newest backup"));
      return FALSE;
    }
  *uuid = g_strdup (pin_stmt_text (stmt, 0));
  *copy = g_strdup (pin_stmt_text (stmt, 1));
  *generation = pin_stmt_int (stmt, 2);
  return TRUE;
}

static gboolean
remember_identity (PinDb *self, GError **error)
{
  GStatBuf st;

  if (g_stat (self->path, &st) != 0)
    return refuse_stat (self->path, errno, error);
  self->device = st.st_dev;
  self->inode = st.st_ino;
  return read_identity (self, &self->uuid, &self->copy, &self->generation, error);
}

/* Opens the book @path (absolute), migrating it if it is of an older version.
 * Errors: OPEN, NOT_A_BOOK, NEWER, DAMAGED, LOCKED, READ_ONLY. */
PinDb *
pin_db_open (const char *path, gboolean read_only, GError **error)
{
  g_autoptr (PinDb) db = NULL;
  gint64 version;

  if (!pin_db_check_file (path, &version, error))
    return NULL;
  db = pin_db_connect (path, read_only ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE, error);
  if (db == NULL)
    return NULL;
  /* Once more with locks: unfinished work of a crashed program is undone now. */
  if (!check_marks (db, path, &version, error))
    return NULL;
  if (version < PIN_BOOK_VERSION && !pin_migrate (db, error))
    return NULL;
  if (!sniff (db, error) || !remember_identity (db, error))
    return NULL;
  if (!db->read_only && !pin_db_exec (db, "PRAGMA journal_mode", error))
    return NULL;
  return g_steal_pointer (&db);
}

static gboolean
changed (PinDb *self, GError **error)
{
  return refuse (error, PIN_BOOK_ERROR_CHANGED, self->path,
                 _ ("the file was replaced, moved or put back to an older state while it was open. "
                    "Nothing was written; close the book and open it again"));
}

static gboolean
same_file (PinDb *self)
{
  GStatBuf st;

  return g_stat (self->path, &st) == 0 && st.st_dev == self->device && st.st_ino == self->inode;
}

/* What another program has written since is welcome; a file that went back
 * in time, or is another book, is not. */
static gboolean
still_ours (PinDb *self, GError **error)
{
  g_autofree char *uuid = NULL, *copy = NULL;
  g_autoptr (GError) local = NULL;
  gint64 generation = 0;

  if (!read_identity (self, &uuid, &copy, &generation, &local))
    {
      if (g_error_matches (local, PIN_BOOK_ERROR, PIN_BOOK_ERROR_LOCKED))
        {
          g_propagate_error (error, g_steal_pointer (&local));
          return FALSE;
        }
      return changed (self, error);
    }
  if (g_strcmp0 (uuid, self->uuid) != 0 || g_strcmp0 (copy, self->copy) != 0 ||
      generation < self->generation)
    return changed (self, error);
  self->generation = generation;
  return TRUE;
}

/* Starts writing, once the file is known to be the one that was opened.
 * Errors: READ_ONLY, LOCKED, CHANGED. */
gboolean
pin_db_begin (PinDb *self, GError **error)
{
  if (self->read_only)
    return refuse (error, PIN_BOOK_ERROR_READ_ONLY, self->path,
                   _ ("it is open for reading only. Nothing was written; check the permissions of "
                      "the file and its folder, or work on a copy"));
  if (!same_file (self))
    return changed (self, error);
  if (!pin_db_exec (self, "BEGIN IMMEDIATE", error))
    return FALSE;
  if (still_ours (self, error) && same_file (self) &&
      pin_db_exec (self, "PRAGMA defer_foreign_keys = ON", error))
    return TRUE;
  if (error != NULL && *error == NULL)
    changed (self, error);
  pin_db_rollback (self);
  return FALSE;
}

/* Makes what was written since pin_db_begin() durable, or undoes it. */
gboolean
pin_db_commit (PinDb *self, GError **error)
{
  if (pin_db_exec (self, "UPDATE book SET generation = generation + 1", error) &&
      pin_db_exec (self, "COMMIT", error))
    {
      self->generation++;
      return TRUE;
    }
  pin_db_rollback (self);
  return FALSE;
}

/* The schema of this version as text; free with g_free(). */
char *
pin_db_schema (void)
{
  static gsize registered;
  g_autoptr (GBytes) bytes = NULL;
  const char *text;
  gsize size;

  if (g_once_init_enter (&registered))
    {
      pin_book_schema_register_resource ();
      g_once_init_leave (&registered, 1);
    }
  bytes =
      g_resource_lookup_data (pin_book_schema_get_resource (), "/page/hingepin/book/schema-v1.sql",
                              G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
  text = g_bytes_get_data (bytes, &size);

  return g_strndup (text, size);
}

static gboolean
fill (PinDb *db, GError **error)
{
  g_autofree char *schema = pin_db_schema ();
  g_autofree char *uuid = g_uuid_string_random ();
  g_autofree char *copy = g_uuid_string_random ();
  g_autoptr (PinStmt) stmt = NULL;

  if (!pin_db_exec (db, "BEGIN IMMEDIATE", error) || !pin_db_exec (db, schema, error))
    return FALSE;
  stmt = pin_db_prepare (db, "INSERT INTO book (one, uuid, copy, generation) VALUES (1, ?1, ?2, 0)",
                         error);
  if (stmt == NULL)
    return FALSE;
  pin_stmt_bind_text (stmt, 1, uuid);
  pin_stmt_bind_text (stmt, 2, copy);
  return pin_stmt_run (stmt, error) && pin_db_exec (db, "COMMIT", error);
}

static gboolean
make (const char *path, GError **error)
{
  g_autoptr (PinDb) db = pin_db_connect (path, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, error);
  gboolean done;

  if (db == NULL)
    return FALSE;
  db->making = TRUE;
  done = fill (db, error);
  if (!done)
    pin_db_rollback (db);
  return done;
}

/* Waits until the file, and its name in the folder, are on disk. */
gboolean
pin_db_sync_file (const char *path, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (path);
  const char *both[] = { path, folder };

  for (gsize i = 0; i < G_N_ELEMENTS (both); i++)
    {
      int fd = g_open (both[i], O_RDONLY | O_CLOEXEC, 0);
      gboolean synced = fd >= 0 && fsync (fd) == 0;
      int cause = errno;

      if (fd >= 0)
        close (fd);
      if (!synced)
        return refuse (error, PIN_BOOK_ERROR_FAILED, both[i], g_strerror (cause));
    }
  return TRUE;
}

/* Gives a finished file its name without ever replacing another. */
static gboolean
name_it (const char *from, const char *path, GError **error)
{
  int cause;

  if (link (from, path) == 0)
    return pin_db_sync_file (path, error);
  cause = errno;
  if (cause != EEXIST && !g_file_test (path, G_FILE_TEST_EXISTS) && g_rename (from, path) == 0)
    return pin_db_sync_file (path, error); /* a file system without links */
  if (cause == EEXIST)
    return refuse (error, PIN_BOOK_ERROR_EXISTS, path,
                   _ ("there is a file already. It was left as it is; choose another name"));
  return refuse (error, PIN_BOOK_ERROR_OPEN, path, g_strerror (cause));
}

/* Makes an empty book at @path (absolute), which must not exist.  It gets its
 * name only when it is complete. */
gboolean
pin_db_create (const char *path, GError **error)
{
  g_autofree char *half = NULL, *journal = NULL;
  gboolean done;

  if (g_file_test (path, G_FILE_TEST_EXISTS) || g_file_test (path, G_FILE_TEST_IS_SYMLINK))
    return refuse (error, PIN_BOOK_ERROR_EXISTS, path,
                   _ ("there is a file already. It was left as it is; choose another name"));
  half = g_strdup_printf ("%s.new-%08x", path, g_random_int ());
  journal = g_strconcat (half, "-journal", NULL);
  done = make (half, error) && name_it (half, path, error);
  g_unlink (half);
  g_unlink (journal);
  return done;
}
