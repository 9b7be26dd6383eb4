#include "reckoner/labels.h"

#include "config.h"

#include <glib/gi18n.h>

#include "maths/fluids.h"

gboolean
pin_labelled_viscosity (PinReckoning *self, const char *id, double *viscosity)
{
  const GArray *labels = pin_list (self, "labels");

  if (pin_given (self, id))
    {
      *viscosity = pin_value (self, id);
      return TRUE;
    }
  if (!pin_given (self, "label") || !pin_given (self, "labels"))
    {
      pin_refuse (self, _("give the viscosity in cSt, or a label and your own table of labels: weights differ from "
                          "maker to maker"));
      return FALSE;
    }
  if (pin_fluid_label ((const double *) labels->data, (const double *) pin_list_second (self, "labels")->data,
                       labels->len, pin_value (self, "label"), viscosity) != PIN_MATHS_OK)
    {
      pin_refuse (self, _("the label %g lies outside your own table"), pin_value (self, "label"));
      return FALSE;
    }
  pin_warn (self, _("The label %g was taken as %s by your own table; another maker's %g is another fluid."),
            pin_value (self, "label"), pin_say (self, *viscosity, "cSt", 0), pin_value (self, "label"));
  return TRUE;
}
