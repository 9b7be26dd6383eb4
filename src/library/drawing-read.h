#pragma once

#include <libxml/tree.h>

#include "library/drawing.h"

GPtrArray *pin_drawing_read (const xmlNode *drawing);
