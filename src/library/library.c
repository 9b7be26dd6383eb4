#include "library/library.h"

#include <glib/gi18n.h>
#include <string.h>

#include "library/data-dir.h"
#include "library/error.h"
#include "library/library-private.h"
#include "library/open.h"
#include "library/suggest.h"
#include "library/xml-reader.h"

/* What stands for the path of a text that has none. */
#define KEPT_TEXT _("the text kept in the book")

/* ==== Kinds ==== */

static void
kinds_text_free (PinKindsText *text)
{
  g_free (text->name);
  g_free (text->sha);
  g_bytes_unref (text->xml);
  g_free (text);
}

static void
keep_kinds_text (PinLibrary *self, const char *path, GBytes *xml)
{
  PinKindsText *text = g_new0 (PinKindsText, 1);
  char *ending;

  text->name = g_path_get_basename (path);
  ending = strrchr (text->name, '.');
  if (ending != NULL && ending != text->name)
    *ending = '\0';
  text->sha = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, xml);
  text->xml = g_bytes_ref (xml);
  g_ptr_array_add (self->kinds_texts, text);
}

static gboolean
read_kinds_file (PinLibrary *self, const char *path, GChecksum *sum, GPtrArray *messages,
                 GError **error)
{
  PinRemarks remarks = { path, messages };
  g_autoptr (GBytes) xml = pin_xml_load (path, error);
  g_autoptr (xmlDoc) doc = NULL;
  PinFileType type;

  if (xml == NULL)
    return FALSE;
  doc = pin_open (xml, path, &type, NULL, error);
  if (doc == NULL)
    return FALSE;
  if (type != PIN_FILE_KINDS)
    {
      g_set_error (error, PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_SCHEMA,
                   _("%s:1: this folder is for files of kinds, move the file to another"), path);
      return FALSE;
    }
  pin_kinds_table_add_doc (self->kinds, doc, &remarks);
  keep_kinds_text (self, path, xml);
  g_checksum_update (sum, g_bytes_get_data (xml, NULL), g_bytes_get_size (xml));
  return TRUE;
}

static gboolean
read_kinds (PinLibrary *self, const char *folder, gboolean needed, GChecksum *sum, GError **error)
{
  g_autofree char *dir = g_build_filename (folder, "kinds", NULL);
  g_auto (GStrv) paths = pin_folder_files (dir, needed, error);

  if (paths == NULL)
    return FALSE;
  for (int i = 0; paths[i] != NULL; i++)
    {
      g_autoptr (GError) cause = NULL;
      g_autoptr (GPtrArray) messages = g_ptr_array_new_with_free_func (g_free);

      if (!read_kinds_file (self, paths[i], sum, messages, &cause))
        pin_trouble_add (self->troubles, paths[i], cause->message);
      for (guint j = 0; j < messages->len; j++)
        pin_trouble_add (self->troubles, paths[i], messages->pdata[j]);
    }
  return TRUE;
}

/* ==== Opening ==== */

static PinLibrary *
library_alloc (const char *shipped, const char *own)
{
  PinLibrary *self = g_new0 (PinLibrary, 1);

  self->shipped = g_strdup (shipped);
  self->own = g_strdup (own);
  self->kinds = pin_kinds_table_new ();
  self->kinds_texts = g_ptr_array_new_with_free_func ((GDestroyNotify) kinds_text_free);
  self->troubles = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_trouble_free);
  return self;
}

/* A library of the texts in @shipped and, if not NULL, in @own: folders that
 * hold kinds/, procedures/ and chassis/.  Kinds are read now; the rest when it
 * is first asked for.
 *
 * Returns: (transfer full): free with pin_library_free().
 * Errors: PIN_LIBRARY_ERROR_READ if @shipped has no kinds; a broken file is no
 * error but a trouble. */
PinLibrary *
pin_library_new (const char *shipped, const char *own, GError **error)
{
  g_autoptr (PinLibrary) self = library_alloc (shipped, own);
  g_autoptr (GChecksum) sum = g_checksum_new (G_CHECKSUM_SHA256);
  g_autoptr (GError) cause = NULL;

  if (!read_kinds (self, shipped, TRUE, sum, error))
    return NULL;
  if (own != NULL && !read_kinds (self, own, FALSE, sum, &cause))
    pin_trouble_add (self->troubles, own, cause->message);
  self->kinds_sha = g_strdup (g_checksum_get_string (sum));
  return g_steal_pointer (&self);
}

/* The library of this installation and this user: HINGEPIN_DATA_DIR or the
 * installed data, and hingepin/ in the user's data folder. */
