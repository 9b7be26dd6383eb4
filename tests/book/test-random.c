#include "fixture.h"

#include <math.h>
#include <string.h>

/* Random histories: after every batch the derived tables must agree with a
 * rebuild (verify says so) and with a plain reckoning of the rule of clocks
 * that shares no code with the book. */

#define VEHICLES 3
#define PLACES 3
#define PARTS 6
#define STEPS 220
#define FIRST G_GINT64_CONSTANT (1767225600000) /* 2026-01-01 UTC */

typedef struct
{
  gint64 id, at, what; /* vehicle of an outing, place of a move, thing of a work */
  gint64 part;
  int day; /* of 2026 */
  double seconds;
  gboolean live;
  const char *deed;
} Event;

typedef struct
{
  Fixture *f;
  GRand *rand;
  gint64 vehicles[VEHICLES], places[VEHICLES * PLACES], parts[PARTS];
  GArray *outings, *moves, *works; /* Event */
} World;

static const char *const deeds[] = { "oiled", "greased" };

/* --- a plain reckoning ------------------------------------------------------ */

static gboolean
outing_first (const Event *outing, const Event *other, gboolean is_work)
{
  if (outing->day != other->day)
    return outing->day < other->day;
  if (outing->at && other->at)
    return is_work ? outing->at <= other->at : outing->at < other->at;
  return is_work;
}

static gboolean
move_order (const Event *a, const Event *b)
{
  if (a->day != b->day)
    return a->day < b->day;
  if (a->at != b->at)
    return a->at < b->at;
  return a->id < b->id;
}

static gboolean
move_first (const Event *move, const Event *work)
{
  if (move->day != work->day)
    return move->day < work->day;
  return !move->at || !work->at || move->at <= work->at;
}

static const Event *
where_at (World *w, gint64 part, const Event *outing)
{
  const Event *last = NULL;

  for (guint i = 0; i < w->moves->len; i++)
    {
      const Event *move = &g_array_index (w->moves, Event, i);

      if (move->live && move->part == part && !outing_first (outing, move, FALSE) &&
          (last == NULL || move_order (last, move)))
        last = move;
    }
  return last;
}

static gint64
vehicle_of (World *w, gint64 place)
{
  for (int i = 0; i < VEHICLES * PLACES; i++)
    if (w->places[i] == place)
      return w->vehicles[i / PLACES];
  return 0;
}

/* Seconds and days of use of @thing until @work (NULL: now). */
static void
reckon (World *w, gint64 thing, const Event *work, double *seconds, int *days)
{
  gboolean used[400] = { FALSE };

  *seconds = *days = 0;
  for (guint i = 0; i < w->outings->len; i++)
    {
      const Event *outing = &g_array_index (w->outings, Event, i);
      const Event *where = where_at (w, thing, outing);

      if (!outing->live || (work && !outing_first (outing, work, TRUE)))
        continue;
      if (outing->what != thing && (where == NULL || vehicle_of (w, where->what) != outing->what ||
                                    (work && !move_first (where, work))))
        continue;
      *seconds += isnan (outing->seconds) ? 0 : outing->seconds;
      if (!used[outing->day])
        ++*days;
      used[outing->day] = TRUE;
    }
}

static gboolean
work_later (const Event *a, const Event *b)
{
  if (a->day != b->day)
    return a->day > b->day;
  if (a->at != b->at)
    return a->at == 0 || (b->at != 0 && a->at > b->at);
  return a->id > b->id;
}

static const Event *
last_work (World *w, gint64 thing, const char *deed)
{
  const Event *last = NULL;

  for (guint i = 0; i < w->works->len; i++)
    {
      const Event *work = &g_array_index (w->works, Event, i);

      if (work->live && work->what == thing && g_str_equal (work->deed, deed) &&
          (last == NULL || work_later (work, last)))
        last = work;
    }
  return last;
}

/* --- comparing -------------------------------------------------------------- */

