/* parts, history, setup */

#include "config.h"

#include <glib/gi18n.h>
#include <string.h>

#include "base/day.h"
#include "service/finding-text.h"
#include "service/part-history.h"
#include "service/setup.h"
#include "service/vehicle-view.h"
#include "terminal/session.h"

static gpointer
load_view (PinDb *db, gint64 id, GError **error)
{
  return pin_vehicle_rows_load (db, id, error);
}

static PinVehicleView *
view_of (PinSession *session, gint64 vehicle, GError **error)
{
  PinVehicleRows *rows = pin_session_run (session, load_view, vehicle, error);

  return rows ? pin_vehicle_view_new (rows, session->library, pin_now (), error) : NULL;
}

static void
json_part (JsonBuilder *builder, const PinPartLine *part)
{
  json_builder_begin_object (builder);
  pin_json_id (builder, "id", part->part);
  pin_json_text (builder, "position", part->slot->code);
  pin_json_text (builder, "label", part->label);
  pin_json_text (builder, "kind", part->kind);
  pin_json_text (builder, "size", part->slot->size);
  pin_json_text (builder, "state", part->state);
  pin_json_value (builder, "time", part->usage.seconds, "s");
  pin_json_value (builder, "time-before", part->usage.before_seconds, "s");
  pin_json_text (builder, "last-work", part->last_work);
  pin_json_text (builder, "last-work-day", part->last_work_day);
  pin_json_text (builder, "finding", part->finding);
  json_builder_end_object (builder);
}

static void
print_parts (const PinVehicleView *view)
{
  static const char *const heads[] = { N_("Id"), N_("Position"), N_("Part"), N_("Size"),
                                       N_("State"), N_("Since new"), N_("Last work"), NULL };
  PinTextTable *table = pin_text_table_new (heads, 1 << 5);

  for (guint i = 0; i < view->parts->len; i++)
    {
      const PinPartLine *part = g_ptr_array_index (view->parts, i);
      g_autofree char *id = part->part ? g_strdup_printf ("%" G_GINT64_FORMAT, part->part) : g_strdup ("-");
      g_autofree char *what = g_strdup_printf ("%s, %s", part->kind, part->label);

      pin_text_table_add (table, id, part->slot->code, what, part->size, part->state, part->since_new,
                          part->last_work, NULL);
    }
  pin_text_table_print (table);
}

static void
csv_parts (const PinVehicleView *view)
{
  static const char *const names[] = { "id", "position", "label", "kind", "size", "state", "time-s",
                                       "time-before-s", "last-work", "last-work-day", "finding", NULL };
  PinCsv *csv = pin_csv_new (names);

  for (guint i = 0; i < view->parts->len; i++)
    {
      const PinPartLine *part = g_ptr_array_index (view->parts, i);

      pin_csv_id (csv, part->part);
      pin_csv_text (csv, part->slot->code);
      pin_csv_text (csv, part->label);
      pin_csv_text (csv, part->kind);
      pin_csv_text (csv, part->slot->size);
      pin_csv_text (csv, part->state);
      pin_csv_number (csv, part->usage.seconds);
      pin_csv_number (csv, part->usage.before_seconds);
      pin_csv_text (csv, part->last_work);
      pin_csv_text (csv, part->last_work_day);
      pin_csv_text (csv, part->finding);
    }
  pin_csv_print (csv);
}

gboolean
pin_verb_parts (PinSession *session, GError **error)
{
  PinStableVehicle *vehicle = pin_session_vehicle (session, error);
  g_autoptr (PinVehicleView) view = vehicle ? view_of (session, vehicle->id, error) : NULL;
  JsonBuilder *builder;

  if (view == NULL)
    return FALSE;
  if (!session->options->json)
    {
      if (session->options->csv)
        csv_parts (view);
      else
        print_parts (view);
      return TRUE;
    }
  builder = pin_json_begin ();
  pin_json_text (builder, "vehicle", vehicle->name);
  pin_json_list (builder, "parts");
  for (guint i = 0; i < view->parts->len; i++)
    json_part (builder, g_ptr_array_index (view->parts, i));
  pin_json_list_end (builder);
  pin_json_print (builder);
  return TRUE;
}

