#include "window/record-page.h"

#include <glib/gi18n.h>

#include "base/day.h"
#include "service/walk-record.h"
#include "window/correct-answer.h"
#include "window/fields.h"
#include "window/list-fill.h"
#include "window/mark-image.h"
#include "window/record-item.h"
#include "window/tell.h"

struct _PinRecordPage
{
  GtkWidget parent_instance;

  PinDesk *desk;              /* owned */
  gint64 inspection;          /* 0: none */
  gint64 vehicle;
  char *name;                 /* for the tab, or NULL */
  GCancellable *reading;

  GtkLabel *title, *lead;     /* template */
  GtkFlowBox *counts;
  GtkButton *go_on;
  GListStore *rows;
  GtkColumnViewColumn *correct;
  PinCorrectAnswer *form;

  PinWalkRecord *record;      /* owned; as shown, or NULL */
  PinListFill *fill;          /* of the rows */
};

G_DEFINE_FINAL_TYPE (PinRecordPage, pin_record_page, GTK_TYPE_WIDGET)

enum
{
  PROP_0,
  PROP_NAME_SHOWN,
};

static GParamSpec *name_shown;

/* ---- showing ---------------------------------------------------------------- */

static void
add_count (PinRecordPage *self, int n, const char *word, PinOutcome outcome, gboolean unsafe)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *label = gtk_label_new (NULL);
  g_autofree char *markup = g_markup_printf_escaped ("<b>%d</b> %s", n, word);

  gtk_label_set_markup (GTK_LABEL (label), markup);
  gtk_box_append (GTK_BOX (box), pin_mark_image_new (outcome, unsafe, 15));
  gtk_box_append (GTK_BOX (box), label);
  gtk_flow_box_append (self->counts, box);
}

/* All of them, so that a nought is seen too. */
static void
show_counts (PinRecordPage *self, const PinWalkRecord *record)
{
  pin_field_clear (GTK_WIDGET (self->counts));
  add_count (self, record->unsafe, _("unsafe"), PIN_OUTCOME_FAIL, TRUE);
  add_count (self, record->failed, _("fail"), PIN_OUTCOME_FAIL, FALSE);
  add_count (self, record->watched, _("watch"), PIN_OUTCOME_WATCH, FALSE);
  add_count (self, record->n_not_checked, _("not checked"), PIN_OUTCOME_NOT_CHECKED, FALSE);
  add_count (self, record->passed, _("pass"), PIN_OUTCOME_PASS, FALSE);
  add_count (self, record->does_not_apply, _("does not apply"), PIN_OUTCOME_DOES_NOT_APPLY, FALSE);
}

static char *
lead_text (const PinWalkRecord *record)
{
  const char *car = pin_walk_car (record->walk)->name;
  g_autofree char *day = record->day != NULL ? pin_day_long (record->day) : g_strdup ("");
  g_autofree char *by = record->person != NULL && *record->person != '\0'
                          ? g_strdup_printf (_(" by %s"), record->person) : g_strdup ("");

  if (g_str_equal (record->verdict, "signed"))
    return g_strdup_printf (_("%s. Signed off on %s%s."), car, day, by);
  if (g_str_equal (record->verdict, "abandoned"))
    return g_strdup_printf (_("%s. Begun on %s%s and abandoned: it counts as no inspection."), car,
                            day, by);
  return g_strdup_printf (_("%s. Begun on %s%s, not signed off yet."), car, day, by);
}

static void
show_head (PinRecordPage *self, const PinWalkRecord *record)
{
  g_autofree char *lead = lead_text (record);
  g_autofree char *day = record->day != NULL ? pin_day_short (record->day) : g_strdup ("");
  g_autofree char *id = g_strdup_printf ("%" G_GINT64_FORMAT, record->id);
  gboolean open = g_str_equal (record->verdict, "open");

  gtk_label_set_label (self->title, record->title);
  gtk_label_set_label (self->lead, lead);
  gtk_widget_set_visible (GTK_WIDGET (self->go_on), open);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (self->go_on), "s", id);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->go_on), "win.bench");
  g_free (self->name);
  self->name = g_strdup_printf (_("Inspection %s"), day);
  g_object_notify_by_pspec (G_OBJECT (self), name_shown);
}

