#include <glib/gi18n.h>

#include "library/check.h"
#include "library/xml-node.h"

/* Ids that must differ, and within what.  Steps, waits and ways are keys of
 * one list of answers; an aside shares the targets of go with the steps. */
static const struct { const char *element, *within, *space; } rules[] = {
  { "stage", "procedure", "stage" },
  { "step", "procedure", "step" },
  { "wait", "procedure", "step" },
  { "ways", "procedure", "step" },
  { "step", "stage", "target" },
  { "aside", "stage", "target" },
  { "way", "ways", "way" },
  { "grade", "choose", "grade" },
  { "deed", "deeds", "deed" },
  { "assembly", "chassis", "assembly" },
  { "position", "chassis", "position" },
  { "shape", "chassis", "shape" },
  { "spec", "position", "spec" },
  { "group", "kinds", "group" },
  { "kind", "kinds", "kind" },
  { "deed", "kinds", "deed" },
  { "spec", "kinds", "spec" },
  { "condition", "kinds", "condition" },
  { "quantity", "kinds", "quantity" },
  { "debt", "kinds", "debt" },
  { "job", "kinds", "job" },
  { "tool", "kinds", "tool" },
  { "supply", "kinds", "supply" },
};

/* What has been seen within one element: "space id" -> the first node. */
static void
note (PinCheck *check, GHashTable *seen, const char *space, xmlNode *node)
{
  g_autofree char *id = pin_node_attr (node, "id");
  char *key = g_strconcat (space, " ", id, NULL);
  xmlNode *first = g_hash_table_lookup (seen, key);

  if (first == NULL)
    {
      g_hash_table_insert (seen, key, node);
      return;
    }
  g_free (key);
  /* Two steps are told of once, as keys of answers. */
  if (g_str_equal (space, "target") && pin_node_is (first, "step") && pin_node_is (node, "step"))
    return;
  pin_remark (check->remarks, pin_node_line (node, "id"),
              _("“%s” is already the id of the <%s> in line %d, give this <%s> another"), id,
              (const char *) first->name, pin_node_line (first, "id"), (const char *) node->name);
}

static void
collect (PinCheck *check, xmlNode *parent, const char *within, GHashTable *seen)
{
  for (xmlNode *n = pin_node_first (parent, NULL); n; n = pin_node_next (n, NULL))
    {
      for (size_t i = 0; i < G_N_ELEMENTS (rules); i++)
        if (pin_node_is (n, rules[i].element) && g_str_equal (rules[i].within, within))
          note (check, seen, rules[i].space, n);
      collect (check, n, within, seen);
    }
}

static gboolean
is_scope (const xmlNode *node)
{
  for (size_t i = 0; i < G_N_ELEMENTS (rules); i++)
    if (pin_node_is (node, rules[i].within))
      return TRUE;
  return FALSE;
}

static void
check_under (PinCheck *check, xmlNode *node)
{
  if (is_scope (node))
    {
      g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

      collect (check, node, (const char *) node->name, seen);
    }
  for (xmlNode *n = pin_node_first (node, NULL); n; n = pin_node_next (n, NULL))
    check_under (check, n);
}

/* No two things that are told apart by their ids have the same. */
void
pin_check_ids (PinCheck *check)
{
  check_under (check, check->root);
}
