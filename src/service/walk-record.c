#include "service/walk-record.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "base/day.h"
#include "book/queries.h"
#include "service/finding-text.h"

/* ---- Making lines from questions ---- */

typedef struct
{
  PinWalkRecord *record;
  PinLibrary *library;
  GHashTable *groups;         /* procedure id → PinRecordGroup* */
  GHashTable *lines;          /* "bearings/grade@hub.front.left.outer" → PinRecordLine* */
} Recording;

static void
line_free (PinRecordLine *line)
{
  g_free (line->step);
  g_free (line->title);
  g_free (line->place);
  g_free (line->code);
  g_free (line->found_text);
  g_free (line->left_text);
  g_free (line->unit);
  g_free (line->quantity);
  g_free (line->limit);
  g_free (line->reason);
  g_free (line->note);
  g_ptr_array_unref (line->deeds);
  g_ptr_array_unref (line->corrected);
  g_free (line);
}

static void
group_free (PinRecordGroup *group)
{
  g_free (group->id);
  g_free (group->title);
  g_ptr_array_unref (group->lines);
  g_free (group);
}

static PinRecordGroup *
group_of (Recording *self, const PinQuestion *question)
{
  const char *id = question->procedure->id;
  PinRecordGroup *group = g_hash_table_lookup (self->groups, id);

  if (group != NULL)
    return group;
  group = g_new0 (PinRecordGroup, 1);
  group->id = g_strdup (id);
  group->title = g_strdup (question->procedure->title);
  group->lines = g_ptr_array_new_with_free_func ((GDestroyNotify) line_free);
  g_ptr_array_add (self->record->groups, group);
  g_hash_table_insert (self->groups, group->id, group);
  return group;
}

static PinRecordLine *
line_of (Recording *self, const PinQuestion *question)
{
  g_autofree char *key = g_strdup_printf ("%s@%s", question->stored,
                                          question->slot ? question->slot->code : "");
  PinRecordLine *line = g_hash_table_lookup (self->lines, key);

  if (line != NULL)
    return line;
  line = g_new0 (PinRecordLine, 1);
  line->step = g_strdup (question->stored);
  line->title = pin_question_title (self->record->walk, question);
  line->place = pin_question_place (question);
  line->code = question->slot ? g_strdup (question->slot->code) : NULL;
  line->part = question->slot ? question->slot->part : 0;
  line->deeds = g_ptr_array_new_with_free_func (g_free);
  line->corrected = g_ptr_array_new_with_free_func (g_free);
  g_ptr_array_add (group_of (self, question)->lines, line);
  g_hash_table_insert (self->lines, g_steal_pointer (&key), line);
  return line;
}

static const PinReading *
reading_of (const PinWalkRows *rows, gint64 answer)
{
  for (guint i = rows->readings->len; i-- > 0;)
    if (((PinReading *) rows->readings->pdata[i])->answer == answer)
      return rows->readings->pdata[i];
  return NULL;
}

/* ---- Limits in words ---- */

static char *
edge (double canonical, const PinUnit *unit, int decimals)
{
  return pin_number_format (pin_unit_to (unit, canonical), decimals);
}

static char *
limit_text (double min, double max, const PinUnit *unit, int decimals)
{
  g_autofree char *low = isnan (min) ? NULL : edge (min, unit, decimals);
  g_autofree char *high = isnan (max) ? NULL : edge (max, unit, decimals);

  if (low != NULL && high != NULL)
    return g_strdup_printf ("%s–%s", low, high);
  if (low != NULL)
    return g_strdup_printf ("≥ %s", low);
  return high ? g_strdup_printf ("≤ %s", high) : g_strdup ("");
}

/* One decimal more than the quantity is shown with: limits are shares. */
static void
note_limit (Recording *self, PinRecordLine *line, const PinQuestion *question,
            const PinReading *reading)
{
  const PinMeasure *measure = question->step->measure;
  const PinQuantity *quantity = pin_library_quantity (self->library, reading->quantity);
  PinReferences references;
  PinProposal proposal;

  if (measure == NULL || quantity == NULL || quantity->unit == NULL)
    return;
  references = pin_walk_references (self->record->walk, question);
  proposal = pin_judge (measure, reading->value, &references);
  g_free (line->limit);
  line->limit = limit_text (proposal.pass_min, proposal.pass_max, quantity->unit,
                            quantity->decimals + (proposal.against != PIN_AGAINST_PLAIN));
}

static void
note_reading (Recording *self, PinRecordLine *line, const PinQuestion *question,
              const PinReading *reading, char **text)
{
  const PinQuantity *quantity = pin_library_quantity (self->library, reading->quantity);

  g_free (*text);
  *text = pin_reading_text (self->library, reading);
  g_free (line->unit);
  line->unit = g_strdup (quantity && quantity->unit ? quantity->unit->symbol : "");
  g_free (line->quantity);
  line->quantity = g_strdup (quantity ? quantity->title : reading->quantity);
  note_limit (self, line, question, reading);
}

