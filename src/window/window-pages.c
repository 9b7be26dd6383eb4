#include "window/window-private.h"

#include <glib/gi18n.h>

#include "window/back-fill.h"
#include "window/correct-part.h"
#include "window/log-outing.h"
#include "window/mark-key.h"
#include "window/move-part.h"
#include "window/part-panel.h"
#include "window/parts-table.h"
#include "window/record-work.h"
#include "window/replace-part.h"
#include "window/restack.h"
#include "window/vehicle-form.h"

/* The pages.  Only the stable is there from the start; the others are made when
 * somebody goes there, or before that in turns of the main loop that nobody
 * needs. */

static gpointer
put (GtkBox *place, GType type)
{
  GtkWidget *page = g_object_new (type, "hexpand", TRUE, NULL);

  gtk_box_append (place, page);
  return page;
}

#define MOST_IN_TAB 28        /* letters */

/* A long name is cut, or the tabs would push the window wider. */
static void
set_tab (GtkStackPage *tab, const char *title)
{
  g_autofree char *start = g_utf8_strlen (title, -1) > MOST_IN_TAB
                             ? g_utf8_substring (title, 0, MOST_IN_TAB - 1) : NULL;
  g_autofree char *cut = start != NULL ? g_strconcat (start, "…", NULL) : NULL;

  gtk_stack_page_set_title (tab, cut != NULL ? cut : title);
}

static void
on_vehicle_name (PinWindow *self)
{
  const char *name = pin_vehicle_page_name (self->vehicle_page);

  set_tab (self->vehicle_tab, name != NULL ? name : _("Vehicle"));
}

static void
need_vehicle_page (PinWindow *self)
{
  if (self->vehicle_page != NULL)
    return;
  self->vehicle_page = put (self->vehicle_place, PIN_TYPE_VEHICLE_PAGE);
  g_signal_connect_swapped (self->vehicle_page, "notify::name-shown", G_CALLBACK (on_vehicle_name),
                            self);
  pin_vehicle_page_set_desk (self->vehicle_page, self->desk);
}

static void
on_record_name (PinWindow *self)
{
  const char *name = pin_record_page_name (self->record_page);

  set_tab (self->record_tab, name != NULL ? name : _("Inspection"));
}

static void
need_record_page (PinWindow *self)
{
  if (self->record_page != NULL)
    return;
  self->record_page = put (self->record_place, PIN_TYPE_RECORD_PAGE);
  g_signal_connect_swapped (self->record_page, "notify::name-shown", G_CALLBACK (on_record_name),
                            self);
  pin_record_page_set_desk (self->record_page, self->desk);
}

static void
need_bench_page (PinWindow *self)
{
  if (self->bench_page != NULL)
    return;
  self->bench_page = put (self->bench_place, PIN_TYPE_BENCH_PAGE);
  pin_bench_page_set_desk (self->bench_page, self->desk);
}

static void
need_reckoner_page (PinWindow *self)
{
  if (self->reckoner_page != NULL)
    return;
  self->reckoner_page = put (self->reckoner_place, PIN_TYPE_RECKONER_PAGE);
  pin_reckoner_page_set_desk (self->reckoner_page, self->desk);
}

/* The reckoner is always a tab, so that it can be gone to before it is made. */
void
pin_window_pages_need (PinWindow *self)
{
  if (g_strcmp0 (gtk_stack_get_visible_child_name (self->pages), "reckoner") != 0)
    return;
  need_reckoner_page (self);
  pin_reckoner_page_show (self->reckoner_page, NULL, 0);
}

/* ---- showing ------------------------------------------------------------------ */

gboolean
pin_window_bench_is_shown (PinWindow *self)
{
  return g_strcmp0 (gtk_stack_get_visible_child_name (self->pages), "bench") == 0;
}

/* Those that are made: the others get it when they are. */
void
pin_window_pages_set_desk (PinWindow *self)
{
  pin_stable_page_set_desk (self->stable_page, self->desk);
  if (self->reckoner_page != NULL)
    pin_reckoner_page_set_desk (self->reckoner_page, self->desk);
  if (self->vehicle_page != NULL)
    pin_vehicle_page_set_desk (self->vehicle_page, self->desk);
  if (self->record_page != NULL)
    pin_record_page_set_desk (self->record_page, self->desk);
  if (self->bench_page != NULL)
    pin_bench_page_set_desk (self->bench_page, self->desk);
}