static void
show_rows (PinRecordPage *self, const PinWalkRecord *record)
{
  GPtrArray *items = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; i < record->groups->len; i++)
    {
      const PinRecordGroup *group = g_ptr_array_index (record->groups, i);

      g_ptr_array_add (items, pin_record_item_new_heading (group->title));
      for (guint k = 0; k < group->lines->len; k++)
        g_ptr_array_add (items, pin_record_item_new (g_ptr_array_index (group->lines, k)));
    }
  pin_list_fill_with (self->fill, items, FALSE);
}

/* Takes @record. */
static void
show_record (PinRecordPage *self, PinWalkRecord *record)
{
  PinWalkRecord *old = self->record;

  self->record = record;
  pin_correct_answer_set_record (self->form, record);
  g_clear_pointer (&old, pin_walk_record_free);
  gtk_column_view_column_set_visible (self->correct, g_str_equal (record->verdict, "signed"));
  self->vehicle = pin_walk_car (record->walk)->id;
  show_head (self, record);
  show_counts (self, record);
  show_rows (self, record);
  gtk_widget_set_visible (gtk_widget_get_first_child (GTK_WIDGET (self)), TRUE);
}

/* ---- correcting -------------------------------------------------------------- */

static const PinRecordLine *
line_of (PinRecordPage *self, gint64 answer)
{
  for (guint i = 0; self->record != NULL && i < self->record->groups->len; i++)
    {
      const PinRecordGroup *group = g_ptr_array_index (self->record->groups, i);

      for (guint k = 0; k < group->lines->len; k++)
        {
          const PinRecordLine *line = g_ptr_array_index (group->lines, k);

          if ((line->left != NULL && line->left->id == answer) || (line->found != NULL && line->found->id == answer))
            return line;
        }
    }
  return NULL;
}

static void
correct (GtkWidget *widget, const char *action, GVariant *target)
{
  PinRecordPage *self = PIN_RECORD_PAGE (widget);
  const PinRecordLine *line = line_of (self, g_variant_get_int64 (target));
  gboolean open = line != NULL && pin_correct_answer_show (self->form, self->desk, self->record, line);

  gtk_widget_set_visible (GTK_WIDGET (self->form), open);
  if (open)
    gtk_widget_child_focus (GTK_WIDGET (self->form), GTK_DIR_TAB_FORWARD);
}

static void
on_form_closed (PinRecordPage *self)
{
  gtk_widget_set_visible (GTK_WIDGET (self->form), FALSE);
}

static void
set_up_button (GtkSignalListItemFactory *factory, GtkListItem *cell)
{
  GtkWidget *button = gtk_button_new_with_label (_("Correct"));

  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (button, "link-button");
  gtk_widget_add_css_class (button, "row-link");
  gtk_list_item_set_child (cell, button);
}

static void
bind_button (GtkSignalListItemFactory *factory, GtkListItem *cell)
{
  GtkWidget *button = gtk_list_item_get_child (cell);
  PinRecordItem *item = gtk_list_item_get_item (cell);
  gint64 answer = pin_record_item_answer (item);
  g_autofree char *what = pin_record_item_name (item);
  g_autofree char *name = g_strdup_printf (_("Correct: %s"), what);

  gtk_widget_set_visible (button, answer != 0);
  if (answer == 0)
    return;
  /* The target first: an action that takes one is not named without it. */
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "x", answer);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "record.correct");
  gtk_accessible_reset_relation (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_RELATION_LABELLED_BY);
  pin_field_name (button, name);
}

static void
add_buttons (PinRecordPage *self)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (set_up_button), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_button), NULL);
  gtk_column_view_column_set_factory (self->correct, factory);
  g_object_unref (factory);
}

/* ---- reading ---------------------------------------------------------------- */

typedef struct
{
  gint64 inspection;
  PinLibrary *library;
} Wanted;

static gpointer
load_record (PinDb *db, gpointer data, GError **error)
{
  const Wanted *wanted = data;
  PinWalkRows *rows = pin_walk_rows_load (db, wanted->inspection, error);
  g_autoptr (PinWalkRecord) record = NULL;

  record = rows != NULL ? pin_walk_record_new (rows, wanted->library, error) : NULL;
  return record != NULL && pin_walk_record_read_corrected (record, db, wanted->library, error)
           ? g_steal_pointer (&record) : NULL;
}

