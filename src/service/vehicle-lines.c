#include "service/vehicle-lines.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "base/day.h"
#include "service/finding-text.h"
#include "service/inventory.h"

/* ---- Parts ---- */

typedef struct
{
  PinLibrary *library;
  const PinCar *car;
  GHashTable *marks;
  GPtrArray *works, *clocks;
} Lining;

static void
part_line_free (PinPartLine *line)
{
  g_free (line->group);
  g_free (line->label);
  g_free (line->kind);
  g_free (line->size);
  g_free (line->since_new);
  g_free (line->last_work);
  g_free (line->last_work_day);
  g_free (line->state);
  g_free (line->finding);
  g_free (line);
}

/* By day, then by entry: what was told later of an earlier day stays earlier. */
static const PinWork *
last_work (GPtrArray *works, gint64 part)
{
  const PinWork *last = NULL;

  for (guint i = 0; part != 0 && i < works->len; i++)
    {
      const PinWork *work = works->pdata[i];
      int days;

      if (work->thing != part)
        continue;
      days = last ? strcmp (work->day, last->day) : 1;
      if (days > 0 || (days == 0 && work->id > last->id))
        last = work;
    }
  return last;
}

static const PinMarkRow *
clock_at (GPtrArray *clocks, gint64 part, const char *deed, const char *day)
{
  for (guint i = 0; i < clocks->len; i++)
    {
      const PinMarkRow *row = clocks->pdata[i];

      if (row->part == part && g_str_equal (row->deed, deed) && g_strcmp0 (row->day, day) == 0)
        return row;
    }
  return NULL;
}

static char *
work_text (const Lining *self, const PinSlot *slot, const PinWork *work)
{
  const PinMarkRow *then = clock_at (self->clocks, slot->part, work->deed, work->day);
  g_autofree char *title = pin_deed_title (self->library, work->deed);
  g_autofree char *day = pin_day_short (work->day);
  g_autofree char *ago = NULL;

  if (work->told)
    return g_strdup_printf (_("%s %s, from memory"), title, day);
  if (then == NULL || isnan (then->seconds) || slot->row == NULL)
    return g_strdup_printf ("%s %s", title, day);
  ago = pin_hours_text (slot->row->seconds - then->seconds);
  return g_strdup_printf (_("%s %s, %s ago"), title, day, ago);
}

static const PinFindingRow *
find_finding (const PinCar *car, gint64 id)
{
  for (guint i = 0; i < car->rows->findings->len; i++)
    if (((PinFindingRow *) car->rows->findings->pdata[i])->id == id)
      return car->rows->findings->pdata[i];
  return NULL;
}

static char *
state_text (const PinSlotMark *mark, const PinSlot *slot)
{
  if (slot->part == 0)
    return g_strdup (_("nothing fitted"));
  if (mark->unsafe)
    return g_strdup (_("unsafe"));
  switch (mark->outcome)
    {
    case PIN_OUTCOME_NONE:
      return g_strdup (_("never inspected"));
    case PIN_OUTCOME_PASS:
    case PIN_OUTCOME_DONE:
      return g_strdup (_("pass"));
    case PIN_OUTCOME_WATCH:
      return g_strdup (_("watch"));
    case PIN_OUTCOME_FAIL:
      return g_strdup (_("fail"));
    case PIN_OUTCOME_NOT_CHECKED:
      return g_strdup (_("not checked"));
    case PIN_OUTCOME_DOES_NOT_APPLY:
      return g_strdup (_("does not apply"));
    }
  return g_strdup ("");
}

static PinPartLine *
part_line (const Lining *self, const PinSlot *slot)
{
  PinPartLine *line = g_new0 (PinPartLine, 1);
  const PinPartKind *kind = pin_library_kind (self->library, slot->kind);
  const PinWork *work = last_work (self->works, slot->part);
  const PinFindingRow *finding;

  line->place = slot->place;
  line->part = slot->part;
  line->slot = slot;
  line->mark = *(PinSlotMark *) g_hash_table_lookup (self->marks, slot->code);
  line->group = g_strdup (kind ? kind->group : "");
  line->label = g_strdup (slot->label);
  line->kind = g_strdup (kind ? kind->title : slot->kind);
  line->size = pin_size_text (slot->size);
  line->usage = pin_usage_of_slot (self->car, slot);
  line->since_new = slot->part ? pin_usage_hours (&line->usage) : g_strdup ("");
  line->last_work = work ? work_text (self, slot, work) : g_strdup ("");
  line->last_work_day = g_strdup (work ? work->day : NULL);
  line->state = state_text (&line->mark, slot);
  finding = find_finding (self->car, line->mark.finding);
  line->finding = finding ? pin_finding_what (self->library, finding) : g_strdup ("");
  return line;
}

