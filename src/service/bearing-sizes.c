#include "service/bearing-sizes.h"

#include <math.h>
#include <string.h>

#include "library/quantity.h"
#include "maths/bearings.h"

#define SAME 1e-6             /* mm */

void
pin_bearing_size_free (PinBearingSize *self)
{
  g_free (self->size);
  g_ptr_array_unref (self->cars);
  g_free (self);
}

/* "5 × 10 × 4 mm", "5x10x4": three numbers with anything but digits between them. */
static gboolean
read_size (const char *text, double *bore, double *outside, double *width)
{
  double *const to[] = { bore, outside, width };
  guint n = 0;

  while (*text != '\0')
    {
      char *end;

      if (!g_ascii_isdigit (*text))
        {
          text++;
          continue;
        }
      if (n == G_N_ELEMENTS (to))
        return FALSE;
      *to[n++] = g_ascii_strtod (text, &end);
      text = end;
    }
  return n == G_N_ELEMENTS (to);
}

static void
name_it (PinBearingSize *self)
{
  size_t n;
  const PinBearing *table = pin_bearings (&n);

  for (size_t i = 0; i < n; i++)
    {
      gboolean open = fabs (table[i].open - self->width) < SAME, closed = fabs (table[i].closed - self->width) < SAME;

      if (fabs (table[i].bore - self->bore) > SAME || fabs (table[i].outside - self->outside) > SAME
          || !(open || closed))
        continue;
      self->designation = table[i].designation;
      self->closure = open && closed ? "any" : open ? "open" : "shielded or sealed";
      return;
    }
}

static PinBearingSize *
size_new (const char *text)
{
  PinBearingSize *self = g_new0 (PinBearingSize, 1);

  self->cars = g_ptr_array_new_with_free_func (g_free);
  if (read_size (text, &self->bore, &self->outside, &self->width))
    {
      g_autofree char *bore = pin_number_format (self->bore, -1);
      g_autofree char *outside = pin_number_format (self->outside, -1);
      g_autofree char *width = pin_number_format (self->width, -1);

      self->size = g_strdup_printf ("%s × %s × %s mm", bore, outside, width);
      name_it (self);
    }
  else
    {
      self->bore = self->outside = self->width = NAN;
      self->size = g_strdup (text);
    }
  return self;
}

/* The line of that size, made if there is none. */
static PinBearingSize *
size_of (GPtrArray *sizes, const char *text)
{
  PinBearingSize *made = size_new (text);

  for (guint i = 0; i < sizes->len; i++)
    if (g_str_equal (((PinBearingSize *) g_ptr_array_index (sizes, i))->size, made->size))
      {
        pin_bearing_size_free (made);
        return g_ptr_array_index (sizes, i);
      }
  g_ptr_array_add (sizes, made);
  return made;
}

static void
add_car (PinBearingSize *size, const char *name, guint n)
{
  g_ptr_array_add (size->cars, g_strdup_printf ("%s %u", name, n));
}

static gboolean
is_bearing (const PinPartRow *part)
{
  return g_str_equal (part->kind, "bearing") && part->size != NULL;
}

static gboolean
count_car (GPtrArray *sizes, PinDb *db, const PinVehicleRow *car, GError **error)
{
  g_autoptr (GPtrArray) parts = pin_query_parts_on (db, car->id, error);
  g_autoptr (GHashTable) here = g_hash_table_new (g_direct_hash, g_direct_equal);
  g_autoptr (GPtrArray) order = g_ptr_array_new ();

  if (parts == NULL)
    return FALSE;
  for (guint i = 0; i < parts->len; i++)
    {
      const PinPartRow *part = g_ptr_array_index (parts, i);
      PinBearingSize *size;

      if (!is_bearing (part))
        continue;
      size = size_of (sizes, part->size);
      size->fitted++;
      if (!g_hash_table_contains (here, size))
        g_ptr_array_add (order, size);
      g_hash_table_insert (here, size, GUINT_TO_POINTER (GPOINTER_TO_UINT (g_hash_table_lookup (here, size)) + 1));
    }
  for (guint i = 0; i < order->len; i++)
    {
      PinBearingSize *size = g_ptr_array_index (order, i);

      add_car (size, car->name, GPOINTER_TO_UINT (g_hash_table_lookup (here, size)));
    }
  return TRUE;
}

static gboolean
count_shelf (GPtrArray *sizes, PinDb *db, GError **error)
{
  g_autoptr (GPtrArray) parts = pin_query_parts_off (db, error);

  if (parts == NULL)
    return FALSE;
  for (guint i = 0; i < parts->len; i++)
    {
      const PinPartRow *part = g_ptr_array_index (parts, i);

      if (is_bearing (part) && g_strcmp0 (part->shelf, "shelf") == 0)
        size_of (sizes, part->size)->shelved++;
    }
  return TRUE;
}

static int
by_measures (gconstpointer a, gconstpointer b)
{
  const PinBearingSize *first = *(PinBearingSize *const *) a, *second = *(PinBearingSize *const *) b;
  const double measures[][2] = { { first->bore, second->bore }, { first->outside, second->outside },
                                 { first->width, second->width } };

  if (isnan (first->bore) != isnan (second->bore))
    return isnan (first->bore) ? 1 : -1;
  for (guint i = 0; i < G_N_ELEMENTS (measures); i++)
    if (measures[i][0] != measures[i][1])
      return measures[i][0] < measures[i][1] ? -1 : 1;
  return strcmp (first->size, second->size);
}

GPtrArray *
pin_bearing_sizes_load (PinDb *db, GError **error)
{
  g_autoptr (GPtrArray) cars = pin_query_vehicles (db, error);
  g_autoptr (GPtrArray) sizes = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_bearing_size_free);

  if (cars == NULL)
    return NULL;
  for (guint i = 0; i < cars->len; i++)
    {
      const PinVehicleRow *car = g_ptr_array_index (cars, i);

      if (g_strcmp0 (car->state, "sold") != 0 && !count_car (sizes, db, car, error))
        return NULL;
    }
  if (!count_shelf (sizes, db, error))
    return NULL;
  g_ptr_array_sort (sizes, by_measures);
  return g_steal_pointer (&sizes);
}
