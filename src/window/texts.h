#pragma once

#include "library/library.h"

/* The texts of the trade, read on a thread of their own while the first frame
 * is made.  They are whole once they are given out, so that the pages and the
 * book's thread may use them at the same time. */

typedef struct _PinTexts PinTexts;

PinTexts   *pin_texts_read  (void);
PinTexts   *pin_texts_ref   (PinTexts   *self);
void        pin_texts_unref (PinTexts   *self);
PinLibrary *pin_texts_wait  (PinTexts   *self,
                             GError    **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinTexts, pin_texts_unref)
