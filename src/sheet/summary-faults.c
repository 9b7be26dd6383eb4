/* What is wrong, what is owed, what was not checked. */

#include <glib/gi18n.h>
#include <string.h>

#include "base/day.h"
#include "service/finding-text.h"
#include "sheet/summary-private.h"

static PinMark
mark_of_gravity (PinGravity gravity)
{
  switch (gravity)
    {
    case PIN_GRAVITY_UNSAFE:
      return PIN_MARK_UNSAFE;
    case PIN_GRAVITY_FAIL:
      return PIN_MARK_FAIL;
    case PIN_GRAVITY_WATCH:
    case PIN_GRAVITY_NONE:
      break;
    }
  return PIN_MARK_WATCH;
}

/* The number that leads from the line to the place on the plan. */
static int
add_balloon (PinSummary *self, const PinFindingRow *finding)
{
  const PinSlot *slot = g_hash_table_lookup (self->view->car->by_place, &finding->place);
  PinSheetBalloon balloon;

  if (slot == NULL || slot->position == NULL)
    return 0;
  balloon.number = (int) self->balloons->len + 1;
  balloon.x = slot->position->x;
  balloon.y = slot->position->y;
  g_array_append_val (self->balloons, balloon);
  return balloon.number;
}

static void
list_wrong (PinSummary *self)
{
  PinSheetBlock *block = pin_sheet_block_new (_("Wrong or worn"), PIN_FORM_LIST);
  guint n = 0;

  for (guint i = 0; i < self->view->findings->len; i++)
    {
      const PinFindingLine *line = g_ptr_array_index (self->view->findings, i);
      g_autofree char *text = pin_sentence_case (line->text);
      PinSheetRow *row;

      if (line->row->closed)
        continue;
      row = pin_sheet_block_add (block, mark_of_gravity (line->gravity), text,
                                 line->row->accepted ? _("accepted") : pin_gravity_title (line->gravity), NULL, NULL);
      row->balloon = add_balloon (self, line->row);
      n++;
    }
  if (n == 0)
    pin_sheet_block_add (block, PIN_MARK_NONE,
                         self->record ? _("Nothing open in what was checked") : _("Not known: never inspected"),
                         NULL, NULL, NULL);
  block->note = g_strdup_printf ("%u", n);
  g_ptr_array_add (self->left, block);
}

static void
list_owed (PinSummary *self)
{
  PinSheetBlock *block = pin_sheet_block_new (_("Owed"), PIN_FORM_LIST);
  guint n = self->view->owed->len + self->view->car->tray->len;

  for (guint i = 0; i < self->view->car->tray->len; i++)
    {
      const PinTrayItem *item = g_ptr_array_index (self->view->car->tray, i);
      g_autofree char *text = g_strdup_printf (_("Off the car: %s"), item->assembly ? item->assembly->title : item->id);

      pin_sheet_block_add (block, PIN_MARK_OWED, text, _("refit"), NULL, NULL);
    }
  for (guint i = 0; i < self->view->owed->len; i++)
    pin_sheet_block_add (block, PIN_MARK_OWED, ((PinOwedLine *) g_ptr_array_index (self->view->owed, i))->text,
                         NULL, NULL, NULL);
  if (n == 0)
    pin_sheet_block_add (block, PIN_MARK_NONE, _("Nothing"), NULL, NULL, NULL);
  block->note = g_strdup_printf ("%u", n);
  g_ptr_array_add (self->left, block);
}

/* Several positions left out of one step for one reason share a line. */
static guint
add_not_checked (PinSheetBlock *block, const GPtrArray *lines, guint i)
{
  const PinRecordLine *line = g_ptr_array_index (lines, i);
  g_autofree char *text = NULL;
  guint n = 1;

  while (i + n < lines->len)
    {
      const PinRecordLine *next = g_ptr_array_index (lines, i + n);

      if (!g_str_equal (next->step, line->step) || g_strcmp0 (next->reason, line->reason) != 0)
        break;
      n++;
    }
  if (n > 1)
    text = g_strdup_printf (_("%s, %u positions"), line->title, n);
  else
    text = g_strdup_printf ("%s%s%s", line->title, *line->place ? ": " : "", line->place);
  pin_sheet_block_add (block, PIN_MARK_NOT_CHECKED, text, *line->reason ? line->reason : _("not answered"), NULL, NULL);
  return n;
}

static gboolean
is_not_checked (const PinRecordLine *line)
{
  return line->outcome == PIN_OUTCOME_NOT_CHECKED || line->outcome == PIN_OUTCOME_NONE;
}

static gboolean
was_inspected (const PinSummary *self, const char *procedure)
{
  for (guint i = 0; i < self->systems->len; i++)
    if (g_str_equal (g_array_index (self->systems, PinSheetSystem, i).group->id, procedure))
      return TRUE;
  return FALSE;
}

