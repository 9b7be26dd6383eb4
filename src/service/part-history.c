#include "service/part-history.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "service/finding-text.h"

/* The rows of one part. */
typedef struct
{
  gint64 part;
  GPtrArray *works, *answers, *readings, *fittings, *findings;
  GPtrArray *places;          /* PinPlaceRow*: where it ever sat */
  GPtrArray *inspections;     /* PinInspectionRow*: walks that looked at it */
} PartRows;

struct _PinHistoryRows
{
  GPtrArray *parts;           /* PartRows* */
  GHashTable *places;         /* id → PinPlaceRow*, borrowed from the parts */
  GHashTable *walks;          /* id → PinInspectionRow*, likewise */
  GHashTable *vehicles;       /* id → PinVehicleRow*: those that the places are on */
};

/* ---- Reading ---- */

static void
part_rows_free (PartRows *rows)
{
  g_clear_pointer (&rows->works, g_ptr_array_unref);
  g_clear_pointer (&rows->answers, g_ptr_array_unref);
  g_clear_pointer (&rows->readings, g_ptr_array_unref);
  g_clear_pointer (&rows->fittings, g_ptr_array_unref);
  g_clear_pointer (&rows->findings, g_ptr_array_unref);
  g_clear_pointer (&rows->places, g_ptr_array_unref);
  g_clear_pointer (&rows->inspections, g_ptr_array_unref);
  g_free (rows);
}

void
pin_history_rows_free (PinHistoryRows *rows)
{
  if (rows == NULL)
    return;
  g_clear_pointer (&rows->places, g_hash_table_unref);
  g_clear_pointer (&rows->walks, g_hash_table_unref);
  g_clear_pointer (&rows->vehicles, g_hash_table_unref);
  g_clear_pointer (&rows->parts, g_ptr_array_unref);
  g_free (rows);
}

static gboolean
load_part (PinHistoryRows *rows, PinDb *db, gint64 part, GError **error)
{
  PartRows *of = g_new0 (PartRows, 1);

  g_ptr_array_add (rows->parts, of);
  of->part = part;
  return (of->works = pin_query_works_of (db, part, error)) != NULL &&
         (of->answers = pin_query_part_answers (db, part, error)) != NULL &&
         (of->readings = pin_query_readings_of (db, part, NULL, error)) != NULL &&
         (of->fittings = pin_query_fittings (db, part, error)) != NULL &&
         (of->findings = pin_query_findings_of_part (db, part, error)) != NULL &&
         (of->places = pin_query_places_of_part (db, part, error)) != NULL &&
         (of->inspections = pin_query_inspections_of_part (db, part, error)) != NULL;
}

static gboolean
load_vehicle (PinHistoryRows *rows, PinDb *db, gint64 vehicle, GError **error)
{
  PinVehicleRow *row;

  if (g_hash_table_contains (rows->vehicles, &vehicle))
    return TRUE;
  row = pin_query_vehicle (db, vehicle, error);
  if (row != NULL)
    g_hash_table_insert (rows->vehicles, &row->id, row);
  return row != NULL;
}

static gboolean
index_part (PinHistoryRows *rows, const PartRows *of, PinDb *db, GError **error)
{
  for (guint i = 0; i < of->inspections->len; i++)
    {
      PinInspectionRow *walk = of->inspections->pdata[i];

      g_hash_table_insert (rows->walks, &walk->id, walk);
    }
  for (guint i = 0; i < of->places->len; i++)
    {
      PinPlaceRow *place = of->places->pdata[i];

      g_hash_table_insert (rows->places, &place->id, place);
      if (!load_vehicle (rows, db, place->vehicle, error))
        return FALSE;
    }
  return TRUE;
}

PinHistoryRows *
pin_history_rows_load (PinDb *db, GArray *parts, GError **error)
{
  g_autoptr (PinHistoryRows) rows = g_new0 (PinHistoryRows, 1);

  rows->parts = g_ptr_array_new_with_free_func ((GDestroyNotify) part_rows_free);
  rows->places = g_hash_table_new (g_int64_hash, g_int64_equal);
  rows->walks = g_hash_table_new (g_int64_hash, g_int64_equal);
  rows->vehicles = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL,
                                          (GDestroyNotify) pin_vehicle_row_free);
  for (guint i = 0; i < parts->len; i++)
    if (!load_part (rows, db, g_array_index (parts, gint64, i), error) ||
        !index_part (rows, rows->parts->pdata[i], db, error))
      return NULL;
  return g_steal_pointer (&rows);
}

/* ---- Gathering ---- */

