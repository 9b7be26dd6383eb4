/* The stories of the two that are driven hardest: the engine car and the racer. */

#include "demo/demo-private.h"

#include <math.h>

/* ---- Gravel Ann, 1/8 nitro buggy, bought new ---- */

static gboolean
ann_comes (Demo *demo, DemoCar car, GError **error)
{
  return demo_add (demo, car, &(PinNewVehicle) {
    .name = "Gravel Ann", .chassis = "buggy-nitro-8", .seconds = 0, .runs = 0, .litres = 0,
    .acquired = "new" }, error);
}

static gboolean
ann_first_roll (Demo *demo, DemoCar car, GError **error)
{
  return demo_walk (demo, car, &(DemoWalk) { .what = "free-roll", .person = "RH" }, error) &&
         demo_settle (demo, car, "uncap", error);
}

static gboolean
ann_oiled (Demo *demo, DemoCar car, GError **error)
{
  return demo_work (demo, car, "bearing", "hub", "oiled", NULL, -1, error) &&
         demo_use (demo, car, "oiled", DEMO_LIGHT_OIL, 1.5, error);
}

static gboolean
ann_bearings (Demo *demo, DemoCar car, GError **error)
{
  static const DemoReply replies[] = {
    { "bearings/grade@hub.rear.left.outer", "gritty", "mud under the seal" },
    { NULL } };

  return demo_walk (demo, car, &(DemoWalk) { .what = "bearings", .person = "RH", .wear = 0.15,
                                             .replies = replies }, error);
}

static gboolean
ann_shaken (Demo *demo, DemoCar car, GError **error)
{
  return demo_settle (demo, car, "shakedown", error);
}

static gboolean
ann_new_hub_pair (Demo *demo, DemoCar car, GError **error)
{
  return demo_work (demo, car, "bearing", "hub rear left", "replaced", "2 from the drawer", 640,
                    error) &&
         demo_use (demo, car, "replaced", DEMO_BEARINGS_8X16, 2, error);
}

static gboolean
ann_screws (Demo *demo, DemoCar car, GError **error)
{
  static const DemoReply replies[] = {
    { "fastener-check/tight@fasteners.towers", "3", "two had walked out" },
    { NULL } };

  return demo_walk (demo, car, &(DemoWalk) { .what = "fastener-check", .person = "MB",
                                             .replies = replies }, error);
}

static gboolean
ann_fluids (Demo *demo, DemoCar car, GError **error)
{
  return demo_work (demo, car, "diff", "", "filled", "all three, new seals", 1480, error) &&
         demo_spec (demo, car, "diff", "front", "fluid", "7000 cSt", error) &&
         demo_spec (demo, car, "diff", "centre", "fluid", "5000 cSt", error) &&
         demo_spec (demo, car, "diff", "rear", "fluid", "2000 cSt", error) &&
         demo_use (demo, car, "filled", DEMO_DIFF_FLUID, 14, error);
}

static gboolean
ann_drop (Demo *demo, DemoCar car, GError **error)
{
  static const DemoReply replies[] = {
    { "drop-test/arm-fall@hingepin.front.left*", "rocks", "ball of the tower end, too" },
    { NULL } };

  return demo_walk (demo, car, &(DemoWalk) { .what = "drop-test", .person = "RH",
                                             .replies = replies }, error);
}

static gboolean
ann_pins (Demo *demo, DemoCar car, GError **error)
{
  return demo_work (demo, car, "hinge-pin", "front", "replaced", "both sides", 720, error);
}

static gboolean
ann_wet (Demo *demo, DemoCar car, GError **error)
{
  PinOuting row = { .seconds = 1500, .runs = 3, .litres = 0.4, .surface = (char *) "grass",
                    .dirt = (char *) "mud", .water = (char *) "soaked", .salt = 0, .knocks = 1,
                    .ambient = 9, .note = (char *) "stopped when the rain came" };

  return demo_wet (demo, car, &row, error) &&
         demo_walk (demo, car,
                    &(DemoWalk){ .what = "after-wet", .person = "RH", .wear = 0.2 }, error);
}

static gboolean
ann_uncapped (Demo *demo, DemoCar car, GError **error)
{
  return demo_settle (demo, car, "uncap", error) &&
         demo_settle (demo, car, "vents-open", error) &&
         demo_settle (demo, car, "shakedown", error);
}

