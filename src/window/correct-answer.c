#include "window/correct-answer.h"

#include <glib/gi18n.h>
#include <string.h>

#include "service/finding-text.h"
#include "service/walk-correct.h"
#include "window/fields.h"
#include "window/tell.h"
#include "window/value-entry.h"

struct _PinCorrectAnswer
{
  GtkBox parent_instance;

  PinDesk *desk;              /* owned */
  const PinWalkRecord *record; /* borrowed; NULL: nothing is being corrected */
  gint64 found, left;         /* answers; 0: none */
  gint64 answer;              /* which of them */
  GPtrArray *ids;             /* char*: of the choices */
  gboolean settling;

  GtkLabel *title, *stands;   /* template */
  GtkBox *phases;
  GtkDropDown *choices;
  PinValueEntry *value;
  GtkEntry *reason, *why, *person;
  GtkButton *correct;
};

G_DEFINE_FINAL_TYPE (PinCorrectAnswer, pin_correct_answer, GTK_TYPE_BOX)

static guint closed;

/* By the reading or the count itself. */
#define BY_ITSELF "by-itself"

static const PinQuestion *
question_of (PinCorrectAnswer *self)
{
  return self->record != NULL ? pin_walk_question_of (self->record->walk, self->answer) : NULL;
}

static const char *
phase_chosen (PinCorrectAnswer *self)
{
  g_autoptr (GPtrArray) ids = pin_field_toggled (GTK_WIDGET (self->phases));

  return g_ptr_array_index (ids, 0);
}

static const char *
text_of (GtkEntry *entry)
{
  return gtk_editable_get_text (GTK_EDITABLE (entry));
}

/* ---- what can be answered -------------------------------------------------------- */

/* What is chosen: the id of a grade, the word of an outcome, "unsafe", BY_ITSELF. */
static const char *
chosen (PinCorrectAnswer *self)
{
  guint i = gtk_drop_down_get_selected (self->choices);

  return self->ids != NULL && i < self->ids->len ? g_ptr_array_index (self->ids, i) : NULL;
}

static void
on_choice (PinCorrectAnswer *self)
{
  gboolean none = g_strcmp0 (chosen (self), "not-checked") == 0;

  gtk_widget_set_visible (GTK_WIDGET (self->reason), none);
}

typedef struct
{
  GtkStringList *titles;
  GPtrArray *ids;
  guint stands;               /* what was answered */
} Choices;

static void
add_choice (Choices *choices, const char *title, const char *id, gboolean stands)
{
  if (stands)
    choices->stands = choices->ids->len;
  gtk_string_list_append (choices->titles, title);
  g_ptr_array_add (choices->ids, g_strdup (id));
}

static void
add_grades (Choices *choices, const PinQuestion *question)
{
  for (guint i = 0; i < question->step->grades->len; i++)
    {
      const PinGrade *grade = g_ptr_array_index (question->step->grades, i);

      add_choice (choices, grade->text, grade->id, g_strcmp0 (question->given->detail, grade->id) == 0);
    }
}

static const struct
{
  PinOutcome outcome;
  gboolean unsafe, work, judged;
} words[] = {
  { PIN_OUTCOME_DONE, FALSE, TRUE, FALSE },  { PIN_OUTCOME_PASS, FALSE, FALSE, TRUE },
  { PIN_OUTCOME_WATCH, FALSE, FALSE, TRUE }, { PIN_OUTCOME_FAIL, FALSE, TRUE, TRUE },
  { PIN_OUTCOME_FAIL, TRUE, TRUE, TRUE },    { PIN_OUTCOME_NOT_CHECKED, FALSE, FALSE, FALSE },
  { PIN_OUTCOME_DOES_NOT_APPLY, FALSE, FALSE, FALSE },
};

