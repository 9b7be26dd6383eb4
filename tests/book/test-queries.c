#include "fixture.h"

#include <math.h>
#include <string.h>

#include "book/book-private.h"

/* What the rooms above read. */

/* --- findings --------------------------------------------------------------- */

static gint64
event (Fixture *f, gint64 opens, const char *what, PinGravity gravity, const char *note)
{
  PinBatch *batch = pin_batch_new (f->book);
  PinFinding row = { .opens = opens, .event = (char *) what, .vehicle = f->vehicle, .part = f->part,
                     .gravity = gravity, .note = (char *) note, .day = (char *) "2026-01-05" };
  gint64 id = pin_batch_finding (batch, &row);

  commit (f->book, batch);
  return id;
}

static PinFindingRow *
the_finding (Fixture *f)
{
  GPtrArray *rows = ask (f->book, pin_query_findings_of_part, f->part);
  PinFindingRow *row;

  g_assert_cmpint (rows->len, ==, 1);
  row = g_ptr_array_steal_index (rows, 0);
  g_ptr_array_unref (rows);
  return row;
}

static void
assert_finding (Fixture *f, PinGravity gravity, gboolean closed, gboolean withdrawn,
                gboolean accepted, gboolean worked)
{
  PinFindingRow *row = the_finding (f);

  g_assert_cmpint (row->gravity, ==, gravity);
  g_assert_cmpint (row->closed, ==, closed);
  g_assert_cmpint (row->withdrawn, ==, withdrawn);
  g_assert_cmpint (row->accepted, ==, accepted);
  g_assert_cmpint (row->worked, ==, worked);
  pin_finding_row_free (row);
}

static void
test_life_of_a_finding (Fixture *f, gconstpointer data)
{
  gint64 id = event (f, 0, "opened", PIN_GRAVITY_WATCH, NULL);

  assert_finding (f, PIN_GRAVITY_WATCH, FALSE, FALSE, FALSE, FALSE);
  event (f, id, "accepted", PIN_GRAVITY_WATCH, "known");
  assert_finding (f, PIN_GRAVITY_WATCH, FALSE, FALSE, TRUE, FALSE);
  event (f, id, "regraded", PIN_GRAVITY_UNSAFE, NULL);
  assert_finding (f, PIN_GRAVITY_UNSAFE, FALSE, FALSE, FALSE, FALSE);
  event (f, id, "worked", PIN_GRAVITY_UNSAFE, NULL);
  assert_finding (f, PIN_GRAVITY_UNSAFE, FALSE, FALSE, FALSE, TRUE);
  event (f, id, "closed", PIN_GRAVITY_NONE, "found sound");
  assert_finding (f, PIN_GRAVITY_UNSAFE, TRUE, FALSE, FALSE, TRUE);
  event (f, id, "regraded", PIN_GRAVITY_FAIL, NULL);
  assert_finding (f, PIN_GRAVITY_FAIL, FALSE, FALSE, FALSE, TRUE);
  event (f, id, "withdrawn", PIN_GRAVITY_NONE, NULL);
  assert_finding (f, PIN_GRAVITY_FAIL, TRUE, TRUE, FALSE, TRUE);
}

static gpointer
open_ones (PinDb *db, gpointer vehicle, GError **error)
{
  return pin_query_findings (db, *(gint64 *) vehicle, FALSE, error);
}

static void
test_open_findings (Fixture *f, gconstpointer data)
{
  gint64 first = event (f, 0, "opened", PIN_GRAVITY_WATCH, NULL), last;
  g_autoptr (GPtrArray) rows = NULL;
  PinFindingRow *row;

  event (f, 0, "opened", PIN_GRAVITY_FAIL, "rough");
  last = event (f, first, "closed", PIN_GRAVITY_NONE, NULL);
  rows = pin_book_run (f->book, open_ones, &f->vehicle, NULL);
  g_assert_cmpint (rows->len, ==, 1);
  row = rows->pdata[0];
  g_assert_cmpstr (row->note, ==, "rough");
  g_assert_cmpint (row->last, ==, row->id);
  g_assert_cmpint (last, >, row->id);
}

