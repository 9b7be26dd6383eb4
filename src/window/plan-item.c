#include "window/plan-area.h"

PinPlanItem *
pin_plan_item_new (const char *code, const char *label, const char *state, const char *layer,
                   double x, double y, PinOutcome outcome, gboolean unsafe)
{
  PinPlanItem *item = g_new0 (PinPlanItem, 1);

  item->code = g_strdup (code);
  item->label = g_strdup (label);
  item->state = g_strdup (state);
  item->layer = g_strdup (layer);
  item->x = x;
  item->y = y;
  item->outcome = outcome;
  item->unsafe = unsafe;
  return item;
}

void
pin_plan_item_free (PinPlanItem *item)
{
  g_free (item->code);
  g_free (item->label);
  g_free (item->state);
  g_free (item->layer);
  g_free (item);
}
