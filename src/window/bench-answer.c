#include "window/bench-page-private.h"

#include <glib/gi18n.h>

#include "inspection/error.h"
#include "window/tell.h"
#include "window/window.h"

/* Answers of the bench on their way to the book.  The screen moves on only
 * when the book has acknowledged them. */

#define DRAFT_EVERY 800       /* ms */

typedef struct
{
  PinBenchPage *page;         /* owned */
  PinBenchMove move;
  char *key;
  gint64 vehicle;             /* of a sign-off */
  char *said;                 /* of a sign-off: for the strip */
} Sent;

static Sent *
sent_new (PinBenchPage *self, PinBenchMove move, const char *key)
{
  Sent *sent = g_new0 (Sent, 1);

  sent->page = g_object_ref (self);
  sent->move = move;
  sent->key = g_strdup (key);
  sent->vehicle = pin_walk_car (self->walk)->id;
  return sent;
}

static void
sent_free (Sent *sent)
{
  g_object_unref (sent->page);
  g_free (sent->key);
  g_free (sent->said);
  g_free (sent);
}

static void
set_busy (PinBenchPage *self, gboolean busy)
{
  self->busy = busy;
  pin_outcome_keys_set_busy (self->keys, busy);
}

/* ---- the draft --------------------------------------------------------------------------- */

void
pin_bench_page_drop_draft_timer (PinBenchPage *self)
{
  g_clear_handle_id (&self->draft_timer, g_source_remove);
}

static void
draft_kept (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (PinDesk) desk = user_data;
  g_autoptr (GError) error = NULL;

  /* What was typed still stands on the screen; the answer will tell. */
  if (!pin_book_commit_finish (pin_desk_book (desk), result, &error))
    g_info ("draft not kept: %s", error->message);
}

static gboolean
keep_draft (gpointer data)
{
  PinBenchPage *self = data;
  PinBatch *batch;
  g_autofree char *text = NULL;

  self->draft_timer = 0;
  if (self->walk == NULL || self->draft == NULL || self->busy)
    return G_SOURCE_REMOVE;
  batch = pin_batch_new (pin_desk_book (self->desk));
  text = pin_draft_is_blank (self->draft) ? NULL : pin_draft_to_text (self->draft);
  pin_batch_draft (batch, self->inspection, text);
  pin_book_commit_async (pin_desk_book (self->desk), batch, NULL, draft_kept,
                         g_object_ref (self->desk));
  return G_SOURCE_REMOVE;
}

/* Soon, and not at every letter. */
void
pin_bench_page_keep_draft (PinBenchPage *self)
{
  if (self->draft_timer == 0 && !self->settling)
    self->draft_timer = g_timeout_add (DRAFT_EVERY, keep_draft, self);
}

/* ---- a reply from what stands on the screen ------------------------------------------------ */

typedef struct
{
  PinReply reply;
  GPtrArray *deeds;
  GArray *specs;
  char *typed;
} Filled;

static void
filled_clear (Filled *filled)
{
  g_clear_pointer (&filled->deeds, g_ptr_array_unref);
  g_clear_pointer (&filled->specs, g_array_unref);
  g_clear_pointer (&filled->typed, g_free);
}

static void
fill_work (PinBenchPage *self, Filled *filled)
{
  GHashTableIter iter;
  gpointer key, value;

  filled->deeds = g_ptr_array_new ();
  g_hash_table_iter_init (&iter, self->draft->deeds);
  while (g_hash_table_iter_next (&iter, &key, NULL))
    g_ptr_array_add (filled->deeds, key);
  if (filled->deeds->len > 0)
    {
      g_ptr_array_add (filled->deeds, NULL);
      filled->reply.deeds = (const char *const *) filled->deeds->pdata;
    }
  filled->specs = g_array_new (FALSE, FALSE, sizeof (PinSpecValue));
  g_hash_table_iter_init (&iter, self->draft->specs);
  while (g_hash_table_iter_next (&iter, &key, &value))
    {
      PinSpecValue spec = { .id = key, .typed = value };

      g_array_append_val (filled->specs, spec);
    }
  filled->reply.specs = (const PinSpecValue *) filled->specs->data;
  filled->reply.n_specs = filled->specs->len;
}

static void
fill_reading (PinBenchPage *self, Filled *filled)
{
  const GArray *repeats = pin_measure_view_repeats (pin_answer_view_measure (self->answer));
  GString *typed = g_string_new (NULL);

  for (guint i = 0; i < self->draft->laps->len; i++)
    g_string_append_printf (typed, "%s%s", i > 0 ? ", " : "",
                            (char *) g_ptr_array_index (self->draft->laps, i));
  filled->typed = g_string_free (typed, FALSE);
  filled->reply.repeats = (const double *) repeats->data;
  filled->reply.n_repeats = repeats->len;
  filled->reply.typed = filled->typed;
  filled->reply.method = self->draft->timed ? "stopwatch" : NULL;
  filled->reply.conditions = self->draft->conditions;
}

