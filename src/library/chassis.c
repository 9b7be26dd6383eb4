#include "library/chassis.h"

#include <math.h>

#include "library/drawing-read.h"
#include "library/open.h"
#include "library/reading.h"
#include "library/xml-node.h"

/* ==== Freeing ==== */

static void
spec_value_free (PinSpecValue *self)
{
  g_free (self->id);
  g_free (self->typed);
  g_free (self);
}

static void
position_free (PinPosition *self)
{
  g_free (self->id);
  g_free (self->kind);
  g_free (self->label);
  g_strfreev (self->classes);
  g_free (self->side);
  g_free (self->pair);
  g_free (self->carrier);
  g_free (self->assembly);
  g_free (self->size);
  g_ptr_array_unref (self->specs);
  g_free (self);
}

static void
assembly_free (PinAssembly *self)
{
  g_free (self->id);
  g_free (self->title);
  g_strfreev (self->needs);
  g_ptr_array_unref (self->hazards);
  g_free (self->off_do);
  g_free (self->on_do);
  g_strfreev (self->owes);
  g_free (self);
}

static void
chassis_clear (PinChassis *self)
{
  g_free (self->id);
  g_free (self->title);
  g_free (self->about);
  g_free (self->scale);
  g_free (self->drive);
  g_free (self->power);
  g_free (self->surface);
  g_ptr_array_unref (self->positions);
  g_ptr_array_unref (self->assemblies);
  g_ptr_array_unref (self->shapes);
  g_free (self->path);
  g_bytes_unref (self->xml);
  g_free (self->sha);
}

/* ==== Reading ==== */

static GPtrArray *
read_specs (const xmlNode *position)
{
  GPtrArray *specs = g_ptr_array_new_with_free_func ((GDestroyNotify) spec_value_free);

  for (xmlNode *n = pin_node_first (position, "spec"); n; n = pin_node_next (n, "spec"))
    {
      PinSpecValue *value = g_new0 (PinSpecValue, 1);

      value->id = pin_node_attr (n, "id");
      value->typed = pin_node_attr (n, "value");
      g_ptr_array_add (specs, value);
    }
  return specs;
}

static PinPosition *
read_position (const xmlNode *node)
{
  PinPosition *position = g_new0 (PinPosition, 1);

  position->id = pin_node_attr (node, "id");
  position->kind = pin_node_attr (node, "kind");
  position->label = pin_node_child (node, "label");
  position->classes = pin_node_list (node, "class");
  position->side = pin_node_attr (node, "side");
  position->pair = pin_node_attr (node, "pair");
  position->carrier = pin_node_attr (node, "carrier");
  position->assembly = pin_node_attr (node, "assembly");
  position->size = pin_node_attr (node, "size");
  position->count = pin_node_integer (node, "count", 1);
  position->fitted = !pin_node_has (node, "fitted");
  position->specs = read_specs (node);
  position->x = pin_node_number (node, "x");
  position->y = pin_node_number (node, "y");
  position->line = pin_node_line (node, NULL);
  return position;
}

static PinAssembly *
read_assembly (const xmlNode *node)
{
  PinAssembly *assembly = g_new0 (PinAssembly, 1);
  const xmlNode *off = pin_node_first (node, "off");
  const xmlNode *on = pin_node_first (node, "on");

  assembly->id = pin_node_attr (node, "id");
  assembly->title = pin_node_child (node, "title");
  assembly->needs = pin_node_list (node, "needs");
  assembly->hazards = pin_hazards_read (node);
  assembly->off_minutes = pin_node_number (off, "minutes");
  assembly->on_minutes = pin_node_number (on, "minutes");
  assembly->off_do = pin_node_child (off, "do");
  assembly->on_do = pin_node_child (on, "do");
  assembly->owes = pin_node_list (on, "owes");
  assembly->line = pin_node_line (node, NULL);
  return assembly;
}

