/* Beginning a walk: what will be walked, written down once and for all. */

#include "inspection/walk-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "base/day.h"
#include "inspection/error.h"

/* A plan, and the texts that it names. */
typedef struct
{
  PinPlanText *text;
  GPtrArray *procedures;      /* PinProcedure*, walked */
  GPtrArray *settlers;        /* PinProcedure*, that may settle a debt */
} Plan;

static Plan *
plan_new (void)
{
  Plan *plan = g_new0 (Plan, 1);

  plan->text = g_new0 (PinPlanText, 1);
  plan->text->procedures = g_ptr_array_new_with_free_func (g_free);
  plan->text->settlers = g_ptr_array_new_with_free_func (g_free);
  plan->text->kinds = g_ptr_array_new_with_free_func (g_free);
  plan->procedures = g_ptr_array_new ();
  plan->settlers = g_ptr_array_new ();
  return plan;
}

static void
plan_free (Plan *plan)
{
  pin_plan_text_free (plan->text);
  g_ptr_array_unref (plan->procedures);
  g_ptr_array_unref (plan->settlers);
  g_free (plan);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Plan, plan_free)

static gboolean
collect (Plan *plan, PinLibrary *library, const PinCar *car, const char *what, GError **error)
{
  PinTeardown *teardown = pin_library_teardown (library, what, NULL);
  PinProcedure *procedure;
  const char *const one[] = { what, NULL };
  const char *const *takes = teardown ? (const char *const *) teardown->takes : one;

  for (guint i = 0; takes[i]; i++)
    {
      procedure = pin_library_procedure (library, takes[i], error);
      if (procedure == NULL)
        return FALSE;
      g_ptr_array_add (plan->procedures, procedure);
      g_ptr_array_add (plan->text->procedures, g_strdup (procedure->sha));
    }
  procedure = g_ptr_array_index (plan->procedures, 0);
  if (teardown ? !pin_teardown_fits (teardown, car) : !pin_procedure_fits (procedure, car))
    {
      g_set_error (error, PIN_INSPECTION_ERROR, PIN_INSPECTION_ERROR_FITS_NOT,
                   _("“%s” is not meant for %s (%s): choose another inspection"),
                   what, car->name, car->chassis->title);
      return FALSE;
    }
  plan->text->what = g_strdup (what);
  plan->text->title = g_strdup (teardown ? teardown->title : procedure->title);
  plan->text->order = teardown ? g_strdupv (teardown->order) : NULL;
  return TRUE;
}

static char **
order_names (GPtrArray *stages)
{
  GPtrArray *names = g_ptr_array_new ();

  for (guint i = 0; i < stages->len; i++)
    {
      const PinStageRef *ref = g_ptr_array_index (stages, i);

      g_ptr_array_add (names, g_strconcat (ref->procedure->id, "/", ref->stage->id, NULL));
    }
  g_ptr_array_add (names, NULL);
  return (char **) g_ptr_array_free (names, FALSE);
}

static gboolean
ran_since (const PinCar *car, const PinOwed *owed)
{
  const char *last = car->rows->vehicle->last_day;

  return last && owed->day && strcmp (last, owed->day) > 0;
}

/* Old debts that this walk can and should settle. */
static char **
payable_debts (PinLibrary *library, const PinCar *car)
{
  GPtrArray *debts = g_ptr_array_new ();

  for (guint i = 0; i < car->rows->owed->len; i++)
    {
      const PinOwed *owed = g_ptr_array_index (car->rows->owed, i);
      const PinDebt *kind = pin_library_debt (library, owed->what);

      if (kind && (kind->payable == PIN_PAYABLE_NOW ||
                   (kind->payable == PIN_PAYABLE_USE && ran_since (car, owed))) &&
          !g_ptr_array_find_with_equal_func (debts, owed->what, g_str_equal, NULL))
        g_ptr_array_add (debts, g_strdup (owed->what));
    }
  g_ptr_array_add (debts, NULL);
  return (char **) g_ptr_array_free (debts, FALSE);
}

