#include <glib/gi18n.h>
#include <string.h>

#include "library/check.h"
#include "library/suggest.h"
#include "library/xml-node.h"

/* Where a file names something of the kinds.  The first letter of the
 * namespace's last word tells the files apart: p, k or c. */
static const struct
{
  char file;
  const char *element, *attribute;
  PinWordType type;
} places[] = {
  { 'p', "needs", "tool", PIN_WORD_TOOL },
  { 'p', "uses", "supply", PIN_WORD_SUPPLY },
  { 'p', "deed", "id", PIN_WORD_DEED },
  { 'p', "ask", "spec", PIN_WORD_SPEC },
  { 'p', "measure", "quantity", PIN_WORD_QUANTITY },
  { 'p', "measure", "conditions", PIN_WORD_CONDITION },
  { 'p', "step", "each", PIN_WORD_KIND },
  { 'p', "step", "owes", PIN_WORD_DEBT },
  { 'p', "step", "settles", PIN_WORD_DEBT },
  { 'p', "if", "opens", PIN_WORD_JOB },
  { 'p', "fits", "part", PIN_WORD_KIND },
  { 'c', "position", "kind", PIN_WORD_KIND },
  { 'c', "spec", "id", PIN_WORD_SPEC },
  { 'c', "on", "owes", PIN_WORD_DEBT },
  { 'k', "kind", "group", PIN_WORD_GROUP },
  { 'k', "kind", "deeds", PIN_WORD_DEED },
  { 'k', "kind", "specs", PIN_WORD_SPEC },
  { 'k', "quantity", "reset", PIN_WORD_DEED },
  { 'k', "quantity", "exactly", PIN_WORD_CONDITION },
  { 'k', "quantity", "nearly", PIN_WORD_CONDITION },
};

static const char *const type_words[PIN_N_WORDS] = {
  [PIN_WORD_GROUP] = N_("group of kinds"),
  [PIN_WORD_KIND] = N_("part kind"),
  [PIN_WORD_DEED] = N_("deed"),
  [PIN_WORD_SPEC] = N_("spec value"),
  [PIN_WORD_CONDITION] = N_("condition"),
  [PIN_WORD_QUANTITY] = N_("quantity"),
  [PIN_WORD_DEBT] = N_("debt"),
  [PIN_WORD_JOB] = N_("job"),
  [PIN_WORD_TOOL] = N_("tool"),
  [PIN_WORD_SUPPLY] = N_("supply"),
};

static char
file_letter (const xmlNode *root)
{
  const char *uri = (const char *) root->ns->href;

  return uri[strlen ("urn:hingepin:")];
}

/* What to write instead, from the file itself and the library. */
static char *
right_word (PinCheck *check, PinWordType type, const char *id)
{
  g_autoptr (GHashTable) known = g_hash_table_new (g_str_hash, g_str_equal);
  PinKindsTable *tables[] = { check->here, check->library->kinds };

  for (size_t i = 0; i < G_N_ELEMENTS (tables); i++)
    {
      GHashTableIter iter;
      gpointer word;

      if (tables[i] == NULL)
        continue;
      g_hash_table_iter_init (&iter, tables[i]->by_id[type]);
      while (g_hash_table_iter_next (&iter, &word, NULL))
        g_hash_table_add (known, word);
    }
  return pin_suggest_key (id, known);
}

static void
check_word (PinCheck *check, int line, PinWordType type, const char *id)
{
  g_autofree char *right = NULL;

  if (pin_check_word (check, type, id) != NULL)
    return;
  right = right_word (check, type, id);
  pin_remark (check->remarks, line, _("“%s” is no %s, %s"), id, _(type_words[type]),
              right ? right : _("use one that the kinds list"));
}

static void
check_element (PinCheck *check, const xmlNode *node, char file)
{
  for (size_t i = 0; i < G_N_ELEMENTS (places); i++)
    {
      g_auto (GStrv) ids = NULL;

      if (places[i].file != file || !pin_node_is (node, places[i].element) ||
          !pin_node_has (node, places[i].attribute))
        continue;
      ids = pin_node_list (node, places[i].attribute);
      for (int j = 0; ids[j] != NULL; j++)
        check_word (check, pin_node_line (node, places[i].attribute), places[i].type, ids[j]);
    }
}

/* ways by="spec:cap" */
static void
check_by (PinCheck *check, const xmlNode *node)
{
  g_autofree char *by = pin_node_attr (node, "by");

  if (g_str_has_prefix (by, "spec:"))
    check_word (check, pin_node_line (node, "by"), PIN_WORD_SPEC, by + strlen ("spec:"));
}

static void
check_fits (PinCheck *check, const xmlNode *node)
{
  int line = pin_node_line (node, NULL);

  if (node->properties == NULL)
    pin_remark (check->remarks, line,
                _("<fits> says nothing, give it power, drive, scale, surface or part, or leave it out"));
  else if (pin_node_has (node, "filled") && !pin_node_has (node, "part"))
    pin_remark (check->remarks, line, _("filled is said of a part, name it: part=\"shock\""));
}

static void
check_under (PinCheck *check, const xmlNode *parent, char file)
{
  for (xmlNode *n = pin_node_first (parent, NULL); n; n = pin_node_next (n, NULL))
    {
      check_element (check, n, file);
      if (file == 'p' && pin_node_is (n, "ways"))
        check_by (check, n);
      if (file == 'p' && pin_node_is (n, "fits"))
        check_fits (check, n);
      check_under (check, n, file);
    }
}

/* Every id that a file takes from the kinds is one. */
void
pin_check_words (PinCheck *check)
{
  check_under (check, check->root, file_letter (check->root));
}
