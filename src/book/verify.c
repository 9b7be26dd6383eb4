#include "book/keeping.h"

#include <glib/gi18n.h>
#include <inttypes.h>
#include <math.h>
#include <string.h>

#include "book/derive.h"

/* A rule of the book as a query for what breaks it.  The first column names the
 * row; %1$s is the table. */
typedef struct
{
  const char *sql;
  const char *says; /* with %s for the table and %s for the row */
} Rule;

static const Rule living_rules[] = {
  { "SELECT id FROM %1$s WHERE live <> (void = 0 AND id NOT IN "
    "(SELECT replaces FROM %1$s WHERE replaces IS NOT NULL))",
    N_("%s: row %s is kept as valid or as replaced against what the other rows say") },
  { "SELECT replaces FROM %1$s WHERE replaces IS NOT NULL GROUP BY replaces HAVING count (*) > 1",
    N_("%s: row %s was corrected twice, in two ways: look at both corrections") },
  { "SELECT id FROM %1$s WHERE replaces >= id", N_("%s: row %s corrects a later row") },
};

static const Rule thing_rules[] = {
  { "SELECT id FROM %1$s WHERE thing IS NOT NULL AND thing NOT IN (SELECT id FROM vehicle "
    "UNION ALL SELECT id FROM part UNION ALL SELECT id FROM place)",
    N_("%s: row %s is about a thing that is not in the book") },
};

static const Rule day_rules[] = {
  { "SELECT id FROM %1$s WHERE date (day, '+0 days') IS NOT day",
    N_ ("%s: row %s has a day that is no date") },
};

static const Rule walk_rules[] = {
  { "SELECT inspection FROM %1$s GROUP BY inspection HAVING count (*) > 1",
    N_("%s: inspection %s was ended twice") },
};

static const char *const living[] = { "trait", "fitting", "outing",  "answer",   "reading",
                                      "work",  "owed",    "finding", "own_rule", "own_limit",
                                      "stock", "photo",   NULL };
static const char *const about_things[] = { "trait",    "reading",   "work",
                                            "own_rule", "own_limit", NULL };
static const char *const dated[] = { "trait",     "fitting", "outing", "inspection", "sign_off",
                                     "reading",   "work",    "owed",   "finding",    "own_rule",
                                     "own_limit", "stock",   "photo",  NULL };
static const char *const ended[] = { "sign_off", NULL };

/* At most this many lines for each kind of problem. */
#define MOST 20

static void report (GPtrArray *problems, const char *format, ...) G_GNUC_PRINTF (2, 3);

static void
report (GPtrArray *problems, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  g_ptr_array_add (problems, g_strdup_vprintf (format, args));
  va_end (args);
}

/* --- what SQLite knows ------------------------------------------------------ */

static gboolean
check_pages (PinDb *db, GPtrArray *problems, GError **error)
{
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, "PRAGMA integrity_check (20)", error);
  g_autoptr (GError) local = NULL;

  if (stmt == NULL)
    return FALSE;
  while (pin_stmt_next (stmt, &local))
    if (g_strcmp0 (pin_stmt_text (stmt, 0), "ok") != 0)
      report (problems, _ ("the file: %s"), pin_stmt_text (stmt, 0));
  if (local == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}

static gboolean
check_references (PinDb *db, GPtrArray *problems, GError **error)
{
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, "PRAGMA foreign_key_check", error);
  g_autoptr (GError) local = NULL;
  int n = 0;

  if (stmt == NULL)
    return FALSE;
  while (pin_stmt_next (stmt, &local) && n++ < MOST)
    report (problems, _ ("%s: row %s names a row of %s that is not in the book"),
            pin_stmt_text (stmt, 0), pin_stmt_text (stmt, 1) ? pin_stmt_text (stmt, 1) : "?",
            pin_stmt_text (stmt, 2));
  if (local == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}

/* --- the schema ------------------------------------------------------------- */

