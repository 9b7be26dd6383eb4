#pragma once

#include <glib.h>
#include <libxml/tree.h>

/* The gate: what a file must pass before anything in it is believed. */

typedef enum
{
  PIN_FILE_PROCEDURE,
  PIN_FILE_TEARDOWN,
  PIN_FILE_KINDS,
  PIN_FILE_CHASSIS,
} PinFileType;

gboolean pin_grammar_type  (xmlDoc       *doc,
                            const char   *path,
                            PinFileType  *type,
                            GError      **error);
gboolean pin_grammar_check (xmlDoc       *doc,
                            const char   *path,
                            GPtrArray    *messages,
                            GError      **error);
