/* The list of questions: a procedure or teardown, laid over the parts of one
 * vehicle and over the answers given so far.  The same answers always give the
 * same list.  Up to the first unanswered question the list is what happened;
 * from there on it is a forecast, which assumes that nothing branches. */

#include "inspection/walk-private.h"

#include <glib/gi18n.h>
#include <string.h>

enum
{
  MOST_QUESTIONS = 20000,     /* a text that asks for more is at fault */
  MOST_DEPTH = 64,
  MOST_ROUNDS = 6,            /* of settling debts that settling made */
};

typedef struct
{
  PinWalk *walk;
  GHashTable *answers;        /* key → GPtrArray of PinAnswer*, in order */
  GHashTable *visits;         /* key → times asked */
  GHashTable *taken;          /* branch and position → times taken */
  GPtrArray *off;             /* assembly ids now off, in the order they came off */
  GHashTable *opened;         /* assemblies that were ever off */
  GHashTable *lacking;        /* the person said that the car has it not */
  GPtrArray *owing;           /* debt ids still to be settled */
  gboolean forecast;
  gboolean settling;
  const PinProcedure *procedure;
  const PinStage *stage;
  int group;
  int depth;
} Expansion;

/* Which positions a run of items is about. */
typedef struct
{
  GPtrArray *slots;           /* PinSlot*; NULL: all that match */
  gboolean aside;             /* sent here by a branch */
} Scope;

static void run_target (Expansion *e, const char *target, GPtrArray *slots, GPtrArray *items);

/* ---- answers ------------------------------------------------------------ */

static void
index_answers (Expansion *e)
{
  const GPtrArray *answers = e->walk->rows->answers;

  for (guint i = 0; i < answers->len; i++)
    {
      PinAnswer *answer = g_ptr_array_index (answers, i);
      PinSlot *slot = answer->place ? g_hash_table_lookup (e->walk->car->by_place, &answer->place) : NULL;
      char *key = pin_answer_key (answer->step, slot ? slot->code : NULL, answer->phase);
      GPtrArray *list = g_hash_table_lookup (e->answers, key);

      if (list == NULL)
        g_hash_table_insert (e->answers, key, list = g_ptr_array_new ());
      else
        g_free (key);
      g_ptr_array_add (list, answer);
    }
}

static const PinAnswer *
peek (Expansion *e, const char *key)
{
  GPtrArray *list = g_hash_table_lookup (e->answers, key);
  guint n = GPOINTER_TO_UINT (g_hash_table_lookup (e->visits, key));

  return list && n < list->len ? g_ptr_array_index (list, n) : NULL;
}

static gboolean
is_off (Expansion *e, const char *assembly)
{
  return g_ptr_array_find_with_equal_func (e->off, assembly, g_str_equal, NULL);
}

/* From here on nothing has happened yet: the state is what is really off. */
static void
enter_forecast (Expansion *e)
{
  e->forecast = TRUE;
  g_ptr_array_set_size (e->off, 0);
  for (guint i = 0; i < e->walk->car->tray->len; i++)
    {
      const PinTrayItem *item = g_ptr_array_index (e->walk->car->tray, i);

      g_ptr_array_add (e->off, item->id);
      g_hash_table_add (e->opened, item->id);
    }
}

static PinQuestion *
add_question (Expansion *e, PinQuestionKind kind, const char *stored, PinSlot *slot, PinPhase phase)
{
  PinQuestion *question = g_new0 (PinQuestion, 1);
  guint n;

  question->kind = kind;
  question->stored = g_strdup (stored);
  question->phase = phase;
  question->slot = slot;
  question->key = pin_answer_key (stored, slot ? slot->code : NULL, phase);
  question->procedure = e->procedure;
  question->stage = e->stage;
  question->settling = e->settling;
  question->given = peek (e, question->key);
  question->reached = !e->forecast || question->given;
  question->group = e->group;
  n = GPOINTER_TO_UINT (g_hash_table_lookup (e->visits, question->key));
  question->attempt = n + 1;
  g_hash_table_insert (e->visits, g_strdup (question->key), GUINT_TO_POINTER (n + 1));
  g_ptr_array_add (e->walk->questions, question);
  return question;
}

