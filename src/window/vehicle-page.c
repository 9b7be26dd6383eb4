#include "window/vehicle-page-private.h"

#include <glib/gi18n.h>

#include "base/day.h"
#include "service/finding-text.h"
#include "window/fields.h"
#include "window/line-item.h"
#include "window/list-fill.h"
#include "window/mark-key.h"
#include "window/read-vehicle.h"
#include "window/restack.h"
#include "window/tab-stop.h"
#include "window/tell.h"
#include "window/vehicle-item.h"
#include "window/window.h"

G_DEFINE_FINAL_TYPE (PinVehiclePage, pin_vehicle_page, GTK_TYPE_WIDGET)

enum
{
  PROP_0,
  PROP_NAME_SHOWN,
};

static GParamSpec *name_shown;

/* ---- choosing: drawing, table and panel say the same --------------------------- */

static void
choose (PinVehiclePage *self, GPtrArray *codes, gpointer by)
{
  if (self->settling)
    return;
  self->settling = TRUE;
  if (by != self->plan)
    {
      g_autoptr (GPtrArray) list = g_ptr_array_copy (codes, NULL, NULL);

      g_ptr_array_set_free_func (list, NULL);
      g_ptr_array_add (list, NULL);
      pin_plan_area_choose (self->plan, (const char *const *) list->pdata);
    }
  if (by != self->table)
    pin_parts_table_choose (self->table, codes);
  self->settling = FALSE;
  pin_part_panel_show (self->panel, self->view, codes);
}

static void
on_plan (PinVehiclePage *self)
{
  g_autoptr (GPtrArray) codes = pin_plan_area_chosen (self->plan);

  choose (self, codes, self->plan);
}

static void
on_table (PinVehiclePage *self)
{
  g_autoptr (GPtrArray) codes = pin_parts_table_chosen (self->table);

  choose (self, codes, self->table);
}

static void
on_panel_closed (PinVehiclePage *self)
{
  g_autoptr (GPtrArray) none = g_ptr_array_new ();

  choose (self, none, self->panel);
}

static void
on_layer (PinVehiclePage *self, GtkListBoxRow *row)
{
  const char *layer = row != NULL ? g_object_get_data (G_OBJECT (row), "pin-id") : NULL;

  g_free (self->layer);
  self->layer = g_strdup (layer);
  pin_plan_area_set_layer (self->plan, layer);
  pin_parts_table_set_layer (self->table, layer);
}

static void
on_list_seen (PinVehiclePage *self)
{
  if (self->view != NULL && !self->settling)
    pin_vehicle_page_show_lists (self);
}

static void
on_turn (PinVehiclePage *self)
{
  pin_plan_area_turn (self->plan);
}

static gboolean
turn_key (GtkWidget *widget, GVariant *arguments, gpointer user_data)
{
  on_turn (PIN_VEHICLE_PAGE (widget));
  return TRUE;
}

static void
on_log (PinVehiclePage *self)
{
  gboolean open = gtk_toggle_button_get_active (self->log);

  gtk_widget_set_visible (GTK_WIDGET (self->log_form), open);
  if (open)
    gtk_widget_child_focus (GTK_WIDGET (self->log_form), GTK_DIR_TAB_FORWARD);
}

static void
on_log_closed (PinVehiclePage *self)
{
  gtk_toggle_button_set_active (self->log, FALSE);
}

/* ---- showing ------------------------------------------------------------------- */

static GPtrArray *
plan_items (const PinVehicleView *view)
{
  GPtrArray *items = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_plan_item_free);

  /* In the chassis type's order, so that Tab walks the car and not the worst. */
  for (guint i = 0; i < view->car->slots->len; i++)
    {
      const PinSlot *slot = g_ptr_array_index (view->car->slots, i);
      const PinPartLine *line = pin_vehicle_view_part (view, slot->place);

      if (line != NULL && slot->position != NULL)
        g_ptr_array_add (items, pin_plan_item_new (slot->code, slot->label, line->state, line->group,
                                                   slot->position->x, slot->position->y,
                                                   line->mark.outcome, line->mark.unsafe));
    }
  return items;
}

