#include "window/start-page.h"

#include <glib/gi18n.h>
#include <math.h>

#include "library/library.h"
#include "service/inventory.h"
#include "window/change.h"
#include "window/plan-area.h"
#include "window/restack.h"
#include "window/tell.h"
#include "window/value-entry.h"
#include "window/window.h"

struct _PinStartPage
{
  GtkWidget parent_instance;

  PinDesk *desk;              /* owned */
  PinChassis *chosen;         /* owned; NULL: none yet */
  gboolean first;

  GtkLabel *title, *lead, *about; /* template */
  GtkEntry *name;
  PinValueEntry *hours;
  GtkButton *add, *cancel, *demo;
  PinPlanArea *plan;
  GtkBox *cards;
};

G_DEFINE_FINAL_TYPE (PinStartPage, pin_start_page, GTK_TYPE_WIDGET)

static guint added, cancelled;

/* ---- the chosen type ------------------------------------------------------ */

static char *
count_words (PinLibrary *library, const PinChassis *chassis, int *all)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GPtrArray) order = g_ptr_array_new ();
  GString *words = g_string_new (NULL);

  *all = 0;
  for (guint i = 0; i < chassis->positions->len; i++)
    {
      const PinPosition *position = g_ptr_array_index (chassis->positions, i);
      int n = GPOINTER_TO_INT (g_hash_table_lookup (seen, position->kind));

      if (!position->fitted)
        continue;
      if (n == 0)
        g_ptr_array_add (order, position->kind);
      g_hash_table_insert (seen, position->kind, GINT_TO_POINTER (n + 1));
      *all += 1;
    }
  for (guint i = 0; i < order->len; i++)
    {
      const char *id = g_ptr_array_index (order, i);
      const PinPartKind *kind = pin_library_kind (library, id);
      int n = GPOINTER_TO_INT (g_hash_table_lookup (seen, id));

      if (i > 0)
        g_string_append (words, ", ");
      if (n == 1)
        g_string_append (words, kind != NULL ? kind->title : id);
      else
        g_string_append_printf (words, "%d %s", n, kind != NULL ? kind->plural : id);
    }
  return g_string_free (words, FALSE);
}

static void
show_about (PinStartPage *self)
{
  g_autofree char *words = NULL;
  g_autofree char *markup = NULL;
  int all;

  words = count_words (pin_desk_library (self->desk), self->chosen, &all);
  markup = g_markup_printf_escaped (
    ngettext ("<b>%s:</b> %s. <span alpha='80%%'>%d part in all, each at its place. Sizes are usual "
              "ones: measure once and correct them.</span>",
              "<b>%s:</b> %s. <span alpha='80%%'>%d parts in all, each at its place. Sizes are usual "
              "ones: measure once and correct them.</span>", all),
    self->chosen->title, words, all);
  gtk_label_set_markup (self->about, markup);
}

static GPtrArray *
fresh_marks (const PinChassis *chassis)
{
  GPtrArray *marks = g_ptr_array_new_with_free_func ((GDestroyNotify) pin_plan_item_free);

  for (guint i = 0; i < chassis->positions->len; i++)
    {
      const PinPosition *position = g_ptr_array_index (chassis->positions, i);

      if (position->fitted)
        g_ptr_array_add (marks, pin_plan_item_new (position->id, position->label, NULL, NULL,
                                                   position->x, position->y, PIN_OUTCOME_NONE,
                                                   FALSE));
    }
  return marks;
}

static void
on_name (PinStartPage *self)
{
  g_autofree char *name = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->name))));
  g_autofree char *label = *name != '\0' ? g_strdup_printf (_("Add %s to the stable"), name)
                                         : g_strdup (_("Add it to the stable"));

  gtk_button_set_label (self->add, label);
  gtk_widget_set_sensitive (GTK_WIDGET (self->add), *name != '\0' && self->chosen != NULL);
}

