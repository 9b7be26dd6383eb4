#include "service/part-shelf.h"

static void
shelf_part_free (PinShelfPart *part)
{
  pin_part_row_free (part->row);
  g_free (part->last_code);
  g_free (part->last_vehicle);
  g_free (part);
}

void
pin_part_shelf_free (PinPartShelf *self)
{
  if (self == NULL)
    return;
  g_clear_pointer (&self->parts, g_ptr_array_unref);
  g_free (self);
}

static gint64
last_place (PinDb *db, gint64 part, GError **error)
{
  g_autoptr (GPtrArray) fittings = pin_query_fittings (db, part, error);

  if (fittings == NULL)
    return -1;
  for (guint i = fittings->len; i-- > 0;)
    {
      const PinFitting *fitting = fittings->pdata[i];

      if (fitting->place != 0)
        return fitting->place;
    }
  return 0;
}

static const PinPlaceRow *
find_place (GPtrArray *places, gint64 id)
{
  for (guint i = 0; i < places->len; i++)
    if (((PinPlaceRow *) places->pdata[i])->id == id)
      return places->pdata[i];
  return NULL;
}

static char *
vehicle_name (GPtrArray *vehicles, gint64 id)
{
  for (guint i = 0; i < vehicles->len; i++)
    if (((PinVehicleRow *) vehicles->pdata[i])->id == id)
      return g_strdup (((PinVehicleRow *) vehicles->pdata[i])->name);
  return NULL;
}

static gboolean
add_part (PinDb *db, PinPartShelf *self, PinPartRow *row, GPtrArray *places,
          GPtrArray *vehicles, GError **error)
{
  PinShelfPart *part = g_new0 (PinShelfPart, 1);
  gint64 place = last_place (db, row->id, error);
  const PinPlaceRow *was = place > 0 ? find_place (places, place) : NULL;

  part->row = row;
  if (was != NULL)
    {
      part->last_code = g_strdup (was->code);
      part->last_vehicle = vehicle_name (vehicles, was->vehicle);
    }
  g_ptr_array_add (self->parts, part);
  return place >= 0;
}

PinPartShelf *
pin_part_shelf_load (PinDb *db, GError **error)
{
  g_autoptr (PinPartShelf) self = g_new0 (PinPartShelf, 1);
  g_autoptr (GPtrArray) rows = pin_query_parts_off (db, error);
  g_autoptr (GPtrArray) places = rows ? pin_query_places (db, 0, error) : NULL;
  g_autoptr (GPtrArray) vehicles = places ? pin_query_vehicles (db, error) : NULL;

  if (vehicles == NULL)
    return NULL;
  self->parts = g_ptr_array_new_with_free_func ((GDestroyNotify) shelf_part_free);
  while (rows->len > 0)
    {
      PinPartRow *row = g_ptr_array_steal_index (rows, 0);

      if (!add_part (db, self, row, places, vehicles, error))
        return NULL;
    }
  return g_steal_pointer (&self);
}

const PinShelfPart *
pin_part_shelf_part (const PinPartShelf *self, gint64 part)
{
  for (guint i = 0; self != NULL && i < self->parts->len; i++)
    if (((PinShelfPart *) self->parts->pdata[i])->row->id == part)
      return self->parts->pdata[i];
  return NULL;
}

GPtrArray *
pin_part_shelf_of (const PinPartShelf *self, const char *kind)
{
  GPtrArray *some = g_ptr_array_new ();

  for (guint i = 0; i < self->parts->len; i++)
    {
      PinShelfPart *part = self->parts->pdata[i];

      if (part->row->inside == 0 && g_str_equal (part->row->kind, kind))
        g_ptr_array_add (some, part);
    }
  return some;
}
