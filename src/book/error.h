#pragma once

#include <glib.h>

typedef enum
{
  PIN_BOOK_ERROR_OPEN,        /* cannot be opened: no such folder, permissions */
  PIN_BOOK_ERROR_NOT_A_BOOK,  /* a file of another kind */
  PIN_BOOK_ERROR_NEWER,       /* made by a newer version: refused, untouched */
  PIN_BOOK_ERROR_DAMAGED,     /* SQLite finds the file malformed */
  PIN_BOOK_ERROR_READ_ONLY,   /* folder or file cannot be written */
  PIN_BOOK_ERROR_LOCKED,      /* another program holds it */
  PIN_BOOK_ERROR_FULL,        /* disk full */
  PIN_BOOK_ERROR_CHANGED,     /* the file was replaced or went backwards under us */
  PIN_BOOK_ERROR_EXISTS,      /* would overwrite something */
  PIN_BOOK_ERROR_LAW,         /* a statement that the law of the book forbids */
  PIN_BOOK_ERROR_NOT_FOUND,
  PIN_BOOK_ERROR_VERIFY,      /* derived tables do not agree with the facts */
  PIN_BOOK_ERROR_FAILED,
} PinBookError;

#define PIN_BOOK_ERROR (pin_book_error_quark ())
GQuark pin_book_error_quark (void);
