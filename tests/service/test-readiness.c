#include <math.h>
#include <string.h>

#include "base/day.h"
#include "garage.h"

#define SOUND "look/coast\t2.4, 2.5, 2.3 s", "look/screws@fasteners.nuts\t4/4", "off/wheels\tdone"
#define TOGETHER "on/wheels\tdone", "look/nuts!left\tdone", "look/horn\tpass", NULL

static const char *const sound[] = { SOUND,
  "look/grade@hub.front.left.outer\tfree", "look/grade@hub.front.right.outer\tfree",
  "look/grade@hub.front.left.inner\tfree", "look/grade@hub.front.right.inner\tfree", TOGETHER };
static const char *const dry[] = { SOUND,
                                   "look/grade@hub.front.left.outer\tdry",
                                   "look/grade@hub.front.right.outer\tfree",
                                   "look/grade@hub.front.left.inner\tfree",
                                   "look/grade@hub.front.right.inner\tfree",
                                   "look/oil-it@hub.front.left.outer\tdone",
                                   "look/grade@hub.front.left.outer!left\tnotchy",
                                   TOGETHER };
static const char *const seized[] = { SOUND,
  "look/grade@hub.front.left.outer\tseized", NULL };
static const char *const unlooked[] = {
  "look/coast\tnot-checked\treason=no time",
  "look/screws@fasteners.nuts\tnot-checked\treason=no time",
  "off/wheels\tdone",
  "look/grade@hub.front.left.outer\tfree",
  "look/grade@hub.front.right.outer\tfree",
  "look/grade@hub.front.left.inner\tnot-checked\treason=no time",
  "look/grade@hub.front.right.inner\tnot-checked\treason=no time",
  "on/wheels\tdone",
  "look/nuts!left\tdone",
  "look/horn\tnot-checked\treason=no light",
  NULL
};

static PinStableVehicle *
first (PinStable *stable)
{
  return stable->vehicles->pdata[0];
}

static void
assert_level (Garage *garage, PinLevel level, const char *text)
{
  g_autoptr (PinStable) stable = garage_stable (garage);
  PinReadiness *readiness = first (stable)->readiness;

  g_assert_cmpstr (pin_level_word (readiness->level), ==, pin_level_word (level));
  g_assert_cmpstr (pin_readiness_text (readiness), ==, text);
}

static void
owe (Garage *garage, gint64 vehicle, const char *what, gint64 ready_at)
{
  g_autoptr (PinDeedDone) done = garage_begin (garage);

  pin_deed_done_owed (done, &(PinOwed) { .vehicle = vehicle, .what = (char *) what,
                                         .day = (char *) "2020-03-01", .ready_at = ready_at,
                                         .cause = vehicle });
  garage_commit (garage, done);
}

static void
test_never_inspected (void)
{
  g_autoptr (Garage) garage = garage_new ();

  garage_add (garage, "Plum", "cart", 0);
  assert_level (garage, PIN_LEVEL_NOT_KNOWN, "Never inspected.");
}

static void
test_ready (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autofree char *today = pin_today (), *shown = pin_day_short (today);
  g_autofree char *text = g_strdup_printf ("Nothing owed, nothing open. Inspected %s.", shown);

  garage_walk (garage, id, sound, TRUE);
  assert_level (garage, PIN_LEVEL_READY, text);
}

static void
test_fail (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);

  garage_walk (garage, id, dry, TRUE);
  assert_level (garage, PIN_LEVEL_NOT_READY, "Front left hub, outer: steps.");
}

static void
test_unsafe_at_once (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);

  garage_walk (garage, id, seized, FALSE);
  assert_level (garage, PIN_LEVEL_UNSAFE, "Front left hub, outer: stuck.");
}

/* What is not on the car does not ground it. */
static void
test_part_gone (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinCar) car = NULL;
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (PinStable) stable = NULL;

  garage_walk (garage, id, dry, TRUE);
  car = garage_car (garage, id);
  g_assert_true (pin_inventory_take_off (done, car, pin_car_slot (car, "hub.front.left.outer"),
                                         "shelf", NULL, NULL));
  garage_commit (garage, done);
  stable = garage_stable (garage);
  g_assert_cmpint (first (stable)->readiness->level, ==, PIN_LEVEL_READY);
}

static void
test_not_checked (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autofree char *today = pin_today (), *shown = pin_day_short (today);
  g_autofree char *text =
      g_strdup_printf ("Of the last inspection, %s, 5 of 7 were not checked.", shown);

  garage_walk (garage, id, unlooked, TRUE);
  assert_level (garage, PIN_LEVEL_NOT_KNOWN, text);
}

static void
test_owed (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinStable) fine = NULL;

  garage_walk (garage, id, sound, TRUE);
  owe (garage, id, "uncap", 0);
  owe (garage, id, "cure", pin_now () - 1000);
  fine = garage_stable (garage);
  g_assert_cmpint (first (fine)->readiness->level, ==, PIN_LEVEL_READY);
  owe (garage, id, "shakedown", 0);
  assert_level (garage, PIN_LEVEL_NOT_READY,
                "Owed: check it again after two minutes of running.");
  owe (garage, id, "wheel-nuts", 0);
  assert_level (garage, PIN_LEVEL_NOT_READY,
                "2 owed: check it again after two minutes of running; tighten the wheel nuts.");
}

