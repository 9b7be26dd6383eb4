#include "demo/dice.h"

void
pin_dice_seed (PinDice *dice, guint64 seed)
{
  dice->state = seed;
}

/* SplitMix64 (Steele, Lea and Flood, 2014): small, and good enough for cars
 * that never were. */
guint32
pin_dice_next (PinDice *dice)
{
  guint64 z = dice->state += G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);

  z = (z ^ (z >> 30)) * G_GUINT64_CONSTANT (0xbf58476d1ce4e5b9);
  z = (z ^ (z >> 27)) * G_GUINT64_CONSTANT (0x94d049bb133111eb);
  return (guint32) ((z ^ (z >> 31)) >> 32);
}

double
pin_dice_unit (PinDice *dice)
{
  return pin_dice_next (dice) / 4294967296.0;
}

double
pin_dice_spread (PinDice *dice)
{
  double sum = 0;

  for (int i = 0; i < 3; i++)
    sum += pin_dice_unit (dice);
  return sum / 1.5 - 1;
}

int
pin_dice_int (PinDice *dice, int from, int to)
{
  return from + (int) (pin_dice_unit (dice) * (to - from + 1));
}

gboolean
pin_dice_chance (PinDice *dice, double share)
{
  return pin_dice_unit (dice) < share;
}

/* FNV-1a (Fowler, Noll and Vo) as a seed. */
double
pin_text_spread (const char *text)
{
  guint64 hash = G_GUINT64_CONSTANT (0xcbf29ce484222325);
  PinDice dice;

  for (; *text; text++)
    hash = (hash ^ (guchar) *text) * G_GUINT64_CONSTANT (0x100000001b3);
  pin_dice_seed (&dice, hash);
  return pin_dice_spread (&dice);
}
