#include "library/grammar-words.h"

#include <glib/gi18n.h>
#include <string.h>

#include "library/grammar-pattern.h"
#include "library/remarks.h"
#include "library/suggest.h"
#include "library/xml-node.h"
#include "library/xml-reader.h"

/* A second look at a file that the grammar has refused, to say in words what
 * is wrong where: libxml2 knows that it is wrong, and little more.  Content is
 * matched greedily, which is exact for grammars like ours, where the next
 * element decides what it is; a verdict never depends on it. */

static const char *
name_of (const xmlNode *node)
{
  return (const char *) node->name;
}

/* ==== Attributes ==== */

static void
add_name (xmlNode *pattern, gboolean required, gpointer names)
{
  g_autofree char *name = pin_pattern_name (pattern);

  if (name != NULL && !g_ptr_array_find_with_equal_func (names, name, g_str_equal, NULL))
    g_ptr_array_add (names, g_steal_pointer (&name));
}

/* NULL-terminated. */
static GPtrArray *
names_within (xmlNode *element, const char *kind)
{
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);

  for (xmlNode *n = pin_pattern_first (element); n != NULL; n = pin_pattern_next (n))
    pin_pattern_walk (n, kind, TRUE, add_name, names);
  g_ptr_array_add (names, NULL);
  return names;
}

typedef struct
{
  const char *name;
  xmlNode *found;
} Search;

static void
find_name (xmlNode *pattern, gboolean required, gpointer data)
{
  Search *search = data;
  g_autofree char *name = pin_pattern_name (pattern);

  if (search->found == NULL && g_strcmp0 (name, search->name) == 0)
    search->found = pattern;
}

static xmlNode *
find_within (xmlNode *element, const char *kind, const char *name)
{
  Search search = { name, NULL };

  for (xmlNode *n = pin_pattern_first (element); n != NULL; n = pin_pattern_next (n))
    pin_pattern_walk (n, kind, TRUE, find_name, &search);
  return search.found;
}

/* How a value should be written, as the end of a sentence. */
static char *
advice (xmlNode *pattern, const char *value)
{
  g_autoptr (GPtrArray) values = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *words = pin_pattern_words (pattern);
  g_autofree char *nearest = NULL;

  pin_pattern_values (pattern, values);
  g_ptr_array_add (values, NULL);
  if (values->len > 1)
    nearest = pin_suggest_text (value, (const char *const *) values->pdata);
  if (nearest != NULL && words != NULL && pin_suggest (value, (const char *const *) values->pdata) == NULL)
    return g_strdup_printf (_("%s or %s"), nearest, words);
  if (nearest != NULL)
    return g_steal_pointer (&nearest);
  return g_strdup_printf (_("write %s"), words ? words : _("something else"));
}

static void
explain_attribute (PinRemarks *e, xmlNode *node, xmlNode *element, xmlAttr *attribute)
{
  const char *name = (const char *) attribute->name;
  int line = pin_xml_line ((xmlNode *) attribute);
  xmlNode *pattern = attribute->ns == NULL ? find_within (element, "attribute", name) : NULL;
  g_autofree char *value = pin_node_text ((xmlNode *) attribute);

  if (pattern == NULL)
    {
      g_autoptr (GPtrArray) known = names_within (element, "attribute");
      g_autofree char *right = pin_suggest_text (name, (const char *const *) known->pdata);

      pin_remark (e, line, _("<%s> has no attribute “%s%s%s”, %s"), name_of (node),
            attribute->ns && attribute->ns->prefix ? (const char *) attribute->ns->prefix : "",
            attribute->ns && attribute->ns->prefix ? ":" : "", name, right ? right : _("leave it out"));
    }
  else if (!pin_pattern_matches (pattern, value))
    {
      g_autofree char *right = advice (pattern, value);

      pin_remark (e, line, _("“%s” is not what %s of <%s> can be, %s"), value, name, name_of (node), right);
    }
}

typedef struct
{
  PinRemarks *e;
  xmlNode *node;
} Missing;

static void
want_attribute (xmlNode *pattern, gboolean required, gpointer data)
{
  Missing *missing = data;
  g_autofree char *name = pin_pattern_name (pattern);

  if (required && !pin_node_has (missing->node, name))
    pin_remark (missing->e, pin_xml_line (missing->node), _("<%s> lacks its attribute “%s”, add it"),
          name_of (missing->node), name);
}

static gboolean
has_any (xmlNode *node, GPtrArray *names)
{
  for (guint i = 0; i + 1 < names->len; i++)
    if (pin_node_has (node, names->pdata[i]))
      return TRUE;
  return FALSE;
}

