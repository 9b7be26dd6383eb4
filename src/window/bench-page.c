#include "window/bench-page-private.h"

#include <glib/gi18n.h>

#include "service/usage.h"
#include "window/bench-room.h"
#include "window/bench-sheet.h"
#include "window/fields.h"
#include "window/settings.h"
#include "window/tell.h"
#include "window/window.h"

G_DEFINE_FINAL_TYPE (PinBenchPage, pin_bench_page, GTK_TYPE_WIDGET)

static const PinQuestion *
nth (PinBenchPage *self, int i)
{
  return g_ptr_array_index (pin_walk_questions (self->walk), i);
}

static int
count (PinBenchPage *self)
{
  return (int) pin_walk_questions (self->walk)->len;
}

/* The question that is shown; NULL at the sign-off. */
const PinQuestion *
pin_bench_page_question (PinBenchPage *self)
{
  return self->walk != NULL && self->at >= 0 && self->at < count (self) ? nth (self, self->at) : NULL;
}

/* ---- going about ---------------------------------------------------------------------------- */

static void
show_question (PinBenchPage *self, const PinQuestion *question)
{
  self->settling = TRUE;
  if (self->draft == NULL || !g_str_equal (self->draft->key, question->key))
    {
      g_clear_pointer (&self->draft, pin_draft_free);
      self->draft = pin_draft_new (question->key);
      if (question->given != NULL && question->given->note != NULL)
        {
          g_free (self->draft->note);
          self->draft->note = g_strdup (question->given->note);
        }
    }
  pin_bench_page_show_words (self, question);
  pin_bench_page_show_note (self);
  pin_answer_view_set (self->answer, pin_desk_library (self->desk), self->walk, question, self->draft);
  gtk_stack_set_visible_child_name (self->states, "question");
  self->settling = FALSE;
}

/* Which question stands here, for those who drive the window by program. */
static void
tell_key (PinBenchPage *self, const PinQuestion *question)
{
  g_autofree char *key = question == NULL ? g_strdup ("sign-off")
                         : question->attempt > 1 ? g_strdup_printf ("%s#%d", question->key, question->attempt)
                                                 : g_strdup (question->key);

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, key, -1);
}

static void
update_footer (PinBenchPage *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  if (PIN_IS_WINDOW (root))
    pin_window_update_footer (PIN_WINDOW (root));
}

static gboolean
is_low (PinBenchPage *self)
{
  return gtk_widget_has_css_class (gtk_widget_get_first_child (GTK_WIDGET (self)), "tight");
}

static void
on_height (PinBenchPage *self)
{
  if (self->answer == NULL)
    return;
  pin_answer_view_set_tight (self->answer, is_low (self));
  update_footer (self);
}

/* What is answered and what is signed stand in the same place. */
static void
show_foot (PinBenchPage *self, gboolean signs)
{
  gtk_widget_set_visible (GTK_WIDGET (self->answer), !signs);
  gtk_widget_set_visible (pin_signoff_view_foot (self->signoff), signs);
}

/* A new question is read from its beginning. */
static void
scroll_up (PinBenchPage *self)
{
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (self->read_scroller), 0);
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (self->answer_scroller), 0);
}

/* Shows question @at; -1: the sign-off. */
void
pin_bench_page_go (PinBenchPage *self, int at)
{
  const PinQuestion *question;

  self->at = at >= count (self) ? -1 : at;
  self->raised = FALSE;
  question = pin_bench_page_question (self);
  if (question != NULL)
    {
      show_question (self, question);
    }
  else
    {
      g_autoptr (GPtrArray) none = g_ptr_array_new ();

      pin_hazard_bar_set (self->hazards, none);
      pin_signoff_view_set (self->signoff, self->walk, pin_desk_person (self->desk));
      gtk_stack_set_visible_child_name (self->states, "sign-off");
    }
  show_foot (self, question == NULL);
  pin_progress_strip_set (self->progress, self->walk, self->at);
  pin_bench_page_show_plan (self, question);
  pin_tray_view_set (self->tray, self->walk);
  pin_bench_page_show_keys (self, question);
  pin_bench_page_mark_keys (self);
  /* On no key, so that Enter answers nothing that was not meant. */
  if (gtk_widget_get_mapped (GTK_WIDGET (self)) && question != NULL)
    gtk_widget_grab_focus (GTK_WIDGET (self->question));
  scroll_up (self);
  update_footer (self);
  tell_key (self, question);
}

