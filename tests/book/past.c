#include "past.h"


#include <math.h>
#include <string.h>

#include "base/day.h"
#include "book/rows.h"

enum { TRAIT, FITTING, OUTING, ANSWER, READING, WORK, OWED, FINDING, RULE, LIMIT, STOCK, PHOTO, KINDS };

struct _Past
{
  Fixture *f;
  GRand *rand;
  gint64 now, supply;
  GArray *live[KINDS]; /* gint64: rows that can be corrected */
  GArray *places, *parts, *walks;
};

/* Days before and after each other, so that what is entered late is often of
 * an early day. */
static const char *const days[] = { "2026-01-02", "2026-01-05", "2026-01-09", "2026-02-01" };
static const char *const deeds[] = { "oiled", "greased", "cleaned" };

static int
pick (Past *self, int n)
{
  return g_rand_int_range (self->rand, 0, n);
}

static gint64
any (Past *self, GArray *ids)
{
  return ids->len > 0 ? g_array_index (ids, gint64, pick (self, ids->len)) : 0;
}

static char *
some_day (Past *self)
{
  return (char *) days[pick (self, G_N_ELEMENTS (days))];
}

/* One row in three corrects a live one of its kind or withdraws it. */
static void
retire (Past *self, int kind, gint64 *replaces, gboolean *is_void)
{
  GArray *live = self->live[kind];
  int at;

  if (live->len == 0 || pick (self, 3) != 0)
    return;
  at = pick (self, live->len);
  *replaces = g_array_index (live, gint64, at);
  *is_void = pick (self, 2);
  g_array_remove_index (live, at);
}

static void
written (Past *self, int kind, gint64 id, gboolean is_void)
{
  if (!is_void)
    g_array_append_val (self->live[kind], id);
}

static gint64
thing (Past *self)
{
  return pick (self, 3) ? any (self, self->parts) : self->f->vehicle;
}

/* --- one row of each kind --------------------------------------------------- */

static void
some_trait (Past *self, PinBatch *batch)
{
  static const char *const codes[] = { "name", "state", "size", "used.seconds" };
  const char *code = codes[pick (self, G_N_ELEMENTS (codes))];
  PinTrait row = { .thing = thing (self), .code = (char *) code, .day = some_day (self),
                   .value = pick (self, 100), .text = some_day (self), .origin = (char *) "owner" };

  retire (self, TRAIT, &row.replaces, &row.is_void);
  written (self, TRAIT, pin_batch_trait (batch, &row), row.is_void);
}

static void
some_fitting (Past *self, PinBatch *batch)
{
  PinFitting row = { .part = any (self, self->parts), .day = some_day (self) };

  row.place = pick (self, 3) ? any (self, self->places) : 0;
  row.shelf = row.place ? NULL : (char *) (pick (self, 2) ? "shelf" : "bin");
  retire (self, FITTING, &row.replaces, &row.is_void);
  written (self, FITTING, pin_batch_fitting (batch, &row), row.is_void);
}

static void
some_outing (Past *self, PinBatch *batch)
{
  PinOuting row = an_outing (self->f->vehicle, some_day (self));
  PinOutingPart pack = { any (self, self->parts), 1, pick (self, 500) };
  g_autoptr (GArray) packs = g_array_new (FALSE, FALSE, sizeof (PinOutingPart));

  row.seconds = pick (self, 4) ? pick (self, 3000) : NAN;
  row.runs = pick (self, 3);
  if (pick (self, 2))
    g_array_append_val (packs, pack);
  row.parts = packs;
  retire (self, OUTING, &row.replaces, &row.is_void);
  written (self, OUTING, pin_batch_outing (batch, &row), row.is_void);
}

