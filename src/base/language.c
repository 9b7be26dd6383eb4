#include "base/language.h"

#include <glib.h>
#include <libintl.h>
#include <locale.h>

#include "config.h"

/* The person's language for words; numbers never go by it (they are read and
 * written with GLib's own functions).  HINGEPIN_LOCALE_DIR names a folder of
 * translations to try. */
void
pin_language_start (void)
{
  const char *dir = g_getenv ("HINGEPIN_LOCALE_DIR");

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, dir != NULL ? dir : PIN_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
}
