/* Numbers as they were read, found and left.  Left and right of one axle share
 * a line, and so do all groups of screws that were tight. */

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "service/finding-text.h"
#include "sheet/summary-private.h"

static gboolean
is_count (const PinRecordLine *line)
{
  return line->found && line->found->detail && strchr (line->found->detail, '/') &&
         g_ascii_isdigit (line->found->detail[0]);
}

static gboolean
is_reading (const PinRecordLine *line)
{
  return line->found_reading || line->left_reading;
}

/* The unit stands with the name, so that the numbers line up. */
static char *
bare (const char *text, const char *unit)
{
  gsize n = strlen (text), m = strlen (unit);

  if (m && n > m && g_str_has_suffix (text, unit))
    return g_strchomp (g_strndup (text, n - m));
  return g_strdup (text);
}

static char *
both (const char *a, const char *b, const char *unit)
{
  g_autofree char *left = bare (a, unit);
  g_autofree char *right = bare (b, unit);

  if (*left == '\0' || *right == '\0')
    return g_strdup (*left ? left : right);
  return g_strdup_printf ("%s / %s", left, right);
}

static PinMark
worse_mark (const PinRecordLine *a, const PinRecordLine *b)
{
  const PinRecordLine *worse = pin_outcome_weight (b->outcome) > pin_outcome_weight (a->outcome) || b->unsafe ? b : a;

  return pin_mark_of_outcome (worse->outcome, worse->unsafe);
}

/* Where a pair sits: "front left wheel" → "front". */
static char *
axle_of (const char *label)
{
  g_auto (GStrv) words = g_strsplit (label, " ", -1);
  GString *text = g_string_new (NULL);

  for (guint i = 0; words[i]; i++)
    if (!g_str_equal (words[i], "left") && !g_str_equal (words[i], "right") && (words[i + 1] || text->len == 0))
      g_string_append_printf (text, "%s%s", text->len ? " " : "", words[i]);
  return g_string_free (text, FALSE);
}

static char *
name_of (const PinRecordLine *line, const char *place)
{
  g_autofree char *what = pin_sentence_case (*line->quantity ? line->quantity : line->title);

  return g_strdup_printf ("%s%s%s%s%s", what, *place ? ", " : "", place, *line->unit ? ", " : "", line->unit);
}

/* What the line was judged by last. */
static double
last_value (const PinRecordLine *line)
{
  return g_ascii_strtod (*line->left_text ? line->left_text : line->found_text, NULL);
}

static gboolean
read_range (const char *limit, double *middle, double *half)
{
  const char *dash = strstr (limit, "–");
  double low = g_ascii_strtod (limit, NULL), high;

  if (dash == NULL)
    return FALSE;
  high = g_ascii_strtod (dash + strlen ("–"), NULL);
  *middle = (low + high) / 2;
  *half = (high - low) / 2;
  return *half > 0;
}

/* Each side is held against the other: the limit is how far they may be apart.
 * Limits are written with few decimals, so "the same" is to within a tenth.  A
 * wide one is a share. */
static char *
pair_limit (const PinRecordLine *a, const PinRecordLine *b)
{
  double middle_a, half_a, middle_b, half_b;

  if (read_range (a->limit, &middle_a, &half_a) && read_range (b->limit, &middle_b, &half_b) &&
      fabs (middle_a - last_value (b)) < half_a * 0.1 + 0.011 &&
      fabs (middle_b - last_value (a)) < half_b * 0.1 + 0.011)
    {
      if (half_a / middle_a > 0.19)
        return g_strdup_printf (_("≤\302\240%.0f\302\240%% apart"), half_a / middle_a * 100);
      return g_strdup_printf (_("≤\302\240%.2g apart"), half_a);
    }
  if (g_str_equal (a->limit, b->limit))
    return g_strdup (a->limit);
  return g_strdup_printf ("%s / %s", a->limit, b->limit);
}

static void
add_pair (PinSheetBlock *block, const PinRecordLine *a, const PinRecordLine *b)
{
  g_autofree char *place = axle_of (a->place);
  g_autofree char *name = name_of (a, place);
  g_autofree char *found = both (a->found_text, b->found_text, a->unit);
  g_autofree char *left = both (a->left_text, b->left_text, a->unit);
  g_autofree char *limit = pair_limit (a, b);

  pin_sheet_block_add (block, worse_mark (a, b), name, found, left, limit);
}

static gboolean
are_pair (const PinSummary *self, const PinRecordLine *a, const PinRecordLine *b)
{
  const PinSlot *slot = a->code ? pin_car_slot (self->view->car, a->code) : NULL;

  return slot && slot->partner && b->code && g_str_equal (slot->partner->code, b->code) &&
         g_str_equal (a->step, b->step) && is_reading (b);
}

typedef struct
{
  int found, left, of, groups;
} Screws;

static gboolean
add_to_screws (Screws *screws, const PinRecordLine *line)
{
  int found = 0, of = 0, left = 0;

  if (sscanf (line->found->detail, "%d/%d", &found, &of) != 2)
    return FALSE;
  left = found;
  if (line->left && line->left->detail)
    sscanf (line->left->detail, "%d/", &left);
  screws->found += found;
  screws->left += left;
  screws->of += of;
  screws->groups++;
  return left == of;
}

static void
add_screws (PinSheetBlock *block, const Screws *screws)
{
  g_autofree char *name = g_strdup_printf (_("Screws tight, of %d"), screws->of);
  g_autofree char *found = g_strdup_printf ("%d", screws->found);
  g_autofree char *left = g_strdup_printf ("%d", screws->left);

  if (screws->groups)
    pin_sheet_block_add (block, screws->left == screws->of ? PIN_MARK_PASS : PIN_MARK_FAIL, name, found, left,
                         _("all"));
}

static void
add_single (PinSheetBlock *block, const PinRecordLine *line)
{
  g_autofree char *name = name_of (line, line->place);
  g_autofree char *found = bare (line->found_text, line->unit);
  g_autofree char *left = bare (line->left_text, line->unit);

  pin_sheet_block_add (block, pin_mark_of_outcome (line->outcome, line->unsafe), name, found, left, line->limit);
}

static void
add_group (PinSummary *self, PinSheetBlock *block, const PinRecordGroup *group)
{
  Screws screws = { 0 };

  for (guint i = 0; i < group->lines->len; i++)
    {
      const PinRecordLine *line = g_ptr_array_index (group->lines, i);
      const PinRecordLine *next = i + 1 < group->lines->len ? g_ptr_array_index (group->lines, i + 1) : NULL;

      if (is_reading (line) && next && are_pair (self, line, next))
        {
          add_pair (block, line, next);
          i++;
        }
      else if (is_reading (line) || (is_count (line) && !add_to_screws (&screws, line)))
        add_single (block, line);
    }
  add_screws (block, &screws);
}

void
pin_summary_measured (PinSummary *self)
{
  PinSheetBlock *block;

  if (self->record == NULL)
    return;
  block = pin_sheet_block_new (_("Measured, left / right"), PIN_FORM_MEASURED);
  for (guint i = 0; i < self->systems->len; i++)
    add_group (self, block, g_array_index (self->systems, PinSheetSystem, i).group);
  if (block->rows->len == 0)
    pin_sheet_block_add (block, PIN_MARK_NOT_CHECKED, _("Nothing was measured"), NULL, NULL, NULL);
  g_ptr_array_add (self->right, block);
}
