#include "book/derive.h"

#include <string.h>

struct _PinDerive
{
  PinDb *db;
  GHashTable *vehicles; /* vehicle → earliest day touched */
  GHashTable *parts;    /* set of parts whose standing and marks may move */
  GHashTable *marks;    /* set of things whose marks alone may move */
};

static GHashTable *
id_table (GDestroyNotify free_value)
{
  return g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, free_value);
}

PinDerive *
pin_derive_new (PinDb *db)
{
  PinDerive *self = g_new0 (PinDerive, 1);

  self->db = db;
  self->vehicles = id_table (g_free);
  self->parts = id_table (NULL);
  self->marks = id_table (NULL);
  return self;
}

void
pin_derive_free (PinDerive *self)
{
  if (self == NULL)
    return;
  g_hash_table_destroy (self->vehicles);
  g_hash_table_destroy (self->parts);
  g_hash_table_destroy (self->marks);
  g_free (self);
}

/* --- what a row touches ----------------------------------------------------- */

static void
touch (GHashTable *set, gint64 id)
{
  if (id != 0)
    g_hash_table_add (set, g_memdup2 (&id, sizeof id));
}

static void
touch_vehicle (PinDerive *self, gint64 vehicle, const char *day)
{
  const char *known = g_hash_table_lookup (self->vehicles, &vehicle);

  if (vehicle != 0 && (known == NULL || strcmp (day, known) < 0))
    g_hash_table_insert (self->vehicles, g_memdup2 (&vehicle, sizeof vehicle), g_strdup (day));
}

static gboolean
touch_each (PinDerive *self, GHashTable *set, const char *sql, gint64 id, GError **error)
{
  g_autoptr (PinStmt) stmt = pin_db_prepare (self->db, sql, error);
  g_autoptr (GError) local = NULL;

  if (stmt == NULL)
    return FALSE;
  pin_stmt_bind_int (stmt, 1, id);
  while (pin_stmt_next (stmt, &local))
    touch (set, pin_stmt_int (stmt, 0));
  if (local == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}

/* The outing that a correction retires, perhaps of another vehicle or day, and
 * the packs that it named. */
static gboolean
touch_old_outing (PinDerive *self, gint64 id, GError **error)
{
  g_autoptr (PinStmt) stmt = NULL;
  g_autoptr (GError) local = NULL;

  if (id == 0)
    return TRUE;
  stmt = pin_db_prepare (self->db, "SELECT vehicle, day FROM outing WHERE id = ?1", error);
  if (stmt == NULL)
    return FALSE;
  pin_stmt_bind_int (stmt, 1, id);
  if (pin_stmt_next (stmt, &local))
    touch_vehicle (self, pin_stmt_int (stmt, 0), pin_stmt_text (stmt, 1));
  if (local != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&local));
      return FALSE;
    }
  return touch_each (self, self->parts, "SELECT part FROM outing_part WHERE outing = ?1", id,
                     error);
}

/* The answer that a correction retires, perhaps of another part or walk. */
static gboolean
touch_old_answer (PinDerive *self, gint64 id, GError **error)
{
  return id == 0 ||
         (touch_each (self, self->marks,
                      "SELECT part FROM answer a WHERE id = ?1 AND EXISTS "
                      "(SELECT 1 FROM sign_off s WHERE s.inspection = a.inspection)",
                      id, error) &&
          touch_each (self, self->marks,
                      "SELECT i.vehicle FROM answer a JOIN inspection i ON i.id = a.inspection "
                      "JOIN sign_off s ON s.inspection = i.id WHERE a.id = ?1",
                      id, error));
}

/* Answers count once their walk is signed, and a correction may come later. */
static gboolean
note_answer (PinDerive *self, const PinAnswer *row, GError **error)
{
  gint64 is_signed;

  if (!pin_db_int (self->db, "SELECT count (*) FROM sign_off WHERE inspection = ?1",
                   row->inspection, &is_signed, error))
    return FALSE;
  if (is_signed != 0)
    {
      touch (self->marks, row->part);
      if (!touch_each (self, self->marks, "SELECT vehicle FROM inspection WHERE id = ?1",
                       row->inspection, error))
        return FALSE;
    }
  return touch_old_answer (self, row->replaces, error);
}

static gboolean
note_sign_off (PinDerive *self, const PinSignOff *row, GError **error)
{
  return touch_each (self, self->marks, "SELECT vehicle FROM inspection WHERE id = ?1",
                     row->inspection, error) &&
         touch_each (self, self->marks,
                     "SELECT DISTINCT part FROM answer WHERE inspection = ?1 AND part IS NOT NULL",
                     row->inspection, error);
}

