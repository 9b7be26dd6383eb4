#include "window/answer-view.h"

#include <glib/gi18n.h>

#include "service/usage.h"
#include "window/choice-grid.h"
#include "window/fields.h"
#include "window/flow-child.h"
#include "window/mark-image.h"
#include "window/value-entry.h"

struct _PinAnswerView
{
  GtkBox parent_instance;

  PinLibrary *library;        /* borrowed until cleared, as are the next */
  const PinQuestion *question;
  PinDraft *draft;
  gboolean settling;          /* fields are being set, not used */
  gboolean tight;             /* the page is low */
  gint64 wait_until;          /* monotonic µs */
  guint tick;

  GtkBox *reasons, *means;    /* template */
  GtkFlowBox *reason_buttons, *deeds;
  GtkBox *choices;
  GtkEntry *reason, *counted;
  PinMeasureView *measure;
  GtkBox *count, *wait, *work, *deeds_box, *asks_box;
  GtkFlowBox *asks;
  GtkLabel *count_of, *wait_left, *wait_text, *asks_caption;
  GtkButton *all;
};

G_DEFINE_FINAL_TYPE (PinAnswerView, pin_answer_view, GTK_TYPE_BOX)

enum
{
  SIGNAL_CHANGED,             /* the draft grew or shrank */
  SIGNAL_CHOSEN,              /* a grade or a way, by its id */
  SIGNAL_ENTER,               /* Return, with nothing typed */
  SIGNAL_FILLED,              /* nothing more to type */
  SIGNAL_REASON,              /* not checked, and why */
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static const char *const usual_reasons[] = {
  N_("No time today"), N_("No tool for it"), N_("Cannot get at it"), N_("No part or supply"),
  N_("Not this time"), N_("Unsure what I see"),
};

static void
tell_changed (PinAnswerView *self)
{
  if (!self->settling)
    g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

static void
on_changed (PinAnswerView *self)
{
  tell_changed (self);
}

static void
on_entered_blank (PinAnswerView *self)
{
  g_signal_emit (self, signals[SIGNAL_ENTER], 0);
}

static void
on_enough (PinAnswerView *self)
{
  g_signal_emit (self, signals[SIGNAL_FILLED], 0);
}

/* ---- grades and ways ------------------------------------------------------------------ */

static void
on_choice (GtkButton *button, PinAnswerView *self)
{
  g_signal_emit (self, signals[SIGNAL_CHOSEN], 0, g_object_get_data (G_OBJECT (button), "pin-id"));
}

static GtkWidget *
choice_text (const char *title, const char *because)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *label = gtk_label_new (title);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "choice-title");
  gtk_box_append (GTK_BOX (box), label);
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  gtk_widget_set_hexpand (box, TRUE);
  if (because != NULL)
    {
      label = gtk_label_new (because);
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_widget_add_css_class (label, "bench-caption");
      gtk_box_append (GTK_BOX (box), label);
    }
  return box;
}

static void
add_choice (PinAnswerView *self, guint nth, const char *id, const char *title, const char *because,
            GtkWidget *mark, const char *word)
{
  GtkWidget *button = gtk_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  g_autofree char *digit = g_strdup_printf ("%u", nth);
  g_autofree char *name = word != NULL ? g_strdup_printf ("%s: %s", title, word) : g_strdup (title);
  gboolean given = self->question->given != NULL
                   && g_strcmp0 (self->question->given->detail, id) == 0;

  if (mark != NULL)
    gtk_box_append (GTK_BOX (box), mark);
  gtk_box_append (GTK_BOX (box), choice_text (title, because));
  if (nth < 10)
    {
      GtkWidget *key = gtk_label_new (digit);

      gtk_widget_add_css_class (key, "key");
      gtk_widget_set_valign (key, GTK_ALIGN_START);
      gtk_box_append (GTK_BOX (box), key);
    }
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_widget_add_css_class (button, "choice");
  gtk_widget_add_css_class (button, "outcome");
  if (given)
    gtk_widget_add_css_class (button, "given");
  g_object_set_data_full (G_OBJECT (button), "pin-id", g_strdup (id), g_free);
  pin_field_name (button, name);
  g_signal_connect (button, "clicked", G_CALLBACK (on_choice), self);
  gtk_box_append (self->choices, button);
}

static const char *
grade_word (const PinGrade *grade)
{
  return grade->unsafe ? _("unsafe") : pin_outcome_title (grade->outcome);
}