static gboolean
ann_plug (Demo *demo, DemoCar car, GError **error)
{
  return demo_work (demo, car, "glow-plug", "", "replaced", "grey and bent", 750, error) &&
         demo_use (demo, car, "replaced", DEMO_GLOW_PLUGS, 1, error);
}

static gboolean
ann_steering (Demo *demo, DemoCar car, GError **error)
{
  return demo_walk (demo, car, &(DemoWalk) { .what = "steering-travel", .person = "RH" }, error);
}

/* The big one: all of it, but for a spare that is still to be bought. */
static gboolean
ann_quarterly (Demo *demo, DemoCar car, GError **error)
{
  static const DemoReply replies[] = {
    { "bearings/bell-grade@bell.bearing.inner", "gritty", NULL, TRUE },
    { "bearings/bell-grade@bell.bearing.inner*", "gritty", NULL },
    { "bearings/bell-replace@bell.bearing.inner", "not-checked", "no spare in the drawer" },
    { "bearings/engine-grade*", "not-checked", "engine stays closed" },
    { "bearings/grade@hub.rear.right.outer", "dry", NULL },
    { "bearings/grade@hub.front.right.outer", "dry", NULL },
    { "fastener-check/tight@fasteners.engine-mount", "3", NULL },
    { "drop-test/arm-fall@hingepin.rear.left*", "rocks", "a little, at the tip" },
    { NULL } };

  return demo_walk (demo, car,
                    &(DemoWalk){ .what = demo_teardown (demo, "bearings"),
                                 .person = "RH",
                                 .wear = 0.1,
                                 .replies = replies },
                    error);
}

const DemoEvent demo_story_ann[] = {
  { 720, DEMO_ANN, ann_comes },
  { 700, DEMO_ANN, ann_first_roll },
  { 640, DEMO_ANN, ann_oiled },
  { 610, DEMO_ANN, ann_bearings },
  { 590, DEMO_ANN, ann_shaken },
  { 530, DEMO_ANN, ann_new_hub_pair },
  { 430, DEMO_ANN, ann_screws },
  { 418, DEMO_ANN, ann_fluids },
  { 300, DEMO_ANN, ann_bearings },
  { 285, DEMO_ANN, ann_shaken },
  { 210, DEMO_ANN, ann_drop },
  { 205, DEMO_ANN, ann_pins },
  { 198, DEMO_ANN, ann_wet },
  { 180, DEMO_ANN, ann_uncapped },
  { 150, DEMO_ANN, ann_plug },
  { 110, DEMO_ANN, ann_steering },
  { 95, DEMO_ANN, ann_screws },
  { 24, DEMO_ANN, ann_quarterly },
  { 7, DEMO_ANN, ann_uncapped },
  { 0, DEMO_ANN, NULL },
};

/* ---- Number Seven, 1/10 4WD buggy, raced ---- */

static gboolean
seven_comes (Demo *demo, DemoCar car, GError **error)
{
  return demo_add (demo, car, &(PinNewVehicle) {
    .name = "Number Seven", .chassis = "buggy-4wd-10", .seconds = 0, .runs = 0, .litres = NAN,
    .acquired = "new" }, error);
}

static gboolean
seven_roll (Demo *demo, DemoCar car, GError **error)
{
  return demo_walk (demo, car, &(DemoWalk) { .what = "free-roll", .person = "RH" }, error);
}

static gboolean
seven_bearings (Demo *demo, DemoCar car, GError **error)
{
  return demo_walk (demo, car, &(DemoWalk){ .what = "bearings", .person = "RH", .wear = 0.2 },
                    error);
}

static gboolean
seven_oiled (Demo *demo, DemoCar car, GError **error)
{
  return demo_work (demo, car, "bearing", "hub", "oiled", NULL, -1, error) &&
         demo_work (demo, car, "diff", "", "filled", "after dust", 620, error) &&
         demo_spec (demo, car, "diff", "front", "fluid", "10000 cSt", error) &&
         demo_spec (demo, car, "diff", "rear", "fluid", "5000 cSt", error) &&
         demo_use (demo, car, "oiled", DEMO_LIGHT_OIL, 2, error) &&
         demo_use (demo, car, "filled", DEMO_DIFF_FLUID, 4, error);
}

