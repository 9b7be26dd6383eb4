#include <glib/gi18n.h>

#include "library/check.h"
#include "library/suggest.h"
#include "library/xml-node.h"

static void
check_name (PinCheck *check, const xmlNode *shape, const char *attribute, const char *id, GHashTable *known,
            const char *kind)
{
  g_autofree char *right = NULL;

  if (g_hash_table_contains (known, id))
    return;
  right = pin_suggest_key (id, known);
  pin_remark (check->remarks, pin_node_line (shape, attribute), _("“%s” is no %s of this chassis, %s"), id, _(kind),
              right ? right : _("name one that it has"));
}

/* x y x y …, and a line has two ends. */
static void
check_outline (PinCheck *check, const xmlNode *outline)
{
  g_auto (GStrv) points = pin_node_list (outline, "points");
  guint n = g_strv_length (points);

  if (n % 2 == 1)
    pin_remark (check->remarks, pin_node_line (outline, "points"),
                _("the points have an x without a y, write them in pairs"));
  else if (n < 4)
    pin_remark (check->remarks, pin_node_line (outline, "points"), _("one point is no line, write two or more"));
}

static void
check_shape (PinCheck *check, const xmlNode *shape, GHashTable *positions, GHashTable *assemblies)
{
  g_autofree char *assembly = pin_node_attr (shape, "assembly");
  g_auto (GStrv) pictured = pin_node_list (shape, "positions");

  if (assembly != NULL)
    check_name (check, shape, "assembly", assembly, assemblies, N_("assembly"));
  for (int i = 0; pictured[i] != NULL; i++)
    check_name (check, shape, "positions", pictured[i], positions, N_("position"));
  for (xmlNode *n = pin_node_first (shape, "outline"); n; n = pin_node_next (n, "outline"))
    check_outline (check, n);
}

/* What is drawn belongs to what there is. */
void
pin_check_drawing (PinCheck *check, const PinChassis *chassis)
{
  g_autoptr (GHashTable) positions = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) assemblies = g_hash_table_new (g_str_hash, g_str_equal);
  const xmlNode *drawing = pin_node_first (check->root, "drawing");

  for (guint i = 0; i < chassis->positions->len; i++)
    g_hash_table_add (positions, ((PinPosition *) chassis->positions->pdata[i])->id);
  for (guint i = 0; i < chassis->assemblies->len; i++)
    g_hash_table_add (assemblies, ((PinAssembly *) chassis->assemblies->pdata[i])->id);
  for (xmlNode *n = pin_node_first (drawing, "shape"); n; n = pin_node_next (n, "shape"))
    check_shape (check, n, positions, assemblies);
}