/* --- a walk ----------------------------------------------------------------- */

typedef struct
{
  gint64 inspection, answer, off;
} Walk;

static Walk
write_walk (Fixture *f)
{
  PinBatch *batch = pin_batch_new (f->book);
  g_autoptr (GArray) repeats = g_array_new (FALSE, FALSE, sizeof (double));
  double laps[] = { 3.5, 0.1, 4.25 };
  PinInspection begun = { .vehicle = f->vehicle,
                          .plan = (char *) "{\"a\":1}",
                          .lang = (char *) "en",
                          .day = (char *) "2026-01-05",
                          .person = (char *) "AB" };
  Walk walk = { .inspection = pin_batch_inspection (batch, &begun) };
  PinAnswer answer = { .inspection = walk.inspection,
                       .step = (char *) "bearings/spin",
                       .part = f->part,
                       .place = f->place,
                       .phase = PIN_PHASE_FOUND,
                       .outcome = PIN_OUTCOME_FAIL,
                       .unsafe = TRUE };
  PinAnswer off = { .inspection = walk.inspection,
                    .step = (char *) "off/hubs",
                    .outcome = PIN_OUTCOME_DONE };
  PinReading reading = { .thing = f->part,
                         .quantity = (char *) "spin-down",
                         .value = 3.5,
                         .typed = (char *) "3.5 s",
                         .phase = PIN_PHASE_FOUND,
                         .day = (char *) "2026-01-05" };
  PinFinding finding = { .event = (char *) "opened",
                         .vehicle = f->vehicle,
                         .part = f->part,
                         .place = f->place,
                         .gravity = PIN_GRAVITY_UNSAFE,
                         .day = (char *) "2026-01-05" };

  walk.off = pin_batch_answer (batch, &off);
  finding.cause = reading.answer = walk.answer = pin_batch_answer (batch, &answer);
  g_array_append_vals (repeats, laps, 3);
  reading.repeats = repeats;
  pin_batch_reading (batch, &reading);
  pin_batch_finding (batch, &finding);
  pin_batch_walk_plan (batch, walk.inspection, "{\"a\":2}");
  pin_batch_draft (batch, walk.inspection, "{}");
  commit (f->book, batch);
  return walk;
}

static gpointer
open_walk (PinDb *db, gpointer vehicle, GError **error)
{
  return pin_query_open_walk (db, *(gint64 *) vehicle, error);
}

static gpointer
last_signed (PinDb *db, gpointer vehicle, GError **error)
{
  return pin_query_last_signed (db, *(gint64 *) vehicle, error);
}

static gpointer
tray_at (PinDb *db, gpointer data, GError **error)
{
  const gint64 *of = data;

  return pin_query_tray (db, of[0], of[1], error);
}

static gpointer
two_signed (PinDb *db, gpointer vehicle, GError **error)
{
  return pin_query_signed (db, *(gint64 *) vehicle, 2, error);
}

static gpointer
draft (PinDb *db, gpointer inspection, GError **error)
{
  return pin_query_draft (db, *(gint64 *) inspection, error);
}

