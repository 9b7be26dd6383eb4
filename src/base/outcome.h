#pragma once

#include <glib.h>

/* What a check came to.  The words are the book's, the files' and the
 * interface's alike; see docs/words.md. */
typedef enum
{
  PIN_OUTCOME_NONE,           /* not answered: never looks like a pass */
  PIN_OUTCOME_PASS,
  PIN_OUTCOME_WATCH,
  PIN_OUTCOME_FAIL,
  PIN_OUTCOME_NOT_CHECKED,    /* with a reason */
  PIN_OUTCOME_DOES_NOT_APPLY,
  PIN_OUTCOME_DONE,           /* work, taking off, refitting, waits, ways */
} PinOutcome;

/* When in the work a question is asked. */
typedef enum
{
  PIN_PHASE_ONLY,             /* asked once, no before and after */
  PIN_PHASE_FOUND,
  PIN_PHASE_LEFT,
} PinPhase;

/* How heavy a finding is, in rising order. */
typedef enum
{
  PIN_GRAVITY_NONE,
  PIN_GRAVITY_WATCH,
  PIN_GRAVITY_FAIL,
  PIN_GRAVITY_UNSAFE,
} PinGravity;

const char *pin_outcome_word    (PinOutcome   outcome);
const char *pin_outcome_title   (PinOutcome   outcome);   /* for people: "not checked" */
gboolean    pin_outcome_parse   (const char  *word,
                                 PinOutcome  *outcome);
int         pin_outcome_weight  (PinOutcome   outcome);
const char *pin_phase_word      (PinPhase     phase);
gboolean    pin_phase_parse     (const char  *word,
                                 PinPhase    *phase);
const char *pin_gravity_word    (PinGravity   gravity);
const char *pin_gravity_title   (PinGravity   gravity);
gboolean    pin_gravity_parse   (const char  *word,
                                 PinGravity  *gravity);
PinGravity  pin_gravity_of      (PinOutcome   outcome,
                                 gboolean     unsafe);
