#include "book/traces.h"

#include "book/rows.h"

/* "WHERE t.<column> is an answer of walk ?1, and alive", in the order of entry. */
static GPtrArray *
brought (PinDb *db, const PinTable *table, const char *column, gint64 inspection,
         GDestroyNotify free_row, GError **error)
{
  g_autofree char *rest = g_strdup_printf (
      "WHERE t.live AND t.%s IN (SELECT id FROM answer WHERE inspection = ?1) "
      "ORDER BY t.id",
      column);
  g_autoptr (PinStmt) stmt = pin_rows_select (db, table, rest, error);

  if (stmt == NULL)
    return NULL;
  pin_stmt_bind_int (stmt, 1, inspection);
  return pin_rows_read (table, stmt, free_row, error);
}

static void
photo_fact_free (gpointer row)
{
  pin_row_free (&pin_table_photo, row);
}

static GPtrArray *
photos (PinDb *db, gint64 inspection, GError **error)
{
  g_autoptr (GPtrArray) facts =
      brought (db, &pin_table_photo, "of", inspection, photo_fact_free, error);
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_photo_free);

  for (guint i = 0; facts && i < facts->len; i++)
    {
      const PinPhotoFact *fact = g_ptr_array_index (facts, i);
      g_autoptr (GPtrArray) shown = pin_query_photos (db, fact->of, error);

      if (shown == NULL)
        return NULL;
      for (guint j = 0; j < shown->len; j++)
        if (((PinPhoto *) g_ptr_array_index (shown, j))->id == fact->id)
          {
            g_ptr_array_set_free_func (shown, NULL);
            g_ptr_array_add (rows, g_ptr_array_steal_index (shown, j));
            g_ptr_array_set_free_func (shown, (GDestroyNotify) pin_photo_free);
            break;
          }
    }
  return facts ? g_steal_pointer (&rows) : NULL;
}

PinTraces *
pin_query_traces (PinDb *db, gint64 inspection, GError **error)
{
  g_autoptr (PinTraces) traces = g_new0 (PinTraces, 1);

  if (!(traces->readings = brought (db, &pin_table_reading, "answer", inspection,
                                    (GDestroyNotify) pin_reading_free, error)) ||
      !(traces->works = brought (db, &pin_table_work, "answer", inspection,
                                 (GDestroyNotify) pin_work_free, error)) ||
      !(traces->traits = brought (db, &pin_table_trait, "answer", inspection,
                                  (GDestroyNotify) pin_trait_free, error)) ||
      !(traces->fittings = brought (db, &pin_table_fitting, "answer", inspection,
                                    (GDestroyNotify) pin_fitting_free, error)) ||
      !(traces->owed = brought (db, &pin_table_owed, "cause", inspection,
                                (GDestroyNotify) pin_owed_free, error)) ||
      !(traces->findings = brought (db, &pin_table_finding, "cause", inspection,
                                    (GDestroyNotify) pin_finding_free, error)) ||
      !(traces->photos = photos (db, inspection, error)))
    return NULL;
  return g_steal_pointer (&traces);
}

void
pin_traces_free (PinTraces *traces)
{
  if (traces == NULL)
    return;
  g_clear_pointer (&traces->readings, g_ptr_array_unref);
  g_clear_pointer (&traces->works, g_ptr_array_unref);
  g_clear_pointer (&traces->traits, g_ptr_array_unref);
  g_clear_pointer (&traces->fittings, g_ptr_array_unref);
  g_clear_pointer (&traces->owed, g_ptr_array_unref);
  g_clear_pointer (&traces->findings, g_ptr_array_unref);
  g_clear_pointer (&traces->photos, g_ptr_array_unref);
  g_free (traces);
}

GHashTable *
pin_query_passed (PinDb *db, gint64 vehicle, GError **error)
{
  g_autoptr (GHashTable) set = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  g_autoptr (PinStmt) stmt = pin_db_prepare (db,
                                             "SELECT a.id FROM reading r JOIN answer a ON "
                                             "a.id = r.answer JOIN inspection i ON "
                                             "i.id = a.inspection AND i.vehicle = ?1 "
                                             "WHERE r.thing IN (SELECT ?1 UNION ALL "
                                             "SELECT id FROM place WHERE vehicle = ?1 UNION ALL "
                                             "SELECT part FROM standing WHERE vehicle = ?1) "
                                             "AND r.live AND r.answer IS NOT NULL "
                                             "AND a.live AND a.outcome = 'pass'",
                                             error);
  g_autoptr (GError) local = NULL;

  if (stmt == NULL)
    return NULL;
  pin_stmt_bind_int (stmt, 1, vehicle);
  while (pin_stmt_next (stmt, &local))
    {
      gint64 *id = g_new (gint64, 1);

      *id = pin_stmt_int (stmt, 0);
      g_hash_table_add (set, id);
    }
  if (local)
    {
      g_propagate_error (error, g_steal_pointer (&local));
      return NULL;
    }
  return g_steal_pointer (&set);
}

gint64
pin_query_last_outing (PinDb *db, gint64 vehicle, GError **error)
{
  gint64 id = 0;

  return pin_db_int (db, "SELECT coalesce(max(id), 0) FROM outing WHERE vehicle = ?1 AND live",
                     vehicle, &id, error)
             ? id
             : -1;
}

static gint64 *
boxed (gint64 id)
{
  gint64 *box = g_new (gint64, 1);

  *box = id;
  return box;
}

GHashTable *
pin_query_corrected (PinDb *db, gint64 inspection, GError **error)
{
  g_autoptr (GHashTable) map = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  g_autoptr (PinStmt) stmt = pin_db_prepare (db,
                                             "SELECT id, replaces FROM answer "
                                             "WHERE inspection = ?1 AND replaces IS NOT NULL",
                                             error);
  g_autoptr (GError) local = NULL;

  if (stmt == NULL)
    return NULL;
  pin_stmt_bind_int (stmt, 1, inspection);
  while (pin_stmt_next (stmt, &local))
    g_hash_table_insert (map, boxed (pin_stmt_int (stmt, 0)), boxed (pin_stmt_int (stmt, 1)));
  if (local == NULL)
    return g_steal_pointer (&map);
  g_propagate_error (error, g_steal_pointer (&local));
  return NULL;
}