static void
test_walk (Fixture *f, gconstpointer data)
{
  Walk walk = write_walk (f);
  PinInspectionRow *row = pin_book_run (f->book, open_walk, &f->vehicle, NULL);
  PinSignOff signing = { .inspection = walk.inspection, .verdict = (char *) "signed",
                         .day = (char *) "2026-01-06", .person = (char *) "CD" };
  PinBatch *batch = pin_batch_new (f->book);
  g_autofree char *state = pin_book_run (f->book, draft, &walk.inspection, NULL);

  g_assert_cmpint (row->id, ==, walk.inspection);
  g_assert_cmpstr (row->plan, ==, "{\"a\":2}");
  g_assert_null (row->verdict);
  g_assert_cmpstr (state, ==, "{}");
  pin_inspection_row_free (row);
  g_assert_null (pin_book_run (f->book, last_signed, &f->vehicle, NULL));

  pin_batch_sign_off (batch, &signing);
  pin_batch_draft (batch, walk.inspection, NULL);
  commit (f->book, batch);
  g_assert_null (pin_book_run (f->book, open_walk, &f->vehicle, NULL));
  g_assert_null (pin_book_run (f->book, draft, &walk.inspection, NULL));
  row = pin_book_run (f->book, last_signed, &f->vehicle, NULL);
  g_assert_cmpstr (row->verdict, ==, "signed");
  g_assert_cmpstr (row->day, ==, "2026-01-05");
  g_assert_cmpstr (row->signed_day, ==, "2026-01-06");
  g_assert_cmpstr (row->signed_person, ==, "CD");
  pin_inspection_row_free (row);
}

static void
test_answers (Fixture *f, gconstpointer data)
{
  Walk walk = write_walk (f);
  g_autoptr (GPtrArray) answers = ask (f->book, pin_query_answers, walk.inspection);
  g_autoptr (GPtrArray) tray = ask (f->book, pin_query_tray_answers, f->vehicle);
  g_autoptr (GPtrArray) of_part = ask (f->book, pin_query_part_answers, f->part);
  g_autoptr (GPtrArray) readings = ask (f->book, pin_query_readings_of_walk, walk.inspection);
  PinAnswer *answer = answers->pdata[1];
  PinReading *reading = readings->pdata[0];
  PinFindingRow *finding = the_finding (f);

  g_assert_cmpint (answers->len, ==, 2);
  g_assert_cmpint (answer->id, ==, walk.answer);
  g_assert_cmpint (answer->outcome, ==, PIN_OUTCOME_FAIL);
  g_assert_cmpint (answer->phase, ==, PIN_PHASE_FOUND);
  g_assert_true (answer->unsafe);
  g_assert_cmpint (tray->len, ==, 1);
  g_assert_cmpint (((PinAnswer *) tray->pdata[0])->id, ==, walk.off);
  g_assert_cmpint (of_part->len, ==, 1);
  g_assert_cmpint (readings->len, ==, 1);
  g_assert_cmpint (reading->repeats->len, ==, 3);
  g_assert_cmpfloat (g_array_index (reading->repeats, double, 1), ==, 0.1);
  g_assert_cmpfloat (g_array_index (reading->repeats, double, 2), ==, 4.25);
  g_assert_cmpint (reading->phase, ==, PIN_PHASE_FOUND);
  g_assert_cmpstr (finding->step, ==, "bearings/spin");
  g_assert_cmpstr (finding->detail, ==, "3.5 s");
  g_assert_cmpint (finding->phase, ==, PIN_PHASE_FOUND);
  g_assert_cmpint (finding->cause, ==, walk.answer);
  pin_finding_row_free (finding);
}

/* One move in a walk of its own; the answer's id. */
static gint64
move (Fixture *f, const char *step, gint64 *inspection)
{
  PinBatch *batch = pin_batch_new (f->book);
  PinInspection begun = { .vehicle = f->vehicle, .plan = (char *) "{}", .lang = (char *) "en",
                          .day = (char *) "2026-01-07", .person = (char *) "AB" };
  PinAnswer answer = { .step = (char *) step, .outcome = PIN_OUTCOME_DONE };
  gint64 id;

  answer.inspection = *inspection = pin_batch_inspection (batch, &begun);
  id = pin_batch_answer (batch, &answer);
  commit (f->book, batch);
  return id;
}

static void
assert_tray (Fixture *f, gint64 inspection, const gint64 *ids, guint n)
{
  gint64 of[2] = { f->vehicle, inspection };
  g_autoptr (GPtrArray) tray = pin_book_run (f->book, tray_at, of, NULL);

  g_assert_cmpuint (tray->len, ==, n);
  for (guint i = 0; i < n; i++)
    g_assert_cmpint (((PinAnswer *) tray->pdata[i])->id, ==, ids[i]);
}