static void
test_cure_until (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  gint64 until = pin_now () + 3600000;
  g_autofree char *when = pin_instant_text (until);
  g_autofree char *text = g_strdup_printf ("Owed: let the threadlock cure, until %s.", when);

  garage_walk (garage, id, sound, TRUE);
  owe (garage, id, "cure", until);
  assert_level (garage, PIN_LEVEL_NOT_READY, text);
}

static void
test_half_way (void)
{
  static const char *const begun[] = { SOUND, NULL };
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  gint64 walk = garage_walk (garage, id, begun, FALSE);
  g_autoptr (PinStable) stable = garage_stable (garage);

  assert_level (garage, PIN_LEVEL_NOT_READY, "Off the car: wheels.");
  g_assert_cmpint (first (stable)->open_walk, ==, walk);
  g_assert_cmpstr (first (stable)->open_walk_title, ==, "Look it over");
  g_assert_null (first (stable)->inspected);
}

static void
test_watch_and_accepted (void)
{
  static const char *const slow[] = { "look/coast\t1.4, 1.5, 1.3 s\toutcome=watch",
                                      "look/screws@fasteners.nuts\t4/4",
                                      "off/wheels\tdone",
                                      "look/grade@hub.front.left.outer\tfree",
                                      "look/grade@hub.front.right.outer\tfree",
                                      "look/grade@hub.front.left.inner\tfree",
                                      "look/grade@hub.front.right.inner\tfree",
                                      TOGETHER };
  g_autoptr (Garage) garage = garage_new ();
  gint64 id = garage_add (garage, "Plum", "cart", 0);
  g_autoptr (PinCar) car = NULL;
  g_autoptr (PinDeedDone) done = garage_begin (garage);
  g_autoptr (PinStable) stable = NULL;

  garage_walk (garage, id, slow, TRUE);
  stable = garage_stable (garage);
  g_assert_cmpint (first (stable)->readiness->level, ==, PIN_LEVEL_WATCH);
  g_assert_true (pin_level_may_run (PIN_LEVEL_WATCH));
  car = garage_car (garage, id);
  g_assert_true (pin_inventory_accept (done, car, car->rows->findings->pdata[0], NULL, NULL));
  garage_commit (garage, done);
  g_clear_pointer (&stable, pin_stable_free);
  stable = garage_stable (garage);
  g_assert_cmpint (first (stable)->readiness->level, ==, PIN_LEVEL_READY);
  g_assert_true (
      g_str_has_suffix (pin_readiness_text (first (stable)->readiness), ", accepted."));
}

/* ---- The stable as a whole ---- */

static void
test_sentence (void)
{
  g_autoptr (Garage) garage = garage_new ();
  g_autoptr (PinStable) empty = garage_stable (garage);
  gint64 plum = garage_add (garage, "Plum", "cart", 0),
         hare = garage_add (garage, "Hare", "cart", 0);
  g_autoptr (PinStable) stable = NULL;

  g_assert_cmpstr (empty->sentence, ==, "No vehicle yet: add the first one.");
  garage_add (garage, "Toast", "cart", NAN);
  garage_walk (garage, plum, sound, TRUE);
  garage_walk (garage, hare, seized, FALSE);
  stable = garage_stable (garage);
  g_assert_cmpstr (stable->sentence, ==,
                   "One of three is ready; Hare must not run; Toast is not known.");
}

static void
test_find (void)
{
  g_autoptr (Garage) garage = garage_new ();
  gint64 plum = garage_add (garage, "Plum", "cart", 0),
         damson = garage_add (garage, "Plum stone", "cart", 0);
  g_autoptr (PinStable) stable = garage_stable (garage);
  g_autofree char *id = g_strdup_printf ("%" G_GINT64_FORMAT, damson);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (pin_stable_find (stable, "plum", &error)->id, ==, plum);
  g_assert_cmpint (pin_stable_find (stable, "PLUM S", &error)->id, ==, damson);
  g_assert_cmpint (pin_stable_find (stable, id, &error)->id, ==, damson);
  g_assert_null (pin_stable_find (stable, "Pl", &error));
  g_assert_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_UNKNOWN);
  g_clear_error (&error);
  g_assert_null (pin_stable_find (stable, "Hare", &error));
  g_assert_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_UNKNOWN);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/readiness/never-inspected", test_never_inspected);
  g_test_add_func ("/readiness/ready", test_ready);
  g_test_add_func ("/readiness/fail", test_fail);
  g_test_add_func ("/readiness/unsafe-at-once", test_unsafe_at_once);
  g_test_add_func ("/readiness/part-gone", test_part_gone);
  g_test_add_func ("/readiness/not-checked", test_not_checked);
  g_test_add_func ("/readiness/owed", test_owed);
  g_test_add_func ("/readiness/cure-until", test_cure_until);
  g_test_add_func ("/readiness/half-way", test_half_way);
  g_test_add_func ("/readiness/watch-and-accepted", test_watch_and_accepted);
  g_test_add_func ("/stable/sentence", test_sentence);
  g_test_add_func ("/stable/find", test_find);
  return g_test_run ();
}
