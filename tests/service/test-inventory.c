#include <math.h>
#include <string.h>

#include "base/day.h"
#include "book/keeping.h"
#include "garage.h"

static void
assert_sound (Garage *garage)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) problems = pin_book_verify (garage->book, &error);

  g_assert_no_error (error);
  for (guint i = 0; i < problems->len; i++)
    g_test_message ("%s", (char *) problems->pdata[i]);
  g_assert_cmpuint (problems->len, ==, 0);
}

static gint64
part_at (const PinCar *car, const char *code)
{
  return pin_car_slot (car, code)->part;
}

/* ---- Adding ---- */

static void
test_add_new (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "  Gravel Ann ", "cart", 0);
  g_autoptr (PinCar) car = garage_car (garage, id);
  const PinSlot *bearing = pin_car_slot (car, "hub.front.left.outer");
  PinUsage usage = pin_usage_of_slot (car, bearing);

  g_assert_cmpstr (car->name, ==, "Gravel Ann");
  g_assert_cmpstr (car->chassis->id, ==, "cart");
  g_assert_cmpuint (car->slots->len, ==, 12);
  g_assert_cmpint (pin_car_slot (car, "pack")->part, ==, 0);
  g_assert_cmpstr (bearing->size, ==, "5x10x4");
  g_assert_cmpstr (pin_slot_spec (bearing, "size")->origin, ==, "default");
  g_assert_cmpfloat (pin_slot_spec (pin_car_slot (car, "diff"), "fluid")->value, ==, 0.005);
  g_assert_true (pin_car_slot (car, "motor.bearing.rear")->carrier ==
                 pin_car_slot (car, "motor"));
  g_assert_cmpfloat (pin_usage_seconds (&usage), ==, 0);
  assert_sound (garage);
}

static void
test_add_used (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 unknown = garage_add (garage, "Old Toast", "cart", NAN);
  gint64 told = garage_add (garage, "Plum", "cart", 7200);
  g_autoptr (PinCar) toast = garage_car (garage, unknown);
  g_autoptr (PinCar) plum = garage_car (garage, told);
  PinUsage of_toast = pin_usage_of_vehicle (toast->rows->vehicle);
  PinUsage of_plum = pin_usage_of_vehicle (plum->rows->vehicle);
  PinUsage of_part = pin_usage_of_slot (plum, pin_car_slot (plum, "diff"));

  g_assert_false (pin_usage_is_known (&of_toast));
  g_assert_true (isnan (pin_usage_seconds (&of_toast)));
  g_assert_cmpfloat (pin_usage_seconds (&of_plum), ==, 7200);
  g_assert_false (pin_usage_is_known (&of_part));
}

static void
refuse_vehicle (Garage *garage, const char *name, const char *chassis, const char *day, int code)
{
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (PinStable) stable = garage_stable (garage);
  g_autoptr (GPtrArray) taken = pin_stable_names (stable);
  g_autoptr (GError) error = NULL;
  PinNewVehicle what = PIN_NEW_VEHICLE_INIT;

  what.name = name;
  what.chassis = chassis;
  what.day = day;
  g_assert_cmpint (pin_inventory_add_vehicle (done, garage->library, &what, taken, &error), ==,
                   0);
  g_assert_error (error, PIN_SERVICE_ERROR, code);
  g_assert_cmpuint (strlen (error->message), >, 10);
}