/* Of many moves of one assembly only the last says where it is; a walk also
 * wants to know where it was before, and a debt what was opened for it. */
static void
test_tray (Fixture *f, gconstpointer data)
{
  gint64 walks[4];
  gint64 wing = move (f, "off/wing", &walks[0]);
  gint64 off = move (f, "off/motor", &walks[1]);
  gint64 on = move (f, "on/motor", &walks[2]);
  gint64 again = move (f, "off/motor", &walks[3]);
  PinBatch *batch = pin_batch_new (f->book);
  PinOwed owed = { .vehicle = f->vehicle, .what = (char *) "mesh", .cause = off,
                   .day = (char *) "2026-01-07" };

  assert_tray (f, 0, (gint64[]){ wing, again }, 2);
  assert_tray (f, walks[3], (gint64[]){ wing, on, again }, 3);
  assert_tray (f, walks[1], (gint64[]){ wing, again }, 2);
  owed.settles = pin_batch_owed (batch, &owed);
  commit (f->book, batch);
  assert_tray (f, 0, (gint64[]){ wing, off, again }, 3);
  batch = pin_batch_new (f->book);
  pin_batch_owed (batch, &owed);
  commit (f->book, batch);
  assert_tray (f, 0, (gint64[]){ wing, again }, 2);
}

/* The newest begun first, abandoned and open ones left out. */
static void
test_signed (Fixture *f, gconstpointer data)
{
  static const char *const verdicts[] = { "signed", "abandoned", "signed", "signed", NULL };
  gint64 walks[5];
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (GPtrArray) open = NULL;

  for (int i = 0; i < 5; i++)
    {
      PinSignOff end = { .verdict = (char *) verdicts[i], .day = (char *) "2026-01-08",
                         .person = (char *) "AB" };
      PinBatch *batch = pin_batch_new (f->book);

      move (f, "off/wing", &walks[i]);
      end.inspection = walks[i];
      if (verdicts[i] != NULL)
        pin_batch_sign_off (batch, &end);
      commit (f->book, batch);
    }
  rows = pin_book_run (f->book, two_signed, &f->vehicle, NULL);
  g_assert_cmpuint (rows->len, ==, 2);
  g_assert_cmpint (((PinInspectionRow *) rows->pdata[0])->id, ==, walks[3]);
  g_assert_cmpint (((PinInspectionRow *) rows->pdata[1])->id, ==, walks[2]);
  open = ask (f->book, pin_query_open_walks, f->vehicle);
  g_assert_cmpuint (open->len, ==, 1);
  g_assert_cmpint (((PinInspectionRow *) open->pdata[0])->id, ==, walks[4]);
}

/* --- traits ----------------------------------------------------------------- */

static void
say (Fixture *f, const char *code, const char *text, const char *day)
{
  PinBatch *batch = pin_batch_new (f->book);
  PinTrait row = { .thing = f->part,
                   .code = (char *) code,
                   .text = (char *) text,
                   .day = (char *) day,
                   .value = NAN,
                   .origin = (char *) "owner" };

  pin_batch_trait (batch, &row);
  commit (f->book, batch);
}

static gpointer
traits_on (PinDb *db, gpointer data, GError **error)
{
  Fixture *f = data;

  return pin_query_traits (db, f->part, "2026-02-01", error);
}

static gpointer
traits_now (PinDb *db, gpointer data, GError **error)
{
  Fixture *f = data;

  return pin_query_traits_of_vehicle (db, f->vehicle, NULL, error);
}

