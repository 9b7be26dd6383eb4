#pragma once

#include "library/kinds-table.h"
#include "library/library.h"
#include "library/shelf.h"

struct _PinLibrary
{
  char *shipped;                /* folders that hold kinds/, procedures/, chassis/ */
  char *own;                    /* may be NULL */
  PinLibrary *shelves;          /* whose shelves these are, borrowed; NULL: its own */
  PinKindsTable *kinds;
  GPtrArray *kinds_texts;       /* PinKindsText*, in reading order */
  char *kinds_sha;
  PinShelf *procedures;         /* and teardowns; NULL until first used */
  PinShelf *chassis;            /* NULL until first used */
  GPtrArray *troubles;          /* PinTrouble* */
};

PinShelf *pin_library_shelf (PinLibrary *self, PinTextType type);