static void
fill (PinBenchPage *self, const PinQuestion *question, Filled *filled)
{
  filled->reply.counted = self->draft->counted;
  filled->reply.of = pin_question_count (question);
  filled->reply.note = *self->draft->note != '\0' ? self->draft->note : NULL;
  filled->reply.photo = self->draft->photo;
  filled->reply.person = pin_desk_person (self->desk);
  if (question->step != NULL)
    fill_work (self, filled);
  if (pin_question_kind (question) == PIN_ANSWER_MEASURE)
    fill_reading (self, filled);
}

/* ---- sending -------------------------------------------------------------------------------- */

static void
answered (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Sent *sent = user_data;
  PinBenchPage *self = sent->page;
  g_autoptr (GError) error = NULL;

  if (!pin_desk_write_finish (PIN_DESK (source), result, &error))
    {
      set_busy (self, FALSE);
      pin_tell_error (GTK_WIDGET (self), _("The answer was not kept. Give it again:"), error);
    }
  else if (self->walk != NULL)
    {
      pin_tell_settled (GTK_WIDGET (self));
      pin_bench_page_read (self, sent->move, sent->key);
    }
  sent_free (sent);
}

static void
send (PinBenchPage *self, const PinQuestion *question, const PinReply *reply)
{
  PinBatch *batch = pin_batch_new (pin_desk_book (self->desk));
  g_autoptr (GError) error = NULL;
  gboolean correction = question->given != NULL;

  if (!pin_walk_answer (self->walk, question, reply, batch, &error))
    {
      pin_tell_error (GTK_WIDGET (self), _("Not answered:"), error);
      pin_batch_free (batch);
      return;
    }
  pin_bench_page_drop_draft_timer (self);
  set_busy (self, TRUE);
  pin_desk_write (self->desk, batch, pin_walk_car (self->walk)->id, answered,
                  sent_new (self, correction ? PIN_BENCH_BEHIND_KEY : PIN_BENCH_PAST_KEY,
                            question->key));
}

static const PinQuestion *
open_question (PinBenchPage *self)
{
  return self->busy ? NULL : pin_bench_page_question (self);
}

/* A reading that stands in the entry counts too. */
static gboolean
take_entry (PinBenchPage *self, const PinQuestion *question)
{
  g_autoptr (GError) error = NULL;

  if (pin_question_kind (question) != PIN_ANSWER_MEASURE
      || pin_measure_view_take (pin_answer_view_measure (self->answer), &error))
    return TRUE;
  pin_tell_error (GTK_WIDGET (self), _("Not answered:"), error);
  return FALSE;
}

/* What has to be there before an outcome can be given; NULL: nothing. */
static const char *
missing (PinBenchPage *self, const PinQuestion *question)
{
  const PinStep *step = question->step;

  switch (pin_question_kind (question))
    {
    case PIN_ANSWER_COUNT:
      return self->draft->counted < 0 ? _("say how many are right first, or that it was not checked.")
                                      : NULL;
    case PIN_ANSWER_MEASURE:
      return self->draft->laps->len == 0 ? _("take a reading first, or say that it was not checked.")
                                         : NULL;
    case PIN_ANSWER_WORK:
      return step != NULL && step->deeds != NULL && step->deeds[0] != NULL && step->deeds[1] != NULL
             && g_hash_table_size (self->draft->deeds) == 0
               ? _("say which work it was, above.") : NULL;
    case PIN_ANSWER_PLAIN:
    case PIN_ANSWER_CHOOSE:
    default:
      return NULL;
    }
}

static gboolean
is_complete (PinBenchPage *self, const PinQuestion *question, PinOutcome outcome)
{
  const char *what;

  if (outcome == PIN_OUTCOME_DOES_NOT_APPLY)
    return TRUE;
  if (!take_entry (self, question))
    return FALSE;
  what = missing (self, question);
  /* Work that failed need not say which work it would have been. */
  if (what == NULL || (pin_question_kind (question) == PIN_ANSWER_WORK && outcome == PIN_OUTCOME_FAIL))
    return TRUE;
  pin_tell_error (GTK_WIDGET (self), _("Not answered:"),
                  &(GError) { PIN_INSPECTION_ERROR, PIN_INSPECTION_ERROR_ANSWER, (char *) what });
  return FALSE;
}

/* An outcome key.  With grades, "unsafe" raises the fail that is chosen next. */
void
pin_bench_page_answer (PinBenchPage *self, PinOutcome outcome, gboolean unsafe)
{
  const PinQuestion *question = open_question (self);
  Filled filled = { 0 };

  if (question == NULL)
    return;
  if (outcome == PIN_OUTCOME_NOT_CHECKED)
    {
      pin_answer_view_ask_reason (self->answer, TRUE);
      return;
    }
  if (pin_question_kind (question) == PIN_ANSWER_CHOOSE && unsafe)
    {
      self->raised = !self->raised;
      pin_bench_page_mark_keys (self);
      return;
    }
  if (!is_complete (self, question, outcome))
    return;
  fill (self, question, &filled);
  filled.reply.outcome = outcome;
  filled.reply.unsafe = unsafe;
  send (self, question, &filled.reply);
  filled_clear (&filled);
}

