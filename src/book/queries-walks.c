#include "book/queries-private.h"

#include <glib/gi18n.h>
#include <inttypes.h>

#define COLUMN(S, f, t) { #f, PIN_COLUMN_##t, G_STRUCT_OFFSET (S, f) }

static const PinColumn inspection_row_columns[] = {
  COLUMN (PinInspectionRow, id, ID), COLUMN (PinInspectionRow, vehicle, ID),
  COLUMN (PinInspectionRow, plan, TEXT), COLUMN (PinInspectionRow, lang, TEXT),
  COLUMN (PinInspectionRow, day, TEXT), COLUMN (PinInspectionRow, person, TEXT),
  COLUMN (PinInspectionRow, verdict, TEXT), COLUMN (PinInspectionRow, signed_day, TEXT),
  COLUMN (PinInspectionRow, signed_person, TEXT), COLUMN (PinInspectionRow, sign_off, ID),
};
static const PinTable inspection_rows = { "inspection", sizeof (PinInspectionRow),
                                          inspection_row_columns,
                                          G_N_ELEMENTS (inspection_row_columns) };

/* The plan is the newest one: the walk may have been re-reckoned on the way.
 * Of two sign-offs, which only a merge can make, the first counts. */
#define WALKS \
  "SELECT i.id, i.vehicle, coalesce ((SELECT plan FROM walk_plan WHERE inspection = i.id " \
  "ORDER BY id DESC LIMIT 1), i.plan), i.lang, i.day, i.person, s.verdict, s.day, s.person, s.id " \
  "FROM inspection i LEFT JOIN sign_off s ON s.id = (SELECT min (id) FROM sign_off " \
  "WHERE inspection = i.id) "

void
pin_inspection_row_free (PinInspectionRow *row)
{
  pin_row_free (&inspection_rows, row);
}

static GPtrArray *
walks (PinDb *db, const char *sql, gint64 id, GError **error)
{
  return pin_query_sql (db, &inspection_rows, (GDestroyNotify) pin_inspection_row_free, sql, id,
                        NULL, error);
}

/* Newest first; vehicle 0: of all vehicles. */
GPtrArray *
pin_query_inspections (PinDb *db, gint64 vehicle, GError **error)
{
  return walks (db,
                vehicle != 0 ? WALKS "WHERE i.vehicle = ?1 ORDER BY i.id DESC"
                             : WALKS "ORDER BY i.id DESC",
                vehicle, error);
}

/* Error NOT_FOUND if there is no such inspection. */
PinInspectionRow *
pin_query_inspection (PinDb *db, gint64 inspection, GError **error)
{
  GPtrArray *rows = walks (db, WALKS "WHERE i.id = ?1", inspection, error);
  PinInspectionRow *row;

  if (rows == NULL)
    return NULL;
  row = pin_query_first (rows);
  if (row == NULL)
    g_set_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_NOT_FOUND,
                 _ ("There is no inspection %" PRId64 " in this book"), inspection);
  return row;
}

#define OPEN WALKS "WHERE i.vehicle = ?1 AND s.id IS NULL ORDER BY i.id DESC"

/* The newest walk that has not been ended; NULL without error: none. */
PinInspectionRow *
pin_query_open_walk (PinDb *db, gint64 vehicle, GError **error)
{
  return pin_query_first (walks (db, OPEN " LIMIT 1", vehicle, error));
}

/* All that have not been ended: two only after a merge. */
GPtrArray *
pin_query_open_walks (PinDb *db, gint64 vehicle, GError **error)
{
  return walks (db, OPEN, vehicle, error);
}

/* Which one it is goes by keys alone: a book of ten years has long plans. */
PinInspectionRow *
pin_query_last_signed (PinDb *db, gint64 vehicle, GError **error)
{
  return pin_query_first (
      walks (db, WALKS "WHERE i.id = (SELECT e.inspection FROM inspection w "
                       "JOIN sign_off e ON e.inspection = w.id WHERE w.vehicle = ?1 "
                       "AND e.verdict = 'signed' AND e.id = (SELECT min (id) FROM sign_off "
                       "WHERE inspection = w.id) ORDER BY e.id DESC LIMIT 1)",
             vehicle, error));
}

/* The last @most signed ones, the newest begun first. */
GPtrArray *
pin_query_signed (PinDb *db, gint64 vehicle, int most, GError **error)
{
  g_autofree char *sql = g_strdup_printf (
      WALKS "WHERE i.vehicle = ?1 AND s.verdict = 'signed' ORDER BY i.id DESC LIMIT %d", most);

  return walks (db, sql, vehicle, error);
}

/* Walks that looked at @part. */
GPtrArray *
pin_query_inspections_of_part (PinDb *db, gint64 part, GError **error)
{
  return walks (db, WALKS "WHERE i.id IN (SELECT inspection FROM answer WHERE part = ?1 AND live "
                          "AND part IS NOT NULL) ORDER BY i.id DESC",
                part, error);
}

