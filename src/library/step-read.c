#include "library/step-read.h"

#include <glib/gi18n.h>
#include <math.h>

#include "library/suggest.h"
#include "library/xml-node.h"

/* What a step asks is copied into each that asks it again: a bound keeps a
 * small file from growing large in memory. */
#define MOST_REPEATS 20

/* Of grades, of limits and of branches of one step. */
#define MOST_OF_A_STEP 64

/* ==== Freeing ==== */

static void
grade_free (PinGrade *self)
{
  g_free (self->id);
  g_free (self->text);
  g_free (self);
}

static void
ask_free (PinAsk *self)
{
  g_free (self->spec);
  g_free (self);
}

static void
uses_free (PinUses *self)
{
  g_free (self->supply);
  g_free (self->unit);
  g_free (self->part);
  g_free (self);
}

static void
branch_free (PinBranch *self)
{
  g_strfreev (self->grades);
  g_free (self->go);
  g_free (self->opens);
  g_free (self->otherwise);
  g_free (self);
}

void
pin_step_free (PinStep *self)
{
  g_free (self->id);
  g_free (self->title);
  g_free (self->each);
  g_strfreev (self->where);
  g_free (self->again);
  g_free (self->owes);
  g_free (self->settles);
  g_clear_pointer (&self->fits, pin_fits_free);
  g_ptr_array_unref (self->hazards);
  g_ptr_array_unref (self->asks);
  g_free (self->do_text);
  g_free (self->look_for);
  g_free (self->drawing);
  g_ptr_array_unref (self->uses);
  g_ptr_array_unref (self->grades);
  g_clear_pointer (&self->measure, pin_measure_free);
  g_free (self->count_of);
  g_strfreev (self->deeds);
  g_ptr_array_unref (self->branches);
  g_free (self);
}

/* ==== Pieces ==== */

static PinOutcome
read_outcome (const xmlNode *node)
{
  g_autofree char *word = pin_node_attr (node, "outcome");
  PinOutcome outcome = PIN_OUTCOME_NONE;

  if (word != NULL)
    pin_outcome_parse (word, &outcome);
  return outcome;
}

static PinGrade *
read_grade (const xmlNode *node)
{
  PinGrade *grade = g_new0 (PinGrade, 1);

  grade->id = pin_node_attr (node, "id");
  grade->outcome = read_outcome (node);
  grade->unsafe = pin_node_has (node, "unsafe");
  grade->text = pin_node_text (node);
  return grade;
}

static PinBranch *
read_branch (const xmlNode *node)
{
  PinBranch *branch = g_new0 (PinBranch, 1);

  branch->grades = pin_node_list (node, "grade");
  branch->outcome = read_outcome (node);
  branch->go = pin_node_attr (node, "go");
  branch->opens = pin_node_attr (node, "opens");
  branch->most = pin_node_integer (node, "most", 0);
  branch->otherwise = pin_node_attr (node, "else");
  branch->line = pin_node_line (node, NULL);
  return branch;
}

static PinUses *
read_uses (const xmlNode *node)
{
  PinUses *uses = g_new0 (PinUses, 1);
  g_autofree char *amount = pin_node_attr (node, "amount");
  char *rest = NULL;

  uses->supply = pin_node_attr (node, "supply");
  uses->part = pin_node_attr (node, "part");
  uses->amount = amount != NULL ? g_ascii_strtod (amount, &rest) : 1;
  uses->unit = g_strchug (g_strdup (rest ? rest : ""));
  return uses;
}

static PinAsk *
read_ask (const xmlNode *node, PinRemarks *remarks)
{
  PinAsk *ask = g_new0 (PinAsk, 1);

  ask->spec = pin_node_attr (node, "spec");
  ask->unit = pin_unit_read (node, "unit", remarks);
  return ask;
}

static PinPhase
read_phase (const xmlNode *node)
{
  g_autofree char *word = pin_node_attr (node, "phase");

  if (word == NULL)
    return PIN_PHASE_ONLY;
  return g_str_equal (word, "as-found") ? PIN_PHASE_FOUND : PIN_PHASE_LEFT;
}

