#include "window/bench-page-private.h"

/* Keys of the bench.  Letters are outcomes only outside text fields; Space is
 * kept for the stopwatch and never presses an outcome. */

static GtkWidget *
focus_of (PinBenchPage *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  return root != NULL ? gtk_root_get_focus (root) : NULL;
}

static gboolean
is_text (GtkWidget *widget)
{
  return GTK_IS_EDITABLE (widget) || GTK_IS_TEXT_VIEW (widget);
}

/* A grade, a way, an outcome, a reason: what answers. */
static gboolean
answers (GtkWidget *widget)
{
  return widget != NULL && gtk_widget_has_css_class (widget, "outcome");
}

static void
move (PinBenchPage *self, int by)
{
  g_signal_emit_by_name (self->keys, "moved", by);
}

static gboolean
on_space (PinBenchPage *self, GtkWidget *focus)
{
  PinMeasureView *measure = pin_answer_view_measure (self->answer);

  if (pin_bench_page_question (self) != NULL && pin_measure_view_has_watch (measure))
    {
      pin_measure_view_toggle (measure);
      return GDK_EVENT_STOP;
    }
  return answers (focus) ? GDK_EVENT_STOP : GDK_EVENT_PROPAGATE;
}

static const struct
{
  guint key;
  PinOutcome outcome;
  gboolean unsafe;
} letters[] = {
  { GDK_KEY_p, PIN_OUTCOME_PASS, FALSE },
  { GDK_KEY_w, PIN_OUTCOME_WATCH, FALSE },
  { GDK_KEY_f, PIN_OUTCOME_FAIL, FALSE },
  { GDK_KEY_u, PIN_OUTCOME_FAIL, TRUE },
  { GDK_KEY_n, PIN_OUTCOME_NOT_CHECKED, FALSE },
  { GDK_KEY_a, PIN_OUTCOME_DOES_NOT_APPLY, FALSE },
  { GDK_KEY_d, PIN_OUTCOME_DONE, FALSE },
};

static gboolean
fits (const PinQuestion *question, PinOutcome outcome, gboolean unsafe)
{
  gboolean work = pin_question_kind (question) == PIN_ANSWER_WORK;
  gboolean grades = pin_question_kind (question) == PIN_ANSWER_CHOOSE;

  if (question->kind == PIN_QUESTION_WAY)
    return FALSE;
  if (question->kind != PIN_QUESTION_STEP)
    return outcome == PIN_OUTCOME_DONE || outcome == PIN_OUTCOME_NOT_CHECKED;
  if (outcome == PIN_OUTCOME_DONE)
    return work;
  if (outcome == PIN_OUTCOME_PASS || outcome == PIN_OUTCOME_WATCH)
    return !work && !grades;
  if (outcome == PIN_OUTCOME_FAIL && !unsafe)
    return !grades;
  return TRUE;
}

static gboolean
on_letter (PinBenchPage *self, guint key)
{
  const PinQuestion *question = pin_bench_page_question (self);

  for (guint i = 0; question != NULL && i < G_N_ELEMENTS (letters); i++)
    if (letters[i].key == gdk_keyval_to_lower (key)
        && fits (question, letters[i].outcome, letters[i].unsafe))
      {
        pin_bench_page_answer (self, letters[i].outcome, letters[i].unsafe);
        return GDK_EVENT_STOP;
      }
  return GDK_EVENT_PROPAGATE;
}

static gboolean
on_digit (PinBenchPage *self, guint key)
{
  gunichar character = gdk_keyval_to_unicode (key);
  char text[2] = { (char) character, '\0' };

  if (character >= 128 || !(g_ascii_isdigit ((char) character) || character == '-' || character == '.'))
    return GDK_EVENT_PROPAGATE;
  return pin_answer_view_digit (self->answer, text) ? GDK_EVENT_STOP : GDK_EVENT_PROPAGATE;
}

/* Out of a text field, so that letters are keys again; out of the reasons. */
static gboolean
on_escape (PinBenchPage *self, GtkWidget *focus)
{
  if (!pin_answer_view_asks_reason (self->answer) && !is_text (focus))
    return GDK_EVENT_PROPAGATE;
  pin_answer_view_ask_reason (self->answer, FALSE);
  gtk_widget_grab_focus (GTK_WIDGET (self->question));
  return GDK_EVENT_STOP;
}

static gboolean
on_return (PinBenchPage *self, GtkWidget *focus)
{
  /* A button or an entry that has the focus knows what Return means to it. */
  if (focus != NULL && focus != GTK_WIDGET (self->question))
    return GDK_EVENT_PROPAGATE;
  pin_bench_page_enter (self);
  return GDK_EVENT_STOP;
}

static gboolean
on_key (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state, PinBenchPage *self)
{
  GtkWidget *focus = focus_of (self);
  GdkModifierType pressed = state & gtk_accelerator_get_default_mod_mask ();

  if (self->walk == NULL)
    return GDK_EVENT_PROPAGATE;
  if (pressed == GDK_ALT_MASK && (key == GDK_KEY_Left || key == GDK_KEY_Right))
    {
      move (self, key == GDK_KEY_Left ? -1 : 1);
      return GDK_EVENT_STOP;
    }
  if ((pressed & (GDK_ALT_MASK | GDK_CONTROL_MASK | GDK_SUPER_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (key == GDK_KEY_Escape)
    return on_escape (self, focus);
  if (is_text (focus))
    return GDK_EVENT_PROPAGATE;
  if (key == GDK_KEY_space)
    return on_space (self, focus);
  if (key == GDK_KEY_Return || key == GDK_KEY_KP_Enter)
    return on_return (self, focus);
  if (on_digit (self, key) == GDK_EVENT_STOP)
    return GDK_EVENT_STOP;
  return on_letter (self, key);
}

void
pin_bench_page_add_keys (PinBenchPage *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  /* In the capture phase, or a button in focus would take Space first. */
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}