static void
test_add_refuses (void)
{
  g_autoptr (Garage) garage = garage_new ();
  g_autofree char *today = pin_today ();
  g_autofree char *tomorrow = pin_day_add (today, 1);

  garage_add (garage, "Plum", "cart", 0);
  refuse_vehicle (garage, "  ", "cart", NULL, PIN_SERVICE_ERROR_NAME);
  refuse_vehicle (garage, "pLUM", "cart", NULL, PIN_SERVICE_ERROR_NAME);
  refuse_vehicle (garage, "two\nlines", "cart", NULL, PIN_SERVICE_ERROR_NAME);
  refuse_vehicle (garage, "Hare", "hovercraft", NULL, PIN_SERVICE_ERROR_UNKNOWN);
  refuse_vehicle (garage, "Hare", NULL, NULL, PIN_SERVICE_ERROR_UNKNOWN);
  refuse_vehicle (garage, "Hare", "cart", tomorrow, PIN_SERVICE_ERROR_DAY);
  refuse_vehicle (garage, "Hare", "cart", "yesterday", PIN_SERVICE_ERROR_DAY);
}

static void
test_add_undone (void)
{
  g_autoptr (Garage) garage = garage_new ();
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (PinStable) before = NULL;
  g_autoptr (PinStable) after = NULL;
  PinNewVehicle what = PIN_NEW_VEHICLE_INIT;

  what.name = "Plum";
  what.chassis = "cart";
  pin_inventory_add_vehicle (done, garage->library, &what, NULL, NULL);
  g_assert_cmpstr (pin_deed_done_text (done), ==, "Plum is in the stable");
  garage_commit (garage, done);
  before = garage_stable (garage);
  g_assert_cmpuint (before->vehicles->len, ==, 1);
  garage_undo (garage, done);
  after = garage_stable (garage);
  g_assert_cmpuint (after->vehicles->len, ==, 0);
  assert_sound (garage);
}

/* ---- Names, states, values ---- */

static void
test_rename (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinCar) car = garage_car (garage, id);
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (PinCar) renamed = NULL;
  g_autoptr (PinCar) back = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_false (pin_inventory_rename (done, car, "Plum", NULL, &error));
  g_assert_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NOTHING);
  g_clear_error (&error);
  g_assert_true (pin_inventory_rename (done, car, "Damson", NULL, &error));
  garage_commit (garage, done);
  renamed = garage_car (garage, id);
  g_assert_cmpstr (renamed->name, ==, "Damson");
  garage_undo (garage, done);
  back = garage_car (garage, id);
  g_assert_cmpstr (back->name, ==, "Plum");
}

static void
test_state (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinCar) car = garage_car (garage, id);
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (PinStable) stable = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_false (pin_inventory_set_state (done, car, "on-fire", NULL, &error));
  g_assert_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_UNKNOWN);
  g_clear_error (&error);
  g_assert_true (pin_inventory_set_state (done, car, "laid-up", NULL, &error));
  garage_commit (garage, done);
  stable = garage_stable (garage);
  g_assert_cmpstr (((PinStableVehicle *) stable->vehicles->pdata[0])->state, ==, "laid-up");
  g_assert_cmpstr (stable->sentence, ==, "No vehicle is in use.");
}

static void
test_spec_of_all_alike (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinCar) car = garage_car (garage, id);
  g_autoptr (GPtrArray) alike =
      pin_inventory_alike (car, pin_car_slot (car, "hub.front.left.outer"));
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (PinCar) after = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_cmpuint (alike->len, ==, 2); /* the inner ones are another class */
  g_assert_true (pin_inventory_set_spec (done, garage->library, car, alike, "size", " 6x10x3 ",
                                         NULL, &error));
  g_assert_no_error (error);
  garage_commit (garage, done);
  after = garage_car (garage, id);
  g_assert_cmpstr (pin_car_slot (after, "hub.front.right.outer")->size, ==, "6x10x3");
  g_assert_cmpstr (
      pin_slot_spec (pin_car_slot (after, "hub.front.right.outer"), "size")->origin, ==,
      "owner");
  g_assert_cmpstr (pin_car_slot (after, "hub.front.right.inner")->size, ==, "5x10x4");
}

