#pragma once

#include <glib.h>

/* The command line, taken apart.  Strings are owned. */
typedef struct
{
  char *book;                 /* NULL: the keeper's own */
  char *chassis, *person, *on_day, *output, *answers, *paper, *hours, *acquired;
  char *known;                /* a day, or NULL: as the book is now */
  gboolean json, csv, strict, version, help, list, all, batch, everything;
  char *verb;                 /* NULL: open the window */
  char **args;                /* what stands behind the verb */
} PinOptions;

gboolean    pin_options_parse (PinOptions   *options,
                               int           argc,
                               char        **argv,
                               GError      **error);
void        pin_options_clear (PinOptions   *options);
char       *pin_options_help  (void);
