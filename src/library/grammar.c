#include "library/grammar.h"

#include <glib/gi18n.h>
#include <libxml/relaxng.h>
#include <string.h>

#include "config.h"
#include "library/data-dir.h"
#include "library/error.h"
#include "library/grammar-words.h"
#include "library/suggest.h"
#include "library/xml-reader.h"

typedef struct
{
  const char *uri;
  const char *root;             /* the element to name in messages */
  const char *file;             /* in the folder of schemas */
  xmlRelaxNG *schema;           /* compiled on first use, kept */
  xmlDoc *source;               /* its text, to say what it allows */
} Grammar;

static Grammar grammars[] = {
  { "urn:hingepin:procedure:1", "procedure", "procedure-1.rng" },
  { "urn:hingepin:kinds:1", "kinds", "kinds-1.rng" },
  { "urn:hingepin:chassis:1", "chassis", "chassis-1.rng" },
};

/* Guards the grammars, and libxml2's validation, which shares tables. */
static GMutex grammar_lock;

const char *
pin_library_data_dir (void)
{
  const char *dir = g_getenv ("HINGEPIN_DATA_DIR");

  return dir != NULL && *dir != '\0' ? dir : PIN_DATA_DIR;
}

static void
ignore_fault (void *data, xmlError *fault)
{
}

static xmlRelaxNG *
compile (xmlDoc *source)
{
  xmlRelaxNGParserCtxt *parser = xmlRelaxNGNewDocParserCtxt (source);
  xmlRelaxNG *schema;

  if (parser == NULL)
    return NULL;
  xmlRelaxNGSetParserStructuredErrors (parser, ignore_fault, NULL);
  schema = xmlRelaxNGParse (parser);
  xmlRelaxNGFreeParserCtxt (parser);
  return schema;
}

static gboolean
load (Grammar *grammar, GError **error)
{
  g_autofree char *path = NULL;
  g_autoptr (GBytes) bytes = NULL;

  if (grammar->schema != NULL)
    return TRUE;
  path = g_build_filename (pin_library_data_dir (), "schemas", grammar->file, NULL);
  bytes = pin_xml_load (path, NULL);
  if (bytes == NULL)
    {
      g_set_error (error, PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_READ,
                   _("%s:1: the grammar cannot be read, set HINGEPIN_DATA_DIR or install Hingepin again"), path);
      return FALSE;
    }
  grammar->source = pin_xml_parse (bytes, path, error);
  if (grammar->source == NULL)
    return FALSE;
  grammar->schema = compile (grammar->source);
  if (grammar->schema == NULL)
    {
      g_clear_pointer (&grammar->source, xmlFreeDoc);
      g_set_error (error, PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_READ,
                   _("%s:1: this is no grammar that can be used, install Hingepin again"), path);
      return FALSE;
    }
  return TRUE;
}

static Grammar *
grammar_of (xmlNode *root)
{
  for (size_t i = 0; i < G_N_ELEMENTS (grammars); i++)
    if (root->ns != NULL && g_strcmp0 ((const char *) root->ns->href, grammars[i].uri) == 0)
      return &grammars[i];
  return NULL;
}

static gboolean
refuse_namespace (xmlNode *root, const char *path, GError **error)
{
  const char *uri = root->ns != NULL ? (const char *) root->ns->href : "";
  const char *known[G_N_ELEMENTS (grammars) + 1] = { NULL };
  const char *nearest;
  g_autofree char *told = NULL;

  for (size_t i = 0; i < G_N_ELEMENTS (grammars); i++)
    known[i] = grammars[i].uri;
  nearest = pin_suggest (uri, known);
  for (size_t i = 0; nearest == NULL && i < G_N_ELEMENTS (grammars); i++)
    if (g_str_equal (grammars[i].root, (const char *) root->name))
      nearest = grammars[i].uri;
  if (g_str_equal ((const char *) root->name, "teardown"))
    nearest = grammars[0].uri;
  told = *uri ? g_strdup_printf (_("<%s> has the namespace “%s”, which is unknown"), root->name, uri) :
                g_strdup_printf (_("<%s> has no namespace"), root->name);
  g_set_error (error, PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_SCHEMA,
               _("%s:%d: %s, begin with <%s xmlns=\"%s\" …>"), path, pin_xml_line (root), told,
               nearest ? (const char *) root->name : grammars[0].root,
               nearest ? nearest : grammars[0].uri);
  return FALSE;
}

/* What kind of file @doc is, by its root's namespace and name.
 * Errors: PIN_LIBRARY_ERROR_SCHEMA. */
gboolean
pin_grammar_type (xmlDoc *doc, const char *path, PinFileType *type, GError **error)
{
  xmlNode *root = xmlDocGetRootElement (doc);
  Grammar *grammar = grammar_of (root);

  if (grammar == NULL)
    return refuse_namespace (root, path, error);
  if (g_str_equal (grammar->root, "kinds"))
    *type = PIN_FILE_KINDS;
  else if (g_str_equal (grammar->root, "chassis"))
    *type = PIN_FILE_CHASSIS;
  else
    *type = g_str_equal ((const char *) root->name, "teardown") ? PIN_FILE_TEARDOWN
                                                                : PIN_FILE_PROCEDURE;
  return TRUE;
}

static gboolean
is_valid (Grammar *grammar, xmlDoc *doc)
{
  xmlRelaxNGValidCtxt *validator = xmlRelaxNGNewValidCtxt (grammar->schema);
  int verdict;

  if (validator == NULL)
    return FALSE;
  xmlRelaxNGSetValidStructuredErrors (validator, ignore_fault, NULL);
  verdict = xmlRelaxNGValidateDoc (validator, doc);
  xmlRelaxNGFreeValidCtxt (validator);
  return verdict == 0;
}

/* Holds @doc against its grammar; the verdict is libxml2's, the words are
 * ours.  What is wrong is appended to @messages in the order of the file.
 * Any thread may call it.
 *
 * Errors: FALSE with @error set if the grammar itself cannot be had, or the
 * first of the messages, PIN_LIBRARY_ERROR_SCHEMA. */
gboolean
pin_grammar_check (xmlDoc *doc, const char *path, GPtrArray *messages, GError **error)
{
  g_autoptr (GMutexLocker) locker = g_mutex_locker_new (&grammar_lock);
  g_autoptr (GPtrArray) found = g_ptr_array_new_with_free_func (g_free);
  xmlNode *root = xmlDocGetRootElement (doc);
  Grammar *grammar = grammar_of (root);

  if (grammar == NULL)
    return refuse_namespace (root, path, error);
  if (!load (grammar, error))
    return FALSE;
  if (is_valid (grammar, doc))
    return TRUE;
  pin_grammar_explain (grammar->source, root, path, found);
  if (found->len == 0)
    g_ptr_array_add (found, g_strdup_printf (_("%s:%d: <%s> holds what its grammar, %s, does not allow, "
                                             "compare it with that"),
                                             path, pin_xml_line (root), (const char *) root->name,
                                             grammar->file));
  g_set_error_literal (error, PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_SCHEMA, found->pdata[0]);
  if (messages != NULL)
    g_ptr_array_extend_and_steal (messages, g_steal_pointer (&found));
  return FALSE;
}