/* ---- Answers ---- */

static char *
count_text (const PinAnswer *answer)
{
  return g_strdup (answer->detail ? answer->detail : "");
}

static char *
given_text (Recording *self, const PinQuestion *question, const PinAnswer *answer)
{
  if (answer->outcome != PIN_OUTCOME_NOT_CHECKED &&
      pin_question_kind (question) == PIN_ANSWER_COUNT)
    return count_text (answer);
  if (answer->outcome == PIN_OUTCOME_NOT_CHECKED)
    return g_strdup (_("not checked"));
  if (pin_question_kind (question) == PIN_ANSWER_PLAIN)
    return g_strdup (pin_outcome_title (answer->outcome));
  return pin_answer_text (self->library, answer);
}

static void
note_given (Recording *self, PinRecordLine *line, const PinQuestion *question)
{
  gboolean left = question->phase == PIN_PHASE_LEFT;
  const PinAnswer *answer = question->given;
  const PinReading *reading = reading_of (pin_walk_rows (self->record->walk), answer->id);
  char **text = left ? &line->left_text : &line->found_text;

  *(left ? &line->left : &line->found) = answer;
  *(left ? &line->left_reading : &line->found_reading) = reading;
  g_free (*text);
  *text = given_text (self, question, answer);
  if (reading != NULL)
    note_reading (self, line, question, reading, text);
  line->outcome = answer->outcome;
  line->unsafe = answer->unsafe;
  if (answer->note != NULL && *answer->note)
    {
      g_free (line->note);
      line->note = g_strdup (answer->note);
    }
  g_free (line->reason);
  line->reason = g_strdup (answer->outcome == PIN_OUTCOME_NOT_CHECKED ? answer->detail : NULL);
}

static void
add_deed (PinRecordLine *line, char *title)
{
  if (g_ptr_array_find_with_equal_func (line->deeds, title, g_str_equal, NULL))
    g_free (title);
  else
    g_ptr_array_add (line->deeds, title);
}

/* Work of an answer, on the line of that answer. */
static void
note_deeds (Recording *self, PinRecordLine *line, gint64 answer)
{
  GPtrArray *works = pin_walk_rows (self->record->walk)->works;

  for (guint i = 0; i < works->len; i++)
    {
      const PinWork *work = works->pdata[i];

      if (work->answer == answer)
        add_deed (line, pin_deed_title (self->library, work->deed));
    }
}

static void
record_question (Recording *self, const PinQuestion *question)
{
  PinRecordLine *line;

  if (question->kind != PIN_QUESTION_STEP || question->procedure == NULL ||
      (question->given == NULL && !question->reached))
    return;
  line = line_of (self, question);
  if (question->given == NULL)
    return;
  note_given (self, line, question);
  note_deeds (self, line, question->given->id);
}

/* ---- Summing up ---- */

static void
fill_empty (PinRecordLine *line)
{
  char **texts[] = { &line->found_text, &line->left_text, &line->unit, &line->quantity,
                     &line->limit, &line->reason, &line->note };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    if (*texts[i] == NULL)
      *texts[i] = g_strdup ("");
}

static void
count (PinWalkRecord *self, PinRecordLine *line)
{
  switch (line->outcome)
    {
    case PIN_OUTCOME_PASS:
      self->passed++;
      break;
    case PIN_OUTCOME_WATCH:
      self->watched++;
      break;
    case PIN_OUTCOME_FAIL:
      *(line->unsafe ? &self->unsafe : &self->failed) += 1;
      break;
    case PIN_OUTCOME_NONE:
    case PIN_OUTCOME_NOT_CHECKED:
      self->n_not_checked++;
      g_ptr_array_add (self->not_checked, line);
      break;
    case PIN_OUTCOME_DOES_NOT_APPLY:
      self->does_not_apply++;
      break;
    case PIN_OUTCOME_DONE:
      break;
    }
  if (line->outcome == PIN_OUTCOME_WATCH || line->outcome == PIN_OUTCOME_FAIL)
    g_ptr_array_add (self->wrong, line);
}

static int
heaviest_first (gconstpointer a, gconstpointer b)
{
  const PinRecordLine *x = *(PinRecordLine *const *) a, *y = *(PinRecordLine *const *) b;

  return (int) pin_gravity_of (y->outcome, y->unsafe) -
         (int) pin_gravity_of (x->outcome, x->unsafe);
}

static void
sum_up (PinWalkRecord *self)
{
  for (guint i = 0; i < self->groups->len; i++)
    {
      PinRecordGroup *group = self->groups->pdata[i];

      for (guint j = 0; j < group->lines->len; j++)
        {
          fill_empty (group->lines->pdata[j]);
          count (self, group->lines->pdata[j]);
        }
    }
  g_ptr_array_sort (self->wrong, heaviest_first);
}

