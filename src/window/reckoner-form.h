#pragma once

#include <gtk/gtk.h>

#include "reckoner/sum.h"

G_BEGIN_DECLS

/* What is put into a sum: a row for each input.  Says "changed" when anything
 * in it was changed by hand. */

#define PIN_TYPE_RECKONER_FORM (pin_reckoner_form_get_type ())
G_DECLARE_FINAL_TYPE (PinReckonerForm, pin_reckoner_form, PIN, RECKONER_FORM, GtkBox)

/* @typed: id → as typed, or NULL for the usual values. */
void        pin_reckoner_form_set_sum  (PinReckonerForm *self,
                                        const PinSum    *sum,
                                        GHashTable      *typed);
GHashTable *pin_reckoner_form_typed    (PinReckonerForm *self); /* (transfer full) */
/* From a vehicle: what it is, and where it is from. */
void        pin_reckoner_form_fill     (PinReckonerForm *self,
                                        const char      *input,
                                        const char      *typed,
                                        const char      *origin);
void        pin_reckoner_form_mark     (PinReckonerForm *self,
                                        const char      *input); /* the one that is wrong; NULL: none */

G_END_DECLS
