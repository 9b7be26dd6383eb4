#include "book/keeping.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "book/rows.h"

/* Everything in the book, for other programs and for ever: one CSV for each
 * table (RFC 4180, UTF-8, a header line), texts and pictures as files. */

typedef struct
{
  const char *folder;
  PinProgress progress;
  gpointer data;
  GCancellable *cancellable;
} Export;

/* Texts and pictures stand in files of their own. */
static const char *const tables[][2] = {
  { "book", "SELECT uuid, copy, generation FROM book" },
  { "kept", "SELECT at, path FROM kept" },
  { "source", "SELECT sha, room, code FROM source ORDER BY room, code, sha" },
  { "vehicle", "SELECT * FROM vehicle ORDER BY id" },
  { "place", "SELECT * FROM place ORDER BY id" },
  { "part", "SELECT * FROM part ORDER BY id" },
  { "supply", "SELECT * FROM supply ORDER BY id" },
  { "trait", "SELECT * FROM trait ORDER BY id" },
  { "fitting", "SELECT * FROM fitting ORDER BY id" },
  { "outing", "SELECT * FROM outing ORDER BY id" },
  { "outing_part", "SELECT * FROM outing_part ORDER BY outing, part" },
  { "inspection", "SELECT * FROM inspection ORDER BY id" },
  { "walk_plan", "SELECT * FROM walk_plan ORDER BY id" },
  { "draft", "SELECT * FROM draft ORDER BY inspection" },
  { "sign_off", "SELECT * FROM sign_off ORDER BY id" },
  { "answer", "SELECT * FROM answer ORDER BY id" },
  { "reading", "SELECT * FROM reading ORDER BY id" },
  { "work", "SELECT * FROM work ORDER BY id" },
  { "owed", "SELECT * FROM owed ORDER BY id" },
  { "finding", "SELECT * FROM finding ORDER BY id" },
  { "own_rule", "SELECT * FROM own_rule ORDER BY id" },
  { "own_limit", "SELECT * FROM own_limit ORDER BY id" },
  { "stock", "SELECT * FROM stock ORDER BY id" },
  { "photo", "SELECT * FROM photo ORDER BY id" },
  { "image", "SELECT sha FROM image ORDER BY sha" },
  { "meter", "SELECT * FROM meter ORDER BY vehicle" },
  { "standing", "SELECT * FROM standing ORDER BY part" },
  { "mark", "SELECT * FROM mark ORDER BY part, deed" },
};

static const char readme[] =
    "This folder holds everything that is in a Hingepin service book.\n"
    "\n"
    "tables/*.csv   one file for each table: UTF-8, comma-separated, a header line,\n"
    "               lines end in CR LF (RFC 4180). An empty field is \"not known\"; an\n"
    "               empty text is written as \"\". Numbers have a decimal point.\n"
    "sources/       the texts of procedures, chassis types, kinds and rules as they\n"
    "               were used, ROOM/CODE-SHA.xml\n"
    "photos/        the pictures, SHA.jpg; tables/photo.csv says of what each is\n"
    "\n"
    "An id is the time of entry and some random bits in one number of up to 19\n"
    "digits: read it as text, a spreadsheet would round it. `replaces` names the row\n"
    "that a row corrects, void = 1 withdraws it, and live = 1 marks the rows that hold\n"
    "now. `at`, `ready_at` and `due_at` are milliseconds since 1970-01-01 UTC, `day` is\n"
    "a civil date. Values are in s, m, kg, N m, V, ohm, A, m2/s, degrees Celsius, rad;\n"
    "`typed` is what was typed. meter, standing and mark are reckoned from the rest.\n"
    "\n"
    "The data are exact. A text that begins with =, +, - or @ is a formula to some\n"
    "spreadsheets: import these columns as text.\n";

static gboolean
refuse (GError **error, PinBookError code, const char *path, const char *why)
{
  g_set_error (error, PIN_BOOK_ERROR, code, _ ("“%s”: %s"), path, why);
  return FALSE;
}

/* --- files ------------------------------------------------------------------ */

static gboolean
save (const Export *self, const char *name, const char *data, gsize size, GError **error)
{
  g_autofree char *path = g_build_filename (self->folder, name, NULL);
  g_autofree char *folder = g_path_get_dirname (path);
  g_autoptr (GError) local = NULL;

  if (g_cancellable_set_error_if_cancelled (self->cancellable, error))
    return FALSE;
  if (g_mkdir_with_parents (folder, 0777) != 0)
    return refuse (error, PIN_BOOK_ERROR_OPEN, folder, g_strerror (errno));
  if (g_file_set_contents_full (path, data, size, G_FILE_SET_CONTENTS_CONSISTENT, 0666, &local))
    return TRUE;
  return refuse (error,
                 g_error_matches (local, G_FILE_ERROR, G_FILE_ERROR_NOSPC) ? PIN_BOOK_ERROR_FULL
                                                                           : PIN_BOOK_ERROR_OPEN,
                 path, local->message);
}

static gboolean
empty_folder (const char *folder, GError **error)
{
  g_autoptr (GDir) dir = NULL;

  if (g_mkdir_with_parents (folder, 0777) != 0)
    return refuse (error, PIN_BOOK_ERROR_OPEN, folder,
                   _ ("the folder cannot be made. Choose another place"));
  dir = g_dir_open (folder, 0, NULL);
  if (dir == NULL)
    return refuse (error, PIN_BOOK_ERROR_OPEN, folder,
                   _ ("the folder cannot be read. Choose another place"));
  if (g_dir_read_name (dir) != NULL)
    return refuse (
        error, PIN_BOOK_ERROR_EXISTS, folder,
        _ ("there are files in this folder. They were left as they are; choose a new folder"));
  return TRUE;
}