static void
show_choices (PinAnswerView *self)
{
  gboolean choose = pin_question_kind (self->question) == PIN_ANSWER_CHOOSE;

  pin_field_clear (GTK_WIDGET (self->choices));
  if (self->question->kind == PIN_QUESTION_WAY)
    for (guint i = 0; i < self->question->ways->ways->len; i++)
      {
        const PinWay *way = g_ptr_array_index (self->question->ways->ways, i);

        add_choice (self, i + 1, way->id, way->title, way->because, NULL, NULL);
      }
  else if (choose)
    for (guint i = 0; i < self->question->step->grades->len; i++)
      {
        const PinGrade *grade = g_ptr_array_index (self->question->step->grades, i);

        add_choice (self, i + 1, grade->id, grade->text, NULL,
                    pin_mark_image_new (grade->outcome, grade->unsafe, 22), grade_word (grade));
      }
  gtk_widget_set_visible (GTK_WIDGET (self->choices),
                          choose || self->question->kind == PIN_QUESTION_WAY);
}

/* ---- count ------------------------------------------------------------------------------ */

static int
count_all (PinAnswerView *self)
{
  return pin_question_count (self->question);
}

static void
set_count (PinAnswerView *self, int n)
{
  g_autofree char *text = n >= 0 ? g_strdup_printf ("%d", CLAMP (n, 0, count_all (self)))
                                 : g_strdup ("");

  gtk_editable_set_text (GTK_EDITABLE (self->counted), text);
}

static void
on_counted (PinAnswerView *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->counted));
  double n = -1;

  if (self->draft == NULL || self->settling)
    return;
  if (*text == '\0' || !pin_number_parse (text, &n) || n < 0 || n > count_all (self))
    n = -1;
  self->draft->counted = (int) n;
  tell_changed (self);
}

static void
on_fewer (PinAnswerView *self)
{
  set_count (self, self->draft->counted < 0 ? count_all (self) - 1 : MAX (self->draft->counted - 1, 0));
}

static void
on_more (PinAnswerView *self)
{
  set_count (self, self->draft->counted + 1);
}

static void
on_all (PinAnswerView *self)
{
  set_count (self, count_all (self));
}

static void
show_count (PinAnswerView *self)
{
  gboolean counts = pin_question_kind (self->question) == PIN_ANSWER_COUNT;
  g_autofree char *of = NULL;
  g_autofree char *all = NULL;

  gtk_widget_set_visible (GTK_WIDGET (self->count), counts);
  if (!counts)
    return;
  of = g_strdup_printf (_("of %d"), count_all (self));
  all = g_strdup_printf (_("All %d"), count_all (self));
  gtk_label_set_label (self->count_of, of);
  gtk_button_set_label (self->all, all);
  set_count (self, self->draft->counted);
}

/* ---- wait ---------------------------------------------------------------------------------- */

/* "9:58", "11:59:58" */
static char *
clock_text (gint64 seconds)
{
  int hours = (int) (seconds / 3600), minutes = (int) (seconds / 60 % 60), rest = (int) (seconds % 60);

  return hours > 0 ? g_strdup_printf ("%d:%02d:%02d", hours, minutes, rest)
                   : g_strdup_printf ("%d:%02d", minutes, rest);
}

static gboolean
on_tick (gpointer data)
{
  PinAnswerView *self = data;
  gint64 left = (self->wait_until - g_get_monotonic_time ()) / G_USEC_PER_SEC;
  g_autofree char *text = clock_text (MAX (left, 0));

  gtk_label_set_label (self->wait_left, text);
  return G_SOURCE_CONTINUE;
}

static void
show_wait (PinAnswerView *self)
{
  gboolean waits = self->question->kind == PIN_QUESTION_WAIT && self->question->given == NULL;
  g_autofree char *minutes = NULL;
  g_autofree char *text = NULL;

  g_clear_handle_id (&self->tick, g_source_remove);
  gtk_widget_set_visible (GTK_WIDGET (self->wait), waits);
  if (!waits)
    return;
  self->wait_until = g_get_monotonic_time () + (gint64) (self->question->wait->minutes * 60e6);
  minutes = pin_minutes_text (self->question->wait->minutes);
  text = g_strdup_printf (_("left of about %s. Counted from when this step was shown; say Done "
                            "when it is over."), minutes);
  gtk_label_set_label (self->wait_text, text);
  on_tick (self);
  self->tick = g_timeout_add (500, on_tick, self);
}

