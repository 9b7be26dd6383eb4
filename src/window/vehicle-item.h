#pragma once

#include <gtk/gtk.h>

#include "service/stable.h"

G_BEGIN_DECLS

/* One vehicle as a row of the stable: the words and marks of a
 * PinStableVehicle, kept while the row is shown. */

#define PIN_TYPE_VEHICLE_ITEM (pin_vehicle_item_get_type ())
G_DECLARE_FINAL_TYPE (PinVehicleItem, pin_vehicle_item, PIN, VEHICLE_ITEM, GObject)

struct _PinVehicleItem
{
  GObject parent_instance;

  gint64 id;
  char *name, *chassis_title, *state;
  PinLevel level;
  char *level_title, *reason, *more; /* more: "and 2 more", or NULL */
  char *hours, *outings;
  gboolean burns_fuel;
  gint64 open_walk;
  char *open_walk_title;
  PinChassis *chassis;
  GPtrArray *marks;           /* PinPlanItem* */
};

PinVehicleItem *pin_vehicle_item_new     (const PinStableVehicle *vehicle);
gboolean        pin_vehicle_item_equal   (gconstpointer           a,
                                          gconstpointer           b);
PinOutcome      pin_level_outcome        (PinLevel                level);

G_END_DECLS
