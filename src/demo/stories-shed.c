/* What is no story of one car: what is bought and measured, what the keeper
 * has changed of the texts, and what was put down by mistake. */

#include "demo/demo-private.h"

#include <math.h>

#include "base/day.h"

/* ---- Spares ---- */

static gboolean
spares_sorted (Demo *demo, DemoCar car, GError **error)
{
  return demo_spare (demo, "bearing", "8x16x5", NULL, DEMO_BEARINGS_8X16, error) &&
         demo_spare (demo, "bearing", "8x16x5", NULL, DEMO_BEARINGS_8X16, error) &&
         demo_spare (demo, "pinion", NULL, "Pinion, 22 teeth", DEMO_PINIONS, error) &&
         demo_spare (demo, "shock", NULL, "Rear shock from the swap meet", -1, error) &&
         demo_spare (demo, "servo", NULL, "Slow servo, metal gears", -1, error);
}

/* ---- Own intervals and limits ---- */

static gboolean
commit (Demo *demo, PinBatch *batch, GError **error)
{
  return pin_book_commit (demo->book, batch, error);
}

static gboolean
rule_made (Demo *demo, DemoCar car, GError **error)
{
  g_autoptr (PinBatch) batch = pin_batch_new (demo->book);
  g_autofree char *today = pin_today ();

  demo->first_rule = pin_batch_own_rule (batch, &(PinOwnRule) {
    .rule = (char *) "hub-bearings-oil", .clock = (char *) "seconds", .every = 6 * 3600,
    .origin = (char *) "owner", .day = today, .person = (char *) "RH" });
  return commit (demo, batch, error);
}

/* The first one again, sooner; one for a car, and one that it is spared. */
static gboolean
rules_changed (Demo *demo, DemoCar car, GError **error)
{
  g_autoptr (PinBatch) batch = pin_batch_new (demo->book);
  g_autofree char *today = pin_today ();

  pin_batch_own_rule (batch, &(PinOwnRule) {
    .rule = (char *) "hub-bearings-oil", .clock = (char *) "seconds", .every = 5 * 3600,
    .origin = (char *) "owner", .day = today, .person = (char *) "RH",
    .replaces = demo->first_rule });
  pin_batch_own_rule (batch, &(PinOwnRule) {
    .rule = (char *) "diff-fluid", .thing = demo->cars[DEMO_SEVEN], .clock = (char *) "outings",
    .every = 20, .origin = (char *) "owner", .day = today, .person = (char *) "RH" });
  pin_batch_own_rule (batch, &(PinOwnRule) {
    .rule = (char *) "belt-tension", .thing = demo->cars[DEMO_PLUM], .clock = (char *) "outings",
    .every = NAN, .origin = (char *) "owner", .day = today, .person = (char *) "MB" });
  return commit (demo, batch, error);
}

/* One shock of the crawler leaks sooner than the others. */
static gboolean
rule_for_a_part (Demo *demo, DemoCar which, GError **error)
{
  g_autoptr (PinCar) car = demo_load (demo, which, error);
  g_autoptr (GPtrArray) shocks = car ? demo_slots (car, "shock", "rear left") : NULL;
  g_autoptr (PinBatch) batch = pin_batch_new (demo->book);
  g_autofree char *today = pin_today ();

  if (shocks == NULL || shocks->len == 0)
    return shocks != NULL;
  pin_batch_own_rule (batch, &(PinOwnRule) {
    .rule = (char *) "shock-rebuild", .thing = ((PinSlot *) shocks->pdata[0])->part,
    .clock = (char *) "days", .every = 120, .origin = (char *) "owner", .day = today,
    .person = (char *) "RH" });
  return commit (demo, batch, error);
}

/* Seconds: the racer has to coast longer than the text asks for. */
static gboolean
limit_made (Demo *demo, DemoCar car, GError **error)
{
  g_autoptr (PinBatch) batch = pin_batch_new (demo->book);
  g_autofree char *today = pin_today ();

  pin_batch_own_limit (batch, &(PinOwnLimit) {
    .step = (char *) "free-roll/coast", .thing = demo->cars[DEMO_SEVEN],
    .band = (char *) "{\"pass\":{\"min\":2.0},\"watch\":{\"min\":1.6}}",
    .origin = (char *) "owner", .day = today, .person = (char *) "RH" });
  return commit (demo, batch, error);
}

/* ---- Put down, and taken back ---- */

/* A day that was Plum's, logged for the truck. */
static gboolean
wrong_car (Demo *demo, DemoCar which, GError **error)
{
  g_autoptr (PinDeedDone) done = demo_begin (demo, "MB");
  g_autoptr (PinCar) car = demo_load (demo, which, error);
  g_autoptr (PinBatch) undo = NULL;
  PinOuting row = { .seconds = 1500, .runs = 3, .litres = NAN, .surface = (char *) "carpet",
                    .water = (char *) "none", .salt = 0, .knocks = 0, .ambient = 19 };

  if (car == NULL ||
      !demo_finish (demo, done, pin_inventory_outing (done, demo->library, car, &row, error),
                    error))
    return FALSE;
  undo = pin_deed_done_undo (done, demo->book);
  return commit (demo, undo, error);
}

/* ---- Notes ---- */

static gboolean
note (Demo *demo, gint64 thing, const char *text, GError **error)
{
  g_autoptr (PinBatch) batch = pin_batch_new (demo->book);
  g_autofree char *today = pin_today ();

  pin_batch_trait (batch, &(PinTrait) {
    .thing = thing, .code = (char *) "note", .day = today, .value = NAN, .text = (char *) text,
    .typed = (char *) text, .origin = (char *) "owner", .person = (char *) "RH" });
  return commit (demo, batch, error);
}

static gboolean
notes_made (Demo *demo, DemoCar car, GError **error)
{
  return note (demo, demo->cars[DEMO_PLUM], "Body number 3 is the one with the good wing.",
               error) &&
         note (demo, demo->cars[DEMO_TOAST],
               "From a cellar. The previous keeper remembers little of it.", error) &&
         note (demo, demo->sets[4], "One cell lags. Not for the racer.", error);
}

const DemoEvent demo_story_shed[] = {
  { 716, DEMO_ANN, demo_buy },
  { 700, DEMO_SEVEN, demo_buy },
  { 696, DEMO_SEVEN, demo_buy },
  { 634, DEMO_PLUM, demo_buy },
  { 620, DEMO_SEVEN, rule_made },
  { 600, DEMO_HARE, demo_buy },
  { 560, DEMO_KETTLE, demo_buy },
  { 520, DEMO_SEVEN, demo_measure_packs },
  { 460, DEMO_ANN, demo_buy },
  { 430, DEMO_SEVEN, demo_buy },
  { 350, DEMO_ANN, spares_sorted },
  { 333, DEMO_HARE, wrong_car },
  { 310, DEMO_SEVEN, demo_buy },
  { 270, DEMO_SEVEN, demo_measure_packs },
  { 255, DEMO_SEVEN, rules_changed },
  { 250, DEMO_KETTLE, rule_for_a_part },
  { 200, DEMO_ANN, demo_buy },
  { 119, DEMO_SEVEN, limit_made },
  { 80, DEMO_TOAST, notes_made },
  { 20, DEMO_SEVEN, demo_measure_packs },
  { 0, DEMO_ANN, NULL },
};