static void
some_walk (Past *self, PinBatch *batch)
{
  PinInspection begun = { .vehicle = self->f->vehicle, .plan = (char *) "{}", .lang = (char *) "en",
                          .day = some_day (self) };
  PinSignOff end = { .verdict = (char *) (pick (self, 4) ? "signed" : "abandoned"),
                     .day = some_day (self), .person = (char *) "AB" };
  int at;
  gint64 id;

  if (self->walks->len < 2)
    {
      id = pin_batch_inspection (batch, &begun);
      g_array_append_val (self->walks, id);
      pin_batch_draft (batch, id, "[1.9]");
      return;
    }
  at = pick (self, self->walks->len);
  end.inspection = g_array_index (self->walks, gint64, at);
  if (pick (self, 3))
    pin_batch_walk_plan (batch, end.inspection, some_day (self));
  else
    {
      pin_batch_sign_off (batch, &end);
      g_array_remove_index (self->walks, at);
    }
}

static void
some_answer (Past *self, PinBatch *batch)
{
  static const char *const steps[] = { "bearings/grade", "free-roll/coast", "off/wheels", "on/wheels" };
  static const PinOutcome outcomes[] = { PIN_OUTCOME_PASS, PIN_OUTCOME_WATCH, PIN_OUTCOME_FAIL };
  PinAnswer row = { .inspection = any (self, self->walks), .part = any (self, self->parts) };

  if (row.inspection == 0)
    return;
  row.step = (char *) steps[pick (self, G_N_ELEMENTS (steps))];
  row.outcome = outcomes[pick (self, G_N_ELEMENTS (outcomes))];
  row.detail = some_day (self);
  retire (self, ANSWER, &row.replaces, &row.is_void);
  written (self, ANSWER, pin_batch_answer (batch, &row), row.is_void);
}

static void
some_reading (Past *self, PinBatch *batch)
{
  PinReading row = { .thing = thing (self), .quantity = (char *) "time.roll",
                     .value = pick (self, 90), .typed = some_day (self), .day = some_day (self) };

  row.answer = any (self, self->live[ANSWER]);
  retire (self, READING, &row.replaces, &row.is_void);
  written (self, READING, pin_batch_reading (batch, &row), row.is_void);
}

static void
some_work (Past *self, PinBatch *batch)
{
  PinWork row = { .thing = thing (self), .day = some_day (self), .cost = -1 };

  row.deed = (char *) deeds[pick (self, G_N_ELEMENTS (deeds))];
  retire (self, WORK, &row.replaces, &row.is_void);
  written (self, WORK, pin_batch_work (batch, &row), row.is_void);
}

static void
some_debt (Past *self, PinBatch *batch)
{
  PinOwed row = { .vehicle = self->f->vehicle, .what = (char *) "mesh", .day = some_day (self) };

  row.cause = any (self, self->live[WORK]);
  if (row.cause == 0)
    return;
  row.settles = pick (self, 2) ? any (self, self->live[OWED]) : 0;
  retire (self, OWED, &row.replaces, &row.is_void);
  written (self, OWED, pin_batch_owed (batch, &row), row.is_void);
}

static void
some_finding (Past *self, PinBatch *batch)
{
  static const char *const events[] = { "regraded", "worked", "closed", "withdrawn" };
  PinFinding row = { .event = (char *) "opened", .vehicle = self->f->vehicle,
                     .part = any (self, self->parts), .gravity = PIN_GRAVITY_FAIL,
                     .note = some_day (self), .day = some_day (self) };

  row.opens = pick (self, 2) ? any (self, self->live[FINDING]) : 0;
  if (row.opens == 0)
    retire (self, FINDING, &row.replaces, &row.is_void);
  else
    row.event = (char *) events[pick (self, G_N_ELEMENTS (events))];
  if (row.opens != 0 && !g_str_equal (row.event, "regraded"))
    row.gravity = PIN_GRAVITY_NONE;
  row.cause = any (self, self->live[ANSWER]);
  if (row.opens == 0)
    written (self, FINDING, pin_batch_finding (batch, &row), row.is_void);
  else
    pin_batch_finding (batch, &row);
}