static gboolean
exhausted (Expansion *e)
{
  return e->walk->questions->len >= MOST_QUESTIONS || e->depth > MOST_DEPTH;
}

/* ---- taking off and refitting ------------------------------------------- */

static const PinAssembly *
assembly (Expansion *e, const char *id)
{
  if (g_hash_table_contains (e->lacking, id))
    return NULL;
  return pin_chassis_assembly (e->walk->car->chassis, id);
}

static void
owe (Expansion *e, const char *debt)
{
  if (!g_ptr_array_find_with_equal_func (e->owing, debt, g_str_equal, NULL))
    g_ptr_array_add (e->owing, (gpointer) debt);
}

static void
moved (Expansion *e, const PinAssembly *what, gboolean off)
{
  guint at;

  if (off)
    {
      g_ptr_array_add (e->off, what->id);
      g_hash_table_add (e->opened, what->id);
      for (guint i = 0; what->owes && what->owes[i]; i++)
        owe (e, what->owes[i]);
    }
  else if (g_ptr_array_find_with_equal_func (e->off, what->id, g_str_equal, &at))
    g_ptr_array_remove_index (e->off, at);
}

static void
ask_move (Expansion *e, const PinAssembly *what, gboolean off)
{
  g_autofree char *stored = g_strconcat (off ? "off/" : "on/", what->id, NULL);
  g_autofree char *key = pin_answer_key (stored, NULL, PIN_PHASE_ONLY);
  PinQuestion *question;

  if (peek (e, key) == NULL && !e->forecast)
    {
      enter_forecast (e);
      if (is_off (e, what->id) == off)
        return;
    }
  question = add_question (e, off ? PIN_QUESTION_OFF : PIN_QUESTION_ON, stored, NULL, PIN_PHASE_ONLY);
  question->assembly = what;
  if (question->given && question->given->outcome == PIN_OUTCOME_DOES_NOT_APPLY)
    g_hash_table_add (e->lacking, what->id);
  else if (question->given == NULL || question->given->outcome == PIN_OUTCOME_DONE)
    moved (e, what, off);
}

static void
take_off (Expansion *e, const char *id)
{
  const PinAssembly *what = assembly (e, id);

  if (what == NULL || is_off (e, id) || e->depth > MOST_DEPTH)
    return;
  e->depth++;
  for (guint i = 0; what->needs && what->needs[i]; i++)
    take_off (e, what->needs[i]);
  e->depth--;
  if (!is_off (e, id))
    ask_move (e, what, TRUE);
}

/* What needed this one off goes on first. */
static void
put_on (Expansion *e, const char *id)
{
  const PinAssembly *what = assembly (e, id);

  if (what == NULL || !is_off (e, id) || e->depth > MOST_DEPTH)
    return;
  e->depth++;
  for (guint i = e->off->len; i > 0; i--)
    {
      const PinAssembly *other;

      if (i > e->off->len)
        continue;
      other = assembly (e, g_ptr_array_index (e->off, i - 1));
      if (other && other->needs && g_strv_contains ((const char *const *) other->needs, id))
        put_on (e, other->id);
    }
  e->depth--;
  if (is_off (e, id))
    ask_move (e, what, FALSE);
}

static void
require (Expansion *e, char **off, char **on)
{
  for (guint i = 0; on && on[i]; i++)
    put_on (e, on[i]);
  for (guint i = 0; off && off[i]; i++)
    take_off (e, off[i]);
}

static void
refit_all (Expansion *e)
{
  for (guint guard = 0; e->off->len > 0 && guard < 1000; guard++)
    {
      const char *last = g_ptr_array_index (e->off, e->off->len - 1);
      guint before = e->walk->questions->len;

      if (assembly (e, last))
        put_on (e, last);
      if (e->walk->questions->len == before && e->off->len > 0 &&
          g_ptr_array_index (e->off, e->off->len - 1) == last)
        g_ptr_array_set_size (e->off, e->off->len - 1); /* the chassis type lost it */
      else if (e->off->len > 0 && is_off (e, last) && !e->forecast)
        g_ptr_array_remove_index (e->off, e->off->len - 1); /* answered, but not done */
    }
}

