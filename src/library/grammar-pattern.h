#pragma once

#include <glib.h>
#include <libxml/tree.h>

/* A RELAX NG pattern is a node of the schema's own tree: the few elements of
 * the language that our grammars use, read as they stand. */

typedef void (*PinPatternFunc) (xmlNode *pattern, gboolean required, gpointer data);

gboolean  pin_pattern_is        (const xmlNode  *node,
                                 const char     *name);
xmlNode  *pin_pattern_first     (xmlNode        *node);
xmlNode  *pin_pattern_next      (xmlNode        *node);
xmlNode  *pin_pattern_resolve   (xmlNode        *pattern);
xmlNode  *pin_pattern_start     (xmlDoc         *grammar);
char     *pin_pattern_name      (xmlNode        *pattern);
void      pin_pattern_walk      (xmlNode        *pattern,
                                 const char     *kind,
                                 gboolean        required,
                                 PinPatternFunc  func,
                                 gpointer        data);
gboolean  pin_pattern_has_value (xmlNode        *pattern);
gboolean  pin_pattern_matches   (xmlNode        *pattern,
                                 const char     *value);
void      pin_pattern_values    (xmlNode        *pattern,
                                 GPtrArray      *values);
char     *pin_pattern_words     (xmlNode        *pattern);
