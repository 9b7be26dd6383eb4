#include <glib.h>
#include <locale.h>

#include "library/grammar.h"
#include "library/open.h"
#include "library/xml-reader.h"

/* Prints "accepts PATH" or "refuses PATH" for each file named, and what the
 * gate has to say, indented: for comparing it with another validator. */
int
main (int argc, char *argv[])
{
  setlocale (LC_ALL, "");
  for (int i = 1; i < argc; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) messages = g_ptr_array_new_with_free_func (g_free);
      g_autoptr (GBytes) xml = pin_xml_load (argv[i], &error);
      PinFileType type;
      g_autoptr (xmlDoc) doc = xml ? pin_open (xml, argv[i], &type, messages, &error) : NULL;

      g_print ("%s %s\n", doc ? "accepts" : "refuses", argv[i]);
      if (doc == NULL && messages->len == 0)
        g_print ("  %s\n", error->message);
      for (guint j = 0; j < messages->len; j++)
        g_print ("  %s\n", (char *) messages->pdata[j]);
    }
  return 0;
}