static void
test_spec_checks (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinCar) car = garage_car (garage, id);
  g_autoptr (GPtrArray) diff = garage_slots (car, "diff", NULL);
  g_autoptr (GPtrArray) pack = garage_slots (car, "pack", NULL);
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (GError) error = NULL;

  g_assert_false (pin_inventory_set_spec (done, garage->library, car, diff, "fluid", "7000 mm",
                                          NULL, &error));
  g_assert_nonnull (error);
  g_clear_error (&error);
  g_assert_false (
      pin_inventory_set_spec (done, garage->library, car, diff, "hex", "12", NULL, &error));
  g_assert_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_UNKNOWN);
  g_clear_error (&error);
  g_assert_false (
      pin_inventory_set_spec (done, garage->library, car, diff, "fluid", "  ", NULL, &error));
  g_assert_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_VALUE);
  g_clear_error (&error);
  g_assert_false (
      pin_inventory_set_spec (done, garage->library, car, pack, "cells", "2", NULL, &error));
  g_assert_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NOTHING);
  g_clear_error (&error);
  g_assert_true (
      pin_inventory_set_spec (done, garage->library, car, diff, "fluid", "7000", NULL, &error));
}

/* ---- Replacing and moving ---- */

static void
test_replace (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", NAN);
  g_autoptr (PinCar) car = NULL;
  g_autoptr (PinCar) after = NULL;
  g_autoptr (PinCar) back = NULL;
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (GError) error = NULL;
  PinReplacement how = PIN_REPLACEMENT_INIT;
  PinUsage usage;
  gint64 fresh;

  garage_run (garage, id, "2020-02-01", 60);
  car = garage_car (garage, id);
  fresh = pin_inventory_replace (done, garage->library, car, pin_car_slot (car, "diff"), &how,
                                 &error);
  g_assert_no_error (error);
  garage_commit (garage, done);
  after = garage_car (garage, id);
  g_assert_cmpint (part_at (after, "diff"), ==, fresh);
  g_assert_cmpint (part_at (car, "diff"), !=, fresh);
  g_assert_null (
      pin_slot_spec (pin_car_slot (after, "diff"), "fluid")); /* nobody knows what is in it */
  usage = pin_usage_of_slot (after, pin_car_slot (after, "diff"));
  g_assert_cmpfloat (pin_usage_seconds (&usage), ==, 0);
  garage_undo (garage, done);
  back = garage_car (garage, id);
  g_assert_cmpint (part_at (back, "diff"), ==, part_at (car, "diff"));
  assert_sound (garage);
}

static void
test_replace_brings_bearings (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinCar) car = garage_car (garage, id);
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (PinCar) after = NULL;
  g_autoptr (PinPartShelf) shelf = NULL;
  PinReplacement how = PIN_REPLACEMENT_INIT;

  how.old_to = "shelf";
  g_assert_cmpint (pin_inventory_replace (done, garage->library, car,
                                          pin_car_slot (car, "motor"), &how, NULL),
                   !=, 0);
  garage_commit (garage, done);
  after = garage_car (garage, id);
  g_assert_cmpint (part_at (after, "motor.bearing.rear"), !=,
                   part_at (car, "motor.bearing.rear"));
  g_assert_cmpint (part_at (after, "motor.bearing.rear"), !=, 0);
  g_assert_cmpstr (pin_slot_spec (pin_car_slot (after, "motor"), "turns")->text, ==, "17.5");
  shelf = garage_shelf (garage);
  g_assert_cmpuint (shelf->parts->len, ==, 3);
  g_assert_cmpint (
      pin_part_shelf_part (shelf, part_at (car, "motor.bearing.rear"))->row->inside, ==,
      part_at (car, "motor"));
  g_assert_cmpstr (pin_part_shelf_part (shelf, part_at (car, "motor"))->last_code, ==, "motor");
  g_assert_cmpstr (pin_part_shelf_part (shelf, part_at (car, "motor"))->last_vehicle, ==, "Plum");
}

