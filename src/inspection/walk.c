#include "inspection/walk-private.h"

#include <glib/gi18n.h>
#include <inttypes.h>
#include <string.h>

#include "base/day.h"
#include "inspection/error.h"

/* A longer gap between two answers is a tea break, not bench time. */
#define LONGEST_GAP_MS (G_GINT64_CONSTANT (15) * 60 * 1000)

static gboolean
load_sources (PinDb *db, PinWalkRows *rows, const GPtrArray *shas, GError **error)
{
  for (guint i = 0; i < shas->len; i++)
    {
      const char *sha = g_ptr_array_index (shas, i);
      GBytes *xml = pin_query_source (db, sha, error);

      if (xml == NULL)
        return FALSE;
      g_hash_table_insert (rows->sources, g_strdup (sha), xml);
    }
  return TRUE;
}

static PinInspectionRow *
find_inspection (PinDb *db, gint64 id, GError **error)
{
  PinInspectionRow *row = pin_query_inspection (db, id, error);

  if (row == NULL && error && *error == NULL)
    g_set_error (error, PIN_INSPECTION_ERROR, PIN_INSPECTION_ERROR_PLAN,
                 _("the book has no inspection %" PRId64), id);
  return row;
}

static gboolean
load_chassis (PinDb *db, PinCarRows *car, const char *sha, GError **error)
{
  if (sha == NULL)
    return TRUE;
  g_clear_pointer (&car->chassis_xml, g_bytes_unref);
  car->chassis_sha = g_strdup (sha);
  car->chassis_xml = pin_query_source (db, sha, error);
  return car->chassis_xml != NULL;
}

static gboolean
load_texts (PinDb *db, PinWalkRows *rows, const PinPlanText *plan, GError **error)
{
  return load_sources (db, rows, plan->procedures, error) && load_sources (db, rows, plan->settlers, error) &&
         load_sources (db, rows, plan->kinds, error) && load_chassis (db, rows->car, plan->chassis, error);
}

/* Runs on the book's thread. */

PinWalkRows *
pin_walk_rows_load (PinDb *db, gint64 inspection, GError **error)
{
  g_autoptr (PinWalkRows) rows = g_new0 (PinWalkRows, 1);
  g_autoptr (GError) local = NULL;
  PinPlanText *plan;
  gboolean loaded;
  gint64 vehicle;

  rows->sources = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_bytes_unref);
  if (!(rows->inspection = find_inspection (db, inspection, error)))
    return NULL;
  vehicle = rows->inspection->vehicle;
  if (!(rows->car = pin_car_rows_of_walk (db, vehicle, inspection, error)) ||
      !(rows->answers = pin_query_answers (db, inspection, error)) ||
      !(rows->readings = pin_query_readings (db, vehicle, error)) ||
      !(rows->works = pin_query_works (db, vehicle, error)) ||
      !(rows->own_limits = pin_query_own_limits_ever (db, error)) ||
      !(rows->corrected = pin_query_corrected (db, inspection, error)) ||
      !(rows->traces = pin_query_traces (db, inspection, error)) ||
      !(rows->passed = pin_query_passed (db, vehicle, error)) ||
      (rows->last_outing = pin_query_last_outing (db, vehicle, error)) < 0)
    return NULL;
  rows->draft = pin_query_draft (db, inspection, &local);
  if (local)
    {
      g_propagate_error (error, g_steal_pointer (&local));
      return NULL;
    }
  plan = pin_plan_text_parse (rows->inspection->plan, error);
  if (plan == NULL)
    return NULL;
  loaded = load_texts (db, rows, plan, error);
  pin_plan_text_free (plan);
  return loaded ? g_steal_pointer (&rows) : NULL;
}

void
pin_walk_rows_free (PinWalkRows *rows)
{
  if (rows == NULL)
    return;
  g_clear_pointer (&rows->car, pin_car_rows_free);
  g_clear_pointer (&rows->inspection, pin_inspection_row_free);
  g_clear_pointer (&rows->answers, g_ptr_array_unref);
  g_clear_pointer (&rows->readings, g_ptr_array_unref);
  g_clear_pointer (&rows->works, g_ptr_array_unref);
  g_clear_pointer (&rows->own_limits, g_ptr_array_unref);
  g_clear_pointer (&rows->corrected, g_hash_table_unref);
  g_clear_pointer (&rows->traces, pin_traces_free);
  g_clear_pointer (&rows->passed, g_hash_table_unref);
  g_clear_pointer (&rows->sources, g_hash_table_unref);
  g_free (rows->draft);
  g_free (rows);
}