static void
add_settler (Plan *plan, PinLibrary *library, const char *debt)
{
  const PinDebt *kind = pin_library_debt (library, debt);
  PinProcedure *procedure = kind && kind->procedure ?
                            pin_library_procedure (library, kind->procedure, NULL) : NULL;

  if (procedure == NULL || g_ptr_array_find (plan->settlers, procedure, NULL))
    return;
  g_ptr_array_add (plan->settlers, procedure);
  g_ptr_array_add (plan->text->settlers, g_strdup (procedure->sha));
}

static void
add_settlers_of_steps (Plan *plan, PinLibrary *library, const PinProcedure *procedure)
{
  for (guint i = 0; i < procedure->stages->len; i++)
    {
      const PinStage *stage = g_ptr_array_index (procedure->stages, i);

      for (guint j = 0; j < stage->items->len; j++)
        {
          const PinItem *item = g_ptr_array_index (stage->items, j);

          if (item->kind == PIN_ITEM_STEP && item->step->owes)
            add_settler (plan, library, item->step->owes);
        }
    }
}

/* Every text that may be needed to settle what this walk can come to owe. */
static void
add_settlers (Plan *plan, PinLibrary *library, const PinCar *car)
{
  for (guint i = 0; plan->text->debts[i]; i++)
    add_settler (plan, library, plan->text->debts[i]);
  for (guint i = 0; i < car->chassis->assemblies->len; i++)
    {
      const PinAssembly *assembly = g_ptr_array_index (car->chassis->assemblies, i);

      for (guint j = 0; assembly->owes && assembly->owes[j]; j++)
        add_settler (plan, library, assembly->owes[j]);
    }
  for (guint i = 0; i < plan->procedures->len; i++)
    add_settlers_of_steps (plan, library, g_ptr_array_index (plan->procedures, i));
  for (guint i = 0; i < plan->settlers->len; i++)
    add_settlers_of_steps (plan, library, g_ptr_array_index (plan->settlers, i));
}

static void
name_words (PinPlanText *text, PinLibrary *library, const PinCar *car)
{
  const GPtrArray *kinds = pin_library_kinds_texts (library);

  for (guint i = 0; i < kinds->len; i++)
    g_ptr_array_add (text->kinds, g_strdup (((PinKindsText *) kinds->pdata[i])->sha));
  text->chassis = g_strdup (car->chassis->sha);
}

static Plan *
make_plan (PinLibrary *library, const PinCar *car, const char *what, GError **error)
{
  g_autoptr (Plan) plan = plan_new ();
  g_autoptr (GPtrArray) stages = NULL;

  if (!collect (plan, library, car, what, error) ||
      !(stages = pin_order_stages (plan->procedures, (const char *const *) plan->text->order, car, error)))
    return NULL;
  g_strfreev (plan->text->order);
  plan->text->order = order_names (stages);
  plan->text->debts = payable_debts (library, car);
  add_settlers (plan, library, car);
  name_words (plan->text, library, car);
  return g_steal_pointer (&plan);
}

static gboolean
none_open (const PinCar *car, GError **error)
{
  for (guint i = 0; i < car->rows->open_walks->len; i++)
    {
      const PinInspectionRow *row = g_ptr_array_index (car->rows->open_walks, i);

      if (row->verdict)
        continue;
      g_set_error (error, PIN_INSPECTION_ERROR, PIN_INSPECTION_ERROR_OPEN,
                   _("%s has an inspection open since %s: go on with it, or sign it off or abandon it first"),
                   car->name, row->day);
      return FALSE;
    }
  return TRUE;
}

static void
keep_sources (PinBatch *batch, const GPtrArray *procedures)
{
  for (guint i = 0; i < procedures->len; i++)
    {
      const PinProcedure *procedure = g_ptr_array_index (procedures, i);

      pin_batch_source (batch, "procedure", procedure->id, procedure->sha, procedure->xml);
    }
}