static char **
read_deeds (const xmlNode *step)
{
  const xmlNode *deeds = pin_node_first (step, "deeds");
  g_autoptr (GStrvBuilder) ids = g_strv_builder_new ();

  if (deeds != NULL)
    for (xmlNode *n = pin_node_first (deeds, "deed"); n; n = pin_node_next (n, "deed"))
      {
        g_autofree char *id = pin_node_attr (n, "id");

        g_strv_builder_add (ids, id);
      }
  return g_strv_builder_end (ids);
}

/* ==== Asking again ==== */

static void
remark_again (const xmlNode *node, const char *again, PinSteps *steps)
{
  g_autofree char *right = pin_suggest_key (again, steps->nodes);

  pin_remark (steps->remarks, pin_node_line (node, "again"), _("there is no step “%s” to ask again, %s"),
              again, right ? right : _("name a step of this file"));
}

static gboolean
is_asked_too_often (const xmlNode *origin, PinSteps *steps)
{
  guint times = GPOINTER_TO_UINT (g_hash_table_lookup (steps->repeats, origin)) + 1;

  g_hash_table_insert (steps->repeats, (gpointer) origin, GUINT_TO_POINTER (times));
  return times > MOST_REPEATS;
}

/* The step that is asked again, or @node itself if none is.  A step that asks
 * again is not asked again itself, so there are no chains and no circles. */
static const xmlNode *
origin_of (const xmlNode *node, PinSteps *steps)
{
  g_autofree char *again = pin_node_attr (node, "again");
  const xmlNode *origin = again != NULL ? g_hash_table_lookup (steps->nodes, again) : NULL;
  g_autofree char *first = origin != NULL ? pin_node_attr (origin, "again") : NULL;
  int line = pin_node_line (node, "again");

  if (again == NULL)
    return node;
  if (origin == NULL)
    remark_again (node, again, steps);
  else if (origin == node)
    pin_remark (steps->remarks, line, _("the step asks itself again, name the step that asks first"));
  else if (first != NULL)
    pin_remark (steps->remarks, line, _("“%s” itself asks “%s” again, name that step"), again, first);
  else if (is_asked_too_often (origin, steps))
    pin_remark (steps->remarks, line, _("“%s” is asked again more than %d times, use most=\"…\" instead"),
                again, MOST_REPEATS);
  else
    return origin;
  return node;
}

/* @node if it has that child itself, else the step it asks again. */
static const xmlNode *
owner_of (const xmlNode *node, const xmlNode *origin, const char *child)
{
  return pin_node_first (node, child) != NULL ? node : origin;
}

static const xmlNode *
answer_owner (const xmlNode *node, const xmlNode *origin)
{
  gboolean own = pin_node_first (node, "choose") || pin_node_first (node, "measure") ||
                 pin_node_first (node, "count");

  return own ? node : origin;
}

/* ==== Steps ==== */

static void
read_scope (PinStep *step, const xmlNode *node, const xmlNode *origin)
{
  const xmlNode *from = pin_node_has (node, "each") ? node : origin;

  step->each = pin_node_attr (from, "each");
  step->where = pin_node_list (pin_node_has (node, "where") ? node : from, "where");
  step->pair = pin_node_has (node, "pair") || pin_node_has (from, "pair");
}

static void
read_answer (PinStep *step, const xmlNode *owner, PinRemarks *remarks)
{
  const xmlNode *choose = pin_node_first (owner, "choose");
  const xmlNode *measure = pin_node_first (owner, "measure");
  const xmlNode *count = pin_node_first (owner, "count");

  if (choose != NULL)
    for (xmlNode *n = pin_node_first (choose, "grade"); n; n = pin_node_next (n, "grade"))
      g_ptr_array_add (step->grades, read_grade (n));
  if (measure != NULL)
    step->measure = pin_measure_read (measure, remarks);
  if (count != NULL)
    step->count_of = pin_node_attr (count, "of");
  step->answer = choose    ? PIN_ANSWER_CHOOSE
                 : measure ? PIN_ANSWER_MEASURE
                 : count   ? PIN_ANSWER_COUNT
                 : *step->deeds ? PIN_ANSWER_WORK
                                : PIN_ANSWER_PLAIN;
}

