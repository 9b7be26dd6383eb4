#include "book/queries-private.h"

#include <math.h>

/* A vehicle, its places and the parts on it now. */
#define THINGS_OF \
  "IN (SELECT ?1 UNION ALL SELECT id FROM place WHERE vehicle = ?1 " \
  "UNION ALL SELECT part FROM standing WHERE vehicle = ?1)"

/* --- outings ---------------------------------------------------------------- */

static GHashTable *
by_id (GPtrArray *outings)
{
  GHashTable *table = g_hash_table_new (g_int64_hash, g_int64_equal);

  for (guint i = 0; i < outings->len; i++)
    {
      PinOuting *outing = g_ptr_array_index (outings, i);

      g_hash_table_insert (table, &outing->id, outing);
    }
  return table;
}

/* The packs of all @outings at once; @which chooses outings o by ?1. */
static gboolean
read_parts (PinDb *db, GPtrArray *outings, const char *which, gint64 id, GError **error)
{
  g_autofree char *sql =
      g_strdup_printf ("SELECT u.outing, u.part, u.runs, u.seconds FROM outing o "
                       "JOIN outing_part u ON u.outing = o.id WHERE %s ORDER BY u.outing, u.part",
                       which);
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, sql, error);
  g_autoptr (GHashTable) table = by_id (outings);
  g_autoptr (GError) local = NULL;

  if (stmt == NULL)
    return FALSE;
  if (id != 0)
    pin_stmt_bind_int (stmt, 1, id);
  while (pin_stmt_next (stmt, &local))
    {
      gint64 key = pin_stmt_int (stmt, 0);
      PinOutingPart part = { pin_stmt_int (stmt, 1), pin_stmt_real (stmt, 2),
                             pin_stmt_real (stmt, 3) };
      PinOuting *outing = g_hash_table_lookup (table, &key);

      if (outing == NULL)
        continue;
      if (outing->parts == NULL)
        outing->parts = g_array_new (FALSE, FALSE, sizeof (PinOutingPart));
      g_array_append_val (outing->parts, part);
    }
  if (local == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}

static GPtrArray *
outings (PinDb *db, const char *rest, const char *which, gint64 id, GError **error)
{
  GDestroyNotify free_row = (GDestroyNotify) pin_outing_free;
  g_autoptr (GPtrArray) rows =
      pin_query_rows (db, &pin_table_outing, free_row, rest, id, NULL, error);

  if (rows == NULL || !read_parts (db, rows, which, id, error))
    return NULL;
  return g_steal_pointer (&rows);
}

/* Newest first, with the packs used; vehicle 0: of all, most 0: all of them. */
GPtrArray *
pin_query_outings (PinDb *db, gint64 vehicle, int most, GError **error)
{
  g_autofree char *rest =
      g_strdup_printf ("WHERE %st.live ORDER BY t.day DESC, t.id DESC LIMIT %d",
                       vehicle != 0 ? "t.vehicle = ?1 AND " : "", most > 0 ? most : -1);

  return outings (db, rest, vehicle != 0 ? "o.vehicle = ?1 AND o.live" : "o.live", vehicle, error);
}

/* Outings that name @part as a pack or tyre set, newest first. */
GPtrArray *
pin_query_outings_of_part (PinDb *db, gint64 part, GError **error)
{
  return outings (db, "JOIN outing_part u ON u.outing = t.id WHERE u.part = ?1 AND t.live "
                      "ORDER BY t.day DESC, t.id DESC",
                  "o.live AND o.id IN (SELECT outing FROM outing_part WHERE part = ?1)", part,
                  error);
}

/* Is a row with this import origin in the book already?  -1 with @error set. */
int
pin_query_origin_known (PinDb *db, const char *origin, GError **error)
{
  g_autoptr (PinStmt) stmt = pin_db_prepare (
      db, "SELECT 1 FROM outing WHERE origin = ?1 AND origin IS NOT NULL AND live", error);
  g_autoptr (GError) local = NULL;
  gboolean known;

  if (stmt == NULL)
    return -1;
  pin_stmt_bind_text (stmt, 1, origin);
  known = pin_stmt_next (stmt, &local);
  if (local == NULL)
    return known;
  g_propagate_error (error, g_steal_pointer (&local));
  return -1;
}

/* --- readings --------------------------------------------------------------- */

static GPtrArray *
readings (PinDb *db, const char *rest, gint64 id, const char *text, GError **error)
{
  return pin_query_rows (db, &pin_table_reading, (GDestroyNotify) pin_reading_free, rest, id, text,
                         error);
}

GPtrArray *
pin_query_readings (PinDb *db, gint64 vehicle, GError **error)
{
  if (vehicle == 0)
    return readings (db, "WHERE t.live ORDER BY t.day, t.id", 0, NULL, error);
  return readings (db, "WHERE t.thing " THINGS_OF " AND t.live ORDER BY t.day, t.id", vehicle, NULL,
                   error);
}

