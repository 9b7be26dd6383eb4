#include <glib/gi18n.h>
#include <string.h>

#include "library/check.h"
#include "library/suggest.h"
#include "library/xml-node.h"

/* Where each stage of the procedures taken stands in the order, by its path. */
typedef struct
{
  PinCheck *check;
  GHashTable *taken;            /* procedure id -> PinProcedure* */
  GHashTable *places;           /* "procedure/stage" -> place + 1 */
  xmlNode *order;
} Teardown;

static void
collect_taken (Teardown *t)
{
  for (xmlNode *n = pin_node_first (t->check->root, "takes"); n; n = pin_node_next (n, "takes"))
    {
      g_autofree char *id = pin_node_attr (n, "procedure");
      const PinProcedure *procedure = pin_check_find_procedure (t->check, id);
      int line = pin_node_line (n, "procedure");

      if (procedure == NULL)
        {
          GHashTable *all = pin_library_shelf (t->check->library, PIN_TEXT_PROCEDURE)->texts[PIN_TEXT_PROCEDURE];
          g_autofree char *right = pin_suggest_key (id, all);

          pin_remark (t->check->remarks, line, _("there is no procedure “%s” to take, %s"), id,
                      right ? right : _("name one that there is"));
        }
      else if (!g_hash_table_insert (t->taken, procedure->id, (gpointer) procedure))
        pin_remark (t->check->remarks, line, _("“%s” is taken twice, take one of them out"), id);
    }
}

/* FALSE after a remark. */
static gboolean
check_path (Teardown *t, int line, const char *path)
{
  g_auto (GStrv) halves = g_strsplit (path, "/", 2);
  const PinProcedure *procedure = g_hash_table_lookup (t->taken, halves[0]);

  if (procedure == NULL)
    {
      if (pin_check_find_procedure (t->check, halves[0]) != NULL)
        pin_remark (t->check->remarks, line, _("“%s” is not taken, add <takes procedure=\"%s\"/>"), halves[0],
                    halves[0]);
      else
        pin_remark (t->check->remarks, line, _("“%s” is no stage of a procedure that is taken, "
                    "write procedure/stage"), path);
      return FALSE;
    }
  if (pin_procedure_stage (procedure, halves[1]) != NULL)
    return TRUE;
  pin_remark (t->check->remarks, line, _("procedure “%s” has no stage “%s”, name one that it has"), halves[0],
              halves[1]);
  return FALSE;
}

static void
collect_order (Teardown *t)
{
  guint place = 0;

  for (xmlNode *n = pin_node_first (t->order, "go"); n; n = pin_node_next (n, "go"))
    {
      char *path = pin_node_attr (n, "stage");
      int line = pin_node_line (n, "stage");

      if (g_hash_table_contains (t->places, path))
        pin_remark (t->check->remarks, line, _("“%s” is in the order twice, take one of them out"), path);
      else if (check_path (t, line, path))
        {
          g_hash_table_insert (t->places, path, GUINT_TO_POINTER (++place));
          continue;
        }
      g_free (path);
    }
}

static guint
place_of (Teardown *t, const char *procedure, const char *stage)
{
  g_autofree char *path = strchr (stage, '/') ? g_strdup (stage)
                                              : g_strconcat (procedure, "/", stage, NULL);

  return GPOINTER_TO_UINT (g_hash_table_lookup (t->places, path));
}

static void
check_stage (Teardown *t, const PinProcedure *procedure, const PinStage *stage)
{
  guint here = place_of (t, procedure->id, stage->id);
  int line = pin_node_line (t->order, NULL);

  if (here == 0)
    pin_remark (t->check->remarks, line, _("“%s/%s” is missing from the order, add <go stage=\"%s/%s\"/>"),
                procedure->id, stage->id, procedure->id, stage->id);
  for (int i = 0; stage->after[i] != NULL && here > 0; i++)
    if (place_of (t, procedure->id, stage->after[i]) > here)
      pin_remark (t->check->remarks, line, _("“%s/%s” must come after “%s”, move it down"), procedure->id,
                  stage->id, stage->after[i]);
}

/* A teardown takes procedures that there are, names each of their stages once,
 * and keeps to what comes after what.  Whether the order can be walked on a car
 * is reckoned elsewhere. */
void
pin_check_teardown (PinCheck *check, const PinTeardown *teardown)
{
  Teardown t = { check, g_hash_table_new (g_str_hash, g_str_equal),
                 g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL),
                 pin_node_first (check->root, "order") };

  collect_taken (&t);
  collect_order (&t);
  for (int i = 0; teardown->takes[i] != NULL; i++)
    {
      const PinProcedure *procedure = g_hash_table_lookup (t.taken, teardown->takes[i]);

      for (guint j = 0; procedure != NULL && j < procedure->stages->len; j++)
        check_stage (&t, procedure, procedure->stages->pdata[j]);
      if (procedure != NULL)
        g_hash_table_remove (t.taken, procedure->id);
    }
  g_hash_table_unref (t.taken);
  g_hash_table_unref (t.places);
}
