/* inspect, findings */

#include "config.h"

#include <glib/gi18n.h>
#include <stdio.h>
#include <string.h>

#include "base/day.h"
#include "inspection/answers-file.h"
#include "service/finding-text.h"
#include "service/vehicle-view.h"
#include "terminal/session.h"

static gpointer
load_walk (PinDb *db, gint64 id, GError **error)
{
  return pin_walk_rows_load (db, id, error);
}

static PinWalk *
open_walk (PinSession *session, gint64 id, GError **error)
{
  PinWalkRows *rows = pin_session_run (session, load_walk, id, error);

  return rows ? pin_walk_new (rows, session->library, error) : NULL;
}

/* The walk that is open on the vehicle, if it is one of @what; else a new one. */
static PinWalk *
begin_or_resume (PinSession *session, const PinStableVehicle *vehicle, const char *what, GError **error)
{
  g_autoptr (PinCar) car = NULL;
  g_autoptr (PinBatch) batch = NULL;
  g_autoptr (PinWalk) walk = vehicle->open_walk ? open_walk (session, vehicle->open_walk, error) : NULL;
  gint64 id;

  if (vehicle->open_walk && walk == NULL)
    return NULL;
  if (walk && g_str_equal (pin_walk_what (walk), what))
    return g_steal_pointer (&walk);
  car = pin_session_car (session, vehicle->id, error);
  if (car == NULL)
    return NULL;
  batch = pin_batch_new (session->book);
  id = pin_walk_begin (batch, session->library, car, what, session->options->person, error);
  if (id == 0 || !pin_book_commit (session->book, batch, error))
    return NULL;
  return open_walk (session, id, error);
}

/* A list for one who only looks: nothing is begun in the book. */
static gboolean
print_blank (PinSession *session, const PinStableVehicle *vehicle, const char *what, GError **error)
{
  g_autoptr (PinWalk) walk = NULL;
  g_autoptr (PinCar) car = NULL;
  g_autofree char *text = NULL;

  if (vehicle->open_walk)
    walk = open_walk (session, vehicle->open_walk, error);
  if (vehicle->open_walk && walk == NULL)
    return FALSE;
  if (walk && !g_str_equal (pin_walk_what (walk), what))
    g_clear_pointer (&walk, pin_walk_free);
  if (walk == NULL)
    {
      car = pin_session_car (session, vehicle->id, error);
      walk = car ? pin_walk_preview (session->library, g_steal_pointer (&car), what, error) : NULL;
    }
  if (walk == NULL)
    return FALSE;
  text = pin_answers_blank (walk);
  g_print ("%s", text);
  return TRUE;
}

static gboolean
read_answers (const char *path, char **text, GError **error)
{
  GString *all;
  char chunk[4096];
  gsize n;

  if (!g_str_equal (path, "-"))
    return g_file_get_contents (path, text, NULL, error);
  all = g_string_new (NULL);
  while ((n = fread (chunk, 1, sizeof chunk, stdin)) > 0)
    g_string_append_len (all, chunk, n);
  *text = g_string_free (all, FALSE);
  return TRUE;
}

/* Readings that were held against something else than what the text says. */
static void
print_own_word (PinSession *session, const PinWalk *walk)
{
  const PinQuestion *question = NULL;
  PinOutcome says = pin_walk_own_word (walk, &question);

  if (says != PIN_OUTCOME_NONE && !session->options->json)
    g_print (_("%s: by your own limit, %s\n"), question->key, pin_outcome_title (says));
}

