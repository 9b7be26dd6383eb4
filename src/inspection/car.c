#include "inspection/car.h"

#include <string.h>

#include "inspection/error.h"

G_DEFINE_QUARK (pin-inspection-error-quark, pin_inspection_error)

/* Runs on the book's thread. */
PinCarRows *
pin_car_rows_load (PinDb *db, gint64 vehicle, GError **error)
{
  return pin_car_rows_of_walk (db, vehicle, 0, error);
}

PinCarRows *
pin_car_rows_of_walk (PinDb *db, gint64 vehicle, gint64 inspection, GError **error)
{
  g_autoptr (PinCarRows) rows = g_new0 (PinCarRows, 1);

  if (!(rows->vehicle = pin_query_vehicle (db, vehicle, error)) ||
      !(rows->places = pin_query_places (db, vehicle, error)) ||
      !(rows->parts = pin_query_parts_on (db, vehicle, error)) ||
      !(rows->traits = pin_query_traits_of_vehicle (db, vehicle, NULL, error)) ||
      !(rows->tray_answers = pin_query_tray (db, vehicle, inspection, error)) ||
      !(rows->owed = pin_query_owed (db, vehicle, error)) ||
      !(rows->findings = pin_query_findings (db, vehicle, FALSE, error)) ||
      !(rows->open_walks = pin_query_open_walks (db, vehicle, error)) ||
      !(rows->chassis_xml = pin_query_source (db, rows->vehicle->chassis_sha, error)))
    return NULL;
  return g_steal_pointer (&rows);
}

void
pin_car_rows_free (PinCarRows *rows)
{
  if (rows == NULL)
    return;
  g_clear_pointer (&rows->vehicle, pin_vehicle_row_free);
  g_clear_pointer (&rows->places, g_ptr_array_unref);
  g_clear_pointer (&rows->parts, g_ptr_array_unref);
  g_clear_pointer (&rows->traits, g_ptr_array_unref);
  g_clear_pointer (&rows->tray_answers, g_ptr_array_unref);
  g_clear_pointer (&rows->owed, g_ptr_array_unref);
  g_clear_pointer (&rows->findings, g_ptr_array_unref);
  g_clear_pointer (&rows->open_walks, g_ptr_array_unref);
  g_clear_pointer (&rows->chassis_xml, g_bytes_unref);
  g_free (rows->chassis_sha);
  g_free (rows);
}

static void
slot_free (PinSlot *slot)
{
  g_free (slot->code);
  g_free (slot->kind);
  g_free (slot->label);
  g_free (slot->size);
  g_hash_table_unref (slot->specs);
  g_free (slot);
}

static void
tray_item_free (PinTrayItem *item)
{
  g_free (item->id);
  g_free (item->note);
  g_free (item);
}

static gint64 *
key_of (gint64 id)
{
  gint64 *key = g_new (gint64, 1);

  *key = id;
  return key;
}

/* The newest text of the type, so that better drawings and words reach old
 * cars, but not into a walk that was begun with another; the text as it was
 * kept when the shelf has lost it. */
static PinChassis *
find_chassis (const PinCarRows *rows, PinLibrary *library, GError **error)
{
  PinChassis *newest = pin_library_chassis (library, rows->vehicle->chassis_code, NULL);

  if (newest && (rows->chassis_sha == NULL || g_str_equal (rows->chassis_sha, newest->sha)))
    return pin_chassis_ref (newest);
  return pin_chassis_read (rows->chassis_xml, rows->vehicle->chassis_code, error);
}

static PinSlot *
slot_new (const PinPlaceRow *place, const PinChassis *chassis)
{
  PinSlot *slot = g_new0 (PinSlot, 1);

  slot->place = place->id;
  slot->code = g_strdup (place->code);
  slot->kind = g_strdup (place->kind);
  slot->position = pin_chassis_position (chassis, place->code);
  slot->label = g_strdup (slot->position ? slot->position->label : place->code);
  slot->specs = g_hash_table_new (g_str_hash, g_str_equal);
  return slot;
}

static void
add_slots (PinCar *self)
{
  for (guint i = 0; i < self->rows->places->len; i++)
    {
      PinSlot *slot = slot_new (g_ptr_array_index (self->rows->places, i), self->chassis);

      g_hash_table_insert (self->by_code, slot->code, slot);
      g_hash_table_insert (self->by_place, key_of (slot->place), slot);
    }
  /* In the order of the chassis file: it is written front to rear, outside in. */
  for (guint i = 0; i < self->chassis->positions->len; i++)
    {
      const PinPosition *position = g_ptr_array_index (self->chassis->positions, i);
      PinSlot *slot = g_hash_table_lookup (self->by_code, position->id);

      if (slot)
        g_ptr_array_add (self->slots, slot);
    }
  for (guint i = 0; i < self->rows->places->len; i++)
    {
      const PinPlaceRow *place = g_ptr_array_index (self->rows->places, i);
      PinSlot *slot = g_hash_table_lookup (self->by_code, place->code);

      if (slot->position == NULL)
        g_ptr_array_add (self->slots, slot);
    }
}

