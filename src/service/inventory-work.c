#include <glib/gi18n.h>
#include <string.h>

#include "service/finding-text.h"
#include "service/inventory-check.h"

static gboolean
kind_takes (PinLibrary *library, const PinSlot *slot, const char *deed)
{
  const PinPartKind *kind = pin_library_kind (library, slot->kind);

  return kind != NULL && g_strv_contains ((const char *const *) kind->deeds, deed);
}

static gboolean
check_deed (PinLibrary *library, GPtrArray *slots, const char *deed, GError **error)
{
  if (pin_library_deed (library, deed) == NULL)
    {
      g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_UNKNOWN,
                   _("“%s” is no work that is known here: choose from the list"), deed);
      return FALSE;
    }
  for (guint i = 0; slots != NULL && i < slots->len; i++)
    {
      const PinSlot *slot = slots->pdata[i];

      if (!kind_takes (library, slot, deed))
        {
          g_set_error (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_PLACE,
                       _("%s: a %s is not %s"), slot->label, slot->kind, deed);
          return FALSE;
        }
    }
  return TRUE;
}

GPtrArray *
pin_inventory_deeds (PinLibrary *library, GPtrArray *slots)
{
  GPtrArray *deeds = g_ptr_array_new ();
  const PinPartKind *first;

  if (slots == NULL || slots->len == 0)
    return deeds;
  first = pin_library_kind (library, ((PinSlot *) slots->pdata[0])->kind);
  for (guint i = 0; first != NULL && first->deeds[i] != NULL; i++)
    {
      const PinDeed *deed = pin_library_deed (library, first->deeds[i]);
      gboolean all = deed != NULL;

      for (guint j = 1; all && j < slots->len; j++)
        all = kind_takes (library, slots->pdata[j], first->deeds[i]);
      if (all)
        g_ptr_array_add (deeds, (gpointer) deed);
    }
  return deeds;
}

/* ---- Recording ---- */

static gboolean
check_work (PinLibrary *library, GPtrArray *slots, const PinWorkDone *work, GError **error)
{
  if (work->deeds == NULL || work->deeds[0] == NULL)
    {
      g_set_error_literal (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_NOTHING,
                           _("No work is chosen: say what was done"));
      return FALSE;
    }
  if (slots != NULL && slots->len > 0 && !pin_check_slots (slots, error))
    return FALSE;
  for (guint i = 0; work->deeds[i] != NULL; i++)
    if (!check_deed (library, slots, work->deeds[i], error))
      return FALSE;
  return TRUE;
}

static gboolean
replace_all (PinDeedDone *done, PinLibrary *library, const PinCar *car,
             GPtrArray *slots, const PinWorkDone *work, const char *day, GError **error)
{
  for (guint i = 0; slots != NULL && i < slots->len; i++)
    {
      PinReplacement how = { .day = day, .note = work->note,
                             .cost = i == 0 ? work->cost : -1, .currency = work->currency };

      if (!pin_inventory_replace (done, library, car, slots->pdata[i], &how, error))
        return FALSE;
    }
  return TRUE;
}

/* The cost of one job stands on its first row only. */
static void
write_work (PinDeedDone *done, const PinCar *car, const PinSlot *slot, const char *deed,
            const PinWorkDone *work, gboolean first, const char *day)
{
  gint64 id = pin_deed_done_work (done, &(PinWork) {
    .thing = slot ? slot->part : car->id, .place = slot ? slot->place : 0,
    .deed = (char *) deed, .note = (char *) work->note,
    .cost = first ? work->cost : -1, .currency = (char *) work->currency,
    .day = (char *) day, .at = pin_instant_on (day) });

  if (slot != NULL)
    pin_findings_event (done, car, slot->part, "worked", id, NULL, day);
}

static void
write_deed (PinDeedDone *done, const PinCar *car, GPtrArray *slots, const char *deed,
            const PinWorkDone *work, gboolean first, const char *day)
{
  if (slots == NULL || slots->len == 0)
    write_work (done, car, NULL, deed, work, first, day);
  for (guint i = 0; slots != NULL && i < slots->len; i++)
    write_work (done, car, slots->pdata[i], deed, work, first && i == 0, day);
}

static void
say_done (PinDeedDone *done, PinLibrary *library, const PinCar *car, GPtrArray *slots,
          const char *const *deeds)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *where = slots != NULL && slots->len > 0 ? pin_slots_text (slots)
                                                           : g_strdup (car->name);

  for (guint i = 0; deeds[i] != NULL; i++)
    {
      g_autofree char *title = pin_deed_title (library, deeds[i]);

      if (text->len > 0)
        g_string_append (text, ", ");
      g_string_append (text, title);
    }
  pin_deed_done_say (done, "%s: %s", text->str, where);
}

gboolean
pin_inventory_work (PinDeedDone *done, PinLibrary *library, const PinCar *car,
                    GPtrArray *slots, const PinWorkDone *work, GError **error)
{
  g_autofree char *day = pin_check_day (work->day, error);

  if (day == NULL || !check_work (library, slots, work, error))
    return FALSE;
  for (guint i = 0; work->deeds[i] != NULL; i++)
    {
      if (!g_str_equal (work->deeds[i], "replaced"))
        write_deed (done, car, slots, work->deeds[i], work, i == 0, day);
      else if (!replace_all (done, library, car, slots, work, day, error))
        return FALSE;
    }
  say_done (done, library, car, slots, work->deeds);
  return TRUE;
}

/* ---- Told from memory ---- */

gboolean
pin_inventory_back_fill (PinDeedDone *done, PinLibrary *library, const PinCar *car,
                         GPtrArray *slots, const char *deed, const char *sure,
                         const char *day, const char *note, GError **error)
{
  static const char *const words[] = { "sure", "about", "guess", NULL };
  g_autofree char *on = pin_check_day (day, error);
  g_autofree char *where = NULL, *title = NULL;

  if (on == NULL || !pin_check_slots (slots, error) ||
      !check_deed (library, slots, deed, error))
    return FALSE;
  if (sure == NULL || !g_strv_contains (words, sure))
    {
      g_set_error_literal (error, PIN_SERVICE_ERROR, PIN_SERVICE_ERROR_VALUE,
                           _("How sure is that? Say sure, about or guess"));
      return FALSE;
    }
  for (guint i = 0; i < slots->len; i++)
    {
      const PinSlot *slot = slots->pdata[i];

      pin_deed_done_work (done, &(PinWork) {
        .thing = slot->part, .place = slot->place, .deed = (char *) deed, .told = TRUE,
        .sure = (char *) sure, .note = (char *) note, .cost = -1, .day = on });
    }
  where = pin_slots_text (slots);
  title = pin_deed_title (library, deed);
  pin_deed_done_say (done, _("%s on %s, from memory: %s"), title, on, where);
  return TRUE;
}
