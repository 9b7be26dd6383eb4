#include "fixture.h"

#include <math.h>

/* What counts for whom: the clocks of vehicles and parts. */

#define NOON(day) (G_GINT64_CONSTANT (1767225600000) + ((gint64) (day) - 1) * 86400000 + 43200000)
#define HOUR 3600000

static void
assert_part (Fixture *f, gint64 part, double seconds, double outings)
{
  PinPartRow *row = the_part (f->book, part);

  g_assert_cmpfloat (row->seconds, ==, seconds);
  g_assert_cmpfloat (row->outings, ==, outings);
  pin_part_row_free (row);
  assert_sound (f->book);
}

static double
mark_seconds (Fixture *f, gint64 thing, const char *deed)
{
  g_autoptr (GPtrArray) marks = ask (f->book, pin_query_marks_of, thing);

  for (guint i = 0; i < marks->len; i++)
    {
      PinMarkRow *row = g_ptr_array_index (marks, i);

      if (g_str_equal (row->deed, deed))
        return row->seconds;
    }
  return NAN;
}

static void
test_follows_the_vehicle (Fixture *f, gconstpointer data)
{
  drive (f->book, f->vehicle, "2026-01-02", 0, 600);
  drive (f->book, f->vehicle, "2026-01-02", 0, 300);
  drive (f->book, f->vehicle, "2026-01-03", 0, NAN);
  assert_part (f, f->part, 900, 2);
}

static void
test_stops_on_the_shelf (Fixture *f, gconstpointer data)
{
  drive (f->book, f->vehicle, "2026-01-02", 0, 600);
  shelve (f->book, f->part, "2026-01-03", 0);
  drive (f->book, f->vehicle, "2026-01-04", 0, 100);
  assert_part (f, f->part, 600, 1);
  fit (f->book, f->part, f->place, "2026-01-05", 0);
  drive (f->book, f->vehicle, "2026-01-06", 0, 50);
  assert_part (f, f->part, 650, 2);
}

static void
test_moves_between_vehicles (Fixture *f, gconstpointer data)
{
  gint64 other = add_vehicle (f->book, "Red truck");
  gint64 place = add_place (f->book, other, "hub.rear.left");

  drive (f->book, other, "2026-01-02", 0, 1000);
  drive (f->book, f->vehicle, "2026-01-02", 0, 10);
  fit (f->book, f->part, place, "2026-01-03", 0);
  drive (f->book, other, "2026-01-03", 0, 7);
  drive (f->book, f->vehicle, "2026-01-04", 0, 99);
  assert_part (f, f->part, 17, 2);
}

/* One day, two vehicles: one day of use. */
static void
test_one_day_on_two_vehicles (Fixture *f, gconstpointer data)
{
  gint64 other = add_vehicle (f->book, "Red truck");
  gint64 place = add_place (f->book, other, "hub.rear.left");

  drive (f->book, f->vehicle, "2026-01-05", NOON (5) - HOUR, 10);
  fit (f->book, f->part, place, "2026-01-05", NOON (5));
  drive (f->book, other, "2026-01-05", NOON (5) + HOUR, 5);
  assert_part (f, f->part, 15, 1);
  drive (f->book, other, "2026-01-06", 0, 1);
  assert_part (f, f->part, 16, 2);
}

/* Swapped at noon: both bearings had that day. */
static void
test_swapped_at_noon (Fixture *f, gconstpointer data)
{
  gint64 fresh = add_part (f->book, "bearing");

  drive (f->book, f->vehicle, "2026-01-05", NOON (5) - HOUR, 10);
  shelve (f->book, f->part, "2026-01-05", NOON (5));
  fit (f->book, fresh, f->place, "2026-01-05", NOON (5));
  drive (f->book, f->vehicle, "2026-01-05", NOON (5) + HOUR, 5);
  assert_part (f, f->part, 10, 1);
  assert_part (f, fresh, 5, 1);
}

/* Without times: fittings, then outings, then work. */
static void
test_order_of_a_day (Fixture *f, gconstpointer data)
{
  gint64 fresh = add_part (f->book, "bearing");

  drive (f->book, f->vehicle, "2026-01-05", 0, 10);
  do_work (f->book, f->part, "oiled", "2026-01-05", 0);
  g_assert_cmpfloat (mark_seconds (f, f->part, "oiled"), ==, 10);
  shelve (f->book, f->part, "2026-01-05", 0);
  fit (f->book, fresh, f->place, "2026-01-05", 0);
  assert_part (f, f->part, 0, 0);
  assert_part (f, fresh, 10, 1);
  g_assert_cmpfloat (mark_seconds (f, f->part, "oiled"), ==, 0);
}

