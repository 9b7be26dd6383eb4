#pragma once

#include <json-glib/json-glib.h>

/* The real program, run as a person would at a prompt. */
typedef struct
{
  int status;
  char *out, *err;
} Run;

extern char *run_folder;      /* fresh for this test program; HOME and data are in it */

void        run_start   (void);
void        run_stop    (void);
Run        *run         (const char *command, ...) G_GNUC_PRINTF (1, 2);
Run        *run_fed     (const char *input, const char *command, ...) G_GNUC_PRINTF (2, 3);
void        run_free    (Run *run);
JsonObject *run_json    (Run *run, JsonParser *parser);
void        run_says    (Run *run, int status, const char *out_has, const char *err_has); /* and frees */

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Run, run_free)
