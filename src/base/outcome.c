#include "base/outcome.h"

#include <glib/gi18n.h>

static const char *const outcome_words[] = {
  [PIN_OUTCOME_NONE] = "",
  [PIN_OUTCOME_PASS] = "pass",
  [PIN_OUTCOME_WATCH] = "watch",
  [PIN_OUTCOME_FAIL] = "fail",
  [PIN_OUTCOME_NOT_CHECKED] = "not-checked",
  [PIN_OUTCOME_DOES_NOT_APPLY] = "does-not-apply",
  [PIN_OUTCOME_DONE] = "done",
};

static const char *const phase_words[] = {
  [PIN_PHASE_ONLY] = "only",
  [PIN_PHASE_FOUND] = "found",
  [PIN_PHASE_LEFT] = "left",
};

static const char *const gravity_words[] = {
  [PIN_GRAVITY_NONE] = "",
  [PIN_GRAVITY_WATCH] = "watch",
  [PIN_GRAVITY_FAIL] = "fail",
  [PIN_GRAVITY_UNSAFE] = "unsafe",
};

static int
word_index (const char *const *words, size_t n, const char *word)
{
  if (word == NULL || *word == '\0')
    return -1;
  for (size_t i = 0; i < n; i++)
    if (g_str_equal (words[i], word))
      return (int) i;
  return -1;
}

const char *
pin_outcome_word (PinOutcome outcome)
{
  g_return_val_if_fail (outcome < G_N_ELEMENTS (outcome_words), "");
  return outcome_words[outcome];
}

/* The same in the reader's language. */
const char *
pin_outcome_title (PinOutcome outcome)
{
  switch (outcome)
    {
    case PIN_OUTCOME_PASS:
      return _("pass");
    case PIN_OUTCOME_WATCH:
      return _("watch");
    case PIN_OUTCOME_FAIL:
      return _("fail");
    case PIN_OUTCOME_NOT_CHECKED:
      return _("not checked");
    case PIN_OUTCOME_DOES_NOT_APPLY:
      return _("does not apply");
    case PIN_OUTCOME_DONE:
      return _("done");
    case PIN_OUTCOME_NONE:
      break;
    }
  return "";
}

/* FALSE, and *outcome untouched, for a word that is no outcome. */
gboolean
pin_outcome_parse (const char *word, PinOutcome *outcome)
{
  int i = word_index (outcome_words, G_N_ELEMENTS (outcome_words), word);

  if (i < 0)
    return FALSE;
  *outcome = i;
  return TRUE;
}

/* For "the worst is proposed": fail before watch before pass; the rest
 * weighs nothing. */
int
pin_outcome_weight (PinOutcome outcome)
{
  switch (outcome)
    {
    case PIN_OUTCOME_FAIL:
      return 3;
    case PIN_OUTCOME_WATCH:
      return 2;
    case PIN_OUTCOME_PASS:
    case PIN_OUTCOME_DONE:
      return 1;
    case PIN_OUTCOME_NONE:
    case PIN_OUTCOME_NOT_CHECKED:
    case PIN_OUTCOME_DOES_NOT_APPLY:
      break;
    }
  return 0;
}

const char *
pin_phase_word (PinPhase phase)
{
  g_return_val_if_fail (phase < G_N_ELEMENTS (phase_words), "");
  return phase_words[phase];
}

gboolean
pin_phase_parse (const char *word, PinPhase *phase)
{
  int i = word_index (phase_words, G_N_ELEMENTS (phase_words), word);

  if (i < 0)
    return FALSE;
  *phase = i;
  return TRUE;
}

const char *
pin_gravity_word (PinGravity gravity)
{
  g_return_val_if_fail (gravity < G_N_ELEMENTS (gravity_words), "");
  return gravity_words[gravity];
}

const char *
pin_gravity_title (PinGravity gravity)
{
  switch (gravity)
    {
    case PIN_GRAVITY_WATCH:
      return _("watch");
    case PIN_GRAVITY_FAIL:
      return _("fail");
    case PIN_GRAVITY_UNSAFE:
      return _("unsafe");
    case PIN_GRAVITY_NONE:
      break;
    }
  return "";
}

gboolean
pin_gravity_parse (const char *word, PinGravity *gravity)
{
  int i = word_index (gravity_words, G_N_ELEMENTS (gravity_words), word);

  if (i < 0)
    return FALSE;
  *gravity = i;
  return TRUE;
}

/* The gravity that an answer gives a finding; NONE opens none. */
PinGravity
pin_gravity_of (PinOutcome outcome, gboolean unsafe)
{
  if (outcome == PIN_OUTCOME_FAIL)
    return unsafe ? PIN_GRAVITY_UNSAFE : PIN_GRAVITY_FAIL;
  return outcome == PIN_OUTCOME_WATCH ? PIN_GRAVITY_WATCH : PIN_GRAVITY_NONE;
}
