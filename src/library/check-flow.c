#include <glib/gi18n.h>

#include "library/check.h"
#include "library/suggest.h"

/* Where a walk can go inside one stage, as a graph of points: each step, wait
 * and choice of ways is a point; so are the end of each aside, where its go is
 * taken, and its return, which leads back behind every step that sends there.
 * Branches with a bound can also be passed by. */

typedef struct
{
  const PinStep *step;          /* or NULL */
  guint next;                   /* the point behind it */
  GArray *edges;                /* guint */
  gboolean top;                 /* stands in the stage, not in an aside */
  gboolean reached, leaves;     /* from the start; to the way out */
} Point;

typedef struct
{
  PinCheck *check;
  const PinStage *stage;
  GArray *points;               /* Point */
  GHashTable *steps;            /* step id -> point + 1, those of the stage itself */
  GHashTable *inside;           /* step id -> the aside it stands in */
  GHashTable *asides;           /* aside id -> index + 1, of two with one id the first */
  GHashTable *numbers;          /* PinAside* -> index + 1 */
  guint *starts, *ends, *returns; /* points of the asides */
} Flow;

#define WAY_OUT 0

static Point *
point (Flow *flow, guint i)
{
  return &g_array_index (flow->points, Point, i);
}

static guint
add_point (Flow *flow, const PinStep *step, guint next, gboolean top)
{
  Point fresh = { step, next, g_array_new (FALSE, FALSE, sizeof (guint)), top, FALSE, FALSE };

  g_array_append_val (flow->points, fresh);
  return flow->points->len - 1;
}

static void
clear_point (Point *self)
{
  g_array_unref (self->edges);
}

static void
add_edge (Flow *flow, guint from, guint to)
{
  g_array_append_val (point (flow, from)->edges, to);
}

/* ==== Points ==== */

static guint
add_step (Flow *flow, const PinStep *step, guint next, const PinAside *aside)
{
  guint i = add_point (flow, step, next, aside == NULL);

  if (aside == NULL)
    g_hash_table_insert (flow->steps, step->id, GUINT_TO_POINTER (i + 1));
  else
    g_hash_table_insert (flow->inside, step->id, (gpointer) aside);
  return i;
}

static guint
add_ways (Flow *flow, const PinWays *ways, guint next)
{
  guint choice = add_point (flow, NULL, next, TRUE);

  for (guint i = 0; i < ways->ways->len; i++)
    {
      const PinWay *way = ways->ways->pdata[i];
      guint first = next;

      for (guint j = way->steps->len; j-- > 0;)
        first = add_step (flow, way->steps->pdata[j], first, NULL);
      add_edge (flow, choice, first);
    }
  return choice;
}

/* Points for @items, which lead on to @next; returns the first. */
static guint
add_items (Flow *flow, const GPtrArray *items, guint next, const PinAside *aside)
{
  for (guint i = items->len; i-- > 0;)
    {
      const PinItem *item = items->pdata[i];

      if (item->kind == PIN_ITEM_STEP)
        next = add_step (flow, item->step, next, aside);
      else if (item->kind == PIN_ITEM_WAYS)
        next = add_ways (flow, item->ways, next);
      else
        {
          guint wait = add_point (flow, NULL, next, aside == NULL);

          add_edge (flow, wait, next);
          next = wait;
        }
    }
  return next;
}

static void
add_asides (Flow *flow)
{
  const GPtrArray *asides = flow->stage->asides;

  flow->starts = g_new0 (guint, asides->len + 1);
  flow->ends = g_new0 (guint, asides->len + 1);
  flow->returns = g_new0 (guint, asides->len + 1);
  for (guint i = 0; i < asides->len; i++)
    {
      const PinAside *aside = asides->pdata[i];

      flow->ends[i] = add_point (flow, NULL, WAY_OUT, FALSE);
      flow->returns[i] = add_point (flow, NULL, WAY_OUT, FALSE);
      flow->starts[i] = add_items (flow, aside->items, flow->ends[i], aside);
      g_hash_table_insert (flow->numbers, (gpointer) aside, GUINT_TO_POINTER (i + 1));
      if (!g_hash_table_contains (flow->asides, aside->id))
        g_hash_table_insert (flow->asides, aside->id, GUINT_TO_POINTER (i + 1));
    }
}