/* A grade or a way. */
void
pin_bench_page_choose (PinBenchPage *self, const char *id)
{
  const PinQuestion *question = open_question (self);
  Filled filled = { 0 };

  if (question == NULL)
    return;
  fill (self, question, &filled);
  if (question->kind == PIN_QUESTION_WAY)
    {
      filled.reply.way = id;
      filled.reply.outcome = PIN_OUTCOME_DONE;
    }
  else
    {
      filled.reply.grade = id;
      filled.reply.unsafe = self->raised;
    }
  send (self, question, &filled.reply);
  filled_clear (&filled);
}

/* Not checked, and why. */
void
pin_bench_page_leave_out (PinBenchPage *self, const char *reason)
{
  const PinQuestion *question = open_question (self);
  g_autofree char *why = g_strdup (reason);
  Filled filled = { 0 };

  if (question == NULL)
    return;
  fill (self, question, &filled);
  filled.reply.outcome = PIN_OUTCOME_NOT_CHECKED;
  filled.reply.reason = why;
  filled.reply.deeds = NULL;
  send (self, question, &filled.reply);
  filled_clear (&filled);
}

/* Return on no key: what the reading says, or that the work is done. */
void
pin_bench_page_enter (PinBenchPage *self)
{
  const PinQuestion *question = open_question (self);
  PinOutcome proposal = pin_answer_view_proposal (self->answer);

  if (question == NULL || question->given != NULL)
    return;
  if (proposal != PIN_OUTCOME_NONE)
    pin_bench_page_answer (self, proposal, FALSE);
  else if (pin_question_kind (question) == PIN_ANSWER_WORK && question->kind != PIN_QUESTION_WAY)
    pin_bench_page_answer (self, PIN_OUTCOME_DONE, FALSE);
}

/* ---- undo ------------------------------------------------------------------------------------- */

/* Takes back the newest answer.  FALSE: there is none. */
gboolean
pin_bench_page_undo (PinBenchPage *self)
{
  PinBatch *batch;
  g_autoptr (GError) error = NULL;
  g_autofree char *key = NULL;

  if (self->walk == NULL || self->busy || pin_walk_rows (self->walk)->answers->len == 0)
    return FALSE;
  batch = pin_batch_new (pin_desk_book (self->desk));
  if (!pin_walk_undo (self->walk, pin_desk_person (self->desk), batch, &key, &error))
    {
      pin_tell_error (GTK_WIDGET (self), _("Nothing taken back:"), error);
      pin_batch_free (batch);
      return TRUE;
    }
  set_busy (self, TRUE);
  pin_desk_write (self->desk, batch, pin_walk_car (self->walk)->id, answered,
                  sent_new (self, PIN_BENCH_TO_KEY, key));
  return TRUE;
}

/* ---- the end ------------------------------------------------------------------------------------ */

static void
ended (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Sent *sent = user_data;
  PinBenchPage *self = sent->page;
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  g_autoptr (GError) error = NULL;

  set_busy (self, FALSE);
  if (!pin_desk_write_finish (PIN_DESK (source), result, &error))
    {
      pin_tell_error (GTK_WIDGET (self), _("Not kept. Try again:"), error);
    }
  else
    {
      pin_tell_done (GTK_WIDGET (self), sent->said, NULL);
      pin_bench_page_set_desk (self, self->desk);
      if (PIN_IS_WINDOW (root))
        {
          pin_window_close_bench (PIN_WINDOW (root));
          pin_window_show_vehicle (PIN_WINDOW (root), sent->vehicle);
        }
    }
  sent_free (sent);
}

static void
end (PinBenchPage *self, gboolean sign)
{
  const char *person = pin_signoff_view_person (self->signoff);
  g_autoptr (GError) error = NULL;
  PinBatch *batch;
  Sent *sent;

  if (self->walk == NULL || self->busy)
    return;
  batch = pin_batch_new (pin_desk_book (self->desk));
  if (!(sign ? pin_walk_sign (self->walk, person, batch, &error)
             : pin_walk_abandon (self->walk, person, batch, &error)))
    {
      pin_tell_error (GTK_WIDGET (self), sign ? _("Not signed:") : _("Not abandoned:"), error);
      pin_batch_free (batch);
      return;
    }
  pin_bench_page_drop_draft_timer (self);
  set_busy (self, TRUE);
  sent = sent_new (self, PIN_BENCH_TO_NEXT, NULL);
  sent->said = g_strdup_printf (sign ? _("Signed: %s, %s.") : _("Abandoned: %s, %s."),
                                pin_walk_title (self->walk), pin_walk_car (self->walk)->name);
  pin_desk_write (self->desk, batch, sent->vehicle, ended, sent);
}

void
pin_bench_page_sign (PinBenchPage *self)
{
  end (self, TRUE);
}

void
pin_bench_page_abandon (PinBenchPage *self)
{
  end (self, FALSE);
}
