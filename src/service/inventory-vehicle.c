#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "service/inventory-check.h"

/* What adding one vehicle, or more positions to it, works on. */
typedef struct
{
  PinDeedDone *done;
  PinLibrary *library;
  const PinChassis *chassis;
  const PinNewVehicle *what;  /* NULL: positions only */
  GHashTable *places;         /* code → place id (gint64 *) */
  gint64 vehicle;
  const char *day;
} Adding;

static PinChassis *
find_chassis (PinLibrary *library, const char *id, GError **error)
{
  PinChassis *chassis = id ? pin_library_chassis (library, id, NULL) : NULL;

  if (chassis == NULL)
    g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_UNKNOWN,
                 _("There is no chassis type “%s”: choose one of those in the list"),
                 id ? id : "");
  return chassis;
}

static gboolean
is_as_old (const Adding *self)
{
  return self->what != NULL && (self->what->parts_as_old || self->what->seconds == 0);
}

static gboolean
is_of_engine (PinLibrary *library, const char *kind)
{
  const PinPartKind *known = pin_library_kind (library, kind);

  return g_str_equal (kind, "clutch") ||
         (known != NULL && g_str_equal (known->group, "engine"));
}

static gboolean
add_part (Adding *self, const PinPosition *position, gint64 place, GError **error)
{
  gint64 part = pin_batch_part (pin_deed_done_batch (self->done), 0, position->kind, 0);

  pin_deed_done_fitting (self->done, &(PinFitting) {
    .part = part, .place = place, .day = (char *) self->day });
  if (is_as_old (self))
    {
      pin_write_used (self->done, part, "used.seconds", self->what->seconds, self->day);
      if (is_of_engine (self->library, position->kind))
        pin_write_used (self->done, part, "used.litres", self->what->litres, self->day);
    }
  if (position->size != NULL &&
      !pin_write_spec (self->done, self->library, part, "size", position->size,
                       "default", self->day, error))
    return FALSE;
  for (guint i = 0; i < position->specs->len; i++)
    {
      const PinSpecValue *spec = position->specs->pdata[i];

      if (!pin_write_spec (self->done, self->library, part, spec->id, spec->typed,
                           "default", self->day, error))
        return FALSE;
    }
  return TRUE;
}

static void
add_said (Adding *self, const char *name)
{
  const PinNewVehicle *what = self->what;

  pin_deed_done_trait (self->done, &(PinTrait) {
    .thing = self->vehicle, .code = (char *) "name", .day = (char *) self->day,
    .value = NAN, .text = (char *) name, .origin = (char *) "owner" });
  pin_write_used (self->done, self->vehicle, "used.seconds", what->seconds, self->day);
  pin_write_used (self->done, self->vehicle, "used.runs", what->runs, self->day);
  if (!g_str_equal (self->chassis->power, "electric"))
    pin_write_used (self->done, self->vehicle, "used.litres", what->litres, self->day);
  if (what->acquired != NULL)
    pin_deed_done_trait (self->done, &(PinTrait) {
      .thing = self->vehicle, .code = (char *) "acquired", .day = (char *) self->day,
      .value = NAN, .text = (char *) what->acquired, .origin = (char *) "owner" });
}

static void
keep_place (Adding *self, const char *code, gint64 place)
{
  gint64 *known = g_new (gint64, 1);

  *known = place;
  g_hash_table_insert (self->places, (gpointer) code, known);
}

static gint64
known_place (const Adding *self, const char *code)
{
  const gint64 *known = g_hash_table_lookup (self->places, code);

  return known ? *known : 0;
}

/* A carrier has to be written before what it carries. */
static gboolean
add_position (Adding *self, const PinPosition *position, GError **error)
{
  const PinPosition *carrier =
      position->carrier ? pin_chassis_position (self->chassis, position->carrier) : NULL;
  gint64 place;

  if (known_place (self, position->id) != 0)
    return TRUE;
  if (carrier != NULL && carrier != position && !add_position (self, carrier, error))
    return FALSE;
  place = pin_batch_place (pin_deed_done_batch (self->done), 0, self->vehicle, position->id,
                           position->kind, carrier ? known_place (self, carrier->id) : 0);
  keep_place (self, position->id, place);
  return !position->fitted || add_part (self, position, place, error);
}

static gboolean
add_positions (Adding *self, const GPtrArray *positions, GError **error)
{
  for (guint i = 0; i < positions->len; i++)
    if (!add_position (self, positions->pdata[i], error))
      return FALSE;
  return TRUE;
}

gint64
pin_inventory_add_vehicle (PinDeedDone *done, PinLibrary *library,
                           const PinNewVehicle *what, GPtrArray *taken,
                           GError **error)
{
  g_autofree char *day = NULL, *name = NULL;
  g_autoptr (GHashTable) places =
    g_hash_table_new_full (g_str_hash, g_str_equal, NULL, g_free);
  Adding self = { .done = done, .library = library, .what = what, .places = places };

  if (!pin_check_name (what->name, taken, NULL, &name, error) ||
      (day = pin_check_day (what->day, error)) == NULL ||
      (self.chassis = find_chassis (library, what->chassis, error)) == NULL)
    return 0;
  self.day = day;
  pin_batch_source (pin_deed_done_batch (done), "chassis", self.chassis->id,
                    self.chassis->sha, self.chassis->xml);
  self.vehicle = pin_batch_vehicle (pin_deed_done_batch (done), 0, self.chassis->sha);
  pin_deed_done_set_vehicle (done, self.vehicle);
  add_said (&self, name);
  if (!add_positions (&self, self.chassis->positions, error))
    return 0;
  pin_deed_done_say (done, _("%s is in the stable"), name);
  return self.vehicle;
}