/* ==== Targets ==== */

static void
remark_target (Flow *flow, int line, const char *target)
{
  const PinAside *aside = g_hash_table_lookup (flow->inside, target);
  const PinStage *other = NULL;
  g_autofree char *right = NULL;

  if (aside != NULL)
    {
      pin_remark (flow->check->remarks, line,
                  _("“%s” stands inside an aside, go to the whole aside, “%s”"), target, aside->id);
      return;
    }
  if (pin_procedure_step (flow->check->procedure, target, &other) != NULL)
    {
      pin_remark (flow->check->remarks, line,
                  _("“%s” stands in stage “%s”, and a branch stays in its own: name an aside or a step of “%s”"),
                  target, other->id, flow->stage->id);
      return;
    }
  right = pin_suggest_key (target, flow->asides);
  if (right == NULL || !g_str_has_prefix (right, "write"))
    {
      g_autofree char *step = pin_suggest_key (target, flow->steps);

      if (step != NULL && (right == NULL || g_str_has_prefix (step, "write")))
        {
          g_free (right);
          right = g_steal_pointer (&step);
        }
    }
  pin_remark (flow->check->remarks, line, _("“%s” leads nowhere, %s"), target,
              right ? right : _("name an aside or an earlier step of this stage"));
}

/* The aside's number + 1, or 0. */
static guint
aside_number (Flow *flow, const char *id)
{
  return GPOINTER_TO_UINT (g_hash_table_lookup (flow->asides, id));
}

/* Where a branch of @from to @target leads; what comes back from there goes on
 * at @back.  FALSE after a remark. */
static gboolean
add_jump (Flow *flow, guint from, const char *target, guint back, int line)
{
  guint aside = aside_number (flow, target);
  guint step = GPOINTER_TO_UINT (g_hash_table_lookup (flow->steps, target));

  if (aside > 0)
    {
      add_edge (flow, from, flow->starts[aside - 1]);
      add_edge (flow, flow->returns[aside - 1], back);
      return TRUE;
    }
  if (step == 0)
    {
      remark_target (flow, line, target);
      return FALSE;
    }
  /* Points are made from the last to the first. */
  if (point (flow, from)->top && step - 1 < from)
    pin_remark (flow->check->remarks, line,
                _("“%s” stands further down, and going there would skip what is between; use an aside"),
                target);
  add_edge (flow, from, step - 1);
  return TRUE;
}

/* ==== Branches ==== */

static gboolean
has_grade (const PinStep *step, const char *id)
{
  for (guint i = 0; i < step->grades->len; i++)
    if (g_str_equal (((PinGrade *) step->grades->pdata[i])->id, id))
      return TRUE;
  return FALSE;
}

static void
check_branch_grades (Flow *flow, const PinStep *step, const PinBranch *branch)
{
  for (int i = 0; branch->grades[i] != NULL; i++)
    {
      g_autoptr (GHashTable) grades = g_hash_table_new (g_str_hash, g_str_equal);
      g_autofree char *right = NULL;

      if (has_grade (step, branch->grades[i]))
        continue;
      for (guint j = 0; j < step->grades->len; j++)
        g_hash_table_add (grades, ((PinGrade *) step->grades->pdata[j])->id);
      right = pin_suggest_key (branch->grades[i], grades);
      pin_remark (flow->check->remarks, branch->line, _("“%s” has no grade “%s”, %s"), step->id,
                  branch->grades[i], right ? right : _("branch on its outcome"));
    }
}

static gboolean
has_outcome (const PinStep *step, PinOutcome outcome)
{
  if (step->answer == PIN_ANSWER_WORK)
    return FALSE;
  if (step->answer != PIN_ANSWER_CHOOSE)
    return TRUE;
  for (guint i = 0; i < step->grades->len; i++)
    if (((PinGrade *) step->grades->pdata[i])->outcome == outcome)
      return TRUE;
  return FALSE;
}

