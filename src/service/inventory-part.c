#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "base/day.h"
#include "service/inventory-check.h"

/* Parts that change their place.  Hours follow the part; what sits in a part
 * goes where it goes. */

static gboolean
is_shelf (const char *to, GError **error)
{
  static const char *const words[] = { "shelf", "bin", "sold", "lost", NULL };

  if (to != NULL && g_strv_contains (words, to))
    return TRUE;
  g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_UNKNOWN,
               _("“%s” is no place for a part off the car: shelf, bin, sold or lost"),
               to ? to : "");
  return FALSE;
}

static gboolean
check_fitted (const PinSlot *slot, const char *day, GError **error)
{
  if (slot->part == 0)
    {
      g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NOTHING,
                   _("Nothing is fitted at %s"), slot->label);
      return FALSE;
    }
  if (slot->row != NULL && slot->row->since != NULL && pin_day_diff (day, slot->row->since) > 0)
    {
      g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_DAY,
                   _("%s was fitted on %s: it cannot have come off on %s"),
                   slot->label, slot->row->since, day);
      return FALSE;
    }
  return TRUE;
}

static void
write_fitted (PinDeedDone *done, gint64 part, gint64 place, const char *day)
{
  pin_deed_done_fitting (done, &(PinFitting) {
    .part = part, .place = place, .day = (char *) day, .at = pin_instant_on (day) });
}

static void
write_off (PinDeedDone *done, gint64 part, const char *to, gint64 inside, const char *day)
{
  pin_deed_done_fitting (done, &(PinFitting) {
    .part = part, .shelf = (char *) to, .inside = inside, .day = (char *) day,
    .at = pin_instant_on (day) });
}

/* Gone for good: nothing is left to be looked at. */
static void
close_if_gone (PinDeedDone *done, const PinCar *car, gint64 part, const char *to,
               gint64 cause, const char *day)
{
  if (!g_str_equal (to, "shelf"))
    pin_findings_event (done, car, part, "closed", cause, "part gone", day);
}

/* The part of @slot leaves the car, and what it carries with it. */
static void
go_off (PinDeedDone *done, const PinCar *car, const PinSlot *slot, const char *to,
        gboolean with_carried, const char *day)
{
  g_autoptr (GPtrArray) carried = pin_slots_carried (car, slot);

  write_off (done, slot->part, to, 0, day);
  close_if_gone (done, car, slot->part, to, slot->part, day);
  for (guint i = 0; with_carried && i < carried->len; i++)
    {
      const PinSlot *child = carried->pdata[i];

      if (child->part == 0)
        continue;
      write_off (done, child->part, to, slot->part, day);
      close_if_gone (done, car, child->part, to, slot->part, day);
    }
}

gboolean
pin_inventory_take_off (PinDeedDone *done, const PinCar *car, const PinSlot *slot,
                        const char *to, const char *day, GError **error)
{
  g_autofree char *on = pin_check_day (day, error);

  if (on == NULL || !is_shelf (to, error) || !check_fitted (slot, on, error))
    return FALSE;
  go_off (done, car, slot, to, TRUE, on);
  pin_deed_done_say (done, _("%s, %s: off, to the %s"), car->name, slot->label, to);
  return TRUE;
}

/* ---- Finding the place that a carried part had in its carrier ---- */

static const char *
last_word (const char *code)
{
  const char *dot = code ? strrchr (code, '.') : NULL;

  return dot ? dot + 1 : code;
}

/* The free place among @places for a part of @kind that came from @code. */
static PinSlot *
place_for (GPtrArray *places, const char *kind, const char *code, GHashTable *used)
{
  PinSlot *fallback = NULL;

  for (guint i = 0; i < places->len; i++)
    {
      PinSlot *slot = places->pdata[i];

      if (!g_str_equal (slot->kind, kind) || g_hash_table_contains (used, slot))
        continue;
      if (code != NULL && g_strcmp0 (last_word (slot->code), last_word (code)) == 0)
        return slot;
      if (fallback == NULL)
        fallback = slot;
    }
  return fallback;
}

