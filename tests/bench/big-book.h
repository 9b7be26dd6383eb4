#pragma once

#include "book/book.h"
#include "library/library.h"

/* A generated book: more use than anyone logs, to see what stays quick. */

typedef struct
{
  int vehicles;
  int years;
  int outings, inspections;   /* of each vehicle in all */
} BigBookSize;

/* Vehicles of all chassis types; each has its outings, its signed inspections
 * (every fifth the longest that fits it, with all its questions answered), works,
 * readings, parts replaced every year and, last, one walk made by the engine
 * itself.  Aborts on any error.  The last walk of each in @walks (gint64). */
PinBook *big_book_make (const char        *path,
                        PinLibrary        *library,
                        const BigBookSize *size,
                        GArray            *vehicles,  /* gint64, or NULL */
                        GArray            *walks);    /* gint64, or NULL: walk none */
