#pragma once

#include <glib.h>
#include <libxml/tree.h>

void pin_grammar_explain (xmlDoc     *grammar,
                          xmlNode    *root,
                          const char *path,
                          GPtrArray  *messages);
