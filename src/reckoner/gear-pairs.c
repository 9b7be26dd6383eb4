#include "reckoner/gear-pairs.h"

#include "config.h"

#include <glib/gi18n.h>

#include "maths/gearing.h"
#include "reckoner/work.h"

/* Fills in the rollout, with a tyre of @tyre m.  FALSE: the sum is refused. */
gboolean
pin_gear_pairs_rollout (PinReckoning *self, PinGearPair *pair, double tyre)
{
  double ratio;

  return pin_ok (self, pin_gearing_final_drive (pair->pinion, pair->spur, pin_value (self, "gearbox"), &ratio),
                 _("the final drive"))
         && pin_ok (self, pin_gearing_rollout (tyre, ratio, &pair->rollout), _("the rollout"));
}

static gboolean
is_among (const GArray *list, double teeth)
{
  for (guint i = 0; i < list->len; i++)
    if (g_array_index (list, double, i) == teeth)
      return TRUE;
  return FALSE;
}

/* What is fitted is owned. */
gboolean
pin_gear_pairs_owned (PinReckoning *self, const PinGearPair *pair)
{
  return (pair->pinion == pin_value (self, "pinion") || is_among (pin_list (self, "own-pinions"), pair->pinion))
         && (pair->spur == pin_value (self, "spur") || is_among (pin_list (self, "own-spurs"), pair->spur));
}

static int
by_teeth (gconstpointer a, gconstpointer b)
{
  double first = *(const double *) a, second = *(const double *) b;

  return (first > second) - (first < second);
}

static GArray *
choice_of (const GArray *own, double fitted)
{
  GArray *teeth = g_array_new (FALSE, FALSE, sizeof (double));

  g_array_append_val (teeth, fitted);
  for (guint i = 0; i < own->len; i++)
    if (!is_among (teeth, g_array_index (own, double, i)))
      g_array_append_val (teeth, g_array_index (own, double, i));
  return teeth;
}

static void
add_steps (PinReckoning *self, GArray *teeth, int steps)
{
  const PinInput *input = pin_sum_input (self->sum, "pinion");
  double fitted = pin_value (self, "pinion");

  for (double at = fitted - steps; at <= fitted + steps; at++)
    if (at >= input->least && at <= input->most && !is_among (teeth, at))
      g_array_append_val (teeth, at);
}

/* PinGearPair, by spur, then by pinion: the fitted ones, those in the box, and pinions
 * to @steps teeth either way.  Returns: (transfer full) */
GArray *
pin_gear_pairs (PinReckoning *self, double tyre, int steps)
{
  g_autoptr (GArray) pinions = choice_of (pin_list (self, "own-pinions"), pin_value (self, "pinion"));
  g_autoptr (GArray) spurs = choice_of (pin_list (self, "own-spurs"), pin_value (self, "spur"));
  GArray *pairs = g_array_new (FALSE, FALSE, sizeof (PinGearPair));

  add_steps (self, pinions, steps);
  g_array_sort (pinions, by_teeth);
  g_array_sort (spurs, by_teeth);
  for (guint i = 0; i < spurs->len; i++)
    for (guint j = 0; j < pinions->len; j++)
      {
        PinGearPair pair = { g_array_index (pinions, double, j), g_array_index (spurs, double, i), 0 };

        if (pin_gear_pairs_rollout (self, &pair, tyre))
          g_array_append_val (pairs, pair);
      }
  return pairs;
}
