#include <gio/gio.h>
#include <glib/gi18n.h>

#include "library/check.h"
#include "library/suggest.h"
#include "library/xml-node.h"

/* ==== What is off and on ==== */

static void
check_clash (PinCheck *check, int line, char **one, const char *one_name, char **other,
             const char *other_name)
{
  for (int i = 0; one[i] != NULL; i++)
    if (g_strv_contains ((const char *const *) other, one[i]))
      pin_remark (check->remarks, line, _("“%s” cannot be both %s and %s, take it out of one"), one[i],
                  one_name, other_name);
}

/* ==== What comes after what ==== */

static void
check_after_here (PinCheck *check, const PinStage *stage, const char *after)
{
  g_autoptr (GHashTable) stages = g_hash_table_new (g_str_hash, g_str_equal);
  g_autofree char *right = NULL;

  if (g_str_equal (after, stage->id))
    pin_remark (check->remarks, stage->line, _("stage “%s” cannot come after itself, name another"), after);
  if (pin_procedure_stage (check->procedure, after) != NULL)
    return;
  for (guint i = 0; i < check->procedure->stages->len; i++)
    g_hash_table_add (stages, ((PinStage *) check->procedure->stages->pdata[i])->id);
  right = pin_suggest_key (after, stages);
  pin_remark (check->remarks, stage->line, _("there is no stage “%s” to come after, %s"), after,
              right ? right : _("name a stage of this file"));
}

static void
check_after_there (PinCheck *check, const PinStage *stage, const char *after)
{
  g_auto (GStrv) halves = g_strsplit (after, "/", 2);
  const PinProcedure *other = pin_check_find_procedure (check, halves[0]);

  if (other == NULL)
    pin_remark (check->remarks, stage->line,
                _("there is no procedure “%s” of “%s”, name one that there is"), halves[0], after);
  else if (pin_procedure_stage (other, halves[1]) == NULL)
    pin_remark (check->remarks, stage->line, _("procedure “%s” has no stage “%s”, name one that it has"),
                halves[0], halves[1]);
}

static const char *
stage_id (gconstpointer stage)
{
  return ((const PinStage *) stage)->id;
}

static const char *const *
stage_after (gconstpointer stage)
{
  return (const char *const *) ((const PinStage *) stage)->after;
}

static void
check_circle (PinCheck *check)
{
  const PinStage *stage = pin_check_circle (check->procedure->stages, stage_id, stage_after);

  if (stage != NULL && !g_strv_contains ((const char *const *) stage->after, stage->id))
    pin_remark (check->remarks, stage->line,
                _("stage “%s” comes after itself by way of others, take one of their after out"), stage->id);
}

/* ==== Steps ==== */

static void
check_drawing_file (PinCheck *check, const PinStep *step)
{
  const char *dirs[] = { check->library->own, check->library->shipped };

  if (step->drawing == NULL)
    return;
  for (size_t i = 0; i < G_N_ELEMENTS (dirs); i++)
    {
      g_autofree char *path = dirs[i] ? g_build_filename (dirs[i], "drawings", step->drawing, NULL) : NULL;

      if (path != NULL && g_file_test (path, G_FILE_TEST_IS_REGULAR))
        return;
    }
  pin_remark (check->remarks, step->line, _("there is no drawing “%s”, put it into drawings or leave it out"),
              step->drawing);
}

static void
check_steps (PinCheck *check, const GPtrArray *steps)
{
  for (guint i = 0; i < steps->len; i++)
    {
      pin_check_step (check, steps->pdata[i], FALSE);
      check_drawing_file (check, steps->pdata[i]);
    }
}

static void
check_items (PinCheck *check, const GPtrArray *items, gboolean in_aside)
{
  for (guint i = 0; i < items->len; i++)
    {
      const PinItem *item = items->pdata[i];

      if (item->kind == PIN_ITEM_STEP)
        {
          pin_check_step (check, item->step, in_aside);
          check_drawing_file (check, item->step);
        }
      if (item->kind == PIN_ITEM_WAYS)
        for (guint j = 0; j < item->ways->ways->len; j++)
          check_steps (check, ((PinWay *) item->ways->ways->pdata[j])->steps);
    }
}

static void
check_stage (PinCheck *check, const PinStage *stage)
{
  check_clash (check, stage->line, stage->off, "off", stage->on, "on");
  check_clash (check, stage->line, stage->off, "off", stage->intact, "intact");
  for (int i = 0; stage->after[i] != NULL; i++)
    if (g_strrstr (stage->after[i], "/") != NULL)
      check_after_there (check, stage, stage->after[i]);
    else
      check_after_here (check, stage, stage->after[i]);
  check_items (check, stage->items, FALSE);
  for (guint i = 0; i < stage->asides->len; i++)
    {
      const PinAside *aside = stage->asides->pdata[i];

      check_clash (check, aside->line, aside->off, "off", aside->on, "on");
      check_items (check, aside->items, TRUE);
    }
  pin_check_flow (check, stage);
}

/* ==== Head ==== */

static void
check_begin (PinCheck *check)
{
  static const char *const events[] = { "last-tank", "last-run", "last-outing", NULL };
  const PinProcedure *procedure = check->procedure;
  const xmlNode *begin = pin_node_first (check->root, "begin");
  g_autoptr (GError) error = NULL;
  double seconds;

  if (begin == NULL)
    return;
  if (!g_strv_contains (events, procedure->begin_of))
    {
      g_autofree char *right = pin_suggest_text (procedure->begin_of, events);

      pin_remark (check->remarks, pin_node_line (begin, "of"), _("“%s” is no event to begin after, %s"),
                  procedure->begin_of, right);
    }
  if (!pin_value_parse (procedure->begin_within, pin_unit_find ("min"), &seconds, NULL, &error))
    pin_remark (check->remarks, pin_node_line (begin, "within"), _("within of <begin>: %s"), error->message);
  else if (seconds <= 0)
    pin_remark (check->remarks, pin_node_line (begin, "within"),
                _("within of <begin> leaves no time, write more than 0 min"));
}

/* What a procedure says can be done as it is said. */
void
pin_check_procedure (PinCheck *check)
{
  check_begin (check);
  for (guint i = 0; i < check->procedure->stages->len; i++)
    check_stage (check, check->procedure->stages->pdata[i]);
  check_circle (check);
}