/* ---- history ---------------------------------------------------------------- */

/* An id as printed by “parts”, or VEHICLE:POSITION. */
static gint64
find_part (PinSession *session, const char *text, PinCar **car, GError **error)
{
  const char *colon = strrchr (text, ':');
  g_autofree char *name = NULL;
  PinStableVehicle *vehicle;
  PinSlot *slot;
  gint64 id;

  if (colon == NULL)
    {
      if (!g_ascii_string_to_signed (text, 10, 1, G_MAXINT64, &id, NULL))
        return pin_session_usage (error, _("“%s” is no part: give its id, as “hingepin parts VEHICLE” prints it, "
                                           "or VEHICLE:POSITION"), text);
      return id;
    }
  name = g_strndup (text, colon - text);
  vehicle = pin_stable_find (session->stable, name, error);
  *car = vehicle ? pin_session_car (session, vehicle->id, error) : NULL;
  if (*car == NULL)
    return 0;
  slot = pin_car_slot (*car, colon + 1);
  if (slot == NULL || slot->part == 0)
    {
      g_set_error (error, PIN_TERMINAL_ERROR, PIN_TERMINAL_ERROR_FOUND,
                   slot ? _("nothing is fitted at %s of %s") :
                          _("there is no position %s on %s; “hingepin parts” lists them"),
                   colon + 1, (*car)->name);
      return 0;
    }
  return slot->part;
}

static gpointer
load_part (PinDb *db, gint64 id, GError **error)
{
  return pin_query_part (db, id, error);
}

static gpointer
load_history (PinDb *db, gint64 id, GError **error)
{
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (gint64));

  g_array_append_val (parts, id);
  return pin_history_rows_load (db, parts, error);
}

static void
csv_events (const GPtrArray *events)
{
  static const char *const names[] = { "id", "day", "text", "outcome", "told", NULL };
  PinCsv *csv = pin_csv_new (names);

  for (guint i = 0; i < events->len; i++)
    {
      const PinEvent *event = g_ptr_array_index (events, i);

      pin_csv_id (csv, event->id);
      pin_csv_text (csv, event->day);
      pin_csv_text (csv, event->text);
      pin_csv_text (csv, event->outcome ? pin_outcome_word (event->outcome) : NULL);
      pin_csv_flag (csv, event->told);
    }
  pin_csv_print (csv);
}

static void
print_events (const PinOptions *options, gint64 part, const GPtrArray *events)
{
  JsonBuilder *builder = options->json ? pin_json_begin () : NULL;

  if (builder)
    {
      pin_json_id (builder, "part", part);
      pin_json_list (builder, "events");
    }
  for (guint i = 0; i < events->len; i++)
    {
      const PinEvent *event = g_ptr_array_index (events, i);

      if (builder == NULL)
        {
          g_print ("%s  %s\n", event->day, event->text);
          continue;
        }
      json_builder_begin_object (builder);
      pin_json_id (builder, "id", event->id);
      pin_json_text (builder, "day", event->day);
      pin_json_text (builder, "text", event->text);
      pin_json_text (builder, "outcome", event->outcome ? pin_outcome_word (event->outcome) : NULL);
      pin_json_bool (builder, "told", event->told);
      json_builder_end_object (builder);
    }
  if (builder == NULL)
    return;
  pin_json_list_end (builder);
  pin_json_print (builder);
}

gboolean
pin_verb_history (PinSession *session, GError **error)
{
  const char *text = session->options->args[0];
  g_autoptr (PinCar) car = NULL;
  g_autoptr (PinHistoryRows) rows = NULL;
  g_autoptr (GPtrArray) events = NULL;
  PinPartRow *row;
  gint64 part;

  if (text == NULL)
    return pin_session_usage (error, _("history needs a part: its id, or VEHICLE:POSITION"));
  if (!pin_session_stable (session, error) || !(part = find_part (session, text, &car, error)))
    return FALSE;
  row = pin_session_run (session, load_part, part, error);
  if (row == NULL)
    return FALSE;
  if (car == NULL && row->vehicle)
    car = pin_session_car (session, row->vehicle, NULL);
  pin_part_row_free (row);
  rows = pin_session_run (session, load_history, part, error);
  if (rows == NULL)
    return FALSE;
  events = pin_history_new (rows, session->library, car);
  if (session->options->csv)
    csv_events (events);
  else
    print_events (session->options, part, events);
  return TRUE;
}

