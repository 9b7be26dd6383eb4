#include <glib/gi18n.h>

#include "library/check.h"
#include "library/suggest.h"
#include "library/xml-node.h"

/* What a hazard can be about. */
static const char *const about_words[] = {
  "lithium", "fuel", "solvent", "glue", "carbon-monoxide", "hot-parts", "spinning-parts",
  "compressed-air", "spring", "sharp-edges", "runaway", NULL
};

/* What handles a hazard, by a word of the id of a tool, supply or deed. */
static const struct { const char *element, *attribute, *word, *about; } handled[] = {
  { "uses", "supply", "solvent", "solvent" },
  { "uses", "supply", "fuel", "fuel" },
  { "uses", "supply", "glue", "glue" },
  { "uses", "supply", "threadlock", "glue" },
  { "needs", "tool", "air", "compressed-air" },
  { "needs", "tool", "compressor", "compressed-air" },
  { "needs", "tool", "soldering", "hot-parts" },
  { "deed", "id", "glued", "glue" },
  { "deed", "id", "tank", "fuel" },
  { "deed", "id", "charged", "lithium" },
  { "deed", "id", "cycled", "lithium" },
};

static void
collect (PinCheck *check, const xmlNode *parent, GHashTable *named)
{
  for (xmlNode *n = pin_node_first (parent, NULL); n; n = pin_node_next (n, NULL))
    {
      g_autofree char *about = pin_node_is (n, "hazard") ? pin_node_attr (n, "about") : NULL;
      g_autofree char *right = NULL;

      collect (check, n, named);
      if (about == NULL)
        continue;
      if (!g_strv_contains (about_words, about))
        {
          right = pin_suggest_text (about, about_words);
          pin_remark (check->remarks, pin_node_line (n, "about"), _("“%s” is no hazard of the list, %s"),
                      about, right);
        }
      g_hash_table_add (named, g_steal_pointer (&about));
    }
}

static void
check_element (PinCheck *check, const xmlNode *node, GHashTable *named)
{
  for (size_t i = 0; i < G_N_ELEMENTS (handled); i++)
    {
      g_autofree char *id = NULL;
      g_auto (GStrv) words = NULL;

      if (!pin_node_is (node, handled[i].element) || g_hash_table_contains (named, handled[i].about))
        continue;
      id = pin_node_attr (node, handled[i].attribute);
      words = g_strsplit (id ? id : "", "-", -1);
      if (!g_strv_contains ((const char *const *) words, handled[i].word))
        continue;
      pin_remark (check->remarks, pin_node_line (node, handled[i].attribute),
                  _("“%s” is handled and its hazard is not named, add <hazard level=\"…\" about=\"%s\">"),
                  id, handled[i].about);
    }
}

static void
check_under (PinCheck *check, const xmlNode *parent, GHashTable *named)
{
  for (xmlNode *n = pin_node_first (parent, NULL); n; n = pin_node_next (n, NULL))
    {
      check_element (check, n, named);
      check_under (check, n, named);
    }
}

/* Hazards are of the fixed list, and a procedure that handles one names it. */
void
pin_check_hazards (PinCheck *check)
{
  g_autoptr (GHashTable) named = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  collect (check, check->root, named);
  if (pin_node_is (check->root, "procedure"))
    check_under (check, check->root, named);
}