static void
show_plan (PinVehiclePage *self)
{
  g_autoptr (GStrvBuilder) off = g_strv_builder_new ();
  g_auto (GStrv) assemblies = NULL;

  for (guint i = 0; i < self->view->car->tray->len; i++)
    {
      const PinTrayItem *item = g_ptr_array_index (self->view->car->tray, i);

      g_strv_builder_add (off, item->id);
    }
  assemblies = g_strv_builder_end (off);
  pin_plan_area_set_chassis (self->plan, self->view->car->chassis);
  pin_plan_area_set_off (self->plan, (const char *const *) assemblies);
  pin_plan_area_set_items (self->plan, plan_items (self->view));
}

static GtkWidget *
layer_row (const PinLayer *layer)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *title = gtk_label_new (layer->title);
  g_autofree char *n = g_strdup_printf ("%d", layer->n);
  GtkWidget *count = gtk_label_new (n);
  g_autofree char *name = g_strdup_printf ("%s, %d", layer->title, layer->n);

  gtk_label_set_xalign (GTK_LABEL (title), 0);
  gtk_widget_set_hexpand (title, TRUE);
  gtk_widget_add_css_class (count, "secondary");
  gtk_box_append (GTK_BOX (box), title);
  gtk_box_append (GTK_BOX (box), count);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  g_object_set_data_full (G_OBJECT (row), "pin-id", g_strdup (layer->id), g_free);
  pin_field_name (row, name);
  return row;
}

static void
show_layers (PinVehiclePage *self)
{
  g_autofree char *was = g_strdup (self->layer);
  GtkListBoxRow *chosen = NULL;
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->layers))) != NULL)
    gtk_list_box_remove (self->layers, child);
  for (guint i = 0; i < self->view->layers->len; i++)
    {
      const PinLayer *layer = g_ptr_array_index (self->view->layers, i);
      GtkWidget *row;

      if (layer->n == 0)
        continue;
      row = layer_row (layer);
      gtk_list_box_append (self->layers, row);
      if (chosen == NULL || g_strcmp0 (layer->id, was) == 0)
        chosen = GTK_LIST_BOX_ROW (row);
    }
  gtk_list_box_select_row (self->layers, chosen);
}

static void
show_block (PinVehiclePage *self)
{
  const PinVehicleView *view = self->view;
  guint n = view->readiness->reasons->len;
  g_autofree char *day = pin_day_long (pin_desk_day (self->desk));
  g_autofree char *on_day = g_strdup_printf (_("On %s"), day);
  g_autofree char *since = pin_sentence_case (view->since);
  g_autofree char *reasons = g_strdup_printf (ngettext ("%u reason", "%u reasons", n), n);

  gtk_label_set_label (self->name, view->car->name);
  gtk_label_set_label (self->chassis, view->car->chassis->title);
  gtk_label_set_label (self->since, since);
  gtk_label_set_label (self->usage, view->usage_text);
  gtk_label_set_label (self->on_day, on_day);
  gtk_label_set_label (self->level, pin_level_title (view->readiness->level));
  pin_mark_image_set (self->mark, pin_level_outcome (view->readiness->level),
                      view->readiness->level == PIN_LEVEL_UNSAFE);
  gtk_menu_button_set_label (self->reasons_button, reasons);
  pin_field_clear (GTK_WIDGET (self->reasons));
  for (guint i = 0; i < n; i++)
    {
      const PinReason *reason = g_ptr_array_index (view->readiness->reasons, i);
      GtkWidget *label = gtk_label_new (reason->text);

      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_label_set_max_width_chars (GTK_LABEL (label), 48);
      gtk_box_append (self->reasons, label);
    }
}

static const PinInspectionLine *
open_walk (const PinVehicleView *view)
{
  for (guint i = 0; i < view->inspections->len; i++)
    {
      const PinInspectionLine *line = g_ptr_array_index (view->inspections, i);

      if (g_strcmp0 (line->verdict, "open") == 0)
        return line;
    }
  return NULL;
}

static void
add_start (GMenu *menu, const char *title, const char *id)
{
  g_autoptr (GMenuItem) item = g_menu_item_new (title, NULL);

  g_menu_item_set_action_and_target (item, "vehicle.start", "s", id);
  g_menu_append_item (menu, item);
}