static void
test_from_shelf_with_what_it_carries (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 one = garage_add (garage, "Plum", "cart", 0),
         two = garage_add (garage, "Hare", "cart", 0);
  g_autoptr (PinCar) plum = garage_car (garage, one);
  g_autoptr (PinCar) hare = garage_car (garage, two);
  g_autoptr (PinDeedDone) off = garage_begin (garage);
  g_autoptr (PinDeedDone) on = garage_begin (garage);
  g_autoptr (PinPartShelf) shelf = NULL;
  g_autoptr (PinCar) after = NULL;
  g_autoptr (GError) error = NULL;
  PinReplacement how = PIN_REPLACEMENT_INIT;

  g_assert_true (
      pin_inventory_take_off (off, plum, pin_car_slot (plum, "motor"), "shelf", NULL, &error));
  garage_commit (garage, off);
  shelf = garage_shelf (garage);
  how.from_shelf = part_at (plum, "motor");
  how.shelf = shelf;
  g_assert_cmpint (pin_inventory_replace (on, garage->library, hare,
                                          pin_car_slot (hare, "motor"), &how, &error),
                   ==, part_at (plum, "motor"));
  g_assert_no_error (error);
  garage_commit (garage, on);
  after = garage_car (garage, two);
  g_assert_cmpint (part_at (after, "motor.bearing.front"), ==,
                   part_at (plum, "motor.bearing.front"));
  g_assert_cmpint (part_at (after, "motor.bearing.rear"), ==,
                   part_at (plum, "motor.bearing.rear"));
  assert_sound (garage);
}

static void
test_move (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 one = garage_add (garage, "Plum", "cart", 0),
         two = garage_add (garage, "Hare", "cart", 0);
  g_autoptr (PinCar) plum = garage_car (garage, one);
  g_autoptr (PinCar) hare = garage_car (garage, two);
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (PinCar) from = NULL;
  g_autoptr (PinCar) to = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_false (pin_inventory_move (done, plum, pin_car_slot (plum, "motor"), hare,
                                      pin_car_slot (hare, "diff"), NULL, &error));
  g_assert_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_PLACE);
  g_clear_error (&error);
  g_assert_true (pin_inventory_move (done, plum, pin_car_slot (plum, "motor"), hare,
                                     pin_car_slot (hare, "motor"), NULL, &error));
  garage_commit (garage, done);
  from = garage_car (garage, one);
  to = garage_car (garage, two);
  g_assert_cmpint (part_at (from, "motor"), ==, 0);
  g_assert_cmpint (part_at (from, "motor.bearing.front"), ==, 0);
  g_assert_cmpint (part_at (to, "motor"), ==, part_at (plum, "motor"));
  g_assert_cmpint (part_at (to, "motor.bearing.rear"), ==, part_at (plum, "motor.bearing.rear"));
  assert_sound (garage);
}

static void
test_off_before_on (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinCar) car = garage_car (garage, id);
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (GError) error = NULL;

  g_assert_false (pin_inventory_take_off (done, car, pin_car_slot (car, "diff"), "shelf",
                                          "2019-12-31", &error));
  g_assert_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_DAY);
  g_clear_error (&error);
  g_assert_false (
      pin_inventory_take_off (done, car, pin_car_slot (car, "diff"), "attic", NULL, &error));
  g_assert_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_UNKNOWN);
  g_clear_error (&error);
  g_assert_false (
      pin_inventory_take_off (done, car, pin_car_slot (car, "pack"), "shelf", NULL, &error));
  g_assert_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NOTHING);
}

/* ---- Work ---- */

static const char *const found_dry[] = {
  "look/coast\t2.4, 2.5, 2.3 s", "look/screws@fasteners.nuts\t4/4", "off/wheels\tdone",
  "look/grade@hub.front.left.outer\tnotchy", "look/grade@hub.front.right.outer\tfree",
  "look/grade@hub.front.left.inner\tfree", "look/grade@hub.front.right.inner\tfree",
  "on/wheels\tdone", "look/nuts!left\tdone", "look/horn\tpass", NULL };

