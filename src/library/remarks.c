#include "library/remarks.h"

#include <string.h>

/* Enough to mend a file by; one with more is a different kind of thing. */
#define MOST_MESSAGES 100

void
pin_remark (PinRemarks *self, int line, const char *format, ...)
{
  g_autofree char *what = NULL;
  va_list args;

  if (self->messages->len >= MOST_MESSAGES)
    return;
  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  /* A message is one line, whatever it quotes. */
  g_strdelimit (what, "\n\r\t", ' ');
  g_ptr_array_add (self->messages, g_strdup_printf ("%s:%d: %s", self->path, line, what));
}

static int
line_in (const char *message, const char *path)
{
  return g_str_has_prefix (message, path)
           ? (int) g_ascii_strtoll (message + strlen (path) + 1, NULL, 10) : 0;
}

static int
by_line (gconstpointer a, gconstpointer b, gpointer path)
{
  return line_in (*(char **) a, path) - line_in (*(char **) b, path);
}

/* In the order of the file; what stands on one line keeps its order. */
void
pin_remarks_sort (PinRemarks *self)
{
  g_ptr_array_sort_with_data (self->messages, by_line, (gpointer) self->path);
}
