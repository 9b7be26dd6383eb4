/* The stories of the other four: one ready, one half-way, one grounded, one
 * of which little is known. */

#include "demo/demo-private.h"

#include <math.h>

/* ---- Plum, touring car with belts: on the bench just now ---- */

static gboolean
plum_comes (Demo *demo, DemoCar car, GError **error)
{
  return demo_add (demo, car, &(PinNewVehicle) {
    .name = "Plum", .chassis = "touring-belt-10", .seconds = 0, .runs = 0, .litres = NAN,
    .acquired = "new" }, error);
}

static gboolean
plum_roll (Demo *demo, DemoCar car, GError **error)
{
  return demo_walk (demo, car, &(DemoWalk) { .what = "free-roll", .person = "MB" }, error);
}

static gboolean
plum_belts (Demo *demo, DemoCar car, GError **error)
{
  return demo_work (demo, car, "belt", "", "adjusted", "one notch", -1, error);
}

static gboolean
plum_new_belt (Demo *demo, DemoCar car, GError **error)
{
  return demo_work (demo, car, "belt", "rear", "replaced", "frayed at one edge", 1190, error) &&
         demo_use (demo, car, "replaced", DEMO_BELTS, 1, error);
}

static gboolean
plum_drop (Demo *demo, DemoCar car, GError **error)
{
  return demo_walk (demo, car, &(DemoWalk) { .what = "drop-test", .person = "MB" }, error);
}

static gboolean
plum_shaken (Demo *demo, DemoCar car, GError **error)
{
  return demo_settle (demo, car, "shakedown", error);
}

/* The last heat in drizzle; drying it is still to be done. */
static gboolean
plum_wet (Demo *demo, DemoCar car, GError **error)
{
  PinOuting row = { .seconds = 900, .runs = 2, .litres = NAN, .surface = (char *) "asphalt",
                    .water = (char *) "splashed", .salt = 0, .knocks = 0, .ambient = 7,
                    .note = (char *) "drizzle in the last heat" };

  return demo_wet (demo, car, &row, error);
}

static gboolean
plum_half_way (Demo *demo, DemoCar car, GError **error)
{
  static const DemoReply replies[] = {
    { "bearings/grade@hub.front.right.outer", "dry", NULL },
    { NULL } };

  return demo_walk (demo, car,
                    &(DemoWalk){ .what = "bearings",
                                 .person = "RH",
                                 .replies = replies,
                                 .stop_at = "bearings/steering-grade*",
                                 .begun = "left post feels" },
                    error);
}

const DemoEvent demo_story_plum[] = {
  { 640, DEMO_PLUM, plum_comes },
  { 620, DEMO_PLUM, plum_roll },
  { 470, DEMO_PLUM, plum_belts },
  { 330, DEMO_PLUM, plum_new_belt },
  { 230, DEMO_PLUM, plum_drop },
  { 100, DEMO_PLUM, plum_roll },
  { 80, DEMO_PLUM, plum_shaken },
  { 1, DEMO_PLUM, plum_wet },
  { 0, DEMO_PLUM, plum_half_way },
  { 0, DEMO_PLUM, NULL },
};

/* ---- Tin Kettle, crawler: nothing owed, nothing open ---- */

static gboolean
kettle_comes (Demo *demo, DemoCar car, GError **error)
{
  return demo_add (demo, car, &(PinNewVehicle) {
    .name = "Tin Kettle", .chassis = "crawler-10", .seconds = 0, .runs = 0, .litres = NAN,
    .acquired = "new" }, error);
}

static gboolean
kettle_steering (Demo *demo, DemoCar car, GError **error)
{
  return demo_walk (demo, car, &(DemoWalk) { .what = "steering-travel", .person = "RH" }, error);
}

/* One figure was written for the other side, and put right. */
static gboolean
kettle_misread (Demo *demo, DemoCar car, GError **error)
{
  static const DemoReply replies[] = {
    { "steering-travel/play@wheel.front.right", "0.9 mm", NULL },
    { NULL } };
  static const DemoReply instead[] = {
    { "steering-travel/play@wheel.front.right", "0.6 mm", "had read the other side" },
    { NULL } };

  return demo_walk (demo, car, &(DemoWalk) { .what = "steering-travel", .person = "RH",
                                             .replies = replies,
                                             .stop_at = "steering-travel/centre*",
                                             .taken_back = "steering-travel/play@wheel.front.right",
                                             .instead = instead }, error);
}

static gboolean
kettle_greased (Demo *demo, DemoCar car, GError **error)
{
  return demo_work (demo, car, "spool", "", "greased", "both axles open", -1, error) &&
         demo_use (demo, car, "greased", DEMO_GREASE, 6, error);
}

static gboolean
kettle_screws (Demo *demo, DemoCar car, GError **error)
{
  return demo_walk (demo, car, &(DemoWalk) { .what = "fastener-check", .person = "RH" }, error) &&
         demo_settle (demo, car, "vents-open", error);
}

static gboolean
kettle_wet (Demo *demo, DemoCar car, GError **error)
{
  PinOuting row = { .seconds = 2400, .runs = 1, .litres = NAN, .surface = (char *) "stream bank",
                    .dirt = (char *) "mud", .water = (char *) "splashed", .salt = 0, .knocks = 0,
                    .ambient = 15, .note = (char *) "through the ford, twice" };

  return demo_wet (demo, car, &row, error) &&
         demo_walk (demo, car, &(DemoWalk){ .what = "after-wet", .person = "RH", .wear = 0.1 },
                    error);
}