static GMenuModel *
start_menu (PinVehiclePage *self)
{
  PinLibrary *library = pin_desk_library (self->desk);
  g_autoptr (GPtrArray) procedures = pin_library_procedures (library);
  g_autoptr (GPtrArray) teardowns = pin_library_teardowns (library);
  g_autoptr (GMenu) whole = g_menu_new ();
  g_autoptr (GMenu) single = g_menu_new ();
  GMenu *menu = g_menu_new ();

  for (guint i = 0; i < teardowns->len; i++)
    {
      const PinTeardown *teardown = g_ptr_array_index (teardowns, i);

      if (pin_teardown_fits (teardown, self->view->car))
        add_start (whole, teardown->title, teardown->id);
    }
  for (guint i = 0; i < procedures->len; i++)
    {
      const PinProcedure *procedure = g_ptr_array_index (procedures, i);

      if (pin_procedure_fits (procedure, self->view->car))
        add_start (single, procedure->title, procedure->id);
    }
  g_menu_append_section (menu, NULL, G_MENU_MODEL (whole));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (single));
  return G_MENU_MODEL (menu);
}

static void
show_buttons (PinVehiclePage *self)
{
  const PinInspectionLine *open = open_walk (self->view);

  gtk_widget_set_visible (GTK_WIDGET (self->start), open == NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->resume), open != NULL);
  if (open != NULL)
    {
      g_autofree char *label = g_strdup_printf (_("Go on: %s"), open->title);
      g_autofree char *id = g_strdup_printf ("%" G_GINT64_FORMAT, open->id);

      gtk_button_set_label (self->resume, label);
      /* The target first: an action that takes one is not named without it. */
      gtk_actionable_set_action_target (GTK_ACTIONABLE (self->resume), "s", id);
      gtk_actionable_set_action_name (GTK_ACTIONABLE (self->resume), "win.bench");
    }
  else
    {
      g_autoptr (GMenuModel) menu = start_menu (self);

      gtk_menu_button_set_menu_model (self->start, menu);
    }
}

/* Until somebody has measured what it does to the motor. */
static void
show_gearing (PinVehiclePage *self)
{
  const PinGearingChange *change = self->view->gearing;
  gboolean asked = change != NULL && !change->measured;
  g_autofree char *text = asked ? g_strdup_printf (_("%s Measure the motor's temperature at the next outing, after "
                                                     "two minutes and after five."), change->text) : NULL;
  g_autofree char *id = g_strdup_printf ("%" G_GINT64_FORMAT, self->vehicle);

  gtk_label_set_label (self->gearing_text, asked ? text : "");
  /* The target first: a name without one is a mismatch. */
  gtk_actionable_set_action_target (GTK_ACTIONABLE (self->gearing_sum), "s", id);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->gearing_sum), "win.reckon");
  gtk_widget_set_visible (GTK_WIDGET (self->gearing), asked);
}

/* The car was made from an older text of its type. */
static void
show_more (PinVehiclePage *self)
{
  g_autoptr (GPtrArray) missing = pin_inventory_missing_positions (self->view->car);
  g_autofree char *text = g_strdup_printf (
      ngettext ("This type now knows %u more position.", "This type now knows %u more positions.", missing->len),
      missing->len);

  gtk_label_set_label (self->more_text, text);
  gtk_widget_set_visible (GTK_WIDGET (self->more), missing->len > 0);
}

static void
show_view (PinVehiclePage *self)
{
  g_autoptr (GPtrArray) codes = pin_plan_area_chosen (self->plan);

  self->settling = TRUE;
  show_block (self);
  show_buttons (self);
  show_more (self);
  show_gearing (self);
  pin_parts_table_set_view (self->table, self->view);
  show_plan (self);
  show_layers (self);
  pin_vehicle_page_show_lists (self);
  pin_log_outing_set_view (self->log_form, self->desk, self->view);
  pin_vehicle_form_set_view (self->form, self->desk, self->view);
  self->settling = FALSE;
  choose (self, codes, NULL);
  g_object_notify_by_pspec (G_OBJECT (self), name_shown);
}