static void
note_head (PinWalkRecord *self)
{
  const PinInspectionRow *row = pin_walk_rows (self->walk)->inspection;

  self->id = pin_walk_id (self->walk);
  self->what = g_strdup (pin_walk_what (self->walk));
  self->title = g_strdup (pin_walk_title (self->walk));
  self->day = g_strdup (row->signed_day ? row->signed_day : row->day);
  self->person = g_strdup (row->signed_person ? row->signed_person : row->person);
  self->verdict = g_strdup (row->verdict ? row->verdict : "open");
}

static void
record_all (PinWalkRecord *self, PinLibrary *library)
{
  const GPtrArray *questions = pin_walk_questions (self->walk);
  Recording recording = {
    .record = self, .library = library,
    .groups = g_hash_table_new (g_str_hash, g_str_equal),
    .lines = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL) };

  for (guint i = 0; i < questions->len; i++)
    record_question (&recording, questions->pdata[i]);
  g_hash_table_unref (recording.groups);
  g_hash_table_unref (recording.lines);
  sum_up (self);
}

PinWalkRecord *
pin_walk_record_new (PinWalkRows *rows, PinLibrary *library, GError **error)
{
  PinWalk *walk = pin_walk_new (rows, library, error);
  PinWalkRecord *self;

  if (walk == NULL)
    return NULL;
  self = g_new0 (PinWalkRecord, 1);
  self->walk = walk;
  self->groups = g_ptr_array_new_with_free_func ((GDestroyNotify) group_free);
  self->wrong = g_ptr_array_new ();
  self->not_checked = g_ptr_array_new ();
  note_head (self);
  record_all (self, pin_walk_library (walk));
  return self;
}

/* ---- What stood before ---- */

typedef struct
{
  PinLibrary *library;
  GPtrArray *answers;         /* PinAnswer*, corrected ones too */
  GPtrArray *readings;        /* PinReading*, likewise */
} Before;

static const PinAnswer *
answer_before (const Before *before, gint64 id)
{
  for (guint i = 0; i < before->answers->len; i++)
    {
      const PinAnswer *answer = g_ptr_array_index (before->answers, i);

      if (answer->id == id)
        return answer;
    }
  return NULL;
}

/* "2.1 s, watch", "felt at the rim". */
static char *
text_before (const Before *before, const PinAnswer *answer)
{
  const char *word = answer->unsafe ? _("unsafe") : pin_outcome_title (answer->outcome);

  for (guint i = 0; i < before->readings->len; i++)
    {
      const PinReading *reading = g_ptr_array_index (before->readings, i);
      g_autofree char *text = NULL;

      if (reading->answer != answer->id)
        continue;
      text = pin_reading_text (before->library, reading);
      return g_strdup_printf ("%s, %s", text, word);
    }
  if (answer->detail == NULL || *answer->detail == '\0')
    return g_strdup (word);
  return pin_answer_text (before->library, answer);
}

static void
note_corrected (const Before *before, PinRecordLine *line, const PinAnswer *answer)
{
  while (answer != NULL && answer->replaces != 0)
    {
      const PinAnswer *old = answer_before (before, answer->replaces);
      g_autofree char *day = pin_day_of (pin_book_id_instant (answer->id));
      g_autofree char *shown = pin_day_short (day);
      g_autofree char *was = old != NULL ? text_before (before, old) : NULL;

      if (old == NULL)
        return;
      g_ptr_array_add (line->corrected,
                       g_strdup_printf (_("corrected by %s, %s; was %s (%s)"),
                                        answer->person != NULL ? answer->person : "–", shown, was,
                                        old->person != NULL ? old->person : "–"));
      answer = old;
    }
}

gboolean
pin_walk_record_read_corrected (PinWalkRecord *self, PinDb *db, PinLibrary *library, GError **error)
{
  Before before = { .library = library };
  gboolean good = (before.answers = pin_query_answers_all (db, self->id, error)) != NULL
                  && (before.readings = pin_query_readings_ever_of_walk (db, self->id, error)) != NULL;

  for (guint i = 0; good && i < self->groups->len; i++)
    {
      const PinRecordGroup *group = g_ptr_array_index (self->groups, i);

      for (guint j = 0; j < group->lines->len; j++)
        {
          PinRecordLine *line = g_ptr_array_index (group->lines, j);

          note_corrected (&before, line, line->found);
          note_corrected (&before, line, line->left);
        }
    }
  g_clear_pointer (&before.answers, g_ptr_array_unref);
  g_clear_pointer (&before.readings, g_ptr_array_unref);
  return good;
}

void
pin_walk_record_free (PinWalkRecord *self)
{
  if (self == NULL)
    return;
  g_free (self->what);
  g_free (self->title);
  g_free (self->day);
  g_free (self->person);
  g_free (self->verdict);
  g_ptr_array_unref (self->groups);
  g_ptr_array_unref (self->wrong);
  g_ptr_array_unref (self->not_checked);
  pin_walk_free (self->walk);
  g_free (self);
}
