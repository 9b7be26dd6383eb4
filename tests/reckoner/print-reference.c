/* What docs/sums.md is made with. */
#include <glib.h>
#include <stdio.h>

#include "reckoner/reference.h"

int
main (void)
{
  g_autofree char *text = pin_sums_reference ();

  return fputs (text, stdout) >= 0 && fflush (stdout) == 0 ? 0 : 1;
}
