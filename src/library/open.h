#pragma once

#include <libxml/tree.h>

#include "library/grammar.h"

xmlDoc *pin_open (GBytes       *xml,
                  const char   *path,
                  PinFileType  *type,
                  GPtrArray    *messages,
                  GError      **error);
xmlDoc *pin_open_as (GBytes      *xml,
                     const char  *path,
                     PinFileType  wanted,
                     GError     **error);
gboolean pin_open_settle (GPtrArray *messages, GError **error);