static void
test_work (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinCar) car = NULL;
  g_autoptr (PinCar) after = NULL;
  g_autoptr (GPtrArray) slots = NULL;
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (GError) error = NULL;
  const char *deeds[] = { "oiled", NULL };
  PinWorkDone work = PIN_WORK_DONE_INIT;

  work.deeds = deeds;
  garage_walk (garage, id, found_dry, TRUE);
  car = garage_car (garage, id);
  slots = garage_slots (car, "hub.front.left.outer", "hub.front.right.outer", NULL);
  g_assert_cmpuint (car->rows->findings->len, ==, 1);
  g_assert_true (pin_inventory_work (done, garage->library, car, slots, &work, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (pin_deed_done_text (done), ==, "Oiled: front left hub, outer, and 1 more");
  garage_commit (garage, done);
  after = garage_car (garage, id);
  g_assert_cmpuint (after->rows->findings->len, ==, 1);
  g_assert_true (((PinFindingRow *) after->rows->findings->pdata[0])->worked);
  assert_sound (garage);
}

static void
test_work_replaces (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinCar) car = NULL;
  g_autoptr (PinCar) after = NULL;
  g_autoptr (PinCar) back = NULL;
  g_autoptr (GPtrArray) slots = NULL;
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  const char *deeds[] = { "replaced", NULL };
  PinWorkDone work = PIN_WORK_DONE_INIT;

  work.deeds = deeds;
  garage_walk (garage, id, found_dry, TRUE);
  car = garage_car (garage, id);
  slots = garage_slots (car, "hub.front.left.outer", NULL);
  g_assert_true (pin_inventory_work (done, garage->library, car, slots, &work, NULL));
  garage_commit (garage, done);
  after = garage_car (garage, id);
  g_assert_cmpint (part_at (after, "hub.front.left.outer"), !=,
                   part_at (car, "hub.front.left.outer"));
  g_assert_cmpstr (pin_car_slot (after, "hub.front.left.outer")->size, ==, "5x10x4");
  g_assert_cmpuint (after->rows->findings->len, ==, 0);
  garage_undo (garage, done);
  back = garage_car (garage, id);
  g_assert_cmpuint (back->rows->findings->len, ==, 1);
  assert_sound (garage);
}

static void
test_work_checks (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinCar) car = garage_car (garage, id);
  g_autoptr (GPtrArray) mixed = garage_slots (car, "diff", "motor", NULL);
  g_autoptr (GPtrArray) both = pin_inventory_deeds (garage->library, mixed);
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (GError) error = NULL;
  const char *wrong[] = { "filled", NULL }, *unknown[] = { "polished", NULL }, *none[] = { NULL };
  PinWorkDone work = PIN_WORK_DONE_INIT;

  g_assert_cmpuint (both->len, ==, 1);
  g_assert_cmpstr (((PinDeed *) both->pdata[0])->id, ==, "replaced");
  work.deeds = wrong;
  g_assert_false (pin_inventory_work (done, garage->library, car, mixed, &work, &error));
  g_assert_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_PLACE);
  g_clear_error (&error);
  work.deeds = unknown;
  g_assert_false (pin_inventory_work (done, garage->library, car, mixed, &work, &error));
  g_assert_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_UNKNOWN);
  g_clear_error (&error);
  work.deeds = none;
  g_assert_false (pin_inventory_work (done, garage->library, car, mixed, &work, &error));
  g_assert_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NOTHING);
}

