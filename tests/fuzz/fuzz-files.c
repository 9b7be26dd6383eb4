/* Files of every type, broken, before the check that all files go through. */

#include <glib/gstdio.h>
#include <locale.h>
#include <stdio.h>
#include <string.h>

#include "fuzz.h"
#include "library/library.h"

static const char *const words[] = {
  "<", ">", "/>", "</", "\"", "'", "&amp;", "&", "&#0;", "&#x10FFFF;", "&#xD800;", "&lt", "<!--",
  "-->", "<![CDATA[", "]]>", "<?xml version=\"1.1\"?>", "<?x ?>", "<!DOCTYPE p [<!ENTITY a \"b\">]>",
  " xmlns=\"\"", " xmlns:a=\"urn:a\"", " id=\"\"", " id=\"x\"", "urn:hingepin:kinds:1", " ", "\n",
  "\t", "\xc3\x28", "\xef\xbb\xbf", "\xff\xfe", "\xc2\xa0", "|", ",", "/", "*", "..", "%s%n", NULL,
};

typedef struct
{
  PinLibrary *library;
  char *path;
  guint sound, refused;
} Check;

/* Without waiting for a disk. */
static void
put (const char *path, const char *text, gsize length)
{
  FILE *file = fopen (path, "wb");

  g_assert_nonnull (file);
  g_assert_cmpuint (fwrite (text, 1, length, file), ==, length);
  g_assert_cmpint (fclose (file), ==, 0);
}

static void
attempt (const char *text, gsize length, gpointer data)
{
  Check *self = data;
  g_autoptr (GPtrArray) messages = g_ptr_array_new_with_free_func (g_free);
  gboolean sound;

  put (self->path, text, length);
  sound = pin_library_check (self->library, self->path, messages);
  g_assert_cmpint (sound, ==, messages->len == 0);
  for (guint i = 0; i < messages->len; i++)
    {
      const char *message = messages->pdata[i];

      g_assert_true (g_utf8_validate (message, -1, NULL));
      g_assert_true (g_str_has_prefix (message, self->path));
      g_assert_null (strchr (message, '\n'));
    }
  self->sound += sound;
  self->refused += !sound;
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  FuzzFood food = { NULL, words };
  Check self = { pin_library_new (g_getenv ("HINGEPIN_DATA_DIR"), NULL, &error), NULL, 0, 0 };
  g_autofree char *folder = g_dir_make_tmp ("fuzz-XXXXXX", NULL);
  int status;

  g_assert_no_error (error);
  setlocale (LC_ALL, "");
  self.path = g_build_filename (folder, "broken.xml", NULL);
  fuzz_add_dir (&food, "data/procedures");
  fuzz_add_dir (&food, "data/chassis");
  fuzz_add_dir (&food, "data/kinds");
  fuzz_add_dir (&food, "tests/library/good");
  status = fuzz_main (argc, argv, &food, 500, attempt, &self);
  /* Neither all let in nor all turned away at the door. */
  g_assert_true (argc > 1 || self.sound + self.refused < 100 || (self.sound > 0 && self.refused > 50));
  g_unlink (self.path);
  g_rmdir (folder);
  g_free (self.path);
  pin_library_free (self.library);
  fuzz_clear (&food);
  return status;
}