/* ---- steps -------------------------------------------------------------- */

static gboolean
in_class (const PinSlot *slot, char **where)
{
  return where == NULL || *where == NULL ||
         (slot->position && pin_position_is (slot->position, (const char *const *) where));
}

/* Positions that a step asks about; an element NULL is the vehicle itself. */
static GPtrArray *
positions_of (Expansion *e, const PinStep *step, const Scope *scope)
{
  GPtrArray *found = g_ptr_array_new ();
  gboolean whole = scope->slots && scope->slots->len && g_ptr_array_index (scope->slots, 0) == NULL;
  gboolean sent = scope->slots && (step->each == NULL || ((step->again || !scope->aside) && !whole));
  const GPtrArray *from = sent ? scope->slots : e->walk->car->slots;

  if (step->each == NULL && !(sent && scope->aside))
    {
      if (pin_fits_car (step->fits, e->walk->car))
        g_ptr_array_add (found, NULL);
      return found;
    }
  for (guint i = 0; i < from->len; i++)
    {
      PinSlot *slot = g_ptr_array_index (from, i);

      if (slot == NULL)
        {
          if (pin_fits_car (step->fits, e->walk->car))
            g_ptr_array_add (found, NULL);
        }
      else if (slot->part != 0 &&
               (step->each == NULL || g_str_equal (slot->kind, step->each)) &&
               (step->each == NULL || in_class (slot, step->where)) &&
               pin_fits_slot (step->fits, e->walk->car, slot))
        g_ptr_array_add (found, slot);
    }
  return found;
}

static gboolean
branch_matches (const PinBranch *branch, const PinAnswer *answer)
{
  if (branch->outcome != PIN_OUTCOME_NONE)
    return answer->outcome == branch->outcome;
  return branch->grades && answer->detail && answer->outcome != PIN_OUTCOME_NOT_CHECKED &&
         g_strv_contains ((const char *const *) branch->grades, answer->detail);
}

/* Where @answer sends its position: a target, or NULL to go on. */
static const char *
target_of (Expansion *e, const PinQuestion *question, const PinAnswer *answer)
{
  const PinStep *step = question->step;

  if (step->most && question->attempt >= step->most)
    return NULL;
  for (guint i = 0; i < step->branches->len; i++)
    {
      const PinBranch *branch = g_ptr_array_index (step->branches, i);
      g_autofree char *name = NULL;
      guint n;

      if (branch->go == NULL || !branch_matches (branch, answer))
        continue;
      name = g_strdup_printf ("%s/%s#%u@%s", question->procedure->id, pin_step_base (step), i,
                              question->slot ? question->slot->code : "");
      n = GPOINTER_TO_UINT (g_hash_table_lookup (e->taken, name));
      if (branch->most && n >= (guint) branch->most)
        return branch->otherwise;
      g_hash_table_insert (e->taken, g_steal_pointer (&name), GUINT_TO_POINTER (n + 1));
      return branch->go;
    }
  return NULL;
}

static void
note_settled (Expansion *e, const PinStep *step)
{
  for (guint i = e->owing->len; i > 0; i--)
    {
      const char *debt = g_ptr_array_index (e->owing, i - 1);
      gboolean still_off = FALSE;

      if (!pin_step_settles (e->walk->library, e->procedure, step, debt))
        continue;
      for (guint j = 0; j < e->off->len && !still_off; j++)
        {
          const PinAssembly *what = assembly (e, g_ptr_array_index (e->off, j));

          still_off = what && what->owes && g_strv_contains ((const char *const *) what->owes, debt);
        }
      if (!still_off)
        g_ptr_array_remove_index (e->owing, i - 1);
    }
}

static PinQuestion *
ask_step (Expansion *e, const PinStep *step, PinSlot *slot)
{
  g_autofree char *stored = g_strconcat (e->procedure->id, "/", pin_step_base (step), NULL);
  PinQuestion *question = add_question (e, PIN_QUESTION_STEP, stored, slot, pin_step_phase (step));

  question->step = step;
  for (guint i = 0; e->stage && e->stage->intact && e->stage->intact[i]; i++)
    if (g_hash_table_contains (e->opened, e->stage->intact[i]))
      question->opened_before = TRUE;
  if (step->owes && (question->given == NULL || question->given->outcome != PIN_OUTCOME_NOT_CHECKED) &&
      !step->owed_before_use)
    owe (e, step->owes);
  return question;
}