/* Of attributes between which the grammar lets one choose, exactly one set. */
static void
explain_choice (PinRemarks *e, xmlNode *node, xmlNode *choice)
{
  g_autoptr (GPtrArray) all = names_within (choice, "attribute");
  g_autofree char *list = NULL;
  int sets = 0;
  gboolean complete = FALSE;

  if (all->len < 2)
    return;
  for (xmlNode *n = pin_pattern_first (choice); n != NULL; n = pin_pattern_next (n))
    {
      g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
      gboolean whole = TRUE;

      pin_pattern_walk (n, "attribute", TRUE, add_name, names);
      for (guint i = 0; i < names->len; i++)
        whole = whole && pin_node_has (node, names->pdata[i]);
      g_ptr_array_add (names, NULL);
      sets += has_any (node, names);
      complete = complete || whole;
    }
  list = g_strjoinv (", ", (char **) all->pdata);
  if (sets > 1)
    pin_remark (e, pin_xml_line (node), _("<%s> says too much at once, of %s only one side may stand"),
          name_of (node), list);
  else if (!complete)
    pin_remark (e, pin_xml_line (node), _("<%s> lacks an attribute, choose from %s"), name_of (node), list);
}

static void
explain_attributes (PinRemarks *e, xmlNode *node, xmlNode *element)
{
  Missing missing = { e, node };

  for (xmlAttr *a = node->properties; a != NULL; a = a->next)
    explain_attribute (e, node, element, a);
  for (xmlNode *n = pin_pattern_first (element); n != NULL; n = pin_pattern_next (n))
    {
      pin_pattern_walk (n, "attribute", TRUE, want_attribute, &missing);
      if (pin_pattern_is (n, "choice"))
        explain_choice (e, node, n);
    }
}

/* ==== Content ==== */

typedef struct
{
  xmlNode *furthest;            /* the child at which matching stopped, NULL: the end */
  GPtrArray *expected;          /* names that would have gone on from there */
} Match;

static xmlNode *
skip_to_element (xmlNode *node)
{
  while (node != NULL && node->type != XML_ELEMENT_NODE)
    node = node->next;
  return node;
}

static gboolean
is_of (xmlNode *node, xmlNode *parent)
{
  return node->ns == parent->ns ||
         (node->ns != NULL && parent->ns != NULL && xmlStrEqual (node->ns->href, parent->ns->href));
}

static gboolean match (Match *m, xmlNode *pattern, xmlNode **child);

static gboolean
match_group (Match *m, xmlNode *group, xmlNode **child)
{
  for (xmlNode *n = pin_pattern_first (group); n != NULL; n = pin_pattern_next (n))
    if (!match (m, n, child))
      return FALSE;
  return TRUE;
}

static gboolean
match_choice (Match *m, xmlNode *choice, xmlNode **child)
{
  gboolean empty = FALSE;

  for (xmlNode *n = pin_pattern_first (choice); n != NULL; n = pin_pattern_next (n))
    {
      xmlNode *after = *child;

      if (!match (m, n, &after))
        continue;
      if (after != *child)
        {
          *child = after;
          return TRUE;
        }
      empty = TRUE;
    }
  return empty;
}

static gboolean
match_many (Match *m, xmlNode *many, xmlNode **child, gboolean one)
{
  gboolean any = FALSE;

  for (;;)
    {
      xmlNode *after = *child;

      if (!match_group (m, many, &after))
        return any || !one;
      any = TRUE;
      if (after == *child)
        return TRUE;
      *child = after;
    }
}

static gboolean
match_element (Match *m, xmlNode *element, xmlNode **child)
{
  g_autofree char *name = pin_pattern_name (element);

  if (*child != NULL && g_str_equal (name_of (*child), name))
    {
      *child = skip_to_element ((*child)->next);
      m->furthest = *child;
      g_ptr_array_set_size (m->expected, 0);
      return TRUE;
    }
  if (*child == m->furthest && !g_ptr_array_find_with_equal_func (m->expected, name, g_str_equal, NULL))
    g_ptr_array_add (m->expected, g_steal_pointer (&name));
  return FALSE;
}

/* Moves *child over what @pattern takes of the children; FALSE if it cannot. */
static gboolean
match (Match *m, xmlNode *pattern, xmlNode **child)
{
  xmlNode *real = pin_pattern_resolve (pattern);
  xmlNode *after = *child;

  if (pin_pattern_is (real, "element"))
    return match_element (m, real, child);
  if (pin_pattern_is (real, "choice"))
    return match_choice (m, real, child);
  if (pin_pattern_is (real, "zeroOrMore"))
    return match_many (m, real, child, FALSE);
  if (pin_pattern_is (real, "oneOrMore"))
    return match_many (m, real, child, TRUE);
  if (pin_pattern_is (real, "optional"))
    {
      if (match_group (m, real, &after))
        *child = after;
      return TRUE;
    }
  if (pin_pattern_is (real, "group") || pin_pattern_is (real, "define"))
    return match_group (m, real, child);
  return TRUE;
}

/* "<a>, <b> or <c>"; free with g_free(). */
static char *
join_tags (GPtrArray *names)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < names->len; i++)
    g_string_append_printf (text, "%s<%s>",
                            i == 0 ? "" : i + 1 == names->len ? _(" or ") : ", ",
                            (char *) names->pdata[i]);
  return g_string_free (text, FALSE);
}

