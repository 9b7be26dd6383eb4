#include "window/part-panel.h"

#include <glib/gi18n.h>

#include "base/day.h"
#include "service/finding-text.h"
#include "service/part-history.h"
#include "window/back-fill.h"
#include "window/choice.h"
#include "window/correct-part.h"
#include "window/fields.h"
#include "window/mark-image.h"
#include "window/move-part.h"
#include "window/record-work.h"
#include "window/replace-part.h"
#include "window/tell.h"

#define MOST_HISTORY 5
#define MOST_LINES 8

struct _PinPartPanel
{
  GtkBox parent_instance;

  PinDesk *desk;              /* owned */
  PinChoice choice;
  PinPartShelf *shelf;            /* owned; NULL until read */
  GPtrArray *events;          /* PinEvent*; NULL until read */
  GCancellable *reading;
  gboolean all_events;

  GtkStack *states;           /* template */
  GtkLabel *title, *size;
  GtkGrid *table;
  GtkBox *history;
  GtkButton *all_history;
  GtkStackSwitcher *form_tabs;
  GtkStack *forms;
  GtkStackPage *replace_page, *move_page;
  PinRecordWork *work;
  PinCorrectPart *correct;
  PinReplacePart *replace;
  PinMovePart *move;
  PinBackFill *back_fill;
};

G_DEFINE_FINAL_TYPE (PinPartPanel, pin_part_panel, GTK_TYPE_BOX)

static guint closed;

/* ---- the words ------------------------------------------------------------- */

static const PinPartLine *
line_of (PinPartPanel *self, guint i)
{
  const PinSlot *slot = g_ptr_array_index (self->choice.slots, i);

  return pin_vehicle_view_part (self->choice.view, slot->place);
}

static gboolean
all_of_one_kind (PinPartPanel *self)
{
  const PinSlot *first = g_ptr_array_index (self->choice.slots, 0);

  for (guint i = 1; i < self->choice.slots->len; i++)
    {
      const PinSlot *slot = g_ptr_array_index (self->choice.slots, i);

      if (g_strcmp0 (slot->kind, first->kind) != 0)
        return FALSE;
    }
  return TRUE;
}

static char *
title_text (PinPartPanel *self)
{
  const PinSlot *first = g_ptr_array_index (self->choice.slots, 0);
  const PinPartKind *kind = pin_library_kind (pin_desk_library (self->desk), first->kind);
  guint n = self->choice.slots->len;

  if (n == 1)
    return pin_sentence_case (first->label);
  if (all_of_one_kind (self) && kind != NULL)
    return g_strdup_printf ("%u %s", n, kind->plural);
  return g_strdup_printf (ngettext ("%u part", "%u parts", n), n);
}

static char *
size_text (PinPartPanel *self)
{
  const PinPartLine *first = line_of (self, 0);

  for (guint i = 1; i < self->choice.slots->len; i++)
    if (line_of (self, i) == NULL || first == NULL
        || g_strcmp0 (line_of (self, i)->size, first->size) != 0)
      return g_strdup (_("of several sizes"));
  if (first == NULL)
    return g_strdup ("");
  if (first->part == 0)
    return g_strdup_printf (_("%s: nothing is fitted here"), first->kind);
  return *first->size != '\0' ? g_strdup_printf ("%s, %s", first->kind, first->size)
                              : g_strdup_printf (_("%s, size not known"), first->kind);
}

static GtkWidget *
cell (const char *text, double xalign, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), xalign);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  return label;
}

static void
add_line (PinPartPanel *self, const PinPartLine *line, int row)
{
  GtkWidget *label = cell (line->label, 0, NULL);

  gtk_widget_set_hexpand (label, TRUE);
  gtk_grid_attach (self->table, pin_mark_image_new (line->mark.outcome, line->mark.unsafe, 13), 0,
                   row, 1, 1);
  gtk_grid_attach (self->table, label, 1, row, 1, 1);
  gtk_grid_attach (self->table, cell (line->state, 0, "secondary"), 2, row, 1, 1);
  gtk_grid_attach (self->table, cell (line->since_new, 1, "numeric"), 3, row, 1, 1);
  if (*line->last_work != '\0')
    gtk_grid_attach (self->table, cell (line->last_work, 0, "secondary"), 1, row + 1, 3, 1);
  if (*line->finding != '\0')
    gtk_grid_attach (self->table, cell (line->finding, 0, "watch-word"), 1, row + 2, 3, 1);
}