static void
some_own (Past *self, PinBatch *batch)
{
  PinOwnRule rule = { .rule = (char *) "oil", .clock = (char *) "days", .every = 1 + pick (self, 90),
                      .origin = (char *) "owner", .day = some_day (self) };
  PinOwnLimit limit = { .step = (char *) "free-roll/coast", .band = (char *) "{}",
                        .origin = (char *) "owner", .day = some_day (self) };

  retire (self, RULE, &rule.replaces, &rule.is_void);
  written (self, RULE, pin_batch_own_rule (batch, &rule), rule.is_void);
  retire (self, LIMIT, &limit.replaces, &limit.is_void);
  written (self, LIMIT, pin_batch_own_limit (batch, &limit), limit.is_void);
}

static void
some_stock (Past *self, PinBatch *batch)
{
  PinStock row = { .amount = pick (self, 20) - 5, .cost = -1, .day = some_day (self) };

  if (self->supply == 0)
    self->supply = pin_batch_supply (batch, 0, "oil", NULL, "light oil", "ml");
  row.supply = self->supply;
  retire (self, STOCK, &row.replaces, &row.is_void);
  written (self, STOCK, pin_batch_stock (batch, &row), row.is_void);
}

static void
some_photo (Past *self, PinBatch *batch)
{
  char data[8];
  g_autoptr (GBytes) jpeg = NULL;
  PinPhoto row = { .of = thing (self), .day = some_day (self), .caption = some_day (self) };

  g_snprintf (data, sizeof data, "%d", pick (self, 5));
  row.jpeg = jpeg = g_bytes_new (data, strlen (data));
  retire (self, PHOTO, &row.replaces, &row.is_void);
  written (self, PHOTO, pin_batch_photo (batch, &row), row.is_void);
}

static void
some_thing (Past *self, PinBatch *batch)
{
  g_autofree char *code = g_strdup_printf ("place.%u", self->places->len);
  gint64 place = pin_batch_place (batch, 0, self->f->vehicle, code, "bearing", 0);
  gint64 part = pin_batch_part (batch, 0, "bearing", 0);

  g_array_append_val (self->places, place);
  g_array_append_val (self->parts, part);
}

/* --- history ---------------------------------------------------------------- */

Past *
past_new (Fixture *f, guint32 seed)
{
  Past *self = g_new0 (Past, 1);
  GArray **arrays[] = { &self->places, &self->parts, &self->walks };

  self->f = f;
  self->rand = g_rand_new_with_seed (seed);
  self->now = PAST_BEGIN;
  for (gsize i = 0; i < G_N_ELEMENTS (arrays); i++)
    *arrays[i] = g_array_new (FALSE, FALSE, sizeof (gint64));
  for (int i = 0; i < KINDS; i++)
    self->live[i] = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_array_append_val (self->places, f->place);
  g_array_append_val (self->parts, f->part);
  return self;
}

void
past_free (Past *self)
{
  g_array_unref (self->places);
  g_array_unref (self->parts);
  g_array_unref (self->walks);
  for (int i = 0; i < KINDS; i++)
    g_array_unref (self->live[i]);
  g_rand_free (self->rand);
  g_free (self);
}

gint64
past_now (Past *self)
{
  return self->now;
}

void
past_go_on (Past *self)
{
  static void (*const some[]) (Past *, PinBatch *) = {
    some_trait, some_fitting, some_outing, some_walk, some_answer, some_reading, some_work,
    some_debt, some_finding, some_own, some_stock, some_photo, some_thing,
  };
  PinBatch *batch = pin_batch_new (self->f->book);

  self->now += 1000;
  pin_pretend_now (self->now);
  for (int n = 1 + pick (self, 4); n > 0; n--)
    some[pick (self, G_N_ELEMENTS (some))](self, batch);
  commit (self->f->book, batch);
}

/* --- all that is in a book -------------------------------------------------- */

