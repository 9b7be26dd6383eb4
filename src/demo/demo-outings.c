#include "demo/demo-private.h"

#include <math.h>
#include <string.h>

#include "base/day.h"

/* How a car is used: as often as its keeper likes it. */
typedef struct
{
  int from, to;               /* days ago, first and last */
  int n;                      /* outings */
  double minutes, runs, litres; /* of one outing, about */
  const char *surfaces[3];
  const char *dirt[3];
  int knocks;                 /* at most, on a rough day */
} Use;

static const Use uses[DEMO_CARS] = {
  [DEMO_ANN] = { 716, 8, 58, 43, 4, 0.6,
                 { "grass", "clay", "gravel" }, { "dust", "mud", "grass" }, 2 },
  [DEMO_SEVEN] = { 696, 4, 91, 42, 3, 0,
                   { "clay", "astroturf", "grass" }, { "dust", "dust", "grass" }, 2 },
  [DEMO_PLUM] = { 634, 9, 64, 26, 3, 0,
                  { "carpet", "asphalt", "asphalt" }, { NULL, "dust", NULL }, 1 },
  [DEMO_KETTLE] = { 556, 12, 23, 48, 1, 0,
                    { "rock", "woodland", "stream bank" }, { "mud", "leaves", "sand" }, 0 },
  [DEMO_HARE] = { 596, 7, 49, 44, 2, 0,
                  { "sand", "grass", "gravel" }, { "sand", "mud", "dust" }, 4 },
  [DEMO_TOAST] = { 114, 11, 12, 27, 2, 0,
                   { "grass", "clay", "asphalt" }, { "dust", "grass", NULL }, 2 },
};

static double
season (const char *day)
{
  GDate date;

  g_date_clear (&date, 1);
  g_date_set_parse (&date, day);
  return 11 - 9 * cos (2 * G_PI * (g_date_get_day_of_year (&date) - 20) / 365.0);
}

/* Fills @mine with those of the packs, or of the tyres, that there are for @car. */
static guint
sets_of (const Demo *demo, DemoCar car, gboolean packs, gint64 *mine)
{
  guint n = 0;

  for (int i = 0; i < DEMO_SETS; i++)
    if (demo->sets[i] != 0 && demo_set_is_for (i, car) && demo_set_is_pack (i) == packs)
      mine[n++] = demo->sets[i];
  return n;
}

/* The packs in turn, and the tyres for the surface. */
static GArray *
sets_used (Demo *demo, DemoCar car, double runs, double seconds, int surface)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (PinOutingPart));
  gint64 mine[DEMO_SETS];
  guint n = sets_of (demo, car, TRUE, mine);

  for (guint i = 0; i < n; i++)
    {
      double some = floor ((runs + (n - 1 - i)) / n);
      PinOutingPart part = { mine[i], some, seconds * some / runs };

      if (some > 0)
        g_array_append_val (parts, part);
    }
  n = sets_of (demo, car, FALSE, mine);
  if (n > 0)
    {
      PinOutingPart tyres = { mine[(guint) surface % n], runs, seconds };

      g_array_append_val (parts, tyres);
    }
  return parts;
}

static void
note_temperature (Demo *demo, PinBatch *batch, DemoCar car, gint64 outing, const char *day,
                  double ambient)
{
  int shown = (int) lround (ambient + 46 + 4 * pin_dice_spread (&demo->dice));
  g_autofree char *typed = g_strdup_printf ("%d °C", shown);
  g_autofree char *conditions = g_strdup_printf ("ambient=%.0f;patch=matt", ambient);

  pin_batch_reading (batch, &(PinReading) {
    .thing = demo->cars[car], .quantity = (char *) "temperature", .value = shown, .typed = typed,
    .method = (char *) "thermometer", .conditions = conditions, .outing = outing,
    .day = (char *) day, .at = demo->now, .person = (char *) "RH" });
}

/* One dry day; wet ones are told by the stories, with what follows them. */
static gboolean
outing (Demo *demo, DemoCar car, GError **error)
{
  const Use *use = &uses[car];
  g_autofree char *day = pin_today ();
  int which = pin_dice_int (&demo->dice, 0, 2);
  double share = 1 + 0.3 * pin_dice_spread (&demo->dice);
  double seconds = round (use->minutes * share) * 60;
  double runs = MAX (1, round (use->runs * share));
  double ambient = round (season (day) + 4 * pin_dice_spread (&demo->dice));
  g_autoptr (GArray) parts = sets_used (demo, car, runs, seconds, which);
  gint64 id;

  if (demo->pending == NULL)
    demo->pending = pin_batch_new (demo->book);
  id = pin_batch_outing (demo->pending, &(PinOuting) {
    .vehicle = demo->cars[car], .day = day, .at = demo->now, .seconds = seconds, .runs = runs,
    .litres = use->litres > 0 ? round (use->litres * share * 100) / 100 : NAN,
    .surface = (char *) use->surfaces[which], .dirt = (char *) use->dirt[which],
    .water = (char *) (pin_dice_chance (&demo->dice, 0.12) ? "damp" : "none"), .salt = 0,
    .knocks = pin_dice_chance (&demo->dice, 0.3) ? pin_dice_int (&demo->dice, 0, use->knocks) : 0,
    .ambient = ambient, .person = (char *) "RH", .parts = parts });
  if (car == DEMO_SEVEN && pin_dice_chance (&demo->dice, 0.4))
    note_temperature (demo, demo->pending, car, id, day, ambient);
  return TRUE;
}

gboolean
demo_wet (Demo *demo, DemoCar which, PinOuting *row, GError **error)
{
  g_autoptr (PinDeedDone) done = demo_begin (demo, "RH");
  g_autoptr (PinCar) car = demo_load (demo, which, error);
  g_autoptr (GArray) parts = sets_used (demo, which, row->runs, row->seconds, 0);

  row->parts = parts;
  return car != NULL &&
         demo_finish (demo, done, pin_inventory_outing (done, demo->library, car, row, error),
                      error);
}

void
demo_outings (Demo *demo, GArray *events)
{
  for (int car = 0; car < DEMO_CARS; car++)
    {
      const Use *use = &uses[car];
      double step = (double) (use->from - use->to) / (use->n - 1);

      for (int i = 0; i < use->n; i++)
        {
          double jitter =
              i > 0 && i + 1 < use->n ? 0.4 * step * pin_dice_spread (&demo->dice) : 0;
          DemoEvent event = { (int) lround (use->from - i * step + jitter), (DemoCar) car,
                              outing };

          g_array_append_val (events, event);
        }
    }
}