PinLibrary *
pin_library_new_default (GError **error)
{
  g_autofree char *own = g_build_filename (g_get_user_data_dir (), "hingepin", NULL);

  return pin_library_new (pin_library_data_dir (), own, error);
}

/* The words of @texts, as the book has kept them, with the shelves of @self,
 * which must outlive it: what a walk begun under other kinds is read with.
 *
 * Returns: (transfer full): free with pin_library_free().
 * Errors: PIN_LIBRARY_ERROR if one of them is no file of kinds. */
PinLibrary *
pin_library_with_kinds (PinLibrary *self, GPtrArray *texts, GError **error)
{
  g_autoptr (PinLibrary) other = library_alloc (self->shipped, self->own);
  g_autoptr (GChecksum) sum = g_checksum_new (G_CHECKSUM_SHA256);
  g_autoptr (GPtrArray) messages = g_ptr_array_new_with_free_func (g_free);
  PinRemarks remarks = { KEPT_TEXT, messages };

  other->shelves = self->shelves ? self->shelves : self;
  for (guint i = 0; i < texts->len; i++)
    {
      GBytes *xml = texts->pdata[i];
      g_autoptr (xmlDoc) doc = pin_open_as (xml, KEPT_TEXT, PIN_FILE_KINDS, error);

      if (doc == NULL)
        return NULL;
      pin_kinds_table_add_doc (other->kinds, doc, &remarks);
      keep_kinds_text (other, KEPT_TEXT, xml);
      g_checksum_update (sum, g_bytes_get_data (xml, NULL), g_bytes_get_size (xml));
    }
  if (!pin_open_settle (messages, error))
    return NULL;
  other->kinds_sha = g_strdup (g_checksum_get_string (sum));
  return g_steal_pointer (&other);
}

void
pin_library_free (PinLibrary *self)
{
  if (self == NULL)
    return;
  g_clear_pointer (&self->procedures, pin_shelf_free);
  g_clear_pointer (&self->chassis, pin_shelf_free);
  g_clear_pointer (&self->kinds, pin_kinds_table_free);
  g_clear_pointer (&self->kinds_texts, g_ptr_array_unref);
  g_clear_pointer (&self->troubles, g_ptr_array_unref);
  g_free (self->kinds_sha);
  g_free (self->shipped);
  g_free (self->own);
  g_free (self);
}

/* ==== Shelves ==== */

/* The user's own texts must make sense as well as pass the gate, for a walk
 * trusts them. */
static void
reject_nonsense (PinLibrary *self, PinShelf *shelf, const char *dir)
{
  for (int type = 0; type < PIN_N_TEXTS; type++)
    {
      g_autoptr (GPtrArray) list = pin_shelf_list (shelf, type);

      for (guint i = 0; i < list->len; i++)
        {
          PinText *text = list->pdata[i];
          g_autofree char *folder = g_path_get_dirname (text->path);
          g_autoptr (GPtrArray) messages = g_ptr_array_new_with_free_func (g_free);

          if (!g_str_equal (folder, dir) || pin_library_check (self, text->path, messages))
            continue;
          for (guint j = 0; j < messages->len; j++)
            pin_trouble_add (self->troubles, text->path, messages->pdata[j]);
          pin_shelf_reject (shelf, text);
        }
    }
}

static void
fill_shelf (PinLibrary *self, PinShelf **shelf, const char *name)
{
  g_autofree char *shipped = g_build_filename (self->shipped, name, NULL);
  g_autofree char *own = self->own ? g_build_filename (self->own, name, NULL) : NULL;

  *shelf = pin_shelf_new (self->troubles);
  pin_shelf_add (*shelf, shipped, FALSE);
  if (own == NULL)
    return;
  pin_shelf_add (*shelf, own, TRUE);
  reject_nonsense (self, *shelf, own);
}

/* The shelf that holds texts of @type, filled on first use. */
PinShelf *
pin_library_shelf (PinLibrary *self, PinTextType type)
{
  if (self->shelves != NULL)
    return pin_library_shelf (self->shelves, type);
  if (type == PIN_TEXT_CHASSIS)
    {
      if (self->chassis == NULL)
        fill_shelf (self, &self->chassis, "chassis");
      return self->chassis;
    }
  if (self->procedures == NULL)
    fill_shelf (self, &self->procedures, "procedures");
  return self->procedures;
}

