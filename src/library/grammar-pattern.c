#include "library/grammar-pattern.h"

#include <libxml/xmlregexp.h>
#include <libxml/xmlschemastypes.h>
#include <string.h>

#include "library/xml-node.h"

#define RELAXNG "http://relaxng.org/ns/structure/1.0"
#define XSD "http://www.w3.org/2001/XMLSchema"
/* Attributes of this namespace say in words how a value is written. */
#define SAY "urn:hingepin:say:1"

gboolean
pin_pattern_is (const xmlNode *node, const char *name)
{
  return node->type == XML_ELEMENT_NODE && node->ns != NULL &&
         strcmp ((const char *) node->ns->href, RELAXNG) == 0 &&
         strcmp ((const char *) node->name, name) == 0;
}

static xmlNode *
skip (xmlNode *node)
{
  while (node != NULL && node->type != XML_ELEMENT_NODE)
    node = node->next;
  return node;
}

xmlNode *
pin_pattern_first (xmlNode *node)
{
  return skip (node->children);
}

xmlNode *
pin_pattern_next (xmlNode *node)
{
  return skip (node->next);
}

/* What a reference refers to: the define, whose children are one group. */
xmlNode *
pin_pattern_resolve (xmlNode *pattern)
{
  g_autofree char *name = NULL;
  xmlNode *root = xmlDocGetRootElement (pattern->doc);

  if (!pin_pattern_is (pattern, "ref"))
    return pattern;
  name = pin_pattern_name (pattern);
  for (xmlNode *d = pin_pattern_first (root); d != NULL; d = pin_pattern_next (d))
    {
      g_autofree char *defined = pin_pattern_name (d);

      if (pin_pattern_is (d, "define") && g_strcmp0 (defined, name) == 0)
        return d;
    }
  return pattern;
}

xmlNode *
pin_pattern_start (xmlDoc *grammar)
{
  xmlNode *root = xmlDocGetRootElement (grammar);

  for (xmlNode *n = pin_pattern_first (root); n != NULL; n = pin_pattern_next (n))
    if (pin_pattern_is (n, "start"))
      return n;
  return root;
}

/* Free with g_free(). */
char *
pin_pattern_name (xmlNode *pattern)
{
  return pin_node_attr (pattern, "name");
}

/* Calls @func for each pattern of @kind ("element", "attribute") that stands in
 * @pattern and not in a deeper element; required: on every way through. */
void
pin_pattern_walk (xmlNode *pattern, const char *kind, gboolean required, PinPatternFunc func,
                  gpointer data)
{
  xmlNode *real = pin_pattern_resolve (pattern);

  if (pin_pattern_is (real, kind))
    {
      func (real, required, data);
      return;
    }
  if (pin_pattern_is (real, "element") || pin_pattern_is (real, "attribute"))
    return;
  if (pin_pattern_is (real, "optional") || pin_pattern_is (real, "zeroOrMore") ||
      pin_pattern_is (real, "choice"))
    required = FALSE;
  for (xmlNode *n = pin_pattern_first (real); n != NULL; n = pin_pattern_next (n))
    pin_pattern_walk (n, kind, required, func, data);
}

static gboolean
is_value (xmlNode *pattern)
{
  return pin_pattern_is (pattern, "value") || pin_pattern_is (pattern, "data") ||
         pin_pattern_is (pattern, "list") || pin_pattern_is (pattern, "text");
}

/* Whether an element with this content may hold text. */
gboolean
pin_pattern_has_value (xmlNode *pattern)
{
  xmlNode *real = pin_pattern_resolve (pattern);

  if (is_value (real))
    return TRUE;
  for (xmlNode *n = pin_pattern_first (real); n != NULL; n = pin_pattern_next (n))
    if (!pin_pattern_is (n, "element") && !pin_pattern_is (n, "attribute") &&
        pin_pattern_has_value (n))
      return TRUE;
  return FALSE;
}

/* ==== Values ==== */

static int
count_digits (const char *value)
{
  int digits = 0;

  for (; *value != '\0'; value++)
    digits += g_ascii_isdigit (*value);
  return digits;
}

