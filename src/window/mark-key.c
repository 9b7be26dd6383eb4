#include "window/mark-key.h"

#include <glib/gi18n.h>

#include "window/flow-child.h"
#include "window/mark-image.h"

struct _PinMarkKey
{
  GtkBox parent_instance;
};

G_DEFINE_FINAL_TYPE (PinMarkKey, pin_mark_key, GTK_TYPE_BOX)

static const struct
{
  PinOutcome outcome;
  gboolean unsafe;
  const char *word;
} marks[] = {
  { PIN_OUTCOME_PASS, FALSE, N_("pass") },
  { PIN_OUTCOME_WATCH, FALSE, N_("watch") },
  { PIN_OUTCOME_FAIL, FALSE, N_("fail") },
  { PIN_OUTCOME_FAIL, TRUE, N_("unsafe") },
  { PIN_OUTCOME_NOT_CHECKED, FALSE, N_("not checked") },
  { PIN_OUTCOME_DOES_NOT_APPLY, FALSE, N_("does not apply") },
};

static void
pin_mark_key_class_init (PinMarkKeyClass *klass)
{
}

static void
pin_mark_key_init (PinMarkKey *self)
{
  GtkWidget *flow = gtk_flow_box_new ();

  gtk_flow_box_set_selection_mode (GTK_FLOW_BOX (flow), GTK_SELECTION_NONE);
  gtk_flow_box_set_max_children_per_line (GTK_FLOW_BOX (flow), G_N_ELEMENTS (marks));
  gtk_widget_set_can_focus (flow, FALSE);
  gtk_widget_set_hexpand (flow, TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (self), "mark-key");
  gtk_box_append (GTK_BOX (self), flow);
  for (guint i = 0; i < G_N_ELEMENTS (marks); i++)
    {
      GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

      gtk_box_append (GTK_BOX (box), pin_mark_image_new (marks[i].outcome, marks[i].unsafe, 12));
      gtk_box_append (GTK_BOX (box), gtk_label_new (_(marks[i].word)));
      pin_flow_add (GTK_FLOW_BOX (flow), box);
    }
}