/* ---- work: which deeds, what is in it --------------------------------------------------- */

static void
on_deed (GtkToggleButton *toggle, PinAnswerView *self)
{
  const char *id = g_object_get_data (G_OBJECT (toggle), "pin-id");

  if (gtk_toggle_button_get_active (toggle))
    g_hash_table_add (self->draft->deeds, g_strdup (id));
  else
    g_hash_table_remove (self->draft->deeds, id);
  tell_changed (self);
}

static void
show_deeds (PinAnswerView *self)
{
  char **deeds = self->question->step != NULL ? self->question->step->deeds : NULL;
  gboolean several = deeds != NULL && deeds[0] != NULL && deeds[1] != NULL;

  pin_field_clear (GTK_WIDGET (self->deeds));
  gtk_widget_set_visible (GTK_WIDGET (self->deeds_box), several);
  for (guint i = 0; several && deeds[i] != NULL; i++)
    {
      const PinDeed *deed = pin_library_deed (self->library, deeds[i]);
      GtkWidget *toggle = pin_field_toggle (GTK_WIDGET (self->deeds),
                                            deed != NULL ? deed->title : deeds[i], deeds[i], NULL);

      gtk_widget_add_css_class (toggle, "bench-button");
      gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (toggle),
                                    g_hash_table_contains (self->draft->deeds, deeds[i]));
      g_signal_connect (toggle, "toggled", G_CALLBACK (on_deed), self);
    }
}

static void
on_ask (PinValueEntry *entry, PinAnswerView *self)
{
  const char *id = g_object_get_data (G_OBJECT (entry), "pin-id");
  const char *text = pin_value_entry_text (entry);

  if (*text != '\0')
    g_hash_table_insert (self->draft->specs, g_strdup (id), g_strdup (text));
  else
    g_hash_table_remove (self->draft->specs, id);
  tell_changed (self);
}

static guint
n_asks (PinAnswerView *self)
{
  const GPtrArray *asks = self->question != NULL && self->question->step != NULL ? self->question->step->asks
                                                                                 : NULL;

  return asks != NULL ? asks->len : 0;
}

/* On a low page one thing to write down stands beside what was done. */
static gboolean
lies_flat (PinAnswerView *self)
{
  return self->tight && n_asks (self) < 2;
}

static GtkWidget *
ask_field (PinAnswerView *self, const PinAsk *ask)
{
  const PinSpec *spec = pin_library_spec (self->library, ask->spec);
  const char *title = spec != NULL ? spec->title : ask->spec;
  const PinTrait *now = self->question->slot != NULL ? pin_slot_spec (self->question->slot, ask->spec)
                                                     : NULL;
  const char *typed = g_hash_table_lookup (self->draft->specs, ask->spec);
  g_autofree char *was = now != NULL && now->typed != NULL
                           ? g_strdup_printf (_("%s, was %s"), title, now->typed) : g_strdup (title);
  GtkWidget *field = gtk_box_new (lies_flat (self) ? GTK_ORIENTATION_HORIZONTAL : GTK_ORIENTATION_VERTICAL,
                                  lies_flat (self) ? 9 : 0);
  GtkWidget *caption = gtk_label_new (was);
  GtkWidget *entry = pin_value_entry_new (title, ask->unit != NULL ? ask->unit->symbol : NULL);

  gtk_label_set_xalign (GTK_LABEL (caption), 0);
  gtk_widget_add_css_class (caption, "bench-hint");
  gtk_box_append (GTK_BOX (field), caption);
  gtk_box_append (GTK_BOX (field), entry);
  gtk_editable_set_width_chars (GTK_EDITABLE (pin_value_entry_entry (PIN_VALUE_ENTRY (entry))), 16);
  pin_value_entry_set_text (PIN_VALUE_ENTRY (entry), typed != NULL ? typed : "");
  g_object_set_data_full (G_OBJECT (entry), "pin-id", g_strdup (ask->spec), g_free);
  g_signal_connect (entry, "changed", G_CALLBACK (on_ask), self);
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (on_entered_blank), self);
  return field;
}