/* A state that the stage (or aside) needs may have been changed by an aside,
 * or be found changed at the point where the forecast begins. */
static void
ask_at (Expansion *e, const PinStep *step, PinSlot *slot, char **off, char **on, GPtrArray *asked)
{
  g_autofree char *stored = g_strconcat (e->procedure->id, "/", pin_step_base (step), NULL);
  g_autofree char *key = pin_answer_key (stored, slot ? slot->code : NULL, pin_step_phase (step));

  require (e, off, on);
  if (peek (e, key) == NULL && !e->forecast)
    {
      enter_forecast (e);
      require (e, off, on);
    }
  g_ptr_array_add (asked, ask_step (e, step, slot));
}

static void
run_step (Expansion *e, const PinStep *step, const Scope *scope, char **off, char **on,
          GPtrArray *items)
{
  g_autoptr (GPtrArray) slots = positions_of (e, step, scope);
  g_autoptr (GPtrArray) asked = g_ptr_array_new ();
  g_autoptr (GPtrArray) targets = g_ptr_array_new ();
  g_autoptr (GHashTable) sent = g_hash_table_new_full (g_str_hash, g_str_equal, NULL,
                                                       (GDestroyNotify) g_ptr_array_unref);

  for (guint i = 0; i < slots->len && !exhausted (e); i++)
    ask_at (e, step, g_ptr_array_index (slots, i), off, on, asked);
  if (asked->len)
    note_settled (e, step);
  for (guint i = 0; i < asked->len; i++)
    {
      const PinQuestion *question = g_ptr_array_index (asked, i);
      const char *target = question->given ? target_of (e, question, question->given) : NULL;
      GPtrArray *list = target ? g_hash_table_lookup (sent, target) : NULL;

      if (target && list == NULL)
        {
          g_hash_table_insert (sent, (gpointer) target, list = g_ptr_array_new ());
          g_ptr_array_add (targets, (gpointer) target);
        }
      if (list)
        g_ptr_array_add (list, question->slot);
    }
  for (guint i = 0; i < targets->len && !exhausted (e); i++)
    run_target (e, g_ptr_array_index (targets, i),
                g_hash_table_lookup (sent, g_ptr_array_index (targets, i)), items);
}

/* ---- ways and waits ----------------------------------------------------- */

static void
ask_wait (Expansion *e, const PinWait *wait, const Scope *scope)
{
  g_autofree char *stored = g_strconcat ("wait/", wait->id, NULL);
  g_autofree char *key = pin_answer_key (stored, NULL, PIN_PHASE_ONLY);
  PinQuestion *question;

  if (peek (e, key) == NULL && !e->forecast)
    enter_forecast (e);
  question = add_question (e, PIN_QUESTION_WAIT, stored, NULL, PIN_PHASE_ONLY);
  question->wait = wait;
  question->slots = scope->slots ? g_ptr_array_ref (scope->slots) : NULL;
}

static const PinWay *
find_way (const PinWays *ways, const char *id)
{
  for (guint i = 0; i < ways->ways->len; i++)
    {
      const PinWay *way = g_ptr_array_index (ways->ways, i);

      if (g_strcmp0 (way->id, id) == 0)
        return way;
    }
  return NULL;
}

/* The part's own spec decides, where it names one of the ways. */
static const PinWay *
way_by_spec (const PinWays *ways, const PinSlot *slot)
{
  const PinTrait *trait;

  if (slot == NULL || !g_str_has_prefix (ways->by, "spec:"))
    return NULL;
  trait = pin_slot_spec (slot, ways->by + strlen ("spec:"));
  return trait ? find_way (ways, trait->text) : NULL;
}

