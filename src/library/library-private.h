#pragma once

#include "library/kinds-table.h"
#include "library/library.h"
#include "library/shelf.h"

struct _PinLibrary
{
  char *shipped;                /* folders that hold kinds/, procedures/, chassis/ */
  char *own;                    /* may be NULL */
  PinKindsTable *kinds;
  char *kinds_sha;
  PinShelf *procedures;         /* and teardowns; NULL until first used */
  PinShelf *chassis;            /* NULL until first used */
  GPtrArray *troubles;          /* PinTrouble* */
};

PinShelf *pin_library_shelf (PinLibrary *self, PinTextType type);
