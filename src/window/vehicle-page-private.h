#pragma once

#include "service/inventory.h"
#include "service/vehicle-view.h"
#include "window/log-outing.h"
#include "window/mark-image.h"
#include "window/part-panel.h"
#include "window/parts-table.h"
#include "window/plan-area.h"
#include "window/vehicle-form.h"
#include "window/vehicle-page.h"

struct _PinVehiclePage
{
  GtkWidget parent_instance;

  PinDesk *desk;              /* owned */
  gint64 vehicle;
  PinVehicleView *view;       /* owned; NULL until read */
  GCancellable *reading;
  char *layer;
  gboolean stale;             /* the book knows more than the page shows */
  gboolean settling;          /* views are being set, not used */

  /* template widgets */
  GtkLabel *name, *chassis, *since, *usage, *on_day, *level;
  PinMarkImage *mark;
  GtkMenuButton *reasons_button;
  GtkBox *reasons;
  GtkMenuButton *start;
  GtkButton *resume;
  GtkMenuButton *sheet;
  GtkToggleButton *log;
  PinLogOuting *log_form;
  GtkBox *more;               /* positions that its type has learned since */
  GtkLabel *more_text;
  GtkBox *gearing;            /* what the last change of gears or tyres did */
  GtkLabel *gearing_text;
  GtkButton *gearing_sum;
  GtkListBox *layers;
  PinPlanArea *plan;
  GtkStackSwitcher *list_tabs;
  GtkStack *lists;
  PinPartsTable *table;
  PinPartPanel *panel;
  GtkStackPage *parts_page, *findings_page, *owed_page, *inspections_page, *outings_page,
    *setup_page;
  GListStore *findings, *owed, *inspections, *outings, *setup;
  GPtrArray *fills;           /* PinListFill*: of those that have been filled */
  GtkEntry *finding_note;
  GtkLabel *findings_none, *inspections_none;
  PinVehicleForm *form;
};

void pin_vehicle_page_add_actions (PinVehiclePage *self);
void pin_vehicle_page_show_lists  (PinVehiclePage *self);
void pin_vehicle_page_read        (PinVehiclePage *self);