static void
read_head (PinChassis *self, const xmlNode *root)
{
  const xmlNode *frame = pin_node_first (root, "frame");
  const xmlNode *ratio = pin_node_first (root, "ratio");

  self->id = pin_node_attr (root, "id");
  self->revision = pin_node_integer (root, "revision", 1);
  self->title = pin_node_child (root, "title");
  self->about = pin_node_child (root, "about");
  self->scale = pin_node_attr (root, "scale");
  self->drive = pin_node_attr (root, "drive");
  self->power = pin_node_attr (root, "power");
  self->surface = pin_node_attr (root, "surface");
  self->wheelbase = pin_node_number (frame, "wheelbase");
  self->track = pin_node_number (frame, "track");
  self->front = pin_node_number (frame, "front");
  self->rear = pin_node_number (frame, "rear");
  self->internal_ratio = ratio != NULL ? pin_node_number (ratio, "internal") : NAN;
}

PinChassis *
pin_chassis_from_doc (xmlDoc *doc, GBytes *xml, PinRemarks *remarks)
{
  PinChassis *self = g_atomic_rc_box_new0 (PinChassis);
  xmlNode *root = xmlDocGetRootElement (doc);

  read_head (self, root);
  self->assemblies = g_ptr_array_new_with_free_func ((GDestroyNotify) assembly_free);
  for (xmlNode *n = pin_node_first (root, "assembly"); n; n = pin_node_next (n, "assembly"))
    g_ptr_array_add (self->assemblies, read_assembly (n));
  self->positions = g_ptr_array_new_with_free_func ((GDestroyNotify) position_free);
  for (xmlNode *n = pin_node_first (root, "position"); n; n = pin_node_next (n, "position"))
    g_ptr_array_add (self->positions, read_position (n));
  self->shapes = pin_drawing_read (pin_node_first (root, "drawing"));
  self->path = g_strdup (remarks->path);
  self->xml = g_bytes_ref (xml);
  self->sha = pin_bytes_sha (xml);
  return self;
}

/* As pin_procedure_read(), for a chassis type; release with
 * pin_chassis_unref(). */
PinChassis *
pin_chassis_read (GBytes *xml, const char *path, GError **error)
{
  g_autoptr (GPtrArray) messages = g_ptr_array_new_with_free_func (g_free);
  PinRemarks remarks = { path ? path : "(text)", messages };
  g_autoptr (PinChassis) self = NULL;
  xmlDoc *doc = pin_open_as (xml, path, PIN_FILE_CHASSIS, error);

  if (doc == NULL)
    return NULL;
  self = pin_chassis_from_doc (doc, xml, &remarks);
  xmlFreeDoc (doc);
  return pin_open_settle (messages, error) ? g_steal_pointer (&self) : NULL;
}

PinChassis *
pin_chassis_ref (PinChassis *self)
{
  return g_atomic_rc_box_acquire (self);
}

void
pin_chassis_unref (PinChassis *self)
{
  g_atomic_rc_box_release_full (self, (GDestroyNotify) chassis_clear);
}

/* ==== Finding things in it ==== */

/* NULL if there is none. */
const PinPosition *
pin_chassis_position (const PinChassis *self, const char *id)
{
  for (guint i = 0; i < self->positions->len; i++)
    {
      const PinPosition *position = self->positions->pdata[i];

      if (g_str_equal (position->id, id))
        return position;
    }
  return NULL;
}

/* NULL if there is none: such a chassis type has no such assembly. */
const PinAssembly *
pin_chassis_assembly (const PinChassis *self, const char *id)
{
  for (guint i = 0; i < self->assemblies->len; i++)
    {
      const PinAssembly *assembly = self->assemblies->pdata[i];

      if (g_str_equal (assembly->id, id))
        return assembly;
    }
  return NULL;
}

/* Whether all @tokens (NULL-terminated, or NULL for none) are among the
 * classes of the position. */
gboolean
pin_position_is (const PinPosition *self, const char *const *tokens)
{
  for (int i = 0; tokens != NULL && tokens[i] != NULL; i++)
    if (!g_strv_contains ((const char *const *) self->classes, tokens[i]))
      return FALSE;
  return TRUE;
}
