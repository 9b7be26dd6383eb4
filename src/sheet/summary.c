#include "sheet/summary-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "base/day.h"
#include "service/finding-text.h"
#include "service/part-shelf.h"
#include "service/stable.h"

/* How many inspections back the sheet looks for each system's last. */
#define MOST_WALKS 10

struct _PinSummaryRows
{
  PinVehicleRows *vehicle;
  GPtrArray *walks;           /* PinWalkRows*, signed, newest first */
  PinPartShelf *shelf;
};

static gboolean
load_walks (PinSummaryRows *rows, PinDb *db, gint64 vehicle, GError **error)
{
  g_autoptr (GPtrArray) inspections = pin_query_inspections (db, vehicle, error);

  for (guint i = 0; inspections && i < inspections->len && rows->walks->len < MOST_WALKS; i++)
    {
      const PinInspectionRow *row = g_ptr_array_index (inspections, i);
      PinWalkRows *walk;

      if (g_strcmp0 (row->verdict, "signed") != 0)
        continue;
      walk = pin_walk_rows_load (db, row->id, error);
      if (walk == NULL)
        return FALSE;
      g_ptr_array_add (rows->walks, walk);
    }
  return inspections != NULL;
}

/* Runs on the book's thread. */
PinSummaryRows *
pin_summary_rows_load (PinDb *db, gint64 vehicle, GError **error)
{
  g_autoptr (PinSummaryRows) rows = g_new0 (PinSummaryRows, 1);

  rows->walks = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_walk_rows_free);
  if (!(rows->vehicle = pin_vehicle_rows_load (db, vehicle, error)) ||
      !(rows->shelf = pin_part_shelf_load (db, error)) || !load_walks (rows, db, vehicle, error))
    return NULL;
  return g_steal_pointer (&rows);
}

void
pin_summary_rows_free (PinSummaryRows *rows)
{
  if (rows == NULL)
    return;
  g_clear_pointer (&rows->vehicle, pin_vehicle_rows_free);
  g_clear_pointer (&rows->walks, g_ptr_array_unref);
  g_clear_pointer (&rows->shelf, pin_part_shelf_free);
  g_free (rows);
}

static void
identify (PinSummary *self, const char *caption, const char *value)
{
  PinSheetRow *row = g_new0 (PinSheetRow, 1);

  row->cell[0] = g_strdup (caption);
  row->cell[1] = g_strdup (value);
  g_ptr_array_add (self->identity, row);
}

static char *
power_text (const PinCar *car, gboolean history_known)
{
  for (guint i = 0; i < car->slots->len; i++)
    {
      const PinSlot *slot = g_ptr_array_index (car->slots, i);
      const PinTrait *size = pin_slot_spec (slot, "size");
      g_autofree char *since = NULL;

      if (slot->part == 0 || !(g_str_equal (slot->kind, "engine") || g_str_equal (slot->kind, "motor")))
        continue;
      if (size == NULL || size->text == NULL || *size->text == '\0')
        size = pin_slot_spec (slot, "kv") ? pin_slot_spec (slot, "kv") : pin_slot_spec (slot, "turns");
      since = slot->row->since ? pin_day_short (slot->row->since) : g_strdup (_("not known"));
      if (size && size->typed && *size->typed)
        return g_strdup_printf (_("%s, since %s"), size->typed, since);
      if (slot->row->since == NULL)
        return g_steal_pointer (&since);
      return g_strdup_printf (history_known ? _("since %s") : _("in book since %s"), since);
    }
  return g_strdup (car->chassis->power);
}

/* What it was run on, each surface once, the usual one first. */
static char *
surfaces_text (const PinVehicleView *view)
{
  g_autoptr (GPtrArray) seen = g_ptr_array_new ();
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < view->outings->len && seen->len < 4; i++)
    {
      const PinOutingLine *line = g_ptr_array_index (view->outings, i);
      const char *surface = line->outing->surface;

      if (surface == NULL || *surface == '\0' || g_ptr_array_find_with_equal_func (seen, surface, g_str_equal, NULL))
        continue;
      g_string_append_printf (text, "%s%s", seen->len ? ", " : "", surface);
      g_ptr_array_add (seen, (gpointer) surface);
    }
  if (seen->len == 0)
    g_string_append (text, _("not known"));
  return g_string_free (text, FALSE);
}