/* Reads now what would be read when first asked for. */
void
pin_library_fill (PinLibrary *self)
{
  pin_library_shelf (self, PIN_TEXT_CHASSIS);
  pin_library_shelf (self, PIN_TEXT_PROCEDURE);
}

static GPtrArray *
list (PinLibrary *self, PinTextType type)
{
  GPtrArray *texts = pin_shelf_list (pin_library_shelf (self, type), type);

  for (guint i = 0; i < texts->len; i++)
    texts->pdata[i] = ((PinText *) texts->pdata[i])->any;
  return texts;
}

static gpointer
find (PinLibrary *self, PinTextType type, const char *what, const char *id, GError **error)
{
  GHashTable *texts = pin_library_shelf (self, type)->texts[type];
  PinText *text = g_hash_table_lookup (texts, id);
  g_autofree char *right = NULL;

  if (text != NULL)
    return text->any;
  right = pin_suggest_key (id, texts);
  g_set_error (error, PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_UNKNOWN, _("“%s” is no %s known here, %s"), id,
               _(what), right ? right : _("list them to see their names"));
  return NULL;
}

/* By id; the array is the caller's, what is in it is not. */
GPtrArray *
pin_library_procedures (PinLibrary *self)
{
  return list (self, PIN_TEXT_PROCEDURE);
}

GPtrArray *
pin_library_teardowns (PinLibrary *self)
{
  return list (self, PIN_TEXT_TEARDOWN);
}

GPtrArray *
pin_library_chassis_all (PinLibrary *self)
{
  return list (self, PIN_TEXT_CHASSIS);
}

/* Errors: PIN_LIBRARY_ERROR_UNKNOWN, with the nearest id that there is. */
PinProcedure *
pin_library_procedure (PinLibrary *self, const char *id, GError **error)
{
  return find (self, PIN_TEXT_PROCEDURE, N_("procedure"), id, error);
}

PinTeardown *
pin_library_teardown (PinLibrary *self, const char *id, GError **error)
{
  return find (self, PIN_TEXT_TEARDOWN, N_("teardown"), id, error);
}

PinChassis *
pin_library_chassis (PinLibrary *self, const char *id, GError **error)
{
  return find (self, PIN_TEXT_CHASSIS, N_("chassis type"), id, error);
}

/* ==== Words ==== */

const PinPartKind *
pin_library_kind (PinLibrary *self, const char *id)
{
  return pin_kinds_table_find (self->kinds, PIN_WORD_KIND, id);
}

const PinDeed *
pin_library_deed (PinLibrary *self, const char *id)
{
  return pin_kinds_table_find (self->kinds, PIN_WORD_DEED, id);
}

const PinSpec *
pin_library_spec (PinLibrary *self, const char *id)
{
  return pin_kinds_table_find (self->kinds, PIN_WORD_SPEC, id);
}

const PinCondition *
pin_library_condition (PinLibrary *self, const char *id)
{
  return pin_kinds_table_find (self->kinds, PIN_WORD_CONDITION, id);
}

const PinQuantity *
pin_library_quantity (PinLibrary *self, const char *id)
{
  return pin_kinds_table_find (self->kinds, PIN_WORD_QUANTITY, id);
}

const PinDebt *
pin_library_debt (PinLibrary *self, const char *id)
{
  return pin_kinds_table_find (self->kinds, PIN_WORD_DEBT, id);
}

const PinJob *
pin_library_job (PinLibrary *self, const char *id)
{
  return pin_kinds_table_find (self->kinds, PIN_WORD_JOB, id);
}

const PinSupply *
pin_library_tool (PinLibrary *self, const char *id)
{
  return pin_kinds_table_find (self->kinds, PIN_WORD_TOOL, id);
}

const PinSupply *
pin_library_supply (PinLibrary *self, const char *id)
{
  return pin_kinds_table_find (self->kinds, PIN_WORD_SUPPLY, id);
}

/* The layers of the plan view, in order. */
const GPtrArray *
pin_library_groups (PinLibrary *self)
{
  return self->kinds->all[PIN_WORD_GROUP];
}

const GPtrArray *
pin_library_kinds (PinLibrary *self)
{
  return self->kinds->all[PIN_WORD_KIND];
}

/* SHA-256 over all files of kinds in reading order. */
const char *
pin_library_kinds_sha (PinLibrary *self)
{
  return self->kinds_sha;
}

const GPtrArray *
pin_library_kinds_texts (PinLibrary *self)
{
  return self->kinds_texts;
}

/* What has been found wrong with files so far. */
const GPtrArray *
pin_library_troubles (PinLibrary *self)
{
  return self->troubles;
}