static void
keep_kinds (PinBatch *batch, PinLibrary *library)
{
  const GPtrArray *kinds = pin_library_kinds_texts (library);

  for (guint i = 0; i < kinds->len; i++)
    {
      const PinKindsText *text = kinds->pdata[i];

      pin_batch_source (batch, "kinds", text->name, text->sha, text->xml);
    }
}

/* What has cured long since is struck off when the next walk begins, so that
 * the list of what is open stays as short as it is. */
static void
settle_lapsed (PinBatch *batch, PinLibrary *library, const PinCar *car, gint64 inspection,
               const char *day, const char *person)
{
  for (guint i = 0; i < car->rows->owed->len; i++)
    {
      const PinOwed *owed = g_ptr_array_index (car->rows->owed, i);

      if (pin_owed_lapsed (library, owed, pin_now ()))
        pin_batch_owed (batch, &(PinOwed){ .vehicle = car->id, .what = owed->what, .settles = owed->id,
                                           .cause = inspection, .day = PIN_LEND (day),
                                           .person = PIN_LEND (person) });
    }
}

gint64
pin_walk_begin (PinBatch *batch, PinLibrary *library, const PinCar *car, const char *what,
                const char *person, GError **error)
{
  g_autoptr (Plan) plan = NULL;
  g_autofree char *json = NULL;
  g_autofree char *today = pin_today ();
  gint64 id;

  if (!none_open (car, error) || !(plan = make_plan (library, car, what, error)))
    return 0;
  keep_sources (batch, plan->procedures);
  keep_sources (batch, plan->settlers);
  keep_kinds (batch, library);
  pin_batch_source (batch, "chassis", car->chassis->id, car->chassis->sha, car->chassis->xml);
  json = pin_plan_text_write (plan->text);
  id = pin_batch_inspection (batch, &(PinInspection){ .vehicle = car->id, .plan = json,
                                                      .lang = PIN_LEND ("en"), .day = today,
                                                      .person = PIN_LEND (person) });
  settle_lapsed (batch, library, car, id, today, person);
  return id;
}

static void
add_texts (PinWalkRows *rows, const GPtrArray *procedures)
{
  for (guint i = 0; i < procedures->len; i++)
    {
      const PinProcedure *procedure = g_ptr_array_index (procedures, i);

      g_hash_table_insert (rows->sources, g_strdup (procedure->sha), g_bytes_ref (procedure->xml));
    }
}

/* The walk as it would be, with nothing in the book: to be looked at only.
 * Takes @car, also on error. */
PinWalk *
pin_walk_preview (PinLibrary *library, PinCar *car, const char *what, GError **error)
{
  g_autoptr (PinCar) owned = car;
  g_autoptr (Plan) plan = make_plan (library, car, what, error);
  PinWalkRows *rows;

  if (plan == NULL)
    return NULL;
  rows = g_new0 (PinWalkRows, 1);
  rows->car = g_steal_pointer (&owned->rows);
  rows->inspection = g_new0 (PinInspectionRow, 1);
  rows->inspection->id = G_MAXINT64;
  rows->inspection->vehicle = rows->car->vehicle->id;
  rows->inspection->plan = pin_plan_text_write (plan->text);
  rows->answers = g_ptr_array_new ();
  rows->readings = g_ptr_array_new ();
  rows->works = g_ptr_array_new ();
  rows->own_limits = g_ptr_array_new ();
  rows->corrected = g_hash_table_new (g_int64_hash, g_int64_equal);
  rows->traces = g_new0 (PinTraces, 1);
  rows->traces->readings = g_ptr_array_new ();
  rows->passed = g_hash_table_new (g_int64_hash, g_int64_equal);
  rows->sources = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_bytes_unref);
  add_texts (rows, plan->procedures);
  add_texts (rows, plan->settlers);
  return pin_walk_new (rows, library, error);
}
