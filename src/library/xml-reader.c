#include "library/xml-reader.h"

#include <glib/gi18n.h>
#include <libxml/SAX2.h>
#include <libxml/parser.h>
#include <libxml/parserInternals.h>
#include <string.h>

#include "library/error.h"
#include "library/xml-faults.h"
#include "library/xml-scan.h"

/* What one parse knows beside what the parser knows. */
typedef struct
{
  const char *path;
  const char *text;             /* the bytes, after a byte order mark */
  gsize length;
  const char *counted;          /* lines are counted up to here … */
  int line;                     /* … and this is that line */
  int depth;
  GError *error;                /* the first thing wrong */
} Reading;

static void
note (Reading *reading, int code, int line, const char *what)
{
  if (reading->error == NULL)
    g_set_error (&reading->error, PIN_LIBRARY_ERROR, code, "%s:%d: %s", reading->path, line, what);
}

/* ==== Lines ==== */

/* Where the parser stands in the bytes. */
static const char *
place_of (xmlParserCtxt *parser, Reading *reading)
{
  const xmlParserInput *input = parser->input;
  gsize offset = input->consumed + (input->cur - input->base);

  return reading->text + MIN (offset, reading->length);
}

static int
line_of (Reading *reading, const char *place)
{
  if (place < reading->counted)
    {
      reading->counted = reading->text;
      reading->line = 1;
    }
  for (; reading->counted < place; reading->counted++)
    reading->line += *reading->counted == '\n';
  return reading->line;
}

/* Where @name="…" stands in the tag's text between @p and @end. */
static const char *
find_attribute (const char *p, const char *end, const char *name)
{
  gsize length = strlen (name);

  while (p < end)
    {
      const char *start;
      const char *quote;

      while (p < end && g_ascii_isspace (*p))
        p++;
      start = p;
      while (p < end && *p != '=' && !g_ascii_isspace (*p))
        p++;
      if ((gsize) (p - start) == length && strncmp (start, name, length) == 0)
        return start;
      while (p < end && *p != '"' && *p != '\'')
        p++;
      quote = p < end ? memchr (p + 1, *p, end - p - 1) : NULL;
      if (quote == NULL)
        return NULL;
      p = quote + 1;
    }
  return NULL;
}

/* The parser's own lines end at 65535 and say where a tag ends; ours are kept
 * in _private, for elements and attributes. */
static void
mark_lines (xmlNode *node, Reading *reading, const char *end)
{
  const char *start = end;
  const char *inside;

  /* A tag holds no other "<" than its own. */
  while (start > reading->text && *start != '<')
    start--;
  node->_private = GINT_TO_POINTER (line_of (reading, start));
  inside = start;
  while (inside < end && !g_ascii_isspace (*inside))
    inside++;
  for (xmlAttr *a = node->properties; a != NULL; a = a->next)
    {
      const char *place = find_attribute (inside, end, (const char *) a->name);

      a->_private = place ? GINT_TO_POINTER (line_of (reading, place)) : node->_private;
    }
}

int
pin_xml_line (const xmlNode *node)
{
  g_return_val_if_fail (node != NULL, 1);
  if (node->type != XML_ELEMENT_NODE && node->type != XML_ATTRIBUTE_NODE)
    return node->parent != NULL && node->parent->type == XML_ELEMENT_NODE
             ? pin_xml_line (node->parent) : 1;
  return MAX (1, GPOINTER_TO_INT (node->_private));
}

/* ==== What the parser tells ==== */

static void
start_element (void *data, const xmlChar *name, const xmlChar *prefix, const xmlChar *uri,
               int n_namespaces, const xmlChar **namespaces, int n_attributes, int n_defaulted,
               const xmlChar **attributes)
{
  xmlParserCtxt *parser = data;
  Reading *reading = parser->_private;
  const char *end = place_of (parser, reading);

  if (++reading->depth > PIN_XML_MOST_LEVELS)
    {
      note (reading, PIN_LIBRARY_ERROR_HOSTILE, line_of (reading, end),
            _("elements stand in each other more than 64 levels deep, eight are enough"));
      xmlStopParser (parser);
      return;
    }
  xmlSAX2StartElementNs (data, name, prefix, uri, n_namespaces, namespaces, n_attributes,
                         n_defaulted, attributes);
  if (parser->node != NULL)
    mark_lines (parser->node, reading, end);
}

static void
end_element (void *data, const xmlChar *name, const xmlChar *prefix, const xmlChar *uri)
{
  xmlParserCtxt *parser = data;

  ((Reading *) parser->_private)->depth--;
  xmlSAX2EndElementNs (data, name, prefix, uri);
}

