/* demo, vehicles, add-vehicle */

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "base/day.h"
#include "demo/demo.h"
#include "service/inventory.h"
#include "terminal/session.h"

static void
json_reasons (JsonBuilder *builder, const PinReadiness *readiness)
{
  pin_json_list (builder, "reasons");
  for (guint i = 0; i < readiness->reasons->len; i++)
    {
      const PinReason *reason = g_ptr_array_index (readiness->reasons, i);

      json_builder_begin_object (builder);
      pin_json_text (builder, "text", reason->text);
      pin_json_text (builder, "level", pin_level_word (reason->level));
      json_builder_end_object (builder);
    }
  pin_json_list_end (builder);
}

static void
json_vehicle (JsonBuilder *builder, const PinStableVehicle *vehicle)
{
  json_builder_begin_object (builder);
  pin_json_id (builder, "id", vehicle->id);
  pin_json_text (builder, "name", vehicle->name);
  pin_json_text (builder, "chassis", vehicle->chassis);
  pin_json_text (builder, "state", vehicle->state);
  pin_json_text (builder, "readiness", pin_level_word (vehicle->readiness->level));
  json_reasons (builder, vehicle->readiness);
  pin_json_value (builder, "time", vehicle->usage.seconds, "s");
  pin_json_value (builder, "time-before", vehicle->usage.before_seconds, "s");
  pin_json_value (builder, "outings", vehicle->usage.outings, "1");
  pin_json_value (builder, "runs", vehicle->usage.runs, "1");
  if (vehicle->burns_fuel)
    pin_json_value (builder, "fuel", vehicle->usage.litres, "l");
  pin_json_text (builder, "inspected", vehicle->inspected);
  pin_json_id (builder, "open-walk", vehicle->open_walk);
  json_builder_end_object (builder);
}

static void
csv_vehicles (const PinStable *stable)
{
  static const char *const names[] = { "id", "name", "chassis", "state", "readiness", "reasons", "time-s",
                                       "time-before-s", "outings", "runs", "fuel-l", "inspected", "open-walk",
                                       NULL };
  PinCsv *csv = pin_csv_new (names);

  for (guint i = 0; i < stable->vehicles->len; i++)
    {
      const PinStableVehicle *vehicle = g_ptr_array_index (stable->vehicles, i);

      pin_csv_id (csv, vehicle->id);
      pin_csv_text (csv, vehicle->name);
      pin_csv_text (csv, vehicle->chassis);
      pin_csv_text (csv, vehicle->state);
      pin_csv_text (csv, pin_level_word (vehicle->readiness->level));
      pin_csv_text (csv, pin_readiness_text (vehicle->readiness));
      pin_csv_number (csv, vehicle->usage.seconds);
      pin_csv_number (csv, vehicle->usage.before_seconds);
      pin_csv_number (csv, vehicle->usage.outings);
      pin_csv_number (csv, vehicle->usage.runs);
      pin_csv_number (csv, vehicle->burns_fuel ? vehicle->usage.litres : NAN);
      pin_csv_text (csv, vehicle->inspected);
      pin_csv_id (csv, vehicle->open_walk);
    }
  pin_csv_print (csv);
}

static void
print_vehicles (const PinStable *stable)
{
  static const char *const heads[] = { N_("Vehicle"), N_("Chassis type"), N_("Ready?"),
                                       N_("Why"), N_("Use"), N_("Inspected"), NULL };
  PinTextTable *table;

  g_print ("%s\n", stable->sentence);
  if (stable->vehicles->len == 0)
    return;
  table = pin_text_table_new (heads, 0);
  for (guint i = 0; i < stable->vehicles->len; i++)
    {
      const PinStableVehicle *vehicle = g_ptr_array_index (stable->vehicles, i);
      g_autofree char *use = pin_usage_text (&vehicle->usage, vehicle->burns_fuel);

      pin_text_table_add (table, vehicle->name, vehicle->chassis_title,
                          pin_level_title (vehicle->readiness->level), pin_readiness_text (vehicle->readiness),
                          use, vehicle->inspected ? vehicle->inspected : _("never"), NULL);
    }
  g_print ("\n");
  pin_text_table_print (table);
}