static void
test_work_between_outings (Fixture *f, gconstpointer data)
{
  drive (f->book, f->vehicle, "2026-01-05", NOON (5) - HOUR, 10);
  drive (f->book, f->vehicle, "2026-01-05", NOON (5) + HOUR, 20);
  do_work (f->book, f->part, "oiled", "2026-01-05", NOON (5));
  g_assert_cmpfloat (mark_seconds (f, f->part, "oiled"), ==, 10);
  do_work (f->book, f->part, "oiled", "2026-01-04", 0); /* told late, done earlier */
  g_assert_cmpfloat (mark_seconds (f, f->part, "oiled"), ==, 10);
  assert_part (f, f->part, 30, 1);
}

static void
test_backdated (Fixture *f, gconstpointer data)
{
  do_work (f->book, f->part, "oiled", "2026-02-01", 0);
  do_work (f->book, f->vehicle, "washed", "2026-02-01", 0);
  shelve (f->book, f->part, "2026-03-01", 0);
  drive (f->book, f->vehicle, "2026-01-20", 0, 100);
  g_assert_cmpfloat (mark_seconds (f, f->part, "oiled"), ==, 100);
  g_assert_cmpfloat (mark_seconds (f, f->vehicle, "washed"), ==, 100);
  assert_part (f, f->part, 100, 1);
}

static void
test_corrected_outing (Fixture *f, gconstpointer data)
{
  gint64 other = add_vehicle (f->book, "Red truck");
  gint64 wrong = drive (f->book, f->vehicle, "2026-01-05", 0, 500);
  PinBatch *batch = pin_batch_new (f->book);
  PinOuting right = an_outing (other, "2026-01-06");
  PinVehicleRow *row;

  right.seconds = 50;
  right.replaces = wrong;
  pin_batch_outing (batch, &right);
  commit (f->book, batch);
  assert_part (f, f->part, 0, 0);
  row = the_vehicle (f->book, other);
  g_assert_cmpfloat (row->seconds, ==, 50);
  g_assert_cmpstr (row->last_day, ==, "2026-01-06");
  pin_vehicle_row_free (row);
  row = the_vehicle (f->book, f->vehicle);
  g_assert_cmpfloat (row->outings, ==, 0);
  g_assert_null (row->last_day);
  pin_vehicle_row_free (row);
}

/* Packs are named by outings, not fitted; on any vehicle. */
static void
test_pack (Fixture *f, gconstpointer data)
{
  gint64 other = add_vehicle (f->book, "Red truck"), pack = add_part (f->book, "pack");
  g_autoptr (GArray) used = g_array_new (FALSE, FALSE, sizeof (PinOutingPart));
  PinOutingPart use = { pack, 2, 900 };
  PinBatch *batch = pin_batch_new (f->book);
  PinOuting row = an_outing (f->vehicle, "2026-01-05");
  gint64 first;

  g_array_append_val (used, use);
  row.parts = used;
  first = pin_batch_outing (batch, &row);
  row.vehicle = other;
  pin_batch_outing (batch, &row);
  commit (f->book, batch);
  assert_part (f, pack, 1800, 1);

  batch = pin_batch_new (f->book);
  row = an_outing (f->vehicle, "2026-01-05");
  row.replaces = first;
  row.is_void = TRUE;
  pin_batch_outing (batch, &row);
  commit (f->book, batch);
  assert_part (f, pack, 900, 1);
}

/* A set that is fitted and named by the outing as well counts once. */
static void
test_fitted_and_named (Fixture *f, gconstpointer data)
{
  g_autoptr (GArray) used = g_array_new (FALSE, FALSE, sizeof (PinOutingPart));
  PinOutingPart use = { f->part, 1, 600 };
  PinBatch *batch = pin_batch_new (f->book);
  PinOuting row = an_outing (f->vehicle, "2026-01-05");

  g_array_append_val (used, use);
  row.seconds = 600;
  row.parts = used;
  pin_batch_outing (batch, &row);
  commit (f->book, batch);
  assert_part (f, f->part, 600, 1);
}

