#include "book/db-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

struct _PinStmt
{
  PinDb *db;
  sqlite3_stmt *stmt;
  int rc; /* of the first bind that failed */
};

typedef struct
{
  int rc; /* primary or extended SQLite code */
  PinBookError code;
  const char *what; /* cause, what became of the data, what to do */
} Cause;

static const Cause causes[] = {
  { SQLITE_FULL, PIN_BOOK_ERROR_FULL,
    N_ ("the disk is full. Nothing of this was written and nothing was lost; free some space and "
        "try again") },
  { SQLITE_READONLY, PIN_BOOK_ERROR_READ_ONLY,
    N_ ("the file or its folder cannot be written. Nothing was written; check their permissions, "
        "or work on a copy in another folder") },
  { SQLITE_BUSY, PIN_BOOK_ERROR_LOCKED,
    N_ ("another program is using it. Nothing was written; close the other program, or wait a "
        "moment and try again") },
  { SQLITE_LOCKED, PIN_BOOK_ERROR_LOCKED,
    N_ ("another part of this program is using it. Nothing was written; try again") },
  { SQLITE_CORRUPT, PIN_BOOK_ERROR_DAMAGED,
    N_ ("the file is damaged. It was left as it is; keep it, and restore the newest backup") },
  { SQLITE_NOTADB, PIN_BOOK_ERROR_NOT_A_BOOK,
    N_ ("this is not a service book. It was left as it is; choose a file that ends in .hingepin") },
  { SQLITE_CANTOPEN, PIN_BOOK_ERROR_OPEN,
    N_ ("the file or its journal cannot be opened. Nothing was written; check that the folder "
        "exists and may be written") },
  { SQLITE_PERM, PIN_BOOK_ERROR_OPEN,
    N_ ("access was refused. Nothing was written; check the permissions of the file") },
  { SQLITE_AUTH, PIN_BOOK_ERROR_LAW,
    N_ ("the law of the book forbids this. Nothing was written; facts are corrected by new rows, "
        "never changed or deleted") },
  { SQLITE_CONSTRAINT, PIN_BOOK_ERROR_LAW,
    N_ ("the book does not take this row. Nothing of this was written; correct what is named and "
        "try again") },
  { SQLITE_NOMEM, PIN_BOOK_ERROR_FAILED,
    N_ ("there is not enough memory. Nothing was written; close other programs and try again") },
  { SQLITE_IOERR, PIN_BOOK_ERROR_FAILED,
    N_ ("the disk failed to read or write. Check the disk and its cable, make a backup, then try "
        "again") },
};

static int patience = 5000;
static const char *vfs_name;

/* Milliseconds to wait for another program to let go of the file. */
void
pin_db_set_patience (int milliseconds)
{
  g_atomic_int_set (&patience, milliseconds);
}

int
pin_db_patience (void)
{
  return g_atomic_int_get (&patience);
}

/* The SQLite file layer that later connections use; NULL: the usual one.  So
 * that tests can make the disk fail. */
void
pin_db_set_vfs (const char *name)
{
  vfs_name = name;
}

const char *
pin_db_vfs (void)
{
  return vfs_name;
}

static const Cause *
cause_of (int rc)
{
  for (gsize i = 0; i < G_N_ELEMENTS (causes); i++)
    if (causes[i].rc == (rc & 0xff))
      return &causes[i];
  return NULL;
}

static gboolean
fail_with (const char *path, int rc, const char *detail, GError **error)
{
  const Cause *cause = cause_of (rc);

  if (cause == NULL)
    g_set_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_FAILED,
                 _ ("The service book “%s”: something unexpected went wrong (%s). Nothing of this "
                    "was written"),
                 path, detail);
  else
    g_set_error (error, PIN_BOOK_ERROR, cause->code,
                 _ ("The service book “%s”: %s (%s)"), path, _ (cause->what), detail);
  return FALSE;
}

/* Sets @error from what SQLite last said; always FALSE. */
gboolean
pin_db_fail (PinDb *self, GError **error)
{
  return fail_with (self->path, sqlite3_extended_errcode (self->sqlite),
                    sqlite3_errmsg (self->sqlite), error);
}