gboolean
pin_verb_vehicles (PinSession *session, GError **error)
{
  PinStable *stable = pin_session_stable (session, error);
  JsonBuilder *builder;

  if (stable == NULL)
    return FALSE;
  if (session->options->json)
    {
      builder = pin_json_begin ();
      pin_json_text (builder, "summary", stable->sentence);
      pin_json_list (builder, "vehicles");
      for (guint i = 0; i < stable->vehicles->len; i++)
        json_vehicle (builder, g_ptr_array_index (stable->vehicles, i));
      pin_json_list_end (builder);
      pin_json_print (builder);
    }
  else if (session->options->csv)
    csv_vehicles (stable);
  else
    print_vehicles (stable);
  if (session->options->strict && stable->not_ready + stable->not_known + stable->unsafe > 0)
    {
      g_set_error_literal (error, PIN_TERMINAL_ERROR, PIN_TERMINAL_ERROR_FOUND, "");
      return FALSE;
    }
  return TRUE;
}

static char *
list_chassis (PinLibrary *library)
{
  g_autoptr (GPtrArray) all = pin_library_chassis_all (library);
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < all->len; i++)
    g_string_append_printf (text, "%s%s", i ? ", " : "", ((PinChassis *) g_ptr_array_index (all, i))->id);
  return g_string_free (text, FALSE);
}

static gboolean
told_hours (const PinOptions *options, double *seconds, GError **error)
{
  const PinUnit *hour = pin_unit_find ("h");

  *seconds = NAN;
  if (options->hours == NULL)
    return TRUE;
  if (!pin_value_parse (options->hours, hour, seconds, NULL, error))
    {
      g_prefix_error (error, "--hours: ");
      return FALSE;
    }
  return TRUE;
}

static GPtrArray *
names_in_use (PinSession *session, GError **error)
{
  PinStable *stable = pin_session_stable (session, error);

  return stable ? pin_stable_names (stable) : NULL;
}

gboolean
pin_verb_add_vehicle (PinSession *session, GError **error)
{
  const PinOptions *options = session->options;
  PinNewVehicle what = PIN_NEW_VEHICLE_INIT;
  g_autoptr (PinDeedDone) done = NULL;
  g_autoptr (GPtrArray) taken = NULL;
  g_autofree char *types = NULL;
  gint64 id;

  if (options->args[0] == NULL || options->chassis == NULL)
    {
      if (!pin_session_library (session, error))
        return FALSE;
      types = list_chassis (session->library);
      return pin_session_usage (error, _("add-vehicle NAME --chassis TYPE; the types are %s"), types);
    }
  what.name = options->args[0];
  what.chassis = options->chassis;
  what.acquired = options->acquired;
  what.parts_as_old = TRUE;
  if (!told_hours (options, &what.seconds, error) || !pin_session_library (session, error) ||
      !pin_session_book (session, TRUE, error) || !(taken = names_in_use (session, error)))
    return FALSE;
  done = pin_deed_done_new (session->book, options->person);
  id = pin_inventory_add_vehicle (done, session->library, &what, taken, error);
  if (id == 0 || !pin_book_commit (session->book, pin_deed_done_batch (done), error))
    return FALSE;
  if (options->json)
    {
      JsonBuilder *builder = pin_json_begin ();

      pin_json_id (builder, "id", id);
      pin_json_text (builder, "name", what.name);
      pin_json_print (builder);
    }
  else
    g_print ("%s\n", pin_deed_done_text (done));
  return TRUE;
}

gboolean
pin_verb_demo (PinSession *session, GError **error)
{
  g_autofree char *path = session->options->book ? g_strdup (session->options->book) : pin_book_demo_path ();
  g_autofree char *today = pin_today ();

  if (!pin_session_library (session, error) ||
      !pin_demo_make (path, session->library, today, NULL, NULL, NULL, error))
    return FALSE;
  if (session->options->json)
    {
      JsonBuilder *builder = pin_json_begin ();

      pin_json_text (builder, "book", path);
      pin_json_print (builder);
    }
  else
    g_print (_("The demo stable is in %s; open it with: hingepin --book \"%s\"\n"), path, path);
  return TRUE;
}