static GPtrArray *
slots_of_ways (Expansion *e, const PinWays *ways, const Scope *scope)
{
  GPtrArray *all = g_ptr_array_new ();

  for (guint i = 0; i < ways->ways->len; i++)
    {
      const PinWay *way = g_ptr_array_index (ways->ways, i);

      for (guint j = 0; j < way->steps->len; j++)
        {
          g_autoptr (GPtrArray) some = positions_of (e, g_ptr_array_index (way->steps, j), scope);

          for (guint k = 0; k < some->len; k++)
            if (!g_ptr_array_find (all, g_ptr_array_index (some, k), NULL))
              g_ptr_array_add (all, g_ptr_array_index (some, k));
        }
    }
  return all;
}

static const PinWay *
ask_way (Expansion *e, const PinWays *ways, GPtrArray *slots)
{
  g_autofree char *stored = g_strconcat ("way/", ways->id, NULL);
  g_autofree char *key = pin_answer_key (stored, NULL, PIN_PHASE_ONLY);
  PinQuestion *question;

  if (peek (e, key) == NULL && !e->forecast)
    enter_forecast (e);
  question = add_question (e, PIN_QUESTION_WAY, stored, NULL, PIN_PHASE_ONLY);
  question->ways = ways;
  question->slots = g_ptr_array_ref (slots);
  return question->given ? find_way (ways, question->given->detail) : NULL;
}

static void
run_ways (Expansion *e, const PinWays *ways, const Scope *scope, char **off, char **on,
          GPtrArray *items)
{
  g_autoptr (GPtrArray) slots = slots_of_ways (e, ways, scope);
  g_autoptr (GPtrArray) open = g_ptr_array_new ();
  g_autofree const PinWay **chosen = g_new0 (const PinWay *, slots->len + 1);
  g_autofree char *key = g_strconcat ("way/", ways->id, NULL);
  const PinWay *answer = NULL;

  for (guint i = 0; i < slots->len; i++)
    if ((chosen[i] = way_by_spec (ways, g_ptr_array_index (slots, i))) == NULL)
      g_ptr_array_add (open, g_ptr_array_index (slots, i));
  /* A choice that this walk asked for stays in the list once it is kept as a
   * spec, so that the questions before and after keep their places. */
  if (open->len || (slots->len && g_hash_table_contains (e->answers, key)))
    {
      require (e, off, on);
      answer = ask_way (e, ways, open->len ? open : slots);
    }
  for (guint w = 0; w < ways->ways->len; w++)
    {
      const PinWay *way = g_ptr_array_index (ways->ways, w);
      Scope inner = { .slots = g_ptr_array_new (), .aside = FALSE };

      for (guint i = 0; i < slots->len; i++)
        {
          const PinWay *mine = chosen[i] ? chosen[i] : answer;

          if (mine == way || (mine == NULL && w == 0))
            g_ptr_array_add (inner.slots, g_ptr_array_index (slots, i));
        }
      for (guint i = 0; i < way->steps->len && inner.slots->len; i++)
        run_step (e, g_ptr_array_index (way->steps, i), &inner, off, on, items);
      g_ptr_array_unref (inner.slots);
    }
}

/* ---- stages ------------------------------------------------------------- */

static void
run_items (Expansion *e, GPtrArray *items, guint from, guint to, const Scope *scope,
           char **off, char **on)
{
  for (guint i = from; i < to && !exhausted (e); i++)
    {
      const PinItem *item = g_ptr_array_index (items, i);

      switch (item->kind)
        {
        case PIN_ITEM_STEP:
          run_step (e, item->step, scope, off, on, items);
          break;
        case PIN_ITEM_WAIT:
          ask_wait (e, item->wait, scope);
          break;
        case PIN_ITEM_WAYS:
          run_ways (e, item->ways, scope, off, on, items);
          break;
        }
    }
}

static int
item_of_step (GPtrArray *items, const char *step)
{
  for (guint i = 0; items && i < items->len; i++)
    {
      const PinItem *item = g_ptr_array_index (items, i);

      if (item->kind == PIN_ITEM_STEP && g_str_equal (item->step->id, step))
        return (int) i;
    }
  return -1;
}

static guint
last_asked_item (Expansion *e, GPtrArray *items)
{
  const PinQuestion *last = g_ptr_array_index (e->walk->questions, e->walk->questions->len - 1);

  for (guint i = 0; i < items->len; i++)
    {
      const PinItem *item = g_ptr_array_index (items, i);

      if (item->kind == PIN_ITEM_STEP && item->step == last->step)
        return i;
    }
  return items->len - 1;
}