static gint64
walk (Fixture *f, const char *step, PinOutcome outcome, gint64 *answer)
{
  PinBatch *batch = pin_batch_new (f->book);
  PinInspection begun = { .vehicle = f->vehicle, .plan = (char *) "{}", .lang = (char *) "en",
                          .day = (char *) "2026-01-10" };
  PinAnswer row = { .step = (char *) step, .part = f->part, .place = f->place, .outcome = outcome,
                    .detail = (char *) "no time" };

  row.inspection = pin_batch_inspection (batch, &begun);
  *answer = pin_batch_answer (batch, &row);
  commit (f->book, batch);
  return row.inspection;
}

static void
sign (Fixture *f, gint64 inspection, const char *verdict)
{
  PinBatch *batch = pin_batch_new (f->book);
  PinSignOff row = { .inspection = inspection,
                     .verdict = (char *) verdict,
                     .day = (char *) "2026-01-10",
                     .person = (char *) "AB" };

  pin_batch_sign_off (batch, &row);
  commit (f->book, batch);
}

static void
test_procedure_marks (Fixture *f, gconstpointer data)
{
  gint64 answer, inspection, other;

  drive (f->book, f->vehicle, "2026-01-05", 0, 600);
  inspection = walk (f, "bearings/grade", PIN_OUTCOME_PASS, &answer);
  g_assert_true (isnan (mark_seconds (f, f->part, "procedure:bearings")));
  sign (f, inspection, "signed");
  g_assert_cmpfloat (mark_seconds (f, f->part, "procedure:bearings"), ==, 600);
  g_assert_cmpfloat (mark_seconds (f, f->vehicle, "procedure:bearings"), ==, 600);

  sign (f, walk (f, "belts/look", PIN_OUTCOME_NOT_CHECKED, &other), "signed");
  g_assert_true (isnan (mark_seconds (f, f->part, "procedure:belts")));
  sign (f, walk (f, "wheels/look", PIN_OUTCOME_PASS, &other), "abandoned");
  g_assert_true (isnan (mark_seconds (f, f->part, "procedure:wheels")));
  sign (f, walk (f, "off/hubs", PIN_OUTCOME_DONE, &other), "signed");
  g_assert_true (isnan (mark_seconds (f, f->part, "procedure:off")));
  assert_sound (f->book);
}

/* An answer withdrawn after the sign-off takes its mark with it. */
static void
test_withdrawn_answer (Fixture *f, gconstpointer data)
{
  gint64 answer, inspection = walk (f, "bearings/grade", PIN_OUTCOME_PASS, &answer);
  PinBatch *batch = pin_batch_new (f->book);
  PinAnswer gone = { .inspection = inspection, .step = (char *) "bearings/grade", .part = f->part,
                     .outcome = PIN_OUTCOME_PASS, .replaces = answer, .is_void = TRUE };

  sign (f, inspection, "signed");
  pin_batch_answer (batch, &gone);
  commit (f->book, batch);
  g_assert_true (isnan (mark_seconds (f, f->part, "procedure:bearings")));
  g_assert_true (isnan (mark_seconds (f, f->vehicle, "procedure:bearings")));
  assert_sound (f->book);
}

#define ADD(path, test) \
  g_test_add ("/book/clocks/" path, Fixture, NULL, fixture_set_up, test, fixture_tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("follows-the-vehicle", test_follows_the_vehicle);
  ADD ("stops-on-the-shelf", test_stops_on_the_shelf);
  ADD ("moves-between-vehicles", test_moves_between_vehicles);
  ADD ("one-day-on-two-vehicles", test_one_day_on_two_vehicles);
  ADD ("swapped-at-noon", test_swapped_at_noon);
  ADD ("order-of-a-day", test_order_of_a_day);
  ADD ("work-between-outings", test_work_between_outings);
  ADD ("backdated", test_backdated);
  ADD ("corrected-outing", test_corrected_outing);
  ADD ("pack", test_pack);
  ADD ("fitted-and-named", test_fitted_and_named);
  ADD ("procedure-marks", test_procedure_marks);
  ADD ("withdrawn-answer", test_withdrawn_answer);
  return g_test_run ();
}
