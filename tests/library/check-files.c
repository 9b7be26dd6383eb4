#include <locale.h>

#include "library/library.h"

/* check-files DATA FILE…: prints what pin_library_check() has to say of each
 * file against the data in DATA. */
int
main (int argc, char *argv[])
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PinLibrary) library = argc > 1 ? pin_library_new (argv[1], NULL, &error) : NULL;
  int status = 0;

  setlocale (LC_ALL, "");
  if (library == NULL)
    {
      g_printerr ("%s\n", error ? error->message : "usage: check-files DATA FILE…");
      return 2;
    }
  for (int i = 2; i < argc; i++)
    {
      g_autoptr (GPtrArray) messages = g_ptr_array_new_with_free_func (g_free);

      if (!pin_library_check (library, argv[i], messages))
        status = 1;
      for (guint j = 0; j < messages->len; j++)
        g_print ("%s\n", (char *) messages->pdata[j]);
    }
  return status;
}
