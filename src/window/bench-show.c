#include "window/bench-page-private.h"

#include <glib/gi18n.h>

#include "service/finding-text.h"
#include "service/usage.h"
#include "window/fields.h"

/* A question on the screen: its words, its place on the plan, its keys. */

static const char *
phase_word (PinPhase phase)
{
  switch (phase)
    {
    case PIN_PHASE_FOUND:
      return _("as found");
    case PIN_PHASE_LEFT:
      return _("as left");
    case PIN_PHASE_ONLY:
    default:
      return "";
    }
}

static char *
where_markup (PinBenchPage *self, const PinQuestion *question)
{
  const PinWalkGroup *group = g_ptr_array_index (pin_walk_groups (self->walk), question->group);
  GString *text = g_string_new (NULL);
  g_autofree char *escaped = NULL;

  if (question->procedure != NULL && g_strcmp0 (question->procedure->title, group->title) != 0)
    g_string_append_printf (text, "%s, ", question->procedure->title);
  g_string_append_printf (text, _("%s, step %d of %d"), group->title, self->at - group->first + 1,
                          group->n);
  if (question->attempt > 1)
    g_string_append_printf (text, _(", time %d"), question->attempt);
  escaped = g_markup_escape_text (text->str, -1);
  g_string_assign (text, escaped);
  if (question->phase != PIN_PHASE_ONLY)
    g_string_append_printf (text, "  <b>%s</b>", phase_word (question->phase));
  if (question->opened_before)
    g_string_append_printf (text, "  %s", _("(opened before it was looked at)"));
  if (question->settling)
    g_string_append_printf (text, "  %s", _("settles what is owed"));
  return g_string_free (text, FALSE);
}

static void
show_words (GtkLabel *caption, GtkLabel *label, const char *text)
{
  gboolean any = text != NULL && *text != '\0';

  gtk_label_set_label (label, any ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), any);
  if (caption != NULL)
    gtk_widget_set_visible (GTK_WIDGET (caption), any);
}

static void
show_given (PinBenchPage *self, const PinQuestion *question)
{
  g_autofree char *answer = NULL;
  g_autofree char *text = NULL;

  if (question->given != NULL)
    {
      answer = pin_answer_text (pin_desk_library (self->desk), question->given);
      text = g_strdup_printf (question->kind == PIN_QUESTION_OFF || question->kind == PIN_QUESTION_ON
                                ? _("Answered: %s. Undo takes it back.")
                                : _("Answered: %s. Answer again to correct it."), answer);
    }
  show_words (NULL, self->given, text);
}

/* "Wait 12 h": of 720 min nobody sees at once that the evening is over. */
static char *
title_of (PinBenchPage *self, const PinQuestion *question)
{
  g_autofree char *minutes = NULL;

  if (question->kind != PIN_QUESTION_WAIT || question->wait == NULL)
    return pin_question_title (self->walk, question);
  minutes = pin_minutes_text (question->wait->minutes);
  return g_strdup_printf (_("Wait %s"), minutes);
}

/* What is waited for is written to follow "for": "bubbles to rise". */
static char *
do_of (const PinQuestion *question)
{
  char *text = pin_question_do (question);
  g_autofree char *plain = text;

  return question->kind == PIN_QUESTION_WAIT && text != NULL && *text != '\0'
           ? g_strdup_printf (_("Wait for %s"), text) : g_steal_pointer (&plain);
}

void
pin_bench_page_show_words (PinBenchPage *self, const PinQuestion *question)
{
  g_autofree char *where = where_markup (self, question);
  g_autofree char *title = title_of (self, question);
  g_autofree char *place = pin_question_place (question);
  g_autofree char *do_text = do_of (question);
  const char *look = pin_question_look_for (question);
  g_autoptr (GPtrArray) hazards = pin_question_hazards (self->walk, question);
  g_autofree char *name = g_strdup_printf ("%s. %s. %s %s", title, place, do_text,
                                           look != NULL ? look : "");

  gtk_label_set_markup (self->where, where);
  gtk_label_set_label (self->title, title);
  show_words (NULL, self->place, place);
  show_words (self->do_caption, self->do_text, do_text);
  show_words (self->look_caption, self->look_text, look);
  pin_hazard_bar_set (self->hazards, hazards);
  pin_field_name (self->question, name);
  show_given (self, question);
}

