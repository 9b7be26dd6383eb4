/* Hingepin: chooses between the terminal and the window, nothing else. */

#include <glib.h>

#include "window/application.h"
#ifdef PIN_HAVE_TERMINAL
#include "terminal/terminal.h"
#endif

int
main (int argc, char **argv)
{
#ifdef PIN_HAVE_TERMINAL
  gboolean wants_window = FALSE;
  int status = pin_terminal_run (argc, argv, &wants_window);

  if (!wants_window)
    return status;
#endif
  return pin_window_run (argc, argv);
}
