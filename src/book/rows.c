#include "book/rows.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "base/day.h"
#include "base/outcome.h"

#define FIELD(row, column, type) (*(type *) ((char *) (row) + (column)->offset))
#define CONST_FIELD(row, column, type) (*(type const *) ((const char *) (row) + (column)->offset))

/* @size bytes as hex; free with g_free(). */
char *
pin_sha_text (const void *data, gsize size)
{
  const guint8 *bytes = data;
  GString *text = g_string_sized_new (size * 2);

  for (gsize i = 0; i < size; i++)
    g_string_append_printf (text, "%02x", bytes[i]);
  return g_string_free (text, FALSE);
}

/* FALSE unless @text is 64 hex digits. */
gboolean
pin_sha_bytes (const char *text, guint8 bytes[32])
{
  if (text == NULL || strlen (text) != 64)
    return FALSE;
  for (int i = 0; i < 32; i++)
    {
      int high = g_ascii_xdigit_value (text[2 * i]), low = g_ascii_xdigit_value (text[2 * i + 1]);

      if (high < 0 || low < 0)
        return FALSE;
      bytes[i] = high * 16 + low;
    }
  return TRUE;
}

static char *
reals_text (GArray *reals)
{
  GString *text = g_string_new ("[");
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  for (guint i = 0; i < reals->len; i++)
    g_string_append_printf (
        text, "%s%s", i > 0 ? "," : "",
        g_ascii_dtostr (number, sizeof number, g_array_index (reals, double, i)));
  g_string_append_c (text, ']');
  return g_string_free (text, FALSE);
}

static GArray *
reals_parse (const char *text)
{
  GArray *reals;

  if (text == NULL)
    return NULL;
  reals = g_array_new (FALSE, FALSE, sizeof (double));
  text += strspn (text, "[ ");
  while (*text != '\0' && *text != ']')
    {
      char *end;
      double value = g_ascii_strtod (text, &end);

      if (end == text)
        break;
      g_array_append_val (reals, value);
      text = end + strspn (end, ", ");
    }
  return reals;
}

static void
copy_field (const PinColumn *column, gpointer row)
{
  switch (column->type)
    {
    case PIN_COLUMN_TEXT:
    case PIN_COLUMN_DAY:
    case PIN_COLUMN_SHA:
      FIELD (row, column, char *) = g_strdup (FIELD (row, column, char *));
      break;
    case PIN_COLUMN_REALS:
      if (FIELD (row, column, GArray *) != NULL)
        FIELD (row, column, GArray *) = g_array_copy (FIELD (row, column, GArray *));
      break;
    case PIN_COLUMN_BYTES:
      if (FIELD (row, column, GBytes *) != NULL)
        g_bytes_ref (FIELD (row, column, GBytes *));
      break;
    default:
      break;
    }
}

static void
free_field (const PinColumn *column, gpointer row)
{
  switch (column->type)
    {
    case PIN_COLUMN_TEXT:
    case PIN_COLUMN_DAY:
    case PIN_COLUMN_SHA:
      g_free (FIELD (row, column, char *));
      break;
    case PIN_COLUMN_REALS:
      g_clear_pointer (&FIELD (row, column, GArray *), g_array_unref);
      break;
    case PIN_COLUMN_BYTES:
      g_clear_pointer (&FIELD (row, column, GBytes *), g_bytes_unref);
      break;
    default:
      break;
    }
}

/* Fields that the table does not describe are copied as they are. */
gpointer
pin_row_copy (const PinTable *table, gconstpointer row)
{
  gpointer copy = g_memdup2 (row, table->size);

  for (int i = 0; i < table->n_columns; i++)
    copy_field (&table->columns[i], copy);
  return copy;
}

void
pin_row_free (const PinTable *table, gpointer row)
{
  if (row == NULL)
    return;
  for (int i = 0; i < table->n_columns; i++)
    free_field (&table->columns[i], row);
  g_free (row);
}

static void
bind_bytes (PinStmt *stmt, int at, GBytes *bytes)
{
  gsize size;
  gconstpointer data;

  if (bytes == NULL)
    return;
  data = g_bytes_get_data (bytes, &size);
  pin_stmt_bind_blob (stmt, at, data, size);
}