static void
show_table (PinPartPanel *self)
{
  GtkWidget *child;
  guint n = MIN (self->choice.slots->len, MOST_LINES);

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->table))) != NULL)
    gtk_grid_remove (self->table, child);
  gtk_grid_attach (self->table, cell (_("Position"), 0, "caption"), 0, 0, 2, 1);
  gtk_grid_attach (self->table, cell (_("Since new"), 1, "caption"), 3, 0, 1, 1);
  for (guint i = 0; i < n; i++)
    if (line_of (self, i) != NULL)
      add_line (self, line_of (self, i), 1 + 3 * i);
  if (self->choice.slots->len > n)
    {
      g_autofree char *more = g_strdup_printf (_("and %u more"), self->choice.slots->len - n);

      gtk_grid_attach (self->table, cell (more, 0, "secondary"), 1, 1 + 3 * n, 3, 1);
    }
}

/* ---- history ---------------------------------------------------------------- */

/* As high as a line of the text beside it, so that it stays with the first. */
static GtkWidget *
event_mark (const PinEvent *event)
{
  gboolean work = event->outcome == PIN_OUTCOME_NONE || event->outcome == PIN_OUTCOME_DONE;
  GtkWidget *mark = work ? g_object_new (PIN_TYPE_MARK_IMAGE, "owed", TRUE, "size", 9, NULL)
                         : pin_mark_image_new (event->outcome, event->unsafe, 13);

  return pin_field_first_line (mark, 18);
}

static GtkWidget *
event_row (const PinEvent *event)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  g_autofree char *day = pin_day_short (event->day);
  GtkWidget *text;
  g_autofree char *words = event->told ? g_strdup_printf (_("%s (from memory)"), event->text)
                                       : g_strdup (event->text);

  gtk_box_append (GTK_BOX (row), event_mark (event));
  text = cell (day, 0, "secondary");
  gtk_label_set_wrap (GTK_LABEL (text), FALSE);
  gtk_label_set_width_chars (GTK_LABEL (text), 11);
  gtk_widget_set_valign (text, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (row), text);
  text = cell (words, 0, NULL);
  gtk_widget_set_hexpand (text, TRUE);
  gtk_box_append (GTK_BOX (row), text);
  return row;
}

static void
show_events (PinPartPanel *self)
{
  guint n = self->events->len;
  g_autofree char *all = g_strdup_printf (_("All %u"), n);

  pin_field_clear (GTK_WIDGET (self->history));
  if (n == 0)
    gtk_box_append (self->history, cell (_("Nothing recorded yet."), 0, "secondary"));
  for (guint i = 0; i < n && (self->all_events || i < MOST_HISTORY); i++)
    gtk_box_append (self->history, event_row (g_ptr_array_index (self->events, i)));
  gtk_button_set_label (self->all_history, all);
  gtk_widget_set_visible (GTK_WIDGET (self->all_history), n > MOST_HISTORY && !self->all_events);
}

static void
on_all_history (PinPartPanel *self)
{
  self->all_events = TRUE;
  show_events (self);
}

typedef struct
{
  gint64 vehicle;
  GArray *parts;              /* gint64 */
  PinLibrary *library;
} Wanted;

typedef struct
{
  GPtrArray *events;          /* PinEvent* */
  PinPartShelf *shelf;
} Rows;

static void
wanted_free (gpointer data)
{
  Wanted *wanted = data;

  g_array_unref (wanted->parts);
  g_free (wanted);
}

static void
rows_free (gpointer data)
{
  Rows *rows = data;

  g_clear_pointer (&rows->events, g_ptr_array_unref);
  g_clear_pointer (&rows->shelf, pin_part_shelf_free);
  g_free (rows);
}

