#include "library/xml-node.h"

#include <math.h>
#include <string.h>

#include "library/xml-reader.h"

/* In place: XML's own spaces at the ends go, and between words become one. */
static char *
collapse (char *text)
{
  char *to = text;

  for (const char *from = text; *from != '\0'; from++)
    if (!strchr (" \t\r\n", *from))
      *to++ = *from;
    else if (to > text && to[-1] != ' ')
      *to++ = ' ';
  if (to > text && to[-1] == ' ')
    to--;
  *to = '\0';
  return text;
}

static char *
collapsed (xmlChar *text)
{
  char *copy = text != NULL ? collapse (g_strdup ((const char *) text)) : NULL;

  xmlFree (text);
  return copy;
}

/* An element of that name; NULL stands for any. */
gboolean
pin_node_is (const xmlNode *node, const char *name)
{
  return node->type == XML_ELEMENT_NODE &&
         (name == NULL || strcmp ((const char *) node->name, name) == 0);
}

static xmlNode *
seek (xmlNode *node, const char *name)
{
  while (node != NULL && !pin_node_is (node, name))
    node = node->next;
  return node;
}

xmlNode *
pin_node_first (const xmlNode *parent, const char *name)
{
  return seek (parent->children, name);
}

xmlNode *
pin_node_next (const xmlNode *node, const char *name)
{
  return seek (node->next, name);
}

gboolean
pin_node_has (const xmlNode *node, const char *attribute)
{
  return xmlHasNsProp ((xmlNode *) node, (const xmlChar *) attribute, NULL) != NULL;
}

/* NULL if there is none; free with g_free(). */
char *
pin_node_attr (const xmlNode *node, const char *attribute)
{
  return collapsed (xmlGetNoNsProp ((xmlNode *) node, (const xmlChar *) attribute));
}

/* The words of an attribute, none if it is missing; free with g_strfreev(). */
char **
pin_node_list (const xmlNode *node, const char *attribute)
{
  g_autofree char *text = pin_node_attr (node, attribute);

  return text != NULL && *text != '\0' ? g_strsplit (text, " ", -1) : g_new0 (char *, 1);
}

/* NAN if it is missing; the grammar has seen that it is a short decimal. */
double
pin_node_number (const xmlNode *node, const char *attribute)
{
  g_autofree char *text = pin_node_attr (node, attribute);

  return text != NULL ? g_ascii_strtod (text, NULL) : NAN;
}

int
pin_node_integer (const xmlNode *node, const char *attribute, int otherwise)
{
  g_autofree char *text = pin_node_attr (node, attribute);
  gint64 number;

  if (text == NULL)
    return otherwise;
  number = g_ascii_strtoll (text, NULL, 10);
  return CLAMP (number, G_MININT, G_MAXINT);
}

/* Where the attribute stands, or else the element. */
int
pin_node_line (const xmlNode *node, const char *attribute)
{
  xmlAttr *found = attribute != NULL
                     ? xmlHasNsProp ((xmlNode *) node, (const xmlChar *) attribute, NULL) : NULL;

  return pin_xml_line (found != NULL ? (xmlNode *) found : node);
}

/* Never NULL; free with g_free(). */
char *
pin_node_text (const xmlNode *node)
{
  return collapsed (xmlNodeGetContent (node));
}

/* The text of the first child of that name, or NULL. */
char *
pin_node_child (const xmlNode *parent, const char *name)
{
  xmlNode *child = pin_node_first (parent, name);

  return child != NULL ? pin_node_text (child) : NULL;
}
