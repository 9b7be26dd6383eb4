#include "library/xml-reader.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <sys/stat.h>
#include <unistd.h>

#include "library/error.h"

static gboolean
refuse (GError **error, const char *path, const char *what)
{
  g_set_error (error, PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_READ, "%s:1: %s", path, what);
  return FALSE;
}

static gboolean
refuse_errno (GError **error, const char *path, int number)
{
  g_set_error (error, PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_READ, _("%s:1: cannot be read (%s), %s"),
               path, g_strerror (number),
               number == ENOENT ? _("check its name") : _("check its permissions"));
  return FALSE;
}

static gboolean
refuse_size (GError **error, const char *path)
{
  g_set_error (error, PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_HOSTILE,
               _("%s:1: the file is larger than 1 MiB, split it or shorten it"), path);
  return FALSE;
}

/* Only plain files: opening a pipe would wait for its other end, and opening
 * a device may do something. */
static gboolean
is_acceptable (const struct stat *state, const char *path, GError **error)
{
  if (S_ISDIR (state->st_mode))
    return refuse (error, path, _("this is a folder, name a file in it"));
  if (!S_ISREG (state->st_mode))
    return refuse (error, path, _("this is no plain file, name an XML file"));
  if (state->st_size > PIN_XML_MOST_BYTES)
    return refuse_size (error, path);
  return TRUE;
}

static GBytes *
read_all (int fd, const char *path, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  guint8 block[65536];

  for (;;)
    {
      gssize n = read (fd, block, sizeof block);

      if (n < 0 && errno == EINTR)
        continue;
      if (n < 0)
        {
          refuse_errno (error, path, errno);
          return NULL;
        }
      if (n == 0)
        return g_byte_array_free_to_bytes (g_steal_pointer (&bytes));
      g_byte_array_append (bytes, block, n);
      if (bytes->len > PIN_XML_MOST_BYTES)
        {
          refuse_size (error, path);
          return NULL;
        }
    }
}

/* The exact bytes of a plain file of at most 1 MiB.  Never waits, and reads
 * nothing of a file that is too large.
 *
 * Errors: PIN_LIBRARY_ERROR_READ, PIN_LIBRARY_ERROR_HOSTILE. */
GBytes *
pin_xml_load (const char *path, GError **error)
{
  struct stat state;
  GBytes *bytes = NULL;
  int fd;

  g_return_val_if_fail (path != NULL, NULL);
  if (g_stat (path, &state) != 0)
    {
      refuse_errno (error, path, errno);
      return NULL;
    }
  if (!is_acceptable (&state, path, error))
    return NULL;
  fd = g_open (path, O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC, 0);
  if (fd < 0)
    {
      refuse_errno (error, path, errno);
      return NULL;
    }
  /* Again, for it may have been replaced in between. */
  if (fstat (fd, &state) != 0)
    refuse_errno (error, path, errno);
  else if (is_acceptable (&state, path, error))
    bytes = read_all (fd, path, error);
  close (fd);
  return bytes;
}