/* One line; the walk is made anew from the book after it.  *ended: signed. */
static gboolean
apply_line (PinSession *session, PinWalk **walk, const char *line, gboolean *ended, GError **error)
{
  g_autoptr (PinBatch) batch = pin_batch_new (session->book);
  g_autofree char *sign_by = NULL;
  gboolean is_nothing;
  gint64 id = pin_walk_id (*walk);
  PinWalk *fresh;

  if (!pin_answers_line (*walk, line, session->options->person, batch, &is_nothing, &sign_by, error))
    return FALSE;
  if (is_nothing)
    return TRUE;
  if (sign_by && !pin_walk_sign (*walk, sign_by, batch, error))
    return FALSE;
  if (!pin_book_commit (session->book, batch, error))
    return FALSE;
  *ended = sign_by != NULL;
  fresh = open_walk (session, id, error);
  if (fresh == NULL)
    return FALSE;
  pin_walk_free (*walk);
  *walk = fresh;
  print_own_word (session, fresh);
  return TRUE;
}

static void
print_result (PinSession *session, const PinWalk *walk, gboolean ended)
{
  g_autoptr (PinClosing) closing = pin_walk_closing (walk);
  const PinQuestion *next = pin_walk_next (walk) < 0 ? NULL :
                            g_ptr_array_index (pin_walk_questions (walk), pin_walk_next (walk));

  if (session->options->json)
    {
      JsonBuilder *builder = pin_json_begin ();

      pin_json_id (builder, "inspection", pin_walk_id (walk));
      pin_json_bool (builder, "signed", ended);
      pin_json_text (builder, "next", next ? next->key : NULL);
      pin_json_int (builder, "pass", closing->passed);
      pin_json_int (builder, "watch", closing->watched);
      pin_json_int (builder, "fail", closing->failed);
      pin_json_int (builder, "unsafe", closing->unsafe);
      pin_json_int (builder, "not-checked", closing->not_checked);
      pin_json_int (builder, "does-not-apply", closing->does_not_apply);
      pin_json_int (builder, "unanswered", closing->unanswered);
      pin_json_print (builder);
      return;
    }
  g_print (_("%s: %d pass, %d watch, %d fail (%d unsafe), %d not checked, %d not answered\n"),
           ended ? _("Signed off") : _("Kept, still open"), closing->passed, closing->watched,
           closing->failed, closing->unsafe, closing->not_checked, closing->unanswered);
  if (next && !ended)
    g_print (_("Next: %s\n"), next->key);
}

static gboolean
walk_answers (PinSession *session, PinWalk *walk, const char *text, GError **error)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  gboolean ended = FALSE, ok = TRUE;

  for (guint i = 0; lines[i] && ok && !ended; i++)
    {
      ok = apply_line (session, &walk, lines[i], &ended, error);
      if (!ok)
        g_prefix_error (error, "%s:%u: ", session->options->answers, i + 1);
    }
  if (ok)
    print_result (session, walk, ended);
  pin_walk_free (walk);
  return ok;
}

gboolean
pin_verb_inspect (PinSession *session, GError **error)
{
  const PinOptions *options = session->options;
  PinStableVehicle *vehicle;
  g_autofree char *text = NULL;
  PinWalk *walk;

  if (options->args[0] == NULL || options->args[1] == NULL || options->list == (options->answers != NULL))
    return pin_session_usage (error, _("inspect VEHICLE PROCEDURE, and --list or --answers FILE"));
  vehicle = pin_session_vehicle (session, error);
  if (vehicle == NULL)
    return FALSE;
  if (options->list)
    return print_blank (session, vehicle, options->args[1], error);
  if (!read_answers (options->answers, &text, error))
    return FALSE;
  walk = begin_or_resume (session, vehicle, options->args[1], error);
  return walk && walk_answers (session, walk, text, error);
}

/* ---- findings ------------------------------------------------------------------ */

typedef struct
{
  gint64 vehicle;
  gboolean closed_too;
} FindingsOf;

static gpointer
load_findings (PinDb *db, gpointer data, GError **error)
{
  const FindingsOf *of = data;

  return pin_query_findings (db, of->vehicle, of->closed_too, error);
}

static PinStableVehicle *
vehicle_of (PinStable *stable, gint64 id)
{
  for (guint i = 0; i < stable->vehicles->len; i++)
    {
      PinStableVehicle *vehicle = g_ptr_array_index (stable->vehicles, i);

      if (vehicle->id == id)
        return vehicle;
    }
  return NULL;
}