void
pin_window_show_stable (PinWindow *self)
{
  gtk_stack_set_visible_child_name (self->pages, "stable");
}

void
pin_window_show_reckoner (PinWindow *self, const char *sum, gint64 vehicle)
{
  if (self->desk == NULL)
    return;
  need_reckoner_page (self);
  gtk_stack_set_visible_child_name (self->pages, "reckoner");
  pin_reckoner_page_show (self->reckoner_page, sum, vehicle);
}

void
pin_window_show_vehicle (PinWindow *self, gint64 vehicle)
{
  if (self->desk == NULL)
    return;
  need_vehicle_page (self);
  gtk_stack_page_set_visible (self->vehicle_tab, TRUE);
  pin_vehicle_page_show (self->vehicle_page, vehicle);
  gtk_stack_set_visible_child_name (self->pages, "vehicle");
}

void
pin_window_show_record (PinWindow *self, gint64 inspection)
{
  if (self->desk == NULL)
    return;
  need_record_page (self);
  gtk_stack_page_set_visible (self->record_tab, TRUE);
  pin_record_page_show (self->record_page, inspection);
  gtk_stack_set_visible_child_name (self->pages, "record");
}

void
pin_window_show_bench (PinWindow *self, gint64 inspection)
{
  if (self->desk == NULL)
    return;
  pin_window_forget_undo (self);
  need_bench_page (self);
  gtk_stack_page_set_visible (self->bench_tab, TRUE);
  pin_bench_page_show (self->bench_page, inspection);
  gtk_stack_set_visible_child_name (self->pages, "bench");
  pin_window_remember_page (self);
}

/* It is not there, or no longer. */
void
pin_window_close_vehicle (PinWindow *self)
{
  gtk_stack_page_set_visible (self->vehicle_tab, FALSE);
  if (g_strcmp0 (gtk_stack_get_visible_child_name (self->pages), "vehicle") == 0)
    pin_window_show_stable (self);
}

/* After the walk ended. */
void
pin_window_close_bench (PinWindow *self)
{
  gtk_stack_page_set_visible (self->bench_tab, FALSE);
  if (pin_window_bench_is_shown (self))
    gtk_stack_set_visible_child_name (self->pages, gtk_stack_page_get_visible (self->vehicle_tab)
                                                     ? "vehicle" : "stable");
}

/* ---- before somebody goes there -------------------------------------------------- */

/* A page is hundreds of objects, and half of the time goes into what is done once
 * for each kind of them (reading templates).  So kinds come first, one a turn. */
static gboolean
warm_kind (guint step)
{
  const GType kinds[] = {
    GTK_TYPE_COLUMN_VIEW, GTK_TYPE_SCROLLED_WINDOW, GTK_TYPE_POPOVER_MENU, GTK_TYPE_DROP_DOWN,
    PIN_TYPE_RESTACK, PIN_TYPE_MARK_KEY, PIN_TYPE_PARTS_TABLE, PIN_TYPE_LOG_OUTING,
    PIN_TYPE_VEHICLE_FORM, PIN_TYPE_RECORD_WORK, PIN_TYPE_CORRECT_PART, PIN_TYPE_REPLACE_PART,
    PIN_TYPE_MOVE_PART, PIN_TYPE_BACK_FILL, PIN_TYPE_PART_PANEL, PIN_TYPE_VEHICLE_PAGE,
    PIN_TYPE_RECORD_PAGE, PIN_TYPE_BENCH_PAGE, PIN_TYPE_RECKONER_PAGE,
  };

  if (step >= G_N_ELEMENTS (kinds))
    return FALSE;
  /* For good, as classes are. */
  g_type_class_ref (kinds[step]);
  return TRUE;
}

static gboolean
warm (gpointer data)
{
  PinWindow *self = data;

  if (warm_kind (self->warmed++))
    return G_SOURCE_CONTINUE;
  if (self->vehicle_page == NULL)
    need_vehicle_page (self);
  else if (self->bench_page == NULL)
    need_bench_page (self);
  else if (self->record_page == NULL)
    need_record_page (self);
  else
    need_reckoner_page (self);
  if (self->reckoner_page == NULL)
    return G_SOURCE_CONTINUE;
  self->warming = 0;
  return G_SOURCE_REMOVE;
}

void
pin_window_pages_warm (PinWindow *self)
{
  if (self->warming == 0 && self->reckoner_page == NULL)
    self->warming = g_idle_add_full (G_PRIORITY_LOW, warm, self, NULL);
}