static gboolean
put_table (PinDb *db, GString *text, const char *table, GError **error)
{
  g_autofree char *sql = g_strdup_printf ("SELECT * FROM %s ORDER BY 1, 2", table);
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, sql, error);
  g_autoptr (GError) local = NULL;

  while (stmt != NULL && pin_stmt_next (stmt, &local))
    {
      g_string_append (text, table);
      for (int i = 0; i < pin_stmt_columns (stmt); i++)
        g_string_append_printf (text, " %s=%s", pin_stmt_column (stmt, i),
                                pin_stmt_text (stmt, i) ? pin_stmt_text (stmt, i) : "NULL");
      g_string_append_c (text, '\n');
    }
  if (local != NULL)
    g_propagate_error (error, g_steal_pointer (&local));
  return stmt != NULL && (error == NULL || *error == NULL);
}

gpointer
past_tables (PinDb *db, gpointer data, GError **error)
{
  static const char *const derived[] = { "meter", "standing", "mark" };
  const char *const *facts = pin_law_facts ();
  GString *text = g_string_new (NULL);

  /* Texts and pictures carry no time; the queries below tell them apart. */
  for (int i = 0; facts[i] != NULL; i++)
    if (!g_str_equal (facts[i], "source") && !g_str_equal (facts[i], "image") &&
        !put_table (db, text, facts[i], error))
      break;
  for (gsize i = 0; i < G_N_ELEMENTS (derived); i++)
    put_table (db, text, derived[i], error);
  return g_string_free (text, FALSE);
}

/* --- and what the queries say of it ----------------------------------------- */

static void
put_column (GString *text, const PinColumn *column, gconstpointer row)
{
  gconstpointer at = (const char *) row + column->offset;

  switch (column->type)
    {
    case PIN_COLUMN_ID:
    case PIN_COLUMN_MONEY:
      g_string_append_printf (text, " %" G_GINT64_FORMAT, *(const gint64 *) at);
      break;
    case PIN_COLUMN_TEXT:
    case PIN_COLUMN_DAY:
      g_string_append_printf (text, " %s", *(char *const *) at ? *(char *const *) at : "-");
      break;
    case PIN_COLUMN_REAL:
      g_string_append_printf (text, " %g", *(const double *) at);
      break;
    case PIN_COLUMN_REALS:
    case PIN_COLUMN_SHA:
    case PIN_COLUMN_BYTES:
      break;
    default: /* flags, counts and enumerations */
      g_string_append_printf (text, " %d", *(const int *) at);
      break;
    }
}

static void
put_rows (GString *text, const char *says, const PinTable *table, GPtrArray *rows)
{
  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      g_string_append (text, says);
      for (int c = 0; c < table->n_columns; c++)
        put_column (text, &table->columns[c], rows->pdata[i]);
      g_string_append_c (text, '\n');
    }
  g_clear_pointer (&rows, g_ptr_array_unref);
}

static void
put_vehicles (GString *text, PinDb *db, GError **error)
{
  g_autoptr (GPtrArray) rows = pin_query_vehicles (db, error);

  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      const PinVehicleRow *row = rows->pdata[i];

      g_string_append_printf (text, "vehicle %" G_GINT64_FORMAT " %s %s %s %g %g %g %g %s %s\n",
                              row->id, row->chassis_code, row->name, row->state, row->seconds,
                              row->runs, row->outings, row->before_seconds, row->first_day,
                              row->last_day);
    }
}

static void
put_parts (GString *text, const char *says, GPtrArray *rows)
{
  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      const PinPartRow *row = rows->pdata[i];

      g_string_append_printf (
          text, "%s %" G_GINT64_FORMAT " %" G_GINT64_FORMAT " %s %g %g %g %s %s\n", says, row->id,
          row->place, row->shelf, row->seconds, row->runs, row->outings, row->size, row->since);
    }
  g_clear_pointer (&rows, g_ptr_array_unref);
}

