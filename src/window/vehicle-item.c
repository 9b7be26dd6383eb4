#include "window/vehicle-item.h"

#include <glib/gi18n.h>

#include "window/plan-area.h"

G_DEFINE_FINAL_TYPE (PinVehicleItem, pin_vehicle_item, G_TYPE_OBJECT)

static void
pin_vehicle_item_finalize (GObject *object)
{
  PinVehicleItem *self = PIN_VEHICLE_ITEM (object);

  g_free (self->name);
  g_free (self->chassis_title);
  g_free (self->state);
  g_free (self->level_title);
  g_free (self->reason);
  g_free (self->more);
  g_free (self->hours);
  g_free (self->outings);
  g_free (self->open_walk_title);
  g_clear_pointer (&self->chassis, pin_chassis_unref);
  g_ptr_array_unref (self->marks);
  G_OBJECT_CLASS (pin_vehicle_item_parent_class)->finalize (object);
}

static void
pin_vehicle_item_class_init (PinVehicleItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = pin_vehicle_item_finalize;
}

static void
pin_vehicle_item_init (PinVehicleItem *self)
{
  self->marks = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_plan_item_free);
}

/* The mark that stands for an answer to "may it run?". */
PinOutcome
pin_level_outcome (PinLevel level)
{
  switch (level)
    {
    case PIN_LEVEL_UNSAFE:
    case PIN_LEVEL_NOT_READY:
      return PIN_OUTCOME_FAIL;
    case PIN_LEVEL_WATCH:
      return PIN_OUTCOME_WATCH;
    case PIN_LEVEL_READY:
      return PIN_OUTCOME_PASS;
    case PIN_LEVEL_NOT_KNOWN:
    default:
      return PIN_OUTCOME_NOT_CHECKED;
    }
}

static void
take_marks (PinVehicleItem *self, const PinStableVehicle *vehicle)
{
  for (guint i = 0; i < vehicle->car->slots->len; i++)
    {
      const PinSlot *slot = g_ptr_array_index (vehicle->car->slots, i);
      const PinSlotMark *mark = g_hash_table_lookup (vehicle->marks, slot->code);

      if (slot->position != NULL && mark != NULL)
        g_ptr_array_add (self->marks, pin_plan_item_new (slot->code, slot->label, NULL, NULL,
                                                         slot->position->x, slot->position->y,
                                                         mark->outcome, mark->unsafe));
    }
}

PinVehicleItem *
pin_vehicle_item_new (const PinStableVehicle *vehicle)
{
  PinVehicleItem *self = g_object_new (PIN_TYPE_VEHICLE_ITEM, NULL);
  guint n = vehicle->readiness->reasons->len;
  int outings = (int) vehicle->usage.outings;

  self->id = vehicle->id;
  self->name = g_strdup (vehicle->name);
  self->chassis_title = g_strdup (vehicle->chassis_title);
  self->state = g_strdup (vehicle->state);
  self->level = vehicle->readiness->level;
  self->level_title = g_strdup (pin_level_title (self->level));
  self->reason = g_strdup (pin_readiness_text (vehicle->readiness));
  self->more = n > 1 ? g_strdup_printf (_("and %u more"), n - 1) : NULL;
  self->hours = pin_usage_hours (&vehicle->usage);
  self->outings = g_strdup_printf (ngettext ("%d outing", "%d outings", outings), outings);
  self->burns_fuel = vehicle->burns_fuel;
  self->open_walk = vehicle->open_walk;
  self->open_walk_title = g_strdup (vehicle->open_walk_title);
  self->chassis = vehicle->car->chassis != NULL ? pin_chassis_ref (vehicle->car->chassis) : NULL;
  take_marks (self, vehicle);
  return self;
}

static gboolean
same_marks (const GPtrArray *a, const GPtrArray *b)
{
  gboolean same = a->len == b->len;

  for (guint i = 0; same && i < a->len; i++)
    {
      const PinPlanItem *x = g_ptr_array_index (a, i);
      const PinPlanItem *y = g_ptr_array_index (b, i);

      same = g_str_equal (x->code, y->code) && x->outcome == y->outcome && x->unsafe == y->unsafe &&
             x->x == y->x && x->y == y->y;
    }
  return same;
}

/* Would a row show the same?  For lists that keep such rows. */
gboolean
pin_vehicle_item_equal (gconstpointer a, gconstpointer b)
{
  const PinVehicleItem *x = a, *y = b;

  return x->id == y->id && x->level == y->level && x->open_walk == y->open_walk &&
         x->chassis == y->chassis && x->burns_fuel == y->burns_fuel && g_strcmp0 (x->name, y->name) == 0 &&
         g_strcmp0 (x->chassis_title, y->chassis_title) == 0 &&
         g_strcmp0 (x->state, y->state) == 0 && g_strcmp0 (x->reason, y->reason) == 0 &&
         g_strcmp0 (x->more, y->more) == 0 && g_strcmp0 (x->hours, y->hours) == 0 &&
         g_strcmp0 (x->outings, y->outings) == 0 &&
         g_strcmp0 (x->open_walk_title, y->open_walk_title) == 0 &&
         same_marks (x->marks, y->marks);
}