/* What a teardown would look at on this car and no inspection on this sheet did. */
static guint
add_not_inspected (PinSummary *self, PinSheetBlock *block, PinLibrary *library)
{
  g_autoptr (GPtrArray) procedures = pin_library_procedures (library);
  g_autoptr (GPtrArray) teardowns = pin_library_teardowns (library);
  guint n = 0;

  for (guint i = 0; i < procedures->len; i++)
    {
      const PinProcedure *procedure = g_ptr_array_index (procedures, i);
      gboolean taken = FALSE;

      for (guint t = 0; t < teardowns->len && !taken; t++)
        taken = g_strv_contains ((const char *const *) ((PinTeardown *) teardowns->pdata[t])->takes, procedure->id);
      if (!taken || was_inspected (self, procedure->id) || !pin_procedure_fits (procedure, self->view->car))
        continue;
      pin_sheet_block_add (block, PIN_MARK_NOT_CHECKED, procedure->title, _("not inspected"), NULL, NULL);
      n++;
    }
  return n;
}

static void
list_not_checked (PinSummary *self, PinLibrary *library)
{
  PinSheetBlock *block = pin_sheet_block_new (_("Not checked"), PIN_FORM_LIST);
  g_autoptr (GPtrArray) lines = g_ptr_array_new ();
  guint n;

  for (guint g = 0; g < self->systems->len; g++)
    {
      const PinRecordGroup *group = g_array_index (self->systems, PinSheetSystem, g).group;

      for (guint i = 0; i < group->lines->len; i++)
        if (is_not_checked (g_ptr_array_index (group->lines, i)))
          g_ptr_array_add (lines, g_ptr_array_index (group->lines, i));
    }
  for (guint i = 0; i < lines->len;)
    i += add_not_checked (block, lines, i);
  n = lines->len + add_not_inspected (self, block, library);
  if (n == 0)
    pin_sheet_block_add (block, PIN_MARK_NONE, _("Everything in the last inspections was checked"), NULL, NULL, NULL);
  block->note = g_strdup_printf (_("%u, and why"), n);
  g_ptr_array_add (self->left, block);
}

static void
append_count (GString *text, int n, const char *word)
{
  if (n)
    g_string_append_printf (text, "%s%d\302\240%s", text->len ? ", " : "", n, word);
}

static void
add_system (PinSheetBlock *block, const PinSheetSystem *system)
{
  int n[PIN_OUTCOME_DONE + 1] = { 0 };
  PinOutcome worst = PIN_OUTCOME_NONE;
  int n_unsafe = 0;
  GString *counts = g_string_new (NULL);
  g_autofree char *day = pin_day_short (system->record->day);

  for (guint i = 0; i < system->group->lines->len; i++)
    {
      const PinRecordLine *line = g_ptr_array_index (system->group->lines, i);

      if (line->unsafe)
        n_unsafe++;
      else
        n[line->outcome == PIN_OUTCOME_NONE ? PIN_OUTCOME_NOT_CHECKED : line->outcome]++;
      if (line->outcome != PIN_OUTCOME_DONE && pin_outcome_weight (line->outcome) > pin_outcome_weight (worst))
        worst = line->outcome;
    }
  /* Mostly left out does not look like a pass. */
  if (worst == PIN_OUTCOME_NONE ||
      (worst == PIN_OUTCOME_PASS && n[PIN_OUTCOME_NOT_CHECKED] > n[PIN_OUTCOME_PASS]))
    worst = PIN_OUTCOME_NOT_CHECKED;
  append_count (counts, n_unsafe, _("unsafe"));
  append_count (counts, n[PIN_OUTCOME_FAIL], _("fail"));
  append_count (counts, n[PIN_OUTCOME_WATCH], _("watch"));
  append_count (counts, n[PIN_OUTCOME_PASS], _("pass"));
  append_count (counts, n[PIN_OUTCOME_NOT_CHECKED], _("not\302\240checked"));
  pin_sheet_block_add (block, pin_mark_of_outcome (worst, n_unsafe > 0), system->group->title, day, counts->str, NULL);
  g_string_free (counts, TRUE);
}

static void
list_systems (PinSummary *self)
{
  self->by_system = pin_sheet_block_new (_("Last inspected, by system"), PIN_FORM_SYSTEMS);
  for (guint i = 0; i < self->systems->len; i++)
    add_system (self->by_system, &g_array_index (self->systems, PinSheetSystem, i));
}

void
pin_summary_faults (PinSummary *self, PinLibrary *library)
{
  list_wrong (self);
  list_owed (self);
  if (self->record == NULL)
    return;
  list_not_checked (self, library);
  list_systems (self);
}
