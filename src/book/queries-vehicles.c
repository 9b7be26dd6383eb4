#include "book/queries-private.h"

#include <glib/gi18n.h>
#include <inttypes.h>
#include <math.h>

/* --- the common shape ------------------------------------------------------- */

/* Rows of @sql, whose columns are those of @table.  @id is bound to ?1, and
 * @text to ?2 if the statement has it; unused ones are 0 and NULL. */
GPtrArray *
pin_query_sql (PinDb *db, const PinTable *table, GDestroyNotify free_row, const char *sql,
               gint64 id, const char *text, GError **error)
{
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, sql, error);

  if (stmt == NULL)
    return NULL;
  if (id != 0)
    pin_stmt_bind_int (stmt, 1, id);
  if (text != NULL)
    pin_stmt_bind_text (stmt, 2, text);
  return pin_rows_read (table, stmt, free_row, error);
}

/* Whole rows of @table, called t in @rest. */
GPtrArray *
pin_query_rows (PinDb *db, const PinTable *table, GDestroyNotify free_row, const char *rest,
                gint64 id, const char *text, GError **error)
{
  g_autofree char *columns = pin_row_columns (table, "t");
  g_autofree char *sql = g_strdup_printf ("SELECT %s FROM %s t %s", columns, table->name, rest);

  return pin_query_sql (db, table, free_row, sql, id, text, error);
}

/* Takes @rows, gives the first of them; NULL if there is none. */
gpointer
pin_query_first (GPtrArray *rows)
{
  gpointer first = NULL;

  if (rows != NULL && rows->len > 0)
    first = g_ptr_array_steal_index (rows, 0);
  g_clear_pointer (&rows, g_ptr_array_unref);
  return first;
}

/* --- vehicles --------------------------------------------------------------- */

#define COLUMN(S, f, t) { #f, PIN_COLUMN_##t, G_STRUCT_OFFSET (S, f) }

static const PinColumn vehicle_row_columns[] = {
  COLUMN (PinVehicleRow, id, ID), COLUMN (PinVehicleRow, chassis_sha, SHA),
  COLUMN (PinVehicleRow, chassis_code, TEXT), COLUMN (PinVehicleRow, name, TEXT),
  COLUMN (PinVehicleRow, state, TEXT), COLUMN (PinVehicleRow, seconds, REAL),
  COLUMN (PinVehicleRow, runs, REAL), COLUMN (PinVehicleRow, outings, REAL),
  COLUMN (PinVehicleRow, litres, REAL), COLUMN (PinVehicleRow, before_seconds, REAL),
  COLUMN (PinVehicleRow, before_runs, REAL), COLUMN (PinVehicleRow, before_litres, REAL),
  COLUMN (PinVehicleRow, first_day, TEXT), COLUMN (PinVehicleRow, last_day, TEXT),
};
static const PinTable vehicle_rows = { "vehicle", sizeof (PinVehicleRow), vehicle_row_columns,
                                       G_N_ELEMENTS (vehicle_row_columns) };

#define NEWEST_TRAIT(what, code) \
  "(SELECT " what " FROM trait WHERE thing = v.id AND code = '" code "' AND live " \
  "ORDER BY day DESC, at DESC, id DESC LIMIT 1)"

#define VEHICLES \
  "SELECT v.id, v.chassis, s.code, " NEWEST_TRAIT ("text", "name") ", " \
  NEWEST_TRAIT ("text", "state") ", m.seconds, m.runs, m.outings, m.litres, " \
  NEWEST_TRAIT ("value", "used.seconds") ", " NEWEST_TRAIT ("value", "used.runs") ", " \
  NEWEST_TRAIT ("value", "used.litres") ", m.first_day, m.last_day " \
  "FROM vehicle v LEFT JOIN source s ON s.sha = v.chassis LEFT JOIN meter m ON m.vehicle = v.id "

void
pin_vehicle_row_free (PinVehicleRow *row)
{
  pin_row_free (&vehicle_rows, row);
}

GPtrArray *
pin_query_vehicles (PinDb *db, GError **error)
{
  return pin_query_sql (db, &vehicle_rows, (GDestroyNotify) pin_vehicle_row_free,
                        VEHICLES "ORDER BY v.id", 0, NULL, error);
}

/* Error NOT_FOUND if there is no such vehicle. */
PinVehicleRow *
pin_query_vehicle (PinDb *db, gint64 vehicle, GError **error)
{
  GPtrArray *rows = pin_query_sql (db, &vehicle_rows, (GDestroyNotify) pin_vehicle_row_free,
                                   VEHICLES "WHERE v.id = ?1", vehicle, NULL, error);
  PinVehicleRow *row;

  if (rows == NULL)
    return NULL;
  row = pin_query_first (rows);
  if (row == NULL)
    g_set_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_NOT_FOUND,
                 _ ("There is no vehicle %" PRId64 " in this book"), vehicle);
  return row;
}

/* --- places ----------------------------------------------------------------- */

static const PinColumn place_row_columns[] = {
  COLUMN (PinPlaceRow, id, ID),      COLUMN (PinPlaceRow, vehicle, ID),
  COLUMN (PinPlaceRow, carrier, ID), COLUMN (PinPlaceRow, code, TEXT),
  COLUMN (PinPlaceRow, kind, TEXT),
};
static const PinTable place_rows = { "place", sizeof (PinPlaceRow), place_row_columns,
                                     G_N_ELEMENTS (place_row_columns) };

void
pin_place_row_free (PinPlaceRow *row)
{
  pin_row_free (&place_rows, row);
}

GPtrArray *
pin_query_places (PinDb *db, gint64 vehicle, GError **error)
{
  return pin_query_rows (db, &place_rows, (GDestroyNotify) pin_place_row_free,
                         vehicle != 0 ? "WHERE t.vehicle = ?1 ORDER BY t.id" : "ORDER BY t.id",
                         vehicle, NULL, error);
}