/* Called before anything in it is read. */
static void
refuse_doctype (void *data, const xmlChar *name, const xmlChar *external, const xmlChar *system)
{
  xmlParserCtxt *parser = data;
  Reading *reading = parser->_private;
  const char *end = place_of (parser, reading);
  const char *start = g_strrstr_len (reading->text, end - reading->text, "<!DOCTYPE");

  note (reading, PIN_LIBRARY_ERROR_HOSTILE, line_of (reading, start ? start : end),
        _("a document type is refused, leave <!DOCTYPE …> out"));
  xmlStopParser (parser);
}

static xmlParserInput *
no_entity (void *data, const xmlChar *public, const xmlChar *system)
{
  return NULL;
}

/* Whether such a fault at the very end means that more should follow. */
static gboolean
is_cut (int code)
{
  return code != XML_ERR_DOCUMENT_EMPTY && code != XML_ERR_TAG_NAME_MISMATCH &&
         code != XML_ERR_DOCUMENT_END && code != XML_NS_ERR_UNDEFINED_NAMESPACE;
}

static void
on_fault (void *data, xmlError *fault)
{
  xmlParserCtxt *parser = data;
  Reading *reading = parser->_private;
  g_autofree char *what = NULL;

  if (fault->level < XML_ERR_ERROR || reading->error != NULL)
    return;
  if (place_of (parser, reading) == reading->text + reading->length && is_cut (fault->code))
    what = g_strdup (_("the file ends in the middle of something, it may have been cut short"));
  else
    what = pin_xml_fault_words (fault);
  note (reading, PIN_LIBRARY_ERROR_FORM, MAX (1, fault->line), what);
  xmlStopParser (parser);
}

/* ==== Parsing ==== */

static void
start_library_once (void)
{
  static gsize started;

  if (g_once_init_enter (&started))
    {
      xmlInitParser ();
      g_once_init_leave (&started, 1);
    }
}

static xmlParserCtxt *
new_parser (Reading *reading)
{
  xmlParserCtxt *parser = xmlCreateMemoryParserCtxt (reading->text, reading->length);

  if (parser == NULL)
    return NULL;
  parser->_private = reading;
  /* The bytes are known to be UTF-8, so what the file says of its encoding is
   * of no interest. */
  xmlCtxtUseOptions (parser, XML_PARSE_NONET | XML_PARSE_NOCDATA | XML_PARSE_IGNORE_ENC);
  parser->sax->startElementNs = start_element;
  parser->sax->endElementNs = end_element;
  parser->sax->internalSubset = refuse_doctype;
  parser->sax->externalSubset = refuse_doctype;
  parser->sax->resolveEntity = no_entity;
  parser->sax->serror = on_fault;
  return parser;
}

/* Parses @bytes safely: UTF-8 only, no document type, no entity, nothing from
 * outside, at most 1 MiB and 64 levels; comments and CDATA are no hindrance.
 * Any thread may call it.  @path is what messages begin with.
 *
 * Returns: (transfer full): the tree, free with xmlFreeDoc().
 * Errors: PIN_LIBRARY_ERROR_HOSTILE, PIN_LIBRARY_ERROR_FORM. */
xmlDoc *
pin_xml_parse (GBytes *bytes, const char *path, GError **error)
{
  Reading reading = { .path = path, .line = 1 };
  xmlParserCtxt *parser;
  xmlDoc *doc;
  gboolean sound;

  start_library_once ();
  reading.text = g_bytes_get_data (bytes, &reading.length);
  if (!pin_xml_scan (reading.text, reading.length, path, error))
    return NULL;
  if (g_str_has_prefix (reading.text, "\xef\xbb\xbf"))
    {
      reading.text += 3;
      reading.length -= 3;
    }
  reading.counted = reading.text;
  parser = reading.length > 0 ? new_parser (&reading) : NULL;
  sound = parser != NULL && xmlParseDocument (parser) == 0 && parser->wellFormed &&
          parser->nsWellFormed && reading.error == NULL;
  doc = parser != NULL ? parser->myDoc : NULL;
  g_clear_pointer (&parser, xmlFreeParserCtxt);
  if (sound && doc != NULL && xmlDocGetRootElement (doc) != NULL)
    return doc;
  note (&reading, PIN_LIBRARY_ERROR_FORM, 1, _("this is no XML, it needs a root element such as <procedure>"));
  g_propagate_error (error, reading.error);
  g_clear_pointer (&doc, xmlFreeDoc);
  return NULL;
}