static void
test_back_fill (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", NAN);
  g_autoptr (PinCar) car = garage_car (garage, id);
  g_autoptr (GPtrArray) slots = garage_slots (car, "diff", NULL);
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (PinVehicleView) view = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_false (pin_inventory_back_fill (done, garage->library, car, slots, "filled",
                                           "surely", "2019-05-01", NULL, &error));
  g_assert_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_VALUE);
  g_clear_error (&error);
  g_assert_true (pin_inventory_back_fill (done, garage->library, car, slots, "filled", "guess",
                                          "2019-05-01", NULL, &error));
  garage_commit (garage, done);
  view = garage_view (garage, id);
  g_assert_cmpstr (pin_vehicle_view_part (view, pin_car_slot (car, "diff")->place)->last_work,
                   ==, "Filled 1 May 2019, from memory");
}

/* ---- Findings and debts by hand ---- */

static void
test_accept_and_close (void)
{
  static const char *const dry[] = { "look/coast\t1.4, 1.5, 1.3 s\toutcome=watch",
                                     "look/screws@fasteners.nuts\t4/4",
                                     "off/wheels\tdone",
                                     "look/grade@hub.front.left.outer\tnotchy",
                                     "look/grade@hub.front.right.outer\tfree",
                                     "look/grade@hub.front.left.inner\tfree",
                                     "look/grade@hub.front.right.inner\tfree",
                                     "on/wheels\tdone",
                                     "look/nuts!left\tdone",
                                     "look/horn\tpass",
                                     NULL };
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinCar) car = NULL;
  g_autoptr (PinCar) after = NULL;
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (GError) error = NULL;

  garage_walk (garage, id, dry, TRUE);
  car = garage_car (garage, id);
  g_assert_cmpuint (car->rows->findings->len, ==, 2);
  for (guint i = 0; i < 2; i++)
    {
      const PinFindingRow *finding = car->rows->findings->pdata[i];
      gboolean watch = finding->gravity == PIN_GRAVITY_WATCH;

      g_assert_cmpint (pin_inventory_accept (done, car, finding, NULL, &error), ==, watch);
      g_assert_cmpint (error != NULL, ==, !watch);
      g_clear_error (&error);
      if (!watch)
        g_assert_true (pin_inventory_close (done, car, finding, NULL, &error));
    }
  garage_commit (garage, done);
  after = garage_car (garage, id);
  g_assert_cmpuint (after->rows->findings->len, ==, 1);
  g_assert_true (((PinFindingRow *) after->rows->findings->pdata[0])->accepted);
  assert_sound (garage);
}

static void
owe (Garage *garage, gint64 vehicle, const char *what, const char *day, gint64 ready_at)
{
  g_autoptr (PinDeedDone) done = garage_begin (garage);

  pin_deed_done_owed (done, &(PinOwed){ .vehicle = vehicle,
                                        .what = (char *) what,
                                        .day = (char *) day,
                                        .ready_at = ready_at,
                                        .cause = vehicle });
  garage_commit (garage, done);
}

static gboolean
settle (Garage *garage, gint64 vehicle, const char *what)
{
  g_autoptr (PinCar) car = garage_car (garage, vehicle);
  g_autoptr (PinDeedDone) done = garage_begin (garage);

  for (guint i = 0; i < car->rows->owed->len; i++)
    {
      const PinOwed *owed = car->rows->owed->pdata[i];

      if (g_str_equal (owed->what, what))
        {
          if (!pin_inventory_settle (done, garage->library, car, owed, NULL))
            return FALSE;
          garage_commit (garage, done);
          return TRUE;
        }
    }
  g_assert_not_reached ();
}

static void
test_settle (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinCar) car = NULL;

  owe (garage, id, "wheel-nuts", "2020-03-01", 0);
  owe (garage, id, "cure", "2020-03-01", pin_now () + 3600000);
  owe (garage, id, "shakedown", "2020-03-01", 0);
  owe (garage, id, "job:after-wet", "2020-03-01", 0);
  owe (garage, id, "uncap", "2020-03-01", 0);
  g_assert_false (settle (garage, id, "wheel-nuts"));
  g_assert_false (settle (garage, id, "cure"));
  g_assert_false (settle (garage, id, "shakedown"));
  g_assert_false (settle (garage, id, "job:after-wet"));
  garage_run (garage, id, "2020-03-02", 10); /* the caps are off with it */
  g_assert_true (settle (garage, id, "shakedown"));
  car = garage_car (garage, id);
  g_assert_cmpuint (car->rows->owed->len, ==, 3);
  assert_sound (garage);
}

