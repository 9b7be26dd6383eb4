#include "window/strip.h"

#include <glib/gi18n.h>

/* What was done is told for so long; what went wrong until it is closed. */
#define DONE_FOR 30           /* s */

struct _PinStrip
{
  GtkBox parent_instance;

  PinStripKind kind;
  guint timer;

  GtkImage *icon;             /* template */
  GtkLabel *text;
  GtkProgressBar *progress;
  GtkBox *buttons;
  GtkButton *close;
};

G_DEFINE_FINAL_TYPE (PinStrip, pin_strip, GTK_TYPE_BOX)

static guint closed;

typedef struct
{
  PinStrip *strip;
  PinStripAction action;
  gpointer data;
  GDestroyNotify data_free;
} Press;

static void
press_free (gpointer data, GClosure *closure)
{
  Press *press = data;

  if (press->data_free != NULL)
    press->data_free (press->data);
  g_free (press);
}

static void
on_press (GtkButton *button, Press *press)
{
  g_autoptr (PinStrip) strip = g_object_ref (press->strip);

  press->action (press->data);
  pin_strip_close (strip);
}

static void
on_close (PinStrip *self)
{
  pin_strip_close (self);
}

static gboolean
on_time (gpointer data)
{
  PinStrip *self = data;
  GtkStateFlags busy = GTK_STATE_FLAG_PRELIGHT | GTK_STATE_FLAG_FOCUS_WITHIN;

  if ((gtk_widget_get_state_flags (GTK_WIDGET (self)) & busy) != 0)
    return G_SOURCE_CONTINUE;
  self->timer = 0;
  pin_strip_close (self);
  return G_SOURCE_REMOVE;
}

static void
pin_strip_dispose (GObject *object)
{
  g_clear_handle_id (&PIN_STRIP (object)->timer, g_source_remove);
  G_OBJECT_CLASS (pin_strip_parent_class)->dispose (object);
}

static void
pin_strip_class_init (PinStripClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pin_strip_dispose;
  closed = g_signal_new ("closed", PIN_TYPE_STRIP, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                         G_TYPE_NONE, 0);

  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_ALERT);
  gtk_widget_class_set_template_from_resource (widget_class, "/page/hingepin/Hingepin/ui/strip.ui");
  gtk_widget_class_bind_template_child (widget_class, PinStrip, icon);
  gtk_widget_class_bind_template_child (widget_class, PinStrip, text);
  gtk_widget_class_bind_template_child (widget_class, PinStrip, progress);
  gtk_widget_class_bind_template_child (widget_class, PinStrip, buttons);
  gtk_widget_class_bind_template_child (widget_class, PinStrip, close);
  gtk_widget_class_bind_template_callback (widget_class, on_close);
}

static void
pin_strip_init (PinStrip *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* @title and @text are plain text; @text may be NULL. */
PinStrip *
pin_strip_new (PinStripKind kind, const char *title, const char *text)
{
  static const char *const icons[] = { "pin-clock-symbolic", "pin-hazard-symbolic",
                                       "pin-clock-symbolic" };
  static const char *const classes[] = { "done", "error", "working" };
  PinStrip *self = g_object_new (PIN_TYPE_STRIP, NULL);
  g_autofree char *markup = NULL;
  g_autofree char *plain = NULL;

  self->kind = kind;
  gtk_image_set_from_icon_name (self->icon, icons[kind]);
  gtk_widget_add_css_class (GTK_WIDGET (self), classes[kind]);
  markup = text != NULL ? g_markup_printf_escaped ("<b>%s</b> %s", title, text)
                        : g_markup_printf_escaped ("<b>%s</b>", title);
  plain = text != NULL ? g_strdup_printf ("%s %s", title, text) : g_strdup (title);
  gtk_label_set_markup (self->text, markup);
  gtk_widget_set_visible (GTK_WIDGET (self->close), kind != PIN_STRIP_WORKING);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, plain, -1);
  if (kind == PIN_STRIP_DONE)
    self->timer = g_timeout_add_seconds (DONE_FOR, on_time, self);
  return self;
}

PinStripKind
pin_strip_kind (PinStrip *self)
{
  return self->kind;
}

/* A press runs @action and closes the strip.  @key is shown on the button as
 * a hint, or NULL. */
void
pin_strip_add_button (PinStrip       *self,
                      const char     *label,
                      const char     *key,
                      PinStripAction  action,
                      gpointer        data,
                      GDestroyNotify  data_free)
{
  GtkWidget *button = gtk_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  Press *press = g_new0 (Press, 1);

  *press = (Press) { self, action, data, data_free };
  gtk_box_append (GTK_BOX (box), gtk_label_new (label));
  if (key != NULL)
    {
      GtkWidget *hint = gtk_label_new (key);

      gtk_widget_add_css_class (hint, "key");
      gtk_widget_set_valign (hint, GTK_ALIGN_CENTER);
      gtk_box_append (GTK_BOX (box), hint);
    }
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_widget_add_css_class (button, "strip-button");
  gtk_accessible_reset_relation (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_RELATION_LABELLED_BY);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  g_signal_connect_data (button, "clicked", G_CALLBACK (on_press), press, press_free, 0);
  gtk_box_append (self->buttons, button);
}

void
pin_strip_set_progress (PinStrip *self, double share)
{
  gtk_widget_set_visible (GTK_WIDGET (self->progress), TRUE);
  gtk_progress_bar_set_fraction (self->progress, CLAMP (share, 0, 1));
}

void
pin_strip_close (PinStrip *self)
{
  GtkWidget *parent = gtk_widget_get_parent (GTK_WIDGET (self));

  g_clear_handle_id (&self->timer, g_source_remove);
  if (parent == NULL)
    return;
  g_object_ref (self);
  gtk_box_remove (GTK_BOX (parent), GTK_WIDGET (self));
  g_signal_emit (self, closed, 0);
  g_object_unref (self);
}
