#include "book/clocks.h"

#include <math.h>
#include <string.h>

typedef struct /* one outing, as far as clocks care */
{
  char day[11];
  gint64 at, vehicle;
  double seconds, runs, litres;
} Use;

typedef struct /* one move of a part */
{
  PinMoment moment;
  gint64 id, place, vehicle; /* vehicle 0: off */
} Move;

typedef struct
{
  GArray *moves; /* Move, in order */
  GArray *uses;  /* Use: outings that name the part (packs, tyre sets) */
} Life;

struct _PinClockwork
{
  PinDb *db;
  GHashTable *logs;  /* vehicle → GArray of Use, by day and id */
  GHashTable *lives; /* part → Life */
};

static void
life_free (Life *self)
{
  g_clear_pointer (&self->moves, g_array_unref);
  g_clear_pointer (&self->uses, g_array_unref);
  g_free (self);
}

static gint64 *
key_of (gint64 id)
{
  return g_memdup2 (&id, sizeof id);
}

/* --- order ------------------------------------------------------------------ */

void
pin_moment_set (PinMoment *self, const char *day, gint64 at, gboolean is_work)
{
  g_strlcpy (self->day, day ? day : "", sizeof self->day);
  self->at = at;
  self->is_work = is_work;
}

static gboolean
use_before (const Use *use, const PinMoment *moment)
{
  int order = strcmp (use->day, moment->day);

  if (order != 0)
    return order < 0;
  if (use->at != 0 && moment->at != 0)
    return moment->is_work ? use->at <= moment->at : use->at < moment->at;
  return moment->is_work;
}

static gboolean
move_before (const PinMoment *move, const PinMoment *work)
{
  int order = strcmp (move->day, work->day);

  if (order != 0)
    return order < 0;
  return move->at == 0 || work->at == 0 || move->at <= work->at;
}

/* --- reading ---------------------------------------------------------------- */

static void
read_use (PinStmt *stmt, Use *use)
{
  g_strlcpy (use->day, pin_stmt_text (stmt, 0) ? pin_stmt_text (stmt, 0) : "", sizeof use->day);
  use->at = pin_stmt_int (stmt, 1);
  use->seconds = pin_stmt_is_null (stmt, 2) ? 0 : pin_stmt_real (stmt, 2);
  use->runs = pin_stmt_is_null (stmt, 3) ? 0 : pin_stmt_real (stmt, 3);
  use->litres = pin_stmt_is_null (stmt, 4) ? 0 : pin_stmt_real (stmt, 4);
  use->vehicle = pin_stmt_int (stmt, 5);
}

static GArray *
read_uses (PinDb *db, const char *sql, gint64 id, GError **error)
{
  g_autoptr (PinStmt) stmt = pin_db_prepare (db, sql, error);
  g_autoptr (GArray) uses = g_array_new (FALSE, TRUE, sizeof (Use));
  g_autoptr (GError) local = NULL;

  if (stmt == NULL)
    return NULL;
  pin_stmt_bind_int (stmt, 1, id);
  while (pin_stmt_next (stmt, &local))
    {
      Use use = { 0 };

      read_use (stmt, &use);
      g_array_append_val (uses, use);
    }
  if (local == NULL)
    return g_steal_pointer (&uses);
  g_propagate_error (error, g_steal_pointer (&local));
  return NULL;
}

static GArray *
log_of (PinClockwork *self, gint64 vehicle, GError **error)
{
  GArray *log = g_hash_table_lookup (self->logs, &vehicle);

  if (log != NULL)
    return log;
  log = read_uses (self->db,
                   "SELECT day, at, seconds, runs, litres, vehicle FROM outing "
                   "WHERE vehicle = ?1 AND live ORDER BY day, id",
                   vehicle, error);
  if (log != NULL)
    g_hash_table_insert (self->logs, key_of (vehicle), log);
  return log;
}

