#include "demo/demo-private.h"

#include <math.h>

#include "base/day.h"
#include "book/queries.h"
#include "service/inventory-check.h"

/* What is in the drawers of the shed: packs and sets of tyres that go from car
 * to car, and what is bought by the bag.  Prices, sizes and figures are made
 * up; they are only such as they might be. */

#define FOR(car) (1 << DEMO_##car)

typedef struct
{
  int days;                   /* ago, when it came */
  const char *kind, *name;
  int cars;                   /* FOR (…) */
  const char *specs[3][2];
  int cells;
  double milliohm;            /* of a cell, when new */
  double growth;              /* share of it, a year */
} Set;

#define HARD_CASE "lithium polymer, hard case"
#define SOFT_CASE "lithium polymer, soft case"

static const Set sets[DEMO_SETS] = {
  { 700, "pack", "Race 1", FOR (SEVEN) | FOR (PLUM),
    { { "cells", "2" }, { "capacity", "4600 mAh" }, { "chemistry", HARD_CASE } }, 2, 1.9, 0.25 },
  { 700, "pack", "Race 2", FOR (SEVEN) | FOR (PLUM),
    { { "cells", "2" }, { "capacity", "4600 mAh" }, { "chemistry", HARD_CASE } }, 2, 2.0, 0.3 },
  { 430, "pack", "Race 3", FOR (SEVEN),
    { { "cells", "2" }, { "capacity", "5000 mAh" }, { "chemistry", HARD_CASE } }, 2, 1.7, 0.2 },
  { 600, "pack", "Basher A", FOR (HARE) | FOR (TOAST),
    { { "cells", "2" }, { "capacity", "5200 mAh" }, { "chemistry", HARD_CASE } }, 2, 3.1, 0.5 },
  { 600, "pack", "Basher B", FOR (HARE) | FOR (TOAST),
    { { "cells", "2" }, { "capacity", "5200 mAh" }, { "chemistry", HARD_CASE } }, 2, 3.3, 0.9 },
  { 560, "pack", "Kettle, long", FOR (KETTLE),
    { { "cells", "3" }, { "capacity", "2200 mAh" }, { "chemistry", SOFT_CASE } }, 3, 4.2, 0.3 },
  { 560, "pack", "Kettle, short", FOR (KETTLE),
    { { "cells", "3" }, { "capacity", "1300 mAh" }, { "chemistry", SOFT_CASE } }, 3, 6.5, 0.3 },
  { 716, "tyre", "Big blocks, four", FOR (ANN),
    { { "compound", "medium" }, { "diameter", "114 mm" }, { "tread", "55 %" } }, 0, 0, 0 },
  { 696, "tyre", "Mini pins, four", FOR (SEVEN),
    { { "compound", "soft" }, { "diameter", "84 mm" }, { "tread", "60 %" } }, 0, 0, 0 },
  { 696, "tyre", "Turf spikes, four", FOR (SEVEN),
    { { "compound", "hard" }, { "diameter", "85 mm" }, { "tread", "75 %" } }, 0, 0, 0 },
  { 634, "tyre", "Carpet rubber, four", FOR (PLUM),
    { { "compound", "32" }, { "diameter", "63 mm" }, { "tread", "70 %" } }, 0, 0, 0 },
  { 634, "tyre", "Summer rubber, four", FOR (PLUM),
    { { "compound", "36" }, { "diameter", "63 mm" }, { "tread", "50 %" } }, 0, 0, 0 },
};

gboolean
demo_set_is_for (int set, DemoCar car)
{
  return (sets[set].cars & (1 << car)) != 0;
}

gboolean
demo_set_is_pack (int set)
{
  return sets[set].cells > 0;
}

static gboolean
bring_set (Demo *demo, PinDeedDone *done, int nth, const char *day, GError **error)
{
  const Set *set = &sets[nth];
  gint64 part = pin_batch_part (pin_deed_done_batch (done), 0, set->kind, 0);

  pin_deed_done_trait (done, &(PinTrait) {
    .thing = part, .code = (char *) "name", .day = (char *) day, .value = NAN,
    .text = (char *) set->name, .typed = (char *) set->name, .origin = (char *) "owner" });
  for (gsize i = 0; i < G_N_ELEMENTS (set->specs); i++)
    if (!pin_write_spec (done, demo->library, part, set->specs[i][0], set->specs[i][1], "owner",
                         day, error))
      return FALSE;
  pin_deed_done_fitting (done, &(PinFitting) { .part = part, .shelf = (char *) "shelf",
                                               .day = (char *) day });
  demo->sets[nth] = part;
  return TRUE;
}