static void
add_words (Choices *choices, const PinQuestion *question)
{
  PinAnswerKind kind = pin_question_kind (question);
  const PinAnswer *given = question->given;

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    {
      gboolean none = !words[i].work && !words[i].judged;

      if (none || (kind == PIN_ANSWER_WORK ? words[i].work : kind != PIN_ANSWER_CHOOSE && words[i].judged))
        add_choice (choices, words[i].unsafe ? _("unsafe") : pin_outcome_title (words[i].outcome),
                    words[i].unsafe ? "unsafe" : pin_outcome_word (words[i].outcome),
                    given->outcome == words[i].outcome && given->unsafe == words[i].unsafe);
    }
}

static void
show_choices (PinCorrectAnswer *self, const PinQuestion *question)
{
  PinAnswerKind kind = pin_question_kind (question);
  Choices choices = { gtk_string_list_new (NULL), g_ptr_array_new_with_free_func (g_free), 0 };

  if (kind == PIN_ANSWER_CHOOSE)
    add_grades (&choices, question);
  else if (kind == PIN_ANSWER_MEASURE)
    add_choice (&choices, _("as the reading says"), BY_ITSELF, FALSE);
  else if (kind == PIN_ANSWER_COUNT)
    add_choice (&choices, _("as the count says"), BY_ITSELF, FALSE);
  add_words (&choices, question);
  g_clear_pointer (&self->ids, g_ptr_array_unref);
  self->ids = choices.ids;
  gtk_drop_down_set_model (self->choices, G_LIST_MODEL (choices.titles));
  /* Another reading asks for its word again: none is set beforehand. */
  gtk_drop_down_set_selected (self->choices,
                              kind == PIN_ANSWER_MEASURE || kind == PIN_ANSWER_COUNT ? 0 : choices.stands);
  g_object_unref (choices.titles);
  on_choice (self);
}

/* ---- what stands ------------------------------------------------------------------- */

static const PinReading *
reading_of (PinCorrectAnswer *self)
{
  const GPtrArray *readings = pin_walk_rows (self->record->walk)->traces->readings;

  for (guint i = 0; i < readings->len; i++)
    if (((PinReading *) g_ptr_array_index (readings, i))->answer == self->answer)
      return g_ptr_array_index (readings, i);
  return NULL;
}

/* As it was typed, without the unit: that stands in the entry already.
 * Returns: (transfer full) */
static char *
typed_bare (const PinReading *reading, const PinUnit *unit)
{
  char *typed = g_strdup (reading != NULL && reading->typed != NULL ? reading->typed : "");

  if (unit != NULL && *unit->symbol != '\0' && g_str_has_suffix (typed, unit->symbol))
    typed[strlen (typed) - strlen (unit->symbol)] = '\0';
  return g_strchomp (typed);
}

static void
show_value (PinCorrectAnswer *self, const PinQuestion *question)
{
  PinAnswerKind kind = pin_question_kind (question);
  const PinReading *reading = reading_of (self);
  g_auto (GStrv) count = g_strsplit (question->given->detail != NULL ? question->given->detail : "", "/", 2);
  g_autofree char *of = g_strdup_printf (_("of %d"), pin_question_count (question));
  gboolean counts = kind == PIN_ANSWER_COUNT;

  gtk_widget_set_visible (GTK_WIDGET (self->value), counts || kind == PIN_ANSWER_MEASURE);
  if (counts)
    {
      g_object_set (self->value, "unit", of, NULL);
      pin_value_entry_set_text (self->value, count[0] != NULL && count[1] != NULL ? count[0] : "");
    }
  else if (kind == PIN_ANSWER_MEASURE)
    {
      const PinUnit *unit = question->step->measure->unit;
      g_autofree char *typed = typed_bare (reading, unit);

      g_object_set (self->value, "unit", unit != NULL ? unit->symbol : "", NULL);
      pin_value_entry_set_text (self->value, typed);
    }
}

