/* Hingepin: chooses between the terminal and the window, nothing else. */

#include "base/language.h"
#include "terminal/terminal.h"
#include "window/application.h"

int
main (int argc, char **argv)
{
  PinOptions options = { NULL };
  g_autoptr (GError) error = NULL;
  int status;

  pin_language_start ();
  if (!pin_options_parse (&options, argc, argv, &error))
    {
      g_printerr ("hingepin: %s\n", error->message);
      status = 2;
    }
  else if (options.verb || options.help || options.version)
    status = pin_terminal_run (&options);
  else
    status = pin_window_run (argc, argv);
  pin_options_clear (&options);
  return status;
}
