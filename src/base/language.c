#include "base/language.h"

#include <libintl.h>
#include <locale.h>

#include "config.h"

/* The person's language for words; numbers never go by it (they are read and
 * written with GLib's own functions). */
void
pin_language_start (void)
{
  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, PIN_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
}