/* ---- What its type has learned since ---- */

GPtrArray *
pin_inventory_missing_positions (const PinCar *car)
{
  GPtrArray *missing = g_ptr_array_new ();

  for (guint i = 0; i < car->chassis->positions->len; i++)
    {
      const PinPosition *position = car->chassis->positions->pdata[i];

      if (!g_hash_table_contains (car->by_code, position->id))
        g_ptr_array_add (missing, (gpointer) position);
    }
  return missing;
}

static gboolean
check_missing (const PinCar *car, const GPtrArray *positions, GError **error)
{
  if (positions == NULL || positions->len == 0)
    {
      g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NOTHING,
                   _("%s has all the positions of its type already"), car->name);
      return FALSE;
    }
  for (guint i = 0; i < positions->len; i++)
    {
      const PinPosition *position = positions->pdata[i];

      if (pin_chassis_position (car->chassis, position->id) == NULL ||
          g_hash_table_contains (car->by_code, position->id))
        {
          g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_PLACE,
                       _("%s: “%s” is there already, or not known to its type; look at it again"),
                       car->name, position->id);
          return FALSE;
        }
    }
  return TRUE;
}

gboolean
pin_inventory_add_positions (PinDeedDone *done, PinLibrary *library, const PinCar *car,
                             const GPtrArray *positions, const char *day, GError **error)
{
  g_autofree char *on = pin_check_day (day, error);
  g_autoptr (GHashTable) places = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, g_free);
  Adding self = { done, library, car->chassis, NULL, places, car->id, on };

  if (on == NULL || !check_missing (car, positions, error))
    return FALSE;
  for (guint i = 0; i < car->rows->places->len; i++)
    {
      const PinPlaceRow *row = car->rows->places->pdata[i];

      keep_place (&self, row->code, row->id);
    }
  if (!add_positions (&self, positions, error))
    return FALSE;
  pin_deed_done_say (done, ngettext ("%s: %u position added", "%s: %u positions added",
                                     positions->len), car->name, positions->len);
  return TRUE;
}

gboolean
pin_inventory_rename (PinDeedDone *done, const PinCar *car, const char *name,
                      GPtrArray *taken, GError **error)
{
  g_autofree char *clean = NULL, *day = pin_check_day (NULL, NULL);

  if (!pin_check_name (name, taken, car->name, &clean, error))
    return FALSE;
  if (g_str_equal (clean, car->name))
    {
      g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NOTHING,
                   _("It is called %s already"), clean);
      return FALSE;
    }
  pin_deed_done_trait (done, &(PinTrait) {
    .thing = car->id, .code = (char *) "name", .day = day, .value = NAN,
    .text = clean, .origin = (char *) "owner" });
  pin_deed_done_say (done, _("%s is now called %s"), car->name, clean);
  return TRUE;
}

static const char *
state_title (const char *state)
{
  static const struct { const char *id, *title; } states[] = {
    { "in-use", N_("in use") },
    { "laid-up", N_("laid up") },
    { "for-sale", N_("for sale") },
    { "sold", N_("sold") },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (states); i++)
    if (g_strcmp0 (state, states[i].id) == 0)
      return _(states[i].title);
  return NULL;
}

gboolean
pin_inventory_set_state (PinDeedDone *done, const PinCar *car, const char *state,
                         const char *day, GError **error)
{
  g_autofree char *on = pin_check_day (day, error);
  const char *title = state_title (state);

  if (on == NULL)
    return FALSE;
  if (title == NULL)
    {
      g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_UNKNOWN,
                   _("“%s” is no state of a vehicle: in-use, laid-up, for-sale or sold"),
                   state ? state : "");
      return FALSE;
    }
  pin_deed_done_trait (done, &(PinTrait) {
    .thing = car->id, .code = (char *) "state", .day = on, .value = NAN,
    .text = (char *) state, .origin = (char *) "owner" });
  pin_deed_done_say (done, _("%s is %s"), car->name, title);
  return TRUE;
}

/* Codes with a meaning of their own are not to be written as free facts. */
static gboolean
is_free_code (const char *code)
{
  return code != NULL && *code != '\0' && !g_str_equal (code, "name") &&
         !g_str_equal (code, "state") && !g_str_has_prefix (code, "used.") &&
         strchr (code, ' ') == NULL;
}

gboolean
pin_inventory_set_fact (PinDeedDone *done, const PinCar *car, const char *code,
                        const char *typed, const char *day, GError **error)
{
  g_autofree char *on = pin_check_day (day, error);

  if (on == NULL)
    return FALSE;
  if (!is_free_code (code) || typed == NULL || *typed == '\0')
    {
      g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_VALUE,
                   _("“%s” cannot be noted: give one word for what it is, and its value"),
                   code ? code : "");
      return FALSE;
    }
  pin_deed_done_trait (done, &(PinTrait) {
    .thing = car->id, .code = (char *) code, .day = on, .value = NAN,
    .text = (char *) typed, .typed = (char *) typed, .origin = (char *) "owner" });
  pin_deed_done_say (done, _("%s: %s %s"), car->name, code, typed);
  return TRUE;
}