static void
link_slots (PinCar *self)
{
  for (guint i = 0; i < self->slots->len; i++)
    {
      PinSlot *slot = g_ptr_array_index (self->slots, i);

      if (slot->position && slot->position->pair)
        slot->partner = g_hash_table_lookup (self->by_code, slot->position->pair);
      if (slot->position && slot->position->carrier)
        slot->carrier = g_hash_table_lookup (self->by_code, slot->position->carrier);
    }
}

static void
add_parts (PinCar *self)
{
  for (guint i = 0; i < self->rows->parts->len; i++)
    {
      const PinPartRow *part = g_ptr_array_index (self->rows->parts, i);
      PinSlot *slot = g_hash_table_lookup (self->by_place, &part->place);

      if (slot == NULL)
        continue;
      slot->part = part->id;
      slot->row = part;
      g_clear_pointer (&slot->size, g_free);
      slot->size = g_strdup (part->size);
      g_hash_table_insert (self->by_part, key_of (part->id), slot);
    }
  for (guint i = 0; i < self->rows->traits->len; i++)
    {
      const PinTrait *trait = g_ptr_array_index (self->rows->traits, i);
      PinSlot *slot = g_hash_table_lookup (self->by_part, &trait->thing);

      if (slot)
        g_hash_table_insert (slot->specs, trait->code, (gpointer) trait);
    }
}

static void
replay_tray (PinCar *self)
{
  for (guint i = 0; i < self->rows->tray_answers->len; i++)
    {
      const PinAnswer *answer = g_ptr_array_index (self->rows->tray_answers, i);
      const char *id = strchr (answer->step, '/') + 1;
      guint at = 0;

      if (answer->outcome != PIN_OUTCOME_DONE)
        continue;
      while (at < self->tray->len &&
             !g_str_equal (((PinTrayItem *) g_ptr_array_index (self->tray, at))->id, id))
        at++;
      if (at < self->tray->len)
        g_ptr_array_remove_index (self->tray, at);
      if (g_str_has_prefix (answer->step, "off/"))
        {
          PinTrayItem *item = g_new0 (PinTrayItem, 1);

          item->id = g_strdup (id);
          item->assembly = pin_chassis_assembly (self->chassis, id);
          item->answer = answer->id;
          item->note = g_strdup (answer->note);
          g_ptr_array_add (self->tray, item);
        }
    }
}

/* Takes @rows, also on error. */
PinCar *
pin_car_new (PinCarRows *rows, PinLibrary *library, GError **error)
{
  g_autoptr (PinCar) self = g_new0 (PinCar, 1);

  self->rows = rows;
  self->id = rows->vehicle->id;
  self->name = g_strdup (rows->vehicle->name ? rows->vehicle->name : "");
  self->slots = g_ptr_array_new ();
  self->by_code = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, (GDestroyNotify) slot_free);
  self->by_place = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  self->by_part = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  self->tray = g_ptr_array_new_with_free_func ((GDestroyNotify) tray_item_free);
  self->chassis = find_chassis (rows, library, error);
  if (self->chassis == NULL)
    return NULL;
  add_slots (self);
  link_slots (self);
  add_parts (self);
  replay_tray (self);
  return g_steal_pointer (&self);
}

void
pin_car_free (PinCar *self)
{
  if (self == NULL)
    return;
  g_clear_pointer (&self->tray, g_ptr_array_unref);
  g_clear_pointer (&self->by_part, g_hash_table_unref);
  g_clear_pointer (&self->by_place, g_hash_table_unref);
  g_clear_pointer (&self->slots, g_ptr_array_unref);
  g_clear_pointer (&self->by_code, g_hash_table_unref);
  g_clear_pointer (&self->chassis, pin_chassis_unref);
  g_clear_pointer (&self->rows, pin_car_rows_free);
  g_free (self->name);
  g_free (self);
}

/* NULL if the car has no such position. */
PinSlot *
pin_car_slot (const PinCar *self, const char *code)
{
  return code ? g_hash_table_lookup (self->by_code, code) : NULL;
}

PinSlot *
pin_car_slot_of_part (const PinCar *self, gint64 part)
{
  return part ? g_hash_table_lookup (self->by_part, &part) : NULL;
}

/* The newest word on one spec value of the part fitted; NULL: none known. */
const PinTrait *
pin_slot_spec (const PinSlot *slot, const char *spec)
{
  return g_hash_table_lookup (slot->specs, spec);
}

/* What is said of the vehicle itself. */
const PinTrait *
pin_car_trait (const PinCar *self, const char *code)
{
  const PinTrait *found = NULL;

  for (guint i = 0; i < self->rows->traits->len; i++)
    {
      const PinTrait *trait = g_ptr_array_index (self->rows->traits, i);

      if (trait->thing == self->id && g_str_equal (trait->code, code))
        found = trait;
    }
  return found;
}

gboolean
pin_car_is_off (const PinCar *self, const char *assembly)
{
  for (guint i = 0; i < self->tray->len; i++)
    if (g_str_equal (((PinTrayItem *) g_ptr_array_index (self->tray, i))->id, assembly))
      return TRUE;
  return FALSE;
}

gboolean
pin_owed_lapsed (PinLibrary *library, const PinOwed *owed, gint64 now)
{
  const PinDebt *debt = pin_library_debt (library, owed->what);

  return debt && debt->payable == PIN_PAYABLE_TIME && debt->step == NULL && owed->ready_at <= now;
}