static void
carry (PinDeedDone *done, GPtrArray *places, GHashTable *used, gint64 part,
       const char *kind, const char *code, gint64 carrier, const char *day)
{
  PinSlot *place = place_for (places, kind, code, used);

  if (place == NULL)
    {
      write_off (done, part, "shelf", carrier, day);
      return;
    }
  g_hash_table_add (used, place);
  write_fitted (done, part, place->place, day);
}

/* ---- Moving ---- */

static gboolean
check_kind (const char *kind, const PinSlot *slot, GError **error)
{
  if (g_str_equal (kind, slot->kind))
    return TRUE;
  g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_PLACE,
               _("A %s does not belong at %s: a %s goes there"),
               kind, slot->label, slot->kind);
  return FALSE;
}

gboolean
pin_inventory_move (PinDeedDone *done, const PinCar *from, const PinSlot *slot,
                    const PinCar *to, const PinSlot *to_slot, const char *day,
                    GError **error)
{
  g_autofree char *on = pin_check_day (day, error);
  g_autoptr (GPtrArray) carried = NULL, places = NULL;
  g_autoptr (GHashTable) used = g_hash_table_new (NULL, NULL);

  if (on == NULL || !check_fitted (slot, on, error) ||
      !check_kind (slot->row->kind, to_slot, error))
    return FALSE;
  if (slot->place == to_slot->place)
    {
      g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NOTHING,
                   _("It is at %s already"), slot->label);
      return FALSE;
    }
  if (to_slot->part != 0)
    {
      if (!check_fitted (to_slot, on, error))
        return FALSE;
      go_off (done, to, to_slot, "shelf", TRUE, on);
    }
  write_fitted (done, slot->part, to_slot->place, on);
  carried = pin_slots_carried (from, slot);
  places = pin_slots_carried (to, to_slot);
  for (guint i = 0; i < carried->len; i++)
    {
      const PinSlot *child = carried->pdata[i];

      if (child->part != 0)
        carry (done, places, used, child->part, child->kind, child->code, slot->part, on);
    }
  pin_deed_done_say (done, _("%s from %s: now at %s of %s"), slot->label, from->name,
                     to_slot->label, to->name);
  return TRUE;
}

/* ---- Replacing ---- */

/* Bought with its own bearings in it. */
static gboolean
brings_its_own (const char *kind)
{
  return g_str_equal (kind, "motor") || g_str_equal (kind, "engine");
}

/* What a new part of the same kind and make has in common with the old one;
 * what is filled in, set or worn is not. */
static gboolean
is_of_make (const char *code)
{
  static const char *const own[] = {
    "fluid", "fill", "lube", "tread", "diameter", "collar", "end-point-left",
    "end-point-right", "sub-trim", "dual-rate", "timing", "high-needle",
    "low-needle", "idle-gap", "shim-left", "shim-right", NULL };

  return !g_str_has_prefix (code, "used.") && !g_strv_contains (own, code);
}

static void
write_make (PinDeedDone *done, const PinSlot *slot, gint64 part, const char *size,
            const char *day)
{
  GHashTableIter iter;
  gpointer code, value;

  g_hash_table_iter_init (&iter, slot->specs);
  while (g_hash_table_iter_next (&iter, &code, &value))
    {
      PinTrait row = *(const PinTrait *) value;

      if (!is_of_make (code) || (size != NULL && g_str_equal (code, "size")))
        continue;
      pin_deed_done_trait (done, &(PinTrait) {
        .thing = part, .code = code, .day = (char *) day, .value = row.value,
        .text = row.text, .typed = row.typed, .origin = (char *) "default" });
    }
  if (size != NULL)
    pin_deed_done_trait (done, &(PinTrait) {
      .thing = part, .code = (char *) "size", .day = (char *) day, .value = NAN,
      .text = (char *) size, .typed = (char *) size, .origin = (char *) "owner" });
  pin_write_used (done, part, "used.seconds", 0, day);
}