static void
test_traits (Fixture *f, gconstpointer data)
{
  g_autoptr (GPtrArray) then = NULL, present = NULL;
  PinPartRow *part;

  say (f, "size", "5x10x4", "2026-01-01");
  say (f, "size", "8x16x5", "2026-01-20");
  say (f, "grease", "light", "2026-01-20");
  say (f, "size", "6x12x4", "2026-03-01");
  say (f, "size", "1x1x1", "2026-01-02"); /* told late */
  then = pin_book_run (f->book, traits_on, f, NULL);
  g_assert_cmpint (then->len, ==, 2);
  g_assert_cmpstr (((PinTrait *) then->pdata[0])->code, ==, "grease");
  g_assert_cmpstr (((PinTrait *) then->pdata[1])->text, ==, "8x16x5");
  present = pin_book_run (f->book, traits_now, f, NULL);
  g_assert_cmpint (present->len, ==, 3); /* with the name of the vehicle */
  part = the_part (f->book, f->part);
  g_assert_cmpstr (part->size, ==, "6x12x4");
  g_assert_cmpstr (part->since, ==, "2026-01-01");
  pin_part_row_free (part);
}

/* --- the shelf, packs, debts, photos ---------------------------------------- */

static gpointer
on_the_shelf (PinDb *db, gpointer data, GError **error)
{
  return pin_query_parts_off (db, error);
}

static void
test_shelf (Fixture *f, gconstpointer data)
{
  gint64 motor = add_part (f->book, "motor");
  PinBatch *batch = pin_batch_new (f->book);
  PinFitting inside = {
    .part = f->part, .shelf = (char *) "shelf", .inside = motor, .day = (char *) "2026-01-03"
  };
  PinFitting binned = { .part = add_part (f->book, "belt"),
                        .shelf = (char *) "bin",
                        .day = (char *) "2026-01-03" };
  g_autoptr (GPtrArray) rows = NULL, on = NULL;

  pin_batch_fitting (batch, &inside);
  pin_batch_fitting (batch, &binned);
  commit (f->book, batch);
  rows = pin_book_run (f->book, on_the_shelf, NULL, NULL);
  g_assert_cmpint (rows->len, ==, 2); /* what is binned is not on the shelf */
  g_assert_cmpint (((PinPartRow *) rows->pdata[0])->inside, ==, motor);
  g_assert_cmpstr (((PinPartRow *) rows->pdata[0])->shelf, ==, "shelf");
  g_assert_null (((PinPartRow *) rows->pdata[1])->shelf); /* never moved */
  on = ask (f->book, pin_query_parts_on, f->vehicle);
  g_assert_cmpint (on->len, ==, 0);
}

static gpointer
two_outings (PinDb *db, gpointer vehicle, GError **error)
{
  return pin_query_outings (db, *(gint64 *) vehicle, 2, error);
}

static void
test_outings (Fixture *f, gconstpointer data)
{
  gint64 pack = add_part (f->book, "pack");
  g_autoptr (GArray) used = g_array_new (FALSE, FALSE, sizeof (PinOutingPart));
  PinOutingPart use = { pack, 1, NAN };
  PinBatch *batch = pin_batch_new (f->book);
  PinOuting row = an_outing (f->vehicle, "2026-01-08"), *read;
  g_autoptr (GPtrArray) rows = NULL, of_pack = NULL;

  g_array_append_val (used, use);
  row.parts = used;
  row.knocks = 0;
  pin_batch_outing (batch, &row);
  commit (f->book, batch);
  drive (f->book, f->vehicle, "2026-01-02", 0, 60);
  drive (f->book, f->vehicle, "2026-01-03", 0, 60);
  rows = pin_book_run (f->book, two_outings, &f->vehicle, NULL);
  g_assert_cmpint (rows->len, ==, 2);
  read = rows->pdata[0];
  g_assert_cmpstr (read->day, ==, "2026-01-08");
  g_assert_cmpint (read->knocks, ==, 0);
  g_assert_cmpint (read->salt, ==, -1);
  g_assert_true (isnan (read->seconds));
  g_assert_cmpint (read->parts->len, ==, 1);
  g_assert_true (isnan (g_array_index (read->parts, PinOutingPart, 0).seconds));
  g_assert_cmpstr (((PinOuting *) rows->pdata[1])->day, ==, "2026-01-03");
  of_pack = ask (f->book, pin_query_outings_of_part, pack);
  g_assert_cmpint (of_pack->len, ==, 1);
}