/* ---- By the bag ---- */

typedef struct
{
  const char *kind, *size, *name, *unit;
  struct
  {
    int days;
    double amount;
    int cost;                 /* cents */
  } bought[2];
} Supply;

static const Supply supplies[DEMO_SUPPLIES] = {
  [DEMO_BEARINGS_8X16] = { "bearing", "8x16x5", "Bearings 8 × 16 × 5, rubber seals", "piece",
                           { { 700, 10, 1490 }, { 200, 10, 1590 } } },
  [DEMO_BEARINGS_BELL] = { "bearing", "5x10x4", "Bearings 5 × 10 × 4, for the bell", "piece",
                           { { 600, 4, 820 } } },
  [DEMO_LIGHT_OIL] = { "bearing-lube", NULL, "Light oil with a needle", "ml",
                       { { 700, 20, 490 }, { 310, 20, 520 } } },
  [DEMO_GREASE] = { "grease", NULL, "Light grease", "g", { { 560, 30, 640 } } },
  [DEMO_DIFF_FLUID] = { "diff-fluid", "5000", "Diff fluid 5000 cSt", "ml",
                        { { 460, 60, 790 } } },
  [DEMO_SHOCK_OIL] = { "shock-fluid", "450", "Shock oil 450 cSt", "ml", { { 600, 80, 690 } } },
  [DEMO_GLOW_PLUGS] = { "glow-plug", NULL, "Glow plugs, medium", "piece",
                        { { 700, 3, 2100 } } },
  [DEMO_PINIONS] = { "pinion", NULL, "Pinions, 48 pitch, assorted", "piece",
                     { { 430, 2, 1960 } } },
  [DEMO_BELTS] = { "belt", NULL, "Drive belts, rear", "piece", { { 430, 1, 1190 } } },
};

static void
bring_bag (Demo *demo, PinBatch *batch, int nth, const char *day)
{
  const Supply *supply = &supplies[nth];

  for (gsize i = 0; i < G_N_ELEMENTS (supply->bought); i++)
    {
      g_autofree char *then = demo_day (demo, supply->bought[i].days);

      if (supply->bought[i].amount == 0 || !g_str_equal (then, day))
        continue;
      if (demo->supplies[nth] == 0)
        demo->supplies[nth] =
            pin_batch_supply (batch, 0, supply->kind, supply->size, supply->name, supply->unit);
      pin_batch_stock (batch, &(PinStock) {
        .supply = demo->supplies[nth], .amount = supply->bought[i].amount,
        .cost = supply->bought[i].cost, .currency = (char *) "EUR", .day = (char *) day,
        .person = (char *) "RH" });
    }
}

gboolean
demo_buy (Demo *demo, DemoCar car, GError **error)
{
  g_autoptr (PinDeedDone) done = demo_begin (demo, "RH");
  g_autofree char *day = pin_today ();

  for (int i = 0; i < DEMO_SETS; i++)
    {
      g_autofree char *then = demo_day (demo, sets[i].days);

      if (g_str_equal (then, day) && !bring_set (demo, done, i, day, error))
        return FALSE;
    }
  for (int i = 0; i < DEMO_SUPPLIES; i++)
    bring_bag (demo, pin_deed_done_batch (done), i, day);
  return demo_finish (demo, done, TRUE, error);
}

static gpointer
load_works (PinDb *db, gpointer data, GError **error)
{
  return pin_query_works (db, *(gint64 *) data, error);
}

/* The last work of today that was @deed; 0: none. */
static gint64
work_today (const GPtrArray *works, const char *deed)
{
  g_autofree char *today = pin_today ();
  gint64 last = 0;

  for (guint i = 0; i < works->len; i++)
    {
      const PinWork *work = works->pdata[i];

      if (g_str_equal (work->deed, deed) && g_str_equal (work->day, today))
        last = MAX (last, work->id);
    }
  return last;
}

