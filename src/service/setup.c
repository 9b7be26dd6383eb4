#include "service/setup.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

struct _PinSetupRows
{
  gboolean past;              /* else the car itself says it */
  GHashTable *traits;         /* place id, or 0 for the vehicle → GPtrArray of PinTrait* */
};

/* ---- Reading: what was on it on a day ---- */

void
pin_setup_rows_free (PinSetupRows *rows)
{
  if (rows == NULL)
    return;
  g_clear_pointer (&rows->traits, g_hash_table_unref);
  g_free (rows);
}

static gint64 *
boxed (gint64 id)
{
  gint64 *box = g_new (gint64, 1);

  *box = id;
  return box;
}

/* The last move of @moves up to @day; NULL: there was none. */
static const PinFitting *
last_by (GPtrArray *moves, const char *day)
{
  const PinFitting *last = NULL;

  for (guint i = 0; i < moves->len; i++)
    if (strcmp (((PinFitting *) moves->pdata[i])->day, day) <= 0)
      last = moves->pdata[i];
  return last;
}

/* The part at @place on @day; 0: none, -1: error.  What came there last may
 * have gone on to somewhere else by then. */
gint64
pin_setup_part_on (PinDb *db, gint64 place, const char *day, GError **error)
{
  g_autoptr (GPtrArray) here = pin_query_fittings_at (db, place, error);
  const PinFitting *came = here ? last_by (here, day) : NULL;
  g_autoptr (GPtrArray) moves = NULL;

  if (here == NULL)
    return -1;
  if (came == NULL)
    return 0;
  moves = pin_query_fittings (db, came->part, error);
  if (moves == NULL)
    return -1;
  return last_by (moves, day)->place == place ? came->part : 0;
}

static gboolean
add_traits (PinSetupRows *rows, PinDb *db, gint64 key, gint64 thing, const char *day,
            GError **error)
{
  GPtrArray *traits = pin_query_traits (db, thing, day, error);

  if (traits == NULL)
    return FALSE;
  g_hash_table_insert (rows->traits, boxed (key), traits);
  return TRUE;
}

static gboolean
load_past (PinSetupRows *rows, PinDb *db, gint64 vehicle, const char *day, GError **error)
{
  g_autoptr (GPtrArray) places = pin_query_places (db, vehicle, error);

  if (places == NULL || !add_traits (rows, db, 0, vehicle, day, error))
    return FALSE;
  for (guint i = 0; i < places->len; i++)
    {
      const PinPlaceRow *place = places->pdata[i];
      gint64 part = pin_setup_part_on (db, place->id, day, error);

      if (part < 0 || (part > 0 && !add_traits (rows, db, place->id, part, day, error)))
        return FALSE;
    }
  return TRUE;
}

PinSetupRows *
pin_setup_rows_load (PinDb *db, gint64 vehicle, const char *on_day, GError **error)
{
  g_autoptr (PinSetupRows) rows = g_new0 (PinSetupRows, 1);

  rows->traits = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free,
                                        (GDestroyNotify) g_ptr_array_unref);
  rows->past = on_day != NULL;
  if (rows->past && !load_past (rows, db, vehicle, on_day, error))
    return NULL;
  return g_steal_pointer (&rows);
}

/* ---- Words ---- */

static int
decimals_of (double number)
{
  for (int n = 0; n < 3; n++)
    if (fabs (number * pow (10, n) - round (number * pow (10, n))) < 1e-6)
      return n;
  return 3;
}

/* "7000 cSt", "8x16x5", "46": shown as typed if it was typed with words. */
char *
pin_setup_value_text (PinLibrary *library, const PinTrait *trait)
{
  const PinSpec *spec = pin_library_spec (library, trait->code);

  if (spec != NULL && spec->unit != NULL && !isnan (trait->value))
    return pin_value_format (trait->value, spec->unit,
                             decimals_of (pin_unit_to (spec->unit, trait->value)));
  if (trait->text != NULL)
    return g_strdup (trait->text);
  return g_strdup (trait->typed ? trait->typed : "");
}

/* ---- Facts in groups ---- */

typedef struct
{
  PinLibrary *library;
  const PinCar *car;
  const PinSetupRows *rows;
  gboolean everything;
  GPtrArray *groups;
} Setting;

static void
fact_free (PinSetupFact *fact)
{
  g_free (fact->label);
  g_free (fact->spec);
  g_free (fact->title);
  g_free (fact->text);
  g_free (fact->origin);
  g_free (fact->day);
  g_free (fact);
}

static void
group_free (PinSetupGroup *group)
{
  g_free (group->id);
  g_free (group->title);
  g_ptr_array_unref (group->facts);
  g_free (group);
}