static gboolean
note_outing (PinDerive *self, const PinOuting *row, GError **error)
{
  touch_vehicle (self, row->vehicle, row->day);
  return touch_old_outing (self, row->replaces, error);
}

static gboolean
note_fitting (PinDerive *self, const PinFitting *row, GError **error)
{
  touch (self->parts, row->part);
  return row->replaces == 0 ||
         touch_each (self, self->parts, "SELECT part FROM fitting WHERE id = ?1", row->replaces,
                     error);
}

static gboolean
note_work (PinDerive *self, const PinWork *row, GError **error)
{
  touch (self->marks, row->thing);
  return row->replaces == 0 ||
         touch_each (self, self->marks, "SELECT thing FROM work WHERE id = ?1", row->replaces,
                     error);
}

/* Notes what the written @row may move in the derived tables. */
gboolean
pin_derive_note (PinDerive *self, const PinTable *table, gconstpointer row, GError **error)
{
  if (table == &pin_table_vehicle)
    touch_vehicle (self, ((const PinVehicleFact *) row)->id, "9999-12-31");
  else if (table == &pin_table_part)
    touch (self->parts, ((const PinPartFact *) row)->id);
  else if (table == &pin_table_outing_part)
    touch (self->parts, ((const PinOutingPartFact *) row)->part);
  else if (table == &pin_table_outing)
    return note_outing (self, row, error);
  else if (table == &pin_table_fitting)
    return note_fitting (self, row, error);
  else if (table == &pin_table_work)
    return note_work (self, row, error);
  else if (table == &pin_table_answer)
    return note_answer (self, row, error);
  else if (table == &pin_table_sign_off)
    return note_sign_off (self, row, error);
  return TRUE;
}

/* --- marks ------------------------------------------------------------------ */

void
pin_last_done_free (PinLastDone *self)
{
  if (self == NULL)
    return;
  g_free (self->deed);
  g_free (self);
}

/* Of two marks of one deed, the later stands. */
static gboolean
later (const PinLastDone *a, const PinLastDone *b)
{
  int order = strcmp (a->moment.day, b->moment.day);

  if (order != 0)
    return order > 0;
  if (a->moment.at != b->moment.at) /* without a time: at the end of its day */
    return a->moment.at == 0 || (b->moment.at != 0 && a->moment.at > b->moment.at);
  return a->id > b->id;
}

static void
keep_latest (GHashTable *latest, PinLastDone *done)
{
  PinLastDone *known = g_hash_table_lookup (latest, done->deed);

  if (known == NULL || later (done, known))
    g_hash_table_replace (latest, done->deed, done);
  else
    pin_last_done_free (done);
}

static gboolean
collect (PinDb *db, GHashTable *latest, const char *sql, gint64 thing, GError **error)
{
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, sql, error);
  g_autoptr (GError) local = NULL;

  if (stmt == NULL)
    return FALSE;
  pin_stmt_bind_int (stmt, 1, thing);
  while (pin_stmt_next (stmt, &local))
    {
      PinLastDone *done = g_new0 (PinLastDone, 1);

      done->deed = g_strdup (pin_stmt_text (stmt, 0));
      pin_moment_set (&done->moment, pin_stmt_text (stmt, 1), pin_stmt_int (stmt, 2), TRUE);
      done->id = pin_stmt_int (stmt, 3);
      keep_latest (latest, done);
    }
  if (local == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}

#define WALKED \
  "SELECT DISTINCT 'procedure:' || substr (a.step, 1, instr (a.step, '/') - 1), s.day, NULL, s.id "
#define WALKED_WHEN \
  " AND a.live AND a.outcome <> 'not-checked' AND s.verdict = 'signed' " \
  "AND instr (a.step, '/') > 1 " \
  "AND a.step NOT GLOB 'off/*' AND a.step NOT GLOB 'on/*' AND a.step NOT GLOB 'way/*' " \
  "AND a.step NOT GLOB 'wait/*'"

static const char *const mark_sources[] = {
  "SELECT deed, day, at, id FROM work WHERE thing = ?1 AND live",
  WALKED
  "FROM answer a JOIN sign_off s ON s.inspection = a.inspection WHERE a.part = ?1" WALKED_WHEN,
  WALKED "FROM inspection i JOIN sign_off s ON s.inspection = i.id "
         "JOIN answer a ON a.inspection = i.id WHERE i.vehicle = ?1" WALKED_WHEN,
};