/* ---- setup ------------------------------------------------------------------- */

typedef struct
{
  gint64 vehicle;
  const char *on_day;
} SetupOf;

static gpointer
load_setup (PinDb *db, gpointer data, GError **error)
{
  const SetupOf *of = data;

  return pin_setup_rows_load (db, of->vehicle, of->on_day, error);
}

static void
json_setup (const PinStableVehicle *vehicle, const GPtrArray *groups)
{
  JsonBuilder *builder = pin_json_begin ();

  pin_json_text (builder, "vehicle", vehicle->name);
  pin_json_list (builder, "facts");
  for (guint g = 0; g < groups->len; g++)
    {
      const PinSetupGroup *group = g_ptr_array_index (groups, g);

      for (guint i = 0; i < group->facts->len; i++)
        {
          const PinSetupFact *fact = g_ptr_array_index (group->facts, i);

          json_builder_begin_object (builder);
          pin_json_text (builder, "group", group->id);
          pin_json_text (builder, "where", fact->label);
          pin_json_text (builder, "spec", fact->spec);
          pin_json_text (builder, "text", fact->text);
          pin_json_text (builder, "origin", fact->origin);
          pin_json_text (builder, "since", fact->day);
          json_builder_end_object (builder);
        }
    }
  pin_json_list_end (builder);
  pin_json_print (builder);
}

static void
csv_setup (const GPtrArray *groups)
{
  static const char *const names[] = { "group", "where", "spec", "text", "origin", "since", NULL };
  PinCsv *csv = pin_csv_new (names);

  for (guint g = 0; g < groups->len; g++)
    {
      const PinSetupGroup *group = g_ptr_array_index (groups, g);

      for (guint i = 0; i < group->facts->len; i++)
        {
          const PinSetupFact *fact = g_ptr_array_index (group->facts, i);

          pin_csv_text (csv, group->id);
          pin_csv_text (csv, fact->label);
          pin_csv_text (csv, fact->spec);
          pin_csv_text (csv, fact->text);
          pin_csv_text (csv, fact->origin);
          pin_csv_text (csv, fact->day);
        }
    }
  pin_csv_print (csv);
}

static void
print_setup (const GPtrArray *groups)
{
  for (guint g = 0; g < groups->len; g++)
    {
      static const char *const heads[] = { "", "", "", "", NULL };
      const PinSetupGroup *group = g_ptr_array_index (groups, g);
      PinTextTable *table = pin_text_table_new (heads, 0);

      g_ptr_array_set_size (table->rows, 0);
      for (guint i = 0; i < group->facts->len; i++)
        {
          const PinSetupFact *fact = g_ptr_array_index (group->facts, i);
          g_autofree char *what = g_strdup_printf ("  %s%s%s", fact->label, *fact->label ? ", " : "", fact->title);

          pin_text_table_add (table, what, fact->text, fact->origin, fact->day, NULL);
        }
      g_print ("%s\n", group->title);
      pin_text_table_print (table);
    }
}

gboolean
pin_verb_setup (PinSession *session, GError **error)
{
  PinStableVehicle *vehicle = pin_session_vehicle (session, error);
  g_autoptr (PinSetupRows) rows = NULL;
  g_autoptr (GPtrArray) groups = NULL;
  g_autoptr (PinCar) car = NULL;
  SetupOf of;

  if (vehicle == NULL || !(car = pin_session_car (session, vehicle->id, error)))
    return FALSE;
  of.vehicle = vehicle->id;
  of.on_day = session->options->on_day;
  rows = pin_book_run (session->book, load_setup, &of, error);
  if (rows == NULL)
    return FALSE;
  groups = pin_setup_new (rows, session->library, car, session->options->all);
  if (session->options->json)
    json_setup (vehicle, groups);
  else if (session->options->csv)
    csv_setup (groups);
  else
    print_setup (groups);
  return TRUE;
}
