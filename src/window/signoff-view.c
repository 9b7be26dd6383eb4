#include "window/signoff-view.h"

#include <glib/gi18n.h>

#include "window/fields.h"
#include "window/mark-image.h"

#define DOUBLE_CLICK 500000   /* µs */

struct _PinSignoffView
{
  GtkBox parent_instance;

  gboolean blocked;
  gint64 sure;                /* when abandon was pressed once, monotonic µs; 0: it was not */

  GtkLabel *summary, *warning;/* template */
  GtkBox *lists, *foot;
  GtkEntry *person;
  GtkButton *sign, *abandon;
};

G_DEFINE_FINAL_TYPE (PinSignoffView, pin_signoff_view, GTK_TYPE_BOX)

static guint signed_off, abandoned;

const char *
pin_signoff_view_person (PinSignoffView *self)
{
  return gtk_editable_get_text (GTK_EDITABLE (self->person));
}

static void
on_person (PinSignoffView *self)
{
  gtk_widget_set_sensitive (GTK_WIDGET (self->sign),
                            !self->blocked && *pin_signoff_view_person (self) != '\0');
}

static void
on_sign (PinSignoffView *self)
{
  if (gtk_widget_get_sensitive (GTK_WIDGET (self->sign)))
    g_signal_emit (self, signed_off, 0);
}

/* Once to see what it does, twice to do it; a double click is once. */
static void
on_abandon (PinSignoffView *self)
{
  if (self->sure != 0)
    {
      if (g_get_monotonic_time () - self->sure < DOUBLE_CLICK)
        return;
      g_signal_emit (self, abandoned, 0);
      return;
    }
  self->sure = g_get_monotonic_time ();
  gtk_button_set_label (self->abandon, _("Abandon this inspection"));
  gtk_widget_set_visible (GTK_WIDGET (self->warning), TRUE);
}

/* By the time of finalize the template has forgotten its children. */
static void
pin_signoff_view_dispose (GObject *object)
{
  g_clear_object (&PIN_SIGNOFF_VIEW (object)->foot);
  G_OBJECT_CLASS (pin_signoff_view_parent_class)->dispose (object);
}

static void
pin_signoff_view_class_init (PinSignoffViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pin_signoff_view_dispose;
  signed_off = g_signal_new ("signed-off", PIN_TYPE_SIGNOFF_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                             NULL, G_TYPE_NONE, 0);
  abandoned = g_signal_new ("abandoned", PIN_TYPE_SIGNOFF_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                            NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/signoff-view.ui");
  gtk_widget_class_bind_template_child (widget_class, PinSignoffView, summary);
  gtk_widget_class_bind_template_child (widget_class, PinSignoffView, warning);
  gtk_widget_class_bind_template_child (widget_class, PinSignoffView, lists);
  gtk_widget_class_bind_template_child (widget_class, PinSignoffView, foot);
  gtk_widget_class_bind_template_child (widget_class, PinSignoffView, person);
  gtk_widget_class_bind_template_child (widget_class, PinSignoffView, sign);
  gtk_widget_class_bind_template_child (widget_class, PinSignoffView, abandon);
  gtk_widget_class_bind_template_callback (widget_class, on_person);
  gtk_widget_class_bind_template_callback (widget_class, on_sign);
  gtk_widget_class_bind_template_callback (widget_class, on_abandon);
}

static void
pin_signoff_view_init (PinSignoffView *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_object_ref (self->foot);
  gtk_box_remove (GTK_BOX (self), GTK_WIDGET (self->foot));
}

/* Initials and buttons.  They belong to this view, but stand where the page puts
 * them: in sight below lists of any length. */
GtkWidget *
pin_signoff_view_foot (PinSignoffView *self)
{
  return GTK_WIDGET (self->foot);
}

/* ---- what signing does ------------------------------------------------------------------ */

static void
heading (PinSignoffView *self, const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "bench-heading");
  gtk_box_append (self->lists, label);
}

static void
line (PinSignoffView *self, GtkWidget *mark, const char *text)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, "bench-list");
  if (mark != NULL)
    gtk_box_append (GTK_BOX (row), mark);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (self->lists, row);
}

static void
texts (PinSignoffView *self, const char *title, const GPtrArray *lines)
{
  if (lines->len == 0)
    return;
  heading (self, title);
  for (guint i = 0; i < lines->len; i++)
    line (self, g_object_new (PIN_TYPE_MARK_IMAGE, "owed", TRUE, "size", 12, NULL),
          g_ptr_array_index (lines, i));
}

static void
changes (PinSignoffView *self, const char *title, const GPtrArray *list, PinChangeKind kind)
{
  gboolean titled = FALSE;

  for (guint i = 0; i < list->len; i++)
    {
      const PinChange *change = g_ptr_array_index (list, i);

      if (change->kind != kind)
        continue;
      if (!titled)
        heading (self, title);
      titled = TRUE;
      line (self, pin_mark_image_new (kind == PIN_CHANGE_CLOSED ? PIN_OUTCOME_PASS
                                      : change->gravity == PIN_GRAVITY_WATCH ? PIN_OUTCOME_WATCH
                                      : PIN_OUTCOME_FAIL,
                                      change->gravity == PIN_GRAVITY_UNSAFE, 15), change->text);
    }
}

static char *
summary_text (const PinClosing *closing)
{
  GString *text = g_string_new (NULL);
  const struct { int n; const char *word; } parts[] = {
    { closing->unsafe, _("unsafe") }, { closing->failed, _("fail") }, { closing->watched, _("watch") },
    { closing->passed, _("pass") }, { closing->done, _("done") },
    { closing->not_checked, _("not checked") }, { closing->does_not_apply, _("does not apply") },
    { closing->unanswered, _("not answered") },
  };

  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    if (parts[i].n > 0)
      g_string_append_printf (text, "%s%d %s", text->len > 0 ? ", " : "", parts[i].n, parts[i].word);
  return g_string_free (text, FALSE);
}

void
pin_signoff_view_set (PinSignoffView *self, const PinWalk *walk, const char *person)
{
  PinClosing *closing = pin_walk_closing (walk);
  g_autofree char *summary = summary_text (closing);

  pin_field_clear (GTK_WIDGET (self->lists));
  gtk_label_set_label (self->summary, summary);
  texts (self, _("In the way"), closing->blockers);
  changes (self, _("Opens"), closing->changes, PIN_CHANGE_OPENED);
  changes (self, _("Changes"), closing->changes, PIN_CHANGE_REGRADED);
  changes (self, _("Stays as it was"), closing->changes, PIN_CHANGE_SAME);
  changes (self, _("Stays open: sound now, but no work and no note"), closing->changes,
           PIN_CHANGE_STAYS);
  changes (self, _("Closes"), closing->changes, PIN_CHANGE_CLOSED);
  texts (self, _("Still owed"), closing->still_owed);
  gtk_widget_set_visible (GTK_WIDGET (self->lists),
                          gtk_widget_get_first_child (GTK_WIDGET (self->lists)) != NULL);
  self->blocked = closing->blockers->len > 0;
  self->sure = 0;
  gtk_button_set_label (self->abandon, _("Abandon"));
  gtk_widget_set_visible (GTK_WIDGET (self->warning), FALSE);
  if (person != NULL && *pin_signoff_view_person (self) == '\0')
    gtk_editable_set_text (GTK_EDITABLE (self->person), person);
  on_person (self);
  pin_closing_free (closing);
}
