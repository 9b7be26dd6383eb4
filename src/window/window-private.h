#pragma once

#include "window/bench-page.h"
#include "window/record-page.h"
#include "window/stable-page.h"
#include "window/vehicle-page.h"
#include "window/window.h"

struct _PinWindow
{
  GtkApplicationWindow parent_instance;

  /* template widgets */
  GtkStackSwitcher *tabs;
  GtkStack *pages;
  GtkStackPage *vehicle_tab, *record_tab, *bench_tab;
  PinStablePage *stable_page;
  PinVehiclePage *vehicle_page;
  PinRecordPage *record_page;
  PinBenchPage *bench_page;
  GtkBox *strips;
  GtkBox *footer;
  GtkMenuButton *menu;

  /* owned */
  PinTexts *texts;
  PinDesk *desk;              /* NULL until a book is open */
  char *last_copy;            /* as shown, or NULL */
  PinStrip *undo_strip;       /* NULL: nothing to undo */
  PinUndo undo;
  gpointer undo_data;
  GDestroyNotify undo_free;

  gboolean troubles_told;
  gboolean settling;          /* pages are being set, not chosen */
};

void pin_window_actions_add     (PinWindow      *self);
void pin_window_enable          (PinWindow      *self,
                                 const char     *action,
                                 gboolean        enabled);
void pin_window_forget_undo     (PinWindow      *self);
void pin_window_set_desk        (PinWindow      *self,
                                 PinDesk        *desk);
void pin_window_read_last_copy  (PinWindow      *self);
