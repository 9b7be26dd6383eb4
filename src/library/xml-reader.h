#pragma once

#include <gio/gio.h>
#include <libxml/tree.h>

/* Reading XML that somebody else wrote.  Limits that no honest file meets: */
#define PIN_XML_MOST_BYTES (1024 * 1024)
#define PIN_XML_MOST_LEVELS 64
#define PIN_XML_MOST_ATTRIBUTES 256

GBytes *pin_xml_load  (const char  *path,
                       GError     **error);
xmlDoc *pin_xml_parse (GBytes      *bytes,
                       const char  *path,
                       GError     **error);

/* Line of an element's "<" or of an attribute's name; any number of lines. */
int     pin_xml_line  (const xmlNode *node);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (xmlDoc, xmlFreeDoc)