static gboolean
matches_param (xmlNode *param, const char *value)
{
  g_autofree char *name = pin_pattern_name (param);
  g_autofree char *limit = pin_node_text (param);
  xmlRegexp *regexp;
  int verdict;

  if (g_str_equal (name, "minLength"))
    return g_utf8_strlen (value, -1) >= g_ascii_strtoll (limit, NULL, 10);
  if (g_str_equal (name, "minInclusive"))
    return g_ascii_strtod (value, NULL) >= g_ascii_strtod (limit, NULL);
  if (g_str_equal (name, "minExclusive"))
    return g_ascii_strtod (value, NULL) > g_ascii_strtod (limit, NULL);
  if (g_str_equal (name, "totalDigits"))
    return count_digits (value) <= g_ascii_strtoll (limit, NULL, 10);
  if (!g_str_equal (name, "pattern"))
    return TRUE;
  regexp = xmlRegexpCompile ((const xmlChar *) limit);
  verdict = regexp ? xmlRegexpExec (regexp, (const xmlChar *) value) : 1;
  xmlRegFreeRegexp (regexp);
  return verdict == 1;
}

static gboolean
matches_data (xmlNode *data, const char *value)
{
  g_autofree char *name = pin_node_attr (data, "type");
  xmlSchemaType *type = xmlSchemaGetPredefinedType ((const xmlChar *) name, (const xmlChar *) XSD);

  if (type != NULL && xmlSchemaValidatePredefinedType (type, (const xmlChar *) value, NULL) != 0)
    return FALSE;
  for (xmlNode *n = pin_pattern_first (data); n != NULL; n = pin_pattern_next (n))
    if (pin_pattern_is (n, "param") && !matches_param (n, value))
      return FALSE;
  return TRUE;
}

static gboolean
matches_list (xmlNode *list, const char *value)
{
  xmlNode *many = pin_pattern_first (list);
  g_auto (GStrv) words = g_strsplit (value, " ", -1);

  if (*value == '\0')
    return pin_pattern_is (many, "zeroOrMore");
  for (int i = 0; words[i] != NULL; i++)
    if (!pin_pattern_matches (pin_pattern_first (many), words[i]))
      return FALSE;
  return TRUE;
}

/* Whether @value, its spaces collapsed, is what a value pattern wants. */
gboolean
pin_pattern_matches (xmlNode *pattern, const char *value)
{
  xmlNode *real = pin_pattern_resolve (pattern);

  if (pin_pattern_is (real, "text"))
    return TRUE;
  if (pin_pattern_is (real, "value"))
    {
      g_autofree char *wanted = pin_node_text (real);

      return g_str_equal (wanted, value);
    }
  if (pin_pattern_is (real, "data"))
    return matches_data (real, value);
  if (pin_pattern_is (real, "list"))
    return matches_list (real, value);
  for (xmlNode *n = pin_pattern_first (real); n != NULL; n = pin_pattern_next (n))
    if (pin_pattern_matches (n, value))
      return TRUE;
  return pin_pattern_is (real, "attribute") && pin_pattern_first (real) == NULL;
}

/* Appends the words that are spelled out in @pattern; owned by the array. */
void
pin_pattern_values (xmlNode *pattern, GPtrArray *values)
{
  xmlNode *real = pin_pattern_resolve (pattern);

  if (pin_pattern_is (real, "value"))
    g_ptr_array_add (values, pin_node_text (real));
  else
    for (xmlNode *n = pin_pattern_first (real); n != NULL; n = pin_pattern_next (n))
      pin_pattern_values (n, values);
}

/* How the value is written, in the grammar's own words, or NULL; free with
 * g_free(). */
char *
pin_pattern_words (xmlNode *pattern)
{
  xmlNode *real = pin_pattern_resolve (pattern);
  xmlChar *said = xmlGetNsProp (real, (const xmlChar *) "as", (const xmlChar *) SAY);
  char *words = g_strdup ((const char *) said);

  xmlFree (said);
  for (xmlNode *n = pin_pattern_first (real); n != NULL && words == NULL; n = pin_pattern_next (n))
    if (!pin_pattern_is (n, "param"))
      words = pin_pattern_words (n);
  return words;
}
