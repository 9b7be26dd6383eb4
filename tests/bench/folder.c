#include "folder.h"

#include <glib.h>
#include <glib/gstdio.h>

char *
bench_folder_new (void)
{
  char *folder = g_build_filename (g_getenv ("PIN_BUILD_ROOT"), "bench-XXXXXX", NULL);

  if (g_mkdtemp (folder) == NULL)
    g_error ("%s cannot be made", folder);
  return folder;
}

void
bench_folder_free (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      g_unlink (path);
    }
  g_rmdir (folder);
}
