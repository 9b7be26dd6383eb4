#include <gio/gio.h>
#include <glib/gi18n.h>

#include "library/error.h"
#include "library/shelf.h"

void
pin_trouble_free (PinTrouble *self)
{
  g_free (self->file);
  g_free (self->message);
  g_free (self);
}

void
pin_trouble_add (GPtrArray *troubles, const char *file, const char *message)
{
  PinTrouble *trouble = g_new0 (PinTrouble, 1);

  trouble->file = g_strdup (file);
  trouble->message = g_strdup (message);
  g_ptr_array_add (troubles, trouble);
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(char **) a, *(char **) b);
}

/* Paths of the .xml files in @dir by name, the same in every locale.  A folder
 * that is not there holds none, unless it is @needed.  Free with g_strfreev().
 *
 * Errors: PIN_LIBRARY_ERROR_READ. */
char **
pin_folder_files (const char *dir, gboolean needed, GError **error)
{
  g_autoptr (GError) cause = NULL;
  g_autoptr (GDir) folder = g_dir_open (dir, 0, &cause);
  g_autoptr (GPtrArray) paths = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  if (folder == NULL && (needed || !g_error_matches (cause, G_FILE_ERROR, G_FILE_ERROR_NOENT)))
    {
      g_set_error (error, PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_READ,
                   _("%s:1: the folder cannot be read (%s), set HINGEPIN_DATA_DIR or install Hingepin again"),
                   dir, cause->message);
      return NULL;
    }
  while (folder != NULL && (name = g_dir_read_name (folder)) != NULL)
    if (g_str_has_suffix (name, ".xml") && *name != '.')
      g_ptr_array_add (paths, g_build_filename (dir, name, NULL));
  g_ptr_array_sort (paths, by_name);
  g_ptr_array_add (paths, NULL);
  return (char **) g_ptr_array_free (g_steal_pointer (&paths), FALSE);
}