/* On the book's thread, with a car of its own for the labels. */
static GPtrArray *
load_events (PinDb *db, const Wanted *wanted, GError **error)
{
  PinCarRows *rows = pin_car_rows_load (db, wanted->vehicle, error);
  g_autoptr (PinCar) car = rows != NULL ? pin_car_new (rows, wanted->library, error) : NULL;
  g_autoptr (PinHistoryRows) history = NULL;

  if (car != NULL)
    history = pin_history_rows_load (db, wanted->parts, error);
  return history != NULL ? pin_history_new (history, wanted->library, car) : NULL;
}

static gpointer
load_rows (PinDb *db, gpointer data, GError **error)
{
  Rows *rows = g_new0 (Rows, 1);

  rows->events = load_events (db, data, error);
  if (rows->events != NULL)
    rows->shelf = pin_part_shelf_load (db, error);
  if (rows->shelf == NULL)
    g_clear_pointer (&rows, rows_free);
  return rows;
}

static void
rows_loaded (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (PinPartPanel) self = user_data;
  g_autoptr (GError) error = NULL;
  Rows *rows = pin_desk_read_finish (PIN_DESK (source), result, &error);

  if (rows == NULL)
    {
      pin_tell_error (GTK_WIDGET (self), _("The history could not be read:"), error);
      return;
    }
  if (self->choice.view != NULL)
    {
      g_clear_pointer (&self->events, g_ptr_array_unref);
      self->events = g_steal_pointer (&rows->events);
      g_clear_pointer (&self->shelf, pin_part_shelf_free);
      self->shelf = g_steal_pointer (&rows->shelf);
      self->choice.shelf = self->shelf;
      show_events (self);
      if (self->choice.slots->len == 1)
        pin_replace_part_set_choice (self->replace, &self->choice);
    }
  rows_free (rows);
}

static void
read_rows (PinPartPanel *self)
{
  Wanted *wanted = g_new0 (Wanted, 1);

  wanted->vehicle = self->choice.view->car->id;
  wanted->library = pin_desk_library (self->desk);
  wanted->parts = g_array_new (FALSE, FALSE, sizeof (gint64));
  for (guint i = 0; i < self->choice.slots->len; i++)
    {
      const PinSlot *slot = g_ptr_array_index (self->choice.slots, i);

      if (slot->part != 0)
        g_array_append_val (wanted->parts, slot->part);
    }
  self->reading = g_cancellable_new ();
  pin_desk_read (self->desk, load_rows, wanted, wanted_free, rows_free, self->reading, rows_loaded,
                 g_object_ref (self));
}

/* ---- the panel ---------------------------------------------------------------- */

static void
on_close (PinPartPanel *self)
{
  g_signal_emit (self, closed, 0);
}

static void
forget (PinPartPanel *self)
{
  g_cancellable_cancel (self->reading);
  g_clear_object (&self->reading);
  pin_record_work_set_choice (self->work, NULL);
  pin_correct_part_set_choice (self->correct, NULL);
  pin_replace_part_set_choice (self->replace, NULL);
  pin_move_part_set_choice (self->move, NULL);
  pin_back_fill_set_choice (self->back_fill, NULL);
  g_clear_pointer (&self->choice.slots, g_ptr_array_unref);
  self->choice = (PinChoice) { .desk = self->desk };
}

/* A form that the choice does not allow gives way to the first. */
static void
leave_form (PinPartPanel *self, const char *form, gboolean allowed)
{
  if (!allowed && g_strcmp0 (gtk_stack_get_visible_child_name (self->forms), form) == 0)
    gtk_stack_set_visible_child_name (self->forms, "work");
}

