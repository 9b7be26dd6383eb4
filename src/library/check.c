#include "library/library.h"
#include "library/check.h"
#include "library/open.h"
#include "library/xml-reader.h"

gboolean
pin_library_check (PinLibrary *self, const char *path, GPtrArray *messages)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) xml = pin_xml_load (path, &error);
  g_autoptr (xmlDoc) doc = NULL;
  guint before = messages->len;
  PinFileType type;

  if (xml != NULL)
    doc = pin_open (xml, path, &type, messages, &error);
  if (doc == NULL && messages->len == before)
    g_ptr_array_add (messages, g_strdup (error->message));
  return messages->len == before;
}
