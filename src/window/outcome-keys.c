#include "window/outcome-keys.h"

#include <glib/gi18n.h>

#include "window/fields.h"
#include "window/key-row.h"
#include "window/mark-image.h"

static const struct
{
  PinKeys key;
  PinOutcome outcome;
  gboolean unsafe;
  const char *title, *letter;
} rows[] = {
  { PIN_KEY_DONE, PIN_OUTCOME_DONE, FALSE, N_("Done"), "D" },
  { PIN_KEY_PASS, PIN_OUTCOME_PASS, FALSE, N_("Pass"), "P" },
  { PIN_KEY_WATCH, PIN_OUTCOME_WATCH, FALSE, N_("Watch"), "W" },
  { PIN_KEY_FAIL, PIN_OUTCOME_FAIL, FALSE, N_("Fail"), "F" },
  { PIN_KEY_UNSAFE, PIN_OUTCOME_FAIL, TRUE, N_("Unsafe"), "U" },
  { PIN_KEY_NOT_CHECKED, PIN_OUTCOME_NOT_CHECKED, FALSE, N_("Not checked"), "N" },
  { PIN_KEY_DOES_NOT_APPLY, PIN_OUTCOME_DOES_NOT_APPLY, FALSE, N_("Does not apply"), "A" },
};

#define N_KEYS G_N_ELEMENTS (rows)

struct _PinOutcomeKeys
{
  GtkWidget parent_instance;

  GtkWidget *back, *grid, *next;
  GtkWidget *buttons[N_KEYS];
  GtkWidget *hints[N_KEYS];   /* "the reading says" */
};

G_DEFINE_FINAL_TYPE (PinOutcomeKeys, pin_outcome_keys, GTK_TYPE_WIDGET)

static guint pressed, moved;

static void
on_key (GtkButton *button, PinOutcomeKeys *self)
{
  guint i = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "pin-nth"));

  g_signal_emit (self, pressed, 0, (int) rows[i].outcome, rows[i].unsafe);
}

static void
on_back (PinOutcomeKeys *self)
{
  g_signal_emit (self, moved, 0, -1);
}

static void
on_next (PinOutcomeKeys *self)
{
  g_signal_emit (self, moved, 0, 1);
}

static GtkWidget *
hint_row (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4);
  GtkWidget *key = gtk_label_new (_("Enter"));
  GtkWidget *words = gtk_label_new (_("the reading says"));

  gtk_label_set_wrap (GTK_LABEL (words), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (words), 16);
  gtk_widget_set_valign (key, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (box), words);
  gtk_widget_add_css_class (key, "key");
  gtk_box_append (GTK_BOX (box), key);
  gtk_widget_set_halign (box, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (box, "key-hint");
  gtk_widget_set_visible (box, FALSE);
  return box;
}

static GtkWidget *
key_button (PinOutcomeKeys *self, guint i)
{
  GtkWidget *button = gtk_button_new ();
  GtkWidget *overlay = gtk_overlay_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget *label = gtk_label_new (_(rows[i].title));
  GtkWidget *letter = gtk_label_new (rows[i].letter);

  if (rows[i].outcome != PIN_OUTCOME_DONE)
    gtk_box_append (GTK_BOX (row), pin_mark_image_new (rows[i].outcome, rows[i].unsafe, 24));
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 15);
  gtk_box_append (GTK_BOX (row), label);
  gtk_widget_set_halign (row, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  self->hints[i] = hint_row ();
  gtk_box_append (GTK_BOX (box), row);
  gtk_box_append (GTK_BOX (box), self->hints[i]);
  gtk_widget_add_css_class (letter, "key");
  gtk_widget_set_halign (letter, GTK_ALIGN_END);
  gtk_widget_set_valign (letter, GTK_ALIGN_START);
  gtk_overlay_set_child (GTK_OVERLAY (overlay), box);
  gtk_overlay_add_overlay (GTK_OVERLAY (overlay), letter);
  gtk_button_set_child (GTK_BUTTON (button), overlay);
  gtk_widget_add_css_class (button, "outcome-key");
  gtk_widget_add_css_class (button, "outcome");
  g_object_set_data (G_OBJECT (button), "pin-nth", GUINT_TO_POINTER (i));
  pin_field_name (button, _(rows[i].title));
  g_signal_connect (button, "clicked", G_CALLBACK (on_key), self);
  return button;
}

static GtkWidget *
move_button (PinOutcomeKeys *self, const char *icon, const char *label, GCallback callback)
{
  GtkWidget *button = gtk_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *image = gtk_image_new_from_icon_name (icon);

  gtk_accessible_update_property (GTK_ACCESSIBLE (image), GTK_ACCESSIBLE_PROPERTY_LABEL, "", -1);
  gtk_box_append (GTK_BOX (box), image);
  gtk_box_append (GTK_BOX (box), gtk_label_new (label));
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_widget_add_css_class (button, "outcome-key");
  gtk_widget_add_css_class (button, "move");
  pin_field_name (button, label);
  g_signal_connect_swapped (button, "clicked", callback, self);
  return button;
}

