#include "service/readiness.h"

#include <glib/gi18n.h>

#include "base/day.h"
#include "service/finding-text.h"

/* ---- The last walk ---- */

void
pin_last_walk_free (PinLastWalk *self)
{
  if (self == NULL)
    return;
  g_free (self->day);
  g_free (self->what);
  g_free (self);
}

/* Counts the last answer of each question: as left where it was asked again. */
static void
count (PinLastWalk *self, GPtrArray *answers)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = answers->len; i-- > 0;)
    {
      const PinAnswer *answer = answers->pdata[i];

      if (answer->outcome == PIN_OUTCOME_DONE || answer->outcome == PIN_OUTCOME_NONE ||
          answer->outcome == PIN_OUTCOME_DOES_NOT_APPLY ||
          !g_hash_table_add (
              seen, g_strdup_printf ("%s@%" G_GINT64_FORMAT, answer->step, answer->place)))
        continue;
      self->asked++;
      if (answer->outcome == PIN_OUTCOME_NOT_CHECKED)
        self->not_checked++;
    }
}

PinLastWalk *
pin_last_walk_load (PinDb *db, gint64 vehicle, GError **error)
{
  g_autoptr (PinLastWalk) self = g_new0 (PinLastWalk, 1);
  g_autoptr (GError) trouble = NULL;
  PinInspectionRow *row = pin_query_last_signed (db, vehicle, &trouble);
  g_autoptr (GPtrArray) answers = NULL;

  if (trouble != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&trouble));
      return NULL;
    }
  if (row == NULL)
    return g_steal_pointer (&self);
  self->day = g_strdup (row->signed_day ? row->signed_day : row->day);
  self->what = pin_plan_what (row->plan);
  answers = pin_query_answers (db, row->id, error);
  pin_inspection_row_free (row);
  if (answers == NULL)
    return NULL;
  count (self, answers);
  return g_steal_pointer (&self);
}

/* ---- Levels ---- */

const char *
pin_level_word (PinLevel level)
{
  static const char *const words[] = {
    [PIN_LEVEL_UNSAFE] = "unsafe", [PIN_LEVEL_NOT_READY] = "not-ready",
    [PIN_LEVEL_NOT_KNOWN] = "not-known", [PIN_LEVEL_WATCH] = "ready-with-a-watch",
    [PIN_LEVEL_READY] = "ready" };

  return words[level];
}

const char *
pin_level_title (PinLevel level)
{
  switch (level)
    {
    case PIN_LEVEL_UNSAFE:
      return _("Unsafe: do not run");
    case PIN_LEVEL_NOT_READY:
      return _("Not ready");
    case PIN_LEVEL_NOT_KNOWN:
      return _("Not known");
    case PIN_LEVEL_WATCH:
      return _("Ready, with a watch");
    case PIN_LEVEL_READY:
      return _("Ready");
    }
  return "";
}

gboolean
pin_level_may_run (PinLevel level)
{
  return level >= PIN_LEVEL_WATCH;
}

/* ---- Reasons ---- */

typedef struct
{
  PinLibrary *library;
  const PinCar *car;
  GPtrArray *reasons;
} Judging;

static void
reason_free (PinReason *reason)
{
  g_free (reason->text);
  g_free (reason);
}

/* Takes @text. */
static PinReason *
add (Judging *self, PinReasonKind kind, PinLevel level, char *text)
{
  PinReason *reason = g_new0 (PinReason, 1);

  reason->kind = kind;
  reason->level = level;
  reason->text = text;
  g_ptr_array_add (self->reasons, reason);
  return reason;
}

static PinLevel
level_of_finding (const PinFindingRow *finding)
{
  switch (finding->gravity)
    {
    case PIN_GRAVITY_UNSAFE:
      return PIN_LEVEL_UNSAFE;
    case PIN_GRAVITY_FAIL:
      return PIN_LEVEL_NOT_READY;
    case PIN_GRAVITY_WATCH:
      return finding->accepted ? PIN_LEVEL_READY : PIN_LEVEL_WATCH;
    case PIN_GRAVITY_NONE:
      break;
    }
  return PIN_LEVEL_READY;
}

/* Only what is on the car now, or said of the car as a whole, grounds it. */
static void
judge_finding (Judging *self, const PinFindingRow *finding)
{
  g_autofree char *text = NULL, *sentence = NULL;
  PinReason *reason;

  if (finding->closed ||
      (finding->part != 0 && pin_car_slot_of_part (self->car, finding->part) == NULL))
    return;
  text = pin_finding_text (self->library, self->car, finding);
  sentence = pin_sentence_case (text);
  reason = add (self, PIN_REASON_FINDING, level_of_finding (finding),
                finding->accepted ? g_strdup_printf (_("%s, accepted."), sentence)
                                  : g_strdup_printf ("%s.", sentence));
  reason->gravity = finding->gravity;
  reason->id = finding->id;
  reason->place = finding->place;
}

