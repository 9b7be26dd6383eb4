#include "service/reckon-fill.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "base/day.h"
#include "library/quantity.h"
#include "maths/gearing.h"
#include "maths/repeats.h"
#include "service/inventory.h"

/* Where an input can be read off a vehicle.  Most names of inputs mean the same
 * in every sum that has them; where one does not, its sum stands with it. */

typedef enum
{
  FROM_SPEC,                  /* of a part of that kind, the driven end first */
  FROM_CELLS,                 /* its cells by the usual volts of one */
  FROM_RATIO,                 /* of the gearbox, by the chassis type */
  FROM_WHEELBASE,
  FROM_TRACK,
  FROM_ROLLOUT,               /* of the gears and tyres that are fitted */
  FROM_READING,               /* the newest of that quantity on a part of that kind, or on anything */
  FROM_REPEATS,               /* all readings that were taken for it */
} From;

typedef struct
{
  const char *sum;            /* NULL: any that has the input in a unit of that kind */
  const char *input;
  From from;
  const char *kind, *name;    /* part kind; spec or quantity */
  const char *unit;           /* what the value is told in; NULL: a bare number */
} Source;

static const Source sources[] = {
  { NULL, "pinion", FROM_SPEC, "pinion", "teeth", NULL },
  { NULL, "spur", FROM_SPEC, "spur", "teeth", NULL },
  { NULL, "gearbox", FROM_RATIO, NULL, NULL, NULL },
  { NULL, "tyre", FROM_SPEC, "tyre", "diameter", "mm" },
  { NULL, "pitch", FROM_SPEC, "spur", "pitch", "mod" },
  { NULL, "rollout", FROM_ROLLOUT, NULL, NULL, "mm" },
  { NULL, "kv", FROM_SPEC, "motor", "kv", "rpm/V" },
  { "gearing", "supply", FROM_CELLS, "pack", "cells", "V" },
  { NULL, "cells", FROM_SPEC, "pack", "cells", NULL },
  { NULL, "capacity", FROM_SPEC, "pack", "capacity", "mAh" },
  { NULL, "wheelbase", FROM_WHEELBASE, NULL, NULL, "mm" },
  { NULL, "front-track", FROM_TRACK, NULL, NULL, "mm" },
  { NULL, "rear-track", FROM_TRACK, NULL, NULL, "mm" },
  { "spin-down", "coasts", FROM_REPEATS, NULL, "coast-time", "s" },
  { "heat", "temperature", FROM_READING, "motor", "temperature", "degC" },
  { NULL, "motor", FROM_READING, "motor", "temperature", "degC" },
  { "end-points", "left", FROM_SPEC, "servo", "end-point-left", "%" },
  { "end-points", "right", FROM_SPEC, "servo", "end-point-right", "%" },
};

#define CELL 3.7              /* V, the usual figure for a lithium polymer cell */

void
pin_fill_free (PinFill *self)
{
  g_free (self->typed);
  g_free (self->origin);
  g_free (self);
}

static PinFill *
fill_new (const char *input, double value, const char *unit, char *origin)
{
  PinFill *self = g_new0 (PinFill, 1);

  self->input = input;
  self->typed = unit != NULL ? pin_value_format (value, pin_unit_find (unit), -1) : pin_number_format (value, -1);
  self->origin = origin;
  return self;
}

/* ---- from what is fitted --------------------------------------------------------------------- */

static gboolean
is_driven (const PinSlot *slot)
{
  return slot->position != NULL && slot->position->classes != NULL
         && g_strv_contains ((const char *const *) slot->position->classes, "rear");
}

/* A spec without a unit is kept as words, and may be a number all the same, even
 * one with a unit: "78", "48 DP". */
static gboolean
trait_value (const PinTrait *trait, const char *unit, double *value)
{
  if (trait == NULL)
    return FALSE;
  *value = trait->value;
  if (isfinite (trait->value) || pin_number_parse (trait->text, value))
    return TRUE;
  return unit != NULL && trait->text != NULL && pin_value_parse (trait->text, pin_unit_find (unit), value, NULL, NULL);
}

/* The slot of that kind that tells that spec as a number; NULL: none does. */
static const PinSlot *
slot_with (const PinCar *car, const Source *source)
{
  const PinSlot *found = NULL;

  for (guint i = 0; i < car->slots->len; i++)
    {
      const PinSlot *slot = g_ptr_array_index (car->slots, i);
      const PinTrait *trait = g_strcmp0 (slot->kind, source->kind) == 0 ? pin_slot_spec (slot, source->name) : NULL;
      double value;

      if (trait_value (trait, source->unit, &value) && (found == NULL || (is_driven (slot) && !is_driven (found))))
        found = slot;
    }
  return found;
}