static void
pin_outcome_keys_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (pin_outcome_keys_parent_class)->dispose (object);
}

static void
pin_outcome_keys_class_init (PinOutcomeKeysClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pin_outcome_keys_dispose;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  pressed = g_signal_new ("pressed", PIN_TYPE_OUTCOME_KEYS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                          G_TYPE_NONE, 2, G_TYPE_INT, G_TYPE_BOOLEAN);
  moved = g_signal_new ("moved", PIN_TYPE_OUTCOME_KEYS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                        G_TYPE_NONE, 1, G_TYPE_INT);
}

static void
pin_outcome_keys_init (PinOutcomeKeys *self)
{
  GtkLayoutManager *row = gtk_box_layout_new (GTK_ORIENTATION_HORIZONTAL);

  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (row), 8);
  gtk_widget_set_layout_manager (GTK_WIDGET (self), row);
  pin_field_name (self, _("outcomes"));
  self->back = move_button (self, "go-previous-symbolic", _("Back"), G_CALLBACK (on_back));
  gtk_widget_set_parent (self->back, GTK_WIDGET (self));
  /* Back and Next are as high as all the others together: Tab, which goes by the
   * middles of widgets, comes to them first and last. */
  self->grid = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_widget_set_layout_manager (self->grid, pin_key_row_new (8));
  gtk_widget_set_hexpand (self->grid, TRUE);
  gtk_widget_set_parent (self->grid, GTK_WIDGET (self));
  for (guint i = 0; i < N_KEYS; i++)
    {
      self->buttons[i] = key_button (self, i);
      gtk_box_append (GTK_BOX (self->grid), self->buttons[i]);
    }
  self->next = move_button (self, "go-next-symbolic", _("Next"), G_CALLBACK (on_next));
  gtk_widget_set_parent (self->next, GTK_WIDGET (self));
}

static void
set_class (GtkWidget *widget, const char *name, gboolean on)
{
  if (on)
    gtk_widget_add_css_class (widget, name);
  else
    gtk_widget_remove_css_class (widget, name);
}

/* Which keys there are, and which was given: NONE if the question is open. */
void
pin_outcome_keys_set (PinOutcomeKeys *self, PinKeys keys, PinOutcome given, gboolean given_unsafe)
{
  for (guint i = 0; i < N_KEYS; i++)
    {
      gboolean is_given = given != PIN_OUTCOME_NONE && rows[i].outcome == given
                          && rows[i].unsafe == given_unsafe;
      g_autofree char *name = is_given ? g_strdup_printf (_("%s, as answered"), _(rows[i].title))
                                       : g_strdup (_(rows[i].title));

      gtk_widget_set_visible (self->buttons[i], (keys & rows[i].key) != 0);
      set_class (self->buttons[i], "given", is_given);
      set_class (self->buttons[i], "raised", FALSE);
      pin_field_name (self->buttons[i], name);
    }
  pin_outcome_keys_propose (self, PIN_OUTCOME_NONE);
}

/* Marks what the reading says; it is never pressed by it. */
void
pin_outcome_keys_propose (PinOutcomeKeys *self, PinOutcome proposal)
{
  for (guint i = 0; i < N_KEYS; i++)
    {
      gboolean says = proposal != PIN_OUTCOME_NONE && rows[i].outcome == proposal && !rows[i].unsafe;

      set_class (self->buttons[i], "proposed", says);
      gtk_widget_set_visible (self->hints[i], says);
      gtk_accessible_update_property (GTK_ACCESSIBLE (self->buttons[i]),
                                      GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                      says ? _("the reading says; Enter accepts") : "", -1);
    }
}

void
pin_outcome_keys_set_moves (PinOutcomeKeys *self, gboolean back, gboolean next)
{
  gtk_widget_set_sensitive (self->back, back);
  gtk_widget_set_sensitive (self->next, next);
}

/* While an answer is on its way to the disk. */
void
pin_outcome_keys_set_busy (PinOutcomeKeys *self, gboolean busy)
{
  for (guint i = 0; i < N_KEYS; i++)
    gtk_widget_set_sensitive (self->buttons[i], !busy);
}

/* The next fail that is chosen counts as unsafe. */
void
pin_outcome_keys_raise (PinOutcomeKeys *self, gboolean raised)
{
  for (guint i = 0; i < N_KEYS; i++)
    if (rows[i].unsafe)
      set_class (self->buttons[i], "raised", raised);
}