/* PinLastDone of @thing, one for each deed and each signed procedure, by deed. */
GPtrArray *
pin_derive_marks (PinDb *db, PinClockwork *clockwork, gint64 thing, GError **error)
{
  g_autoptr (GHashTable) latest =
      g_hash_table_new_full (g_str_hash, g_str_equal, NULL, (GDestroyNotify) pin_last_done_free);
  g_autoptr (GPtrArray) marks =
      g_ptr_array_new_with_free_func ((GDestroyNotify) pin_last_done_free);
  g_autoptr (GList) deeds = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (mark_sources); i++)
    if (!collect (db, latest, mark_sources[i], thing, error))
      return NULL;
  deeds = g_list_sort (g_hash_table_get_keys (latest), (GCompareFunc) strcmp);
  for (GList *l = deeds; l != NULL; l = l->next)
    {
      PinLastDone *done = g_hash_table_lookup (latest, l->data);

      g_hash_table_steal (latest, l->data);
      g_ptr_array_add (marks, done);
      if (!pin_clockwork_at (clockwork, thing, &done->moment, &done->clocks, error))
        return NULL;
    }
  return g_steal_pointer (&marks);
}

/* --- writing ---------------------------------------------------------------- */

static void
bind_clocks (PinStmt *stmt, int at, const PinClocks *clocks)
{
  pin_stmt_bind_real (stmt, at, clocks->seconds);
  pin_stmt_bind_real (stmt, at + 1, clocks->runs);
  pin_stmt_bind_real (stmt, at + 2, clocks->outings);
  pin_stmt_bind_real (stmt, at + 3, clocks->litres);
}

static gboolean
write_meter (PinDb *db, PinClockwork *clockwork, gint64 vehicle, GError **error)
{
  g_autoptr (PinStmt) stmt = NULL;
  PinMeter meter;

  if (!pin_clockwork_meter (clockwork, vehicle, &meter, error))
    return FALSE;
  stmt = pin_db_prepare (db,
                         "INSERT OR REPLACE INTO meter (vehicle, seconds, runs, outings, litres, "
                         "first_day, last_day) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
                         error);
  if (stmt == NULL)
    return FALSE;
  pin_stmt_bind_int (stmt, 1, vehicle);
  bind_clocks (stmt, 2, &meter.clocks);
  pin_stmt_bind_text (stmt, 6, meter.first_day);
  pin_stmt_bind_text (stmt, 7, meter.last_day);
  return pin_stmt_run (stmt, error);
}

static gboolean
write_standing (PinDb *db, PinClockwork *clockwork, gint64 part, GError **error)
{
  g_autoptr (PinStmt) stmt = NULL;
  PinStanding standing;

  if (!pin_clockwork_standing (clockwork, part, &standing, error))
    return FALSE;
  stmt = pin_db_prepare (db,
                         "INSERT OR REPLACE INTO standing (part, kind, vehicle, place, fitting, "
                         "seconds, runs, outings, litres) "
                         "SELECT id, kind, ?2, ?3, ?4, ?5, ?6, ?7, ?8 FROM part WHERE id = ?1",
                         error);
  if (stmt == NULL)
    return FALSE;
  pin_stmt_bind_int (stmt, 1, part);
  pin_stmt_bind_id (stmt, 2, standing.vehicle);
  pin_stmt_bind_id (stmt, 3, standing.place);
  pin_stmt_bind_id (stmt, 4, standing.fitting);
  bind_clocks (stmt, 5, &standing.base);
  return pin_stmt_run (stmt, error);
}

static gboolean
write_mark (PinDb *db, gint64 thing, const PinLastDone *done, GError **error)
{
  g_autoptr (PinStmt) stmt =
      pin_db_prepare (db, "INSERT INTO mark (part, deed, day, seconds, runs, outings, litres) "
                          "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
                      error);

  if (stmt == NULL)
    return FALSE;
  pin_stmt_bind_int (stmt, 1, thing);
  pin_stmt_bind_text (stmt, 2, done->deed);
  pin_stmt_bind_text (stmt, 3, done->moment.day);
  bind_clocks (stmt, 4, &done->clocks);
  return pin_stmt_run (stmt, error);
}

static gboolean
write_marks (PinDb *db, PinClockwork *clockwork, gint64 thing, GError **error)
{
  g_autoptr (GPtrArray) marks = pin_derive_marks (db, clockwork, thing, error);
  g_autoptr (PinStmt) stmt = NULL;

  if (marks == NULL)
    return FALSE;
  stmt = pin_db_prepare (db, "DELETE FROM mark WHERE part = ?1", error);
  if (stmt == NULL)
    return FALSE;
  pin_stmt_bind_int (stmt, 1, thing);
  if (!pin_stmt_run (stmt, error))
    return FALSE;
  for (guint i = 0; i < marks->len; i++)
    if (!write_mark (db, thing, g_ptr_array_index (marks, i), error))
      return FALSE;
  return TRUE;
}

