#include "inspection/walk-private.h"

#include <glib/gi18n.h>
#include <json-glib/json-glib.h>

#include "inspection/error.h"

/* The plan as kept in the book:
 * {"what": "quarterly", "title": "…", "procedures": ["<sha>", …],
 *  "settlers": ["<sha>", …], "order": ["free-roll/found", …],
 *  "debts": ["mesh", …], "kinds": ["<sha>", …], "chassis": "<sha>"}
 * Walks of earlier versions name neither kinds nor chassis. */

/* NULL if @node is no text that can be shown: the plan may have been written by
 * something else.  Free with g_free(). */
static char *
text_of (JsonNode *node)
{
  g_autofree char *text = node && json_node_get_value_type (node) == G_TYPE_STRING ?
                          json_node_dup_string (node) : NULL;

  return text && g_utf8_validate (text, -1, NULL) ? g_steal_pointer (&text) : NULL;
}

static GPtrArray *
string_list (JsonObject *object, const char *name)
{
  GPtrArray *list = g_ptr_array_new_with_free_func (g_free);
  JsonNode *node = json_object_get_member (object, name);
  JsonArray *array = node && JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;

  for (guint i = 0; array && i < json_array_get_length (array); i++)
    {
      char *word = text_of (json_array_get_element (array, i));

      if (word)
        g_ptr_array_add (list, word);
    }
  return list;
}

static char *
string_of (JsonObject *object, const char *name)
{
  char *text = text_of (json_object_get_member (object, name));

  return text ? text : g_strdup ("");
}

static char **
string_vector (JsonObject *object, const char *name)
{
  GPtrArray *list = string_list (object, name);

  g_ptr_array_add (list, NULL);
  return (char **) g_ptr_array_free (list, FALSE);
}

PinPlanText *
pin_plan_text_parse (const char *json, GError **error)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  JsonObject *root;
  PinPlanText *plan;

  if (!json_parser_load_from_data (parser, json, -1, error))
    return NULL;
  if (json_parser_get_root (parser) == NULL || !JSON_NODE_HOLDS_OBJECT (json_parser_get_root (parser)))
    {
      g_set_error (error, PIN_INSPECTION_ERROR, PIN_INSPECTION_ERROR_PLAN,
                   _("the plan kept with this inspection cannot be read: verify the book, or restore a backup"));
      return NULL;
    }
  root = json_node_get_object (json_parser_get_root (parser));
  plan = g_new0 (PinPlanText, 1);
  plan->what = string_of (root, "what");
  plan->title = string_of (root, "title");
  plan->procedures = string_list (root, "procedures");
  plan->settlers = string_list (root, "settlers");
  plan->order = string_vector (root, "order");
  plan->debts = string_vector (root, "debts");
  plan->kinds = string_list (root, "kinds");
  plan->chassis = text_of (json_object_get_member (root, "chassis"));
  return plan;
}

static void
add_list (JsonBuilder *builder, const char *name, char **words, guint n)
{
  json_builder_set_member_name (builder, name);
  json_builder_begin_array (builder);
  for (guint i = 0; i < n; i++)
    json_builder_add_string_value (builder, words[i]);
  json_builder_end_array (builder);
}

/* Free with g_free(). */
char *
pin_plan_text_write (const PinPlanText *plan)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();
  g_autoptr (JsonNode) root = NULL;

  json_builder_begin_object (builder);
  json_builder_set_member_name (builder, "what");
  json_builder_add_string_value (builder, plan->what);
  json_builder_set_member_name (builder, "title");
  json_builder_add_string_value (builder, plan->title);
  add_list (builder, "procedures", (char **) plan->procedures->pdata, plan->procedures->len);
  add_list (builder, "settlers", (char **) plan->settlers->pdata, plan->settlers->len);
  add_list (builder, "order", plan->order, g_strv_length (plan->order));
  add_list (builder, "debts", plan->debts, g_strv_length (plan->debts));
  add_list (builder, "kinds", (char **) plan->kinds->pdata, plan->kinds->len);
  if (plan->chassis != NULL)
    {
      json_builder_set_member_name (builder, "chassis");
      json_builder_add_string_value (builder, plan->chassis);
    }
  json_builder_end_object (builder);
  root = json_builder_get_root (builder);
  return json_to_string (root, FALSE);
}

void
pin_plan_text_free (PinPlanText *plan)
{
  if (plan == NULL)
    return;
  g_free (plan->what);
  g_free (plan->title);
  g_clear_pointer (&plan->procedures, g_ptr_array_unref);
  g_clear_pointer (&plan->settlers, g_ptr_array_unref);
  g_strfreev (plan->order);
  g_strfreev (plan->debts);
  g_clear_pointer (&plan->kinds, g_ptr_array_unref);
  g_free (plan->chassis);
  g_free (plan);
}