/* The shelf's own text where it is still the one that was begun with, the
 * archived one otherwise. */
static PinProcedure *
read_procedure (PinWalk *self, const char *sha, GError **error)
{
  GBytes *xml = g_hash_table_lookup (self->rows->sources, sha);
  g_autoptr (GPtrArray) shelf = pin_library_procedures (self->library);

  for (guint i = 0; i < shelf->len; i++)
    {
      PinProcedure *procedure = g_ptr_array_index (shelf, i);

      if (g_str_equal (procedure->sha, sha))
        return pin_procedure_ref (procedure);
    }
  return pin_procedure_read (xml, _("the text kept in the book"), error);
}

static GPtrArray *
read_procedures (PinWalk *self, const GPtrArray *shas, GError **error)
{
  g_autoptr (GPtrArray) list = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_procedure_unref);

  for (guint i = 0; i < shas->len; i++)
    {
      PinProcedure *procedure = read_procedure (self, g_ptr_array_index (shas, i), error);

      if (procedure == NULL)
        return NULL;
      g_ptr_array_add (list, procedure);
    }
  return g_steal_pointer (&list);
}

static gboolean
same_kinds (const GPtrArray *shas, const GPtrArray *texts)
{
  for (guint i = 0; i < shas->len && i < texts->len; i++)
    if (!g_str_equal (shas->pdata[i], ((PinKindsText *) texts->pdata[i])->sha))
      return FALSE;
  return shas->len == texts->len;
}

/* The shelf itself where its words are still those that were begun with. */
static gboolean
find_words (PinWalk *self, GError **error)
{
  const GPtrArray *shas = self->plan->kinds;
  g_autoptr (GPtrArray) texts = g_ptr_array_new ();

  if (shas->len == 0 || same_kinds (shas, pin_library_kinds_texts (self->library)))
    return TRUE;
  for (guint i = 0; i < shas->len; i++)
    g_ptr_array_add (texts, g_hash_table_lookup (self->rows->sources, shas->pdata[i]));
  self->words = pin_library_with_kinds (self->library, texts, error);
  if (self->words == NULL)
    return FALSE;
  self->library = self->words;
  return TRUE;
}

static void
list_owed (PinWalk *self)
{
  gint64 now = pin_now ();

  for (guint i = 0; i < self->car->rows->owed->len; i++)
    {
      const PinOwed *row = g_ptr_array_index (self->car->rows->owed, i);

      if (!pin_owed_lapsed (self->library, row, now))
        g_ptr_array_add (self->owed, pin_owed_item_new (self->library, self->car, row));
    }
}

/* Takes @rows, also on error. */
PinWalk *
pin_walk_new (PinWalkRows *rows, PinLibrary *library, GError **error)
{
  g_autoptr (PinWalk) self = g_new0 (PinWalk, 1);

  self->rows = rows;
  self->library = library;
  self->questions = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_question_free);
  self->groups = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_walk_group_free);
  self->owed = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_owed_item_free);
  self->car = pin_car_new (g_steal_pointer (&rows->car), library, error);
  if (self->car == NULL)
    return NULL;
  self->plan = pin_plan_text_parse (rows->inspection->plan, error);
  self->own_limits = pin_own_limits_new (rows->own_limits);
  if (self->plan == NULL || !find_words (self, error) ||
      !(self->procedures = read_procedures (self, self->plan->procedures, error)) ||
      !(self->settlers = read_procedures (self, self->plan->settlers, error)) ||
      !(self->order = pin_order_stages (self->procedures, (const char *const *) self->plan->order,
                                        self->car, error)))
    return NULL;
  list_owed (self);
  pin_walk_expand (self);
  return g_steal_pointer (&self);
}