/* --- public ----------------------------------------------------------------- */

/* Does anything on @vehicle stand on or after @day that an outing of that day
 * could move: a fitting at one of its places, a move away, a mark? */
static gboolean
something_later (PinDerive *self, gint64 vehicle, const char *day, gint64 *found, GError **error)
{
  g_autoptr (PinStmt) stmt =
      pin_db_prepare (self->db,
                      "SELECT EXISTS (SELECT 1 FROM place p JOIN fitting f ON f.place = p.id "
                      "AND f.live "
                      "  JOIN fitting m ON m.part = f.part AND m.live AND m.day >= ?2 WHERE "
                      "p.vehicle = ?1) "
                      "OR EXISTS (SELECT 1 FROM mark WHERE part = ?1 AND day >= ?2) "
                      "OR EXISTS (SELECT 1 FROM place p JOIN fitting f ON f.place = p.id "
                      "AND f.live "
                      "  JOIN mark m ON m.part = f.part AND m.day >= ?2 WHERE p.vehicle = ?1)",
                      error);
  g_autoptr (GError) local = NULL;

  if (stmt == NULL)
    return FALSE;
  pin_stmt_bind_int (stmt, 1, vehicle);
  pin_stmt_bind_text (stmt, 2, day);
  *found = pin_stmt_next (stmt, &local) ? pin_stmt_int (stmt, 0) : 0;
  if (local == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}

/* The parts that an outing on @day may move.  Usually none: a part's clock is
 * its base and the vehicle's meter, and only the meter runs on. */
static gboolean
touch_parts_of (PinDerive *self, gint64 vehicle, const char *day, GError **error)
{
  gint64 found;

  if (!something_later (self, vehicle, day, &found, error))
    return FALSE;
  if (!found)
    return TRUE;
  touch (self->marks, vehicle);
  return touch_each (self, self->parts,
                     "SELECT DISTINCT f.part FROM place p JOIN fitting f ON f.place = p.id "
                     "AND f.live "
                     "WHERE p.vehicle = ?1",
                     vehicle, error);
}

/* Brings the derived tables up to date with everything noted. */
gboolean
pin_derive_apply (PinDerive *self, GError **error)
{
  g_autoptr (PinClockwork) clockwork = pin_clockwork_new (self->db);
  GHashTableIter iter;
  gpointer id, day;

  g_hash_table_iter_init (&iter, self->vehicles);
  while (g_hash_table_iter_next (&iter, &id, &day))
    if (!write_meter (self->db, clockwork, *(gint64 *) id, error) ||
        !touch_parts_of (self, *(gint64 *) id, day, error))
      return FALSE;
  g_hash_table_iter_init (&iter, self->parts);
  while (g_hash_table_iter_next (&iter, &id, NULL))
    {
      if (!write_standing (self->db, clockwork, *(gint64 *) id, error))
        return FALSE;
      touch (self->marks, *(gint64 *) id);
    }
  g_hash_table_iter_init (&iter, self->marks);
  while (g_hash_table_iter_next (&iter, &id, NULL))
    if (!write_marks (self->db, clockwork, *(gint64 *) id, error))
      return FALSE;
  return TRUE;
}

/* Forgets the derived tables and makes them anew; @db is in a transaction. */
gboolean
pin_derive_rebuild (PinDb *db, GError **error)
{
  g_autoptr (PinDerive) self = pin_derive_new (db);
  g_autoptr (GHashTable) vehicles = id_table (NULL);
  GHashTableIter iter;
  gpointer id;

  if (!pin_db_exec (db, "DELETE FROM meter; DELETE FROM standing; DELETE FROM mark", error) ||
      !touch_each (self, vehicles, "SELECT id FROM vehicle WHERE ?1", 1, error) ||
      !touch_each (self, self->parts, "SELECT id FROM part WHERE ?1", 1, error) ||
      !touch_each (self, self->marks, "SELECT DISTINCT thing FROM work WHERE ?1 AND live", 1,
                   error))
    return FALSE;
  g_hash_table_iter_init (&iter, vehicles);
  while (g_hash_table_iter_next (&iter, &id, NULL))
    {
      touch_vehicle (self, *(gint64 *) id, "9999-12-31");
      touch (self->marks, *(gint64 *) id);
    }
  return pin_derive_apply (self, error);
}