static GHashTable *
schema_of (PinDb *db, GError **error)
{
  g_autoptr (PinStmt) stmt =
      pin_db_prepare (db, "SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL", error);
  g_autoptr (GHashTable) items = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (GError) local = NULL;

  if (stmt == NULL)
    return NULL;
  while (pin_stmt_next (stmt, &local))
    g_hash_table_insert (items, g_strdup (pin_stmt_text (stmt, 0)),
                         g_strdup (pin_stmt_text (stmt, 1)));
  if (local == NULL)
    return g_steal_pointer (&items);
  g_propagate_error (error, g_steal_pointer (&local));
  return NULL;
}

static GHashTable *
fresh_schema (GError **error)
{
  g_autofree char *text = pin_db_schema ();
  g_autoptr (PinDb) db =
      pin_db_connect (":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, error);

  if (db == NULL)
    return NULL;
  db->making = TRUE;
  return pin_db_exec (db, text, error) ? schema_of (db, error) : NULL;
}

static void
compare_items (GHashTable *a, GHashTable *b, GPtrArray *problems, const char *says)
{
  GHashTableIter iter;
  gpointer name, sql;

  g_hash_table_iter_init (&iter, a);
  while (g_hash_table_iter_next (&iter, &name, &sql))
    if (g_strcmp0 (g_hash_table_lookup (b, name), sql) != 0)
      report (problems, "%s: %s", (const char *) name, says);
}

/* Another program may have added a table or taken away a trigger. */
static gboolean
check_schema (PinDb *db, GPtrArray *problems, GError **error)
{
  g_autoptr (GHashTable) here = schema_of (db, error);
  g_autoptr (GHashTable) fresh = here ? fresh_schema (error) : NULL;

  if (fresh == NULL)
    return FALSE;
  compare_items (fresh, here, problems, _ ("missing, or not as this version makes it"));
  compare_items (here, fresh, problems,
                 _ ("does not belong to a service book, or is not as this version makes it"));
  return TRUE;
}

/* --- the law ---------------------------------------------------------------- */

static gboolean
check_rule (PinDb *db, const Rule *rule, const char *table, GPtrArray *problems, GError **error)
{
  g_auto (GStrv) pieces = g_strsplit (rule->sql, "%1$s", -1);
  g_autofree char *sql = g_strjoinv (table, pieces);
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, sql, error);
  g_autoptr (GError) local = NULL;
  int n = 0;

  if (stmt == NULL)
    return FALSE;
  while (pin_stmt_next (stmt, &local) && n++ < MOST)
    {
      g_auto (GStrv) says = g_strsplit (_ (rule->says), "%s", 3);

      report (problems, "%s%s%s%s%s", says[0], table, says[1], pin_stmt_text (stmt, 0), says[2]);
    }
  if (local == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}

static gboolean
check_rules (PinDb *db, const Rule *rules, gsize n_rules, const char *const *tables,
             GPtrArray *problems, GError **error)
{
  for (gsize i = 0; tables[i] != NULL; i++)
    for (gsize j = 0; j < n_rules; j++)
      if (!check_rule (db, &rules[j], tables[i], problems, error))
        return FALSE;
  return TRUE;
}

static gboolean
check_law (PinDb *db, GPtrArray *problems, GError **error)
{
  return check_rules (db, living_rules, G_N_ELEMENTS (living_rules), living, problems, error) &&
         check_rules (db, thing_rules, G_N_ELEMENTS (thing_rules), about_things, problems, error) &&
         check_rules (db, day_rules, G_N_ELEMENTS (day_rules), dated, problems, error) &&
         check_rules (db, walk_rules, G_N_ELEMENTS (walk_rules), ended, problems, error);
}

/* Texts and pictures are named by what they hold. */
static gboolean
check_names (PinDb *db, const char *sql, const char *says, GPtrArray *problems, GError **error)
{
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, sql, error);
  g_autoptr (GError) local = NULL;

  if (stmt == NULL)
    return FALSE;
  while (pin_stmt_next (stmt, &local))
    {
      gsize size, name_size;
      const void *data = pin_stmt_blob (stmt, 1, &size);
      g_autofree char *sum = g_compute_checksum_for_data (G_CHECKSUM_SHA256, data, size);
      const void *name = pin_stmt_blob (stmt, 0, &name_size);
      g_autofree char *text = pin_sha_text (name, name_size);

      if (!g_str_equal (sum, text))
        report (problems, "%s %.12s…", says, text);
    }
  if (local == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}

/* --- the derived tables ----------------------------------------------------- */

static gboolean
same (double a, double b)
{
  return fabs (a - b) <= 1e-6 * MAX (1, MAX (fabs (a), fabs (b)));
}

static gboolean
same_clocks (PinStmt *stmt, int at, const PinClocks *clocks)
{
  return same (pin_stmt_real (stmt, at), clocks->seconds) &&
         same (pin_stmt_real (stmt, at + 1), clocks->runs) &&
         same (pin_stmt_real (stmt, at + 2), clocks->outings) &&
         same (pin_stmt_real (stmt, at + 3), clocks->litres);
}

typedef gboolean (*Compare) (PinClockwork *clockwork, PinStmt *stmt, GPtrArray *problems,
                             GError **error);

static gboolean
compare_each (PinDb *db, PinClockwork *clockwork, const char *sql, Compare compare,
              GPtrArray *problems, GError **error)
{
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, sql, error);
  g_autoptr (GError) local = NULL;

  if (stmt == NULL)
    return FALSE;
  while (pin_stmt_next (stmt, &local))
    if (!compare (clockwork, stmt, problems, error))
      return FALSE;
  if (local == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}

static gboolean
compare_meter (PinClockwork *clockwork, PinStmt *stmt, GPtrArray *problems, GError **error)
{
  gint64 vehicle = pin_stmt_int (stmt, 0);
  PinMeter meter;

  if (!pin_clockwork_meter (clockwork, vehicle, &meter, error))
    return FALSE;
  if (!same_clocks (stmt, 1, &meter.clocks) ||
      g_strcmp0 (pin_stmt_text (stmt, 5), meter.first_day) != 0 ||
      g_strcmp0 (pin_stmt_text (stmt, 6), meter.last_day) != 0)
    report (problems, _ ("meter: vehicle %" PRId64 " does not agree with its outings"),
            vehicle);
  return TRUE;
}

static gboolean
compare_standing (PinClockwork *clockwork, PinStmt *stmt, GPtrArray *problems, GError **error)
{
  gint64 part = pin_stmt_int (stmt, 0);
  PinStanding standing;

  if (!pin_clockwork_standing (clockwork, part, &standing, error))
    return FALSE;
  if (!same_clocks (stmt, 1, &standing.base) || pin_stmt_int (stmt, 5) != standing.vehicle ||
      pin_stmt_int (stmt, 6) != standing.place || pin_stmt_int (stmt, 7) != standing.fitting ||
      g_strcmp0 (pin_stmt_text (stmt, 8), pin_stmt_text (stmt, 9)) != 0)
    report (problems,
            _ ("standing: part %" PRId64 " does not agree with its moves and outings"),
            part);
  return TRUE;
}

static GPtrArray *
stored_marks (PinDb *db, gint64 thing, GError **error)
{
  g_autoptr (PinStmt) stmt =
      pin_db_prepare (db,
                      "SELECT deed, day, seconds, runs, outings, litres FROM mark WHERE part = ?1 "
                      "ORDER BY deed",
                      error);
  g_autoptr (GPtrArray) marks =
      g_ptr_array_new_with_free_func ((GDestroyNotify) pin_last_done_free);
  g_autoptr (GError) local = NULL;

  if (stmt == NULL)
    return NULL;
  pin_stmt_bind_int (stmt, 1, thing);
  while (pin_stmt_next (stmt, &local))
    {
      PinLastDone *mark = g_new0 (PinLastDone, 1);

      mark->deed = g_strdup (pin_stmt_text (stmt, 0));
      pin_moment_set (&mark->moment, pin_stmt_text (stmt, 1), 0, TRUE);
      mark->clocks = (PinClocks){ pin_stmt_real (stmt, 2), pin_stmt_real (stmt, 3),
                                  pin_stmt_real (stmt, 4), pin_stmt_real (stmt, 5) };
      g_ptr_array_add (marks, mark);
    }
  if (local == NULL)
    return g_steal_pointer (&marks);
  g_propagate_error (error, g_steal_pointer (&local));
  return NULL;
}

static gboolean
same_mark (const PinLastDone *a, const PinLastDone *b)
{
  return g_str_equal (a->deed, b->deed) && g_str_equal (a->moment.day, b->moment.day) &&
         same (a->clocks.seconds, b->clocks.seconds) && same (a->clocks.runs, b->clocks.runs) &&
         same (a->clocks.outings, b->clocks.outings) && same (a->clocks.litres, b->clocks.litres);
}

typedef struct
{
  PinDb *db;
  PinClockwork *clockwork;
  GPtrArray *problems;
} Marks;

static gboolean
compare_marks (const Marks *self, gint64 thing, GError **error)
{
  g_autoptr (GPtrArray) stored = stored_marks (self->db, thing, error);
  g_autoptr (GPtrArray) reckoned =
      stored ? pin_derive_marks (self->db, self->clockwork, thing, error) : NULL;
  gboolean agree;

  if (reckoned == NULL)
    return FALSE;
  agree = stored->len == reckoned->len;
  for (guint i = 0; agree && i < stored->len; i++)
    agree = same_mark (g_ptr_array_index (stored, i), g_ptr_array_index (reckoned, i));
  if (!agree)
    report (self->problems,
            _ ("mark: what was last done to %" PRId64 " does not agree with the facts"),
            thing);
  return TRUE;
}

static gboolean
check_marks (PinDb *db, PinClockwork *clockwork, GPtrArray *problems, GError **error)
{
  Marks self = { db, clockwork, problems };
  g_autoptr (PinStmt) stmt = pin_db_prepare (
      db,
      "SELECT id FROM vehicle UNION SELECT id FROM part UNION SELECT part FROM mark "
      "UNION SELECT thing FROM work",
      error);
  g_autoptr (GError) local = NULL;

  if (stmt == NULL)
    return FALSE;
  while (pin_stmt_next (stmt, &local))
    if (!compare_marks (&self, pin_stmt_int (stmt, 0), error))
      return FALSE;
  if (local == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}

static gboolean
check_derived (PinDb *db, GPtrArray *problems, GError **error)
{
  g_autoptr (PinClockwork) clockwork = pin_clockwork_new (db);

  return compare_each (db, clockwork,
                       "SELECT v.id, m.seconds, m.runs, m.outings, m.litres, "
                       "m.first_day, m.last_day "
                       "FROM vehicle v LEFT JOIN meter m ON m.vehicle = v.id UNION ALL "
                       "SELECT vehicle, -1, -1, -1, -1, NULL, NULL FROM meter "
                       "WHERE vehicle NOT IN (SELECT id FROM vehicle)",
                       compare_meter, problems, error) &&
         compare_each (db, clockwork,
                       "SELECT p.id, s.seconds, s.runs, s.outings, s.litres, "
                       "s.vehicle, s.place, s.fitting, "
                       "s.kind, p.kind FROM part p LEFT JOIN standing s ON s.part = p.id UNION ALL "
                       "SELECT part, -1, -1, -1, -1, 0, 0, 0, kind, NULL FROM standing "
                       "WHERE part NOT IN (SELECT id FROM part)",
                       compare_standing, problems, error) &&
         check_marks (db, clockwork, problems, error);
}

/* --- all of it -------------------------------------------------------------- */

static gpointer
verify (PinDb *db, gpointer data, GError **error)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func (g_free);

  if (!check_pages (db, problems, error))
    return NULL;
  if (problems->len > 0) /* what a broken file says of the rest means nothing */
    return g_steal_pointer (&problems);
  if (!check_references (db, problems, error) || !check_schema (db, problems, error) ||
      !check_law (db, problems, error) ||
      !check_names (db, "SELECT sha, xml FROM source",
                    _ ("source: this text is not the one its name says:"), problems, error) ||
      !check_names (db, "SELECT sha, jpeg FROM image",
                    _ ("image: this picture is not the one its name says:"), problems, error) ||
      !check_derived (db, problems, error))
    return NULL;
  return g_steal_pointer (&problems);
}

/* Changes nothing.  Free with g_ptr_array_unref(). */
GPtrArray *
pin_book_verify (PinBook *self, GError **error)
{
  return pin_book_run (self, verify, NULL, error);
}