static void
choose (PinStartPage *self, PinChassis *chassis)
{
  if (self->chosen == chassis)
    return;
  g_clear_pointer (&self->chosen, pin_chassis_unref);
  self->chosen = pin_chassis_ref (chassis);
  pin_plan_area_set_chassis (self->plan, chassis);
  pin_plan_area_set_items (self->plan, fresh_marks (chassis));
  show_about (self);
  on_name (self);
}

/* ---- cards ------------------------------------------------------------------ */

static void
on_card (GtkToggleButton *card, PinStartPage *self)
{
  if (gtk_toggle_button_get_active (card))
    choose (self, g_object_get_data (G_OBJECT (card), "chassis"));
}

static GtkWidget *
make_card (PinStartPage *self, PinChassis *chassis, GtkWidget *group)
{
  GtkWidget *card = gtk_toggle_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *plan = g_object_new (PIN_TYPE_PLAN_AREA, "scale", 0.39, "inner-margin", 4,
                                  "width-request", 172, "height-request", 112, NULL);
  GtkWidget *label = gtk_label_new (chassis->title);

  pin_plan_area_set_chassis (PIN_PLAN_AREA (plan), chassis);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 18);
  gtk_label_set_yalign (GTK_LABEL (label), 0);
  gtk_box_append (GTK_BOX (box), plan);
  gtk_box_append (GTK_BOX (box), label);
  gtk_button_set_child (GTK_BUTTON (card), box);
  gtk_widget_add_css_class (card, "card");
  gtk_accessible_update_property (GTK_ACCESSIBLE (card), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  chassis->title, -1);
  g_object_set_data_full (G_OBJECT (card), "chassis", pin_chassis_ref (chassis),
                          (GDestroyNotify) pin_chassis_unref);
  if (group != NULL)
    gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (card), GTK_TOGGLE_BUTTON (group));
  g_signal_connect (card, "toggled", G_CALLBACK (on_card), self);
  return card;
}

static void
fill_cards (PinStartPage *self)
{
  g_autoptr (GPtrArray) types = pin_library_chassis_all (pin_desk_library (self->desk));
  GtkWidget *first = NULL;
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->cards))) != NULL)
    gtk_box_remove (self->cards, child);
  for (guint i = 0; i < types->len; i++)
    {
      GtkWidget *card = make_card (self, g_ptr_array_index (types, i), first);

      gtk_box_append (self->cards, card);
      if (first == NULL)
        first = card;
    }
  if (first != NULL)
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (first), TRUE);
}

/* ---- adding ------------------------------------------------------------------ */

static void
was_added (GtkWidget *from, gboolean kept, gint64 id)
{
  PinStartPage *self = PIN_START_PAGE (from);
  g_autofree char *text = g_strdup_printf ("%" G_GINT64_FORMAT, id);

  gtk_widget_set_sensitive (GTK_WIDGET (self->add), TRUE);
  if (!kept)
    return;
  gtk_editable_set_text (GTK_EDITABLE (self->name), "");
  pin_value_entry_set_text (self->hours, "");
  g_signal_emit (self, added, 0);
  gtk_widget_activate_action (from, "win.vehicle", "s", text);
}

static gboolean
read_hours (PinStartPage *self, double *seconds, GError **error)
{
  g_autofree char *text = g_strstrip (g_strdup (pin_value_entry_text (self->hours)));

  *seconds = NAN;
  if (*text == '\0')
    return TRUE;
  return pin_value_parse (text, pin_unit_find ("h"), seconds, NULL, error);
}

static void
on_add (PinStartPage *self)
{
  PinNewVehicle what = PIN_NEW_VEHICLE_INIT;
  PinDeedDone *done;
  g_autoptr (GError) error = NULL;
  gint64 id = 0;

  if (!gtk_widget_get_sensitive (GTK_WIDGET (self->add)))
    return;
  done = pin_deed_done_new (pin_desk_book (self->desk), pin_desk_person (self->desk));
  what.name = gtk_editable_get_text (GTK_EDITABLE (self->name));
  what.chassis = self->chosen->id;
  if (read_hours (self, &what.seconds, &error))
    {
      if (what.seconds == 0)
        what.runs = what.litres = 0;
      what.parts_as_old = TRUE;
      id = pin_inventory_add_vehicle (done, pin_desk_library (self->desk), &what,
                                      pin_desk_names (self->desk),
                                      &error);
    }
  if (id == 0)
    {
      pin_tell_error (GTK_WIDGET (self), _("The vehicle was not added:"), error);
      pin_deed_done_free (done);
      return;
    }
  gtk_widget_set_sensitive (GTK_WIDGET (self->add), FALSE);
  pin_change_write (GTK_WIDGET (self), self->desk, done, id, id, was_added);
}