static void
show_choice (PinPartPanel *self)
{
  g_autofree char *title = title_text (self);
  g_autofree char *size = size_text (self);
  gboolean one = self->choice.slots->len == 1;
  gboolean fitted = one && ((PinSlot *) g_ptr_array_index (self->choice.slots, 0))->part != 0;

  gtk_label_set_label (self->title, title);
  gtk_label_set_label (self->size, size);
  show_table (self);
  gtk_stack_page_set_visible (self->replace_page, one);
  gtk_stack_page_set_visible (self->move_page, fitted);
  pin_record_work_set_choice (self->work, &self->choice);
  pin_correct_part_set_choice (self->correct, &self->choice);
  pin_back_fill_set_choice (self->back_fill, &self->choice);
  if (one)
    pin_replace_part_set_choice (self->replace, &self->choice);
  if (fitted)
    pin_move_part_set_choice (self->move, &self->choice);
  leave_form (self, "replace", one);
  leave_form (self, "move", fitted);
}

static void
pin_part_panel_dispose (GObject *object)
{
  PinPartPanel *self = PIN_PART_PANEL (object);

  g_cancellable_cancel (self->reading);
  g_clear_object (&self->reading);
  g_clear_pointer (&self->choice.slots, g_ptr_array_unref);
  g_clear_pointer (&self->shelf, pin_part_shelf_free);
  g_clear_pointer (&self->events, g_ptr_array_unref);
  g_clear_object (&self->desk);
  G_OBJECT_CLASS (pin_part_panel_parent_class)->dispose (object);
}

static void
pin_part_panel_class_init (PinPartPanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pin_part_panel_dispose;
  g_type_ensure (PIN_TYPE_RECORD_WORK);
  g_type_ensure (PIN_TYPE_CORRECT_PART);
  g_type_ensure (PIN_TYPE_REPLACE_PART);
  g_type_ensure (PIN_TYPE_MOVE_PART);
  g_type_ensure (PIN_TYPE_BACK_FILL);
  closed = g_signal_new ("closed", PIN_TYPE_PART_PANEL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                         G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/part-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, PinPartPanel, states);
  gtk_widget_class_bind_template_child (widget_class, PinPartPanel, title);
  gtk_widget_class_bind_template_child (widget_class, PinPartPanel, size);
  gtk_widget_class_bind_template_child (widget_class, PinPartPanel, table);
  gtk_widget_class_bind_template_child (widget_class, PinPartPanel, history);
  gtk_widget_class_bind_template_child (widget_class, PinPartPanel, all_history);
  gtk_widget_class_bind_template_child (widget_class, PinPartPanel, forms);
  gtk_widget_class_bind_template_child (widget_class, PinPartPanel, form_tabs);
  gtk_widget_class_bind_template_child (widget_class, PinPartPanel, replace_page);
  gtk_widget_class_bind_template_child (widget_class, PinPartPanel, move_page);
  gtk_widget_class_bind_template_child (widget_class, PinPartPanel, move);
  gtk_widget_class_bind_template_child (widget_class, PinPartPanel, work);
  gtk_widget_class_bind_template_child (widget_class, PinPartPanel, correct);
  gtk_widget_class_bind_template_child (widget_class, PinPartPanel, replace);
  gtk_widget_class_bind_template_child (widget_class, PinPartPanel, back_fill);
  gtk_widget_class_bind_template_callback (widget_class, on_close);
  gtk_widget_class_bind_template_callback (widget_class, on_all_history);
}

static void
pin_part_panel_init (PinPartPanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  pin_field_own_widths (self->form_tabs);
}

void
pin_part_panel_set_desk (PinPartPanel *self, PinDesk *desk)
{
  forget (self);
  g_set_object (&self->desk, desk);
  self->choice.desk = desk;
}

/* @view is borrowed until the next call; NULL with no codes: nothing. */
void
pin_part_panel_show (PinPartPanel *self, const PinVehicleView *view, GPtrArray *codes)
{
  forget (self);
  self->choice.view = view;
  self->choice.slots = g_ptr_array_new ();
  for (guint i = 0; view != NULL && codes != NULL && i < codes->len; i++)
    {
      PinSlot *slot = pin_car_slot (view->car, g_ptr_array_index (codes, i));

      if (slot != NULL)
        g_ptr_array_add (self->choice.slots, slot);
    }
  gtk_stack_set_visible_child_name (self->states, self->choice.slots->len > 0 ? "parts" : "none");
  if (self->choice.slots->len == 0)
    return;
  self->all_events = FALSE;
  show_choice (self);
  read_rows (self);
}
