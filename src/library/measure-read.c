#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "library/reading.h"
#include "library/xml-node.h"

/* Measures and the bands that judge their readings. */

void
pin_measure_free (PinMeasure *self)
{
  g_free (self->quantity);
  g_strfreev (self->conditions);
  g_ptr_array_unref (self->limits);
  g_free (self);
}

static void
limits_free (PinLimits *self)
{
  g_free (self->evidence);
  g_free (self->scale);
  g_free (self->power);
  g_free (self->surface);
  g_free (self);
}

static PinTake
read_take (const xmlNode *node)
{
  g_autofree char *word = pin_node_attr (node, "take");

  if (g_strcmp0 (word, "mean") == 0)
    return PIN_TAKE_MEAN;
  if (g_strcmp0 (word, "min") == 0)
    return PIN_TAKE_MIN;
  return g_strcmp0 (word, "max") == 0 ? PIN_TAKE_MAX : PIN_TAKE_MEDIAN;
}

static PinAgainst
read_against (const xmlNode *band)
{
  g_autofree char *word = pin_node_attr (band, "of");

  if (word == NULL)
    return PIN_AGAINST_PLAIN;
  if (g_str_equal (word, "baseline"))
    return PIN_AGAINST_BASELINE;
  if (g_str_equal (word, "new"))
    return PIN_AGAINST_NEW;
  return g_str_equal (word, "partner") ? PIN_AGAINST_PARTNER : PIN_AGAINST_LAST_FILL;
}

/* A bound of a band: canonical, or a share of what it is held against when it
 * is written in % of something.  NAN if it is missing or wrong. */
static double
read_bound (const xmlNode *band, const char *attribute, const PinUnit *unit, PinAgainst against,
            gboolean *share, PinRemarks *remarks)
{
  g_autofree char *text = pin_node_attr (band, attribute);
  g_autoptr (GError) error = NULL;
  double value = NAN;

  *share = text != NULL && against != PIN_AGAINST_PLAIN && strchr (text, '%') != NULL;
  if (text == NULL || unit == NULL)
    return NAN;
  if (!pin_value_parse (text, *share ? pin_unit_find ("%") : unit, &value, NULL, &error))
    pin_remark (remarks, pin_node_line (band, attribute), _("%s of <%s>: %s"), attribute,
                (const char *) band->name, error->message);
  return value;
}

/* What two readings may differ by has no zero point of its own. */
static const PinUnit *
difference_unit (const PinUnit *unit)
{
  if (unit != NULL && unit->dimension == PIN_DIMENSION_TEMPERATURE)
    return pin_unit_as (unit, PIN_DIMENSION_TEMPERATURE_DIFFERENCE);
  return unit;
}

static PinBand
read_band (const xmlNode *node, const PinUnit *unit, PinRemarks *remarks)
{
  PinBand band = { NAN, NAN, FALSE, NAN, FALSE };
  PinAgainst against = read_against (node);
  gboolean min_share, max_share;

  band.min = read_bound (node, "min", unit, against, &min_share, remarks);
  band.max = read_bound (node, "max", unit, against, &max_share, remarks);
  band.relative = min_share || max_share;
  band.within = read_bound (node, "within", difference_unit (unit), against, &band.within_share,
                            remarks);
  if (pin_node_has (node, "min") && pin_node_has (node, "max") && min_share != max_share)
    pin_remark (remarks, pin_node_line (node, "max"),
                _("one of min and max is a share and the other is not, write both in %% or neither"));
  if (!pin_node_has (node, "min") && !pin_node_has (node, "max") && !pin_node_has (node, "within"))
    pin_remark (remarks, pin_node_line (node, NULL), _("<%s> says no limit, add min, max or within"),
                (const char *) node->name);
  if (pin_node_has (node, "within") && against == PIN_AGAINST_PLAIN)
    pin_remark (remarks, pin_node_line (node, "within"),
                _("within is a difference from something, say of what: "
                "of=\"partner\", \"baseline\", \"new\" or \"last-fill\""));
  if (band.within < 0)
    pin_remark (remarks, pin_node_line (node, "within"), _("within is below 0, write it without its sign"));
  return band;
}

static PinLimits *
read_limits (const xmlNode *node, const PinUnit *unit, PinRemarks *remarks)
{
  PinLimits *limits = g_new0 (PinLimits, 1);
  const xmlNode *pass = pin_node_first (node, "pass");
  const xmlNode *watch = pin_node_first (node, "watch");

  limits->evidence = pin_node_attr (node, "evidence");
  limits->scale = pin_node_attr (node, "scale");
  limits->power = pin_node_attr (node, "power");
  limits->surface = pin_node_attr (node, "surface");
  limits->line = pin_node_line (node, NULL);
  limits->against = read_against (pass);
  limits->pass = read_band (pass, unit, remarks);
  limits->watch = (PinBand) { NAN, NAN, FALSE, NAN, FALSE };
  limits->has_watch = watch != NULL;
  if (watch == NULL)
    return limits;
  limits->watch = read_band (watch, unit, remarks);
  if (read_against (watch) != limits->against)
    pin_remark (remarks, pin_node_line (watch, "of"),
                _("<watch> is held against something else than <pass>, give both the same of"));
  return limits;
}

/* <measure> with its limits, all numbers canonical. */
PinMeasure *
pin_measure_read (const xmlNode *node, PinRemarks *remarks)
{
  PinMeasure *measure = g_new0 (PinMeasure, 1);

  measure->quantity = pin_node_attr (node, "quantity");
  measure->unit = pin_unit_read (node, "unit", remarks);
  measure->repeat = pin_node_integer (node, "repeat", 1);
  measure->take = read_take (node);
  measure->conditions = pin_node_list (node, "conditions");
  measure->limits = g_ptr_array_new_with_free_func ((GDestroyNotify) limits_free);
  for (xmlNode *n = pin_node_first (node, "limits"); n; n = pin_node_next (n, "limits"))
    g_ptr_array_add (measure->limits, read_limits (n, measure->unit, remarks));
  if (measure->unit == NULL)
    measure->unit = pin_unit_find ("1");
  return measure;
}