GPtrArray *
pin_query_readings_of (PinDb *db, gint64 thing, const char *quantity, GError **error)
{
  if (quantity == NULL)
    return readings (db, "WHERE t.thing = ?1 AND t.live ORDER BY t.day, t.id", thing, NULL, error);
  return readings (db, "WHERE t.thing = ?1 AND t.quantity = ?2 AND t.live ORDER BY t.day, t.id",
                   thing, quantity, error);
}

/* --- works ------------------------------------------------------------------ */

static GPtrArray *
works (PinDb *db, const char *rest, gint64 id, GError **error)
{
  return pin_query_rows (db, &pin_table_work, (GDestroyNotify) pin_work_free, rest, id, NULL,
                         error);
}

GPtrArray *
pin_query_works (PinDb *db, gint64 vehicle, GError **error)
{
  if (vehicle == 0)
    return works (db, "WHERE t.live ORDER BY t.day, t.id", 0, error);
  return works (db, "WHERE t.thing " THINGS_OF " AND t.live ORDER BY t.day, t.id", vehicle, error);
}

GPtrArray *
pin_query_works_of (PinDb *db, gint64 thing, GError **error)
{
  return works (db, "WHERE t.thing = ?1 AND t.live ORDER BY t.day, t.id", thing, error);
}

/* --- debts ------------------------------------------------------------------ */

#define UNSETTLED \
  "t.live AND t.settles IS NULL AND NOT EXISTS (SELECT 1 FROM owed s WHERE s.settles = t.id " \
  "AND s.live AND s.settles IS NOT NULL) ORDER BY t.id"

GPtrArray *
pin_query_owed (PinDb *db, gint64 vehicle, GError **error)
{
  return pin_query_rows (db, &pin_table_owed, (GDestroyNotify) pin_owed_free,
                         vehicle != 0 ? "WHERE t.vehicle = ?1 AND " UNSETTLED : "WHERE " UNSETTLED,
                         vehicle, NULL, error);
}

/* Debts and what settled them, by id. */
GPtrArray *
pin_query_owed_all (PinDb *db, gint64 vehicle, GError **error)
{
  return pin_query_rows (db, &pin_table_owed, (GDestroyNotify) pin_owed_free,
                         "WHERE t.vehicle = ?1 AND t.live ORDER BY t.id", vehicle, NULL, error);
}

/* --- photos ----------------------------------------------------------------- */

static PinPhoto *
read_photo (PinStmt *stmt)
{
  PinPhoto *photo = g_new0 (PinPhoto, 1);
  gsize size;
  gconstpointer data = pin_stmt_blob (stmt, 2, &size);

  photo->id = pin_stmt_int (stmt, 0);
  photo->of = pin_stmt_int (stmt, 1);
  photo->jpeg = g_bytes_new (data, size);
  photo->caption = g_strdup (pin_stmt_text (stmt, 3));
  photo->day = g_strdup (pin_stmt_text (stmt, 4));
  photo->person = g_strdup (pin_stmt_text (stmt, 5));
  photo->replaces = pin_stmt_int (stmt, 6);
  return photo;
}

GPtrArray *
pin_query_photos (PinDb *db, gint64 of, GError **error)
{
  g_autoptr (PinStmt) stmt =
      pin_db_prepare (db, "SELECT p.id, p.of, i.jpeg, p.caption, p.day, p.person, p.replaces "
                          "FROM photo p JOIN image i ON i.sha = p.sha WHERE p.of = ?1 AND p.live "
                          "ORDER BY p.id",
                      error);
  g_autoptr (GPtrArray) photos = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_photo_free);
  g_autoptr (GError) local = NULL;

  if (stmt == NULL)
    return NULL;
  pin_stmt_bind_int (stmt, 1, of);
  while (pin_stmt_next (stmt, &local))
    g_ptr_array_add (photos, read_photo (stmt));
  if (local == NULL)
    return g_steal_pointer (&photos);
  g_propagate_error (error, g_steal_pointer (&local));
  return NULL;
}

/* --- the keeper's own rules and limits -------------------------------------- */

static void
own_rule_free (PinOwnRule *row)
{
  pin_row_free (&pin_table_own_rule, row);
}

static void
own_limit_free (PinOwnLimit *row)
{
  pin_row_free (&pin_table_own_limit, row);
}

/* All live ones, by id (PinOwnRule); of one rule and thing the last stands. */
GPtrArray *
pin_query_own_rules (PinDb *db, GError **error)
{
  return pin_query_rows (db, &pin_table_own_rule, (GDestroyNotify) own_rule_free,
                         "WHERE t.live ORDER BY t.id", 0, NULL, error);
}

/* All live ones, by id (PinOwnLimit); of one step and thing the last stands. */
GPtrArray *
pin_query_own_limits (PinDb *db, GError **error)
{
  return pin_query_rows (db, &pin_table_own_limit, (GDestroyNotify) own_limit_free,
                         "WHERE t.live ORDER BY t.id", 0, NULL, error);
}

/* Those too that were replaced or withdrawn, and the withdrawals: what stood at
 * any time can be told from these. */
GPtrArray *
pin_query_own_limits_ever (PinDb *db, GError **error)
{
  return pin_query_rows (db, &pin_table_own_limit, (GDestroyNotify) own_limit_free,
                         "ORDER BY t.id", 0, NULL, error);
}