static void
show_stands (PinCorrectAnswer *self, const PinQuestion *question)
{
  PinLibrary *library = pin_walk_library (self->record->walk);
  const PinReading *reading = reading_of (self);
  const char *word = question->given->unsafe ? _("unsafe") : pin_outcome_title (question->given->outcome);
  g_autofree char *said = reading != NULL ? pin_reading_text (library, reading)
                                          : pin_answer_text (library, question->given);
  const char *person = question->given->person != NULL ? question->given->person : "–";
  g_autofree char *text = g_str_equal (said, word)
                            ? g_strdup_printf (_("It says: %s (%s)."), said, person)
                            : g_strdup_printf (_("It says: %s, %s (%s)."), said, word, person);
  g_autofree char *kept = g_strdup_printf (_("%s That stays in the book beside what you put right."), text);

  gtk_label_set_label (self->stands, kept);
}

static void
show_answer (PinCorrectAnswer *self)
{
  const PinQuestion *question = question_of (self);

  if (question == NULL)
    return;
  show_stands (self, question);
  show_value (self, question);
  show_choices (self, question);
  gtk_editable_set_text (GTK_EDITABLE (self->reason),
                         question->given->outcome == PIN_OUTCOME_NOT_CHECKED && question->given->detail != NULL
                           ? question->given->detail : "");
}

static void
on_phase (PinCorrectAnswer *self)
{
  const char *phase = phase_chosen (self);

  if (self->settling || phase == NULL)
    return;
  self->answer = g_str_equal (phase, "left") ? self->left : self->found;
  show_answer (self);
}

static void
show_phases (PinCorrectAnswer *self)
{
  GtkWidget *found, *left;

  pin_field_clear (GTK_WIDGET (self->phases));
  gtk_widget_set_visible (GTK_WIDGET (self->phases), self->found != 0 && self->left != 0);
  if (self->found == 0 || self->left == 0)
    return;
  self->settling = TRUE;
  found = pin_field_toggle (GTK_WIDGET (self->phases), _("As found"), "found", NULL);
  left = pin_field_toggle (GTK_WIDGET (self->phases), _("As left"), "left", found);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->answer == self->left ? left : found), TRUE);
  g_signal_connect_swapped (found, "toggled", G_CALLBACK (on_phase), self);
  g_signal_connect_swapped (left, "toggled", G_CALLBACK (on_phase), self);
  self->settling = FALSE;
}

/* ---- correcting --------------------------------------------------------------------- */

static void
done_with (PinCorrectAnswer *self)
{
  self->record = NULL;
  self->answer = 0;
  g_signal_emit (self, closed, 0);
}

static void
on_close (PinCorrectAnswer *self)
{
  done_with (self);
}

static void
corrected (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (PinCorrectAnswer) self = user_data;
  g_autoptr (GError) error = NULL;

  gtk_widget_set_sensitive (GTK_WIDGET (self->correct), TRUE);
  if (!pin_desk_write_finish (PIN_DESK (source), result, &error))
    {
      pin_tell_error (GTK_WIDGET (self), _("It was not corrected:"), error);
      return;
    }
  pin_tell_settled (GTK_WIDGET (self));
  pin_tell_done (GTK_WIDGET (self), _("Corrected."), _("The record tells what stood before, too."));
  done_with (self);
}

static void
fill (PinCorrectAnswer *self, const PinQuestion *question, PinCorrection *correction)
{
  const char *choice = chosen (self);
  PinAnswerKind kind = pin_question_kind (question);

  correction->why = text_of (self->why);
  correction->person = text_of (self->person);
  correction->typed = kind == PIN_ANSWER_MEASURE || kind == PIN_ANSWER_COUNT ? pin_value_entry_text (self->value)
                                                                             : NULL;
  if (choice == NULL || g_str_equal (choice, BY_ITSELF))
    return;
  correction->unsafe = g_str_equal (choice, "unsafe");
  if (correction->unsafe)
    correction->outcome = PIN_OUTCOME_FAIL;
  else if (!pin_outcome_parse (choice, &correction->outcome))
    correction->grade = choice;
  if (correction->outcome == PIN_OUTCOME_NOT_CHECKED)
    correction->reason = text_of (self->reason);
}

