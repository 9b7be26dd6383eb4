#include "library/open.h"
#include "library/reading.h"
#include "library/xml-node.h"

static void
teardown_clear (PinTeardown *self)
{
  g_free (self->id);
  g_free (self->title);
  g_free (self->purpose);
  g_ptr_array_unref (self->fits);
  g_strfreev (self->takes);
  g_strfreev (self->order);
  g_free (self->path);
  g_bytes_unref (self->xml);
  g_free (self->sha);
}

/* @attribute of each child @name of @parent. */
static char **
read_list (const xmlNode *parent, const char *name, const char *attribute)
{
  g_autoptr (GStrvBuilder) list = g_strv_builder_new ();

  for (xmlNode *n = pin_node_first (parent, name); n; n = pin_node_next (n, name))
    {
      g_autofree char *text = pin_node_attr (n, attribute);

      g_strv_builder_add (list, text);
    }
  return g_strv_builder_end (list);
}

PinTeardown *
pin_teardown_from_doc (xmlDoc *doc, GBytes *xml, PinRemarks *remarks)
{
  PinTeardown *self = g_atomic_rc_box_new0 (PinTeardown);
  xmlNode *root = xmlDocGetRootElement (doc);

  self->id = pin_node_attr (root, "id");
  self->revision = pin_node_integer (root, "revision", 1);
  self->title = pin_node_child (root, "title");
  self->purpose = pin_node_child (root, "purpose");
  self->fits = pin_fits_read_all (root);
  self->takes = read_list (root, "takes", "procedure");
  self->order = read_list (pin_node_first (root, "order"), "go", "stage");
  self->path = g_strdup (remarks->path);
  self->xml = g_bytes_ref (xml);
  self->sha = pin_bytes_sha (xml);
  return self;
}

/* As pin_procedure_read(), for a file whose root is <teardown>; release with
 * pin_teardown_unref(). */
PinTeardown *
pin_teardown_read (GBytes *xml, const char *path, GError **error)
{
  g_autoptr (GPtrArray) messages = g_ptr_array_new_with_free_func (g_free);
  PinRemarks remarks = { path ? path : "(text)", messages };
  g_autoptr (PinTeardown) self = NULL;
  xmlDoc *doc = pin_open_as (xml, path, PIN_FILE_TEARDOWN, error);

  if (doc == NULL)
    return NULL;
  self = pin_teardown_from_doc (doc, xml, &remarks);
  xmlFreeDoc (doc);
  return pin_open_settle (messages, error) ? g_steal_pointer (&self) : NULL;
}

PinTeardown *
pin_teardown_ref (PinTeardown *self)
{
  return g_atomic_rc_box_acquire (self);
}

void
pin_teardown_unref (PinTeardown *self)
{
  g_atomic_rc_box_release_full (self, (GDestroyNotify) teardown_clear);
}
