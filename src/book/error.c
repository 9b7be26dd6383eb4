#include "book/error.h"

G_DEFINE_QUARK (pin-book-error-quark, pin_book_error)