static PinSetupGroup *
add_group (GPtrArray *groups, const char *id, const char *title)
{
  PinSetupGroup *group = g_new0 (PinSetupGroup, 1);

  group->id = g_strdup (id);
  group->title = g_strdup (title);
  group->facts = g_ptr_array_new_with_free_func ((GDestroyNotify) fact_free);
  g_ptr_array_add (groups, group);
  return group;
}

/* "cap: bladder, emulsion or vented" asks; the fact is of the cap. */
static char *
fact_title (const PinSpec *spec, const char *code)
{
  const char *colon = spec ? strchr (spec->title, ':') : NULL;

  if (colon != NULL)
    return g_strndup (spec->title, (gsize) (colon - spec->title));
  return spec ? g_strdup (spec->title) : g_strdelimit (g_strdup (code), "-_", ' ');
}

static void
add_fact (Setting *self, PinSetupGroup *group, const char *label, gint64 place,
          const PinTrait *trait)
{
  const PinSpec *spec = pin_library_spec (self->library, trait->code);
  PinSetupFact *fact = g_new0 (PinSetupFact, 1);

  fact->label = g_strdup (label);
  fact->spec = g_strdup (trait->code);
  fact->title = fact_title (spec, trait->code);
  fact->text = pin_setup_value_text (self->library, trait);
  fact->origin = g_strdup (trait->origin);
  fact->day = g_strdup (trait->day);
  fact->value = trait->value;
  fact->place = place;
  g_ptr_array_add (group->facts, fact);
}

static const PinTrait *
find_trait (const Setting *self, const PinSlot *slot, const char *code)
{
  GPtrArray *traits;

  if (!self->rows->past)
    return slot->part ? pin_slot_spec (slot, code) : NULL;
  traits = g_hash_table_lookup (self->rows->traits, &slot->place);
  for (guint i = 0; traits != NULL && i < traits->len; i++)
    if (g_str_equal (((PinTrait *) traits->pdata[i])->code, code))
      return traits->pdata[i];
  return NULL;
}

static gboolean
is_worth_showing (const Setting *self, const PinPartKind *kind, const PinTrait *trait)
{
  if (self->everything || !g_str_equal (trait->origin, "default"))
    return TRUE;
  return !g_str_equal (kind->group, "bearings") && !g_str_equal (kind->group, "fasteners");
}

static void
add_slot (Setting *self, PinSetupGroup *group, const PinPartKind *kind, const PinSlot *slot)
{
  const PinTrait *size = find_trait (self, slot, "size");

  if (size != NULL && is_worth_showing (self, kind, size))
    add_fact (self, group, slot->label, slot->place, size);
  for (guint i = 0; kind->specs[i] != NULL; i++)
    {
      const PinTrait *trait = g_str_equal (kind->specs[i], "size") ? NULL
                              : find_trait (self, slot, kind->specs[i]);

      if (trait != NULL && is_worth_showing (self, kind, trait))
        add_fact (self, group, slot->label, slot->place, trait);
    }
}

static gboolean
is_said_of_vehicle (const PinTrait *trait)
{
  return !g_str_equal (trait->code, "name") && !g_str_equal (trait->code, "state") &&
         !g_str_equal (trait->code, "demo") && !g_str_has_prefix (trait->code, "used.");
}

static void
add_vehicle (Setting *self)
{
  gint64 none = 0;
  GPtrArray *traits = self->rows->past ? g_hash_table_lookup (self->rows->traits, &none)
                                       : self->car->rows->traits;
  PinSetupGroup *group = add_group (self->groups, "vehicle", _("Vehicle"));

  for (guint i = 0; i < traits->len; i++)
    {
      const PinTrait *trait = traits->pdata[i];

      if (trait->thing == self->car->id && is_said_of_vehicle (trait))
        add_fact (self, group, self->car->name, 0, trait);
    }
}

static void
add_slots (Setting *self, const PinGroup *known)
{
  PinSetupGroup *group = add_group (self->groups, known->id, known->title);

  for (guint i = 0; i < self->car->slots->len; i++)
    {
      const PinSlot *slot = self->car->slots->pdata[i];
      const PinPartKind *kind = pin_library_kind (self->library, slot->kind);

      if (kind != NULL && g_str_equal (kind->group, known->id))
        add_slot (self, group, kind, slot);
    }
}

GPtrArray *
pin_setup_new (PinSetupRows *rows, PinLibrary *library, const PinCar *car, gboolean everything)
{
  Setting self = { library, car, rows, everything,
                   g_ptr_array_new_with_free_func ((GDestroyNotify) group_free) };
  const GPtrArray *groups = pin_library_groups (library);

  add_vehicle (&self);
  for (guint i = 0; i < groups->len; i++)
    add_slots (&self, groups->pdata[i]);
  for (guint i = self.groups->len; i-- > 0;)
    if (((PinSetupGroup *) self.groups->pdata[i])->facts->len == 0)
      g_ptr_array_remove_index (self.groups, i);
  return self.groups;
}
