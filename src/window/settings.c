#include "window/settings.h"

#include <gio/gio.h>

#define GROUP "Hingepin"

static GKeyFile *settings;    /* as kept; main thread */
static GThreadPool *keeper;   /* one thread: what was chosen last is kept last */

static char *
settings_path (void)
{
  return g_build_filename (g_get_user_config_dir (), "hingepin", "settings.ini", NULL);
}

static GKeyFile *
load (void)
{
  g_autofree char *path = settings_path ();

  if (settings == NULL)
    {
      settings = g_key_file_new ();
      g_key_file_load_from_file (settings, path, G_KEY_FILE_KEEP_COMMENTS, NULL);
    }
  return settings;
}

/* Disks can be slow, and the screen must not wait for them. */
static void
keep (gpointer data, gpointer user_data)
{
  g_autofree char *text = data;
  g_autofree char *path = settings_path ();
  g_autofree char *folder = g_path_get_dirname (path);
  g_autoptr (GError) error = NULL;

  g_mkdir_with_parents (folder, 0700);
  if (!g_file_set_contents (path, text, -1, &error))
    g_info ("settings not kept: %s", error->message);
}

/* NULL if never chosen.  Returns: (transfer full) */
char *
pin_settings_get (const char *key)
{
  return g_key_file_get_string (load (), GROUP, key, NULL);
}

void
pin_settings_set (const char *key, const char *value)
{
  g_autofree char *was = pin_settings_get (key);

  if (g_strcmp0 (was, value) == 0)
    return;
  g_key_file_set_string (load (), GROUP, key, value);
  if (keeper == NULL)
    keeper = g_thread_pool_new (keep, NULL, 1, TRUE, NULL);
  g_thread_pool_push (keeper, g_key_file_to_data (settings, NULL, NULL), NULL);
}

/* Waits until all is on the disk; before the program ends. */
void
pin_settings_flush (void)
{
  if (keeper != NULL)
    g_thread_pool_free (g_steal_pointer (&keeper), FALSE, TRUE);
  g_clear_pointer (&settings, g_key_file_unref);
}
