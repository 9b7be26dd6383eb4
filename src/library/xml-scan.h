#pragma once

#include <glib.h>

gboolean pin_xml_scan (const char  *text,
                       gsize        length,
                       const char  *path,
                       GError     **error);
