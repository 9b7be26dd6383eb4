#include "ui/ui-private.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <locale.h>
#include <signal.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

enum { POLL_US = 50000, MOST_STARTS = 5 };

/* Seconds until a look-up is given up; a sanitizer needs more. */
static double
patience (void)
{
  const char *factor = g_getenv ("PIN_UI_PATIENCE");

  return 10 * (factor ? g_ascii_strtod (factor, NULL) : 1);
}

gboolean
pin_ui_has_ended (PinUi *ui)
{
  if (!ui->ended && waitpid (ui->pid, &ui->status, WNOHANG) == ui->pid)
    ui->ended = TRUE;
  return ui->ended;
}

/* FALSE if @test did not come true in time. */
gboolean
pin_ui_poll (const char *where, PinUi *ui, PinUiTest test, gpointer data)
{
  gint64 last = g_get_monotonic_time () + (gint64) (patience () * G_USEC_PER_SEC);

  for (;;)
    {
      if (test (ui, data))
        return TRUE;
      if (pin_ui_has_ended (ui))
        pin_ui_fail (where, ui, "the program ended meanwhile");
      if (g_get_monotonic_time () > last)
        return FALSE;
      g_usleep (POLL_US);
    }
}

static void
tell_lines (const char *text)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);

  for (int i = 0; lines[i]; i++)
    g_test_message ("%s", lines[i]);
}

/* A picture of the screen as it was, in the build folder. */
static void
keep_picture (void)
{
  g_autofree char *folder = g_build_filename (g_getenv ("PIN_BUILD_ROOT"), "failures", NULL);
  g_autofree char *name = g_strdup_printf ("%s.png", g_test_get_path () + 1);
  g_autofree char *file = g_build_filename (folder, g_strdelimit (name, "/", '-'), NULL);
  const char *argv[] = { "import", "-window", "root", file, NULL };

  g_mkdir_with_parents (folder, 0755);
  if (g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, NULL,
                    NULL))
    g_test_message ("the screen: %s", file);
}

static void
tell_end (PinUi *ui)
{
  if (WIFSIGNALED (ui->status))
    g_test_message ("the program was ended by signal %d", WTERMSIG (ui->status));
  else
    g_test_message ("the program ended with status %d", WEXITSTATUS (ui->status));
}

void
pin_ui_fail (const char *where, PinUi *ui, const char *format, ...)
{
  g_autofree char *message = NULL;
  g_auto (GStrv) place = g_strsplit (where, ":", 2);
  va_list args;

  va_start (args, format);
  message = g_strdup_vprintf (format, args);
  va_end (args);
  if (pin_ui_has_ended (ui))
    tell_end (ui);
  else
    {
      g_autofree char *tree = pin_ui_tree (ui);

      tell_lines (tree);
      keep_picture ();
      kill (ui->pid, SIGKILL);
    }
  g_assertion_message (G_LOG_DOMAIN, place[0], (int) g_ascii_strtoll (place[1], NULL, 10),
                       g_test_get_path (), message);
  abort ();
}

/* Runs a tool of the screen, NULL-terminated; its output, if wanted, is to be
 * freed with g_free(). */
void
pin_ui_run_tool (const char *where, PinUi *ui, char **output, ...)
{
  g_autoptr (GPtrArray) argv = g_ptr_array_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *out = NULL;
  g_autofree char *err = NULL;
  int status = 0;
  va_list args;

  va_start (args, output);
  for (char *word = va_arg (args, char *); word; word = va_arg (args, char *))
    g_ptr_array_add (argv, word);
  va_end (args);
  g_ptr_array_add (argv, NULL);
  if (!g_spawn_sync (NULL, (char **) argv->pdata, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &out, &err,
                     &status, &error) ||
      !g_spawn_check_wait_status (status, &error))
    pin_ui_fail (where, ui, "%s: %s %s", (char *) argv->pdata[0], error->message, err ? err : "");
  if (output)
    *output = g_strstrip (g_steal_pointer (&out));
}

char *
pin_ui_new_home (void)
{
  /* In the folder of ui-run.sh, which removes what a failed test leaves. */
  char *home = g_build_filename (g_getenv ("PIN_UI_DIR"), "home-XXXXXX", NULL);
  g_autoptr (GError) error = NULL;
  g_autofree char *config = NULL;
  g_autofree char *settings = NULL;

  g_assert_nonnull (g_mkdtemp (home));
  config = g_build_filename (home, "config", "gtk-4.0", NULL);
  settings = g_build_filename (config, "settings.ini", NULL);
  g_assert_cmpint (g_mkdir_with_parents (config, 0700), ==, 0);
  g_file_set_contents (settings,
                       "[Settings]\ngtk-enable-animations=false\ngtk-cursor-blink=false\n", -1,
                       &error);
  g_assert_no_error (error);
  return home;
}

static void
remove_tree (const char *path)
{
  g_autoptr (GDir) dir = NULL;

  if (g_file_test (path, G_FILE_TEST_IS_DIR) && !g_file_test (path, G_FILE_TEST_IS_SYMLINK) &&
      (dir = g_dir_open (path, 0, NULL)))
    for (const char *name = g_dir_read_name (dir); name; name = g_dir_read_name (dir))
      {
        g_autofree char *inner = g_build_filename (path, name, NULL);

        remove_tree (inner);
      }
  g_remove (path);
}

void
pin_ui_remove_home (char *home)
{
  remove_tree (home);
  g_free (home);
}

