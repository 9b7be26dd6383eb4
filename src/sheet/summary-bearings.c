/* Bearings by position: how they felt, how they were left, when oiled. */

#include <glib/gi18n.h>
#include <string.h>

#include "base/day.h"
#include "service/finding-text.h"
#include "sheet/summary-private.h"

/* Of several questions about one bearing the sheet shows the heaviest answer;
 * of equal ones that which was asked again, then the later. */
static int
feel_weight (const PinRecordLine *line)
{
  return pin_outcome_weight (line->outcome) * 4 + (line->unsafe ? 8 : 0) + (line->left ? 2 : 0) + 1;
}

static const PinRecordLine *
record_of (const PinSummary *self, const PinSlot *slot)
{
  const PinRecordLine *found = NULL;

  for (guint g = 0; g < self->systems->len; g++)
    {
      const PinRecordGroup *group = g_array_index (self->systems, PinSheetSystem, g).group;

      for (guint i = 0; i < group->lines->len; i++)
        {
          const PinRecordLine *line = g_ptr_array_index (group->lines, i);

          if (g_strcmp0 (line->code, slot->code) == 0 && line->outcome != PIN_OUTCOME_DONE &&
              (found == NULL || feel_weight (line) >= feel_weight (found)))
            found = line;
        }
    }
  return found;
}

static char *
grade_word (const PinAnswer *answer)
{
  if (answer == NULL)
    return NULL;
  if (answer->outcome == PIN_OUTCOME_NOT_CHECKED)
    return g_strdup (_("not checked"));
  return g_strdup (answer->detail ? answer->detail : pin_outcome_title (answer->outcome));
}

static char *
feel_text (const PinRecordLine *line)
{
  g_autofree char *found = line ? grade_word (line->found) : NULL;
  g_autofree char *left = line ? grade_word (line->left) : NULL;

  if (found && left)
    return g_strdup_printf ("%s → %s", found, left);
  return g_strdup (found ? found : left ? left : _("not checked"));
}

/* As on the plan: an open finding outweighs a later pass that did not close it. */
static PinMark
mark_of (const PinSummary *self, const PinSlot *slot)
{
  const PinSlotMark *mark = g_hash_table_lookup (self->view->marks, slot->code);

  if (mark == NULL || mark->outcome == PIN_OUTCOME_NONE)
    return PIN_MARK_NOT_CHECKED;
  return pin_mark_of_outcome (mark->outcome, mark->unsafe);
}

/* "front hub" for "front left hub, outer": what several positions share. */
static char *
shared_label (const PinSlot *slot)
{
  static const char *const side[] = { "left", "right", "inner", "outer", "upper", "lower", NULL };
  g_auto (GStrv) words = g_strsplit_set (slot->label, " ,", -1);
  GString *label = g_string_new (NULL);

  for (guint i = 0; words[i]; i++)
    if (*words[i] && !g_strv_contains (side, words[i]) && !g_str_equal (words[i], "and"))
      g_string_append_printf (label, "%s%s", label->len ? " " : "", words[i]);
  return g_string_free (label, FALSE);
}

static PinSheetRow *
find_alike (PinSheetBlock *block, PinMark mark, const char *label, const char *feel, const char *work)
{
  for (guint i = 0; i < block->rows->len; i++)
    {
      PinSheetRow *row = g_ptr_array_index (block->rows, i);

      if (row->mark == mark && g_str_equal (row->cell[0], label) && g_str_equal (row->cell[1], feel) &&
          g_str_equal (row->cell[2], work))
        return row;
    }
  return NULL;
}

static void
add_short (PinSheetBlock *block, GPtrArray *first, guint nth, const PinSlot *slot, PinMark mark,
           const char *feel, const char *work)
{
  g_autofree char *shared = shared_label (slot);
  g_autofree char *label = pin_sentence_case (shared);
  PinSheetRow *row = find_alike (block, mark, label, feel, work);

  if (row == NULL)
    {
      row = pin_sheet_block_add (block, mark, label, feel, work, NULL);
      g_ptr_array_add (first, GUINT_TO_POINTER (nth));
    }
  row->balloon++;             /* counts the positions until the labels are written */
}

/* A line that stands for one bearing names it whole. */
static void
name_single (PinSheetBlock *shared, const PinSheetBlock *whole, GPtrArray *first)
{
  for (guint i = 0; i < shared->rows->len; i++)
    {
      PinSheetRow *row = g_ptr_array_index (shared->rows, i);
      guint nth = GPOINTER_TO_UINT (g_ptr_array_index (first, i));
      const PinSheetRow *full = g_ptr_array_index (whole->rows, nth);

      if (row->balloon != 1)
        continue;
      g_free (row->cell[0]);
      row->cell[0] = g_strdup (full->cell[0]);
    }
}

/* "Oiled 1 Nov 2026, 1.5 h ago": the sheet has its own day at the top. */
static char *
work_text (const PinPartLine *part)
{
  const char *comma = part ? strchr (part->last_work, ',') : NULL;

  if (part == NULL || *part->last_work == '\0')
    return g_strdup (_("no work recorded"));
  return comma ? g_strndup (part->last_work, comma - part->last_work) : g_strdup (part->last_work);
}

static void
write_counts (PinSheetBlock *block)
{
  for (guint i = 0; i < block->rows->len; i++)
    {
      PinSheetRow *row = g_ptr_array_index (block->rows, i);

      if (row->balloon > 1)
        {
          char *label = g_strdup_printf ("%s, %d", row->cell[0], row->balloon);

          g_free (row->cell[0]);
          row->cell[0] = label;
        }
      row->balloon = 0;
    }
}

void
pin_summary_bearings (PinSummary *self, PinLibrary *library)
{
  const GPtrArray *slots = self->view->car->slots;
  g_autoptr (GPtrArray) first = g_ptr_array_new (); /* of each shared line, its first bearing */

  self->bearings = pin_sheet_block_new (_("Bearings by position"), PIN_FORM_BEARINGS);
  self->bearings_short = pin_sheet_block_new (_("Bearings by position"), PIN_FORM_BEARINGS);
  for (guint i = 0; i < slots->len; i++)
    {
      const PinSlot *slot = g_ptr_array_index (slots, i);
      const PinPartLine *part = pin_vehicle_view_part (self->view, slot->place);
      const PinRecordLine *line = record_of (self, slot);
      g_autofree char *feel = feel_text (line);
      g_autofree char *work = work_text (part);
      g_autofree char *label = NULL;

      if (!g_str_equal (slot->kind, "bearing") || slot->part == 0)
        continue;
      label = pin_sentence_case (slot->label);
      pin_sheet_block_add (self->bearings, mark_of (self, slot), label, feel, work, NULL);
      add_short (self->bearings_short, first, self->bearings->rows->len - 1, slot, mark_of (self, slot), feel, work);
    }
  name_single (self->bearings_short, self->bearings, first);
  write_counts (self->bearings_short);
  self->bearings->note = g_strdup (_("feel found → left, and work"));
  self->bearings_short->note = g_strdup (_("feel found → left, and work"));
}