/* --- answers ---------------------------------------------------------------- */

static GPtrArray *
answers (PinDb *db, const char *rest, gint64 id, GError **error)
{
  return pin_query_rows (db, &pin_table_answer, (GDestroyNotify) pin_answer_free, rest, id, NULL,
                         error);
}

GPtrArray *
pin_query_answers (PinDb *db, gint64 inspection, GError **error)
{
  return answers (db, "WHERE t.inspection = ?1 AND t.live ORDER BY t.id", inspection, error);
}

/* With the corrected and withdrawn ones, to show what was done and undone. */
GPtrArray *
pin_query_answers_all (PinDb *db, gint64 inspection, GError **error)
{
  return answers (db, "WHERE t.inspection = ?1 ORDER BY t.id", inspection, error);
}

GPtrArray *
pin_query_tray_answers (PinDb *db, gint64 vehicle, GError **error)
{
  return answers (db, "JOIN inspection i ON i.id = t.inspection WHERE i.vehicle = ?1 AND t.live "
                      "AND (t.step GLOB 'off/*' OR t.step GLOB 'on/*') ORDER BY t.id",
                  vehicle, error);
}

#define LAST_MOVES(and) \
  "SELECT max (a.id) FROM inspection i JOIN answer a ON a.inspection = i.id " \
  "WHERE i.vehicle = ?1 AND a.live AND (a.step GLOB 'off/*' OR a.step GLOB 'on/*') " \
  "AND a.outcome = 'done' " and "GROUP BY substr (a.step, instr (a.step, '/') + 1)"

/* The last move of each assembly, now and as it was before @inspection (0: now
 * alone), and those that something is still owed for: where everything is, and
 * what it was opened for, without reading every move there ever was. */
GPtrArray *
pin_query_tray (PinDb *db, gint64 vehicle, gint64 inspection, GError **error)
{
  static const char last_moves[] =
      "WHERE t.id IN (" LAST_MOVES ("") " UNION " LAST_MOVES ("AND a.id < CAST (?2 AS INTEGER) ")
      " UNION SELECT d.cause FROM owed d WHERE d.vehicle = ?1 AND d.live "
      "AND d.settles IS NULL AND NOT EXISTS (SELECT 1 FROM owed s WHERE s.settles = d.id "
      "AND s.live AND s.settles IS NOT NULL)) "
      "AND t.live AND (t.step GLOB 'off/*' OR t.step GLOB 'on/*') ORDER BY t.id";
  g_autofree char *before = g_strdup_printf ("%" G_GINT64_FORMAT, inspection);

  return pin_query_rows (db, &pin_table_answer, (GDestroyNotify) pin_answer_free, last_moves, vehicle,
                         before, error);
}

GPtrArray *
pin_query_part_answers (PinDb *db, gint64 part, GError **error)
{
  return answers (db, "WHERE t.part = ?1 AND t.live ORDER BY t.id", part, error);
}

/* --- what else a walk wrote ------------------------------------------------- */

GPtrArray *
pin_query_readings_of_walk (PinDb *db, gint64 inspection, GError **error)
{
  return pin_query_rows (db, &pin_table_reading, (GDestroyNotify) pin_reading_free,
                         "JOIN answer a ON a.id = t.answer WHERE a.inspection = ?1 AND t.live "
                         "AND t.answer IS NOT NULL ORDER BY t.id",
                         inspection, NULL, error);
}

/* Those of corrected answers too; without the rows that withdrew them. */
GPtrArray *
pin_query_readings_ever_of_walk (PinDb *db, gint64 inspection, GError **error)
{
  return pin_query_rows (db, &pin_table_reading, (GDestroyNotify) pin_reading_free,
                         "JOIN answer a ON a.id = t.answer WHERE a.inspection = ?1 AND NOT t.void "
                         "AND t.answer IS NOT NULL ORDER BY t.id",
                         inspection, NULL, error);
}

GPtrArray *
pin_query_works_of_walk (PinDb *db, gint64 inspection, GError **error)
{
  return pin_query_rows (db, &pin_table_work, (GDestroyNotify) pin_work_free,
                         "JOIN answer a ON a.id = t.answer WHERE a.inspection = ?1 AND t.live "
                         "AND t.answer IS NOT NULL ORDER BY t.id",
                         inspection, NULL, error);
}

/* What the walk asked for and wrote down (PinTrait). */
GPtrArray *
pin_query_traits_of_walk (PinDb *db, gint64 inspection, GError **error)
{
  return pin_query_rows (db, &pin_table_trait, (GDestroyNotify) pin_trait_free,
                         "JOIN answer a ON a.id = t.answer WHERE a.inspection = ?1 AND t.live "
                         "AND t.answer IS NOT NULL ORDER BY t.id",
                         inspection, NULL, error);
}