static void
print_finding (PinSession *session, JsonBuilder *builder, const PinFindingRow *row)
{
  const PinStableVehicle *vehicle = vehicle_of (session->stable, row->vehicle);
  g_autofree char *text = NULL;
  g_autofree char *closes = NULL;

  if (vehicle == NULL)
    return;
  text = pin_finding_text (session->library, vehicle->car, row);
  closes = row->closed ? NULL : pin_finding_closes (session->library, row);
  if (builder == NULL)
    {
      g_print ("%-8s %s  %s: %s%s\n", row->closed ? _("closed") : pin_gravity_title (row->gravity), row->day,
               vehicle->name, text, row->accepted ? _(" (accepted)") : "");
      if (closes)
        g_print ("                     %s\n", closes);
      return;
    }
  json_builder_begin_object (builder);
  pin_json_id (builder, "id", row->id);
  pin_json_text (builder, "vehicle", vehicle->name);
  pin_json_text (builder, "gravity", pin_gravity_word (row->gravity));
  pin_json_text (builder, "text", text);
  pin_json_text (builder, "step", row->step);
  pin_json_text (builder, "day", row->day);
  pin_json_bool (builder, "closed", row->closed);
  pin_json_bool (builder, "accepted", row->accepted);
  pin_json_bool (builder, "worked", row->worked);
  pin_json_text (builder, "closes", closes);
  json_builder_end_object (builder);
}

static void
csv_findings (PinSession *session, const GPtrArray *rows)
{
  static const char *const names[] = { "id", "vehicle", "gravity", "text", "step", "day", "closed",
                                       "accepted", "worked", "closes", NULL };
  PinCsv *csv = pin_csv_new (names);

  for (guint i = 0; i < rows->len; i++)
    {
      const PinFindingRow *row = g_ptr_array_index (rows, i);
      const PinStableVehicle *vehicle = vehicle_of (session->stable, row->vehicle);
      g_autofree char *text = vehicle ? pin_finding_text (session->library, vehicle->car, row) : NULL;
      g_autofree char *closes = row->closed ? NULL : pin_finding_closes (session->library, row);

      if (vehicle == NULL)
        continue;
      pin_csv_id (csv, row->id);
      pin_csv_text (csv, vehicle->name);
      pin_csv_text (csv, pin_gravity_word (row->gravity));
      pin_csv_text (csv, text);
      pin_csv_text (csv, row->step);
      pin_csv_text (csv, row->day);
      pin_csv_flag (csv, row->closed);
      pin_csv_flag (csv, row->accepted);
      pin_csv_flag (csv, row->worked);
      pin_csv_text (csv, closes);
    }
  pin_csv_print (csv);
}

gboolean
pin_verb_findings (PinSession *session, GError **error)
{
  FindingsOf of = { 0, session->options->all };
  JsonBuilder *builder = NULL;
  g_autoptr (GPtrArray) rows = NULL;
  PinStableVehicle *vehicle;

  if (!pin_session_stable (session, error))
    return FALSE;
  if (session->options->args[0])
    {
      vehicle = pin_session_vehicle (session, error);
      if (vehicle == NULL)
        return FALSE;
      of.vehicle = vehicle->id;
    }
  rows = pin_book_run (session->book, load_findings, &of, error);
  if (rows == NULL)
    return FALSE;
  if (session->options->csv)
    {
      csv_findings (session, rows);
      return TRUE;
    }
  if (session->options->json)
    {
      builder = pin_json_begin ();
      pin_json_list (builder, "findings");
    }
  else if (rows->len == 0)
    g_print ("%s\n", _("Nothing is open."));
  for (guint i = 0; i < rows->len; i++)
    print_finding (session, builder, g_ptr_array_index (rows, i));
  if (builder)
    {
      pin_json_list_end (builder);
      pin_json_print (builder);
    }
  return TRUE;
}