static void
on_correct (PinCorrectAnswer *self)
{
  const PinQuestion *question = question_of (self);
  PinCorrection correction = { PIN_OUTCOME_NONE };
  g_autoptr (GError) error = NULL;
  PinBatch *batch;

  if (question == NULL || !gtk_widget_get_sensitive (GTK_WIDGET (self->correct)))
    return;
  fill (self, question, &correction);
  batch = pin_batch_new (pin_desk_book (self->desk));
  if (!pin_walk_correct (self->record->walk, question, &correction, batch, &error))
    {
      pin_tell_error (GTK_WIDGET (self), _("It was not corrected:"), error);
      pin_batch_free (batch);
      return;
    }
  gtk_widget_set_sensitive (GTK_WIDGET (self->correct), FALSE);
  pin_desk_write (self->desk, batch, pin_walk_car (self->record->walk)->id, corrected, g_object_ref (self));
}

/* ---- class ---------------------------------------------------------------------------- */

static void
pin_correct_answer_dispose (GObject *object)
{
  PinCorrectAnswer *self = PIN_CORRECT_ANSWER (object);

  g_clear_object (&self->desk);
  g_clear_pointer (&self->ids, g_ptr_array_unref);
  G_OBJECT_CLASS (pin_correct_answer_parent_class)->dispose (object);
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PinCorrectAnswer, name)

static void
pin_correct_answer_class_init (PinCorrectAnswerClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pin_correct_answer_dispose;
  closed = g_signal_new ("closed", PIN_TYPE_CORRECT_ANSWER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_type_ensure (PIN_TYPE_VALUE_ENTRY);
  gtk_widget_class_set_template_from_resource (widget_class, "/page/hingepin/Hingepin/ui/correct-answer.ui");
  BIND (title);
  BIND (stands);
  BIND (phases);
  BIND (choices);
  BIND (value);
  BIND (reason);
  BIND (why);
  BIND (person);
  BIND (correct);
  gtk_widget_class_bind_template_callback (widget_class, on_close);
  gtk_widget_class_bind_template_callback (widget_class, on_correct);
  gtk_widget_class_bind_template_callback (widget_class, on_choice);
}

static void
pin_correct_answer_init (PinCorrectAnswer *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

gboolean
pin_correct_answer_show (PinCorrectAnswer *self, PinDesk *desk, const PinWalkRecord *record,
                         const PinRecordLine *line)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *title = *line->place != '\0' ? g_strdup_printf (_("Correct: %s, %s"), line->title, line->place)
                                                : g_strdup_printf (_("Correct: %s"), line->title);
  const PinAnswer *last = line->left != NULL ? line->left : line->found;
  const PinQuestion *question = last != NULL ? pin_walk_question_of (record->walk, last->id) : NULL;

  if (question == NULL || !pin_walk_may_correct (record->walk, question, &error))
    {
      pin_tell_error (GTK_WIDGET (self), _("Not to be corrected here:"), error);
      return FALSE;
    }
  g_set_object (&self->desk, desk);
  self->record = record;
  self->found = line->found != NULL ? line->found->id : 0;
  self->left = line->left != NULL ? line->left->id : 0;
  self->answer = last->id;
  gtk_label_set_label (self->title, title);
  gtk_editable_set_text (GTK_EDITABLE (self->why), "");
  gtk_editable_set_text (GTK_EDITABLE (self->person), pin_desk_person (desk) != NULL ? pin_desk_person (desk) : "");
  show_phases (self);
  show_answer (self);
  return TRUE;
}

void
pin_correct_answer_set_record (PinCorrectAnswer *self, const PinWalkRecord *record)
{
  if (self->record == NULL)
    return;
  self->record = record;
  if (question_of (self) == NULL)
    done_with (self);
}
