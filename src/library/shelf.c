#include "library/shelf.h"

#include <glib/gi18n.h>

#include "library/open.h"
#include "library/reading.h"
#include "library/xml-reader.h"

static void
release (PinText *text)
{
  if (text->any == NULL)
    return;
  switch (text->type)
    {
    case PIN_TEXT_PROCEDURE:
      pin_procedure_unref (text->procedure);
      break;
    case PIN_TEXT_TEARDOWN:
      pin_teardown_unref (text->teardown);
      break;
    case PIN_TEXT_CHASSIS:
      pin_chassis_unref (text->chassis);
      break;
    case PIN_N_TEXTS:
      break;
    }
}

static void
text_free (PinText *self)
{
  release (self);
  g_free (self->path);
  g_free (self);
}

static const char *
id_of (const PinText *text)
{
  switch (text->type)
    {
    case PIN_TEXT_PROCEDURE: return text->procedure->id;
    case PIN_TEXT_TEARDOWN: return text->teardown->id;
    case PIN_TEXT_CHASSIS: return text->chassis->id;
    case PIN_N_TEXTS: break;
    }
  return "";
}

PinShelf *
pin_shelf_new (GPtrArray *troubles)
{
  PinShelf *self = g_new0 (PinShelf, 1);

  for (int i = 0; i < PIN_N_TEXTS; i++)
    {
      self->texts[i] = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, (GDestroyNotify) text_free);
      self->covered[i] = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, (GDestroyNotify) text_free);
    }
  self->troubles = troubles;
  return self;
}

void
pin_shelf_free (PinShelf *self)
{
  for (int i = 0; i < PIN_N_TEXTS; i++)
    {
      g_hash_table_unref (self->texts[i]);
      g_hash_table_unref (self->covered[i]);
    }
  g_free (self);
}

/* ==== Reading a folder ==== */

static gpointer
read_doc (xmlDoc *doc, PinFileType type, GBytes *xml, PinRemarks *remarks, PinTextType *text)
{
  switch (type)
    {
    case PIN_FILE_PROCEDURE:
      *text = PIN_TEXT_PROCEDURE;
      return pin_procedure_from_doc (doc, xml, remarks);
    case PIN_FILE_TEARDOWN:
      *text = PIN_TEXT_TEARDOWN;
      return pin_teardown_from_doc (doc, xml, remarks);
    case PIN_FILE_CHASSIS:
      *text = PIN_TEXT_CHASSIS;
      return pin_chassis_from_doc (doc, xml, remarks);
    case PIN_FILE_KINDS:
      break;
    }
  pin_remark (remarks, 1, _("a file of kinds has no place in this folder, move it to kinds"));
  return NULL;
}

static PinText *
read_text (const char *path, GError **error)
{
  g_autoptr (GBytes) xml = pin_xml_load (path, error);
  g_autoptr (GPtrArray) messages = g_ptr_array_new_with_free_func (g_free);
  PinRemarks remarks = { path, messages };
  PinText *text;
  PinFileType type;
  xmlDoc *doc = xml != NULL ? pin_open (xml, path, &type, NULL, error) : NULL;

  if (doc == NULL)
    return NULL;
  text = g_new0 (PinText, 1);
  text->any = read_doc (doc, type, xml, &remarks, &text->type);
  text->path = g_strdup (path);
  xmlFreeDoc (doc);
  if (pin_open_settle (messages, error))
    return text;
  text_free (text);
  return NULL;
}

static void
put (GHashTable *table, PinText *text)
{
  g_hash_table_replace (table, (gpointer) id_of (text), text);
}

/* Two files of one folder with the same id: the first by name stays. */
static gboolean
is_second (PinShelf *self, PinText *text, PinText *there, const char *dir)
{
  g_autofree char *folder = there != NULL ? g_path_get_dirname (there->path) : NULL;
  g_autofree char *other = NULL;
  g_autofree char *message = NULL;

  if (g_strcmp0 (folder, dir) != 0)
    return FALSE;
  other = g_path_get_basename (there->path);
  message = g_strdup_printf (_("%s:1: “%s” is also the id of %s, give one of them another id"),
                             text->path, id_of (text), other);
  pin_trouble_add (self->troubles, text->path, message);
  return TRUE;
}

static void
take_in (PinShelf *self, PinText *text, const char *dir, gboolean own)
{
  GHashTable *texts = self->texts[text->type];
  PinText *there = g_hash_table_lookup (texts, id_of (text));

  if (is_second (self, text, there, dir))
    {
      text_free (text);
      return;
    }
  if (there != NULL && own)
    {
      g_hash_table_steal (texts, id_of (text));
      put (self->covered[text->type], there);
    }
  put (texts, text);
}

/* Reads all files of @dir, which need not be there.  An own text takes the
 * place of a shipped one; what is broken becomes a trouble. */
void
pin_shelf_add (PinShelf *self, const char *dir, gboolean own)
{
  g_autoptr (GError) error = NULL;
  g_auto (GStrv) paths = pin_folder_files (dir, FALSE, &error);

  if (paths == NULL)
    pin_trouble_add (self->troubles, dir, error->message);
  for (int i = 0; paths != NULL && paths[i] != NULL; i++)
    {
      g_autoptr (GError) cause = NULL;
      PinText *text = read_text (paths[i], &cause);

      if (text != NULL)
        take_in (self, text, dir, own);
      else
        pin_trouble_add (self->troubles, paths[i], cause->message);
    }
}

/* Takes @text off the shelf; a shipped one that it replaced comes back. */
void
pin_shelf_reject (PinShelf *self, PinText *text)
{
  GHashTable *texts = self->texts[text->type];
  GHashTable *covered = self->covered[text->type];
  g_autofree char *id = g_strdup (id_of (text));
  PinText *shipped = g_hash_table_lookup (covered, id);

  g_hash_table_remove (texts, id);
  if (shipped == NULL)
    return;
  g_hash_table_steal (covered, id);
  put (texts, shipped);
}

static int
by_id (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (id_of (*(PinText **) a), id_of (*(PinText **) b));
}

/* PinText* in force, by id; transfer container. */
GPtrArray *
pin_shelf_list (PinShelf *self, PinTextType type)
{
  GPtrArray *list = g_ptr_array_new ();
  GHashTableIter iter;
  gpointer text;

  g_hash_table_iter_init (&iter, self->texts[type]);
  while (g_hash_table_iter_next (&iter, NULL, &text))
    g_ptr_array_add (list, text);
  g_ptr_array_sort (list, by_id);
  return list;
}