static void
check_branch (Flow *flow, const PinStep *step, const PinBranch *branch)
{
  check_branch_grades (flow, step, branch);
  if (branch->outcome != PIN_OUTCOME_NONE && !has_outcome (step, branch->outcome))
    pin_remark (flow->check->remarks, branch->line, _("no answer to “%s” is a %s, so this is never taken: "
                "take it out or let an answer be one"), step->id, pin_outcome_title (branch->outcome));
  if (branch->otherwise != NULL && branch->most == 0)
    pin_remark (flow->check->remarks, branch->line,
                _("else says where to go after most times, and most is not given: add most=\"…\""));
}

static gboolean
branch_takes (const PinBranch *branch, const char *grade, PinOutcome outcome)
{
  if (*branch->grades != NULL)
    return grade != NULL && g_strv_contains ((const char *const *) branch->grades, grade);
  return branch->outcome == outcome;
}

/* The first branch with a go that an answer takes, or NULL: it passes on. */
static const PinBranch *
branch_for (const PinStep *step, const char *grade, PinOutcome outcome)
{
  for (guint i = 0; i < step->branches->len; i++)
    {
      const PinBranch *branch = step->branches->pdata[i];

      if (branch->go != NULL && branch_takes (branch, grade, outcome))
        return branch;
    }
  return NULL;
}

static void
note_answer (GHashTable *taken, const PinStep *step, const char *grade, PinOutcome outcome,
             gboolean *passes)
{
  const PinBranch *branch = branch_for (step, grade, outcome);

  if (branch == NULL)
    *passes = TRUE;
  else
    g_hash_table_add (taken, (gpointer) branch);
}

/* Which branches some answer takes, and whether some answer passes them all. */
static gboolean
collect_answers (GHashTable *taken, const PinStep *step)
{
  gboolean passes = step->answer == PIN_ANSWER_WORK;

  for (guint i = 0; i < step->grades->len; i++)
    {
      const PinGrade *grade = step->grades->pdata[i];

      note_answer (taken, step, grade->id, grade->outcome, &passes);
    }
  if (step->answer != PIN_ANSWER_CHOOSE && step->answer != PIN_ANSWER_WORK)
    for (PinOutcome o = PIN_OUTCOME_PASS; o <= PIN_OUTCOME_FAIL; o++)
      note_answer (taken, step, NULL, o, &passes);
  return passes;
}

static void
link_step (Flow *flow, guint i)
{
  const PinStep *step = point (flow, i)->step;
  guint next = point (flow, i)->next;
  g_autoptr (GHashTable) taken = g_hash_table_new (NULL, NULL);
  gboolean passes = collect_answers (taken, step) || step->most > 0;

  for (guint j = 0; j < step->branches->len; j++)
    {
      const PinBranch *branch = step->branches->pdata[j];
      gboolean whole = TRUE;

      check_branch (flow, step, branch);
      if (branch->otherwise != NULL)
        whole = add_jump (flow, i, branch->otherwise, next, branch->line);
      if (branch->go == NULL)
        continue;
      if (!add_jump (flow, i, branch->go, next, branch->line))
        whole = FALSE;
      /* What is bounded ends; what leads nowhere has been told of. */
      if (g_hash_table_contains (taken, branch) && ((branch->most > 0 && branch->otherwise == NULL) || !whole))
        passes = TRUE;
    }
  if (passes)
    add_edge (flow, i, next);
}

static void
link_asides (Flow *flow)
{
  for (guint i = 0; i < flow->stage->asides->len; i++)
    {
      const PinAside *aside = flow->stage->asides->pdata[i];
      guint on = aside->go != NULL ? aside_number (flow, aside->go) : 0;

      if (aside->go == NULL)
        add_edge (flow, flow->ends[i], flow->returns[i]);
      else if (on > 0)
        {
          /* The next aside comes back to where this one would have. */
          add_edge (flow, flow->ends[i], flow->starts[on - 1]);
          add_edge (flow, flow->returns[on - 1], flow->returns[i]);
        }
      else if (!add_jump (flow, flow->ends[i], aside->go, WAY_OUT, aside->line))
        add_edge (flow, flow->ends[i], flow->returns[i]);
    }
}

/* ==== What can be reached ==== */