static void
check_marks (World *w, gint64 thing)
{
  g_autoptr (GPtrArray) marks = ask (w->f->book, pin_query_marks_of, thing);
  guint expected = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (deeds); i++)
    {
      const Event *work = last_work (w, thing, deeds[i]);
      gboolean found = FALSE;
      double seconds;
      int days;

      if (work == NULL)
        continue;
      expected++;
      reckon (w, thing, work, &seconds, &days);
      for (guint j = 0; j < marks->len; j++)
        {
          PinMarkRow *row = marks->pdata[j];

          if (!g_str_equal (row->deed, deeds[i]))
            continue;
          found = TRUE;
          g_assert_cmpfloat_with_epsilon (row->seconds, seconds, 1e-6);
          g_assert_cmpfloat (row->outings, ==, days);
        }
      g_assert_true (found);
    }
  g_assert_cmpint (marks->len, ==, expected);
}

static void
check (World *w)
{
  double seconds;
  int days;

  for (int i = 0; i < PARTS; i++)
    {
      PinPartRow *row = the_part (w->f->book, w->parts[i]);

      reckon (w, w->parts[i], NULL, &seconds, &days);
      g_assert_cmpfloat_with_epsilon (row->seconds, seconds, 1e-6);
      g_assert_cmpfloat (row->outings, ==, days);
      pin_part_row_free (row);
      check_marks (w, w->parts[i]);
    }
  for (int i = 0; i < VEHICLES; i++)
    {
      PinVehicleRow *row = the_vehicle (w->f->book, w->vehicles[i]);

      reckon (w, w->vehicles[i], NULL, &seconds, &days);
      g_assert_cmpfloat_with_epsilon (row->seconds, seconds, 1e-6);
      g_assert_cmpfloat (row->outings, ==, days);
      pin_vehicle_row_free (row);
      check_marks (w, w->vehicles[i]);
    }
  assert_sound (w->f->book);
}

/* --- making history --------------------------------------------------------- */

static int
pick (World *w, int n)
{
  return g_rand_int_range (w->rand, 0, n);
}

static char *
day_text (int day)
{
  g_autoptr (GDateTime) date = g_date_time_new_from_unix_utc (FIRST / 1000 + day * 86400);

  return g_date_time_format (date, "%Y-%m-%d");
}

static void
set_time (World *w, Event *event)
{
  event->day = 1 + pick (w, 25);
  event->at =
      pick (w, 2) ? FIRST + event->day * G_GINT64_CONSTANT (86400000) + pick (w, 24) * 3600000 : 0;
}

/* A live event of @all to correct or withdraw, one time in three. */
static Event *
to_correct (World *w, GArray *all)
{
  Event *event;

  if (all->len == 0 || pick (w, 3) != 0)
    return NULL;
  event = &g_array_index (all, Event, pick (w, all->len));
  return event->live ? event : NULL;
}

static void
retire (Event *old, gint64 *replaces, gboolean *is_void, World *w)
{
  if (old == NULL)
    return;
  *replaces = old->id;
  *is_void = pick (w, 2);
  old->live = FALSE;
}

static void
some_outing (World *w, PinBatch *batch)
{
  Event event = { .what = w->vehicles[pick (w, VEHICLES)] };
  g_autofree char *day = NULL;
  PinOuting row;

  set_time (w, &event);
  event.seconds = pick (w, 5) ? g_rand_double_range (w->rand, 1, 2000) : NAN;
  day = day_text (event.day);
  row = an_outing (event.what, day);
  row.at = event.at;
  row.seconds = event.seconds;
  retire (to_correct (w, w->outings), &row.replaces, &row.is_void, w);
  event.id = pin_batch_outing (batch, &row);
  event.live = !row.is_void;
  g_array_append_val (w->outings, event);
}