static void
identify_all (PinSummary *self)
{
  const PinCar *car = self->view->car;
  const PinTrait *acquired = pin_car_trait (car, "acquired");
  g_autofree char *power = power_text (car, pin_usage_is_known (&self->view->usage));
  g_autofree char *surfaces = surfaces_text (self->view);
  g_autofree char *acquired_text = acquired && acquired->text ?
    g_strdup_printf ("%s, %.4s", acquired->text, acquired->day) : g_strdup (_("not known"));

  identify (self, _("Chassis type"), car->chassis->title);
  identify (self, pin_car_burns_fuel (car) ? _("Engine") : _("Motor"), power);
  identify (self, _("Bought"), acquired_text);
  identify (self, pin_usage_is_known (&self->view->usage) ? _("Since new") : _("In this book"), self->view->usage_text);
  identify (self, _("Run on"), surfaces);
}

static PinMark
mark_of_level (PinLevel level)
{
  switch (level)
    {
    case PIN_LEVEL_UNSAFE:
      return PIN_MARK_UNSAFE;
    case PIN_LEVEL_NOT_READY:
      return PIN_MARK_FAIL;
    case PIN_LEVEL_NOT_KNOWN:
      return PIN_MARK_NOT_CHECKED;
    case PIN_LEVEL_WATCH:
      return PIN_MARK_WATCH;
    case PIN_LEVEL_READY:
      break;
    }
  return PIN_MARK_PASS;
}

/* What there was none of is left out, but never how much was not checked. */
static char *
counts_text (const PinWalkRecord *record)
{
  const int n[] = { record->unsafe, record->failed, record->watched, record->passed };
  const char *const words[] = { _("unsafe"), _("fail"), _("watch"), _("pass") };
  GString *text = g_string_new (NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (n); i++)
    if (n[i] > 0)
      g_string_append_printf (text, "%d\302\240%s, ", n[i], words[i]);
  g_string_append_printf (text, _("%d\302\240not\302\240checked"), record->n_not_checked);
  return g_string_free (text, FALSE);
}

static void
judge (PinSummary *self)
{
  const PinWalkRecord *record = self->record;

  self->verdict = mark_of_level (self->view->readiness->level);
  self->verdict_lead = g_strdup_printf ("%s.", pin_level_title (self->view->readiness->level));
  if (record)
    {
      g_autofree char *day = pin_day_short (record->day);
      g_autofree char *counts = counts_text (record);

      self->verdict_text = g_strdup_printf (_("Last inspected %s (%s, signed %s): %s."), day, record->title,
                                            record->person, counts);
    }
  else
    self->verdict_text = g_strdup (_("Never inspected: nothing on this sheet has been checked."));
}

/* What refitting leaves to be settled is no system of the car. */
static gboolean
is_system (const PinRecordGroup *group)
{
  return !g_str_equal (group->id, "refitting");
}

static gboolean
has_system (const PinSummary *self, const char *id)
{
  for (guint i = 0; i < self->systems->len; i++)
    if (g_str_equal (g_array_index (self->systems, PinSheetSystem, i).group->id, id))
      return TRUE;
  return FALSE;
}

static gboolean
says_something (const PinRecordGroup *group)
{
  for (guint i = 0; i < group->lines->len; i++)
    if (((PinRecordLine *) g_ptr_array_index (group->lines, i))->outcome != PIN_OUTCOME_DONE)
      return TRUE;
  return FALSE;
}

static gboolean
read_records (PinSummary *self, GPtrArray *walks, PinLibrary *library, GError **error)
{
  while (walks->len)
    {
      PinWalkRecord *record;

      g_ptr_array_set_free_func (walks, NULL);
      record = pin_walk_record_new (g_ptr_array_steal_index (walks, 0), library, error);
      g_ptr_array_set_free_func (walks, (GDestroyNotify) pin_walk_rows_free);
      if (record == NULL)
        return FALSE;
      g_ptr_array_add (self->records, record);
      for (guint g = 0; g < record->groups->len; g++)
        {
          const PinSheetSystem system = { g_ptr_array_index (record->groups, g), record };

          if (is_system (system.group) && says_something (system.group) && !has_system (self, system.group->id))
            g_array_append_val (self->systems, system);
        }
    }
  self->record = self->records->len ? g_ptr_array_index (self->records, 0) : NULL;
  return TRUE;
}