void
pin_walk_free (PinWalk *self)
{
  if (self == NULL)
    return;
  g_clear_pointer (&self->questions, g_ptr_array_unref);
  g_clear_pointer (&self->groups, g_ptr_array_unref);
  g_clear_pointer (&self->owed, g_ptr_array_unref);
  g_clear_pointer (&self->order, g_ptr_array_unref);
  g_clear_pointer (&self->procedures, g_ptr_array_unref);
  g_clear_pointer (&self->settlers, g_ptr_array_unref);
  g_clear_pointer (&self->plan, pin_plan_text_free);
  g_clear_pointer (&self->car, pin_car_free);
  g_clear_pointer (&self->own_limits, pin_own_limits_free);
  g_clear_pointer (&self->words, pin_library_free);
  g_clear_pointer (&self->rows, pin_walk_rows_free);
  g_free (self);
}

void
pin_question_free (PinQuestion *question)
{
  g_free (question->key);
  g_free (question->stored);
  g_clear_pointer (&question->slots, g_ptr_array_unref);
  g_free (question);
}

void
pin_walk_group_free (PinWalkGroup *group)
{
  g_free (group->title);
  g_free (group);
}

/* Free with g_free(). */
char *
pin_answer_key (const char *stored, const char *code, PinPhase phase)
{
  return g_strconcat (stored, code ? "@" : "", code ? code : "",
                      phase == PIN_PHASE_LEFT ? "!left" : "", NULL);
}

/* The step under whose name its answers stand. */
const char *
pin_step_base (const PinStep *step)
{
  return step->again ? step->again : step->id;
}

/* Asking again is asking how it was left, unless the text says otherwise. */
PinPhase
pin_step_phase (const PinStep *step)
{
  return step->again && step->phase == PIN_PHASE_ONLY ? PIN_PHASE_LEFT : step->phase;
}

gboolean
pin_step_settles (PinLibrary *library, const PinProcedure *procedure, const PinStep *step,
                  const char *debt)
{
  const PinDebt *kind = pin_library_debt (library, debt);

  if (g_strcmp0 (step->settles, debt) == 0)
    return TRUE;
  return kind && procedure && g_strcmp0 (kind->procedure, procedure->id) == 0 &&
         g_strcmp0 (kind->step, pin_step_base (step)) == 0;
}

/* The step that settles @debt, from the texts kept with the walk; NULL: it
 * lapses by itself, or the shelf lacks it.  @procedure and @stage may be NULL. */
const PinStep *
pin_settling_step (const PinWalk *self, const char *debt, PinProcedure **procedure,
                   const PinStage **stage)
{
  const PinDebt *kind = pin_library_debt (self->library, debt);

  for (guint i = 0; kind && kind->procedure && i < self->settlers->len; i++)
    {
      PinProcedure *settler = g_ptr_array_index (self->settlers, i);
      const PinStage *in = NULL;
      const PinStep *step;

      if (!g_str_equal (settler->id, kind->procedure))
        continue;
      step = pin_procedure_step (settler, kind->step, &in);
      if (step == NULL)
        continue;
      if (procedure)
        *procedure = settler;
      if (stage)
        *stage = in;
      return step;
    }
  return NULL;
}

const char *
pin_walk_ended_words (const PinWalk *self)
{
  return g_strcmp0 (self->rows->inspection->verdict, "abandoned") == 0 ? _("this inspection was abandoned") :
                                                                         _("this inspection was signed off");
}

gint64
pin_walk_id (const PinWalk *self)
{
  return self->rows->inspection->id;
}

const PinCar *
pin_walk_car (const PinWalk *self)
{
  return self->car;
}

PinLibrary *
pin_walk_library (const PinWalk *self)
{
  return self->library;
}

const PinWalkRows *
pin_walk_rows (const PinWalk *self)
{
  return self->rows;
}

const char *
pin_walk_title (const PinWalk *self)
{
  return self->plan->title;
}

const char *
pin_walk_what (const PinWalk *self)
{
  return self->plan->what;
}

GPtrArray *
pin_walk_procedures (const PinWalk *self)
{
  return self->procedures;
}

const GPtrArray *
pin_walk_questions (const PinWalk *self)
{
  return self->questions;
}