typedef struct
{
  const PinHistoryRows *rows;
  PinLibrary *library;
  const PinCar *car;
  gint64 part;                /* now being gathered */
  GPtrArray *events;          /* PinEvent* */
  GHashTable *known;          /* day, sort and text → PinEvent* */
  GHashTable *only;           /* PinEvent* → label of its one part (char *) */
  GHashTable *last;           /* PinEvent* → the part it counted last (gint64 *) */
} Gathering;

void
pin_event_free (PinEvent *self)
{
  g_free (self->day);
  g_free (self->text);
  g_free (self);
}

/* Takes @text; the same said of another part on that day counts up. */
static PinEvent *
add (Gathering *self, PinEventKind kind, const char *day, char *text, gint64 id)
{
  g_autofree char *key = g_strdup_printf ("%s %d %s", day, kind, text);
  PinEvent *event = g_hash_table_lookup (self->known, key);
  gint64 *last = event ? g_hash_table_lookup (self->last, event) : NULL;

  if (event != NULL)
    {
      event->n += *last != self->part;
      event->id = MAX (event->id, id);
      *last = self->part;
      g_free (text);
      return event;
    }
  event = g_new0 (PinEvent, 1);
  event->kind = kind;
  event->day = g_strdup (day);
  event->text = text;
  event->id = id;
  event->n = 1;
  last = g_new (gint64, 1);
  *last = self->part;
  g_ptr_array_add (self->events, event);
  g_hash_table_insert (self->known, g_steal_pointer (&key), event);
  g_hash_table_insert (self->last, event, last);
  g_hash_table_insert (self->only, event,
                       self->car ? pin_place_text (self->car, 0, self->part) : g_strdup (""));
  return event;
}

static void
gather_works (Gathering *self, GPtrArray *works)
{
  for (guint i = 0; i < works->len; i++)
    {
      const PinWork *work = works->pdata[i];
      g_autoptr (GString) text = g_string_new (NULL);
      g_autofree char *title = pin_deed_title (self->library, work->deed);

      g_string_append (text, title);
      if (work->told)
        g_string_append_printf (text, _(", from memory (%s)"),
                                work->sure ? work->sure : _("not said how sure"));
      if (work->note != NULL && *work->note)
        g_string_append_printf (text, ": %s", work->note);
      add (self, PIN_EVENT_WORK, work->day, g_string_free (g_steal_pointer (&text), FALSE),
           work->id)->told = work->told;
    }
}

static const char *
day_of_walk (const PinHistoryRows *rows, gint64 inspection)
{
  const PinInspectionRow *row = g_hash_table_lookup (rows->walks, &inspection);

  return row ? row->day : "";
}

static GHashTable *
by_answer (GPtrArray *readings)
{
  GHashTable *table = g_hash_table_new (g_int64_hash, g_int64_equal);

  for (guint i = readings->len; i-- > 0;)
    {
      PinReading *reading = readings->pdata[i];

      g_hash_table_insert (table, &reading->answer, reading);
    }
  return table;
}

static char *
measured_text (Gathering *self, const PinReading *reading)
{
  const PinQuantity *quantity = pin_library_quantity (self->library, reading->quantity);
  g_autofree char *value = pin_reading_text (self->library, reading);
  g_autofree char *title = pin_sentence_case (quantity ? quantity->title : reading->quantity);

  return g_strdup_printf ("%s %s", title, value);
}

static void
gather_answers (Gathering *self, const PartRows *rows)
{
  g_autoptr (GHashTable) readings = by_answer (rows->readings);

  for (guint i = 0; i < rows->answers->len; i++)
    {
      const PinAnswer *answer = rows->answers->pdata[i];
      const PinReading *reading = g_hash_table_lookup (readings, &answer->id);
      g_autofree char *text = NULL;
      PinEvent *event;

      if (answer->outcome == PIN_OUTCOME_DONE || answer->outcome == PIN_OUTCOME_NONE ||
          answer->outcome == PIN_OUTCOME_DOES_NOT_APPLY)
        continue;
      text = reading ? measured_text (self, reading) : pin_answer_text (self->library, answer);
      if (answer->phase != PIN_PHASE_ONLY)
        {
          g_autofree char *said = g_steal_pointer (&text);

          text = g_strdup_printf (
              answer->phase == PIN_PHASE_FOUND ? _("As found: %s") : _("As left: %s"), said);
        }
      event = add (self, PIN_EVENT_ANSWER, day_of_walk (self->rows, answer->inspection),
                   pin_sentence_case (text), answer->id);
      event->outcome = answer->outcome;
      event->unsafe = answer->unsafe;
    }
}