static void
read_words (PinStep *step, const xmlNode *node, const xmlNode *origin)
{
  step->title = pin_node_child (owner_of (node, origin, "title"), "title");
  step->do_text = pin_node_child (owner_of (node, origin, "do"), "do");
  step->look_for = pin_node_child (pin_node_first (node, "do") ? node
                                   : owner_of (node, origin, "look-for"), "look-for");
  step->hazards = pin_hazards_read (owner_of (node, origin, "hazard"));
  node = pin_node_first (owner_of (node, origin, "drawing"), "drawing");
  step->drawing = node ? pin_node_attr (node, "href") : NULL;
}

static void
read_lists (PinStep *step, const xmlNode *node, const xmlNode *origin, PinRemarks *remarks)
{
  const xmlNode *branching = owner_of (node, origin, "if");

  step->asks = g_ptr_array_new_with_free_func ((GDestroyNotify) ask_free);
  for (xmlNode *n = pin_node_first (node, "ask"); n; n = pin_node_next (n, "ask"))
    g_ptr_array_add (step->asks, read_ask (n, remarks));
  step->uses = g_ptr_array_new_with_free_func ((GDestroyNotify) uses_free);
  for (xmlNode *n = pin_node_first (node, "uses"); n; n = pin_node_next (n, "uses"))
    g_ptr_array_add (step->uses, read_uses (n));
  step->grades = g_ptr_array_new_with_free_func ((GDestroyNotify) grade_free);
  step->branches = g_ptr_array_new_with_free_func ((GDestroyNotify) branch_free);
  for (xmlNode *n = pin_node_first (branching, "if"); n; n = pin_node_next (n, "if"))
    g_ptr_array_add (step->branches, read_branch (n));
}

static void
bound (GPtrArray *list, const PinStep *step, const char *what, PinRemarks *remarks)
{
  if (list->len <= MOST_OF_A_STEP)
    return;
  pin_remark (remarks, step->line, _("“%s” has more than %d %s, split it into steps"), step->id,
              MOST_OF_A_STEP, what);
  g_ptr_array_set_size (list, MOST_OF_A_STEP);
}

static void
bound_lists (PinStep *step, PinRemarks *remarks)
{
  bound (step->grades, step, "grades", remarks);
  bound (step->branches, step, "branches", remarks);
  if (step->measure != NULL)
    bound (step->measure->limits, step, "limits", remarks);
}

/* A step, with what it asks again filled in from the step it repeats unless it
 * says so itself. */
PinStep *
pin_step_read (const xmlNode *node, PinSteps *steps)
{
  PinStep *step = g_new0 (PinStep, 1);
  const xmlNode *origin = origin_of (node, steps);
  const xmlNode *fits = pin_node_first (owner_of (node, origin, "fits"), "fits");
  /* What is wrong with an answer is said where it is written. */
  g_autoptr (GPtrArray) said = g_ptr_array_new_with_free_func (g_free);
  PinRemarks silent = { steps->remarks->path, said };
  const xmlNode *owner = answer_owner (node, origin);

  step->id = pin_node_attr (node, "id");
  step->phase = read_phase (node);
  step->again = pin_node_attr (node, "again");
  step->most = pin_node_integer (node, "most", 0);
  step->owes = pin_node_attr (node, "owes");
  step->owed_before_use = pin_node_has (node, "owed-until");
  step->settles = pin_node_attr (node, "settles");
  step->fits = fits ? pin_fits_read (fits) : NULL;
  step->deeds = read_deeds (node);
  step->line = pin_node_line (node, NULL);
  read_scope (step, node, origin);
  read_words (step, node, origin);
  read_lists (step, node, origin, steps->remarks);
  read_answer (step, owner, owner == node ? steps->remarks : &silent);
  bound_lists (step, steps->remarks);
  return step;
}