/* ---- reading ------------------------------------------------------------------- */

/* An undo of its adding took it out of the stable. */
static gboolean
is_withdrawn (const PinVehicleView *view)
{
  return g_strcmp0 (view->car->rows->vehicle->state, "withdrawn") == 0;
}

static void
take_view (PinVehiclePage *self, PinVehicleView *view)
{
  PinVehicleView *old = self->view;
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  self->view = view;
  gtk_widget_set_visible (gtk_widget_get_first_child (GTK_WIDGET (self)), TRUE);
  show_view (self);
  /* Until now the panel may have pointed into the old one. */
  g_clear_pointer (&old, pin_vehicle_view_free);
  if (is_withdrawn (view) && PIN_IS_WINDOW (root))
    pin_window_close_vehicle (PIN_WINDOW (root));
}

static void
not_shown (PinVehiclePage *self, const GError *error)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  pin_tell_error (GTK_WIDGET (self), _("The vehicle could not be shown:"), error);
  /* One that was on the screen stays there as it was. */
  if (PIN_IS_WINDOW (root) && (self->view == NULL || self->view->car->id != self->vehicle))
    {
      self->vehicle = 0;
      pin_window_close_vehicle (PIN_WINDOW (root));
    }
}

static void
view_loaded (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (PinVehiclePage) self = user_data;
  g_autoptr (GError) error = NULL;
  PinVehicleView *view = pin_desk_read_finish (PIN_DESK (source), result, &error);

  if (view == NULL)
    not_shown (self, error);
  else if (self->desk == PIN_DESK (source))
    take_view (self, view);
  else
    pin_vehicle_view_free (view);
}

void
pin_vehicle_page_read (PinVehiclePage *self)
{
  if (self->vehicle == 0)
    return;
  self->stale = FALSE;
  pin_read_vehicle (self->desk, self->vehicle, &self->reading, view_loaded, g_object_ref (self));
}

/* A page that is not seen reads when it is. */
static void
read_if_seen (PinVehiclePage *self)
{
  self->stale = TRUE;
  if (gtk_widget_get_mapped (GTK_WIDGET (self)) && self->desk != NULL)
    pin_vehicle_page_read (self);
}

static void
on_changed (PinDesk *desk, gint64 vehicle, PinVehiclePage *self)
{
  read_if_seen (self);
}

static void
pin_vehicle_page_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (pin_vehicle_page_parent_class)->map (widget);
  if (PIN_VEHICLE_PAGE (widget)->stale)
    read_if_seen (PIN_VEHICLE_PAGE (widget));
}

/* ---- class ---------------------------------------------------------------------- */

static void
drop_desk (PinVehiclePage *self)
{
  g_cancellable_cancel (self->reading);
  g_clear_object (&self->reading);
  if (self->desk != NULL)
    g_signal_handlers_disconnect_by_data (self->desk, self);
  g_clear_object (&self->desk);
}

static void
pin_vehicle_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_NAME_SHOWN)
    g_value_set_string (value, pin_vehicle_page_name (PIN_VEHICLE_PAGE (object)));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
