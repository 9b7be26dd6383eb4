#include "window/stable-row.h"

#include <glib/gi18n.h>

#include "window/fields.h"
#include "window/mark-image.h"
#include "window/plan-area.h"
#include "window/stable-layout.h"
#include "window/stable-log.h"
#include "window/value-entry.h"
#include "window/vehicle-item.h"
#include "window/window.h"

struct _PinStableRow
{
  PinListRow parent_instance;

  gint64 vehicle;             /* whose outing the fields are for */
  gboolean logging;           /* one is on its way into the book */

  PinPlanArea *plan;          /* template */
  GtkLabel *name, *chassis;
  PinMarkImage *mark;
  GtkLabel *level, *reason;
  GtkButton *resume;
  GtkLabel *hours, *outings;
  GtkToggleButton *log;
  GtkButton *open;
  GtkBox *under;              /* the fields, made when they are wanted first */

  PinValueEntry *minutes, *runs; /* NULL: not made yet */
};

G_DEFINE_FINAL_TYPE (PinStableRow, pin_stable_row, PIN_TYPE_LIST_ROW)

/* ---- an outing ---------------------------------------------------------------- */

static void
close_fields (PinStableRow *self)
{
  self->vehicle = 0;
  self->logging = FALSE;
  gtk_toggle_button_set_active (self->log, FALSE);
}

static void
logged (GtkWidget *from, gboolean kept, gint64 vehicle)
{
  PinStableRow *self = PIN_STABLE_ROW (from);

  /* The row may show another by now. */
  if (self->vehicle != vehicle)
    return;
  self->logging = FALSE;
  if (!kept)
    return;
  gtk_widget_grab_focus (GTK_WIDGET (self->log));
  close_fields (self);
}

static void
on_enter (PinStableRow *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  if (self->vehicle == 0 || self->logging || !PIN_IS_WINDOW (root))
    return;
  self->logging = TRUE;
  pin_stable_log (GTK_WIDGET (self), pin_window_desk (PIN_WINDOW (root)), self->vehicle,
                  pin_value_entry_text (self->minutes), pin_value_entry_text (self->runs), logged);
}

static gboolean
on_escape (GtkWidget *fields, GVariant *args, gpointer data)
{
  PinStableRow *self = data;

  gtk_widget_grab_focus (GTK_WIDGET (self->log));
  gtk_toggle_button_set_active (self->log, FALSE);
  return TRUE;
}

static PinValueEntry *
add_field (PinStableRow *self, const char *unit)
{
  GtkWidget *entry = pin_value_entry_new (NULL, unit);

  g_signal_connect_swapped (entry, "activate", G_CALLBACK (on_enter), self);
  gtk_widget_set_hexpand (entry, FALSE);
  gtk_box_append (self->under, entry);
  return PIN_VALUE_ENTRY (entry);
}

static void
make_fields (PinStableRow *self)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();
  GtkWidget *hint = gtk_label_new (_("Enter logs it for today"));

  self->minutes = add_field (self, "min");
  self->runs = add_field (self, NULL);
  gtk_label_set_ellipsize (GTK_LABEL (hint), PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (hint, "secondary");
  gtk_box_append (self->under, hint);
  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (keys),
    gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0),
                      gtk_callback_action_new (on_escape, self, NULL)));
  gtk_widget_add_controller (GTK_WIDGET (self->under), keys);
}

static void
open_fields (PinStableRow *self, const PinVehicleItem *item)
{
  g_autofree char *minutes = g_strdup_printf (_("Minutes run by %s"), item->name);
  g_autofree char *runs = g_strdup_printf (item->burns_fuel ? _("Tanks run by %s")
                                                            : _("Packs run by %s"), item->name);

  if (self->minutes == NULL)
    make_fields (self);
  self->vehicle = item->id;
  g_object_set (self->minutes, "label", minutes, NULL);
  g_object_set (self->runs, "label", runs, "unit", item->burns_fuel ? _("tanks") : _("packs"), NULL);
  pin_value_entry_set_text (self->minutes, "");
  pin_value_entry_set_text (self->runs, "");
}