const GPtrArray *
pin_walk_groups (const PinWalk *self)
{
  return self->groups;
}

int
pin_walk_next (const PinWalk *self)
{
  return self->next;
}

int
pin_walk_find (const PinWalk *self, const char *key)
{
  int answered = -1;

  for (guint i = 0; i < self->questions->len; i++)
    {
      const PinQuestion *question = g_ptr_array_index (self->questions, i);

      if (!g_str_equal (question->key, key))
        continue;
      if (question->given == NULL)
        return (int) i;
      answered = (int) i;
    }
  return answered;
}

const GPtrArray *
pin_walk_tray (const PinWalk *self)
{
  return self->car->tray;
}

const GPtrArray *
pin_walk_owed (const PinWalk *self)
{
  return self->owed;
}

static gint64
ms_of (gint64 id)
{
  return id >> 21;
}

/* Time at the bench so far, from when the answers were given; long gaps do
 * not count. */
double
pin_walk_minutes_spent (const PinWalk *self)
{
  gint64 last = ms_of (self->rows->inspection->id);
  gint64 spent = 0;

  for (guint i = 0; i < self->rows->answers->len; i++)
    {
      gint64 at = ms_of (((PinAnswer *) g_ptr_array_index (self->rows->answers, i))->id);

      if (at > last && at - last < LONGEST_GAP_MS)
        spent += at - last;
      last = at;
    }
  return spent / 60000.0;
}

/* Hands-on time still to come: the assemblies by their own minutes, steps by
 * their share of what their procedure says it takes. */
double
pin_walk_minutes_left (const PinWalk *self)
{
  double left = 0;

  for (guint p = 0; p < self->procedures->len; p++)
    {
      const PinProcedure *procedure = g_ptr_array_index (self->procedures, p);
      int all = 0, open = 0;

      for (guint i = 0; i < self->questions->len; i++)
        {
          const PinQuestion *question = g_ptr_array_index (self->questions, i);

          all += question->procedure == procedure;
          open += question->procedure == procedure && question->given == NULL;
        }
      left += all ? procedure->hands_minutes * open / all : 0;
    }
  for (guint i = 0; i < self->questions->len; i++)
    {
      const PinQuestion *question = g_ptr_array_index (self->questions, i);

      if (question->assembly && question->given == NULL)
        left += question->kind == PIN_QUESTION_OFF ? question->assembly->off_minutes :
                                                     question->assembly->on_minutes;
    }
  return left;
}

/* ---- owed ----------------------------------------------------------------- */

static char *
opened_by (const PinCar *car, const PinOwed *row)
{
  for (guint i = 0; i < car->rows->tray_answers->len; i++)
    {
      const PinAnswer *answer = g_ptr_array_index (car->rows->tray_answers, i);
      const char *id = strchr (answer->step, '/') + 1;
      const PinAssembly *assembly = pin_chassis_assembly (car->chassis, id);

      if (answer->id == row->cause)
        return g_strdup (assembly ? assembly->title : id);
    }
  return NULL;
}

PinOwedItem *
pin_owed_item_new (PinLibrary *library, const PinCar *car, const PinOwed *row)
{
  PinOwedItem *item = g_new0 (PinOwedItem, 1);

  item->id = row->id;
  item->what = g_strdup (row->what);
  item->ready_at = row->ready_at;
  item->due_at = row->due_at;
  item->day = g_strdup (row->day);
  item->of = opened_by (car, row);
  if (g_str_has_prefix (row->what, "job:"))
    {
      const PinJob *job = pin_library_job (library, row->what + strlen ("job:"));

      item->job = TRUE;
      item->title = g_strdup (job ? job->title : row->what + strlen ("job:"));
    }
  else
    {
      const PinDebt *debt = pin_library_debt (library, row->what);

      item->payable = debt ? debt->payable : PIN_PAYABLE_NOW;
      item->title = g_strdup (debt ? debt->title : row->what);
    }
  return item;
}

void
pin_owed_item_free (PinOwedItem *item)
{
  g_free (item->what);
  g_free (item->title);
  g_free (item->of);
  g_free (item->day);
  g_free (item);
}
