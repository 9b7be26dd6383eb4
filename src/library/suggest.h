#pragma once

#include <glib.h>

const char *pin_suggest      (const char         *word,
                              const char *const  *known);
char       *pin_suggest_text (const char         *word,
                              const char *const  *known);
char       *pin_suggest_key  (const char         *word,
                              GHashTable         *known);
