#pragma once

#include <glib.h>

/* What is found wrong with one file: "path:line: what is wrong, what would be
 * right". */
typedef struct
{
  const char *path;
  GPtrArray *messages;          /* char*, owned */
} PinRemarks;

void pin_remark       (PinRemarks *self,
                       int         line,
                       const char *format,
                       ...) G_GNUC_PRINTF (3, 4);
void pin_remarks_sort (PinRemarks *self);
