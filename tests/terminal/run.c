#include "run.h"

#include <gio/gio.h>
#include <glib/gstdio.h>
#include <string.h>

char *run_folder;

void
run_start (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *data = NULL;

  run_folder = g_dir_make_tmp ("prompt-XXXXXX", &error);
  g_assert_no_error (error);
  data = g_build_filename (run_folder, "data", NULL);
  g_setenv ("HOME", run_folder, TRUE);
  g_setenv ("XDG_DATA_HOME", data, TRUE);
  g_unsetenv ("DISPLAY");
  g_unsetenv ("WAYLAND_DISPLAY");
}

static void
remove_all (GFile *file)
{
  g_autoptr (GFileEnumerator) children =
    g_file_enumerate_children (file, "standard::name", G_FILE_QUERY_INFO_NOFOLLOW_SYMLINKS, NULL, NULL);
  GFile *child;

  while (children && g_file_enumerator_iterate (children, NULL, &child, NULL, NULL) && child)
    remove_all (child);
  g_file_delete (file, NULL, NULL);
}

void
run_stop (void)
{
  g_autoptr (GFile) folder = g_file_new_for_path (run_folder);

  remove_all (folder);
  g_clear_pointer (&run_folder, g_free);
}

static Run *
run_command (const char *input, const char *command)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocessLauncher) launcher = NULL;
  g_autoptr (GSubprocess) process = NULL;
  g_autofree char *program = g_build_filename (g_getenv ("PIN_BUILD_ROOT"), "src", "hingepin", NULL);
  g_autofree char *quoted = g_shell_quote (program);
  g_autofree char *line = g_strdup_printf ("exec %s %s", quoted, command);
  Run *self = g_new0 (Run, 1);

  launcher = g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE | G_SUBPROCESS_FLAGS_STDERR_PIPE |
                                        G_SUBPROCESS_FLAGS_STDIN_PIPE);
  g_subprocess_launcher_set_cwd (launcher, run_folder);
  process = g_subprocess_launcher_spawn (launcher, &error, "sh", "-c", line, NULL);
  g_assert_no_error (error);
  g_subprocess_communicate_utf8 (process, input, NULL, &self->out, &self->err, &error);
  g_assert_no_error (error);
  if (!g_subprocess_get_if_exited (process))
    g_error ("hingepin %s died of signal %d: %s", command, g_subprocess_get_term_sig (process), self->err);
  self->status = g_subprocess_get_exit_status (process);
  return self;
}

Run *
run (const char *command, ...)
{
  g_autofree char *line = NULL;
  va_list args;

  va_start (args, command);
  line = g_strdup_vprintf (command, args);
  va_end (args);
  return run_command (NULL, line);
}

Run *
run_fed (const char *input, const char *command, ...)
{
  g_autofree char *line = NULL;
  va_list args;

  va_start (args, command);
  line = g_strdup_vprintf (command, args);
  va_end (args);
  return run_command (input, line);
}

void
run_free (Run *self)
{
  g_free (self->out);
  g_free (self->err);
  g_free (self);
}

/* The object printed; it belongs to @parser. */
JsonObject *
run_json (Run *self, JsonParser *parser)
{
  g_autoptr (GError) error = NULL;

  if (self->status != 0)
    g_error ("exit status %d: %s", self->status, self->err);
  json_parser_load_from_data (parser, self->out, -1, &error);
  g_assert_no_error (error);
  g_assert_true (JSON_NODE_HOLDS_OBJECT (json_parser_get_root (parser)));
  return json_node_get_object (json_parser_get_root (parser));
}

/* NULL: that stream must be empty. */
static void
has (const char *text, const char *part, const char *stream)
{
  if (part == NULL ? *text != '\0' : strstr (text, part) == NULL)
    g_error ("%s says “%s”, expected “%s”", stream, text, part ? part : "");
}

void
run_says (Run *self, int status, const char *out_has, const char *err_has)
{
  if (self->status != status)
    g_error ("exit status %d, expected %d: %s%s", self->status, status, self->out, self->err);
  has (self->out, out_has, "standard output");
  has (self->err, err_has, "standard error");
  /* An error is one line, so that a script can show it. */
  if (err_has && strchr (self->err, '\n') != self->err + strlen (self->err) - 1)
    g_error ("the error is not one line: %s", self->err);
  run_free (self);
}