/* --- CSV -------------------------------------------------------------------- */

static void
add_text (GString *csv, const char *text)
{
  if (*text != '\0' && strpbrk (text, ",\"\r\n") == NULL)
    {
      g_string_append (csv, text);
      return;
    }
  g_string_append_c (csv, '"');
  for (const char *c = text; *c != '\0'; c++)
    {
      if (*c == '"')
        g_string_append_c (csv, '"');
      g_string_append_c (csv, *c);
    }
  g_string_append_c (csv, '"');
}

/* The fewest digits that read back as the same number. */
static void
add_real (GString *csv, double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  g_ascii_formatd (text, sizeof text, "%.15g", value);
  if (g_ascii_strtod (text, NULL) != value)
    g_ascii_dtostr (text, sizeof text, value);
  g_string_append (csv, text);
}

static void
add_blob (GString *csv, PinStmt *stmt, int at)
{
  gsize size;
  const void *data = pin_stmt_blob (stmt, at, &size);
  g_autofree char *text = pin_sha_text (data, size);

  g_string_append (csv, text);
}

static void
add_field (GString *csv, PinStmt *stmt, int at)
{
  switch (pin_stmt_type (stmt, at))
    {
    case SQLITE_INTEGER:
      g_string_append_printf (csv, "%" G_GINT64_FORMAT, pin_stmt_int (stmt, at));
      break;
    case SQLITE_FLOAT:
      add_real (csv, pin_stmt_real (stmt, at));
      break;
    case SQLITE_TEXT:
      add_text (csv, pin_stmt_text (stmt, at));
      break;
    case SQLITE_BLOB:
      add_blob (csv, stmt, at);
      break;
    default: /* NULL: nothing */
      break;
    }
}

static void
add_header (GString *csv, PinStmt *stmt)
{
  for (int i = 0; i < pin_stmt_columns (stmt); i++)
    g_string_append_printf (csv, "%s%s", i > 0 ? "," : "", pin_stmt_column (stmt, i));
  g_string_append (csv, "\r\n");
}

static gboolean
export_table (const Export *self, PinDb *db, const char *name, const char *sql, GError **error)
{
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, sql, error);
  g_autoptr (GString) csv = g_string_new (NULL);
  g_autofree char *file = g_strdup_printf ("tables/%s.csv", name);
  g_autoptr (GError) local = NULL;

  if (stmt == NULL)
    return FALSE;
  add_header (csv, stmt);
  while (pin_stmt_next (stmt, &local))
    {
      for (int i = 0; i < pin_stmt_columns (stmt); i++)
        {
          if (i > 0)
            g_string_append_c (csv, ',');
          add_field (csv, stmt, i);
        }
      g_string_append (csv, "\r\n");
    }
  if (local == NULL)
    return save (self, file, csv->str, csv->len, error);
  g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}

/* --- texts and pictures ----------------------------------------------------- */

/* A book may come from anywhere: its words must not lead out of the folder. */
static char *
tame (const char *word)
{
  char *name = g_strdup (word && *word != '\0' ? word : "unnamed");

  g_strcanon (name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_.", '_');
  if (*name == '.')
    *name = '_';
  return name;
}

static char *
source_name (PinStmt *stmt, const char *sha)
{
  g_autofree char *room = tame (pin_stmt_text (stmt, 2));
  g_autofree char *code = tame (pin_stmt_text (stmt, 3));

  return g_strdup_printf ("sources/%s/%s-%.8s.xml", room, code, sha);
}

static char *
photo_name (PinStmt *stmt, const char *sha)
{
  return g_strdup_printf ("photos/%s.jpg", sha);
}

static gboolean
export_files (const Export *self, PinDb *db, const char *sql,
              char *(*name_of) (PinStmt *, const char *), GError **error)
{
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, sql, error);
  g_autoptr (GError) local = NULL;

  if (stmt == NULL)
    return FALSE;
  while (pin_stmt_next (stmt, &local))
    {
      gsize size, sha_size;
      const void *sha = pin_stmt_blob (stmt, 0, &sha_size);
      g_autofree char *text = pin_sha_text (sha, sha_size);
      g_autofree char *name = name_of (stmt, text);
      const void *data = pin_stmt_blob (stmt, 1, &size);

      if (!save (self, name, data ? data : "", size, error))
        return FALSE;
    }
  if (local == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}

/* --- all of it -------------------------------------------------------------- */

static gpointer
export_all (PinDb *db, gpointer data, GError **error)
{
  const Export *self = data;
  int n = G_N_ELEMENTS (tables) + 2;

  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    {
      if (!export_table (self, db, tables[i][0], tables[i][1], error))
        return NULL;
      if (self->progress != NULL)
        self->progress ((i + 1.0) / n, self->data);
    }
  if (!export_files (self, db, "SELECT sha, xml, room, code FROM source", source_name, error) ||
      !export_files (self, db, "SELECT sha, jpeg FROM image", photo_name, error) ||
      !save (self, "README.txt", readme, strlen (readme), error))
    return NULL;
  if (self->progress != NULL)
    self->progress (1, self->data);
  return db;
}

/* @folder is new or empty.  All of it is one state of the book; @progress, if
 * not NULL, is called on the book's thread.  Errors: EXISTS, OPEN, FULL,
 * G_IO_ERROR_CANCELLED. */
gboolean
pin_book_export (PinBook *self, const char *folder, PinProgress progress, gpointer data,
                 GCancellable *cancellable, GError **error)
{
  Export export = { folder, progress, data, cancellable };

  return empty_folder (folder, error) && pin_book_run (self, export_all, &export, error) != NULL;
}
