#include "library/procedure.h"

#include "library/open.h"
#include "library/reading.h"
#include "library/stage-read.h"
#include "library/xml-node.h"

static void
procedure_clear (PinProcedure *self)
{
  g_free (self->id);
  g_free (self->title);
  g_free (self->purpose);
  g_ptr_array_unref (self->fits);
  g_free (self->begin_within);
  g_free (self->begin_of);
  g_strfreev (self->needs);
  g_ptr_array_unref (self->hazards);
  g_ptr_array_unref (self->stages);
  g_free (self->path);
  g_bytes_unref (self->xml);
  g_free (self->sha);
}

/* ==== Reading ==== */

/* All steps under @node by their ids; of two with one id the first. */
static void
collect_steps (xmlNode *node, GHashTable *nodes)
{
  for (xmlNode *n = pin_node_first (node, NULL); n; n = pin_node_next (n, NULL))
    if (pin_node_is (n, "step"))
      {
        char *id = pin_node_attr (n, "id");

        if (g_hash_table_contains (nodes, id))
          g_free (id);
        else
          g_hash_table_insert (nodes, id, n);
      }
    else
      collect_steps (n, nodes);
}

static char **
read_needs (const xmlNode *root)
{
  g_autoptr (GStrvBuilder) ids = g_strv_builder_new ();

  for (xmlNode *n = pin_node_first (root, "needs"); n; n = pin_node_next (n, "needs"))
    {
      g_autofree char *id = pin_node_attr (n, "tool");

      g_strv_builder_add (ids, id);
    }
  return g_strv_builder_end (ids);
}

static void
read_head (PinProcedure *self, const xmlNode *root)
{
  const xmlNode *minutes = pin_node_first (root, "minutes");
  const xmlNode *begin = pin_node_first (root, "begin");

  self->id = pin_node_attr (root, "id");
  self->revision = pin_node_integer (root, "revision", 1);
  self->title = pin_node_child (root, "title");
  self->purpose = pin_node_child (root, "purpose");
  self->fits = pin_fits_read_all (root);
  self->begin_within = begin ? pin_node_attr (begin, "within") : NULL;
  self->begin_of = begin ? pin_node_attr (begin, "of") : NULL;
  self->hands_minutes = pin_node_number (minutes, "hands");
  self->wait_minutes = pin_node_has (minutes, "wait") ? pin_node_number (minutes, "wait") : 0;
  self->needs = read_needs (root);
  self->hazards = pin_hazards_read (root);
}

PinProcedure *
pin_procedure_from_doc (xmlDoc *doc, GBytes *xml, PinRemarks *remarks)
{
  PinProcedure *self = g_atomic_rc_box_new0 (PinProcedure);
  xmlNode *root = xmlDocGetRootElement (doc);
  g_autoptr (GHashTable) nodes = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GHashTable) repeats = g_hash_table_new (NULL, NULL);
  PinSteps steps = { nodes, repeats, remarks };

  collect_steps (root, nodes);
  read_head (self, root);
  self->stages = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_stage_free);
  for (xmlNode *n = pin_node_first (root, "stage"); n; n = pin_node_next (n, "stage"))
    g_ptr_array_add (self->stages, pin_stage_read (n, &steps));
  self->path = g_strdup (remarks->path);
  self->xml = g_bytes_ref (xml);
  self->sha = pin_bytes_sha (xml);
  return self;
}

/* Reads an inspection text: safe parsing, the grammar, then the structs.
 * @xml: the exact text, at most 1 MiB.  @path: what messages begin with; may
 * be NULL.
 *
 * Returns: (transfer full): release with pin_procedure_unref().
 * Errors: any PinLibraryError but UNKNOWN; the message is "path:line: …". */
PinProcedure *
pin_procedure_read (GBytes *xml, const char *path, GError **error)
{
  g_autoptr (GPtrArray) messages = g_ptr_array_new_with_free_func (g_free);
  PinRemarks remarks = { path ? path : "(text)", messages };
  g_autoptr (PinProcedure) self = NULL;
  xmlDoc *doc = pin_open_as (xml, path, PIN_FILE_PROCEDURE, error);

  if (doc == NULL)
    return NULL;
  self = pin_procedure_from_doc (doc, xml, &remarks);
  xmlFreeDoc (doc);
  return pin_open_settle (messages, error) ? g_steal_pointer (&self) : NULL;
}

PinProcedure *
pin_procedure_ref (PinProcedure *self)
{
  return g_atomic_rc_box_acquire (self);
}

void
pin_procedure_unref (PinProcedure *self)
{
  g_atomic_rc_box_release_full (self, (GDestroyNotify) procedure_clear);
}

/* ==== Finding things in it ==== */

/* NULL if there is none. */
const PinStage *
pin_procedure_stage (const PinProcedure *self, const char *id)
{
  for (guint i = 0; i < self->stages->len; i++)
    {
      const PinStage *stage = self->stages->pdata[i];

      if (g_str_equal (stage->id, id))
        return stage;
    }
  return NULL;
}

/* NULL if there is none. */
const PinAside *
pin_stage_aside (const PinStage *self, const char *id)
{
  for (guint i = 0; i < self->asides->len; i++)
    {
      const PinAside *aside = self->asides->pdata[i];

      if (g_str_equal (aside->id, id))
        return aside;
    }
  return NULL;
}

static const PinStep *
step_in (const GPtrArray *steps, const char *id)
{
  for (guint i = 0; i < steps->len; i++)
    {
      const PinStep *step = steps->pdata[i];

      if (g_str_equal (step->id, id))
        return step;
    }
  return NULL;
}

static const PinStep *
step_in_ways (const PinWays *ways, const char *id)
{
  const PinStep *found = NULL;

  for (guint i = 0; i < ways->ways->len && found == NULL; i++)
    found = step_in (((PinWay *) ways->ways->pdata[i])->steps, id);
  return found;
}

static const PinStep *
step_in_items (const GPtrArray *items, const char *id)
{
  const PinStep *found = NULL;

  for (guint i = 0; i < items->len && found == NULL; i++)
    {
      const PinItem *item = items->pdata[i];

      if (item->kind == PIN_ITEM_STEP && g_str_equal (item->step->id, id))
        found = item->step;
      else if (item->kind == PIN_ITEM_WAYS)
        found = step_in_ways (item->ways, id);
    }
  return found;
}

/* The step of that id, in a stage, an aside or a way, or NULL.
 * @stage: out, may be NULL: the stage that it stands in. */
const PinStep *
pin_procedure_step (const PinProcedure *self, const char *id, const PinStage **stage)
{
  for (guint i = 0; i < self->stages->len; i++)
    {
      const PinStage *here = self->stages->pdata[i];
      const PinStep *found = step_in_items (here->items, id);

      for (guint j = 0; j < here->asides->len && found == NULL; j++)
        found = step_in_items (((PinAside *) here->asides->pdata[j])->items, id);
      if (found == NULL)
        continue;
      if (stage != NULL)
        *stage = here;
      return found;
    }
  return NULL;
}