static void
note_oiled (PinSummary *self)
{
  const PinWalkRows *rows = self->record ? pin_walk_rows (self->record->walk) : NULL;

  for (guint i = 0; rows && i < rows->traces->works->len; i++)
    {
      const PinWork *work = g_ptr_array_index (rows->traces->works, i);

      if (g_str_equal (work->deed, "oiled") || g_str_equal (work->deed, "greased"))
        {
          gint64 *place = g_new (gint64, 1);

          *place = work->place;
          g_hash_table_add (self->oiled, place);
        }
    }
}

static char *
footer_text (const char *book_name, const PinWalkRecord *record)
{
  if (record == NULL)
    return g_strdup_printf (_("book %s"), book_name);
  return g_strdup_printf (_("book %s, inspection %" G_GINT64_FORMAT), book_name, record->id);
}

/* Takes @rows, also on error. */
PinSummary *
pin_summary_new (PinSummaryRows *rows, PinLibrary *library, const char *book_name, GError **error)
{
  g_autoptr (PinSummaryRows) owned = rows;
  g_autoptr (PinSummary) self = g_new0 (PinSummary, 1);
  g_autofree char *today = pin_today ();

  self->identity = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_sheet_row_free);
  self->left = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_sheet_block_free);
  self->right = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_sheet_block_free);
  self->records = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_walk_record_free);
  self->systems = g_array_new (FALSE, FALSE, sizeof (PinSheetSystem));
  self->balloons = g_array_new (FALSE, FALSE, sizeof (PinSheetBalloon));
  self->oiled = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  self->view = pin_vehicle_view_new (g_steal_pointer (&owned->vehicle), library, pin_now (), error);
  if (self->view == NULL)
    return NULL;
  if (!read_records (self, owned->walks, library, error))
    return NULL;
  self->name = g_strdup (self->view->car->name);
  self->day = pin_day_long (today);
  self->footer = footer_text (book_name, self->record);
  identify_all (self);
  judge (self);
  note_oiled (self);
  pin_summary_faults (self, library);
  pin_summary_fitted (self, library, owned->shelf->parts);
  pin_summary_measured (self);
  pin_summary_bearings (self, library);
  return g_steal_pointer (&self);
}

void
pin_summary_free (PinSummary *self)
{
  if (self == NULL)
    return;
  g_clear_pointer (&self->systems, g_array_unref);
  g_clear_pointer (&self->records, g_ptr_array_unref);
  g_clear_pointer (&self->view, pin_vehicle_view_free);
  g_clear_pointer (&self->identity, g_ptr_array_unref);
  g_clear_pointer (&self->left, g_ptr_array_unref);
  g_clear_pointer (&self->right, g_ptr_array_unref);
  pin_sheet_block_free (self->by_system);
  pin_sheet_block_free (self->bearings);
  pin_sheet_block_free (self->bearings_short);
  g_clear_pointer (&self->balloons, g_array_unref);
  g_clear_pointer (&self->oiled, g_hash_table_unref);
  g_free (self->day);
  g_free (self->name);
  g_free (self->footer);
  g_free (self->verdict_lead);
  g_free (self->verdict_text);
  g_free (self);
}

typedef struct
{
  gint64 vehicle;
} SummaryOf;

static gpointer
load (PinDb *db, gpointer data, GError **error)
{
  return pin_summary_rows_load (db, ((SummaryOf *) data)->vehicle, error);
}

PinSummary *
pin_summary_load (PinBook *book, PinLibrary *library, gint64 vehicle, GError **error)
{
  SummaryOf of = { vehicle };
  g_autofree char *name = g_path_get_basename (pin_book_path (book));
  PinSummaryRows *rows = pin_book_run (book, load, &of, error);

  return rows ? pin_summary_new (rows, library, name, error) : NULL;
}

const char *
pin_summary_name (const PinSummary *self)
{
  return self->name;
}
