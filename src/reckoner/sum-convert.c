#include "reckoner/sums.h"

#include "config.h"

#include <glib/gi18n.h>
#include <math.h>

#include "reckoner/work.h"

static const PinInput inputs[] = {
  { .id = "value", .title = N_("Value"), .kind = PIN_INPUT_ANY, .unit = "1", .hint = N_("With its unit: 3.3 in") },
  { .id = "to", .title = N_("In"), .kind = PIN_INPUT_UNIT, .unit = "1", .hint = N_("A unit of the same kind: mm") },
  { 0 },
};

static const PinColumn columns[] = {
  { "unit", N_("Unit"), NULL, 0 },
  { "number", N_("Number"), "1", -1 },
  { 0 },
};

static const PinOutput outputs[] = {
  { .id = "number", .title = N_("Number"), .unit = "1", .decimals = -1 },
  { .id = "unit", .title = N_("Unit"), .kind = PIN_OUTPUT_TEXT },
  { .id = "all", .title = N_("In every unit of its kind"), .kind = PIN_OUTPUT_TABLE, .columns = columns },
  { 0 },
};

static const char *const formulas[] = {
  N_("number = (value in the base unit − shift) ÷ size of the unit"),
  NULL,
};

static void
add_rows (PinReckoning *self, double canonical, const PinUnit *wanted)
{
  g_autofree const char **ids = pin_unit_ids ();

  for (int i = 0; ids[i] != NULL; i++)
    {
      const PinUnit *unit = pin_unit_find (ids[i]);
      double number = unit->dimension == wanted->dimension ? pin_unit_to (unit, canonical) : NAN;

      if (!isfinite (number))
        continue;
      pin_result_row (self, "all", unit->id, number);
      if (unit == wanted)
        pin_result_mark_row (self, "all");
    }
}

static void
figures (PinReckoning *self, double canonical, const PinUnit *from, const PinUnit *to)
{
  g_autofree char *base = pin_number_format (canonical, -1);
  g_autofree char *size = pin_number_format (to->factor, -1);
  g_autofree char *shift = pin_number_format (to->offset, -1);
  const char *result = pin_say (self, canonical, to->id, -1);

  if (to->dimension == PIN_DIMENSION_PITCH)
    pin_figures (self, 0, "%s = %s m = %s", pin_say (self, canonical, from->id, -1), base, result);
  else
    pin_figures (self, 0, "(%s − %s) ÷ %s = %s", base, shift, size, result);
}

/* "K" is a difference of temperature, and so is what is typed to go with it. */
static void
work (PinReckoning *self)
{
  const PinUnit *from = pin_unit_given (self, "value");
  const PinUnit *to = pin_unit_as (pin_unit_given (self, "to"), from->dimension);
  double canonical = pin_value (self, "value");
  double number;

  if (from->dimension != to->dimension)
    {
      pin_refuse (self, _("%s is %s, and %s is %s: give a unit of the same kind"),
                  pin_say (self, canonical, from->id, -1), pin_dimension_word (from->dimension), to->id,
                  pin_dimension_word (to->dimension));
      return;
    }
  number = pin_unit_to (to, canonical);
  if (!isfinite (number))
    {
      pin_refuse (self, _("the number in %s is too large to be written"), to->id);
      return;
    }
  pin_result_value (self, "number", number);
  pin_result_text (self, "unit", "%s", to->id);
  add_rows (self, canonical, to);
  figures (self, canonical, from, to);
  pin_answer (self, "%s = %s", pin_say (self, canonical, from->id, -1), pin_say (self, canonical, to->id, -1));
}

const PinSum pin_sum_convert = {
  .id = "convert",
  .title = N_("Convert"),
  .group = N_("Units"),
  .about = N_("Any value in any other unit of its kind."),
  .inputs = inputs,
  .outputs = outputs,
  .formulas = formulas,
  .source = N_("Definitions of the units (SI brochure; NIST Special Publication 811, appendix B)."),
  .validity = N_("Exact but for the last digits. A module in mm and a diametral pitch are each other's reciprocal. K "
                 "is a difference of temperature, kelvin a temperature."),
  .work = work,
};