static void
spread (GPtrArray *edges, guint from, gsize flag, Flow *flow)
{
  g_autoptr (GArray) stack = g_array_new (FALSE, FALSE, sizeof (guint));

  g_array_append_val (stack, from);
  while (stack->len > 0)
    {
      guint i = g_array_index (stack, guint, stack->len - 1);
      gboolean *seen = G_STRUCT_MEMBER_P (point (flow, i), flag);
      GArray *out = edges->pdata[i];

      g_array_set_size (stack, stack->len - 1);
      if (*seen)
        continue;
      *seen = TRUE;
      g_array_append_vals (stack, out->data, out->len);
    }
}

static void
mark_reached (Flow *flow, guint start)
{
  g_autoptr (GPtrArray) forward = g_ptr_array_new ();
  g_autoptr (GPtrArray) backward = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);

  for (guint i = 0; i < flow->points->len; i++)
    {
      g_ptr_array_add (forward, point (flow, i)->edges);
      g_ptr_array_add (backward, g_array_new (FALSE, FALSE, sizeof (guint)));
    }
  for (guint i = 0; i < flow->points->len; i++)
    for (guint j = 0; j < point (flow, i)->edges->len; j++)
      g_array_append_val (backward->pdata[g_array_index (point (flow, i)->edges, guint, j)], i);
  spread (forward, start, G_STRUCT_OFFSET (Point, reached), flow);
  spread (backward, WAY_OUT, G_STRUCT_OFFSET (Point, leaves), flow);
}

static void
remark_unreached (Flow *flow)
{
  for (guint i = 0; i < flow->stage->asides->len; i++)
    {
      const PinAside *aside = flow->stage->asides->pdata[i];

      if (!point (flow, flow->starts[i])->reached)
        pin_remark (flow->check->remarks, aside->line,
                    _("nothing sends to the aside “%s”, let a branch go there or take it out"), aside->id);
    }
  for (guint i = 0; i < flow->points->len; i++)
    {
      const Point *p = point (flow, i);
      const PinAside *aside = p->step ? g_hash_table_lookup (flow->inside, p->step->id) : NULL;
      guint number = aside ? GPOINTER_TO_UINT (g_hash_table_lookup (flow->numbers, aside)) : 0;

      if (p->step == NULL || p->reached || (number > 0 && !point (flow, flow->starts[number - 1])->reached))
        continue;
      pin_remark (flow->check->remarks, p->step->line,
                  _("nobody can reach “%s”, as every answer before it leads elsewhere; let one lead on"),
                  p->step->id);
    }
}

/* One remark for a stage: a loop makes all its points lack a way out. */
static void
remark_endless (Flow *flow)
{
  const PinStep *first = NULL;

  for (guint i = 0; i < flow->points->len; i++)
    {
      const Point *p = point (flow, i);

      if (p->step != NULL && p->reached && !p->leaves && (first == NULL || p->step->line < first->line))
        first = p->step;
    }
  if (first != NULL)
    pin_remark (flow->check->remarks, first->line,
                _("no answer leads out of the loop at “%s”, bound a branch with most or let an answer pass"),
                first->id);
}

/* Inside a stage, every branch leads somewhere, every step can be reached and
 * every loop can be left. */
void
pin_check_flow (PinCheck *check, const PinStage *stage)
{
  Flow flow = { check, stage };
  guint start;

  flow.points = g_array_new (FALSE, FALSE, sizeof (Point));
  g_array_set_clear_func (flow.points, (GDestroyNotify) clear_point);
  flow.steps = g_hash_table_new (g_str_hash, g_str_equal);
  flow.inside = g_hash_table_new (g_str_hash, g_str_equal);
  flow.asides = g_hash_table_new (g_str_hash, g_str_equal);
  flow.numbers = g_hash_table_new (NULL, NULL);
  add_point (&flow, NULL, WAY_OUT, TRUE);
  start = add_items (&flow, stage->items, WAY_OUT, NULL);
  add_asides (&flow);
  for (guint i = 0; i < flow.points->len; i++)
    if (point (&flow, i)->step != NULL)
      link_step (&flow, i);
  link_asides (&flow);
  mark_reached (&flow, start);
  remark_unreached (&flow);
  remark_endless (&flow);
  g_array_unref (flow.points);
  g_hash_table_unref (flow.steps);
  g_hash_table_unref (flow.inside);
  g_hash_table_unref (flow.asides);
  g_hash_table_unref (flow.numbers);
  g_free (flow.starts);
  g_free (flow.ends);
  g_free (flow.returns);
}
