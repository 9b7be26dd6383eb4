/* What is in it, what was replaced, and what goes with it. */

#include <glib/gi18n.h>
#include <string.h>

#include "base/day.h"
#include "service/finding-text.h"
#include "service/part-shelf.h"
#include "sheet/summary-private.h"

/* What the keeper told or measured is worth a line whatever it is; of what is
 * only usual for the type, what a buyer asks for. */
static gboolean
is_interesting (const PinSetupFact *fact)
{
  static const char *const asked[] = { "teeth", "fluid", "kv", "turns", NULL };
  static const char *const dull[] = { "size", "filled", "count", "thread", "key", "name", "state", "acquired",
                                      "torque-note", "lube", "seal", NULL };

  if (g_strv_contains (dull, fact->spec) || g_str_has_prefix (fact->spec, "way:") ||
      g_str_has_prefix (fact->spec, "used."))
    return FALSE;
  return !g_str_equal (fact->origin, "default") || g_strv_contains (asked, fact->spec);
}

/* Facts of one sort, gathered by what they say. */
typedef struct
{
  const char *title, *text;
  gboolean usual;
  GPtrArray *labels;          /* const char* */
} Gathered;

static void
gathered_free (Gathered *gathered)
{
  g_ptr_array_unref (gathered->labels);
  g_free (gathered);
}

static void
gather (GPtrArray *all, const PinSetupFact *fact, const char *vehicle)
{
  gboolean usual = g_str_equal (fact->origin, "default");
  Gathered *found = NULL;

  for (guint i = 0; i < all->len && found == NULL; i++)
    {
      found = g_ptr_array_index (all, i);
      if (!g_str_equal (found->title, fact->title) || !g_str_equal (found->text, fact->text) || found->usual != usual)
        found = NULL;
    }
  if (found == NULL)
    {
      found = g_new0 (Gathered, 1);
      found->title = fact->title;
      found->text = fact->text;
      found->usual = usual;
      found->labels = g_ptr_array_new ();
      g_ptr_array_add (all, found);
    }
  g_ptr_array_add (found->labels, g_str_equal (fact->label, vehicle) ? (char *) "" : fact->label);
}

/* "front shocks" for the left and the right one, "" if they are no such pair. */
static char *
pair_label (const char *one, const char *other)
{
  g_auto (GStrv) a = g_strsplit (one, " ", -1);
  g_auto (GStrv) b = g_strsplit (other, " ", -1);
  GString *text = g_string_new (NULL);

  for (guint i = 0; a[i] && b[i]; i++)
    if (g_str_equal (a[i], b[i]))
      g_string_append_printf (text, "%s%s", text->len ? " " : "", a[i]);
    else if (!(g_str_equal (a[i], "left") && g_str_equal (b[i], "right")))
      {
        g_string_free (text, TRUE);
        return g_strdup ("");
      }
  return g_string_free (text, FALSE);
}

/* "shock", if all the labels end so. */
static const char *
last_word (const GPtrArray *labels)
{
  const char *label = g_ptr_array_index (labels, 0);
  const char *space = strrchr (label, ' ');
  const char *word = space ? space : label;

  for (guint i = 1; i < labels->len; i++)
    if (!g_str_has_suffix (labels->pdata[i], word))
      return _("place");
  return space ? space + 1 : label;
}

static char *
labels_text (const GPtrArray *labels)
{
  const char *first = g_ptr_array_index (labels, 0);

  if (labels->len == 2)
    {
      g_autofree char *pair = pair_label (first, g_ptr_array_index (labels, 1));

      return *pair ? g_strdup_printf (_("%s, left and right"), pair) :
                     g_strdup_printf ("%s, %s", first, (char *) g_ptr_array_index (labels, 1));
    }
  return labels->len > 2 ? g_strdup_printf ("%s × %u", last_word (labels), labels->len) : g_strdup (first);
}

/* "spur gear: 81"; in brackets what was not measured. */
static char *
gathered_text (const Gathered *gathered)
{
  g_autofree char *where = labels_text (gathered->labels);

  return g_strdup_printf ("%s%s%s%s%s", gathered->usual ? "(" : "", where, *where ? ": " : "", gathered->text,
                          gathered->usual ? ")" : "");
}

/* Facts of one sort share a row. */
static void
add_gathered (PinSheetBlock *block, const Gathered *gathered)
{
  g_autofree char *caption = pin_sentence_case (gathered->title);
  g_autofree char *text = gathered_text (gathered);
  PinSheetRow *last = block->rows->len ? g_ptr_array_index (block->rows, block->rows->len - 1) : NULL;

  if (last && g_str_equal (last->cell[0], caption))
    {
      char *both = g_strconcat (last->cell[1], "; ", text, NULL);

      g_free (last->cell[1]);
      last->cell[1] = both;
    }
  else
    pin_sheet_block_add (block, PIN_MARK_NONE, caption, text, NULL, NULL);
}

static int
by_title (gconstpointer a, gconstpointer b)
{
  return strcmp ((*(const Gathered *const *) a)->title, (*(const Gathered *const *) b)->title);
}

static void
list_fitted (PinSummary *self)
{
  PinSheetBlock *block = pin_sheet_block_new (_("Fitted now"), PIN_FORM_FACTS);
  g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func ((GDestroyNotify) gathered_free);

  for (guint g = 0; g < self->view->setup->len; g++)
    {
      const PinSetupGroup *group = g_ptr_array_index (self->view->setup, g);

      for (guint i = 0; i < group->facts->len; i++)
        if (is_interesting (g_ptr_array_index (group->facts, i)))
          gather (all, g_ptr_array_index (group->facts, i), self->name);
    }
  g_ptr_array_sort (all, by_title);
  for (guint i = 0; i < all->len; i++)
    add_gathered (block, g_ptr_array_index (all, i));
  block->note = g_strdup (_("in brackets: usual for its type, not measured"));
  if (block->rows->len)
    g_ptr_array_add (self->left, block);
  else
    pin_sheet_block_free (block);
}