/* @sha must outlive the statement's run. */
static void
bind_field (const PinColumn *column, gconstpointer row, PinStmt *stmt, int at, guint8 sha[32])
{
  switch (column->type)
    {
    case PIN_COLUMN_ID:
      pin_stmt_bind_id (stmt, at, CONST_FIELD (row, column, gint64));
      break;
    case PIN_COLUMN_TEXT:
    case PIN_COLUMN_DAY:
      pin_stmt_bind_text (stmt, at, CONST_FIELD (row, column, char *));
      break;
    case PIN_COLUMN_REAL:
      pin_stmt_bind_real (stmt, at, CONST_FIELD (row, column, double));
      break;
    case PIN_COLUMN_FLAG:
      pin_stmt_bind_int (stmt, at, CONST_FIELD (row, column, gboolean) != FALSE);
      break;
    case PIN_COLUMN_COUNT:
      if (CONST_FIELD (row, column, int) >= 0)
        pin_stmt_bind_int (stmt, at, CONST_FIELD (row, column, int));
      break;
    case PIN_COLUMN_MONEY:
      if (CONST_FIELD (row, column, gint64) >= 0)
        pin_stmt_bind_int (stmt, at, CONST_FIELD (row, column, gint64));
      break;
    case PIN_COLUMN_PHASE_OR_NULL:
      if (CONST_FIELD (row, column, PinPhase) == PIN_PHASE_ONLY)
        break;
      G_GNUC_FALLTHROUGH;
    case PIN_COLUMN_PHASE:
      pin_stmt_bind_text (stmt, at, pin_phase_word (CONST_FIELD (row, column, PinPhase)));
      break;
    case PIN_COLUMN_OUTCOME:
      pin_stmt_bind_text (stmt, at, pin_outcome_word (CONST_FIELD (row, column, PinOutcome)));
      break;
    case PIN_COLUMN_GRAVITY:
      if (CONST_FIELD (row, column, PinGravity) != PIN_GRAVITY_NONE)
        pin_stmt_bind_text (stmt, at, pin_gravity_word (CONST_FIELD (row, column, PinGravity)));
      break;
    case PIN_COLUMN_REALS:
      if (CONST_FIELD (row, column, GArray *) != NULL)
        {
          g_autofree char *text = reals_text (CONST_FIELD (row, column, GArray *));
          pin_stmt_bind_text (stmt, at, text);
        }
      break;
    case PIN_COLUMN_SHA:
      if (pin_sha_bytes (CONST_FIELD (row, column, char *), sha))
        pin_stmt_bind_blob (stmt, at, sha, 32);
      break;
    case PIN_COLUMN_BYTES:
      bind_bytes (stmt, at, CONST_FIELD (row, column, GBytes *));
      break;
    }
}

static char *
insert_text (const PinTable *table)
{
  GString *names = g_string_new (NULL), *marks = g_string_new (NULL);
  char *sql;

  for (int i = 0; i < table->n_columns; i++)
    {
      g_string_append_printf (names, "%s%s", i > 0 ? ", " : "", table->columns[i].name);
      g_string_append_printf (marks, "%s?%d", i > 0 ? ", " : "", i + 1);
    }
  if (table->lives) /* the description ends with void: what is void was never alive */
    {
      g_string_append (names, ", live");
      g_string_append_printf (marks, ", 1 - ?%d", table->n_columns);
    }
  sql = g_strdup_printf ("INSERT INTO %s (%s) VALUES (%s)%s", table->name, names->str, marks->str,
                         table->conflict ? table->conflict : "");
  g_string_free (names, TRUE);
  g_string_free (marks, TRUE);
  return sql;
}

static gboolean
check_days (const PinTable *table, gconstpointer row, GError **error)
{
  for (int i = 0; i < table->n_columns; i++)
    {
      const PinColumn *column = &table->columns[i];

      if (column->type != PIN_COLUMN_DAY || pin_day_valid (CONST_FIELD (row, column, char *)))
        continue;
      g_set_error (
          error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_LAW,
          _ ("“%s” is no date (in a row of %s). Nothing was written; write it as 2026-11-28"),
          CONST_FIELD (row, column, char *) ? CONST_FIELD (row, column, char *) : "", table->name);
      return FALSE;
    }
  return TRUE;
}