static void
test_debts (Fixture *f, gconstpointer data)
{
  PinBatch *batch = pin_batch_new (f->book);
  PinOwed debt = { .vehicle = f->vehicle,
                   .what = (char *) "mesh",
                   .cause = f->vehicle,
                   .day = (char *) "2026-01-02" };
  g_autoptr (GPtrArray) before = NULL, after = NULL;

  debt.settles = pin_batch_owed (batch, &debt);
  commit (f->book, batch);
  before = ask (f->book, pin_query_owed, f->vehicle);
  g_assert_cmpint (before->len, ==, 1);
  batch = pin_batch_new (f->book);
  pin_batch_owed (batch, &debt);
  commit (f->book, batch);
  after = ask (f->book, pin_query_owed, f->vehicle);
  g_assert_cmpint (after->len, ==, 0);
}

static void
test_photos (Fixture *f, gconstpointer data)
{
  g_autoptr (GBytes) jpeg = g_bytes_new_static ("not really a picture", 20);
  PinPhoto row = {
    .of = f->part, .jpeg = jpeg, .caption = (char *) "shim outside", .day = (char *) "2026-01-02"
  };
  PinBatch *batch = pin_batch_new (f->book);
  g_autoptr (GPtrArray) rows = NULL;

  pin_batch_photo (batch, &row);
  row.of = f->vehicle;
  pin_batch_photo (batch, &row); /* the same picture again */
  commit (f->book, batch);
  rows = ask (f->book, pin_query_photos, f->part);
  g_assert_cmpint (rows->len, ==, 1);
  g_assert_true (g_bytes_equal (((PinPhoto *) rows->pdata[0])->jpeg, jpeg));
  g_assert_cmpstr (((PinPhoto *) rows->pdata[0])->caption, ==, "shim outside");
  assert_sound (f->book);
}

static gpointer
supplies (PinDb *db, gpointer data, GError **error)
{
  return pin_query_supplies (db, error);
}

static void
test_stock (Fixture *f, gconstpointer data)
{
  PinBatch *batch = pin_batch_new (f->book);
  PinStock row = {
    .amount = 10, .cost = 450, .currency = (char *) "EUR", .day = (char *) "2026-01-02"
  };
  g_autoptr (GPtrArray) rows = NULL;

  row.supply = pin_batch_supply (batch, 0, "bearing", "8x16x5", "bearings 8×16×5", "piece");
  pin_batch_stock (batch, &row);
  row.amount = -2;
  row.cost = -1;
  pin_batch_stock (batch, &row);
  commit (f->book, batch);
  rows = pin_book_run (f->book, supplies, NULL, NULL);
  g_assert_cmpint (rows->len, ==, 1);
  g_assert_cmpfloat (((PinSupplyRow *) rows->pdata[0])->amount, ==, 8);
}

/* --- not found, and indices -------------------------------------------------- */

static gpointer
no_vehicle (PinDb *db, gpointer data, GError **error)
{
  return pin_query_vehicle (db, 99, error);
}

static void
test_not_found (Fixture *f, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (pin_book_run (f->book, no_vehicle, NULL, &error));
  g_assert_error (error, PIN_BOOK_ERROR, PIN_BOOK_ERROR_NOT_FOUND);
}

