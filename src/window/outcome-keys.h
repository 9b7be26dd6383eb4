#pragma once

#include <gtk/gtk.h>

#include "base/outcome.h"

G_BEGIN_DECLS

/* The row of keys at the foot of the bench: back, the outcomes, next. */

typedef enum
{
  PIN_KEY_PASS = 1 << 0,
  PIN_KEY_WATCH = 1 << 1,
  PIN_KEY_FAIL = 1 << 2,
  PIN_KEY_UNSAFE = 1 << 3,
  PIN_KEY_NOT_CHECKED = 1 << 4,
  PIN_KEY_DOES_NOT_APPLY = 1 << 5,
  PIN_KEY_DONE = 1 << 6,
} PinKeys;

#define PIN_TYPE_OUTCOME_KEYS (pin_outcome_keys_get_type ())
G_DECLARE_FINAL_TYPE (PinOutcomeKeys, pin_outcome_keys, PIN, OUTCOME_KEYS, GtkWidget)

void pin_outcome_keys_set         (PinOutcomeKeys *self,
                                   PinKeys         keys,
                                   PinOutcome      given,
                                   gboolean        given_unsafe);
void pin_outcome_keys_propose     (PinOutcomeKeys *self,
                                   PinOutcome      proposal);
void pin_outcome_keys_set_moves   (PinOutcomeKeys *self,
                                   gboolean        back,
                                   gboolean        next);
void pin_outcome_keys_set_busy    (PinOutcomeKeys *self,
                                   gboolean        busy);
void pin_outcome_keys_raise       (PinOutcomeKeys *self,
                                   gboolean        raised);

G_END_DECLS