static gint64
write_new (PinDeedDone *done, const PinSlot *slot, const char *size, const char *day)
{
  gint64 part = pin_batch_part (pin_deed_done_batch (done), 0, slot->kind, 0);

  write_fitted (done, part, slot->place, day);
  write_make (done, slot, part, size, day);
  return part;
}

static gint64
fit_new (PinDeedDone *done, const PinCar *car, const PinSlot *slot,
         const char *size, const char *day)
{
  g_autoptr (GPtrArray) carried = pin_slots_carried (car, slot);
  gint64 part = write_new (done, slot, size, day);

  for (guint i = 0; brings_its_own (slot->kind) && i < carried->len; i++)
    write_new (done, carried->pdata[i], NULL, day);
  return part;
}

static gboolean
shelf_brings (const PinPartShelf *shelf, gint64 carrier)
{
  for (guint i = 0; i < shelf->parts->len; i++)
    if (((PinShelfPart *) shelf->parts->pdata[i])->row->inside == carrier)
      return TRUE;
  return FALSE;
}

static gint64
fit_from_shelf (PinDeedDone *done, const PinCar *car, const PinSlot *slot,
                const PinReplacement *how, const char *day)
{
  g_autoptr (GPtrArray) places = pin_slots_carried (car, slot);
  g_autoptr (GHashTable) used = g_hash_table_new (NULL, NULL);

  write_fitted (done, how->from_shelf, slot->place, day);
  for (guint i = 0; i < how->shelf->parts->len; i++)
    {
      const PinShelfPart *part = how->shelf->parts->pdata[i];

      if (part->row->inside == how->from_shelf)
        carry (done, places, used, part->row->id, part->row->kind, part->last_code,
               how->from_shelf, day);
    }
  return how->from_shelf;
}

static gboolean
check_replacement (const PinSlot *slot, const PinReplacement *how, const char *to,
                   const char *day, GError **error)
{
  const PinShelfPart *spare =
      how->from_shelf ? pin_part_shelf_part (how->shelf, how->from_shelf) : NULL;

  if (slot->part != 0 && (!is_shelf (to, error) || !check_fitted (slot, day, error)))
    return FALSE;
  if (how->from_shelf == 0)
    return TRUE;
  if (spare == NULL)
    {
      g_set_error_literal (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_UNKNOWN,
                           _("That part is not on the shelf: look at the shelf again"));
      return FALSE;
    }
  return check_kind (spare->row->kind, slot, error);
}

gint64
pin_inventory_replace (PinDeedDone *done, PinLibrary *library, const PinCar *car,
                       const PinSlot *slot, const PinReplacement *how,
                       GError **error)
{
  g_autofree char *day = pin_check_day (how->day, error);
  const char *to = how->old_to ? how->old_to : "bin";
  gboolean brings = how->from_shelf
                        ? how->shelf != NULL && shelf_brings (how->shelf, how->from_shelf)
                        : brings_its_own (slot->kind);
  gint64 part;

  if (day == NULL || !check_replacement (slot, how, to, day, error))
    return 0;
  if (slot->part != 0)
    go_off (done, car, slot, to, brings, day);
  part = how->from_shelf ? fit_from_shelf (done, car, slot, how, day)
                         : fit_new (done, car, slot, how->size, day);
  pin_deed_done_work (done, &(PinWork) {
    .thing = part, .place = slot->place, .deed = (char *) "replaced",
    .note = (char *) how->note, .cost = how->cost, .currency = (char *) how->currency,
    .day = day, .at = pin_instant_on (day) });
  pin_deed_done_say (done, slot->part ? _("%s replaced, the old one to the %s") : _("%s fitted"),
                     slot->label, to);
  return part;
}