/* Every query of one vehicle, part or walk. */
static void
ask_everything (PinDb *db, gint64 id)
{
  static GPtrArray *(*const queries[]) (PinDb *, gint64, GError **) = {
    pin_query_places,           pin_query_parts_on,
    pin_query_fittings,         pin_query_fittings_at,
    pin_query_inspections,      pin_query_answers,
    pin_query_answers_all,      pin_query_tray_answers,
    pin_query_part_answers,     pin_query_readings,
    pin_query_readings_of_walk, pin_query_works,
    pin_query_works_of,         pin_query_works_of_walk,
    pin_query_traits_of_walk,   pin_query_owed,
    pin_query_owed_all,         pin_query_findings_of_part,
    pin_query_finding_life,     pin_query_marks,
    pin_query_marks_of,         pin_query_photos,
    pin_query_outings_of_part,  pin_query_open_walks,
    pin_query_places_of_part,   pin_query_inspections_of_part,
  };
  g_autoptr (GPtrArray) rows = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (queries); i++)
    {
      g_autoptr (GPtrArray) some = queries[i](db, id, NULL);

      g_assert_nonnull (some);
    }
  rows = pin_query_traits (db, id, NULL, NULL);
  g_ptr_array_unref (rows);
  rows = pin_query_traits_of_vehicle (db, id, NULL, NULL);
  g_ptr_array_unref (rows);
  rows = pin_query_trait_history (db, id, "size", NULL);
  g_ptr_array_unref (rows);
  rows = pin_query_outings (db, id, 5, NULL);
  g_ptr_array_unref (rows);
  rows = pin_query_findings (db, id, TRUE, NULL);
  g_ptr_array_unref (rows);
  rows = pin_query_findings (db, id, FALSE, NULL);
  g_ptr_array_unref (rows);
  rows = pin_query_tray (db, id, 7, NULL);
  g_ptr_array_unref (rows);
  rows = pin_query_signed (db, id, 12, NULL);
  g_ptr_array_unref (rows);
  rows = pin_query_readings_of (db, id, "spin-down", NULL);
  g_assert_null (pin_query_open_walk (db, id, NULL));
  g_assert_null (pin_query_last_signed (db, id, NULL));
}

static void
assert_no_scan (PinDb *db, const char *sql)
{
  g_autofree char *explain = g_strconcat ("EXPLAIN QUERY PLAN ", sql, NULL);
  sqlite3_stmt *stmt;

  g_assert_cmpint (sqlite3_prepare_v2 (db->sqlite, explain, -1, &stmt, NULL), ==, SQLITE_OK);
  while (sqlite3_step (stmt) == SQLITE_ROW)
    {
      const char *line = (const char *) sqlite3_column_text (stmt, 3);

      if ((strncmp (line, "SCAN", 4) == 0 && strcmp (line, "SCAN CONSTANT ROW") != 0) ||
          strstr (line, "AUTOMATIC") != NULL)
        g_error ("“%s” in: %s", line, sql);
    }
  sqlite3_finalize (stmt);
}

static gpointer
explain_everything (PinDb *db, gpointer data, GError **error)
{
  g_autoptr (GList) texts = NULL;
  int n = 0;

  g_hash_table_remove_all (db->idle);
  ask_everything (db, 42);
  texts = g_hash_table_get_keys (db->idle);
  for (GList *l = texts; l != NULL; l = l->next)
    {
      if (strncmp (l->data, "SELECT", 6) != 0)
        continue;
      assert_no_scan (db, l->data);
      n++;
    }
  g_assert_cmpint (n, >, 25);
  return db;
}

/* No table is read from end to end for one vehicle's page. */
static void
test_indices (Fixture *f, gconstpointer data)
{
  g_assert_nonnull (pin_book_run (f->book, explain_everything, NULL, NULL));
}

#define ADD(path, test) \
  g_test_add ("/book/queries/" path, Fixture, NULL, fixture_set_up, test, fixture_tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("life-of-a-finding", test_life_of_a_finding);
  ADD ("open-findings", test_open_findings);
  ADD ("walk", test_walk);
  ADD ("answers", test_answers);
  ADD ("tray", test_tray);
  ADD ("signed", test_signed);
  ADD ("traits", test_traits);
  ADD ("shelf", test_shelf);
  ADD ("outings", test_outings);
  ADD ("debts", test_debts);
  ADD ("photos", test_photos);
  ADD ("stock", test_stock);
  ADD ("not-found", test_not_found);
  ADD ("indices", test_indices);
  return g_test_run ();
}