gboolean
demo_use (Demo *demo, DemoCar car, const char *deed, DemoSupply supply, double amount,
          GError **error)
{
  g_autoptr (GPtrArray) works = pin_book_run (demo->book, load_works, &demo->cars[car], error);
  g_autoptr (PinBatch) batch = works ? pin_batch_new (demo->book) : NULL;
  g_autofree char *today = pin_today ();

  if (works == NULL)
    return FALSE;
  pin_batch_stock (batch, &(PinStock) {
    .supply = demo->supplies[supply], .amount = -amount, .cause = work_today (works, deed),
    .cost = -1, .day = today, .person = (char *) "RH" });
  return pin_book_commit (demo->book, batch, error);
}

gboolean
demo_spare (Demo *demo, const char *kind, const char *size, const char *name, int supply,
            GError **error)
{
  g_autoptr (PinDeedDone) done = demo_begin (demo, "RH");
  PinBatch *batch = pin_deed_done_batch (done);
  g_autofree char *today = pin_today ();
  gint64 taken = 0, part;

  if (supply >= 0)
    taken = pin_batch_stock (batch, &(PinStock) { .supply = demo->supplies[supply], .amount = -1,
                                                  .cost = -1, .day = today });
  part = pin_batch_part (batch, 0, kind, taken);
  if (size != NULL &&
      !pin_write_spec (done, demo->library, part, "size", size, "owner", today, error))
    return FALSE;
  if (name != NULL)
    pin_deed_done_trait (done, &(PinTrait) {
      .thing = part, .code = (char *) "name", .day = today, .value = NAN, .text = (char *) name,
      .typed = (char *) name, .origin = (char *) "owner" });
  pin_write_used (done, part, "used.seconds", 0, today);
  pin_deed_done_fitting (done, &(PinFitting) { .part = part, .shelf = (char *) "shelf",
                                               .day = today });
  return demo_finish (demo, done, TRUE, error);
}

/* ---- Packs, measured ---- */

/* A charger's figure of each cell, in tenths of a milliohm as it shows them. */
static void
measure_pack (Demo *demo, PinBatch *batch, int nth, const char *day)
{
  const Set *set = &sets[nth];
  const PinUnit *unit = pin_library_quantity (demo->library, "resistance")->unit;
  g_autofree char *came = demo_day (demo, set->days);
  g_autofree char *conditions = g_strdup_printf ("ambient=%d;charge=storage;charger=own",
                                                 pin_dice_int (&demo->dice, 18, 21));
  double years = pin_day_diff (came, day) / 365.0;
  g_autoptr (GArray) cells = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GString) typed = g_string_new (NULL);
  double sum = 0;

  for (int i = 0; i < set->cells; i++)
    {
      double wear = set->growth * years * (i == 0 ? 1 : 0.8);
      double shown = round (10 * set->milliohm * (1 + wear) *
                            (1 + 0.03 * pin_dice_spread (&demo->dice))) / 10;
      double cell = pin_unit_from (unit, shown);
      g_autofree char *number = pin_number_format (shown, 1);

      g_string_append_printf (typed, "%s%s", i > 0 ? ", " : "", number);
      g_array_append_val (cells, cell);
      sum += cell;
    }
  g_string_append_printf (typed, " %s", unit->symbol);
  pin_batch_reading (batch, &(PinReading) {
    .thing = demo->sets[nth], .quantity = (char *) "resistance", .value = sum / set->cells,
    .typed = typed->str, .repeats = cells, .method = (char *) "charger",
    .conditions = conditions, .day = (char *) day, .at = demo->now, .person = (char *) "RH" });
}

gboolean
demo_measure_packs (Demo *demo, DemoCar car, GError **error)
{
  g_autoptr (PinBatch) batch = pin_batch_new (demo->book);
  g_autofree char *today = pin_today ();

  for (int i = 0; i < DEMO_SETS; i++)
    if (demo_set_is_pack (i) && demo->sets[i] != 0)
      measure_pack (demo, batch, i, today);
  return pin_batch_is_empty (batch) || pin_book_commit (demo->book, batch, error);
}