static void
test_outing (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinCar) car = garage_car (garage, id);
  g_autoptr (PinCar) wet = NULL;
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (GError) error = NULL;
  PinOuting row = { .day = (char *) "2020-03-01",
                    .seconds = 600,
                    .runs = 1,
                    .litres = NAN,
                    .salt = -1,
                    .knocks = -1,
                    .ambient = NAN,
                    .water = (char *) "moist" };

  g_assert_false (pin_inventory_outing (done, garage->library, car, &row, &error));
  g_assert_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_VALUE);
  g_clear_error (&error);
  row.water = (char *) "soaked";
  g_assert_true (pin_inventory_outing (done, garage->library, car, &row, &error));
  garage_commit (garage, done);
  wet = garage_car (garage, id);
  g_assert_cmpfloat (wet->rows->vehicle->seconds, ==, 600);
  g_assert_cmpuint (wet->rows->owed->len, ==, 1);
  g_assert_cmpstr (((PinOwed *) wet->rows->owed->pdata[0])->what, ==, "job:after-wet");
  garage_undo (garage, done);
  assert_sound (garage);
}

/* ---- Positions that the type has learned since ---- */

/* A car from the days when a cart had a diff and one wheel. */
static gint64
add_old_cart (Garage *garage)
{
  static const char text[] = "<chassis xmlns='urn:hingepin:chassis:1' id='cart'/>";
  g_autoptr (PinBatch) batch = pin_batch_new (garage->book);
  g_autoptr (GBytes) xml = g_bytes_new_static (text, strlen (text));
  g_autofree char *sha = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, xml);
  g_autoptr (GError) error = NULL;
  gint64 id;

  pin_batch_source (batch, "chassis", "cart", sha, xml);
  id = pin_batch_vehicle (batch, 0, sha);
  pin_batch_trait (batch, &(PinTrait) { .thing = id, .code = (char *) "name",
                                        .day = (char *) "2026-01-02", .value = NAN,
                                        .text = (char *) "Plum", .origin = (char *) "owner" });
  pin_batch_place (batch, 0, id, "diff", "diff", 0);
  pin_batch_place (batch, 0, id, "wheel.front.left", "wheel", 0);
  pin_book_commit (garage->book, batch, &error);
  g_assert_no_error (error);
  return id;
}

static const PinPosition *
position_in (const GPtrArray *positions, const char *code)
{
  for (guint i = 0; i < positions->len; i++)
    if (g_str_equal (((PinPosition *) positions->pdata[i])->id, code))
      return positions->pdata[i];
  return NULL;
}

/* A bearing of the motor comes with the motor that it sits in. */
static void
test_positions_with_carrier (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = add_old_cart (garage);
  g_autoptr (PinCar) before = garage_car (garage, id);
  g_autoptr (GPtrArray) missing = pin_inventory_missing_positions (before), one = NULL,
                        left = NULL;
  g_autoptr (PinCar) after = NULL;
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  const PinSlot *bearing;

  g_assert_cmpuint (missing->len, ==, 10);
  g_assert_null (position_in (missing, "diff"));
  one = g_ptr_array_new ();
  g_ptr_array_add (one, (gpointer) position_in (missing, "motor.bearing.front"));
  g_assert_true (
      pin_inventory_add_positions (done, garage->library, before, one, "2026-02-03", NULL));
  garage_commit (garage, done);
  after = garage_car (garage, id);
  left = pin_inventory_missing_positions (after);
  g_assert_cmpuint (left->len, ==, 8);
  bearing = pin_car_slot (after, "motor.bearing.front");
  g_assert_true (bearing->carrier == pin_car_slot (after, "motor"));
  g_assert_cmpint (bearing->carrier->part, !=, 0);
  g_assert_cmpstr (bearing->size, ==, "3.17x9.5x4");
  g_assert_cmpstr (bearing->row->since, ==, "2026-02-03");
  assert_sound (garage);
}