static int
answered_at (PinBenchPage *self, const char *key)
{
  int found = -1;

  for (int i = 0; i < count (self); i++)
    if (g_str_equal (nth (self, i)->key, key) && nth (self, i)->given != NULL)
      found = i;
  return found;
}

static int
first_open_behind (PinBenchPage *self, int from)
{
  for (int i = from + 1; i < count (self); i++)
    if (nth (self, i)->given == NULL)
      return i;
  return pin_walk_next (self->walk);
}

static int
draft_at (PinBenchPage *self)
{
  int at = self->draft != NULL ? pin_walk_find (self->walk, self->draft->key) : -1;

  return at >= 0 && nth (self, at)->given == NULL ? at : pin_walk_next (self->walk);
}

static int
place_to_go (PinBenchPage *self)
{
  int at;

  switch (self->move)
    {
    case PIN_BENCH_TO_KEY:
      at = pin_walk_find (self->walk, self->wanted);
      return at >= 0 ? at : pin_walk_next (self->walk);
    case PIN_BENCH_PAST_KEY:
      return first_open_behind (self, answered_at (self, self->wanted));
    case PIN_BENCH_BEHIND_KEY:
      return answered_at (self, self->wanted) + 1;
    case PIN_BENCH_TO_NEXT:
    default:
      return draft_at (self);
    }
}

/* ---- reading ----------------------------------------------------------------------------------- */

/* What was typed outlives a reading anew for any other reason than that it was
 * answered. */
static gboolean
draft_still_wanted (PinBenchPage *self)
{
  int at = self->draft != NULL ? pin_walk_find (self->walk, self->draft->key) : -1;
  gboolean answered = self->move == PIN_BENCH_PAST_KEY && self->draft != NULL
                      && g_strcmp0 (self->wanted, self->draft->key) == 0;

  return at >= 0 && !answered && nth (self, at)->given == NULL;
}

static void
take_walk (PinBenchPage *self, PinWalk *walk)
{
  gboolean first = self->walk == NULL;

  pin_answer_view_clear (self->answer);
  g_clear_pointer (&self->walk, pin_walk_free);
  self->walk = walk;
  self->busy = FALSE;
  if (first)
    {
      g_clear_pointer (&self->draft, pin_draft_free);
      self->draft = pin_draft_from_text (pin_walk_rows (walk)->draft);
      pin_plan_area_set_chassis (self->plan, pin_walk_car (walk)->chassis);
    }
  else if (!draft_still_wanted (self))
    {
      g_clear_pointer (&self->draft, pin_draft_free);
    }
  pin_bench_page_go (self, place_to_go (self));
}

typedef struct
{
  gint64 inspection;
  PinLibrary *library;
} Wanted;

/* On the book's thread, the walk and all: the main loop only shows it. */
static gpointer
load_walk (PinDb *db, gpointer data, GError **error)
{
  const Wanted *wanted = data;
  PinWalkRows *rows = pin_walk_rows_load (db, wanted->inspection, error);

  return rows != NULL ? pin_walk_new (rows, wanted->library, error) : NULL;
}

static void
not_shown (PinBenchPage *self, const GError *error)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  pin_tell_error (GTK_WIDGET (self), _("The inspection could not be shown:"), error);
  /* One that was on the screen stays there as it was. */
  if (self->walk == NULL && PIN_IS_WINDOW (root))
    {
      self->inspection = 0;
      pin_window_close_bench (PIN_WINDOW (root));
    }
}

static void
walk_loaded (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (PinBenchPage) self = user_data;
  g_autoptr (GError) error = NULL;
  PinWalk *walk = pin_desk_read_finish (PIN_DESK (source), result, &error);

  if (walk == NULL)
    not_shown (self, error);
  else if (self->desk == PIN_DESK (source) && pin_walk_id (walk) == self->inspection)
    take_walk (self, walk);
  else
    pin_walk_free (walk);
}

void
pin_bench_page_read (PinBenchPage *self, PinBenchMove move, const char *key)
{
  Wanted wanted = { self->inspection, pin_desk_library (self->desk) };

  g_free (self->wanted);
  self->wanted = g_strdup (key);
  self->move = move;
  g_cancellable_cancel (self->reading);
  g_clear_object (&self->reading);
  self->reading = g_cancellable_new ();
  pin_desk_read (self->desk, load_walk, g_memdup2 (&wanted, sizeof wanted), g_free,
                 (GDestroyNotify) pin_walk_free, self->reading, walk_loaded, g_object_ref (self));
}

/* ---- what the widgets say ------------------------------------------------------------------------ */

