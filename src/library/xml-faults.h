#pragma once

#include <glib.h>
#include <libxml/xmlerror.h>

char *pin_xml_fault_words (const xmlError *fault);
