#include "library/xml-scan.h"

#include <glib/gi18n.h>
#include <string.h>

#include "library/error.h"
#include "library/xml-reader.h"

/* What is settled from the bytes alone, before a parser sees them: that they
 * are UTF-8, so that nothing can hide in another encoding, and that no tag is
 * built to keep the parser busy. */

static int
line_at (const char *text, const char *place)
{
  int line = 1;

  for (const char *p = text; p < place; p++)
    line += *p == '\n';
  return line;
}

static gboolean
refuse (GError **error, int code, const char *path, int line, const char *what)
{
  g_set_error (error, PIN_LIBRARY_ERROR, code, "%s:%d: %s", path, line, what);
  return FALSE;
}

static gboolean
refuse_encoding (GError **error, const char *path, int line, const char *what)
{
  g_set_error (error, PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_HOSTILE,
               _("%s:%d: %s, save the file as UTF-8"), path, line, what);
  return FALSE;
}

static gboolean
starts (const char *text, gsize length, const char *bytes, gsize n)
{
  return length >= n && memcmp (text, bytes, n) == 0;
}

/* UTF-16, UTF-32 and EBCDIC by their first bytes, with a mark or without. */
static gboolean
is_wide (const char *text, gsize length)
{
  return starts (text, length, "\xff\xfe", 2) || starts (text, length, "\xfe\xff", 2) ||
         starts (text, length, "\0\0\xfe\xff", 4) || starts (text, length, "\0<", 2) ||
         starts (text, length, "<\0", 2) || starts (text, length, "\0\0\0<", 4) ||
         starts (text, length, "\x4c\x6f\xa7\x94", 4);
}

/* What <?xml encoding="…"?> says, or NULL if it says nothing. */
static char *
declared_encoding (const char *text, gsize length)
{
  const char *end;
  const char *p;
  char quote;

  if (!starts (text, length, "<?xml", 5) || length < 6 || !g_ascii_isspace (text[5]))
    return NULL;
  end = g_strstr_len (text, length, "?>");
  p = g_strstr_len (text, end ? (gssize) (end - text) : (gssize) length, "encoding");
  if (end == NULL || p == NULL)
    return NULL;
  p += strlen ("encoding");
  while (p < end && (g_ascii_isspace (*p) || *p == '='))
    p++;
  quote = *p;
  if (p == end || (quote != '"' && quote != '\''))
    return NULL;
  p++;
  for (const char *q = p; q < end; q++)
    if (*q == quote)
      return g_strndup (p, q - p);
  return NULL;
}

static gboolean
scan_declaration (const char *text, gsize length, const char *path, GError **error)
{
  g_autofree char *encoding = declared_encoding (text, length);
  gboolean ascii;

  if (encoding == NULL || g_ascii_strcasecmp (encoding, "UTF-8") == 0)
    return TRUE;
  ascii = g_ascii_strcasecmp (encoding, "US-ASCII") == 0 ||
          g_ascii_strcasecmp (encoding, "ASCII") == 0;
  if (!ascii)
    {
      g_autofree char *what =
          g_strdup_printf (_("its encoding is said to be “%s”"), g_strdelimit (encoding, "\n\r\t", ' '));

      return refuse_encoding (error, path, 1, what);
    }
  for (gsize i = 0; i < length; i++)
    if (text[i] & 0x80)
      return refuse_encoding (error, path, line_at (text, text + i),
                              _("this is said to be ASCII and is not"));
  return TRUE;
}

/* A tag holds no "<", so all its attributes stand between two of them.  The
 * parser compares each attribute with every other. */
static gboolean
scan_tags (const char *text, gsize length, const char *path, GError **error)
{
  const char *end = text + length;
  int attributes = 0;

  for (const char *p = text; p < end; p++)
    {
      const char *q = p + 1;

      if (*p == '<')
        attributes = 0;
      if (*p != '=')
        continue;
      while (q < end && g_ascii_isspace (*q))
        q++;
      if (q < end && (*q == '"' || *q == '\'') && ++attributes > PIN_XML_MOST_ATTRIBUTES)
        return refuse (error, PIN_LIBRARY_ERROR_HOSTILE, path, line_at (text, p),
                       _("a tag has more than 256 attributes, it needs a handful"));
    }
  return TRUE;
}

gboolean
pin_xml_scan (const char *text, gsize length, const char *path, GError **error)
{
  const char *bad;

  if (length == 0)
    return refuse (error, PIN_LIBRARY_ERROR_FORM, path, 1,
                   _("the file is empty, it needs a root element such as <procedure>"));
  if (length > PIN_XML_MOST_BYTES)
    return refuse (error, PIN_LIBRARY_ERROR_HOSTILE, path, 1,
                   _("the file is larger than 1 MiB, split it or shorten it"));
  if (is_wide (text, length))
    return refuse_encoding (error, path, 1, _("this is not UTF-8"));
  bad = memchr (text, '\0', length);
  if (bad != NULL)
    return refuse (error, PIN_LIBRARY_ERROR_HOSTILE, path, line_at (text, bad),
                   _("a NUL byte has no place in a text, take it out"));
  if (!g_utf8_validate_len (text, length, &bad))
    return refuse_encoding (error, path, line_at (text, bad), _("a byte here is not UTF-8"));
  return scan_declaration (text, length, path, error) && scan_tags (text, length, path, error);
}