static void
on_step_chosen (PinBenchPage *self, int at)
{
  if (self->walk != NULL && !self->busy)
    pin_bench_page_go (self, at);
}

static void
on_moved (PinBenchPage *self, int by)
{
  if (self->walk == NULL || self->busy)
    return;
  if (self->at < 0)
    pin_bench_page_go (self, by < 0 ? count (self) - 1 : -1);
  else if (self->at + by >= 0)
    pin_bench_page_go (self, self->at + by);
}

static void
on_key_pressed (PinBenchPage *self, int outcome, gboolean unsafe)
{
  pin_bench_page_answer (self, outcome, unsafe);
}

static void
on_answer_changed (PinBenchPage *self)
{
  pin_bench_page_mark_keys (self);
  pin_bench_page_keep_draft (self);
}

static void
on_answer_chosen (PinBenchPage *self, const char *id)
{
  pin_bench_page_choose (self, id);
}

static void
on_answer_enter (PinBenchPage *self)
{
  pin_bench_page_enter (self);
}

static void
on_answer_reason (PinBenchPage *self, const char *reason)
{
  pin_bench_page_leave_out (self, reason);
}

static void
on_note_button (PinBenchPage *self)
{
  gboolean on = gtk_toggle_button_get_active (self->note_button);

  gtk_widget_set_visible (GTK_WIDGET (self->note), on);
  if (on && !self->settling)
    gtk_widget_grab_focus (GTK_WIDGET (self->note));
}

static void
on_note (PinBenchPage *self)
{
  if (self->draft == NULL || self->settling)
    return;
  g_free (self->draft->note);
  self->draft->note = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->note)));
  pin_bench_page_keep_draft (self);
}

static void
on_note_done (PinBenchPage *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self->question));
}

static void
on_person (PinBenchPage *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->person));

  if (self->settling || self->desk == NULL)
    return;
  pin_desk_set_person (self->desk, text);
  pin_settings_set ("person", text);
}

static void
on_person_done (PinBenchPage *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self->question));
}

static void
on_photo (PinBenchPage *self)
{
  pin_bench_page_choose_photo (self);
}

static void
on_signed_off (PinBenchPage *self)
{
  pin_bench_page_sign (self);
}

static void
on_abandoned (PinBenchPage *self)
{
  pin_bench_page_abandon (self);
}

/* ---- class ------------------------------------------------------------------------------------------ */

static void
drop_walk (PinBenchPage *self)
{
  pin_bench_page_drop_draft_timer (self);
  g_cancellable_cancel (self->reading);
  g_clear_object (&self->reading);
  if (self->answer != NULL)
    pin_answer_view_clear (self->answer);
  g_clear_pointer (&self->walk, pin_walk_free);
  g_clear_pointer (&self->draft, pin_draft_free);
  g_clear_pointer (&self->wanted, g_free);
  self->busy = FALSE;
}

static void
pin_bench_page_dispose (GObject *object)
{
  PinBenchPage *self = PIN_BENCH_PAGE (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  self->settling = TRUE;
  drop_walk (self);
  g_clear_object (&self->desk);
  if (child != NULL)
    gtk_widget_unparent (child);
  self->answer = NULL;
  G_OBJECT_CLASS (pin_bench_page_parent_class)->dispose (object);
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PinBenchPage, name)
#define CALL(name) gtk_widget_class_bind_template_callback (widget_class, name)

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/bench-page.ui");
  BIND (progress);
  BIND (read_scroller);
  BIND (answer_scroller);
  BIND (foot);
  BIND (hazards);
  BIND (states);
  BIND (question);
  BIND (where);
  BIND (title);
  BIND (place);
  BIND (do_caption);
  BIND (do_text);
  BIND (look_caption);
  BIND (look_text);
  BIND (given);
  BIND (person);
  BIND (note);
  BIND (note_button);
  BIND (photo);
  BIND (answer);
  BIND (signoff);
  BIND (plan);
  BIND (tray);
  BIND (keys);
  CALL (on_step_chosen);
  CALL (on_moved);
  CALL (on_key_pressed);
  CALL (on_answer_changed);
  CALL (on_answer_chosen);
  CALL (on_answer_enter);
  CALL (on_answer_reason);
  CALL (on_note_button);
  CALL (on_note);
  CALL (on_note_done);
  CALL (on_person);
  CALL (on_person_done);
  CALL (on_photo);
  CALL (on_signed_off);
  CALL (on_abandoned);
}

