#include "book/queries-private.h"

#include <string.h>

#define COLUMN(S, f, t) { #f, PIN_COLUMN_##t, G_STRUCT_OFFSET (S, f) }

/* What the opening row tells, with the answer it came from. */
static const PinColumn finding_row_columns[] = {
  COLUMN (PinFindingRow, id, ID),           COLUMN (PinFindingRow, vehicle, ID),
  COLUMN (PinFindingRow, place, ID),        COLUMN (PinFindingRow, part, ID),
  COLUMN (PinFindingRow, gravity, GRAVITY), COLUMN (PinFindingRow, cause, ID),
  COLUMN (PinFindingRow, note, TEXT),       COLUMN (PinFindingRow, day, TEXT),
  COLUMN (PinFindingRow, step, TEXT),       COLUMN (PinFindingRow, phase, PHASE),
  COLUMN (PinFindingRow, detail, TEXT),
};
static const PinTable finding_rows = { "finding", sizeof (PinFindingRow), finding_row_columns,
                                       G_N_ELEMENTS (finding_row_columns) };

#define OPENED \
  "SELECT f.id, f.vehicle, f.place, f.part, f.gravity, f.cause, f.note, f.day, a.step, a.phase, " \
  "coalesce (a.detail, (SELECT typed FROM reading WHERE answer = a.id AND live " \
  "AND answer IS NOT NULL ORDER BY id LIMIT 1)) " \
  "FROM finding f LEFT JOIN answer a ON a.id = f.cause WHERE f.opens IS NULL AND f.live "

/* What happen() makes of it, so that closed ones need not be lived through. */
#define STILL_OPEN \
  "AND coalesce ((SELECT e.event FROM finding e WHERE e.opens = f.id AND e.opens IS NOT NULL " \
  "AND e.live AND e.event IN ('regraded', 'closed', 'withdrawn') ORDER BY e.id DESC LIMIT 1), " \
  "'opened') NOT IN ('closed', 'withdrawn') "

void
pin_finding_row_free (PinFindingRow *row)
{
  if (row == NULL)
    return;
  g_free (row->last_day);
  pin_row_free (&finding_rows, row);
}

/* One event in the life of a finding.  The last of them says how it stands:
 * a regrade after closing opens it anew, and takes an acceptance back. */
static void
happen (PinFindingRow *row, const PinFinding *event, char **last_note)
{
  if (g_str_equal (event->event, "regraded"))
    {
      if (event->gravity != PIN_GRAVITY_NONE)
        row->gravity = event->gravity;
      row->cause = event->cause != 0 ? event->cause : row->cause;
      row->closed = row->withdrawn = row->accepted = FALSE;
    }
  else if (g_str_equal (event->event, "worked"))
    row->worked = TRUE;
  else if (g_str_equal (event->event, "accepted"))
    row->accepted = TRUE;
  else if (g_str_equal (event->event, "closed"))
    row->closed = TRUE;
  else if (g_str_equal (event->event, "withdrawn"))
    row->closed = row->withdrawn = TRUE;
  row->last = event->id;
  g_free (row->last_day);
  row->last_day = g_strdup (event->day);
  if (event->note != NULL && *event->note != '\0')
    {
      g_free (*last_note);
      *last_note = g_strdup (event->note);
    }
}

static gboolean
live_through (PinDb *db, PinFindingRow *row, GError **error)
{
  g_autoptr (GPtrArray) events =
      pin_query_rows (db, &pin_table_finding, (GDestroyNotify) pin_finding_free,
                      "WHERE t.opens = ?1 AND t.live AND t.opens IS NOT NULL "
                      "ORDER BY t.id",
                      row->id, NULL,
                      error);
  g_autofree char *last_note = NULL;

  if (events == NULL)
    return FALSE;
  row->last = row->id;
  row->last_day = g_strdup (row->day);
  for (guint i = 0; i < events->len; i++)
    happen (row, g_ptr_array_index (events, i), &last_note);
  if (row->note == NULL || *row->note == '\0')
    {
      g_free (row->note);
      row->note = g_steal_pointer (&last_note);
    }
  return TRUE;
}

static GPtrArray *
findings (PinDb *db, const char *sql, gint64 id, GError **error)
{
  GDestroyNotify free_row = (GDestroyNotify) pin_finding_row_free;
  g_autoptr (GPtrArray) rows = pin_query_sql (db, &finding_rows, free_row, sql, id, NULL, error);

  for (guint i = 0; rows != NULL && i < rows->len; i++)
    if (!live_through (db, g_ptr_array_index (rows, i), error))
      return NULL;
  return g_steal_pointer (&rows);
}

/* By id; vehicle 0: of the whole stable. */
GPtrArray *
pin_query_findings (PinDb *db, gint64 vehicle, gboolean closed_too, GError **error)
{
  g_autofree char *sql =
      g_strconcat (OPENED, vehicle != 0 ? "AND f.vehicle = ?1 " : "",
                   closed_too ? "" : STILL_OPEN, "ORDER BY f.id", NULL);

  return findings (db, sql, vehicle, error);
}

GPtrArray *
pin_query_findings_of_part (PinDb *db, gint64 part, GError **error)
{
  return findings (db, OPENED "AND f.part = ?1 AND f.part IS NOT NULL ORDER BY f.id", part,
                   error);
}

/* The life of one finding, its opening row first (PinFinding). */
GPtrArray *
pin_query_finding_life (PinDb *db, gint64 finding, GError **error)
{
  return pin_query_rows (db, &pin_table_finding, (GDestroyNotify) pin_finding_free,
                         "WHERE t.id IN (SELECT ?1 UNION ALL SELECT id FROM finding WHERE "
                         "opens = ?1 "
                         "AND opens IS NOT NULL AND live) AND t.live ORDER BY t.id",
                         finding, NULL, error);
}
