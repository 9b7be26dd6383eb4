#pragma once

#include <glib.h>
#include <libxml/tree.h>

/* Reading a tree that has passed the gate.  Texts and attributes come with
 * their spaces collapsed. */

gboolean  pin_node_is      (const xmlNode *node,
                            const char    *name);
xmlNode  *pin_node_first   (const xmlNode *parent,
                            const char    *name);
xmlNode  *pin_node_next    (const xmlNode *node,
                            const char    *name);
gboolean  pin_node_has     (const xmlNode *node,
                            const char    *attribute);
char     *pin_node_attr    (const xmlNode *node,
                            const char    *attribute);
char    **pin_node_list    (const xmlNode *node,
                            const char    *attribute);
double    pin_node_number  (const xmlNode *node,
                            const char    *attribute);
int       pin_node_integer (const xmlNode *node,
                            const char    *attribute,
                            int            otherwise);
int       pin_node_line    (const xmlNode *node,
                            const char    *attribute);
char     *pin_node_text    (const xmlNode *node);
char     *pin_node_child   (const xmlNode *parent,
                            const char    *name);
