#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>

#include "library/suggest.h"
#include "reckoner/reckoning.h"

/* In the order of the list on the page, which is that of the groups. */
static const PinSum *const sums[] = {
  &pin_sum_gearing,
  &pin_sum_gear_chart,
  &pin_sum_tyre_swap,
  &pin_sum_mesh,
  &pin_sum_heat,
  &pin_sum_infrared,
  &pin_sum_warm_up,
  &pin_sum_gear_up,
  &pin_sum_linkage,
  &pin_sum_end_points,
  &pin_sum_spin_down,
  &pin_sum_ramp,
  &pin_sum_coast_down,
  &pin_sum_viscosity,
  &pin_sum_blend,
  &pin_sum_diff_test,
  &pin_sum_spring,
  &pin_sum_rebound,
  &pin_sum_torque,
  &pin_sum_bearing,
  &pin_sum_bearing_life,
  &pin_sum_pack,
  &pin_sum_resistance,
  &pin_sum_fuel_mix,
  &pin_sum_tank,
  &pin_sum_corner_mass,
  &pin_sum_pair_match,
  &pin_sum_convert,
  NULL,
};

const PinSum *const *
pin_sums (void)
{
  return sums;
}

const PinSum *
pin_sum_find (const char *id)
{
  for (int i = 0; sums[i] != NULL; i++)
    if (g_str_equal (sums[i]->id, id))
      return sums[i];
  return NULL;
}

/* NULL with PIN_RECKONER_ERROR_NAME, which suggests the nearest. */
const PinSum *
pin_sum_named (const char *id, GError **error)
{
  const PinSum *found = pin_sum_find (id);
  const char *ids[G_N_ELEMENTS (sums)];
  const char *nearest;

  if (found != NULL)
    return found;
  for (guint i = 0; i < G_N_ELEMENTS (sums); i++)
    ids[i] = sums[i] != NULL ? sums[i]->id : NULL;
  nearest = pin_suggest (id, ids);
  if (nearest != NULL)
    g_set_error (error, PIN_RECKONER_ERROR, PIN_RECKONER_ERROR_NAME,
                 _("there is no sum “%s”, write “%s”"), id, nearest);
  else
    g_set_error (error, PIN_RECKONER_ERROR, PIN_RECKONER_ERROR_NAME,
                 _("there is no sum “%s”, “hingepin reckon” lists them"), id);
  return NULL;
}

const PinInput *
pin_sum_input (const PinSum *self, const char *id)
{
  for (const PinInput *input = self->inputs; input->id != NULL; input++)
    if (g_str_equal (input->id, id))
      return input;
  return NULL;
}

const PinOutput *
pin_sum_output (const PinSum *self, const char *id)
{
  for (const PinOutput *output = self->outputs; output->id != NULL; output++)
    if (g_str_equal (output->id, id))
      return output;
  return NULL;
}