static char *
trait_origin (const PinSlot *slot, const PinTrait *trait)
{
  g_autofree char *day = trait->day != NULL ? pin_day_short (trait->day) : NULL;

  if (g_strcmp0 (trait->origin, "default") == 0)
    return g_strdup_printf (_("%s: usual for its type, not measured"), slot->label);
  return g_strdup_printf (_("%s: set-up of %s"), slot->label, day != NULL ? day : _("no day"));
}

static PinFill *
from_spec (const Source *source, const char *input, const PinCar *car)
{
  const PinSlot *slot = slot_with (car, source);
  const PinTrait *trait;
  PinFill *fill;
  double value;

  if (slot == NULL)
    return NULL;
  trait = pin_slot_spec (slot, source->name);
  trait_value (trait, source->unit, &value);
  /* Some specs are bare numbers by name: turns a minute for each volt. */
  if (source->unit != NULL && g_str_equal (source->unit, "rpm/V"))
    value = pin_unit_from (pin_unit_find ("rpm/V"), value);
  if (source->from == FROM_CELLS)
    value *= CELL;
  fill = fill_new (input, value, source->unit, trait_origin (slot, trait));
  /* As it was said: 48 DP, not its module to ten places. */
  if (source->unit != NULL && !isfinite (trait->value) && !pin_number_parse (trait->text, &value))
    {
      g_free (fill->typed);
      fill->typed = g_strdup (trait->text);
    }
  return fill;
}

/* ---- from what was measured -------------------------------------------------------------------- */

static gboolean
is_of_kind (const PinCar *car, gint64 thing, const char *kind)
{
  const PinSlot *slot;

  if (kind == NULL)
    return TRUE;
  slot = pin_car_slot_of_part (car, thing);
  return slot != NULL && g_strcmp0 (slot->kind, kind) == 0;
}

static const PinReading *
newest_reading (const Source *source, const PinVehicleView *view)
{
  for (guint i = view->readings->len; i-- > 0;)
    {
      const PinReading *reading = g_ptr_array_index (view->readings, i);

      if (g_str_equal (reading->quantity, source->name) && is_of_kind (view->car, reading->thing, source->kind))
        return reading;
    }
  return NULL;
}

static char *
repeats_text (const PinReading *reading, const char *unit)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < reading->repeats->len; i++)
    {
      g_autofree char *one = pin_value_format (g_array_index (reading->repeats, double, i), pin_unit_find (unit), -1);

      g_string_append_printf (text, "%s%s", i > 0 ? ", " : "", one);
    }
  return g_string_free (text, FALSE);
}

static PinFill *
from_reading (const Source *source, const char *input, const PinVehicleView *view)
{
  const PinReading *reading = newest_reading (source, view);
  g_autofree char *day = NULL;
  PinFill *fill;

  if (reading == NULL)
    return NULL;
  day = pin_day_short (reading->day);
  fill = fill_new (input, reading->value, source->unit, g_strdup_printf (_("measured %s"), day));
  if (source->from == FROM_REPEATS && reading->repeats != NULL && reading->repeats->len > 0)
    {
      g_free (fill->typed);
      fill->typed = repeats_text (reading, source->unit);
    }
  return fill;
}

/* ---- from its chassis type ------------------------------------------------------------------------ */

static PinFill *
from_chassis (const Source *source, const char *input, const PinCar *car)
{
  const PinChassis *chassis = car->chassis;
  char *origin = g_strdup (_("usual for its chassis type"));

  if (source->from == FROM_RATIO && isfinite (chassis->internal_ratio))
    return fill_new (input, chassis->internal_ratio, NULL, origin);
  if (source->from == FROM_WHEELBASE && chassis->wheelbase > 0)
    return fill_new (input, chassis->wheelbase / 1000, source->unit, origin);
  if (source->from == FROM_TRACK && chassis->track > 0)
    return fill_new (input, chassis->track / 1000, source->unit, origin);
  g_free (origin);
  return NULL;
}

static gboolean
spec_value (const PinCar *car, const char *kind, const char *spec, const char *unit, double *value)
{
  const Source source = { .from = FROM_SPEC, .kind = kind, .name = spec, .unit = unit };
  const PinSlot *slot = slot_with (car, &source);

  return slot != NULL && trait_value (pin_slot_spec (slot, spec), unit, value);
}

