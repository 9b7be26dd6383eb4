#pragma once

#include <gtk/gtk.h>

#include "base/outcome.h"
#include "library/chassis.h"

G_BEGIN_DECLS

/* The plan view in the window: the drawing as one cached picture, and a button
 * on each mark, so that a part can be chosen with a pointer, with the keyboard
 * and through assistive technology alike.
 *
 * A press takes the nearest mark within 22 px; with Ctrl or Shift it adds to
 * what is chosen.  Space on a mark adds it or takes it out, Return takes it
 * alone, Escape lets all go. */

#define PIN_TYPE_PLAN_AREA (pin_plan_area_get_type ())
G_DECLARE_FINAL_TYPE (PinPlanArea, pin_plan_area, PIN, PLAN_AREA, GtkWidget)

typedef struct
{
  char *code;                 /* position id */
  char *label;                /* "front left hub, outer" */
  char *state;                /* "watch, dry" */
  char *layer;                /* library group, or NULL */
  double x, y;                /* mm of the car */
  PinOutcome outcome;
  gboolean unsafe;
} PinPlanItem;

PinPlanItem *pin_plan_item_new             (const char    *code,
                                            const char    *label,
                                            const char    *state,
                                            const char    *layer,
                                            double         x,
                                            double         y,
                                            PinOutcome     outcome,
                                            gboolean       unsafe);
void         pin_plan_item_free            (PinPlanItem   *item);

GtkWidget   *pin_plan_area_new             (void);
void         pin_plan_area_set_chassis     (PinPlanArea   *self,
                                            PinChassis    *chassis);
void         pin_plan_area_set_items       (PinPlanArea   *self,
                                            GPtrArray     *items);
void         pin_plan_area_set_layer       (PinPlanArea   *self,
                                            const char    *layer);
void         pin_plan_area_set_off         (PinPlanArea   *self,
                                            const char *const *assemblies);
void         pin_plan_area_set_here        (PinPlanArea   *self,
                                            const char    *code,
                                            const char    *label);
void         pin_plan_area_turn            (PinPlanArea   *self);
GPtrArray   *pin_plan_area_chosen          (PinPlanArea   *self);
void         pin_plan_area_choose          (PinPlanArea   *self,
                                            const char *const *codes);

G_END_DECLS
