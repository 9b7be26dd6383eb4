#include "big-book.h"

#include <math.h>

#include "base/day.h"
#include "book/queries.h"
#include "demo/demo-private.h"

typedef struct
{
  Demo demo;                  /* its tools, with the car that is being made in cars[0] */
  const BigBookSize *size;
  char *first_day;
  GPtrArray *types;           /* PinChassis* */
} Making;

/* One inspection that is written again and again. */
typedef struct
{
  char *plan;
  PinWalk *walk;              /* its questions as they would be asked now */
} Pattern;

#define OK(call) \
  G_STMT_START { g_autoptr (GError) error = NULL; \
    if (!(call)) g_error (#call ": %s", error ? error->message : "failed"); } G_STMT_END

/* ---- What a pattern is made of ---- */

static gpointer
load_walk (PinDb *db, gpointer data, GError **error)
{
  return pin_walk_rows_load (db, *(gint64 *) data, error);
}

static PinCar *
load_car (Making *self)
{
  PinCar *car;

  OK (car = demo_load (&self->demo, 0, &error));
  return car;
}

/* Begins the inspection @what, keeps its plan and its questions, abandons it. */
static Pattern
pattern_new (Making *self, const char *what)
{
  g_autoptr (PinCar) car = load_car (self);
  g_autoptr (PinBatch) begun = pin_batch_new (self->demo.book);
  g_autoptr (PinBatch) ended = pin_batch_new (self->demo.book);
  PinWalkRows *rows;
  Pattern pattern = { 0 };
  gint64 id;

  OK (id = pin_walk_begin (begun, self->demo.library, car, what, "AB", &error));
  OK (pin_book_commit (self->demo.book, begun, &error));
  OK (rows = pin_book_run (self->demo.book, load_walk, &id, &error));
  pattern.plan = g_strdup (rows->inspection->plan);
  OK (pattern.walk = pin_walk_new (rows, self->demo.library, &error));
  OK (pin_walk_abandon (pattern.walk, "AB", ended, &error));
  OK (pin_book_commit (self->demo.book, ended, &error));
  return pattern;
}

static void
pattern_clear (Pattern *self)
{
  g_free (self->plan);
  pin_walk_free (self->walk);
}

/* ---- A signed inspection as rows ---- */

typedef struct
{
  Making *making;
  PinBatch *batch;
  gint64 inspection;
  char *day;
} Visit;

static void
add_reading (const Visit *visit, const PinQuestion *question, gint64 thing, gint64 answer)
{
  double value = 1 + 0.2 * pin_dice_unit (&visit->making->demo.dice);
  g_autofree char *typed = g_strdup_printf ("%.2f", value);

  pin_batch_reading (visit->batch, &(PinReading){
    .thing = thing, .place = question->slot ? question->slot->place : 0,
    .quantity = question->step->measure->quantity, .value = value, .typed = typed,
    .phase = question->phase, .answer = answer, .day = visit->day, .person = (char *) "AB" });
}

static void
add_finding (const Visit *visit, const PinQuestion *question, gint64 vehicle, gint64 answer)
{
  PinFinding row = { .event = (char *) "opened", .vehicle = vehicle,
                     .place = question->slot ? question->slot->place : 0,
                     .part = question->slot ? question->slot->part : 0,
                     .gravity = PIN_GRAVITY_WATCH, .cause = answer, .day = visit->day };

  row.opens = pin_batch_finding (visit->batch, &row);
  row.event = (char *) "closed";
  row.gravity = PIN_GRAVITY_NONE;
  pin_batch_finding (visit->batch, &row);
}

static void
add_answer (const Visit *visit, const PinQuestion *question)
{
  PinDice *dice = &visit->making->demo.dice;
  gint64 vehicle = visit->making->demo.cars[0];
  gboolean asks = question->kind == PIN_QUESTION_STEP;
  gboolean watch = asks && pin_dice_chance (dice, 0.02);
  gint64 part = question->slot ? question->slot->part : 0, thing = part ? part : vehicle, answer;

  answer = pin_batch_answer (visit->batch, &(PinAnswer){
    .inspection = visit->inspection, .step = question->stored,
    .place = question->slot ? question->slot->place : 0, .part = part, .phase = question->phase,
    .outcome = !asks ? PIN_OUTCOME_DONE : watch ? PIN_OUTCOME_WATCH : PIN_OUTCOME_PASS,
    .person = (char *) "AB" });
  if (!asks)
    return;
  if (question->step->measure != NULL)
    add_reading (visit, question, thing, answer);
  if (question->step->deeds != NULL && question->step->deeds[0] != NULL)
    pin_batch_work (visit->batch, &(PinWork){
      .thing = thing, .place = question->slot ? question->slot->place : 0,
      .deed = question->step->deeds[0], .answer = answer, .cost = -1, .day = visit->day,
      .person = (char *) "AB" });
  if (watch)
    add_finding (visit, question, vehicle, answer);
}

static void
add_inspection (Making *self, PinBatch *batch, const Pattern *pattern, char *day)
{
  const GPtrArray *questions = pin_walk_questions (pattern->walk);
  Visit visit = { self, batch, 0, day };

  visit.inspection = pin_batch_inspection (batch, &(PinInspection){
    .vehicle = self->demo.cars[0], .plan = pattern->plan, .lang = (char *) "en", .day = day,
    .person = (char *) "AB" });
  for (guint i = 0; i < questions->len; i++)
    add_answer (&visit, questions->pdata[i]);
  pin_batch_sign_off (batch, &(PinSignOff){ .inspection = visit.inspection,
                                            .verdict = (char *) "signed", .day = day,
                                            .person = (char *) "AB" });
}

/* ---- A year ---- */

static void
add_outing (Making *self, PinBatch *batch, char *day)
{
  pin_batch_outing (batch, &(PinOuting){
    .vehicle = self->demo.cars[0], .day = day, .seconds = pin_dice_int (&self->demo.dice, 300, 1500),
    .runs = 1, .litres = NAN, .surface = (char *) "clay", .dirt = (char *) "dusty",
    .water = (char *) "none", .salt = 0, .knocks = 1, .ambient = 18, .person = (char *) "AB" });
}

/* Every fifteenth position gets a new part. */
static void
replace_parts (Making *self, PinBatch *batch, int year, char *day)
{
  g_autoptr (PinCar) car = load_car (self);

  for (guint i = (guint) year % 15; i < car->slots->len; i += 15)
    {
      const PinSlot *slot = car->slots->pdata[i];
      gint64 fresh;

      if (slot->part == 0)
        continue;
      fresh = pin_batch_part (batch, 0, slot->kind, 0);
      pin_batch_fitting (batch, &(PinFitting){ .part = slot->part, .shelf = (char *) "bin",
                                               .day = day, .person = (char *) "AB" });
      pin_batch_fitting (batch, &(PinFitting){ .part = fresh, .place = slot->place, .day = day,
                                               .person = (char *) "AB" });
    }
}

static void
live_year (Making *self, int year, const Pattern *patterns)
{
  g_autoptr (PinBatch) batch = pin_batch_new (self->demo.book);
  int outings = self->size->outings / self->size->years;
  int inspections = self->size->inspections / self->size->years;
  g_autofree char *new_year = pin_day_add (self->first_day, 365 * year);

  if (year > 0)
    replace_parts (self, batch, year, new_year);
  for (int i = 0; i < outings; i++)
    {
      g_autofree char *day = pin_day_add (self->first_day, 365 * year + i * 365 / outings);

      add_outing (self, batch, day);
      if (inspections > 0 && i * inspections / outings != (i + 1) * inspections / outings)
        add_inspection (self, batch, &patterns[i * inspections / outings % 5 != 0], day);
    }
  OK (pin_book_commit (self->demo.book, batch, &error));
}

/* ---- A car ---- */

static const char *
longest (Making *self, const PinCar *car)
{
  g_autoptr (GPtrArray) teardowns = pin_library_teardowns (self->demo.library);

  for (guint i = 0; i < teardowns->len; i++)
    if (pin_teardown_fits (teardowns->pdata[i], car))
      return ((PinTeardown *) teardowns->pdata[i])->id;
  g_error ("no teardown fits a %s", car->chassis->id);
}

static void
add_car (Making *self, int number)
{
  PinNewVehicle what = PIN_NEW_VEHICLE_INIT;
  g_autofree char *name = g_strdup_printf ("Number %d", number + 1);
  const PinChassis *type = self->types->pdata[(guint) number % self->types->len];

  what.name = name;
  what.chassis = type->id;
  what.seconds = 0;
  what.day = self->first_day;
  OK (demo_add (&self->demo, 0, &what, &error));
}

static void
live (Making *self)
{
  g_autoptr (PinCar) car = load_car (self);
  const char *whole = longest (self, car);
  Pattern patterns[2];

  for (int year = 0; year < self->size->years; year++)
    {
      patterns[0] = pattern_new (self, whole);
      patterns[1] = pattern_new (self, "fastener-check");
      live_year (self, year, patterns);
      pattern_clear (&patterns[0]);
      pattern_clear (&patterns[1]);
    }
}

static gpointer
load_last (PinDb *db, gpointer data, GError **error)
{
  return pin_query_last_signed (db, *(gint64 *) data, error);
}

static gint64
walk_last (Making *self)
{
  g_autoptr (PinCar) car = load_car (self);
  DemoWalk how = { .what = longest (self, car), .person = "AB", .wear = 0.1 };
  PinInspectionRow *row;
  gint64 id;

  OK (demo_go_to (&self->demo, 0, 12));
  OK (demo_walk (&self->demo, 0, &how, &error));
  OK (row = pin_book_run (self->demo.book, load_last, &self->demo.cars[0], &error));
  id = row->id;
  pin_inspection_row_free (row);
  return id;
}

PinBook *
big_book_make (const char *path, PinLibrary *library, const BigBookSize *size, GArray *vehicles,
               GArray *walks)
{
  g_autofree char *today = pin_today ();
  g_autofree char *first_day = pin_day_add (today, -365 * size->years - 2);
  g_autoptr (GPtrArray) types = pin_library_chassis_all (library);
  Making self = { .demo = { .library = library, .today = today }, .size = size,
                  .first_day = first_day, .types = types };

  OK (self.demo.book = pin_book_create (path, &error));
  pin_dice_seed (&self.demo.dice, 7);
  for (int i = 0; i < size->vehicles; i++)
    {
      OK (demo_go_to (&self.demo, 365 * size->years + 1, 12));
      add_car (&self, i);
      live (&self);
      if (vehicles != NULL)
        g_array_append_val (vehicles, self.demo.cars[0]);
      if (walks != NULL)
        {
          gint64 walk = walk_last (&self);

          g_array_append_val (walks, walk);
        }
    }
  pin_pretend_now (0);
  return self.demo.book;
}