static gboolean
still_counts (PinLibrary *library, const PinOwed *owed, gint64 now)
{
  const PinDebt *debt = pin_library_debt (library, owed->what);

  if (debt != NULL && debt->payable == PIN_PAYABLE_BEFORE_USE)
    return FALSE;
  return !pin_owed_lapsed (library, owed, now);
}

static void
judge_owed (Judging *self, gint64 now)
{
  g_autoptr (GString) list = g_string_new (NULL);
  guint n = 0;
  gint64 id = 0;

  for (guint i = 0; i < self->car->rows->owed->len; i++)
    {
      const PinOwed *owed = self->car->rows->owed->pdata[i];
      g_autofree char *text = NULL;

      if (!still_counts (self->library, owed, now))
        continue;
      text = pin_owed_text (self->library, self->car, owed);
      g_string_append_printf (list, "%s%s", n++ ? "; " : "", text);
      if (id == 0)
        id = owed->id;
    }
  if (n == 0)
    return;
  add (self, PIN_REASON_OWED, PIN_LEVEL_NOT_READY,
       n == 1 ? g_strdup_printf (_("Owed: %s."), list->str)
              : g_strdup_printf (_("%u owed: %s."), n, list->str))->id = id;
}

static void
judge_tray (Judging *self)
{
  g_autoptr (GString) list = g_string_new (NULL);

  for (guint i = 0; i < self->car->tray->len; i++)
    {
      const PinTrayItem *item = self->car->tray->pdata[i];

      g_string_append_printf (list, "%s%s", i ? ", " : "",
                              item->assembly ? item->assembly->title : item->id);
    }
  if (list->len > 0)
    add (self, PIN_REASON_OFF, PIN_LEVEL_NOT_READY,
         g_strdup_printf (_("Off the car: %s."), list->str));
}

static void
judge_last (Judging *self, const PinLastWalk *last)
{
  g_autofree char *day = last->day ? pin_day_short (last->day) : NULL;

  if (day == NULL)
    add (self, PIN_REASON_NEVER, PIN_LEVEL_NOT_KNOWN, g_strdup (_("Never inspected.")));
  else if (last->asked > 0 && 2 * last->not_checked > last->asked)
    add (self, PIN_REASON_NOT_CHECKED, PIN_LEVEL_NOT_KNOWN,
         g_strdup_printf (_("Of the last inspection, %s, %d of %d were not checked."), day,
                          last->not_checked, last->asked));
}

static int
weightiest_first (gconstpointer a, gconstpointer b)
{
  const PinReason *x = *(PinReason *const *) a, *y = *(PinReason *const *) b;

  if (x->level != y->level)
    return (int) x->level - (int) y->level;
  if (x->kind != y->kind)
    return (int) x->kind - (int) y->kind;
  if (x->gravity != y->gravity)
    return (int) y->gravity - (int) x->gravity;
  return x->id < y->id ? -1 : x->id > y->id;
}

static PinLevel
worst_level (GPtrArray *reasons)
{
  PinLevel level = PIN_LEVEL_READY;

  for (guint i = 0; i < reasons->len; i++)
    level = MIN (level, ((PinReason *) reasons->pdata[i])->level);
  return level;
}

static void
say_fine (Judging *self, const PinLastWalk *last)
{
  g_autofree char *day = pin_day_short (last->day);

  add (self, PIN_REASON_FINE, PIN_LEVEL_READY,
       g_strdup_printf (self->reasons->len == 0 ? _("Nothing owed, nothing open. Inspected %s.")
                                                : _("Inspected %s."), day));
}

PinReadiness *
pin_readiness_new (PinLibrary *library, const PinCar *car, const PinLastWalk *last,
                   gint64 now)
{
  PinReadiness *self = g_new0 (PinReadiness, 1);
  Judging judging = { library, car,
                      g_ptr_array_new_with_free_func ((GDestroyNotify) reason_free) };

  for (guint i = 0; i < car->rows->findings->len; i++)
    judge_finding (&judging, car->rows->findings->pdata[i]);
  judge_tray (&judging);
  judge_owed (&judging, now);
  judge_last (&judging, last);
  self->level = worst_level (judging.reasons);
  if (self->level == PIN_LEVEL_READY)
    say_fine (&judging, last);
  self->reasons = judging.reasons;
  g_ptr_array_sort (self->reasons, weightiest_first);
  return self;
}

void
pin_readiness_free (PinReadiness *self)
{
  if (self == NULL)
    return;
  g_ptr_array_unref (self->reasons);
  g_free (self);
}

const char *
pin_readiness_text (const PinReadiness *self)
{
  return ((PinReason *) self->reasons->pdata[0])->text;
}