static int
worst_first (gconstpointer a, gconstpointer b, gpointer order)
{
  const PinPartLine *x = *(PinPartLine *const *) a, *y = *(PinPartLine *const *) b;
  int by_mark = pin_slot_mark_weight (&y->mark) - pin_slot_mark_weight (&x->mark);

  if (by_mark != 0)
    return by_mark;
  return GPOINTER_TO_INT (g_hash_table_lookup (order, x)) -
         GPOINTER_TO_INT (g_hash_table_lookup (order, y));
}

/* Worst first; those alike stay in the order of the chassis type. */
GPtrArray *
pin_part_lines (PinLibrary *library, const PinCar *car, GHashTable *marks, GPtrArray *works,
                GPtrArray *clocks)
{
  Lining self = { library, car, marks, works, clocks };
  GPtrArray *lines = g_ptr_array_new_with_free_func ((GDestroyNotify) part_line_free);
  g_autoptr (GHashTable) order = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < car->slots->len; i++)
    {
      PinPartLine *line = part_line (&self, car->slots->pdata[i]);

      g_ptr_array_add (lines, line);
      g_hash_table_insert (order, line, GINT_TO_POINTER ((int) i));
    }
  g_ptr_array_sort_with_data (lines, worst_first, order);
  return lines;
}

/* ---- Layers ---- */

static void
layer_free (PinLayer *layer)
{
  g_free (layer->id);
  g_free (layer->title);
  g_free (layer);
}

static void
add_layer (GPtrArray *layers, const char *id, const char *title, int n)
{
  PinLayer *layer = g_new0 (PinLayer, 1);

  layer->id = g_strdup (id);
  layer->title = g_strdup (title);
  layer->n = n;
  g_ptr_array_add (layers, layer);
}

GPtrArray *
pin_layers_of (PinLibrary *library, GPtrArray *parts)
{
  GPtrArray *layers = g_ptr_array_new_with_free_func ((GDestroyNotify) layer_free);
  const GPtrArray *groups = pin_library_groups (library);

  add_layer (layers, "", _("Everything"), (int) parts->len);
  for (guint i = 0; i < groups->len; i++)
    {
      const PinGroup *group = groups->pdata[i];
      int n = 0;

      for (guint j = 0; j < parts->len; j++)
        n += g_str_equal (((PinPartLine *) parts->pdata[j])->group, group->id);
      if (n > 0)
        add_layer (layers, group->id, group->title, n);
    }
  return layers;
}

/* ---- Outings ---- */

static void
outing_line_free (PinOutingLine *line)
{
  g_free (line->day);
  g_free (line->text);
  g_free (line->conditions);
  g_free (line);
}

static void
append (GString *text, const char *what)
{
  if (what != NULL && *what)
    g_string_append_printf (text, "%s%s", text->len ? ", " : "", what);
}

static char *
outing_text (const PinOuting *outing)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *time = isnan (outing->seconds) ? g_strdup (_("time not known"))
                                                  : pin_minutes_text (outing->seconds / 60);

  append (text, time);
  if (!isnan (outing->runs))
    {
      long n = lround (outing->runs);

      g_string_append (text, ", ");
      g_string_append_printf (text, ngettext ("%ld run", "%ld runs", n), n);
    }
  if (!isnan (outing->litres) && outing->litres > 0)
    {
      g_autofree char *litres = pin_number_format (outing->litres, 2);

      g_string_append_printf (text, _(", %s l"), litres);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static char *
conditions_text (const PinOuting *outing)
{
  g_autoptr (GString) text = g_string_new (NULL);

  append (text, outing->surface);
  append (text, outing->dirt);
  if (outing->water != NULL && !g_str_equal (outing->water, "none"))
    append (text, outing->water);
  if (outing->salt > 0)
    append (text, _("salt"));
  if (outing->knocks > 0)
    {
      g_autofree char *knocks =
          g_strdup_printf (ngettext ("%d knock", "%d knocks", outing->knocks), outing->knocks);

      append (text, knocks);
    }
  if (!isnan (outing->ambient))
    {
      g_autofree char *air = g_strdup_printf ("%.0f °C", outing->ambient);

      append (text, air);
    }
  append (text, outing->note);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

GPtrArray *
pin_outing_lines (GPtrArray *outings)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func ((GDestroyNotify) outing_line_free);

  for (guint i = 0; i < outings->len; i++)
    {
      PinOutingLine *line = g_new0 (PinOutingLine, 1);

      line->outing = outings->pdata[i];
      line->day = pin_day_short (line->outing->day);
      line->text = outing_text (line->outing);
      line->conditions = conditions_text (line->outing);
      g_ptr_array_add (lines, line);
    }
  return lines;
}

/* ---- Inspections ---- */

static void
inspection_line_free (PinInspectionLine *line)
{
  g_free (line->what);
  g_free (line->title);
  g_free (line->day);
  g_free (line->verdict);
  g_free (line->person);
  g_free (line);
}

GPtrArray *
pin_inspection_lines (GPtrArray *inspections)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func ((GDestroyNotify) inspection_line_free);

  for (guint i = 0; i < inspections->len; i++)
    {
      const PinInspectionRow *row = inspections->pdata[i];
      PinInspectionLine *line = g_new0 (PinInspectionLine, 1);

      line->id = row->id;
      line->what = pin_plan_what (row->plan);
      line->title = pin_plan_title (row->plan);
      line->day = pin_day_short (row->signed_day ? row->signed_day : row->day);
      line->verdict = g_strdup (row->verdict ? row->verdict : "open");
      line->person = g_strdup (row->signed_person ? row->signed_person : row->person);
      g_ptr_array_add (lines, line);
    }
  return lines;
}