/* An aside of the stage, or a step further up that is done again for the
 * positions sent, through to where they were sent from. */
static void
run_target (Expansion *e, const char *target, GPtrArray *slots, GPtrArray *items)
{
  const PinAside *aside = e->stage ? pin_stage_aside (e->stage, target) : NULL;
  Scope scope = { .slots = slots, .aside = aside != NULL };
  int at;

  if (e->depth >= MOST_DEPTH)
    return;
  e->depth++;
  if (aside)
    {
      run_items (e, aside->items, 0, aside->items->len, &scope,
                 aside->off && *aside->off ? aside->off : e->stage->off,
                 aside->on && *aside->on ? aside->on : NULL);
      if (aside->go)
        run_target (e, aside->go, slots, items);
    }
  else if ((at = item_of_step (items, target)) >= 0)
    {
      guint to = last_asked_item (e, items);

      run_items (e, items, at, MAX (to, (guint) at) + 1, &scope, e->stage->off, e->stage->on);
    }
  else if (e->stage && (at = item_of_step (e->stage->items, target)) >= 0)
    {
      scope.aside = FALSE;
      run_items (e, e->stage->items, at, at + 1, &scope, e->stage->off, e->stage->on);
    }
  e->depth--;
}

/* A stage whose every question is about parts that the car lacks takes
 * nothing apart. */
static gboolean
asks_anything (Expansion *e, const PinStage *stage)
{
  const Scope all = { NULL, FALSE };

  for (guint i = 0; i < stage->items->len; i++)
    {
      const PinItem *item = g_ptr_array_index (stage->items, i);
      g_autoptr (GPtrArray) slots = NULL;

      if (item->kind == PIN_ITEM_STEP)
        slots = positions_of (e, item->step, &all);
      else if (item->kind == PIN_ITEM_WAYS)
        slots = slots_of_ways (e, item->ways, &all);
      if (slots && slots->len)
        return TRUE;
    }
  return FALSE;
}

static void
begin_group (Expansion *e, const char *title)
{
  PinWalkGroup *group = g_new0 (PinWalkGroup, 1);

  group->title = g_strdup (title);
  group->first = (int) e->walk->questions->len;
  g_ptr_array_add (e->walk->groups, group);
  e->group = (int) e->walk->groups->len - 1;
}

static void
end_group (Expansion *e)
{
  PinWalkGroup *group = g_ptr_array_index (e->walk->groups, e->group);

  group->n = (int) e->walk->questions->len - group->first;
  if (group->n == 0)
    g_ptr_array_set_size (e->walk->groups, e->group);
}

static void
run_stage (Expansion *e, const PinStageRef *ref)
{
  const Scope all = { NULL, FALSE };

  e->procedure = ref->procedure;
  e->stage = ref->stage;
  if (!asks_anything (e, ref->stage))
    return;
  begin_group (e, ref->stage->title ? ref->stage->title : ref->procedure->title);
  run_items (e, ref->stage->items, 0, ref->stage->items->len, &all, ref->stage->off, ref->stage->on);
  end_group (e);
}

/* ---- the end: what is owed, and everything back on ----------------------- */

static gboolean
payable_here (Expansion *e, const char *debt)
{
  const PinDebt *kind = pin_library_debt (e->walk->library, debt);

  return kind && kind->payable == PIN_PAYABLE_NOW;
}

static void
settle (Expansion *e, const char *debt)
{
  const Scope all = { NULL, FALSE };
  PinProcedure *procedure = NULL;
  const PinStage *stage = NULL;
  const PinStep *step = pin_settling_step (e->walk, debt, &procedure, &stage);

  if (step == NULL)
    return;
  for (guint i = 0; i < e->walk->car->chassis->assemblies->len; i++)
    {
      const PinAssembly *what = g_ptr_array_index (e->walk->car->chassis->assemblies, i);

      if (what->owes && g_strv_contains ((const char *const *) what->owes, debt))
        put_on (e, what->id);
    }
  e->procedure = procedure;
  e->stage = stage;
  e->settling = TRUE;
  run_step (e, step, &all, stage->off, stage->on, stage->items);
  e->settling = FALSE;
  e->procedure = NULL;
  e->stage = NULL;
}