static PinFill *
from_set_up (const char *input, const PinCar *car)
{
  double pinion, spur, tyre, ratio, rollout;

  if (!spec_value (car, "pinion", "teeth", NULL, &pinion) || !spec_value (car, "spur", "teeth", NULL, &spur)
      || !spec_value (car, "tyre", "diameter", "mm", &tyre)
      || pin_gearing_final_drive (pinion, spur, car->chassis->internal_ratio, &ratio) != PIN_MATHS_OK
      || pin_gearing_rollout (tyre, ratio, &rollout) != PIN_MATHS_OK)
    return NULL;
  return fill_new (input, round (rollout * 1e5) / 1e5, "mm", g_strdup (_("of the gears and tyres that are fitted")));
}

static PinFill *
fill_from (const Source *source, const char *input, const PinVehicleView *view)
{
  switch (source->from)
    {
    case FROM_SPEC:
    case FROM_CELLS:
      return from_spec (source, input, view->car);
    case FROM_READING:
    case FROM_REPEATS:
      return from_reading (source, input, view);
    case FROM_ROLLOUT:
      return from_set_up (input, view->car);
    case FROM_RATIO:
    case FROM_WHEELBASE:
    case FROM_TRACK:
    default:
      return from_chassis (source, input, view->car);
    }
}

/* What stands for a bare number, as the form tells it to the sum. */
static const PinUnit *
unit_of (const PinInput *input)
{
  return pin_unit_find (input->unit != NULL ? input->unit : "1");
}

static gboolean
serves (const Source *source, const PinSum *sum, const PinInput *input)
{
  const PinUnit *unit = pin_unit_find (source->unit != NULL ? source->unit : "1");

  return g_str_equal (source->input, input->id) && (source->sum == NULL || g_str_equal (source->sum, sum->id))
         && unit->dimension == unit_of (input)->dimension;
}

GPtrArray *
pin_reckon_fill (const PinSum *sum, const PinVehicleView *view)
{
  GPtrArray *fills = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_fill_free);

  for (const PinInput *input = sum->inputs; input->id != NULL; input++)
    for (guint i = 0; i < G_N_ELEMENTS (sources); i++)
      if (serves (&sources[i], sum, input))
        {
          PinFill *fill = fill_from (&sources[i], input->id, view);

          if (fill != NULL)
            g_ptr_array_add (fills, fill);
        }
  return fills;
}

/* ---- and back ---------------------------------------------------------------------------------------- */

void
pin_keep_free (PinKeep *self)
{
  g_free (self->typed);
  g_free (self->says);
  g_free (self);
}

/* All values of a list; FALSE if one is none. */
static gboolean
read_values (const char *typed, const PinUnit *unit, GArray *values)
{
  g_auto (GStrv) words = g_strsplit (typed, strchr (typed, ';') != NULL ? ";" : ",", -1);

  for (int i = 0; words[i] != NULL; i++)
    {
      double value;

      if (!pin_value_parse (g_strstrip (words[i]), unit, &value, NULL, NULL))
        return FALSE;
      g_array_append_val (values, value);
    }
  return values->len > 0;
}

/* To the last figure that is typed, not to the last bit. */
static gboolean
is_news (const char *typed, const PinFill *known, const PinUnit *unit)
{
  g_autoptr (GArray) now = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) before = g_array_new (FALSE, FALSE, sizeof (double));

  if (!read_values (typed, unit, now))
    return FALSE;
  if (known == NULL || !read_values (known->typed, unit, before) || now->len != before->len)
    return TRUE;
  for (guint i = 0; i < now->len; i++)
    if (fabs (g_array_index (now, double, i) - g_array_index (before, double, i))
        > 1e-9 * fabs (g_array_index (before, double, i)))
      return TRUE;
  return FALSE;
}

static PinKeep *
keep_spec (const Source *source, PinLibrary *library, const PinVehicleView *view, const char *typed,
           const PinFill *known)
{
  const PinSlot *slot = slot_with (view->car, source);
  const PinSpec *spec = pin_library_spec (library, source->name);
  PinKeep *keep;

  if (slot == NULL || slot->part == 0)
    return NULL;
  keep = g_new0 (PinKeep, 1);
  keep->slot = slot;
  keep->spec = source->name;
  keep->typed = g_strdup (typed);
  keep->says = g_strdup_printf (_("%s, %s: %s (was %s)"), slot->label, spec != NULL ? spec->title : source->name,
                                typed, known->typed);
  return keep;
}