/* A list scrolls to its rows, not to what stands in them. */
static gboolean
bring_in_sight (GtkWidget *fields, GdkFrameClock *clock, gpointer data)
{
  GtkWidget *list = gtk_widget_get_ancestor (fields, GTK_TYPE_LIST_VIEW);
  GtkAdjustment *down;
  graphene_rect_t at;

  /* Where they are is known from the second frame on. */
  if (gdk_frame_clock_get_frame_counter (clock) <= *(gint64 *) data + 1)
    return G_SOURCE_CONTINUE;
  if (list == NULL || !gtk_widget_compute_bounds (fields, list, &at))
    return G_SOURCE_REMOVE;
  down = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (list));
  if (at.origin.y + at.size.height > gtk_widget_get_height (list))
    gtk_adjustment_set_value (down, gtk_adjustment_get_value (down) + at.origin.y + at.size.height
                                    - gtk_widget_get_height (list));
  return G_SOURCE_REMOVE;
}

static void
come_in_sight (GtkWidget *fields)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (fields);
  gint64 now = clock != NULL ? gdk_frame_clock_get_frame_counter (clock) : 0;

  gtk_widget_add_tick_callback (fields, bring_in_sight, g_memdup2 (&now, sizeof now), g_free);
}

static void
on_log (PinStableRow *self)
{
  const PinVehicleItem *item = pin_list_row_item (self);
  gboolean wanted = gtk_toggle_button_get_active (self->log);

  if (wanted && item != NULL)
    open_fields (self, item);
  gtk_widget_set_visible (GTK_WIDGET (self->under), wanted);
  if (!wanted || self->minutes == NULL)
    return;
  gtk_widget_grab_focus (GTK_WIDGET (self->minutes));
  come_in_sight (GTK_WIDGET (self->under));
}

/* ---- the vehicle --------------------------------------------------------------- */

static GPtrArray *
copy_marks (const GPtrArray *marks)
{
  GPtrArray *copy = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_plan_item_free);

  for (guint i = 0; i < marks->len; i++)
    {
      const PinPlanItem *mark = g_ptr_array_index (marks, i);

      g_ptr_array_add (copy, pin_plan_item_new (mark->code, mark->label, mark->state, mark->layer,
                                                mark->x, mark->y, mark->outcome, mark->unsafe));
    }
  return copy;
}

static char *
name_of (gpointer data)
{
  const PinVehicleItem *item = data;

  return g_strdup_printf ("%s, %s: %s. %s", item->name, item->chassis_title, item->level_title,
                          item->reason);
}

static void
name_buttons (PinStableRow *self, const PinVehicleItem *item)
{
  g_autofree char *open = g_strdup_printf (_("Open %s"), item->name);
  g_autofree char *log = g_strdup_printf (_("Log outing of %s"), item->name);

  pin_field_name (self->open, open);
  pin_field_tooltip (self->open, open);
  gtk_accessible_reset_relation (GTK_ACCESSIBLE (self->log), GTK_ACCESSIBLE_RELATION_LABELLED_BY);
  pin_field_name (self->log, log);
  pin_field_tooltip (self->log, log);
}

static void
show_reason (PinStableRow *self, const PinVehicleItem *item)
{
  g_autofree char *reason = g_markup_escape_text (item->reason, -1);
  g_autofree char *markup = item->more != NULL
                              ? g_strdup_printf ("%s <span alpha='80%%'>%s</span>", reason,
                                                 item->more)
                              : g_strdup (reason);

  gtk_label_set_markup (self->reason, markup);
}