pin_vehicle_page_dispose (GObject *object)
{
  PinVehiclePage *self = PIN_VEHICLE_PAGE (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  self->settling = TRUE;
  drop_desk (self);
  g_clear_pointer (&self->fills, g_ptr_array_unref);
  if (child != NULL)
    gtk_widget_unparent (child);
  g_clear_pointer (&self->view, pin_vehicle_view_free);
  g_clear_pointer (&self->layer, g_free);
  G_OBJECT_CLASS (pin_vehicle_page_parent_class)->dispose (object);
}

static void
ensure_types (void)
{
  g_type_ensure (PIN_TYPE_RESTACK);
  g_type_ensure (PIN_TYPE_TAB_STOP);
  g_type_ensure (PIN_TYPE_PLAN_AREA);
  g_type_ensure (PIN_TYPE_MARK_IMAGE);
  g_type_ensure (PIN_TYPE_MARK_KEY);
  g_type_ensure (PIN_TYPE_PARTS_TABLE);
  g_type_ensure (PIN_TYPE_PART_PANEL);
  g_type_ensure (PIN_TYPE_LOG_OUTING);
  g_type_ensure (PIN_TYPE_VEHICLE_FORM);
  g_type_ensure (PIN_TYPE_LINE_ITEM);
  g_type_ensure (PIN_TYPE_LINE_ROW);
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PinVehiclePage, name)

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/vehicle-page.ui");
  BIND (name);
  BIND (chassis);
  BIND (since);
  BIND (usage);
  BIND (on_day);
  BIND (level);
  BIND (mark);
  BIND (reasons_button);
  BIND (reasons);
  BIND (start);
  BIND (resume);
  BIND (sheet);
  BIND (log);
  BIND (log_form);
  BIND (more);
  BIND (more_text);
  BIND (gearing);
  BIND (gearing_text);
  BIND (gearing_sum);
  BIND (layers);
  BIND (plan);
  BIND (lists);
  BIND (list_tabs);
  BIND (table);
  BIND (panel);
  BIND (parts_page);
  BIND (findings_page);
  BIND (owed_page);
  BIND (inspections_page);
  BIND (outings_page);
  BIND (setup_page);
  BIND (findings);
  BIND (owed);
  BIND (inspections);
  BIND (outings);
  BIND (setup);
  BIND (finding_note);
  BIND (findings_none);
  BIND (inspections_none);
  BIND (form);
  gtk_widget_class_bind_template_callback (widget_class, on_plan);
  gtk_widget_class_bind_template_callback (widget_class, on_table);
  gtk_widget_class_bind_template_callback (widget_class, on_panel_closed);
  gtk_widget_class_bind_template_callback (widget_class, on_layer);
  gtk_widget_class_bind_template_callback (widget_class, on_list_seen);
  gtk_widget_class_bind_template_callback (widget_class, on_turn);
  gtk_widget_class_bind_template_callback (widget_class, on_log);
  gtk_widget_class_bind_template_callback (widget_class, on_log_closed);
}

static void
pin_vehicle_page_class_init (PinVehiclePageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pin_vehicle_page_dispose;
  G_OBJECT_CLASS (klass)->get_property = pin_vehicle_page_get_property;
  widget_class->map = pin_vehicle_page_map;
  name_shown = g_param_spec_string ("name-shown", NULL, NULL, NULL,
                                    G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_property (G_OBJECT_CLASS (klass), PROP_NAME_SHOWN, name_shown);
  ensure_types ();
  bind_template (widget_class);
}

static void
pin_vehicle_page_init (PinVehiclePage *self)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  self->fills = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_list_fill_free);
  gtk_widget_init_template (GTK_WIDGET (self));
  pin_field_own_widths (self->list_tabs);
  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (keys),
    gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_r, 0),
                      gtk_callback_action_new (turn_key, NULL, NULL)));
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  pin_vehicle_page_add_actions (self);
}

void
pin_vehicle_page_set_desk (PinVehiclePage *self, PinDesk *desk)
{
  drop_desk (self);
  self->vehicle = 0;
  self->desk = g_object_ref (desk);
  pin_part_panel_set_desk (self->panel, desk);
  g_signal_connect (desk, "changed", G_CALLBACK (on_changed), self);
  g_signal_connect_swapped (desk, "day-changed", G_CALLBACK (read_if_seen), self);
}

void
pin_vehicle_page_show (PinVehiclePage *self, gint64 vehicle)
{
  if (self->vehicle != vehicle)
    {
      g_clear_pointer (&self->layer, g_free);
      gtk_widget_set_visible (gtk_widget_get_first_child (GTK_WIDGET (self)), FALSE);
      on_panel_closed (self);
      gtk_toggle_button_set_active (self->log, FALSE);
    }
  self->vehicle = vehicle;
  pin_vehicle_page_read (self);
}

/* Of the vehicle that is shown, or NULL. */
const char *
pin_vehicle_page_name (PinVehiclePage *self)
{
  return self->view != NULL ? self->view->car->name : NULL;
}

/* Its id; 0: none is shown. */
gint64
pin_vehicle_page_vehicle (PinVehiclePage *self)
{
  return self->vehicle;
}