static GArray *
read_moves (PinDb *db, gint64 part, GError **error)
{
  g_autoptr (PinStmt) stmt =
      pin_db_prepare (db, "SELECT f.id, f.day, f.at, f.place, p.vehicle FROM fitting f "
                          "LEFT JOIN place p ON p.id = f.place WHERE f.part = ?1 AND f.live "
                          "ORDER BY f.day, f.at, f.id",
                      error);
  g_autoptr (GArray) moves = g_array_new (FALSE, TRUE, sizeof (Move));
  g_autoptr (GError) local = NULL;

  if (stmt == NULL)
    return NULL;
  pin_stmt_bind_int (stmt, 1, part);
  while (pin_stmt_next (stmt, &local))
    {
      Move move = { .id = pin_stmt_int (stmt, 0), .place = pin_stmt_int (stmt, 3),
                    .vehicle = pin_stmt_int (stmt, 4) };

      pin_moment_set (&move.moment, pin_stmt_text (stmt, 1), pin_stmt_int (stmt, 2), FALSE);
      g_array_append_val (moves, move);
    }
  if (local == NULL)
    return g_steal_pointer (&moves);
  g_propagate_error (error, g_steal_pointer (&local));
  return NULL;
}

static Life *
life_of (PinClockwork *self, gint64 part, GError **error)
{
  Life *life = g_hash_table_lookup (self->lives, &part);

  if (life != NULL)
    return life;
  life = g_new0 (Life, 1);
  life->moves = read_moves (self->db, part, error);
  if (life->moves != NULL)
    life->uses = read_uses (self->db,
                            "SELECT o.day, o.at, u.seconds, u.runs, NULL, o.vehicle "
                            "FROM outing_part u "
                            "JOIN outing o ON o.id = u.outing WHERE u.part = ?1 AND o.live "
                            "ORDER BY o.day, o.id",
                            part, error);
  if (life->uses == NULL)
    {
      life_free (life);
      return NULL;
    }
  g_hash_table_insert (self->lives, key_of (part), life);
  return life;
}

/* --- counting --------------------------------------------------------------- */

/* Adds to clocks; last is the day counted last, so that no day counts twice. */
typedef struct
{
  PinClocks clocks;
  char last[11];
} Count;

static void
count (Count *self, const Use *use)
{
  self->clocks.seconds += use->seconds;
  self->clocks.runs += use->runs;
  self->clocks.litres += use->litres;
  if (strcmp (use->day, self->last) == 0)
    return;
  self->clocks.outings += 1;
  memcpy (self->last, use->day, sizeof self->last);
}

/* First outing of @log on or after @day. */
static guint
first_on (GArray *log, const char *day)
{
  guint low = 0, high = log->len;

  while (low < high)
    {
      guint middle = low + (high - low) / 2;

      if (strcmp (g_array_index (log, Use, middle).day, day) < 0)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

/* Counts what lies after @from and before each of the ends that is not NULL. */
static void
count_between (Count *self, GArray *log, const PinMoment *from, const PinMoment *to,
               const PinMoment *until)
{
  for (guint i = from ? first_on (log, from->day) : 0; i < log->len; i++)
    {
      const Use *use = &g_array_index (log, Use, i);

      if ((to && strcmp (use->day, to->day) > 0) || (until && strcmp (use->day, until->day) > 0))
        break;
      if ((from == NULL || !use_before (use, from)) && (to == NULL || use_before (use, to)) &&
          (until == NULL || use_before (use, until)))
        count (self, use);
    }
}

/* Was the part on the vehicle of @use at that time?  Then the vehicle's own
 * log has counted it. */
static gboolean
fitted_at (const Life *life, const Use *use)
{
  gint64 vehicle = 0;

  for (guint i = 0; i < life->moves->len; i++)
    {
      const Move *move = &g_array_index (life->moves, Move, i);

      if (use_before (use, &move->moment))
        break;
      vehicle = move->vehicle;
    }
  return vehicle != 0 && vehicle == use->vehicle;
}

static void
count_uses (Count *self, const Life *life, const PinMoment *until)
{
  Count own = { 0 };

  for (guint i = 0; i < life->uses->len; i++)
    {
      const Use *use = &g_array_index (life->uses, Use, i);

      if ((until == NULL || use_before (use, until)) && !fitted_at (life, use))
        count (&own, use);
    }
  self->clocks.seconds += own.clocks.seconds;
  self->clocks.runs += own.clocks.runs;
  self->clocks.outings += own.clocks.outings;
}

/* Periods on vehicles up to @until (NULL: all), in order.  *last_on is the move
 * of a period still open, or NULL; @closed_only leaves that one out. */
static gboolean
count_moves (PinClockwork *self, Count *sum, const Life *life, const PinMoment *until,
             gboolean closed_only, GError **error)
{
  for (guint i = 0; i < life->moves->len; i++)
    {
      const Move *move = &g_array_index (life->moves, Move, i);
      const Move *next = i + 1 < life->moves->len ? move + 1 : NULL;
      GArray *log;

      if (until != NULL && !move_before (&move->moment, until))
        break;
      if (move->vehicle == 0 || (closed_only && next == NULL))
        continue;
      log = log_of (self, move->vehicle, error);
      if (log == NULL)
        return FALSE;
      count_between (sum, log, &move->moment, next ? &next->moment : NULL, until);
    }
  return TRUE;
}

/* --- public ----------------------------------------------------------------- */

/* Reads what it needs from @db when first asked, and keeps it: for use within
 * one transaction, after its facts are written. */
PinClockwork *
pin_clockwork_new (PinDb *db)
{
  PinClockwork *self = g_new0 (PinClockwork, 1);

  self->db = db;
  self->logs =
      g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, (GDestroyNotify) g_array_unref);
  self->lives =
      g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, (GDestroyNotify) life_free);
  return self;
}

