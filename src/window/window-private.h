#pragma once

#include "window/bench-page.h"
#include "window/reckoner-page.h"
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
  GtkBox *reckoner_place, *vehicle_place, *record_place, *bench_place;
  PinStablePage *stable_page;
  GtkBox *strips;
  GtkBox *footer;
  GtkMenuButton *menu;

  /* in their places once they are wanted; NULL before */
  PinReckonerPage *reckoner_page;
  PinVehiclePage *vehicle_page;
  PinRecordPage *record_page;
  PinBenchPage *bench_page;
  guint warming;              /* source; 0: none */
  guint warmed;               /* steps taken */

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
void pin_window_remember_page   (PinWindow      *self);

/* the pages, see window-pages.c */
void     pin_window_pages_set_desk (PinWindow *self);
void     pin_window_pages_need     (PinWindow *self); /* the one that is shown */
void     pin_window_pages_warm     (PinWindow *self);
gboolean pin_window_bench_is_shown (PinWindow *self);
