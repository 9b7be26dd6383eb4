#include "book/known.h"

#include <glib/gi18n.h>
#include <string.h>

#include "book/book-private.h"
#include "book/derive.h"

/* Names without a schema are looked up among the temporary ones first: views
 * with the names of the fact tables, and tables with the names of the derived
 * ones, stand before those of the file, and every query and the rebuilding of
 * the derived tables work on them unchanged.
 *
 * A row is live then if it is no withdrawal and nothing entered up to then
 * replaces it.  What is live now was live since it was entered, so that its
 * indexes serve; the few rows that are not are copied, with `live` reckoned
 * anew.  Texts and pictures (source, image) bear no time and are reached only
 * through the rows that name them; a draft has no past. */

static const char *const timeless[] = { "source", "image", NULL };

static gboolean
exec (PinDb *db, GError **error, const char *format, ...) G_GNUC_PRINTF (3, 4);

static gboolean
exec (PinDb *db, GError **error, const char *format, ...)
{
  g_autofree char *sql = NULL;
  va_list args;

  va_start (args, format);
  sql = g_strdup_vprintf (format, args);
  va_end (args);
  return pin_db_exec (db, sql, error);
}

/* Rows of such a table can be replaced; in the others they only come. */
static gboolean
is_living (PinDb *db, const char *table, gboolean *living, GError **error)
{
  g_autofree char *sql = g_strdup_printf ("SELECT * FROM main.%s", table);
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, sql, error);

  *living = FALSE;
  for (int i = 0; stmt != NULL && i < pin_stmt_columns (stmt); i++)
    *living |= g_str_equal (pin_stmt_column (stmt, i), "live");
  return stmt != NULL;
}

static gboolean
draw_fact (PinDb *db, const char *table, GError **error)
{
  const char *entered = g_str_equal (table, "outing_part") ? "outing" : "id";
  gboolean living;

  if (!is_living (db, table, &living, error))
    return FALSE;
  if (!living)
    return exec (db, error,
                 "CREATE TEMP VIEW %s AS SELECT * FROM main.%s WHERE %s <= %" G_GINT64_FORMAT,
                 table, table, entered, db->known_until);
  return exec (db, error,
               "CREATE TEMP TABLE %s_then AS SELECT * FROM main.%s WHERE 0;"
               "CREATE TEMP VIEW %s AS SELECT * FROM main.%s WHERE live AND id <= %" G_GINT64_FORMAT
               " UNION ALL SELECT * FROM temp.%s_then",
               table, table, table, table, db->known_until, table);
}

/* As the schema makes it, but among the temporary ones. */
static gboolean
draw_derived (PinDb *db, const char *name, GError **error)
{
  static const char *const made[][2] = { { "CREATE TABLE ", "CREATE TEMP TABLE " },
                                         { "CREATE INDEX ", "CREATE INDEX temp." } };
  g_autofree char *ask =
      g_strdup_printf ("SELECT sql FROM main.sqlite_schema WHERE name = '%s'", name);
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, ask, error);
  const char *sql = stmt && pin_stmt_next (stmt, error) ? pin_stmt_text (stmt, 0) : NULL;

  for (gsize i = 0; sql != NULL && i < G_N_ELEMENTS (made); i++)
    if (g_str_has_prefix (sql, made[i][0]))
      return exec (db, error, "%s%s", made[i][1], sql + strlen (made[i][0]));
  if (error != NULL && *error == NULL)
    g_set_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_DAMAGED,
                 _ ("The service book “%s”: %s is missing from it. It was left as it is; restore the "
                    "newest backup"),
                 db->path, name);
  return FALSE;
}

static gboolean
draw (PinDb *db, GError **error)
{
  static const char *const derived[] = { "meter", "standing", "standing_on", "mark" };
  const char *const *facts = pin_law_facts ();

  for (gsize i = 0; facts[i] != NULL; i++)
    if (!g_strv_contains (timeless, facts[i]) && !draw_fact (db, facts[i], error))
      return FALSE;
  for (gsize i = 0; i < G_N_ELEMENTS (derived); i++)
    if (!draw_derived (db, derived[i], error))
      return FALSE;
  return pin_db_exec (db, "CREATE TEMP VIEW draft AS SELECT * FROM main.draft WHERE 0", error);
}

/* The rows that have been replaced or withdrawn since, or were by then. */
static gboolean
fill_fact (PinDb *db, const char *table, GError **error)
{
  gboolean living;

  if (!is_living (db, table, &living, error))
    return FALSE;
  return !living ||
         exec (db, error,
               "DELETE FROM temp.%1$s_then;"
               "INSERT INTO temp.%1$s_then SELECT * FROM main.%1$s "
               "WHERE NOT live AND id <= %2$" G_GINT64_FORMAT ";"
               "UPDATE temp.%1$s_then SET live = (void = 0 AND id NOT IN "
               "(SELECT replaces FROM main.%1$s "
               "WHERE replaces IS NOT NULL AND id <= %2$" G_GINT64_FORMAT "))",
               table, db->known_until);
}

static gboolean
fill (PinDb *db, GError **error)
{
  const char *const *facts = pin_law_facts ();

  for (gsize i = 0; facts[i] != NULL; i++)
    if (!fill_fact (db, facts[i], error))
      return FALSE;
  return pin_derive_rebuild (db, error);
}

/* Installing the law anew makes it judge statements that were kept, too. */
static void
set_drawing (PinDb *db, gboolean drawing)
{
  db->drawing = drawing;
  pin_law_install (db);
}

gboolean
pin_known_refresh (PinDb *db, GError **error)
{
  gint64 version;
  gboolean done;

  if (!pin_db_int (db, "PRAGMA main.data_version", 0, &version, error))
    return FALSE;
  if (version == db->known_version)
    return TRUE;
  set_drawing (db, TRUE);
  done = fill (db, error);
  set_drawing (db, FALSE);
  if (done)
    db->known_version = version;
  return done;
}

/* Rows entered in the very millisecond @instant are in. Errors: as pin_db_open(). */
PinDb *
pin_known_open (const char *path, gint64 instant, GError **error)
{
  g_autoptr (PinDb) db = pin_db_open (path, TRUE, error);
  gboolean done;

  if (db == NULL)
    return NULL;
  db->known = TRUE;
  db->known_until = pin_book_id_from (instant + 1, 0, 0) - 1;
  db->known_version = -1;
  set_drawing (db, TRUE);
  done = pin_db_exec (db, "PRAGMA temp_store = MEMORY; BEGIN", error) && draw (db, error) &&
         pin_known_refresh (db, error) && pin_db_exec (db, "COMMIT", error);
  set_drawing (db, FALSE);
  return done ? g_steal_pointer (&db) : NULL;
}