/* ---- Findings ---- */

static void
finding_line_free (PinFindingLine *line)
{
  g_free (line->text);
  g_free (line->state);
  g_free (line->closes);
  g_free (line);
}

static char *
finding_state (const PinFindingRow *row)
{
  g_autofree char *opened = pin_day_short (row->day);
  g_autofree char *last = pin_day_short (row->last_day);

  if (row->withdrawn)
    return g_strdup_printf (_("withdrawn %s"), last);
  if (row->closed)
    return g_strdup_printf (_("closed %s"), last);
  if (row->accepted)
    return g_strdup_printf (_("accepted %s"), last);
  if (row->worked)
    return g_strdup_printf (_("worked on %s, to be looked at again"), last);
  return g_strdup_printf (_("open since %s"), opened);
}

/* On this car now, or of the car as a whole. */
static gboolean
is_here (const PinCar *car, const PinFindingRow *row)
{
  return row->part == 0 || pin_car_slot_of_part (car, row->part) != NULL;
}

static int
heaviest_first (gconstpointer a, gconstpointer b)
{
  const PinFindingLine *x = *(PinFindingLine *const *) a, *y = *(PinFindingLine *const *) b;

  if (x->row->closed != y->row->closed)
    return x->row->closed - y->row->closed;
  if (!x->row->closed && x->gravity != y->gravity)
    return (int) y->gravity - (int) x->gravity;
  return (y->row->last > x->row->last) - (y->row->last < x->row->last);
}

GPtrArray *
pin_finding_lines (PinLibrary *library, const PinCar *car, GPtrArray *findings)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func ((GDestroyNotify) finding_line_free);

  for (guint i = 0; i < findings->len; i++)
    {
      const PinFindingRow *row = findings->pdata[i];
      PinFindingLine *line = g_new0 (PinFindingLine, 1);
      g_autofree char *text = pin_finding_text (library, car, row);

      line->row = row;
      line->gravity = row->gravity;
      line->text = is_here (car, row) ? g_steal_pointer (&text)
                                      : g_strdup_printf (_("%s (no longer on the car)"), text);
      line->state = finding_state (row);
      line->closes = row->closed ? g_strdup ("") : pin_finding_closes (library, row);
      line->may_close = !row->closed;
      line->may_accept = !row->closed && !row->accepted && row->gravity == PIN_GRAVITY_WATCH;
      g_ptr_array_add (lines, line);
    }
  g_ptr_array_sort (lines, heaviest_first);
  return lines;
}

/* ---- Debts ---- */

static void
owed_line_free (PinOwedLine *line)
{
  g_free (line->text);
  g_free (line->settles);
  g_free (line);
}

static char *
settles_text (PinLibrary *library, const PinOwed *owed)
{
  const PinDebt *debt = pin_library_debt (library, owed->what);
  const PinJob *job =
      g_str_has_prefix (owed->what, "job:") ? pin_library_job (library, owed->what + 4) : NULL;
  g_autofree char *title = job ? pin_procedure_title (library, job->procedure) : NULL;

  if (job != NULL)
    return g_strdup_printf (_("Signing “%s” settles it"), title);
  if (debt == NULL)
    return g_strdup (_("By hand"));
  switch (debt->payable)
    {
    case PIN_PAYABLE_NOW:
      return g_strdup (_("At the bench, before the inspection is signed"));
    case PIN_PAYABLE_TIME:
      return g_strdup (_("By itself, once its time is over"));
    case PIN_PAYABLE_USE:
      return g_strdup (_("By hand, once it has run; or in the next inspection"));
    case PIN_PAYABLE_BEFORE_USE:
      return g_strdup (_("Before the next start"));
    }
  return g_strdup ("");
}

GPtrArray *
pin_owed_lines (PinLibrary *library, const PinCar *car, gint64 now)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func ((GDestroyNotify) owed_line_free);

  for (guint i = 0; i < car->rows->owed->len; i++)
    {
      const PinOwed *owed = car->rows->owed->pdata[i];
      PinOwedLine *line;
      g_autofree char *text = pin_owed_text (library, car, owed);

      if (pin_owed_lapsed (library, owed, now))
        continue;
      line = g_new0 (PinOwedLine, 1);
      line->id = owed->id;
      line->text = pin_sentence_case (text);
      line->settles = settles_text (library, owed);
      line->may_settle = pin_inventory_may_settle (library, car, owed, NULL);
      g_ptr_array_add (lines, line);
    }
  return lines;
}