static char **
environment_of (const char *home)
{
  static const char *const folders[][2] = {
    { "XDG_DATA_HOME", "data" },
    { "XDG_CONFIG_HOME", "config" },
    { "XDG_CACHE_HOME", "cache" },
    { "XDG_STATE_HOME", "state" },
  };
  char **env = g_environ_setenv (g_get_environ (), "HOME", home, TRUE);

  for (gsize i = 0; i < G_N_ELEMENTS (folders); i++)
    {
      g_autofree char *folder = g_build_filename (home, folders[i][1], NULL);

      env = g_environ_setenv (env, folders[i][0], folder, TRUE);
    }
  return env;
}

/* The program must not outlive a test that aborts, nor write into its report. */
static void
in_the_child (gpointer data)
{
  prctl (PR_SET_PDEATHSIG, SIGKILL);
  dup2 (STDERR_FILENO, STDOUT_FILENO);
}

static gboolean
has_window (PinUi *ui, gpointer data)
{
  g_autoptr (PinThing) app = pin_ui_application (ui);
  g_autoptr (PinThing) frame = app ? pin_ui_look_in (app, ATSPI_ROLE_FRAME, NULL) : NULL;

  return frame != NULL;
}

/* The library of the accessibility bus warns in our process when it asks a program
 * that is still starting, or was killed; that says nothing about the program. */
static void
pass_over (const char *domain, GLogLevelFlags level, const char *message, gpointer data)
{
}

static gboolean
is_fatal (const char *domain, GLogLevelFlags level, const char *message, gpointer data)
{
  return g_strcmp0 (domain, "dbind") != 0;
}

/* FALSE if it ended well at once: then it found the name of one before it still on
 * the bus, and left its window to that. */
static gboolean
start (const char *where, PinUi *ui, GPtrArray *argv, char **env)
{
  gint64 last = g_get_monotonic_time () + (gint64) (patience () * G_USEC_PER_SEC);
  g_autoptr (GError) error = NULL;

  ui->ended = FALSE;
  if (!g_spawn_async (ui->home, (char **) argv->pdata, env, G_SPAWN_DO_NOT_REAP_CHILD, in_the_child, NULL,
                      &ui->pid, &error))
    g_error ("%s: %s", where, error->message);
  while (!has_window (ui, NULL))
    {
      if (pin_ui_has_ended (ui))
        {
          if (ui->status != 0)
            pin_ui_fail (where, ui, "the program ended at its start, with status %d", ui->status);
          g_usleep (4 * POLL_US);
          return FALSE;
        }
      if (g_get_monotonic_time () > last)
        pin_ui_fail (where, ui, "no window of the program appeared");
      g_usleep (POLL_US);
    }
  return TRUE;
}

PinUi *
pin_ui_start_at (const char *where, const char *program, const char *home, ...)
{
  PinUi *ui = g_new0 (PinUi, 1);
  g_autoptr (GPtrArray) argv = g_ptr_array_new ();
  g_autofree char *path = g_build_filename (g_getenv ("PIN_BUILD_ROOT"), program, NULL);
  g_auto (GStrv) env = environment_of (home);
  va_list args;

  g_ptr_array_add (argv, path);
  va_start (args, home);
  for (char *word = va_arg (args, char *); word; word = va_arg (args, char *))
    g_ptr_array_add (argv, word);
  va_end (args);
  g_ptr_array_add (argv, NULL);
  ui->home = g_strdup (home);
  setlocale (LC_ALL, "");
  g_log_set_handler ("dbind", G_LOG_LEVEL_WARNING | G_LOG_FLAG_FATAL, pass_over, NULL);
  g_test_log_set_fatal_handler (is_fatal, NULL);
  atspi_init ();
  atspi_set_timeout (5000, 15000);
  for (int tries = 1; !start (where, ui, argv, env); tries++)
    if (tries == MOST_STARTS)
      pin_ui_fail (where, ui, "the program ended at its start, %d times", tries);
  return ui;
}

static void
pin_ui_free (PinUi *ui)
{
  pin_ui_wait_off_bus (ui->pid);
  g_free (ui->home);
  g_free (ui->inside_name);
  g_clear_object (&ui->inside);
  g_free (ui);
}

void
pin_ui_kill (PinUi *ui)
{
  if (!pin_ui_has_ended (ui))
    {
      kill (ui->pid, SIGKILL);
      waitpid (ui->pid, &ui->status, 0);
    }
  pin_ui_free (ui);
}

void
pin_ui_ended_at (const char *where, PinUi *ui)
{
  gint64 last = g_get_monotonic_time () + (gint64) (patience () * G_USEC_PER_SEC);

  while (!pin_ui_has_ended (ui))
    {
      if (g_get_monotonic_time () > last)
        pin_ui_fail (where, ui, "the program did not end when its window was closed");
      g_usleep (POLL_US);
    }
  if (!WIFEXITED (ui->status) || WEXITSTATUS (ui->status) != 0)
    pin_ui_fail (where, ui, "the program did not end well");
  pin_ui_free (ui);
}

void
pin_ui_close_at (const char *where, PinUi *ui)
{
  pin_ui_inside (ui, 0, NULL);
  pin_ui_action_at (where, ui, "window.close");
  pin_ui_ended_at (where, ui);
}

typedef struct
{
  gboolean (*test) (gpointer data);
  gpointer data;
} Outside;

static gboolean
test_outside (PinUi *ui, gpointer data)
{
  Outside *outside = data;

  return outside->test (outside->data);
}

void
pin_ui_wait_for_at (const char *where, PinUi *ui, gboolean (*test) (gpointer data), gpointer data,
                    const char *what)
{
  Outside outside = { test, data };

  if (!pin_ui_poll (where, ui, test_outside, &outside))
    pin_ui_fail (where, ui, "waited in vain for %s", what);
}
