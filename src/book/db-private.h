#pragma once

#include <gio/gio.h>
#include <sqlite3.h>

#include "book/db.h"
#include "book/error.h"

/* For the book room alone: one SQLite connection and its statements.
 *
 * A PinDb belongs to one thread at a time.  A statement that was prepared once
 * is kept and lent out again for the same SQL text; a PinStmt is that loan. */

struct _PinDb
{
  sqlite3 *sqlite;
  char *path;
  gboolean read_only;
  gboolean making;            /* the schema may change: while creating or migrating */
  GHashTable *idle;           /* SQL text → sqlite3_stmt at rest */
  guint64 device, inode;      /* of the file as it was opened */
  char *uuid, *copy;          /* of the stable, and of this copy of the file */
  gint64 generation;          /* as last read or written here */
  gboolean known, drawing;    /* see known.h */
  gint64 known_until;         /* the greatest id shown */
  gint64 known_version;       /* of the file's data when that was drawn */
};

typedef struct _PinStmt PinStmt;

#define PIN_BOOK_APPLICATION_ID 0x48706E62
#define PIN_BOOK_VERSION 1

/* db.c */
PinDb      *pin_db_connect       (const char  *path,
                                  int          flags,
                                  GError     **error);
void        pin_db_close         (PinDb       *self);
gboolean    pin_db_fail          (PinDb       *self,
                                  GError     **error);
gboolean    pin_db_exec          (PinDb       *self,
                                  const char  *sql,
                                  GError     **error);
gboolean    pin_db_int           (PinDb       *self,
                                  const char  *sql,
                                  gint64       id,
                                  gint64      *value,
                                  GError     **error);
void        pin_db_rollback      (PinDb       *self);
void        pin_db_set_patience  (int          milliseconds);
int         pin_db_patience      (void);
void        pin_db_set_vfs       (const char  *name);
const char *pin_db_vfs           (void);

PinStmt    *pin_db_prepare       (PinDb       *self,
                                  const char  *sql,
                                  GError     **error);
void        pin_stmt_done        (PinStmt     *self);
gboolean    pin_stmt_next        (PinStmt     *self,
                                  GError     **error);
gboolean    pin_stmt_run         (PinStmt     *self,
                                  GError     **error);
void        pin_stmt_bind_int    (PinStmt     *self, int at, gint64 value);
void        pin_stmt_bind_id     (PinStmt     *self, int at, gint64 id);
void        pin_stmt_bind_real   (PinStmt     *self, int at, double value);
void        pin_stmt_bind_text   (PinStmt     *self, int at, const char *text);
void        pin_stmt_bind_blob   (PinStmt     *self, int at, const void *data, gsize size);
gboolean    pin_stmt_is_null     (PinStmt     *self, int at);
gint64      pin_stmt_int         (PinStmt     *self, int at);
double      pin_stmt_real        (PinStmt     *self, int at);
const char *pin_stmt_text        (PinStmt     *self, int at);
const void *pin_stmt_blob        (PinStmt     *self, int at, gsize *size);
int         pin_stmt_type        (PinStmt     *self, int at);
int         pin_stmt_columns     (PinStmt     *self);
const char *pin_stmt_column      (PinStmt     *self, int at);

/* law.c */
void        pin_law_install      (PinDb       *self);
const char *const *pin_law_facts (void);

/* open.c */
PinDb      *pin_db_open          (const char  *path,
                                  gboolean     read_only,
                                  GError     **error);
gboolean    pin_db_create        (const char  *path,
                                  GError     **error);
gboolean    pin_db_begin         (PinDb       *self,
                                  GError     **error);
gboolean    pin_db_commit        (PinDb       *self,
                                  GError     **error);
gboolean    pin_db_quick_check   (PinDb       *self,
                                  GError     **error);
gboolean    pin_db_check_file    (const char  *path,
                                  gint64      *version,
                                  GError     **error);
gboolean    pin_db_sync_file     (const char  *path,
                                  GError     **error);
char       *pin_db_schema        (void);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinDb, pin_db_close)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinStmt, pin_stmt_done)