static void
pin_bench_page_class_init (PinBenchPageClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = pin_bench_page_dispose;
  g_type_ensure (PIN_TYPE_PROGRESS_STRIP);
  g_type_ensure (PIN_TYPE_HAZARD_BAR);
  g_type_ensure (PIN_TYPE_ANSWER_VIEW);
  g_type_ensure (PIN_TYPE_SIGNOFF_VIEW);
  g_type_ensure (PIN_TYPE_PLAN_AREA);
  g_type_ensure (PIN_TYPE_TRAY_VIEW);
  g_type_ensure (PIN_TYPE_OUTCOME_KEYS);
  g_type_ensure (PIN_TYPE_BENCH_ROOM);
  g_type_ensure (PIN_TYPE_BENCH_SHEET);
  bind_template (GTK_WIDGET_CLASS (klass));
}

static void
pin_bench_page_init (PinBenchPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  pin_field_name (GTK_WIDGET (self), _("bench"));
  g_signal_connect_object (gtk_widget_get_first_child (GTK_WIDGET (self)), "notify::css-classes",
                           G_CALLBACK (on_height), self, G_CONNECT_SWAPPED);
  gtk_box_append (self->foot, pin_signoff_view_foot (self->signoff));
  pin_bench_page_add_keys (self);
}

void
pin_bench_page_set_desk (PinBenchPage *self, PinDesk *desk)
{
  drop_walk (self);
  g_set_object (&self->desk, desk);
  self->inspection = 0;
}

/* Shows a walk where it was left. */
void
pin_bench_page_show (PinBenchPage *self, gint64 inspection)
{
  if (self->inspection == inspection && self->walk != NULL)
    return;
  drop_walk (self);
  self->inspection = inspection;
  gtk_stack_set_visible_child_name (self->states, "reading");
  gtk_widget_set_visible (GTK_WIDGET (self->answer), FALSE);
  gtk_widget_set_visible (pin_signoff_view_foot (self->signoff), FALSE);
  pin_outcome_keys_set (self->keys, 0, PIN_OUTCOME_NONE, FALSE);
  pin_outcome_keys_set_moves (self->keys, FALSE, FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, "", -1);
  self->settling = TRUE;
  gtk_editable_set_text (GTK_EDITABLE (self->person),
                         pin_desk_person (self->desk) != NULL ? pin_desk_person (self->desk) : "");
  self->settling = FALSE;
  pin_bench_page_read (self, PIN_BENCH_TO_NEXT, NULL);
}

/* The walk that is shown; 0: none. */
gint64
pin_bench_page_inspection (PinBenchPage *self)
{
  return self->inspection;
}

/* The cells of the footer; an empty one takes the room.  On a low page those go
 * that say nothing new. */
GStrv
pin_bench_page_footer (PinBenchPage *self, const char *kept)
{
  g_autoptr (GStrvBuilder) cells = g_strv_builder_new ();
  gboolean low = is_low (self);

  if (self->walk != NULL)
    {
      g_autofree char *spent = pin_minutes_text (pin_walk_minutes_spent (self->walk));
      g_autofree char *left = pin_minutes_text (pin_walk_minutes_left (self->walk));
      g_autofree char *title = g_markup_printf_escaped ("<b>%s</b>, %s", pin_walk_title (self->walk),
                                                        pin_walk_car (self->walk)->name);
      g_autofree char *step = self->at < 0 ? g_strdup (_("<b>Sign-off</b>"))
                                           : g_strdup_printf (_("Step <b>%d of %d</b>"), self->at + 1,
                                                              count (self));
      g_autofree char *minutes = low ? g_strdup_printf (_("About <b>%s</b> left"), left)
                                     : g_strdup_printf (_("On the bench <b>%s</b>, about <b>%s</b> left"),
                                                        spent, left);
      /* The tray itself gives way where there is no room for it. */
      g_autofree char *tray = g_strdup_printf (_("Off the car <b>%u</b>, owed <b>%u</b>"),
                                               pin_walk_tray (self->walk)->len,
                                               pin_walk_owed (self->walk)->len);

      if (!low)
        g_strv_builder_add (cells, title);
      g_strv_builder_add (cells, step);
      g_strv_builder_add (cells, minutes);
      g_strv_builder_add (cells, tray);
    }
  g_strv_builder_add (cells, kept);
  g_strv_builder_add (cells, "");
  if (!low)
    g_strv_builder_add (cells, _("Close at any time: it reopens on this step"));
  return g_strv_builder_end (cells);
}
