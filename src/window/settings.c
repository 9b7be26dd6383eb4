#include "window/settings.h"

#define GROUP "Hingepin"

static char *
settings_path (void)
{
  return g_build_filename (g_get_user_config_dir (), "hingepin", "settings.ini", NULL);
}

static GKeyFile *
settings_load (void)
{
  GKeyFile *file = g_key_file_new ();
  g_autofree char *path = settings_path ();

  g_key_file_load_from_file (file, path, G_KEY_FILE_KEEP_COMMENTS, NULL);
  return file;
}

/* NULL if never chosen.  Returns: (transfer full) */
char *
pin_settings_get (const char *key)
{
  g_autoptr (GKeyFile) file = settings_load ();

  return g_key_file_get_string (file, GROUP, key, NULL);
}

void
pin_settings_set (const char *key, const char *value)
{
  g_autoptr (GKeyFile) file = settings_load ();
  g_autofree char *path = settings_path ();
  g_autofree char *folder = g_path_get_dirname (path);
  g_autoptr (GError) error = NULL;

  g_key_file_set_string (file, GROUP, key, value);
  g_mkdir_with_parents (folder, 0700);
  if (!g_key_file_save_to_file (file, path, &error))
    g_info ("settings not kept: %s", error->message);
}
