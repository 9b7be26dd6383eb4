#include "library/open.h"

#include <glib/gi18n.h>

#include "library/error.h"
#include "library/xml-reader.h"

/* Parses @xml and takes it through the gate.
 *
 * @messages: (nullable): everything the gate has to say is appended.
 * Errors: the first of them; NULL then. */
xmlDoc *
pin_open (GBytes *xml, const char *path, PinFileType *type, GPtrArray *messages, GError **error)
{
  g_autoptr (xmlDoc) doc = pin_xml_parse (xml, path, error);

  if (doc == NULL)
    return NULL;
  if (!pin_grammar_type (doc, path, type, error) ||
      !pin_grammar_check (doc, path, messages, error))
    return NULL;
  return g_steal_pointer (&doc);
}

static const char *
type_words (PinFileType type)
{
  switch (type)
    {
    case PIN_FILE_PROCEDURE: return _("a procedure");
    case PIN_FILE_TEARDOWN: return _("a teardown");
    case PIN_FILE_KINDS: return _("a file of kinds");
    case PIN_FILE_CHASSIS: return _("a chassis type");
    }
  return "";
}

/* The same for a file that must be of one type.  @path may be NULL. */
xmlDoc *
pin_open_as (GBytes *xml, const char *path, PinFileType wanted, GError **error)
{
  PinFileType type;
  g_autoptr (xmlDoc) doc = NULL;

  path = path ? path : _("(text)");
  doc = pin_open (xml, path, &type, NULL, error);
  if (doc == NULL)
    return NULL;
  if (type != wanted)
    {
      g_set_error (error, PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_SCHEMA,
                   _("%s:%d: this is %s, and %s is wanted"), path,
                   pin_xml_line (xmlDocGetRootElement (doc)), type_words (type), type_words (wanted));
      return NULL;
    }
  return g_steal_pointer (&doc);
}

/* TRUE if there are no messages; else the first becomes the error. */
gboolean
pin_open_settle (GPtrArray *messages, GError **error)
{
  if (messages->len == 0)
    return TRUE;
  g_set_error_literal (error, PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_MEANING, messages->pdata[0]);
  return FALSE;
}
