#include <glib/gi18n.h>
#include <string.h>

#include "service/inventory-check.h"

/* Tokens that only say where on the car; inner and outer differ in size. */
static gboolean
is_whereabouts (const char *token)
{
  static const char *const words[] = { "front", "rear", "left", "right", "upper", "lower", NULL };

  return g_strv_contains (words, token);
}

static gboolean
has_all_of (const PinPosition *a, const PinPosition *b)
{
  for (guint i = 0; a->classes[i] != NULL; i++)
    if (!is_whereabouts (a->classes[i]) &&
        !g_strv_contains ((const char *const *) b->classes, a->classes[i]))
      return FALSE;
  return TRUE;
}

static gboolean
is_alike (const PinSlot *a, const PinSlot *b)
{
  return b->part != 0 && g_str_equal (a->kind, b->kind) &&
         g_strcmp0 (a->size, b->size) == 0 &&
         a->position != NULL && b->position != NULL &&
         has_all_of (a->position, b->position) &&
         has_all_of (b->position, a->position);
}

GPtrArray *
pin_inventory_alike (const PinCar *car, const PinSlot *slot)
{
  GPtrArray *alike = g_ptr_array_new ();

  g_ptr_array_add (alike, (gpointer) slot);
  for (guint i = 0; i < car->slots->len; i++)
    {
      PinSlot *other = car->slots->pdata[i];

      if (other != slot && is_alike (slot, other))
        g_ptr_array_add (alike, other);
    }
  return alike;
}

static gboolean
takes_spec (PinLibrary *library, const PinSlot *slot, const char *spec)
{
  const PinPartKind *kind = pin_library_kind (library, slot->kind);

  if (g_str_equal (spec, "size"))
    return TRUE;
  return kind != NULL && g_strv_contains ((const char *const *) kind->specs, spec);
}

static gboolean
check_spec (PinLibrary *library, GPtrArray *slots, const char *spec,
            const char *typed, GError **error)
{
  if (typed == NULL || *typed == '\0')
    {
      g_set_error_literal (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_VALUE,
                           _("No value is given: write one, with its unit"));
      return FALSE;
    }
  for (guint i = 0; i < slots->len; i++)
    {
      const PinSlot *slot = slots->pdata[i];

      if (!takes_spec (library, slot, spec))
        {
          g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_UNKNOWN,
                       _("%s: nobody notes “%s” of a %s"), slot->label, spec, slot->kind);
          return FALSE;
        }
    }
  return TRUE;
}

gboolean
pin_inventory_set_spec (PinDeedDone *done, PinLibrary *library, const PinCar *car,
                        GPtrArray *slots, const char *spec, const char *typed,
                        const char *day, GError **error)
{
  g_autofree char *on = pin_check_day (day, error);
  g_autofree char *clean = typed ? g_strstrip (g_strdup (typed)) : NULL;
  g_autofree char *where = NULL;
  const PinSpec *known = pin_library_spec (library, spec);

  if (on == NULL || !pin_check_slots (slots, error) ||
      !check_spec (library, slots, spec, clean, error))
    return FALSE;
  for (guint i = 0; i < slots->len; i++)
    {
      const PinSlot *slot = slots->pdata[i];

      if (!pin_write_spec (done, library, slot->part, spec, clean, "owner", on, error))
        return FALSE;
    }
  where = pin_slots_text (slots);
  pin_deed_done_say (done, _("%s: %s %s"), where, known ? known->title : spec, clean);
  return TRUE;
}