static void
show_asks (PinAnswerView *self)
{
  const GPtrArray *asks = self->question->step != NULL ? self->question->step->asks : NULL;
  guint n = n_asks (self);

  pin_field_clear (GTK_WIDGET (self->asks));
  gtk_widget_set_visible (GTK_WIDGET (self->asks_box), n > 0);
  gtk_widget_set_visible (GTK_WIDGET (self->asks_caption), n > 1);
  gtk_widget_set_valign (GTK_WIDGET (self->asks_box), lies_flat (self) ? GTK_ALIGN_CENTER : GTK_ALIGN_FILL);
  gtk_widget_set_visible (GTK_WIDGET (self->work), n > 0 || gtk_widget_get_visible (GTK_WIDGET (self->deeds_box)));
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->work),
                                  lies_flat (self) ? GTK_ORIENTATION_HORIZONTAL : GTK_ORIENTATION_VERTICAL);
  for (guint i = 0; i < n; i++)
    {
      GtkWidget *field = ask_field (self, g_ptr_array_index (asks, i));

      pin_flow_add (self->asks, field);
    }
}

/* ---- not checked, and why ------------------------------------------------------------------ */

static void
on_usual_reason (GtkButton *button, PinAnswerView *self)
{
  g_signal_emit (self, signals[SIGNAL_REASON], 0, g_object_get_data (G_OBJECT (button), "pin-id"));
}

static void
on_reason (PinAnswerView *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->reason));

  if (*text != '\0')
    g_signal_emit (self, signals[SIGNAL_REASON], 0, text);
}

static void
fill_reasons (PinAnswerView *self)
{
  for (guint i = 0; i < G_N_ELEMENTS (usual_reasons); i++)
    {
      GtkWidget *button = gtk_button_new_with_label (_(usual_reasons[i]));

      gtk_widget_add_css_class (button, "bench-button");
      gtk_widget_add_css_class (button, "outcome");
      g_object_set_data (G_OBJECT (button), "pin-id", (gpointer) _(usual_reasons[i]));
      g_signal_connect (button, "clicked", G_CALLBACK (on_usual_reason), self);
      pin_flow_add (self->reason_buttons, button);
    }
}

/* ---- class ------------------------------------------------------------------------------------ */

static void
pin_answer_view_dispose (GObject *object)
{
  g_clear_handle_id (&PIN_ANSWER_VIEW (object)->tick, g_source_remove);
  G_OBJECT_CLASS (pin_answer_view_parent_class)->dispose (object);
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PinAnswerView, name)

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/page/hingepin/Hingepin/ui/answer-view.ui");
  BIND (reasons);
  BIND (means);
  BIND (reason_buttons);
  BIND (reason);
  BIND (choices);
  BIND (measure);
  BIND (count);
  BIND (counted);
  BIND (count_of);
  BIND (all);
  BIND (wait);
  BIND (wait_left);
  BIND (wait_text);
  BIND (work);
  BIND (deeds_box);
  BIND (asks_caption);
  BIND (deeds);
  BIND (asks_box);
  BIND (asks);
  gtk_widget_class_bind_template_callback (widget_class, on_changed);
  gtk_widget_class_bind_template_callback (widget_class, on_entered_blank);
  gtk_widget_class_bind_template_callback (widget_class, on_enough);
  gtk_widget_class_bind_template_callback (widget_class, on_reason);
  gtk_widget_class_bind_template_callback (widget_class, on_counted);
  gtk_widget_class_bind_template_callback (widget_class, on_fewer);
  gtk_widget_class_bind_template_callback (widget_class, on_more);
  gtk_widget_class_bind_template_callback (widget_class, on_all);
}