static void
record_loaded (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (PinRecordPage) self = user_data;
  g_autoptr (GError) error = NULL;
  PinWalkRecord *record = pin_desk_read_finish (PIN_DESK (source), result, &error);

  if (record != NULL && self->desk == PIN_DESK (source))
    show_record (self, record);
  else if (record != NULL)
    pin_walk_record_free (record);
  else
    pin_tell_error (GTK_WIDGET (self), _("The record could not be read:"), error);
}

static void
read_record (PinRecordPage *self)
{
  Wanted wanted = { self->inspection, pin_desk_library (self->desk) };

  g_cancellable_cancel (self->reading);
  g_clear_object (&self->reading);
  self->reading = g_cancellable_new ();
  pin_desk_read (self->desk, load_record, g_memdup2 (&wanted, sizeof wanted), g_free,
                 (GDestroyNotify) pin_walk_record_free, self->reading, record_loaded,
                 g_object_ref (self));
}

static void
on_changed (PinDesk *desk, gint64 vehicle, PinRecordPage *self)
{
  if (self->inspection != 0 && (vehicle == 0 || vehicle == self->vehicle))
    read_record (self);
}

/* ---- class -------------------------------------------------------------------- */

static void
drop_desk (PinRecordPage *self)
{
  g_cancellable_cancel (self->reading);
  g_clear_object (&self->reading);
  if (self->desk != NULL)
    g_signal_handlers_disconnect_by_data (self->desk, self);
  g_clear_object (&self->desk);
}

static void
pin_record_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_NAME_SHOWN)
    g_value_set_string (value, PIN_RECORD_PAGE (object)->name);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
pin_record_page_dispose (GObject *object)
{
  PinRecordPage *self = PIN_RECORD_PAGE (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  drop_desk (self);
  g_clear_pointer (&self->name, g_free);
  g_clear_pointer (&self->fill, pin_list_fill_free);
  if (child != NULL)
    gtk_widget_unparent (child);
  g_clear_pointer (&self->record, pin_walk_record_free);
  G_OBJECT_CLASS (pin_record_page_parent_class)->dispose (object);
}

static void
pin_record_page_class_init (PinRecordPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pin_record_page_dispose;
  G_OBJECT_CLASS (klass)->get_property = pin_record_page_get_property;
  name_shown = g_param_spec_string ("name-shown", NULL, NULL, NULL,
                                    G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_property (G_OBJECT_CLASS (klass), PROP_NAME_SHOWN, name_shown);
  g_type_ensure (PIN_TYPE_RECORD_ITEM);
  g_type_ensure (PIN_TYPE_MARK_IMAGE);
  g_type_ensure (PIN_TYPE_CORRECT_ANSWER);
  gtk_widget_class_install_action (widget_class, "record.correct", "x", correct);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/record-page.ui");
  gtk_widget_class_bind_template_child (widget_class, PinRecordPage, title);
  gtk_widget_class_bind_template_child (widget_class, PinRecordPage, lead);
  gtk_widget_class_bind_template_child (widget_class, PinRecordPage, counts);
  gtk_widget_class_bind_template_child (widget_class, PinRecordPage, go_on);
  gtk_widget_class_bind_template_child (widget_class, PinRecordPage, rows);
  gtk_widget_class_bind_template_child (widget_class, PinRecordPage, correct);
  gtk_widget_class_bind_template_child (widget_class, PinRecordPage, form);
  gtk_widget_class_bind_template_callback (widget_class, on_form_closed);
}

static void
pin_record_page_init (PinRecordPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  add_buttons (self);
  self->fill = pin_list_fill_new (GTK_WIDGET (self), self->rows, NULL);
}

void
pin_record_page_set_desk (PinRecordPage *self, PinDesk *desk)
{
  drop_desk (self);
  self->inspection = 0;
  g_list_store_remove_all (self->rows);
  pin_correct_answer_set_record (self->form, NULL);
  g_clear_pointer (&self->record, pin_walk_record_free);
  self->desk = g_object_ref (desk);
  g_signal_connect (desk, "changed", G_CALLBACK (on_changed), self);
}

void
pin_record_page_show (PinRecordPage *self, gint64 inspection)
{
  if (self->inspection != inspection)
    gtk_widget_set_visible (gtk_widget_get_first_child (GTK_WIDGET (self)), FALSE);
  self->inspection = inspection;
  read_record (self);
}

/* "Inspection 8 Nov 2026", or NULL as long as nothing has been read. */
const char *
pin_record_page_name (PinRecordPage *self)
{
  return self->name;
}
