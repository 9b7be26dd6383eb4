#include <string.h>

#include "fixture.h"

/* Each bad/NAME.xml has bad/NAME.errors: the lines that checking it gives, in
 * order, with the file's name alone. */

static char *
messages_of (PinLibrary *library, const char *path, gboolean *sound)
{
  g_autoptr (GPtrArray) messages = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *dir = g_path_get_dirname (path);
  GString *text = g_string_new (NULL);

  *sound = pin_library_check (library, path, messages);
  for (guint i = 0; i < messages->len; i++)
    {
      const char *message = messages->pdata[i];

      g_assert_true (g_str_has_prefix (message, dir));
      g_string_append_printf (text, "%s\n", message + strlen (dir) + 1);
    }
  return g_string_free (text, FALSE);
}

static void
check_folder (const char *name, void (*each) (PinLibrary *library, const char *path), guint least)
{
  g_autoptr (PinLibrary) library = fixture_library (NULL);
  g_autofree char *dir = fixture_path (name);
  g_autoptr (GDir) folder = g_dir_open (dir, 0, NULL);
  const char *file;
  guint n = 0;

  g_assert_nonnull (folder);
  while ((file = g_dir_read_name (folder)) != NULL)
    if (g_str_has_suffix (file, ".xml"))
      {
        g_autofree char *path = g_build_filename (dir, file, NULL);

        g_test_message ("%s", file);
        each (library, path);
        n++;
      }
  g_assert_cmpuint (n, >=, least);
}

static void
is_good (PinLibrary *library, const char *path)
{
  gboolean sound;
  g_autofree char *text = messages_of (library, path, &sound);

  g_assert_cmpstr (text, ==, "");
  g_assert_true (sound);
}

static void
is_bad (PinLibrary *library, const char *path)
{
  g_autofree char *golden = g_strndup (path, strlen (path) - strlen ("xml"));
  g_autofree char *errors = g_strconcat (golden, "errors", NULL);
  g_autofree char *expected = NULL;
  gboolean sound;
  g_autofree char *text = messages_of (library, path, &sound);

  g_assert_true (g_file_get_contents (errors, &expected, NULL, NULL));
  g_assert_cmpstr (text, ==, expected);
  g_assert_false (sound);
  g_assert_cmpstr (text, !=, "");
}

static void
test_good (void)
{
  check_folder ("good", is_good, 3);
  check_folder ("shelf/procedures", is_good, 3);
  check_folder ("shelf/chassis", is_good, 1);
}

static void
test_bad (void)
{
  check_folder ("bad", is_bad, 60);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/golden/good", test_good);
  g_test_add_func ("/golden/bad", test_bad);
  return g_test_run ();
}