static void
gather_readings (Gathering *self, GPtrArray *readings)
{
  for (guint i = 0; i < readings->len; i++)
    {
      const PinReading *reading = readings->pdata[i];

      if (reading->answer == 0)
        add (self, PIN_EVENT_READING, reading->day, measured_text (self, reading), reading->id);
    }
}

static char *
place_name (const Gathering *self, gint64 place)
{
  const PinPlaceRow *row = g_hash_table_lookup (self->rows->places, &place);
  const PinVehicleRow *vehicle =
      row ? g_hash_table_lookup (self->rows->vehicles, &row->vehicle) : NULL;
  const char *name = vehicle ? vehicle->name : NULL;
  g_autofree char *label = self->car ? pin_place_text (self->car, place, 0) : g_strdup ("");

  return g_strdup_printf ("%s, %s", name ? name : "", *label ? label : row ? row->code : "");
}

static void
gather_fittings (Gathering *self, GPtrArray *fittings)
{
  for (guint i = 0; i < fittings->len; i++)
    {
      const PinFitting *move = fittings->pdata[i];
      g_autofree char *where = move->place ? place_name (self, move->place) : NULL;

      add (self, PIN_EVENT_FITTING, move->day,
           where ? g_strdup_printf (_("Fitted: %s"), where)
                 : g_strdup_printf (_("Off, to the %s"), move->shelf), move->id);
    }
}

static void
gather_findings (Gathering *self, GPtrArray *findings)
{
  for (guint i = 0; i < findings->len; i++)
    {
      const PinFindingRow *finding = findings->pdata[i];
      g_autofree char *what = pin_finding_what (self->library, finding);
      PinEvent *event;

      if (finding->withdrawn)
        continue;
      if (finding->closed)
        add (self, PIN_EVENT_FINDING, finding->last_day,
             g_strdup_printf (_("Finding closed: %s"), what), finding->last);
      event = add (self, PIN_EVENT_FINDING, finding->day,
                   g_strdup_printf (_("Finding opened: %s"), what), finding->id);
      event->outcome =
          finding->gravity == PIN_GRAVITY_WATCH ? PIN_OUTCOME_WATCH : PIN_OUTCOME_FAIL;
      event->unsafe = finding->gravity == PIN_GRAVITY_UNSAFE;
    }
}

/* ---- Finishing ---- */

/* "Oiled" of several: "Oiled, all 4", "Oiled, 2 of 4", "Oiled (left, outer)". */
static void
say_how_many (Gathering *self, PinEvent *event)
{
  g_autofree char *text = event->text;
  const char *only = g_hash_table_lookup (self->only, event);
  guint all = self->rows->parts->len;

  if (all == 1 || (event->kind == PIN_EVENT_FITTING && event->n == 1))
    event->text = g_steal_pointer (&text);
  else if (event->n >= all)
    event->text = g_strdup_printf (_("%s, all %u"), text, all);
  else if (event->n == 1 && *only)
    event->text = g_strdup_printf ("%s (%s)", text, only);
  else
    event->text = g_strdup_printf (_("%s, %u of %u"), text, event->n, all);
}

static int
newest_first (gconstpointer a, gconstpointer b)
{
  const PinEvent *x = *(PinEvent *const *) a, *y = *(PinEvent *const *) b;
  int days = strcmp (y->day, x->day);

  return days ? days : (y->id > x->id) - (y->id < x->id);
}

GPtrArray *
pin_history_new (PinHistoryRows *rows, PinLibrary *library, const PinCar *car)
{
  Gathering self = { .rows = rows, .library = library, .car = car };
  g_autoptr (GHashTable) known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GHashTable) only = g_hash_table_new_full (NULL, NULL, NULL, g_free);
  g_autoptr (GHashTable) last = g_hash_table_new_full (NULL, NULL, NULL, g_free);

  self.events = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_event_free);
  self.known = known;
  self.only = only;
  self.last = last;
  for (guint i = 0; i < rows->parts->len; i++)
    {
      const PartRows *of = rows->parts->pdata[i];

      self.part = of->part;
      gather_works (&self, of->works);
      gather_answers (&self, of);
      gather_readings (&self, of->readings);
      gather_fittings (&self, of->fittings);
      gather_findings (&self, of->findings);
    }
  for (guint i = 0; i < self.events->len; i++)
    say_how_many (&self, self.events->pdata[i]);
  g_ptr_array_sort (self.events, newest_first);
  return self.events;
}