static void
test_positions_all (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = add_old_cart (garage);
  g_autoptr (PinCar) before = garage_car (garage, id);
  g_autoptr (GPtrArray) missing = pin_inventory_missing_positions (before), left = NULL;
  g_autoptr (PinCar) after = NULL;
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (GError) error = NULL;
  PinUsage usage;

  g_assert_true (
      pin_inventory_add_positions (done, garage->library, before, missing, NULL, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (pin_deed_done_text (done), ==, "Plum: 10 positions added");
  garage_commit (garage, done);
  after = garage_car (garage, id);
  left = pin_inventory_missing_positions (after);
  g_assert_cmpuint (left->len, ==, 0);
  g_assert_cmpuint (after->slots->len, ==, 12);
  g_assert_cmpint (pin_car_slot (after, "pack")->part, ==, 0);
  g_assert_cmpint (pin_car_slot (after, "fasteners.nuts")->part, !=, 0);
  usage = pin_usage_of_slot (after, pin_car_slot (after, "motor"));
  g_assert_false (pin_usage_is_known (&usage));
  assert_sound (garage);
}

/* Nothing to add, and what was added in the meantime. */
static void
test_positions_refused (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinCar) car = garage_car (garage, id);
  g_autoptr (GPtrArray) missing = pin_inventory_missing_positions (car);
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (GError) error = NULL;

  g_assert_cmpuint (missing->len, ==, 0);
  g_assert_false (
      pin_inventory_add_positions (done, garage->library, car, missing, NULL, &error));
  g_assert_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NOTHING);
  g_clear_error (&error);
  g_ptr_array_add (missing, (gpointer) pin_chassis_position (car->chassis, "diff"));
  g_assert_false (
      pin_inventory_add_positions (done, garage->library, car, missing, NULL, &error));
  g_assert_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_PLACE);
  g_assert_true (pin_batch_is_empty (pin_deed_done_batch (done)));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/inventory/add/new", test_add_new);
  g_test_add_func ("/inventory/add/used", test_add_used);
  g_test_add_func ("/inventory/add/refuses", test_add_refuses);
  g_test_add_func ("/inventory/add/undone", test_add_undone);
  g_test_add_func ("/inventory/rename", test_rename);
  g_test_add_func ("/inventory/state", test_state);
  g_test_add_func ("/inventory/spec/all-alike", test_spec_of_all_alike);
  g_test_add_func ("/inventory/spec/checks", test_spec_checks);
  g_test_add_func ("/inventory/replace", test_replace);
  g_test_add_func ("/inventory/replace/brings-bearings", test_replace_brings_bearings);
  g_test_add_func ("/inventory/replace/from-shelf", test_from_shelf_with_what_it_carries);
  g_test_add_func ("/inventory/move", test_move);
  g_test_add_func ("/inventory/take-off", test_off_before_on);
  g_test_add_func ("/inventory/work", test_work);
  g_test_add_func ("/inventory/work/replaces", test_work_replaces);
  g_test_add_func ("/inventory/work/checks", test_work_checks);
  g_test_add_func ("/inventory/back-fill", test_back_fill);
  g_test_add_func ("/inventory/accept-and-close", test_accept_and_close);
  g_test_add_func ("/inventory/settle", test_settle);
  g_test_add_func ("/inventory/outing", test_outing);
  g_test_add_func ("/inventory/positions/with-carrier", test_positions_with_carrier);
  g_test_add_func ("/inventory/positions/all", test_positions_all);
  g_test_add_func ("/inventory/positions/refused", test_positions_refused);
  return g_test_run ();
}
