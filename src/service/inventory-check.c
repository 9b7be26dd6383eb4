#include "service/inventory-check.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "base/day.h"

#define NAME_MOST 60

char *
pin_check_day (const char *day, GError **error)
{
  g_autofree char *today = pin_today ();

  if (day == NULL)
    return g_steal_pointer (&today);
  if (!pin_day_valid (day))
    {
      g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_DAY,
                   _("“%s” is no date: write it as 2026-11-28"), day);
      return NULL;
    }
  if (pin_day_diff (today, day) > 0)
    {
      g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_DAY,
                   _("%s is still to come: give today or a day before it"), day);
      return NULL;
    }
  return g_strdup (day);
}

gint64
pin_instant_on (const char *day)
{
  g_autofree char *today = pin_today ();

  return g_str_equal (today, day) ? pin_now () : 0;
}

gboolean
pin_check_slots (GPtrArray *slots, GError **error)
{
  if (slots == NULL || slots->len == 0)
    {
      g_set_error_literal (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NOTHING,
                           _("No part is chosen: choose one or more first"));
      return FALSE;
    }
  for (guint i = 0; i < slots->len; i++)
    {
      const PinSlot *slot = slots->pdata[i];

      if (slot->part == 0)
        {
          g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NOTHING,
                       _("Nothing is fitted at %s: fit a part there first"), slot->label);
          return FALSE;
        }
    }
  return TRUE;
}

static gboolean
same_name (const char *a, const char *b)
{
  g_autofree char *x = g_utf8_casefold (a, -1);
  g_autofree char *y = g_utf8_casefold (b, -1);

  return g_str_equal (x, y);
}

gboolean
pin_check_name (const char *name, GPtrArray *taken, const char *own,
                char **clean, GError **error)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (name ? name : ""));

  if (*trimmed == '\0')
    {
      g_set_error_literal (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NAME,
                           _("A vehicle needs a name: write one"));
      return FALSE;
    }
  if (g_utf8_strlen (trimmed, -1) > NAME_MOST || strchr (trimmed, '\n') != NULL)
    {
      g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NAME,
                   _("That name is too long: %d letters on one line at most"), NAME_MOST);
      return FALSE;
    }
  for (guint i = 0; taken != NULL && i < taken->len; i++)
    {
      const char *other = taken->pdata[i];

      if (same_name (other, trimmed) && (own == NULL || !same_name (other, own)))
        {
          g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NAME,
                       _("“%s” is in the stable already: choose another name"), other);
          return FALSE;
        }
    }
  *clean = g_steal_pointer (&trimmed);
  return TRUE;
}

char *
pin_slots_text (GPtrArray *slots)
{
  const PinSlot *first = slots->pdata[0];

  if (slots->len == 1)
    return g_strdup (first->label);
  return g_strdup_printf (_("%s, and %u more"), first->label, slots->len - 1);
}

GPtrArray *
pin_slots_carried (const PinCar *car, const PinSlot *slot)
{
  GPtrArray *carried = g_ptr_array_new ();

  for (guint i = 0; i < car->slots->len; i++)
    {
      PinSlot *other = car->slots->pdata[i];

      if (other->carrier == slot)
        g_ptr_array_add (carried, other);
    }
  return carried;
}

/* One event on every open finding of @part. */
void
pin_findings_event (PinDeedDone *done, const PinCar *car, gint64 part,
                    const char *event, gint64 cause, const char *note,
                    const char *day)
{
  gboolean closes = g_str_equal (event, "closed");

  for (guint i = 0; i < car->rows->findings->len; i++)
    {
      const PinFindingRow *row = car->rows->findings->pdata[i];

      if (row->part != part || row->closed)
        continue;
      pin_deed_done_finding (done, &(PinFinding) {
        .opens = row->id, .event = (char *) event, .vehicle = row->vehicle,
        .place = row->place, .part = row->part,
        .gravity = closes ? PIN_GRAVITY_NONE : row->gravity,
        .cause = cause, .note = (char *) note, .day = (char *) day });
    }
}

gboolean
pin_write_spec (PinDeedDone *done, PinLibrary *library, gint64 thing,
                const char *spec, const char *typed, const char *origin,
                const char *day, GError **error)
{
  const PinSpec *known = pin_library_spec (library, spec);
  PinTrait row = { .thing = thing, .code = (char *) spec, .day = (char *) day,
                   .value = NAN, .typed = (char *) typed, .origin = (char *) origin };

  if (known != NULL && known->unit != NULL)
    {
      if (!pin_value_parse (typed, known->unit, &row.value, NULL, error))
        {
          g_prefix_error (error, "%s: ", known->title);
          return FALSE;
        }
    }
  else
    row.text = (char *) typed;
  pin_deed_done_trait (done, &row);
  return TRUE;
}

/* Use before this book; nothing is written if it is not known. */
void
pin_write_used (PinDeedDone *done, gint64 thing, const char *code,
                double value, const char *day)
{
  if (isnan (value))
    return;
  pin_deed_done_trait (done, &(PinTrait) {
    .thing = thing, .code = (char *) code, .day = (char *) day,
    .value = value, .origin = (char *) "owner" });
}