static void
set_up (PinDb *self)
{
  sqlite3 *sqlite = self->sqlite;

  sqlite3_extended_result_codes (sqlite, 1);
  sqlite3_busy_timeout (sqlite, pin_db_patience ());
  sqlite3_db_config (sqlite, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
  sqlite3_db_config (sqlite, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, NULL);
  sqlite3_db_config (sqlite, SQLITE_DBCONFIG_ENABLE_FKEY, 1, NULL);
  sqlite3_db_config (sqlite, SQLITE_DBCONFIG_DQS_DML, 0, NULL);
  sqlite3_db_config (sqlite, SQLITE_DBCONFIG_DQS_DDL, 0, NULL);
  sqlite3_db_config (sqlite, SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0, NULL);
}

static void
finalize (gpointer stmt)
{
  sqlite3_finalize (stmt);
}

/* A connection with the book's settings; @flags are SQLITE_OPEN_….  Says nothing
 * about what is in the file. */
/* The file that people know, where SQLite is given a URI with options. */
static char *
shown_path (const char *path, int flags)
{
  g_autofree char *uri = flags & SQLITE_OPEN_URI ? g_strndup (path, strcspn (path, "?")) : NULL;
  char *file = uri ? g_filename_from_uri (uri, NULL, NULL) : NULL;

  return file ? file : g_strdup (path);
}

PinDb *
pin_db_connect (const char *path, int flags, GError **error)
{
  g_autoptr (PinDb) self = g_new0 (PinDb, 1);
  int rc;

  self->path = shown_path (path, flags);
  self->idle = g_hash_table_new_full (g_str_hash, g_str_equal, g_free,
                                      finalize);
  rc = sqlite3_open_v2 (path, &self->sqlite, flags | SQLITE_OPEN_NOMUTEX, vfs_name);
  if (rc != SQLITE_OK)
    {
      fail_with (self->path, rc, sqlite3_errstr (rc), error);
      return NULL;
    }
  self->read_only =
      (flags & SQLITE_OPEN_READONLY) || sqlite3_db_readonly (self->sqlite, "main") == 1;
  set_up (self);
  /* recursive_triggers: so that INSERT OR REPLACE meets the delete triggers. */
  if (!pin_db_exec (self, "PRAGMA recursive_triggers = ON;"
                          "PRAGMA cell_size_check = ON;"
                          "PRAGMA synchronous = EXTRA;",
                    error))
    return NULL;
  pin_law_install (self);
  return g_steal_pointer (&self);
}

void
pin_db_close (PinDb *self)
{
  if (self == NULL)
    return;
  g_clear_pointer (&self->idle, g_hash_table_destroy);
  sqlite3_close_v2 (self->sqlite);
  g_free (self->path);
  g_free (self->uuid);
  g_free (self->copy);
  g_free (self);
}

/* Runs @sql, which may be several statements, for its effect. */
gboolean
pin_db_exec (PinDb *self, const char *sql, GError **error)
{
  if (sqlite3_exec (self->sqlite, sql, NULL, NULL, NULL) != SQLITE_OK)
    return pin_db_fail (self, error);
  return TRUE;
}

/* First column of the first row; @id, unless 0, is bound to ?1.  *value is 0
 * if there is no row or it is NULL. */
gboolean
pin_db_int (PinDb *self, const char *sql, gint64 id, gint64 *value, GError **error)
{
  g_autoptr (PinStmt) stmt = pin_db_prepare (self, sql, error);
  g_autoptr (GError) local = NULL;

  *value = 0;
  if (stmt == NULL)
    return FALSE;
  if (id != 0)
    pin_stmt_bind_int (stmt, 1, id);
  if (pin_stmt_next (stmt, &local))
    *value = pin_stmt_int (stmt, 0);
  if (local == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}

void
pin_db_rollback (PinDb *self)
{
  if (!sqlite3_get_autocommit (self->sqlite))
    sqlite3_exec (self->sqlite, "ROLLBACK", NULL, NULL, NULL);
}

/* Lends a statement for @sql, which must be one statement. */
PinStmt *
pin_db_prepare (PinDb *self, const char *sql, GError **error)
{
  PinStmt *stmt;
  gpointer key = NULL, idle = NULL;

  if (g_hash_table_steal_extended (self->idle, sql, &key, &idle))
    g_free (key);
  else if (sqlite3_prepare_v3 (self->sqlite, sql, -1, SQLITE_PREPARE_PERSISTENT,
                               (sqlite3_stmt **) &idle, NULL) != SQLITE_OK)
    {
      pin_db_fail (self, error);
      return NULL;
    }
  stmt = g_new0 (PinStmt, 1);
  stmt->db = self;
  stmt->stmt = idle;
  return stmt;
}

/* Gives the statement back, at rest and with nothing bound. */
void
pin_stmt_done (PinStmt *self)
{
  if (self == NULL)
    return;
  sqlite3_reset (self->stmt);
  sqlite3_clear_bindings (self->stmt);
  /* Replaces, and so finalises, a second loan of the same text. */
  g_hash_table_replace (self->db->idle, g_strdup (sqlite3_sql (self->stmt)), self->stmt);
  g_free (self);
}

/* TRUE: there is a row.  FALSE: the end, or an error if @error is set. */
gboolean
pin_stmt_next (PinStmt *self, GError **error)
{
  int rc = self->rc != SQLITE_OK ? self->rc : sqlite3_step (self->stmt);

  if (rc == SQLITE_ROW)
    return TRUE;
  if (rc != SQLITE_DONE)
    pin_db_fail (self->db, error);
  return FALSE;
}

/* For a statement run for its effect; it can be bound and run again. */
gboolean
pin_stmt_run (PinStmt *self, GError **error)
{
  int rc = self->rc != SQLITE_OK ? self->rc : sqlite3_step (self->stmt);

  if (rc != SQLITE_DONE && rc != SQLITE_ROW)
    return pin_db_fail (self->db, error);
  sqlite3_reset (self->stmt);
  return TRUE;
}

static void
note (PinStmt *self, int rc)
{
  if (self->rc == SQLITE_OK)
    self->rc = rc;
}

void
pin_stmt_bind_int (PinStmt *self, int at, gint64 value)
{
  note (self, sqlite3_bind_int64 (self->stmt, at, value));
}

/* 0 is bound as NULL. */
void
pin_stmt_bind_id (PinStmt *self, int at, gint64 id)
{
  note (self,
        id != 0 ? sqlite3_bind_int64 (self->stmt, at, id) : sqlite3_bind_null (self->stmt, at));
}

/* NAN is bound as NULL. */
void
pin_stmt_bind_real (PinStmt *self, int at, double value)
{
  note (self, isnan (value) ? sqlite3_bind_null (self->stmt, at)
                            : sqlite3_bind_double (self->stmt, at, value));
}

void
pin_stmt_bind_text (PinStmt *self, int at, const char *text)
{
  note (self, sqlite3_bind_text (self->stmt, at, text, -1, SQLITE_TRANSIENT));
}

/* @data must stay until the statement has run. */
void
pin_stmt_bind_blob (PinStmt *self, int at, const void *data, gsize size)
{
  note (self, size == 0 ? sqlite3_bind_zeroblob (self->stmt, at, 0)
                        : sqlite3_bind_blob64 (self->stmt, at, data, size, SQLITE_STATIC));
}

gboolean
pin_stmt_is_null (PinStmt *self, int at)
{
  return sqlite3_column_type (self->stmt, at) == SQLITE_NULL;
}

gint64
pin_stmt_int (PinStmt *self, int at)
{
  return sqlite3_column_int64 (self->stmt, at);
}

/* NULL is read as NAN. */
double
pin_stmt_real (PinStmt *self, int at)
{
  return pin_stmt_is_null (self, at) ? NAN : sqlite3_column_double (self->stmt, at);
}

/* Valid until the next step; NULL for NULL. */
const char *
pin_stmt_text (PinStmt *self, int at)
{
  return (const char *) sqlite3_column_text (self->stmt, at);
}

const void *
pin_stmt_blob (PinStmt *self, int at, gsize *size)
{
  const void *data = sqlite3_column_blob (self->stmt, at);

  *size = sqlite3_column_bytes (self->stmt, at);
  return data;
}

int
pin_stmt_type (PinStmt *self, int at)
{
  return sqlite3_column_type (self->stmt, at);
}

int
pin_stmt_columns (PinStmt *self)
{
  return sqlite3_column_count (self->stmt);
}

const char *
pin_stmt_column (PinStmt *self, int at)
{
  return sqlite3_column_name (self->stmt, at);
}