void
pin_clockwork_free (PinClockwork *self)
{
  if (self == NULL)
    return;
  g_hash_table_destroy (self->logs);
  g_hash_table_destroy (self->lives);
  g_free (self);
}

/* The days in *meter are borrowed from @self. */
gboolean
pin_clockwork_meter (PinClockwork *self, gint64 vehicle, PinMeter *meter, GError **error)
{
  GArray *log = log_of (self, vehicle, error);
  Count all = { 0 };

  if (log == NULL)
    return FALSE;
  count_between (&all, log, NULL, NULL, NULL);
  meter->clocks = all.clocks;
  meter->first_day = log->len > 0 ? g_array_index (log, Use, 0).day : NULL;
  meter->last_day = log->len > 0 ? g_array_index (log, Use, log->len - 1).day : NULL;
  return TRUE;
}

/* Base of a part that is on a vehicle: its past, less what the meter showed
 * when it went on.  Days are counted whole, so that a day shared by two periods
 * or by two parts of one place comes out right. */
static gboolean
on_vehicle (PinClockwork *self, const Life *life, const Move *move, PinStanding *standing,
            GError **error)
{
  Count past = { 0 }, now = { 0 }, then = { 0 };
  PinMeter meter;

  if (!count_moves (self, &past, life, NULL, TRUE, error) ||
      !count_moves (self, &now, life, NULL, FALSE, error) ||
      !pin_clockwork_meter (self, move->vehicle, &meter, error))
    return FALSE;
  count_between (&then, log_of (self, move->vehicle, NULL), NULL, &move->moment, NULL);
  count_uses (&past, life, NULL);
  standing->base.seconds = past.clocks.seconds - then.clocks.seconds;
  standing->base.runs = past.clocks.runs - then.clocks.runs;
  standing->base.litres = past.clocks.litres - then.clocks.litres;
  count_uses (&now, life, NULL);
  standing->base.outings = now.clocks.outings - meter.clocks.outings;
  return TRUE;
}

gboolean
pin_clockwork_standing (PinClockwork *self, gint64 part, PinStanding *standing, GError **error)
{
  Life *life = life_of (self, part, error);
  const Move *last;
  Count all = { 0 };

  if (life == NULL)
    return FALSE;
  memset (standing, 0, sizeof *standing);
  last = life->moves->len > 0 ? &g_array_index (life->moves, Move, life->moves->len - 1) : NULL;
  if (last != NULL)
    {
      standing->vehicle = last->vehicle;
      standing->place = last->place;
      standing->fitting = last->id;
    }
  if (standing->vehicle != 0)
    return on_vehicle (self, life, last, standing, error);
  if (!count_moves (self, &all, life, NULL, FALSE, error))
    return FALSE;
  count_uses (&all, life, NULL);
  standing->base = all.clocks;
  return TRUE;
}

/* The clocks of a part, or of a vehicle, at @moment. */
gboolean
pin_clockwork_at (PinClockwork *self, gint64 thing, const PinMoment *moment, PinClocks *clocks,
                  GError **error)
{
  Life *life = life_of (self, thing, error);
  GArray *log = life ? log_of (self, thing, error) : NULL;
  Count all = { 0 };

  if (log == NULL)
    return FALSE;
  if (!count_moves (self, &all, life, moment, FALSE, error))
    return FALSE;
  count_uses (&all, life, moment);
  /* A thing is a vehicle or a part; whichever it is not has nothing to count. */
  count_between (&all, log, NULL, moment, NULL);
  *clocks = all.clocks;
  return TRUE;
}