/* Writes one row; @db is in a transaction.  Errors: LAW and what the disk says. */
gboolean
pin_row_insert (PinDb *db, const PinTable *table, gconstpointer row, GError **error)
{
  g_autofree char *sql = insert_text (table);
  g_autoptr (PinStmt) stmt = NULL;
  guint8 sha[32];

  if (!check_days (table, row, error))
    return FALSE;
  stmt = pin_db_prepare (db, sql, error);
  if (stmt == NULL)
    return FALSE;
  for (int i = 0; i < table->n_columns; i++)
    bind_field (&table->columns[i], row, stmt, i + 1, sha);
  if (pin_stmt_run (stmt, error))
    return TRUE;
  g_prefix_error (error, "%s: ", table->name);
  return FALSE;
}

static void
read_field (const PinColumn *column, gpointer row, PinStmt *stmt, int at)
{
  gboolean null = pin_stmt_is_null (stmt, at);
  gconstpointer blob;
  gsize size;

  switch (column->type)
    {
    case PIN_COLUMN_ID:
      FIELD (row, column, gint64) = pin_stmt_int (stmt, at);
      break;
    case PIN_COLUMN_TEXT:
    case PIN_COLUMN_DAY:
      FIELD (row, column, char *) = g_strdup (pin_stmt_text (stmt, at));
      break;
    case PIN_COLUMN_REAL:
      FIELD (row, column, double) = pin_stmt_real (stmt, at);
      break;
    case PIN_COLUMN_FLAG:
      FIELD (row, column, gboolean) = pin_stmt_int (stmt, at) != 0;
      break;
    case PIN_COLUMN_COUNT:
      FIELD (row, column, int) = null ? -1 : (int) CLAMP (pin_stmt_int (stmt, at), 0, G_MAXINT);
      break;
    case PIN_COLUMN_MONEY:
      FIELD (row, column, gint64) = null ? -1 : pin_stmt_int (stmt, at);
      break;
    case PIN_COLUMN_PHASE:
    case PIN_COLUMN_PHASE_OR_NULL:
      pin_phase_parse (pin_stmt_text (stmt, at), &FIELD (row, column, PinPhase));
      break;
    case PIN_COLUMN_OUTCOME:
      pin_outcome_parse (pin_stmt_text (stmt, at), &FIELD (row, column, PinOutcome));
      break;
    case PIN_COLUMN_GRAVITY:
      pin_gravity_parse (pin_stmt_text (stmt, at), &FIELD (row, column, PinGravity));
      break;
    case PIN_COLUMN_REALS:
      FIELD (row, column, GArray *) = reals_parse (pin_stmt_text (stmt, at));
      break;
    case PIN_COLUMN_SHA:
      blob = pin_stmt_blob (stmt, at, &size);
      FIELD (row, column, char *) = null ? NULL : pin_sha_text (blob, size);
      break;
    case PIN_COLUMN_BYTES:
      blob = pin_stmt_blob (stmt, at, &size);
      FIELD (row, column, GBytes *) = null ? NULL : g_bytes_new (blob, size);
      break;
    }
}

/* The row that @stmt stands on; its first columns are those of @table. */
gpointer
pin_row_read (const PinTable *table, PinStmt *stmt)
{
  gpointer row = g_malloc0 (table->size);

  for (int i = 0; i < table->n_columns; i++)
    read_field (&table->columns[i], row, stmt, i);
  return row;
}

/* All rows that @stmt (borrowed) still gives. NULL on error. */
GPtrArray *
pin_rows_read (const PinTable *table, PinStmt *stmt, GDestroyNotify free_row, GError **error)
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func (free_row);
  g_autoptr (GError) local = NULL;

  while (pin_stmt_next (stmt, &local))
    g_ptr_array_add (rows, pin_row_read (table, stmt));
  if (local == NULL)
    return g_steal_pointer (&rows);
  g_propagate_error (error, g_steal_pointer (&local));
  return NULL;
}

/* "t.id, t.thing, …"; free with g_free(). */
char *
pin_row_columns (const PinTable *table, const char *alias)
{
  GString *text = g_string_new (NULL);

  for (int i = 0; i < table->n_columns; i++)
    g_string_append_printf (text, "%s%s.%s", i > 0 ? ", " : "", alias, table->columns[i].name);
  return g_string_free (text, FALSE);
}

/* "SELECT columns FROM table t " and @rest. */
PinStmt *
pin_rows_select (PinDb *db, const PinTable *table, const char *rest, GError **error)
{
  g_autofree char *columns = pin_row_columns (table, "t");
  g_autofree char *sql = g_strdup_printf ("SELECT %s FROM %s t %s", columns, table->name, rest);

  return pin_db_prepare (db, sql, error);
}
