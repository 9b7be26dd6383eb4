#include "window/stable-row.h"

#include <glib/gi18n.h>

#include "window/fields.h"
#include "window/mark-image.h"
#include "window/plan-area.h"
#include "window/vehicle-item.h"

struct _PinStableRow
{
  GtkBox parent_instance;

  PinVehicleItem *item;       /* owned */

  PinPlanArea *plan;          /* template */
  GtkLabel *name, *chassis;
  PinMarkImage *mark;
  GtkLabel *level, *reason;
  GtkButton *resume;
  GtkLabel *hours, *outings;
  GtkButton *open;
};

G_DEFINE_FINAL_TYPE (PinStableRow, pin_stable_row, GTK_TYPE_BOX)

enum
{
  PROP_0,
  PROP_ITEM,
};

static void
set_name (gpointer widget, const char *name)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

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

static void
name_row (PinStableRow *self)
{
  g_autofree char *row = g_strdup_printf ("%s, %s: %s. %s", self->item->name,
                                          self->item->chassis_title, self->item->level_title,
                                          self->item->reason);
  g_autofree char *open = g_strdup_printf (_("Open %s"), self->item->name);
  GtkWidget *parent = gtk_widget_get_parent (GTK_WIDGET (self));

  set_name (self->open, open);
  pin_field_tooltip (self->open, open);
  if (parent != NULL)
    set_name (parent, row);
}

static void
show_reason (PinStableRow *self)
{
  g_autofree char *reason = g_markup_escape_text (self->item->reason, -1);
  g_autofree char *markup = self->item->more != NULL
                              ? g_strdup_printf ("%s <span alpha='80%%'>%s</span>", reason,
                                                 self->item->more)
                              : g_strdup (reason);

  gtk_label_set_markup (self->reason, markup);
}

static void
show_resume (PinStableRow *self)
{
  g_autofree char *label = NULL;
  g_autofree char *name = NULL;

  gtk_widget_set_visible (GTK_WIDGET (self->resume), self->item->open_walk != 0);
  if (self->item->open_walk == 0)
    return;
  label = g_strdup_printf (_("Go on: %s"), self->item->open_walk_title);
  name = g_strdup_printf (_("Go on with %s, %s"), self->item->open_walk_title, self->item->name);
  gtk_button_set_label (self->resume, label);
  gtk_accessible_reset_relation (GTK_ACCESSIBLE (self->resume), GTK_ACCESSIBLE_RELATION_LABELLED_BY);
  set_name (self->resume, name);
}

static void
show_item (PinStableRow *self)
{
  PinVehicleItem *item = self->item;

  pin_plan_area_set_chassis (self->plan, item->chassis);
  pin_plan_area_set_items (self->plan, copy_marks (item->marks));
  gtk_label_set_label (self->name, item->name);
  gtk_label_set_label (self->chassis, item->chassis_title);
  pin_mark_image_set (self->mark, pin_level_outcome (item->level), item->level == PIN_LEVEL_UNSAFE);
  gtk_label_set_label (self->level, item->level_title);
  gtk_label_set_label (self->hours, item->hours);
  gtk_label_set_label (self->outings, item->outings);
  show_reason (self);
  show_resume (self);
  name_row (self);
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
  activate_id (self, "win.vehicle", self->item->id);
}

static void
on_resume (PinStableRow *self)
{
  activate_id (self, "win.bench", self->item->open_walk);
}

static void
pin_stable_row_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  PinStableRow *self = PIN_STABLE_ROW (object);

  if (id != PROP_ITEM)
    {
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
      return;
    }
  g_set_object (&self->item, g_value_get_object (value));
  if (self->item != NULL)
    show_item (self);
}

static void
pin_stable_row_root (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (pin_stable_row_parent_class)->root (widget);
  /* The list's own row widget becomes known only now. */
  if (PIN_STABLE_ROW (widget)->item != NULL)
    name_row (PIN_STABLE_ROW (widget));
}

static void
pin_stable_row_dispose (GObject *object)
{
  g_clear_object (&PIN_STABLE_ROW (object)->item);
  G_OBJECT_CLASS (pin_stable_row_parent_class)->dispose (object);
}

static void
pin_stable_row_class_init (PinStableRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->set_property = pin_stable_row_set_property;
  G_OBJECT_CLASS (klass)->dispose = pin_stable_row_dispose;
  widget_class->root = pin_stable_row_root;
  g_object_class_install_property (G_OBJECT_CLASS (klass), PROP_ITEM,
    g_param_spec_object ("item", NULL, NULL, PIN_TYPE_VEHICLE_ITEM,
                         G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS));
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
  gtk_widget_class_bind_template_child (widget_class, PinStableRow, open);
  gtk_widget_class_bind_template_callback (widget_class, on_open);
  gtk_widget_class_bind_template_callback (widget_class, on_resume);
}

static void
pin_stable_row_init (PinStableRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