/* Those first that want something off: the mesh before the cover goes on. */
static int
by_what_is_off (gconstpointer a, gconstpointer b, gpointer walk)
{
  const PinStage *x = NULL, *y = NULL;

  pin_settling_step (walk, *(const char *const *) a, NULL, &x);
  pin_settling_step (walk, *(const char *const *) b, NULL, &y);
  return (y && y->off && *y->off) - (x && x->off && *x->off);
}

static void
finish (Expansion *e)
{
  e->procedure = NULL;
  e->stage = NULL;
  begin_group (e, _("Put back and settle"));
  for (int round = 0; round < MOST_ROUNDS; round++)
    {
      g_autoptr (GPtrArray) now = g_ptr_array_new ();

      for (guint i = 0; i < e->owing->len; i++)
        if (payable_here (e, g_ptr_array_index (e->owing, i)) ||
            g_strv_contains ((const char *const *) e->walk->plan->debts, g_ptr_array_index (e->owing, i)))
          g_ptr_array_add (now, g_ptr_array_index (e->owing, i));
      g_ptr_array_sort_with_data (now, by_what_is_off, e->walk);
      g_ptr_array_set_size (e->owing, 0);
      for (guint i = 0; i < now->len; i++)
        settle (e, g_ptr_array_index (now, i));
      refit_all (e);
      if (e->owing->len == 0)
        break;
    }
  end_group (e);
}

static void
replay_before (Expansion *e)
{
  const GPtrArray *moves = e->walk->car->rows->tray_answers;

  for (guint i = 0; i < moves->len; i++)
    {
      const PinAnswer *answer = g_ptr_array_index (moves, i);
      const PinAssembly *what = assembly (e, strchr (answer->step, '/') + 1);

      if (answer->inspection == e->walk->rows->inspection->id || what == NULL ||
          answer->outcome != PIN_OUTCOME_DONE || answer->id > e->walk->rows->inspection->id)
        continue;
      if (is_off (e, what->id) != g_str_has_prefix (answer->step, "off/"))
        moved (e, what, !is_off (e, what->id));
    }
  /* What an earlier walk opened and closed again is as found for this one. */
  g_hash_table_remove_all (e->opened);
  for (guint i = 0; i < e->off->len; i++)
    g_hash_table_add (e->opened, g_ptr_array_index (e->off, i));
}

/* Fills questions, groups and next of @self from its plan and answers. */
void
pin_walk_expand (PinWalk *self)
{
  Expansion e = { .walk = self };

  e.answers = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_ptr_array_unref);
  e.visits = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  e.taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  e.opened = g_hash_table_new (g_str_hash, g_str_equal);
  e.lacking = g_hash_table_new (g_str_hash, g_str_equal);
  e.off = g_ptr_array_new ();
  e.owing = g_ptr_array_new ();
  g_ptr_array_set_size (self->questions, 0);
  g_ptr_array_set_size (self->groups, 0);
  index_answers (&e);
  replay_before (&e);
  g_ptr_array_set_size (e.owing, 0);
  for (guint i = 0; self->plan->debts && self->plan->debts[i]; i++)
    owe (&e, self->plan->debts[i]);
  for (guint i = 0; i < self->order->len && !exhausted (&e); i++)
    run_stage (&e, g_ptr_array_index (self->order, i));
  finish (&e);

  self->next = -1;
  for (guint i = 0; i < self->questions->len && self->next < 0; i++)
    if (((PinQuestion *) g_ptr_array_index (self->questions, i))->given == NULL)
      self->next = (int) i;
  if (self->next >= 0)
    ((PinQuestion *) g_ptr_array_index (self->questions, self->next))->reached = TRUE;
  g_ptr_array_unref (e.owing);
  g_ptr_array_unref (e.off);
  g_hash_table_unref (e.lacking);
  g_hash_table_unref (e.opened);
  g_hash_table_unref (e.taken);
  g_hash_table_unref (e.visits);
  g_hash_table_unref (e.answers);
}