static gboolean
kettle_settled (Demo *demo, DemoCar car, GError **error)
{
  return demo_settle (demo, car, "vents-open", error) &&
         demo_settle (demo, car, "shakedown", error);
}

/* All of it, and all of it sound. */
static gboolean
kettle_quarterly (Demo *demo, DemoCar car, GError **error)
{
  return demo_walk (demo, car, &(DemoWalk){ .what = demo_teardown (demo, "fastener-check"),
                                            .person = "RH", .wear = 0.1 }, error);
}

const DemoEvent demo_story_kettle[] = {
  { 560, DEMO_KETTLE, kettle_comes },
  { 410, DEMO_KETTLE, kettle_steering },
  { 260, DEMO_KETTLE, kettle_greased },
  { 150, DEMO_KETTLE, kettle_screws },
  { 140, DEMO_KETTLE, kettle_misread },
  { 92, DEMO_KETTLE, kettle_wet },
  { 60, DEMO_KETTLE, kettle_settled },
  { 17, DEMO_KETTLE, kettle_quarterly },
  { 11, DEMO_KETTLE, kettle_settled },
  { 0, DEMO_KETTLE, NULL },
};

/* ---- Marsh Hare, short-course truck: must not run ---- */

static gboolean
hare_comes (Demo *demo, DemoCar car, GError **error)
{
  return demo_add (demo, car, &(PinNewVehicle) {
    .name = "Marsh Hare", .chassis = "stadium-2wd-10", .seconds = 7200, .runs = 9, .litres = NAN,
    .parts_as_old = TRUE, .acquired = "used" }, error) &&
         demo_told (demo, car, "bearing", "hub", "oiled", "sure", 610, error) &&
         demo_told (demo, car, "diff", "", "filled", "about", 660, error);
}

static gboolean
hare_bearings (Demo *demo, DemoCar car, GError **error)
{
  return demo_walk (demo, car, &(DemoWalk){ .what = "bearings", .person = "RH", .wear = 0.3 },
                    error);
}

static gboolean
hare_shaken (Demo *demo, DemoCar car, GError **error)
{
  return demo_settle (demo, car, "shakedown", error);
}

static gboolean
hare_links (Demo *demo, DemoCar car, GError **error)
{
  return demo_work (demo, car, "link", "tie", "replaced", "bent on the kerb", 890, error);
}

static gboolean
hare_drop (Demo *demo, DemoCar car, GError **error)
{
  return demo_walk (demo, car, &(DemoWalk) { .what = "drop-test", .person = "RH" }, error);
}

static gboolean
hare_grounded (Demo *demo, DemoCar car, GError **error)
{
  static const DemoReply replies[] = {
    { "steering-travel/play@wheel.front.left", "2.6 mm", NULL },
    { "steering-travel/which-joint*", "unsafe:cup", "pops off the ball by finger" },
    { NULL } };

  return demo_walk (demo, car, &(DemoWalk) { .what = "steering-travel", .person = "RH",
                                             .replies = replies }, error);
}

const DemoEvent demo_story_hare[] = {
  { 600, DEMO_HARE, hare_comes },
  { 500, DEMO_HARE, hare_bearings },
  { 480, DEMO_HARE, hare_shaken },
  { 280, DEMO_HARE, hare_links },
  { 160, DEMO_HARE, hare_drop },
  { 60, DEMO_HARE, hare_bearings },
  { 40, DEMO_HARE, hare_shaken },
  { 5, DEMO_HARE, hare_grounded },
  { 0, DEMO_HARE, NULL },
};

/* ---- Old Toast, 2WD buggy, bought used: nobody knows ---- */

static gboolean
toast_comes (Demo *demo, DemoCar car, GError **error)
{
  return demo_add (demo, car, &(PinNewVehicle) {
    .name = "Old Toast", .chassis = "buggy-2wd-10", .seconds = NAN, .runs = NAN, .litres = NAN,
    .acquired = "used" }, error) &&
         demo_told (demo, car, "motor", "", "replaced", "about", 400, error) &&
         demo_told (demo, car, "bearing", "hub", "oiled", "guess", 240, error);
}

static gboolean
toast_looked_at (Demo *demo, DemoCar car, GError **error)
{
  static const DemoReply replies[] = {
    { "bearings/grade@hub.front*", "free", NULL },
    { "bearings/rock-wheel@hub.front*", "none", NULL },
    { "bearings/rock-wheel*", "not-checked", "no time" },
    { "bearings/grade*", "not-checked", "no time" },
    { "bearings/steering-grade*", "not-checked", "no time" },
    { "bearings/box-grade*", "not-checked", "box stays closed" },
    { "bearings/motor-grade*", "not-checked", "no tool" },
    { NULL } };

  return demo_walk (demo, car, &(DemoWalk) { .what = "bearings", .person = "RH",
                                             .replies = replies }, error);
}

static gboolean
toast_shaken (Demo *demo, DemoCar car, GError **error)
{
  return demo_settle (demo, car, "shakedown", error);
}

static gboolean
toast_measured (Demo *demo, DemoCar car, GError **error)
{
  return demo_spec (demo, car, "bearing", "hub front outer", "size", "5x11x4", error) &&
         demo_spec (demo, car, "diff", "", "fluid", "3000 cSt", error);
}

const DemoEvent demo_story_toast[] = {
  { 118, DEMO_TOAST, toast_comes },
  { 100, DEMO_TOAST, toast_looked_at },
  { 90, DEMO_TOAST, toast_measured },
  { 70, DEMO_TOAST, toast_shaken },
  { 0, DEMO_TOAST, NULL },
};