static guint
new_signal (const char *name, gboolean with_text)
{
  return with_text ? g_signal_new (name, PIN_TYPE_ANSWER_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 1, G_TYPE_STRING)
                   : g_signal_new (name, PIN_TYPE_ANSWER_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
}

static void
pin_answer_view_class_init (PinAnswerViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = pin_answer_view_dispose;
  g_type_ensure (PIN_TYPE_CHOICE_GRID);
  g_type_ensure (PIN_TYPE_MEASURE_VIEW);
  signals[SIGNAL_CHANGED] = new_signal ("changed", FALSE);
  signals[SIGNAL_CHOSEN] = new_signal ("chosen", TRUE);
  signals[SIGNAL_ENTER] = new_signal ("enter", FALSE);
  signals[SIGNAL_FILLED] = new_signal ("filled", FALSE);
  signals[SIGNAL_REASON] = new_signal ("reason", TRUE);
  bind_template (GTK_WIDGET_CLASS (klass));
}

static void
pin_answer_view_init (PinAnswerView *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  fill_reasons (self);
}

/* All are borrowed until the next call or pin_answer_view_clear(). */
void
pin_answer_view_set (PinAnswerView *self, PinLibrary *library, const PinWalk *walk,
                     const PinQuestion *question, PinDraft *draft)
{
  gboolean measures = pin_question_kind (question) == PIN_ANSWER_MEASURE;

  self->settling = TRUE;
  self->library = library;
  self->question = question;
  self->draft = draft;
  pin_answer_view_ask_reason (self, FALSE);
  gtk_editable_set_text (GTK_EDITABLE (self->reason), draft->reason);
  show_choices (self);
  gtk_widget_set_visible (GTK_WIDGET (self->measure), measures);
  if (measures)
    pin_measure_view_set (self->measure, library, walk, question, draft);
  else
    pin_measure_view_clear (self->measure);
  show_count (self);
  show_wait (self);
  show_deeds (self);
  show_asks (self);
  self->settling = FALSE;
}

/* Before the walk that was set goes away. */
void
pin_answer_view_clear (PinAnswerView *self)
{
  g_clear_handle_id (&self->tick, g_source_remove);
  pin_measure_view_clear (self->measure);
  self->question = NULL;
  self->draft = NULL;
}

/* What a digit does here: press the grade or way of that number, begin a
 * reading or a count.  FALSE: nothing. */
gboolean
pin_answer_view_digit (PinAnswerView *self, const char *digit)
{
  GtkWidget *child;

  if (self->question == NULL)
    return FALSE;
  if (pin_question_kind (self->question) == PIN_ANSWER_MEASURE)
    {
      pin_measure_view_type (self->measure, digit);
      return TRUE;
    }
  if (!g_ascii_isdigit (*digit))
    return FALSE;
  if (pin_question_kind (self->question) == PIN_ANSWER_COUNT)
    {
      gtk_entry_grab_focus_without_selecting (self->counted);
      gtk_editable_set_text (GTK_EDITABLE (self->counted), digit);
      gtk_editable_set_position (GTK_EDITABLE (self->counted), -1);
      return TRUE;
    }
  child = *digit == '0' ? NULL : gtk_widget_get_first_child (GTK_WIDGET (self->choices));
  for (char nth = '1'; child != NULL && nth < *digit; nth++)
    child = gtk_widget_get_next_sibling (child);
  if (child == NULL)
    return FALSE;
  on_choice (GTK_BUTTON (child), self);
  return TRUE;
}

PinMeasureView *
pin_answer_view_measure (PinAnswerView *self)
{
  return self->measure;
}

/* What Return would answer: the reading's or the count's word.  NONE: nothing. */
PinOutcome
pin_answer_view_proposal (PinAnswerView *self)
{
  if (self->question == NULL)
    return PIN_OUTCOME_NONE;
  if (pin_question_kind (self->question) == PIN_ANSWER_MEASURE)
    return pin_measure_view_proposal (self->measure);
  if (pin_question_kind (self->question) == PIN_ANSWER_COUNT && self->draft->counted >= 0)
    return self->draft->counted == count_all (self) ? PIN_OUTCOME_PASS : PIN_OUTCOME_FAIL;
  return PIN_OUTCOME_NONE;
}

/* On a low page things stand beside each other that stand below each other on a
 * high one. */
void
pin_answer_view_set_tight (PinAnswerView *self, gboolean tight)
{
  GtkOrientation lie = tight ? GTK_ORIENTATION_HORIZONTAL : GTK_ORIENTATION_VERTICAL;

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->deeds_box), lie);
  gtk_box_set_spacing (self->deeds_box, tight ? 18 : 6);
  pin_measure_view_set_tight (self->measure, tight);
  self->tight = tight;
  if (self->question != NULL)
    show_asks (self);
}

/* The reasons stand in the place of what would answer. */
void
pin_answer_view_ask_reason (PinAnswerView *self, gboolean ask)
{
  gtk_widget_set_visible (GTK_WIDGET (self->reasons), ask);
  gtk_widget_set_visible (GTK_WIDGET (self->means), !ask);
  if (ask)
    gtk_widget_child_focus (GTK_WIDGET (self->reason_buttons), GTK_DIR_TAB_FORWARD);
}

gboolean
pin_answer_view_asks_reason (PinAnswerView *self)
{
  return gtk_widget_get_visible (GTK_WIDGET (self->reasons));
}
