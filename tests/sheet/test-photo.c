#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gstdio.h>
#include <string.h>

#include "sheet/photo.h"

static char *folder;

static char *
path_of (const char *name)
{
  return g_build_filename (folder, name, NULL);
}

static GBytes *
jpeg_of (int width, int height)
{
  g_autoptr (GdkPixbuf) picture = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, width, height);
  g_autoptr (GError) error = NULL;
  char *data;
  gsize size;

  gdk_pixbuf_fill (picture, 0x336699ff);
  gdk_pixbuf_save_to_buffer (picture, &data, &size, "jpeg", &error, NULL);
  g_assert_no_error (error);
  return g_bytes_new_take (data, size);
}

/* The same picture with an Exif segment that says how it was held (tag 0x0112
 * of Exif 2.3; 6: the top is at the right) and that it was taken somewhere. */
static void
write_held (const char *path, int width, int height, guint8 orientation)
{
  const guint8 exif[] = { 0xff, 0xe1, 0x00, 0x2e, 'E', 'x', 'i', 'f', 0, 0,
                          'M', 'M', 0, 42, 0, 0, 0, 8, 0, 2,
                          0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0,
                          0x88, 0x25, 0, 4, 0, 0, 0, 1, 0, 0, 0, 38,
                          0, 0, 0, 0 };
  g_autoptr (GBytes) plain = jpeg_of (width, height);
  g_autoptr (GByteArray) all = g_byte_array_new ();
  const guint8 *data;
  gsize size;

  data = g_bytes_get_data (plain, &size);
  g_byte_array_append (all, data, 2);
  g_byte_array_append (all, exif, sizeof exif);
  g_byte_array_append (all, data + 2, size - 2);
  g_assert_true (g_file_set_contents (path, (const char *) all->data, all->len, NULL));
}

static GdkPixbuf *
read_back (GBytes *jpeg)
{
  g_autoptr (GInputStream) stream = g_memory_input_stream_new_from_bytes (jpeg);
  g_autoptr (GError) error = NULL;
  GdkPixbuf *picture = gdk_pixbuf_new_from_stream (stream, NULL, &error);

  g_assert_no_error (error);
  return picture;
}

static gboolean
holds (GBytes *bytes, const char *word)
{
  gsize size;
  const char *data = g_bytes_get_data (bytes, &size);

  return memmem (data, size, word, strlen (word)) != NULL;
}

static void
test_upright_and_bare (void)
{
  g_autofree char *path = path_of ("held.jpg");
  g_autofree char *raw = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) kept = NULL;
  g_autoptr (GBytes) before = NULL;
  g_autoptr (GdkPixbuf) picture = NULL;
  gsize size;

  write_held (path, 320, 200, 6);
  g_assert_true (g_file_get_contents (path, &raw, &size, NULL));
  before = g_bytes_new (raw, size);
  g_assert_true (holds (before, "Exif"));
  kept = pin_photo_prepare (path, &error);
  g_assert_no_error (error);
  g_assert_false (holds (kept, "Exif"));
  picture = read_back (kept);
  g_assert_cmpint (gdk_pixbuf_get_width (picture), ==, 200);
  g_assert_cmpint (gdk_pixbuf_get_height (picture), ==, 320);
}

static void
test_at_most_1600 (void)
{
  g_autofree char *path = path_of ("large.jpg");
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) kept = NULL;
  g_autoptr (GdkPixbuf) picture = NULL;

  write_held (path, 3200, 1000, 1);
  kept = pin_photo_prepare (path, &error);
  g_assert_no_error (error);
  picture = read_back (kept);
  g_assert_cmpint (gdk_pixbuf_get_width (picture), ==, 1600);
  g_assert_cmpint (gdk_pixbuf_get_height (picture), ==, 500);
}

static void
refuse (const char *name, const char *content, gsize size)
{
  g_autofree char *path = path_of (name);
  g_autoptr (GError) error = NULL;

  if (content)
    g_assert_true (g_file_set_contents (path, content, size, NULL));
  g_assert_null (pin_photo_prepare (path, &error));
  g_assert_nonnull (error);
  g_assert_nonnull (strstr (error->message, name));
}

static void
test_refuses (void)
{
  /* A PNG header that claims 60000 × 60000 pixels (PNG specification, IHDR). */
  static const char huge[] = "\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\xea\x60\0\0\xea\x60\x08\x02\0\0\0\x12\x34\x56\x78";

  refuse ("missing.jpg", NULL, 0);
  refuse ("letter.jpg", "Dear keeper,\n", 13);
  refuse ("empty.jpg", "", 0);
  refuse ("huge.png", huge, sizeof huge - 1);
}

int
main (int argc, char *argv[])
{
  static const char *const names[] = { "held.jpg", "large.jpg", "letter.jpg", "empty.jpg", "huge.png" };
  g_autoptr (GError) error = NULL;
  int status;

  g_test_init (&argc, &argv, NULL);
  folder = g_dir_make_tmp ("photo-XXXXXX", &error);
  g_assert_no_error (error);
  g_test_add_func ("/photo/upright-and-bare", test_upright_and_bare);
  g_test_add_func ("/photo/at-most-1600", test_at_most_1600);
  g_test_add_func ("/photo/refuses", test_refuses);
  status = g_test_run ();
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = path_of (names[i]);

      g_unlink (path);
    }
  g_rmdir (folder);
  g_free (folder);
  return status;
}
