#include "inspection/own-limits.h"

#include <json-glib/json-glib.h>
#include <math.h>

/* A band as kept in the book, in the canonical unit:
 * {"pass": {"min": 2.0}, "watch": {"min": 1.6}} */

typedef struct
{
  const PinOwnLimit *row;
  gint64 until;               /* id of the row that took its place, or withdrew it; 0: none */
  PinLimits limits;
} OwnLimit;

struct _PinOwnLimits
{
  GArray *all;                /* OwnLimit, by id */
};

static double
number_of (JsonObject *object, const char *name)
{
  JsonNode *node = json_object_get_member (object, name);
  GType type = node && JSON_NODE_HOLDS_VALUE (node) ? json_node_get_value_type (node) : G_TYPE_NONE;
  double value = type == G_TYPE_DOUBLE || type == G_TYPE_INT64 ? json_node_get_double (node) : NAN;

  return isfinite (value) ? value : NAN;
}

/* FALSE if there is no such band, or it bounds nothing. */
static gboolean
read_band (JsonObject *root, const char *name, PinBand *band)
{
  JsonNode *node = json_object_get_member (root, name);

  *band = (PinBand){ .min = NAN, .max = NAN, .within = NAN };
  if (node == NULL || !JSON_NODE_HOLDS_OBJECT (node))
    return FALSE;
  band->min = number_of (json_node_get_object (node), "min");
  band->max = number_of (json_node_get_object (node), "max");
  return !isnan (band->min) || !isnan (band->max);
}

/* FALSE: no limit that can be judged by; the text's own stand then. */
static gboolean
read_limits (const char *json, PinLimits *limits)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  JsonNode *root = NULL;

  if (json && json_parser_load_from_data (parser, json, -1, NULL))
    root = json_parser_get_root (parser);
  if (root == NULL || !JSON_NODE_HOLDS_OBJECT (root) ||
      !read_band (json_node_get_object (root), "pass", &limits->pass))
    return FALSE;
  limits->has_watch = read_band (json_node_get_object (root), "watch", &limits->watch);
  limits->against = PIN_AGAINST_PLAIN;
  return TRUE;
}

static gint64
replaced_by (const GPtrArray *rows, gint64 id)
{
  for (guint i = 0; i < rows->len; i++)
    {
      const PinOwnLimit *row = g_ptr_array_index (rows, i);

      if (row->replaces == id)
        return row->id;
    }
  return 0;
}

/* @rows must outlive it.  Free with pin_own_limits_free(). */
PinOwnLimits *
pin_own_limits_new (const GPtrArray *rows)
{
  PinOwnLimits *self = g_new0 (PinOwnLimits, 1);

  self->all = g_array_new (FALSE, TRUE, sizeof (OwnLimit));
  for (guint i = 0; i < rows->len; i++)
    {
      OwnLimit limit = { .row = g_ptr_array_index (rows, i) };

      if (limit.row->is_void || !read_limits (limit.row->band, &limit.limits))
        continue;
      limit.until = replaced_by (rows, limit.row->id);
      g_array_append_val (self->all, limit);
    }
  return self;
}

void
pin_own_limits_free (PinOwnLimits *self)
{
  g_array_unref (self->all);
  g_free (self);
}

/* What is said of the part goes before what is said of its car, and that before
 * what is said of the whole stable; 0: said of something else. */
static int
nearness (const PinOwnLimit *row, gint64 part, gint64 vehicle)
{
  if (row->thing == 0)
    return 1;
  if (row->thing == part)
    return 3;
  return row->thing == vehicle ? 2 : 0;
}

/* The limit that stood for @step when the row @before was entered; of one thing
 * the last stands.  NULL: none.  Owned by @self. */
const PinLimits *
pin_own_limits_find (const PinOwnLimits *self, const char *step, gint64 part, gint64 vehicle, gint64 before)
{
  const PinLimits *found = NULL;
  int nearest = 1;

  for (guint i = 0; i < self->all->len; i++)
    {
      const OwnLimit *limit = &g_array_index (self->all, OwnLimit, i);
      int near = nearness (limit->row, part, vehicle);

      if (near < nearest || !g_str_equal (limit->row->step, step) || (before && limit->row->id >= before) ||
          (limit->until && (before == 0 || limit->until < before)))
        continue;
      nearest = near;
      found = &limit->limits;
    }
  return found;
}