static void
show_resume (PinStableRow *self, const PinVehicleItem *item)
{
  g_autofree char *label = NULL;
  g_autofree char *name = NULL;

  gtk_widget_set_visible (GTK_WIDGET (self->resume), item->open_walk != 0);
  if (item->open_walk == 0)
    return;
  label = g_strdup_printf (_("Go on: %s"), item->open_walk_title);
  name = g_strdup_printf (_("Go on with %s, %s"), item->open_walk_title, item->name);
  gtk_label_set_label (GTK_LABEL (gtk_button_get_child (self->resume)), label);
  gtk_accessible_reset_relation (GTK_ACCESSIBLE (self->resume), GTK_ACCESSIBLE_RELATION_LABELLED_BY);
  pin_field_name (self->resume, name);
}

static void
show_item (PinListRow *row, gpointer data)
{
  PinStableRow *self = PIN_STABLE_ROW (row);
  const PinVehicleItem *item = data;

  pin_plan_area_set_chassis (self->plan, item->chassis);
  pin_plan_area_set_items (self->plan, copy_marks (item->marks));
  gtk_label_set_label (self->name, item->name);
  pin_field_tooltip (self->name, item->name);
  gtk_label_set_label (self->chassis, item->chassis_title);
  pin_mark_image_set (self->mark, pin_level_outcome (item->level), item->level == PIN_LEVEL_UNSAFE);
  gtk_label_set_label (self->level, item->level_title);
  gtk_label_set_label (self->hours, item->hours);
  gtk_label_set_label (self->outings, item->outings);
  show_reason (self, item);
  show_resume (self, item);
  name_buttons (self, item);
  gtk_widget_set_visible (GTK_WIDGET (self->log), g_strcmp0 (item->state, "sold") != 0);
  /* The row has been given another vehicle, or the same one with other hours. */
  close_fields (self);
}

static void
activate_id (PinStableRow *self, const char *action, gint64 id)
{
  g_autofree char *text = g_strdup_printf ("%" G_GINT64_FORMAT, id);

  gtk_widget_activate_action (GTK_WIDGET (self), action, "s", text);
}

static void
on_open (PinStableRow *self)
{
  activate_id (self, "win.vehicle", ((PinVehicleItem *) pin_list_row_item (self))->id);
}

static void
on_resume (PinStableRow *self)
{
  activate_id (self, "win.bench", ((PinVehicleItem *) pin_list_row_item (self))->open_walk);
}

static void
pin_stable_row_class_init (PinStableRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  PIN_LIST_ROW_CLASS (klass)->show = show_item;
  PIN_LIST_ROW_CLASS (klass)->name = name_of;
  g_type_ensure (PIN_TYPE_STABLE_LAYOUT);
  g_type_ensure (PIN_TYPE_PLAN_AREA);
  g_type_ensure (PIN_TYPE_MARK_IMAGE);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/stable-row.ui");
  gtk_widget_class_bind_template_child (widget_class, PinStableRow, plan);
  gtk_widget_class_bind_template_child (widget_class, PinStableRow, name);
  gtk_widget_class_bind_template_child (widget_class, PinStableRow, chassis);
  gtk_widget_class_bind_template_child (widget_class, PinStableRow, mark);
  gtk_widget_class_bind_template_child (widget_class, PinStableRow, level);
  gtk_widget_class_bind_template_child (widget_class, PinStableRow, reason);
  gtk_widget_class_bind_template_child (widget_class, PinStableRow, resume);
  gtk_widget_class_bind_template_child (widget_class, PinStableRow, hours);
  gtk_widget_class_bind_template_child (widget_class, PinStableRow, outings);
  gtk_widget_class_bind_template_child (widget_class, PinStableRow, log);
  gtk_widget_class_bind_template_child (widget_class, PinStableRow, open);
  gtk_widget_class_bind_template_child (widget_class, PinStableRow, under);
  gtk_widget_class_bind_template_callback (widget_class, on_log);
  gtk_widget_class_bind_template_callback (widget_class, on_open);
  gtk_widget_class_bind_template_callback (widget_class, on_resume);
}

static void
pin_stable_row_init (PinStableRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