static void
on_cancel (PinStartPage *self)
{
  g_signal_emit (self, cancelled, 0);
}

/* ---- class -------------------------------------------------------------------- */

/* The chassis types are read only when somebody wants to choose one. */
static void
pin_start_page_map (GtkWidget *widget)
{
  PinStartPage *self = PIN_START_PAGE (widget);

  if (self->desk != NULL && gtk_widget_get_first_child (GTK_WIDGET (self->cards)) == NULL)
    fill_cards (self);
  GTK_WIDGET_CLASS (pin_start_page_parent_class)->map (widget);
  gtk_widget_grab_focus (GTK_WIDGET (self->name));
}

static void
pin_start_page_dispose (GObject *object)
{
  PinStartPage *self = PIN_START_PAGE (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  g_clear_object (&self->desk);
  g_clear_pointer (&self->chosen, pin_chassis_unref);
  if (child != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (pin_start_page_parent_class)->dispose (object);
}

static void
pin_start_page_class_init (PinStartPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pin_start_page_dispose;
  widget_class->map = pin_start_page_map;
  g_type_ensure (PIN_TYPE_RESTACK);
  g_type_ensure (PIN_TYPE_VALUE_ENTRY);
  g_type_ensure (PIN_TYPE_PLAN_AREA);
  added = g_signal_new ("added", PIN_TYPE_START_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                        G_TYPE_NONE, 0);
  cancelled = g_signal_new ("cancelled", PIN_TYPE_START_PAGE,
                            G_SIGNAL_RUN_LAST | G_SIGNAL_ACTION, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/start-page.ui");
  gtk_widget_class_bind_template_child (widget_class, PinStartPage, title);
  gtk_widget_class_bind_template_child (widget_class, PinStartPage, lead);
  gtk_widget_class_bind_template_child (widget_class, PinStartPage, about);
  gtk_widget_class_bind_template_child (widget_class, PinStartPage, name);
  gtk_widget_class_bind_template_child (widget_class, PinStartPage, hours);
  gtk_widget_class_bind_template_child (widget_class, PinStartPage, add);
  gtk_widget_class_bind_template_child (widget_class, PinStartPage, cancel);
  gtk_widget_class_bind_template_child (widget_class, PinStartPage, demo);
  gtk_widget_class_bind_template_child (widget_class, PinStartPage, plan);
  gtk_widget_class_bind_template_child (widget_class, PinStartPage, cards);
  gtk_widget_class_bind_template_callback (widget_class, on_name);
  gtk_widget_class_bind_template_callback (widget_class, on_add);
  gtk_widget_class_bind_template_callback (widget_class, on_cancel);
}

static void
pin_start_page_init (PinStartPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_button_set_label (self->add, _("Add it to the stable"));
#ifndef PIN_HAVE_DEMO
  gtk_widget_set_visible (GTK_WIDGET (self->demo), FALSE);
#endif
}

void
pin_start_page_set_desk (PinStartPage *self, PinDesk *desk)
{
  g_set_object (&self->desk, desk);
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    fill_cards (self);
}

/* @first: the stable is empty. */
void
pin_start_page_set_first (PinStartPage *self, gboolean first)
{
  self->first = first;
  gtk_label_set_label (self->title, first ? _("Stable") : _("Add a vehicle"));
  gtk_label_set_label (self->lead,
                       first ? _("Nothing here yet. Start with one car: its parts follow from its "
                                 "type.")
                             : _("Its parts follow from its type."));
  gtk_widget_set_visible (GTK_WIDGET (self->cancel), !first);
}