/* A servo of Plum's, which got a quicker one. */
static gboolean
seven_gets_servo (Demo *demo, DemoCar which, GError **error)
{
  g_autoptr (PinDeedDone) done = demo_begin (demo, "RH");
  g_autoptr (PinCar) seven = demo_load (demo, which, error);
  g_autoptr (PinCar) plum = seven ? demo_load (demo, DEMO_PLUM, error) : NULL;
  PinReplacement how = PIN_REPLACEMENT_INIT;

  if (plum == NULL)
    return FALSE;
  if (!demo_finish (demo, done,
                    pin_inventory_move (done, plum, pin_car_slot (plum, "servo.steering"),
                                        seven, pin_car_slot (seven, "servo.steering"), NULL,
                                        error),
                    error))
    return FALSE;
  g_clear_pointer (&plum, pin_car_free);
  g_clear_pointer (&done, pin_deed_done_free);
  plum = demo_load (demo, DEMO_PLUM, error);
  done = demo_begin (demo, "RH");
  how.note = "a quicker one";
  how.cost = 5900;
  how.currency = "EUR";
  return plum != NULL &&
         demo_finish (demo, done,
                      pin_inventory_replace (done, demo->library, plum,
                                             pin_car_slot (plum, "servo.steering"), &how,
                                             error) != 0,
                      error);
}

static gboolean
seven_steering (Demo *demo, DemoCar car, GError **error)
{
  return demo_walk (demo, car, &(DemoWalk) { .what = "steering-travel", .person = "MB" }, error);
}

static gboolean
seven_screws (Demo *demo, DemoCar car, GError **error)
{
  return demo_walk (demo, car, &(DemoWalk) { .what = "fastener-check", .person = "RH" }, error);
}

static gboolean
seven_new_pinion (Demo *demo, DemoCar car, GError **error)
{
  return demo_work (demo, car, "pinion", "", "replaced", "teeth hooked", 980, error) &&
         demo_use (demo, car, "replaced", DEMO_PINIONS, 1, error);
}

static gboolean
seven_mesh (Demo *demo, DemoCar car, GError **error)
{
  return demo_walk (demo, car, &(DemoWalk) { .what = "gear-mesh", .person = "RH" }, error);
}

static gboolean
seven_shaken (Demo *demo, DemoCar car, GError **error)
{
  return demo_settle (demo, car, "shakedown", error);
}

static gboolean
seven_drop (Demo *demo, DemoCar car, GError **error)
{
  return demo_walk (demo, car, &(DemoWalk) { .what = "drop-test", .person = "RH" }, error);
}

/* Rain on the bench under the trees: nothing was off yet. */
static gboolean
seven_rained_off (Demo *demo, DemoCar car, GError **error)
{
  return demo_walk (demo, car, &(DemoWalk) { .what = "drop-test", .person = "RH",
                                             .stop_at = "drop-test/drop-high*",
                                             .given_up = TRUE }, error);
}

/* The last look before the race: one thing to keep an eye on. */
static gboolean
seven_before_race (Demo *demo, DemoCar car, GError **error)
{
  static const DemoReply replies[] = {
    { "free-roll/noise*", "hiss", "motor, on the run-down only" },
    { NULL } };

  return demo_walk (demo, car, &(DemoWalk) { .what = "free-roll", .person = "RH",
                                             .replies = replies }, error);
}

const DemoEvent demo_story_seven[] = {
  { 700, DEMO_SEVEN, seven_comes },
  { 690, DEMO_SEVEN, seven_roll },
  { 560, DEMO_SEVEN, seven_bearings },
  { 540, DEMO_SEVEN, seven_shaken },
  { 452, DEMO_SEVEN, seven_oiled },
  { 400, DEMO_SEVEN, seven_gets_servo },
  { 398, DEMO_SEVEN, seven_steering },
  { 300, DEMO_SEVEN, seven_screws },
  { 262, DEMO_SEVEN, seven_new_pinion },
  { 262, DEMO_SEVEN, seven_mesh },
  { 250, DEMO_SEVEN, seven_shaken },
  { 195, DEMO_SEVEN, seven_rained_off },
  { 190, DEMO_SEVEN, seven_drop },
  { 120, DEMO_SEVEN, seven_roll },
  { 45, DEMO_SEVEN, seven_bearings },
  { 28, DEMO_SEVEN, seven_shaken },
  { 16, DEMO_SEVEN, seven_before_race },
  { 3, DEMO_SEVEN, seven_shaken },
  { 0, DEMO_SEVEN, NULL },
};
