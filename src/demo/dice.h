#pragma once

#include <glib.h>

/* Seeded numbers of our own, so that the demo is the same with every version
 * of every library. */

typedef struct
{
  guint64 state;
} PinDice;

void     pin_dice_seed   (PinDice    *dice,
                          guint64     seed);
guint32  pin_dice_next   (PinDice    *dice);
double   pin_dice_unit   (PinDice    *dice);              /* [0, 1) */
double   pin_dice_spread (PinDice    *dice);              /* about 0, within ±1, middle likelier */
int      pin_dice_int    (PinDice    *dice,
                          int         from,
                          int         to);                /* both included */
gboolean pin_dice_chance (PinDice    *dice,
                          double      share);
double   pin_text_spread (const char *text);              /* ±1, the same for the same text */
