#include "window/value-entry.h"

struct _PinValueEntry
{
  GtkBox parent_instance;

  GtkEntry *entry;            /* template */
  GtkLabel *unit;
};

G_DEFINE_FINAL_TYPE (PinValueEntry, pin_value_entry, GTK_TYPE_BOX)

enum
{
  PROP_0,
  PROP_LABEL,
  PROP_UNIT,
  PROP_PLACEHOLDER,
  N_PROPS,
};

static GParamSpec *props[N_PROPS];
static guint changed, activated;

static void
on_changed (PinValueEntry *self)
{
  g_signal_emit (self, changed, 0);
}

static void
on_activate (PinValueEntry *self)
{
  g_signal_emit (self, activated, 0);
}

static void
pin_value_entry_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  PinValueEntry *self = PIN_VALUE_ENTRY (object);
  const char *text = g_value_get_string (value);

  switch (id)
    {
    case PROP_LABEL:
      gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                      text, -1);
      break;
    case PROP_UNIT:
      gtk_label_set_label (self->unit, text);
      gtk_widget_set_visible (GTK_WIDGET (self->unit), text != NULL && *text != '\0');
      break;
    case PROP_PLACEHOLDER:
      gtk_entry_set_placeholder_text (self->entry, text);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static gboolean
pin_value_entry_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (PIN_VALUE_ENTRY (widget)->entry));
}

static void
pin_value_entry_class_init (PinValueEntryClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GParamFlags flags = G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS;

  G_OBJECT_CLASS (klass)->set_property = pin_value_entry_set_property;
  widget_class->grab_focus = pin_value_entry_grab_focus;
  props[PROP_LABEL] = g_param_spec_string ("label", NULL, NULL, NULL, flags);
  props[PROP_UNIT] = g_param_spec_string ("unit", NULL, NULL, NULL, flags);
  props[PROP_PLACEHOLDER] = g_param_spec_string ("placeholder", NULL, NULL, NULL, flags);
  g_object_class_install_properties (G_OBJECT_CLASS (klass), N_PROPS, props);
  changed = g_signal_new ("changed", PIN_TYPE_VALUE_ENTRY, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                          G_TYPE_NONE, 0);
  activated = g_signal_new ("activate", PIN_TYPE_VALUE_ENTRY, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                            NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/value-entry.ui");
  gtk_widget_class_bind_template_child (widget_class, PinValueEntry, entry);
  gtk_widget_class_bind_template_child (widget_class, PinValueEntry, unit);
  gtk_widget_class_bind_template_callback (widget_class, on_changed);
  gtk_widget_class_bind_template_callback (widget_class, on_activate);
}

static void
pin_value_entry_init (PinValueEntry *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* @label names the entry for assistive technology; @unit may be NULL. */
GtkWidget *
pin_value_entry_new (const char *label, const char *unit)
{
  return g_object_new (PIN_TYPE_VALUE_ENTRY, "label", label, "unit", unit, NULL);
}

const char *
pin_value_entry_text (PinValueEntry *self)
{
  return gtk_editable_get_text (GTK_EDITABLE (self->entry));
}

void
pin_value_entry_set_text (PinValueEntry *self, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
}

GtkWidget *
pin_value_entry_entry (PinValueEntry *self)
{
  return GTK_WIDGET (self->entry);
}