static void
some_move (World *w, PinBatch *batch)
{
  Event event = { .part = w->parts[pick (w, PARTS)],
                  .what = pick (w, 4) ? w->places[pick (w, VEHICLES * PLACES)] : 0 };
  g_autofree char *day = NULL;
  PinFitting row = { .part = event.part, .place = event.what };

  set_time (w, &event);
  row.day = day = day_text (event.day);
  row.at = event.at;
  row.shelf = event.what ? NULL : (char *) "shelf";
  retire (to_correct (w, w->moves), &row.replaces, &row.is_void, w);
  event.id = pin_batch_fitting (batch, &row);
  event.live = !row.is_void;
  g_array_append_val (w->moves, event);
}

static void
some_work (World *w, PinBatch *batch)
{
  Event event = { .what = pick (w, 4) ? w->parts[pick (w, PARTS)] : w->vehicles[pick (w, VEHICLES)],
                  .deed = deeds[pick (w, G_N_ELEMENTS (deeds))] };
  g_autofree char *day = NULL;
  PinWork row = { .thing = event.what, .deed = (char *) event.deed, .cost = -1 };

  set_time (w, &event);
  row.day = day = day_text (event.day);
  row.at = event.at;
  retire (to_correct (w, w->works), &row.replaces, &row.is_void, w);
  event.id = pin_batch_work (batch, &row);
  event.live = !row.is_void;
  g_array_append_val (w->works, event);
}

/* An outing after everything, as logged every day: the short way. */
static void
plain_outing (World *w, PinBatch *batch, int step)
{
  Event event = {
    .what = w->vehicles[pick (w, VEHICLES)], .day = 30 + step, .seconds = 100, .live = TRUE
  };
  g_autofree char *day = day_text (event.day);
  PinOuting row = an_outing (event.what, day);

  row.seconds = event.seconds;
  event.id = pin_batch_outing (batch, &row);
  g_array_append_val (w->outings, event);
}

static void
one_batch (World *w, int step)
{
  PinBatch *batch = pin_batch_new (w->f->book);

  for (int n = 1 + pick (w, 3); n > 0; n--)
    switch (pick (w, 5))
      {
      case 0:
      case 1:
        some_outing (w, batch);
        break;
      case 2:
        some_move (w, batch);
        break;
      case 3:
        some_work (w, batch);
        break;
      default:
        plain_outing (w, batch, step);
        break;
      }
  commit (w->f->book, batch);
}

static void
found_world (World *w)
{
  for (int i = 0; i < VEHICLES; i++)
    w->vehicles[i] = add_vehicle (w->f->book, "One of three");
  for (int i = 0; i < VEHICLES * PLACES; i++)
    {
      g_autofree char *code = g_strdup_printf ("place.%d", i);

      w->places[i] = add_place (w->f->book, w->vehicles[i / PLACES], code);
    }
  for (int i = 0; i < PARTS; i++)
    w->parts[i] = add_part (w->f->book, "bearing");
}

static void
test_history (Fixture *f, gconstpointer data)
{
  World w = { .f = f, .rand = g_rand_new_with_seed (GPOINTER_TO_UINT (data)),
              .outings = g_array_new (FALSE, TRUE, sizeof (Event)),
              .moves = g_array_new (FALSE, TRUE, sizeof (Event)),
              .works = g_array_new (FALSE, TRUE, sizeof (Event)) };

  found_world (&w);
  for (int step = 0; step < STEPS; step++)
    {
      one_batch (&w, step);
      check (&w);
    }
  g_assert_true (pin_book_rebuild (f->book, NULL));
  check (&w);
  g_array_unref (w.outings);
  g_array_unref (w.moves);
  g_array_unref (w.works);
  g_rand_free (w.rand);
}

#define ADD(path, seed) \
  g_test_add ("/book/random/" path, Fixture, GUINT_TO_POINTER (seed), fixture_set_up, \
              test_history, fixture_tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("one", 1);
  ADD ("two", 20260101);
  ADD ("three", 77);
  return g_test_run ();
}
