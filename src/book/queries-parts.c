#include "book/queries-private.h"

#include <glib/gi18n.h>
#include <inttypes.h>

#define COLUMN(S, f, t) { #f, PIN_COLUMN_##t, G_STRUCT_OFFSET (S, f) }

static const PinColumn part_row_columns[] = {
  COLUMN (PinPartRow, id, ID),        COLUMN (PinPartRow, kind, TEXT),
  COLUMN (PinPartRow, vehicle, ID),   COLUMN (PinPartRow, place, ID),
  COLUMN (PinPartRow, inside, ID),    COLUMN (PinPartRow, shelf, TEXT),
  COLUMN (PinPartRow, seconds, REAL), COLUMN (PinPartRow, runs, REAL),
  COLUMN (PinPartRow, outings, REAL), COLUMN (PinPartRow, litres, REAL),
  COLUMN (PinPartRow, size, TEXT),    COLUMN (PinPartRow, since, TEXT),
};
static const PinTable part_rows = { "part", sizeof (PinPartRow), part_row_columns,
                                    G_N_ELEMENTS (part_row_columns) };

/* A part's clock is its base and, while it is on a vehicle, the meter of that. */
#define PARTS \
  "SELECT s.part, s.kind, s.vehicle, s.place, f.inside, f.shelf, " \
  "s.seconds + coalesce (m.seconds, 0), s.runs + coalesce (m.runs, 0), " \
  "s.outings + coalesce (m.outings, 0), s.litres + coalesce (m.litres, 0), " \
  "(SELECT text FROM trait WHERE thing = s.part AND code = 'size' AND live " \
  "ORDER BY day DESC, at DESC, id DESC LIMIT 1), f.day " \
  "FROM standing s LEFT JOIN fitting f ON f.id = s.fitting " \
  "LEFT JOIN meter m ON m.vehicle = s.vehicle "

void
pin_part_row_free (PinPartRow *row)
{
  pin_row_free (&part_rows, row);
}

static GPtrArray *
parts (PinDb *db, const char *sql, gint64 id, GError **error)
{
  return pin_query_sql (db, &part_rows, (GDestroyNotify) pin_part_row_free, sql, id, NULL, error);
}

/* In the order of the places; vehicle 0: the parts on any vehicle. */
GPtrArray *
pin_query_parts_on (PinDb *db, gint64 vehicle, GError **error)
{
  if (vehicle == 0)
    return parts (db, PARTS "WHERE s.vehicle IS NOT NULL ORDER BY s.vehicle, s.place, s.part", 0,
                  error);
  return parts (db, PARTS "WHERE s.vehicle = ?1 ORDER BY s.place, s.part", vehicle, error);
}

/* On the shelf: neither on a vehicle nor gone for good. */
GPtrArray *
pin_query_parts_off (PinDb *db, GError **error)
{
  return parts (
      db,
      PARTS "WHERE s.vehicle IS NULL AND (f.shelf IS NULL OR f.shelf = 'shelf') ORDER BY s.part", 0,
      error);
}

/* Error NOT_FOUND if there is no such part. */
PinPartRow *
pin_query_part (PinDb *db, gint64 part, GError **error)
{
  GPtrArray *rows = parts (db, PARTS "WHERE s.part = ?1", part, error);
  PinPartRow *row;

  if (rows == NULL)
    return NULL;
  row = pin_query_first (rows);
  if (row == NULL)
    g_set_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_NOT_FOUND,
                 _ ("There is no part %" PRId64 " in this book"), part);
  return row;
}

/* Every part that ever sat at @place, the first one first (PinFitting). */
GPtrArray *
pin_query_fittings_at (PinDb *db, gint64 place, GError **error)
{
  return pin_query_rows (db, &pin_table_fitting, (GDestroyNotify) pin_fitting_free,
                         "WHERE t.place = ?1 AND t.live ORDER BY t.day, "
                         "t.at, t.id",
                         place, NULL, error);
}

GPtrArray *
pin_query_fittings (PinDb *db, gint64 part, GError **error)
{
  return pin_query_rows (db, &pin_table_fitting, (GDestroyNotify) pin_fitting_free,
                         "WHERE t.part = ?1 AND t.live ORDER BY t.day, "
                         "t.at, t.id",
                         part, NULL, error);
}

/* --- marks ------------------------------------------------------------------ */

static const PinColumn mark_row_columns[] = {
  COLUMN (PinMarkRow, part, ID),     COLUMN (PinMarkRow, deed, TEXT),
  COLUMN (PinMarkRow, day, TEXT),    COLUMN (PinMarkRow, seconds, REAL),
  COLUMN (PinMarkRow, runs, REAL),   COLUMN (PinMarkRow, outings, REAL),
  COLUMN (PinMarkRow, litres, REAL),
};
static const PinTable mark_rows = { "mark", sizeof (PinMarkRow), mark_row_columns,
                                    G_N_ELEMENTS (mark_row_columns) };

void
pin_mark_row_free (PinMarkRow *row)
{
  pin_row_free (&mark_rows, row);
}

/* Of the vehicle itself, its places and the parts on it now; 0: of everything. */
GPtrArray *
pin_query_marks (PinDb *db, gint64 vehicle, GError **error)
{
  const char *where =
      "WHERE t.part IN (SELECT ?1 UNION ALL SELECT id FROM place WHERE vehicle = ?1 "
      "UNION ALL SELECT part FROM standing WHERE vehicle = ?1) ORDER BY t.part, t.deed";

  return pin_query_rows (db, &mark_rows, (GDestroyNotify) pin_mark_row_free,
                         vehicle != 0 ? where : "ORDER BY t.part, t.deed", vehicle, NULL, error);
}

GPtrArray *
pin_query_marks_of (PinDb *db, gint64 thing, GError **error)
{
  return pin_query_rows (db, &mark_rows, (GDestroyNotify) pin_mark_row_free,
                         "WHERE t.part = ?1 ORDER BY t.deed", thing, NULL, error);
}

/* --- supplies --------------------------------------------------------------- */

static const PinColumn supply_row_columns[] = {
  COLUMN (PinSupplyRow, id, ID),     COLUMN (PinSupplyRow, kind, TEXT),
  COLUMN (PinSupplyRow, size, TEXT), COLUMN (PinSupplyRow, name, TEXT),
  COLUMN (PinSupplyRow, unit, TEXT), COLUMN (PinSupplyRow, amount, REAL),
};
static const PinTable supply_rows = { "supply", sizeof (PinSupplyRow), supply_row_columns,
                                      G_N_ELEMENTS (supply_row_columns) };

void
pin_supply_row_free (PinSupplyRow *row)
{
  pin_row_free (&supply_rows, row);
}

/* Stock lines with what is left of each. */
GPtrArray *
pin_query_supplies (PinDb *db, GError **error)
{
  return pin_query_sql (db, &supply_rows, (GDestroyNotify) pin_supply_row_free,
                        "SELECT s.id, s.kind, s.size, s.name, s.unit, "
                        "(SELECT total (amount) FROM stock WHERE supply = s.id AND live) "
                        "FROM supply s ORDER BY s.id",
                        0, NULL, error);
}

static void
stock_free (PinStock *row)
{
  pin_row_free (&pin_table_stock, row);
}

/* Every live movement, by line and id (PinStock). */
GPtrArray *
pin_query_stock (PinDb *db, GError **error)
{
  return pin_query_rows (db, &pin_table_stock, (GDestroyNotify) stock_free,
                         "WHERE t.live ORDER BY t.supply, t.id", 0, NULL, error);
}