static gboolean
is_renewal (const char *deed)
{
  return g_str_equal (deed, "replaced") || g_str_has_suffix (deed, "-renewed") || g_str_equal (deed, "filled");
}

static int
newest_first (gconstpointer a, gconstpointer b)
{
  const PinWork *x = *(const PinWork *const *) a, *y = *(const PinWork *const *) b;
  int by_day = strcmp (y->day, x->day);

  return by_day ? by_day : strcmp (x->deed, y->deed);
}

static GPtrArray *
renewals (const PinSummary *self)
{
  GPtrArray *works = g_ptr_array_new ();
  g_autofree char *today = pin_today ();
  g_autofree char *from = pin_day_add (today, -365);

  for (guint i = 0; i < self->view->works->len; i++)
    {
      PinWork *work = g_ptr_array_index (self->view->works, i);

      if (is_renewal (work->deed) && strcmp (work->day, from) >= 0)
        g_ptr_array_add (works, work);
    }
  g_ptr_array_sort (works, newest_first);
  return works;
}

static void
append_place (GString *text, const PinSummary *self, const PinWork *work, guint n)
{
  g_autofree char *place = pin_place_text (self->view->car, work->place, work->thing);

  g_string_append_printf (text, "%s%s", n ? "; " : "", *place ? place : self->name);
}

static void
list_renewed (PinSummary *self, PinLibrary *library)
{
  PinSheetBlock *block = pin_sheet_block_new (_("Replaced and renewed, last 12 months"), PIN_FORM_FACTS);
  g_autoptr (GPtrArray) works = renewals (self);

  for (guint i = 0; i < works->len;)
    {
      const PinWork *first = g_ptr_array_index (works, i);
      g_autofree char *day = pin_day_short (first->day);
      g_autofree char *deed = pin_deed_title (library, first->deed);
      GString *text = g_string_new (NULL);
      guint n = 0;

      g_string_append_printf (text, "%s: ", deed);
      for (; i < works->len; i++, n++)
        {
          const PinWork *work = g_ptr_array_index (works, i);

          if (!g_str_equal (work->day, first->day) || !g_str_equal (work->deed, first->deed))
            break;
          append_place (text, self, work, n);
        }
      pin_sheet_block_add (block, PIN_MARK_NONE, day, text->str, NULL, NULL);
      g_string_free (text, TRUE);
    }
  if (block->rows->len == 0)
    pin_sheet_block_add (block, PIN_MARK_NONE, _("None"), _("none recorded in this book"), NULL, NULL);
  g_ptr_array_add (self->left, block);
}

static char *
hard_days (const PinVehicleView *view)
{
  int wet = 0, dirty = 0, knocks = 0;

  for (guint i = 0; i < view->outings->len; i++)
    {
      const PinOuting *outing = ((PinOutingLine *) g_ptr_array_index (view->outings, i))->outing;

      wet += outing->water && !g_str_equal (outing->water, "none");
      dirty += outing->dirt && (strstr (outing->dirt, "mud") || strstr (outing->dirt, "sand"));
      knocks += outing->knocks > 0 ? outing->knocks : 0;
    }
  return g_strdup_printf (_("%d wet, %d mud or sand, %d hard knocks"), wet, dirty, knocks);
}

static int
by_text (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

static char *
spare_name (const PinShelfPart *part)
{
  return part->row->size ? g_strdup_printf ("%s %s", part->row->kind, part->row->size) : g_strdup (part->row->kind);
}

/* What came off this car and lies on the shelf, alike ones counted. */
static char *
spares_text (const PinSummary *self, const GPtrArray *shelf)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < shelf->len; i++)
    {
      const PinShelfPart *part = g_ptr_array_index (shelf, i);

      if (g_strcmp0 (part->last_vehicle, self->name) == 0 && !part->row->inside)
        g_ptr_array_add (names, spare_name (part));
    }
  g_ptr_array_sort (names, by_text);
  for (guint i = 0, n; i < names->len; i += n)
    {
      for (n = 1; i + n < names->len && g_str_equal (names->pdata[i], names->pdata[i + n]); n++)
        ;
      g_string_append_printf (text, "%s%u × %s", i ? ", " : "", n, (char *) names->pdata[i]);
    }
  if (names->len == 0)
    g_string_append (text, _("none recorded"));
  return g_string_free (text, FALSE);
}

void
pin_summary_fitted (PinSummary *self, PinLibrary *library, const GPtrArray *shelf)
{
  g_autofree char *hard = hard_days (self->view);
  g_autofree char *spares = spares_text (self, shelf);
  PinSheetBlock *block;

  list_fitted (self);
  list_renewed (self, library);
  block = pin_sheet_block_new (_("Use, and what goes with it"), PIN_FORM_FACTS);
  if (!pin_usage_is_known (&self->view->usage))
    pin_sheet_block_add (block, PIN_MARK_NONE, _("Before"), _("use before it came into this book is not known"),
                         NULL, NULL);
  pin_sheet_block_add (block, PIN_MARK_NONE, _("Hard days"),
                       self->view->outings->len ? hard : _("no outing recorded"), NULL, NULL);
  pin_sheet_block_add (block, PIN_MARK_NONE, _("Spares"), spares, NULL, NULL);
  g_ptr_array_add (self->left, block);
}