/* @child may never stand in @node; @here is what may. */
static void
explain_stranger (PinRemarks *e, xmlNode *node, GPtrArray *known, xmlNode *child, const char *here)
{
  int line = pin_xml_line (child);
  const char *nearest = pin_suggest (name_of (child), (const char *const *) known->pdata);

  if (!is_of (child, node))
    pin_remark (e, line, _("<%s> has another namespace than <%s>, take it out or give it the same"), name_of (child),
                name_of (node));
  else if (nearest != NULL)
    pin_remark (e, line, _("<%s> may not hold <%s>, write <%s>"), name_of (node), name_of (child),
                nearest);
  else if (*here != '\0')
    pin_remark (e, line, _("<%s> may not hold <%s>, here it may hold %s"), name_of (node),
                name_of (child), here);
  else
    pin_remark (e, line, _("<%s> may not hold <%s>, take it out"), name_of (node), name_of (child));
}

/* @child may stand in @node, but not there. */
static void
explain_place (PinRemarks *e, xmlNode *node, xmlNode *child, const char *here)
{
  if (*here != '\0')
    pin_remark (e, pin_xml_line (child), _("<%s> of <%s> stands in the wrong place, here may stand %s"),
                name_of (child), name_of (node), here);
  else
    pin_remark (e, pin_xml_line (child), _("<%s> of <%s> stands in the wrong place or once too often, "
                "move it up or take it out"), name_of (child), name_of (node));
}

/* The first child that stands where it may not, or what is missing at the end. */
static void
explain_order (PinRemarks *e, xmlNode *node, xmlNode *element)
{
  g_autoptr (GPtrArray) known = names_within (element, "element");
  g_autoptr (GPtrArray) expected = g_ptr_array_new_with_free_func (g_free);
  xmlNode *child = skip_to_element (node->children);
  Match m = { child, expected };
  g_autofree char *here = NULL;

  if (match_group (&m, element, &child) && child == NULL)
    return;
  here = join_tags (expected);
  if (m.furthest == NULL)
    pin_remark (e, pin_xml_line (node), _("<%s> is not complete, at its end add %s"), name_of (node),
                here);
  else if (is_of (m.furthest, node) &&
           g_strv_contains ((const char *const *) known->pdata, name_of (m.furthest)))
    explain_place (e, node, m.furthest, here);
  else
    explain_stranger (e, node, known, m.furthest, here);
}

static void
explain_text (PinRemarks *e, xmlNode *node, xmlNode *element)
{
  g_autofree char *text = NULL;
  xmlNode *child = skip_to_element (node->children);

  if (pin_pattern_has_value (element))
    {
      text = pin_node_text (node);
      if (child != NULL)
        pin_remark (e, pin_xml_line (child), _("<%s> holds text only, take <%s> out and leave its words"),
              name_of (node), name_of (child));
      else if (!pin_pattern_matches (element, text))
        pin_remark (e, pin_xml_line (node), _("<%s> is empty, write its text"), name_of (node));
      return;
    }
  for (xmlNode *n = node->children; n != NULL; n = n->next)
    {
      if (n->type != XML_TEXT_NODE && n->type != XML_CDATA_SECTION_NODE)
        continue;
      if (xmlIsBlankNode (n))
        continue;
      pin_remark (e, pin_xml_line (node), _("<%s> holds no text of its own, put it into an element or take it out"),
            name_of (node));
      return;
    }
}

static void
explain_element (PinRemarks *e, xmlNode *node, xmlNode *element)
{
  explain_attributes (e, node, element);
  explain_text (e, node, element);
  if (pin_pattern_has_value (element))
    return;
  for (xmlNode *n = skip_to_element (node->children); n != NULL; n = skip_to_element (n->next))
    {
      xmlNode *pattern = is_of (n, node) ? find_within (element, "element", name_of (n)) : NULL;

      if (pattern != NULL)
        explain_element (e, n, pattern);
    }
  explain_order (e, node, element);
}

/* Appends to @messages, in the order of the file, what in the tree under @root
 * is not as @grammar has it. */
void
pin_grammar_explain (xmlDoc *grammar, xmlNode *root, const char *path, GPtrArray *messages)
{
  g_autoptr (GPtrArray) own = g_ptr_array_new_with_free_func (g_free);
  PinRemarks e = { path, own };
  xmlNode *start = pin_pattern_start (grammar);
  xmlNode *element = find_within (start, "element", name_of (root));

  if (element == NULL)
    {
      g_autoptr (GPtrArray) known = names_within (start, "element");
      g_autofree char *tags = NULL;

      g_ptr_array_set_size (known, known->len - 1);
      tags = join_tags (known);
      pin_remark (&e, pin_xml_line (root), _("<%s> begins no file of this kind, begin with %s"),
            name_of (root), tags);
    }
  else
    explain_element (&e, root, element);
  pin_remarks_sort (&e);
  g_ptr_array_extend_and_steal (messages, g_steal_pointer (&own));
}