static void
put_findings (GString *text, PinDb *db, GError **error)
{
  g_autoptr (GPtrArray) rows = pin_query_findings (db, 0, TRUE, error);

  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      const PinFindingRow *row = rows->pdata[i];

      g_string_append_printf (
          text, "finding %" G_GINT64_FORMAT " %d %d %d %s %s %s %" G_GINT64_FORMAT "\n", row->id,
          row->gravity, row->closed, row->worked, row->step, row->detail, row->note, row->last);
      put_rows (text, "  event", &pin_table_finding, pin_query_finding_life (db, row->id, error));
    }
}

static void
put_walks (GString *text, PinDb *db, GError **error)
{
  g_autoptr (GPtrArray) rows = pin_query_inspections (db, 0, error);

  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      const PinInspectionRow *row = rows->pdata[i];

      g_string_append_printf (text, "walk %" G_GINT64_FORMAT " %s %s %s %s\n", row->id, row->plan,
                              row->day, row->verdict, row->signed_day);
      put_rows (text, "  answer", &pin_table_answer, pin_query_answers (db, row->id, error));
      put_rows (text, "  any", &pin_table_answer, pin_query_answers_all (db, row->id, error));
      put_rows (text, "  read", &pin_table_reading,
                pin_query_readings_of_walk (db, row->id, error));
    }
}

static void
put_thing (GString *text, PinDb *db, gint64 id, GError **error)
{
  g_autoptr (GPtrArray) marks = pin_query_marks_of (db, id, error);
  g_autoptr (GPtrArray) photos = pin_query_photos (db, id, error);

  for (guint i = 0; marks != NULL && i < marks->len; i++)
    {
      const PinMarkRow *row = marks->pdata[i];

      g_string_append_printf (text, "mark %s %s %g %g\n", row->deed, row->day, row->seconds,
                              row->outings);
    }
  for (guint i = 0; photos != NULL && i < photos->len; i++)
    {
      const PinPhoto *row = photos->pdata[i];

      g_string_append_printf (text, "photo %s %.1s\n", row->caption,
                              (const char *) g_bytes_get_data (row->jpeg, NULL));
    }
  put_rows (text, "trait", &pin_table_trait, pin_query_traits (db, id, NULL, error));
  put_rows (text, "trait then", &pin_table_trait, pin_query_traits (db, id, days[1], error));
  put_rows (text, "moved", &pin_table_fitting, pin_query_fittings (db, id, error));
  put_rows (text, "used", &pin_table_outing, pin_query_outings_of_part (db, id, error));
  put_rows (text, "asked", &pin_table_answer, pin_query_part_answers (db, id, error));
}

/* @data: Past*, whose things of now are asked for, known then or not. */
gpointer
past_told (PinDb *db, gpointer data, GError **error)
{
  Past *self = data;
  GString *text = g_string_new (NULL);
  gint64 car = self->f->vehicle;

  put_vehicles (text, db, error);
  put_parts (text, "on", pin_query_parts_on (db, 0, error));
  put_parts (text, "off", pin_query_parts_off (db, error));
  put_findings (text, db, error);
  put_walks (text, db, error);
  put_rows (text, "outing", &pin_table_outing, pin_query_outings (db, 0, 0, error));
  put_rows (text, "reading", &pin_table_reading, pin_query_readings (db, car, error));
  put_rows (text, "work", &pin_table_work, pin_query_works (db, car, error));
  put_rows (text, "owed", &pin_table_owed, pin_query_owed (db, car, error));
  put_rows (text, "tray", &pin_table_answer, pin_query_tray_answers (db, car, error));
  put_rows (text, "rule", &pin_table_own_rule, pin_query_own_rules (db, error));
  put_rows (text, "limit", &pin_table_own_limit, pin_query_own_limits (db, error));
  put_thing (text, db, car, error);
  for (guint i = 0; i < self->parts->len; i++)
    put_thing (text, db, g_array_index (self->parts, gint64, i), error);
  return g_string_free (text, FALSE);
}
