#include "window/draft.h"

#include <json-glib/json-glib.h>

PinDraft *
pin_draft_new (const char *key)
{
  PinDraft *self = g_new0 (PinDraft, 1);

  self->key = g_strdup (key);
  self->laps = g_ptr_array_new_with_free_func (g_free);
  self->typed = g_strdup ("");
  self->note = g_strdup ("");
  self->reason = g_strdup ("");
  self->counted = -1;
  self->deeds = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  self->specs = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  self->conditions = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  return self;
}

void
pin_draft_free (PinDraft *self)
{
  g_free (self->key);
  g_ptr_array_unref (self->laps);
  g_free (self->typed);
  g_free (self->note);
  g_free (self->reason);
  g_hash_table_unref (self->deeds);
  g_hash_table_unref (self->specs);
  g_hash_table_unref (self->conditions);
  g_clear_pointer (&self->photo, g_bytes_unref);
  g_free (self);
}

/* Nothing in it that would be missed. */
gboolean
pin_draft_is_blank (const PinDraft *self)
{
  return self->laps->len == 0 && *self->typed == '\0' && *self->note == '\0' && *self->reason == '\0'
         && self->counted < 0 && g_hash_table_size (self->deeds) == 0
         && g_hash_table_size (self->specs) == 0 && g_hash_table_size (self->conditions) == 0;
}

static void
add_text (JsonBuilder *builder, const char *name, const char *text)
{
  json_builder_set_member_name (builder, name);
  json_builder_add_string_value (builder, text);
}

static void
add_map (JsonBuilder *builder, const char *name, GHashTable *map)
{
  GHashTableIter iter;
  gpointer key, value;

  json_builder_set_member_name (builder, name);
  json_builder_begin_object (builder);
  g_hash_table_iter_init (&iter, map);
  while (g_hash_table_iter_next (&iter, &key, &value))
    add_text (builder, key, value);
  json_builder_end_object (builder);
}

static void
add_lists (JsonBuilder *builder, const PinDraft *self)
{
  GHashTableIter iter;
  gpointer deed;

  json_builder_set_member_name (builder, "laps");
  json_builder_begin_array (builder);
  for (guint i = 0; i < self->laps->len; i++)
    json_builder_add_string_value (builder, g_ptr_array_index (self->laps, i));
  json_builder_end_array (builder);
  json_builder_set_member_name (builder, "deeds");
  json_builder_begin_array (builder);
  g_hash_table_iter_init (&iter, self->deeds);
  while (g_hash_table_iter_next (&iter, &deed, NULL))
    json_builder_add_string_value (builder, deed);
  json_builder_end_array (builder);
}

/* Returns: (transfer full) */
char *
pin_draft_to_text (const PinDraft *self)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();
  g_autoptr (JsonNode) root = NULL;

  json_builder_begin_object (builder);
  add_text (builder, "key", self->key);
  add_text (builder, "typed", self->typed);
  add_text (builder, "note", self->note);
  add_text (builder, "reason", self->reason);
  json_builder_set_member_name (builder, "counted");
  json_builder_add_int_value (builder, self->counted);
  json_builder_set_member_name (builder, "timed");
  json_builder_add_boolean_value (builder, self->timed);
  add_lists (builder, self);
  add_map (builder, "specs", self->specs);
  add_map (builder, "conditions", self->conditions);
  json_builder_end_object (builder);
  root = json_builder_get_root (builder);
  return json_to_string (root, FALSE);
}

static void
read_text (JsonObject *object, const char *name, char **text)
{
  g_free (*text);
  *text = g_strdup (json_object_get_string_member_with_default (object, name, ""));
}

static JsonArray *
member_array (JsonObject *object, const char *name)
{
  JsonNode *node = json_object_get_member (object, name);

  return node != NULL && JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;
}

static const char *
text_element (JsonArray *array, guint i)
{
  JsonNode *node = json_array_get_element (array, i);

  return json_node_get_value_type (node) == G_TYPE_STRING ? json_node_get_string (node) : NULL;
}

static void
read_map (JsonObject *object, const char *name, GHashTable *map)
{
  JsonNode *node = json_object_get_member (object, name);
  g_autoptr (GList) names = NULL;

  if (node == NULL || !JSON_NODE_HOLDS_OBJECT (node))
    return;
  names = json_object_get_members (json_node_get_object (node));
  for (GList *link = names; link != NULL; link = link->next)
    g_hash_table_insert (map, g_strdup (link->data),
                         g_strdup (json_object_get_string_member_with_default (
                           json_node_get_object (node), link->data, "")));
}

static PinDraft *
read_draft (JsonObject *object)
{
  PinDraft *self = pin_draft_new (json_object_get_string_member_with_default (object, "key", ""));
  JsonArray *laps = member_array (object, "laps");
  JsonArray *deeds = member_array (object, "deeds");

  read_text (object, "typed", &self->typed);
  read_text (object, "note", &self->note);
  read_text (object, "reason", &self->reason);
  self->counted = (int) json_object_get_int_member_with_default (object, "counted", -1);
  self->timed = json_object_get_boolean_member_with_default (object, "timed", FALSE);
  for (guint i = 0; laps != NULL && i < json_array_get_length (laps); i++)
    if (text_element (laps, i) != NULL)
      g_ptr_array_add (self->laps, g_strdup (text_element (laps, i)));
  for (guint i = 0; deeds != NULL && i < json_array_get_length (deeds); i++)
    if (text_element (deeds, i) != NULL)
      g_hash_table_add (self->deeds, g_strdup (text_element (deeds, i)));
  read_map (object, "specs", self->specs);
  read_map (object, "conditions", self->conditions);
  return self;
}

/* NULL if there is none, or it cannot be read: a draft is a comfort, no fact. */
PinDraft *
pin_draft_from_text (const char *text)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  JsonNode *root;

  if (text == NULL || !json_parser_load_from_data (parser, text, -1, NULL))
    return NULL;
  root = json_parser_get_root (parser);
  if (root == NULL || !JSON_NODE_HOLDS_OBJECT (root))
    return NULL;
  return read_draft (json_node_get_object (root));
}