/* ---- plan, keys, note ------------------------------------------------------------------------ */

/* A part that the question is about; for an assembly the first that comes off
 * with it. */
static const PinSlot *
slot_of (PinBenchPage *self, const PinQuestion *question)
{
  const PinCar *car = pin_walk_car (self->walk);

  if (question->slot != NULL)
    return question->slot;
  if (question->slots != NULL && question->slots->len > 0)
    return g_ptr_array_index (question->slots, 0);
  for (guint i = 0; question->assembly != NULL && i < car->slots->len; i++)
    {
      const PinSlot *slot = g_ptr_array_index (car->slots, i);

      if (slot->position != NULL
          && g_strcmp0 (slot->position->assembly, question->assembly->id) == 0)
        return slot;
    }
  return NULL;
}

void
pin_bench_page_show_plan (PinBenchPage *self, const PinQuestion *question)
{
  const GPtrArray *tray = pin_walk_tray (self->walk);
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) off = NULL;
  const PinSlot *slot = NULL;

  for (guint i = 0; i < tray->len; i++)
    g_strv_builder_add (builder, ((PinTrayItem *) g_ptr_array_index (tray, i))->id);
  off = g_strv_builder_end (builder);
  if (question != NULL)
    slot = slot_of (self, question);
  pin_plan_area_set_off (self->plan, (const char *const *) off);
  pin_plan_area_set_here (self->plan, slot != NULL && slot->position != NULL ? slot->code : NULL,
                          slot == NULL ? NULL
                          : question->assembly != NULL ? question->assembly->title : slot->label);
}

static PinKeys
keys_of (const PinQuestion *question)
{
  PinKeys judge = PIN_KEY_PASS | PIN_KEY_WATCH | PIN_KEY_FAIL | PIN_KEY_UNSAFE;
  PinKeys none = PIN_KEY_NOT_CHECKED | PIN_KEY_DOES_NOT_APPLY;

  if (question->kind == PIN_QUESTION_WAY)
    return 0;
  if (question->kind != PIN_QUESTION_STEP)
    return PIN_KEY_DONE | PIN_KEY_NOT_CHECKED;
  switch (pin_question_kind (question))
    {
    case PIN_ANSWER_CHOOSE:
      return PIN_KEY_UNSAFE | none;
    case PIN_ANSWER_WORK:
      return PIN_KEY_DONE | PIN_KEY_FAIL | PIN_KEY_UNSAFE | none;
    case PIN_ANSWER_PLAIN:
    case PIN_ANSWER_MEASURE:
    case PIN_ANSWER_COUNT:
    default:
      return judge | none;
    }
}

/* Marks what the reading says, and whether fails are raised. */
void
pin_bench_page_mark_keys (PinBenchPage *self)
{
  pin_outcome_keys_propose (self->keys, pin_answer_view_proposal (self->answer));
  pin_outcome_keys_raise (self->keys, self->raised);
}

void
pin_bench_page_show_keys (PinBenchPage *self, const PinQuestion *question)
{
  if (question == NULL)
    pin_outcome_keys_set (self->keys, 0, PIN_OUTCOME_NONE, FALSE);
  else if (question->given == NULL)
    pin_outcome_keys_set (self->keys, keys_of (question), PIN_OUTCOME_NONE, FALSE);
  else
    pin_outcome_keys_set (self->keys, keys_of (question), question->given->outcome,
                          question->given->unsafe);
  pin_outcome_keys_set_moves (self->keys, self->at != 0 && pin_walk_questions (self->walk)->len > 0, self->at >= 0);
  pin_outcome_keys_set_busy (self->keys, self->busy);
}

void
pin_bench_page_show_note (PinBenchPage *self)
{
  gtk_editable_set_text (GTK_EDITABLE (self->note), self->draft->note);
  gtk_toggle_button_set_active (self->note_button, *self->draft->note != '\0');
  gtk_widget_set_visible (GTK_WIDGET (self->note), *self->draft->note != '\0');
  gtk_button_set_label (self->photo, _("Photo"));
}