static PinKeep *
keep_reading (const Source *source, PinLibrary *library, const PinVehicleView *view, const char *typed)
{
  const PinQuantity *quantity = pin_library_quantity (library, source->name);
  PinKeep *keep = g_new0 (PinKeep, 1);

  for (guint i = 0; source->kind != NULL && keep->slot == NULL && i < view->car->slots->len; i++)
    {
      const PinSlot *slot = g_ptr_array_index (view->car->slots, i);

      if (slot->part != 0 && g_strcmp0 (slot->kind, source->kind) == 0)
        keep->slot = slot;
    }
  keep->quantity = source->name;
  keep->typed = g_strdup (typed);
  keep->says = g_strdup_printf (_("%s, %s: %s"), keep->slot != NULL ? keep->slot->label : view->car->name,
                                quantity != NULL ? quantity->title : source->name, typed);
  return keep;
}

/* A bare number is in the input's unit, which need not be that of the book. */
static char *
with_unit (const char *typed, const PinUnit *unit)
{
  double number;

  if (*unit->symbol == '\0' || unit->dimension == PIN_DIMENSION_NUMBER
      || unit->dimension == PIN_DIMENSION_SPEED_CONSTANT || !pin_number_parse (typed, &number))
    return g_strdup (typed);
  return g_strdup_printf ("%s %s", typed, unit->symbol);
}

static void
add_keep (GPtrArray *keeps, const Source *source, PinLibrary *library, const PinVehicleView *view,
          const PinInput *input, const char *typed)
{
  PinFill *known = fill_from (source, input->id, view);
  g_autofree char *text = with_unit (typed, unit_of (input));
  PinKeep *keep = NULL;

  if (is_news (typed, known, unit_of (input)))
    {
      if (source->from == FROM_SPEC && known != NULL)
        keep = keep_spec (source, library, view, text, known);
      else if (source->from == FROM_READING || source->from == FROM_REPEATS)
        keep = keep_reading (source, library, view, text);
    }
  if (keep != NULL)
    g_ptr_array_add (keeps, keep);
  g_clear_pointer (&known, pin_fill_free);
}

GPtrArray *
pin_reckon_keeps (const PinSum *sum, PinLibrary *library, const PinVehicleView *view, GHashTable *typed)
{
  GPtrArray *keeps = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_keep_free);

  for (const PinInput *input = sum->inputs; input->id != NULL; input++)
    for (guint i = 0; i < G_N_ELEMENTS (sources); i++)
      if (serves (&sources[i], sum, input) && g_hash_table_contains (typed, input->id))
        add_keep (keeps, &sources[i], library, view, input, g_hash_table_lookup (typed, input->id));
  return keeps;
}

static gboolean
write_reading (PinDeedDone *done, PinLibrary *library, const PinVehicleView *view, const PinKeep *keep,
               GError **error)
{
  const PinQuantity *quantity = pin_library_quantity (library, keep->quantity);
  g_autoptr (GArray) values = g_array_new (FALSE, FALSE, sizeof (double));
  g_autofree char *today = pin_today ();
  PinReading row = { .thing = keep->slot != NULL ? keep->slot->part : view->car->id, .day = today,
                     .place = keep->slot != NULL ? keep->slot->place : 0, .at = pin_now (),
                     .quantity = (char *) keep->quantity, .typed = keep->typed };

  if (quantity == NULL || !read_values (keep->typed, quantity->unit, values))
    {
      g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_VALUE, _("“%s” is no reading of %s"), keep->typed,
                   quantity != NULL ? quantity->title : keep->quantity);
      return FALSE;
    }
  row.value = pin_repeats_median ((const double *) values->data, values->len);
  row.repeats = values->len > 1 ? values : NULL;
  pin_deed_done_reading (done, &row);
  return TRUE;
}

gboolean
pin_reckon_keep (PinDeedDone *done, PinLibrary *library, const PinVehicleView *view, GPtrArray *keeps, GError **error)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < keeps->len; i++)
    {
      const PinKeep *keep = g_ptr_array_index (keeps, i);
      g_autoptr (GPtrArray) slots = g_ptr_array_new ();
      gboolean good;

      g_ptr_array_add (slots, (gpointer) keep->slot);
      good = keep->spec != NULL ? pin_inventory_set_spec (done, library, view->car, slots, keep->spec, keep->typed,
                                                          NULL, error)
                                : write_reading (done, library, view, keep, error);
      if (!good)
        {
          g_string_free (text, TRUE);
          return FALSE;
        }
      g_string_append_printf (text, "%s%s", i > 0 ? "; " : "", keep->says);
    }
  pin_deed_done_say (done, "%s", text->str);
  g_string_free (text, TRUE);
  return TRUE;
}