/* Where @part ever sat. */
GPtrArray *
pin_query_places_of_part (PinDb *db, gint64 part, GError **error)
{
  return pin_query_rows (db, &place_rows, (GDestroyNotify) pin_place_row_free,
                         "WHERE t.id IN (SELECT place FROM fitting WHERE part = ?1 AND live)", part,
                         NULL, error);
}

/* --- traits ----------------------------------------------------------------- */

/* Of rows ordered by thing and code, newest last, the last of each stays. */
static GPtrArray *
keep_newest (GPtrArray *rows)
{
  guint kept = 0;

  if (rows == NULL)
    return NULL;
  for (guint i = 0; i < rows->len; i++)
    {
      PinTrait *row = g_ptr_array_index (rows, i);
      PinTrait *last = kept > 0 ? g_ptr_array_index (rows, kept - 1) : NULL;

      if (last != NULL && last->thing == row->thing && g_str_equal (last->code, row->code))
        kept--;
      rows->pdata[i] = rows->pdata[kept];
      rows->pdata[kept++] = row;
    }
  g_ptr_array_set_size (rows, kept);
  return rows;
}

/* In the order of the index, so that nothing is sorted. */
#define NEWEST_LAST " AND t.live AND t.day <= ?2 ORDER BY t.thing, t.code, t.day, t.at, t.id"
#define FOR_EVER "9999-12-31"

/* The newest live trait of each code on or before @on_day (NULL: ever). */
GPtrArray *
pin_query_traits (PinDb *db, gint64 thing, const char *on_day, GError **error)
{
  return keep_newest (pin_query_rows (db, &pin_table_trait, (GDestroyNotify) pin_trait_free,
                                      "WHERE t.thing = ?1" NEWEST_LAST, thing,
                                      on_day ? on_day : FOR_EVER, error));
}

GPtrArray *
pin_query_traits_of_vehicle (PinDb *db, gint64 vehicle, const char *on_day, GError **error)
{
  return keep_newest (pin_query_rows (db, &pin_table_trait, (GDestroyNotify) pin_trait_free,
                                      "WHERE t.thing IN (SELECT ?1 UNION ALL SELECT id FROM place "
                                      "WHERE vehicle = ?1 UNION ALL SELECT part FROM standing "
                                      "WHERE vehicle = ?1)" NEWEST_LAST,
                                      vehicle, on_day ? on_day : FOR_EVER, error));
}

/* Oldest first. */
GPtrArray *
pin_query_trait_history (PinDb *db, gint64 thing, const char *code, GError **error)
{
  return pin_query_rows (db, &pin_table_trait, (GDestroyNotify) pin_trait_free,
                         "WHERE t.thing = ?1 AND t.code = ?2 AND t.live ORDER BY t.day, t.at, t.id",
                         thing, code, error);
}

/* --- the book --------------------------------------------------------------- */

static char *
one_text (PinDb *db, const char *sql, gint64 id, GError **error)
{
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, sql, error);
  g_autoptr (GError) local = NULL;
  char *text = NULL;

  if (stmt == NULL)
    return NULL;
  if (id != 0)
    pin_stmt_bind_int (stmt, 1, id);
  if (pin_stmt_next (stmt, &local))
    text = g_strdup (pin_stmt_text (stmt, 0));
  if (local != NULL)
    g_propagate_error (error, g_steal_pointer (&local));
  return text;
}

char *
pin_query_draft (PinDb *db, gint64 inspection, GError **error)
{
  return one_text (db, "SELECT state FROM draft WHERE inspection = ?1", inspection, error);
}

/* The book's own name, for calendars and other things outside it. */
char *
pin_query_uuid (PinDb *db, GError **error)
{
  return one_text (db, "SELECT uuid FROM book", 0, error);
}

/* Greatest id in the book, 0 if it is empty. */
gboolean
pin_query_greatest_id (PinDb *db, gint64 *greatest, GError **error)
{
  static const char *const tables[] = {
    "vehicle", "place", "part", "supply", "trait", "fitting", "outing", "inspection", "walk_plan",
    "sign_off", "answer", "reading", "work", "owed", "finding", "own_rule", "own_limit", "stock",
    "photo",
  };

  *greatest = 0;
  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    {
      g_autofree char *sql = g_strdup_printf ("SELECT max (id) FROM %s", tables[i]);
      gint64 id;

      if (!pin_db_int (db, sql, 0, &id, error))
        return FALSE;
      *greatest = MAX (*greatest, id);
    }
  return TRUE;
}

/* The same as text; NULL without error: the book is empty. */
char *
pin_query_last_id_text (PinDb *db, GError **error)
{
  gint64 id;

  if (!pin_query_greatest_id (db, &id, error) || id == 0)
    return NULL;
  return g_strdup_printf ("%" G_GINT64_FORMAT, id);
}

/* The XML with the SHA-256 @sha (hex); NULL without error: not in the book. */
GBytes *
pin_query_source (PinDb *db, const char *sha, GError **error)
{
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, "SELECT xml FROM source WHERE sha = ?1", error);
  g_autoptr (GError) local = NULL;
  GBytes *xml = NULL;
  guint8 bytes[32];

  if (stmt == NULL || !pin_sha_bytes (sha, bytes))
    return NULL;
  pin_stmt_bind_blob (stmt, 1, bytes, sizeof bytes);
  if (pin_stmt_next (stmt, &local))
    {
      gsize size;
      gconstpointer data = pin_stmt_blob (stmt, 0, &size);

      xml = g_bytes_new (data, size);
    }
  if (local != NULL)
    g_propagate_error (error, g_steal_pointer (&local));
  return xml;
}
