#include "sheet/photo.h"

#include "config.h"

#include <gdk-pixbuf/gdk-pixbuf.h>
#include <gio/gio.h>
#include <glib/gi18n.h>

#define MOST 1600
#define QUALITY "85"

/* Above this a small file would unfold to more than a gigabyte. */
#define MOST_PIXELS (G_GINT64_CONSTANT (200) * 1000 * 1000)

static gboolean
is_reasonable (const char *path, GError **error)
{
  int width = 0, height = 0;

  if (gdk_pixbuf_get_file_info (path, &width, &height) == NULL)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA,
                   _("%s is no picture that can be read: choose a JPEG or PNG file"), path);
      return FALSE;
    }
  if ((gint64) width * height > MOST_PIXELS)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA,
                   _("%s is %d × %d pixels large: make it smaller first"), path, width, height);
      return FALSE;
    }
  return TRUE;
}

static GdkPixbuf *
shrink (GdkPixbuf *picture)
{
  int width = gdk_pixbuf_get_width (picture);
  int height = gdk_pixbuf_get_height (picture);
  double scale = (double) MOST / MAX (width, height);

  if (scale >= 1)
    return g_object_ref (picture);
  return gdk_pixbuf_scale_simple (picture, MAX ((int) (width * scale), 1), MAX ((int) (height * scale), 1),
                                  GDK_INTERP_BILINEAR);
}

/* A picture that is written anew carries nothing of the old file but its
 * pixels.  NULL with an error that names @path. */
GBytes *
pin_photo_prepare (const char *path, GError **error)
{
  g_autoptr (GdkPixbuf) raw = is_reasonable (path, error) ? gdk_pixbuf_new_from_file (path, error) : NULL;
  g_autoptr (GdkPixbuf) upright = raw ? gdk_pixbuf_apply_embedded_orientation (raw) : NULL;
  g_autoptr (GdkPixbuf) small = upright ? shrink (upright) : NULL;
  char *jpeg;
  gsize size;

  if (small == NULL || !gdk_pixbuf_save_to_buffer (small, &jpeg, &size, "jpeg", error, "quality", QUALITY, NULL))
    return NULL;
  return g_bytes_new_take (jpeg, size);
}
