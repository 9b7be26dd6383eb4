#include "window/line-item.h"

#include "window/fields.h"
#include "window/mark-image.h"

#define MOST_BUTTONS 2

struct _PinLineItem
{
  GObject parent_instance;

  char *title, *text, *detail, *day;
  gboolean marked, owed, unsafe;
  PinOutcome outcome;
  char *labels[MOST_BUTTONS], *names[MOST_BUTTONS], *actions[MOST_BUTTONS];
  gint64 targets[MOST_BUTTONS];
  guint n_buttons;
};

G_DEFINE_FINAL_TYPE (PinLineItem, pin_line_item, G_TYPE_OBJECT)

static void
pin_line_item_finalize (GObject *object)
{
  PinLineItem *self = PIN_LINE_ITEM (object);

  g_free (self->title);
  g_free (self->text);
  g_free (self->detail);
  g_free (self->day);
  for (guint i = 0; i < MOST_BUTTONS; i++)
    {
      g_free (self->labels[i]);
      g_free (self->names[i]);
      g_free (self->actions[i]);
    }
  G_OBJECT_CLASS (pin_line_item_parent_class)->finalize (object);
}

static void
pin_line_item_class_init (PinLineItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = pin_line_item_finalize;
}

static void
pin_line_item_init (PinLineItem *self)
{
}

/* All may be NULL but @title. */
PinLineItem *
pin_line_item_new (const char *title, const char *text, const char *detail, const char *day)
{
  PinLineItem *self = g_object_new (PIN_TYPE_LINE_ITEM, NULL);

  self->title = g_strdup (title);
  self->text = g_strdup (text);
  self->detail = g_strdup (detail);
  self->day = g_strdup (day);
  return self;
}

void
pin_line_item_set_mark (PinLineItem *self, PinOutcome outcome, gboolean unsafe)
{
  self->marked = TRUE;
  self->outcome = outcome;
  self->unsafe = unsafe;
}

void
pin_line_item_set_owed (PinLineItem *self)
{
  self->marked = self->owed = TRUE;
}

void
pin_line_item_add_button (PinLineItem *self, const PinLineButton *button)
{
  guint i = self->n_buttons;

  g_return_if_fail (i < MOST_BUTTONS);
  self->labels[i] = g_strdup (button->label);
  self->names[i] = button->name != NULL ? g_strdup (button->name)
                                        : g_strdup_printf ("%s: %s", button->label, self->title);
  self->actions[i] = g_strdup (button->action);
  self->targets[i] = button->target;
  self->n_buttons++;
}

/* Would a row show the same, and its buttons do the same? */
gboolean
pin_line_item_equal (gconstpointer a, gconstpointer b)
{
  const PinLineItem *x = a, *y = b;
  gboolean same = g_strcmp0 (x->title, y->title) == 0 && g_strcmp0 (x->text, y->text) == 0 &&
                  g_strcmp0 (x->detail, y->detail) == 0 && g_strcmp0 (x->day, y->day) == 0 &&
                  x->marked == y->marked && x->owed == y->owed && x->unsafe == y->unsafe &&
                  x->outcome == y->outcome && x->n_buttons == y->n_buttons;

  for (guint i = 0; same && i < x->n_buttons; i++)
    same = x->targets[i] == y->targets[i] && g_strcmp0 (x->labels[i], y->labels[i]) == 0 &&
           g_strcmp0 (x->names[i], y->names[i]) == 0 && g_strcmp0 (x->actions[i], y->actions[i]) == 0;
  return same;
}

/* ---- the row ----------------------------------------------------------------- */

struct _PinLineRow
{
  PinListRow parent_instance;

  PinMarkImage *mark;         /* template */
  GtkLabel *title, *text, *detail, *day;
  GtkBox *buttons;
};

G_DEFINE_FINAL_TYPE (PinLineRow, pin_line_row, PIN_TYPE_LIST_ROW)

static void
show_text (GtkLabel *label, const char *text)
{
  gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

static char *
name_of (gpointer data)
{
  const PinLineItem *item = data;

  return g_strjoin (", ", item->title, item->text != NULL ? item->text : "", item->day, NULL);
}

static void
show_buttons (PinLineRow *self, const PinLineItem *item)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->buttons))) != NULL)
    gtk_box_remove (self->buttons, child);
  for (guint i = 0; i < item->n_buttons; i++)
    {
      GtkWidget *button = gtk_button_new_with_label (item->labels[i]);
      g_autofree char *target = g_strdup_printf ("%" G_GINT64_FORMAT, item->targets[i]);

      /* The target first: an action that takes one is not named without it. */
      gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", target);
      gtk_actionable_set_action_name (GTK_ACTIONABLE (button), item->actions[i]);
      gtk_accessible_reset_relation (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_RELATION_LABELLED_BY);
      pin_field_name (button, item->names[i]);
      gtk_box_append (self->buttons, button);
    }
}

static void
show_item (PinListRow *row, gpointer data)
{
  PinLineRow *self = PIN_LINE_ROW (row);
  const PinLineItem *item = data;

  gtk_widget_set_visible (GTK_WIDGET (self->mark), item->marked);
  g_object_set (self->mark, "outcome", (int) item->outcome, "unsafe", item->unsafe,
                "owed", item->owed, NULL);
  show_text (self->title, item->title);
  show_text (self->text, item->text);
  show_text (self->detail, item->detail);
  show_text (self->day, item->day);
  show_buttons (self, item);
}

static void
pin_line_row_class_init (PinLineRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  PIN_LIST_ROW_CLASS (klass)->show = show_item;
  PIN_LIST_ROW_CLASS (klass)->name = name_of;
  g_type_ensure (PIN_TYPE_MARK_IMAGE);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/line-row.ui");
  gtk_widget_class_bind_template_child (widget_class, PinLineRow, mark);
  gtk_widget_class_bind_template_child (widget_class, PinLineRow, title);
  gtk_widget_class_bind_template_child (widget_class, PinLineRow, text);
  gtk_widget_class_bind_template_child (widget_class, PinLineRow, detail);
  gtk_widget_class_bind_template_child (widget_class, PinLineRow, day);
  gtk_widget_class_bind_template_child (widget_class, PinLineRow, buttons);
}

static void
pin_line_row_init (PinLineRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
