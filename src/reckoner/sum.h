#pragma once

#include <glib.h>

/* What a sum is: its inputs, what comes out, how it is worked out and who says
 * so.  The page, the terminal and docs/sums.md are made from these
 * descriptions; the numbers come from the maths room. */

typedef struct _PinReckoning PinReckoning;

typedef enum
{
  PIN_INPUT_VALUE,            /* one number with a unit */
  PIN_INPUT_LIST,             /* several, by commas: "1.9 s, 2.1 s" */
  PIN_INPUT_PAIRS,            /* several pairs: "0 s:78 C, 60 s:70.5 C" */
  PIN_INPUT_CHOICE,           /* one of a few words */
  PIN_INPUT_ANY,              /* one number with any unit */
  PIN_INPUT_UNIT,             /* a unit, as typed behind a number */
} PinInputKind;

typedef struct
{
  const char *id;             /* kebab-case: "pinion" */
  const char *title;          /* in N_: "Pinion" */
  PinInputKind kind;
  const char *unit;           /* id; what a bare number is in: "1" for any value and for units */
  double least, most;         /* in that unit, both allowed */
  const char *preset;         /* as typed; NULL: has to be given; "": may be left out */
  const char *hint;           /* N_(), or NULL: where to read it off, what it means */
  const char *const *choices; /* of a choice, NULL-terminated */
  const char *second;         /* of pairs: the unit behind the colon */
  double second_least, second_most;
  int fewest, at_most;        /* of lists and pairs; 0: one, and a hundred */
  gboolean whole;             /* no fraction: teeth, cells */
} PinInput;

typedef enum
{
  PIN_OUTPUT_VALUE,           /* a number with a unit, perhaps with its uncertainty */
  PIN_OUTPUT_TEXT,
  PIN_OUTPUT_GATE,            /* met, not met or not known, and why */
  PIN_OUTPUT_TABLE,           /* rows of cells under columns */
} PinOutputKind;

typedef struct
{
  const char *id, *title;     /* kebab-case; N_(), with its unit where unit is none */
  const char *unit;           /* id; NULL for words */
  int decimals;               /* in that unit */
} PinColumn;

typedef struct
{
  const char *id, *title;
  PinOutputKind kind;
  const char *unit;
  int decimals;
  const PinColumn *columns;   /* of a table, ended by an id of NULL */
} PinOutput;

typedef struct
{
  const char *id, *title;     /* "tyre-swap", N_("Tyre swap") */
  const char *group;          /* in N_: "Gearing" */
  const char *about;          /* in N_: what it answers, a sentence */
  const PinInput *inputs;     /* ended by an id of NULL */
  const PinOutput *outputs;   /* ended by an id of NULL */
  const char *const *formulas;/* N_(), NULL-terminated: a line each, no numbers */
  const char *source;         /* in N_: who says so, and what is common practice */
  const char *validity;       /* in N_: where it holds and where not */
  const char *hazard;         /* N_(), or NULL: with its signal word first */
  void (*work) (PinReckoning *self);
} PinSum;

const PinSum *const *pin_sums      (void);  /* NULL-terminated, in the order of the list */
const PinSum        *pin_sum_find  (const char   *id);
const PinInput      *pin_sum_input (const PinSum *self,
                                    const char   *id);
const PinOutput     *pin_sum_output(const PinSum *self,
                                    const char   *id);
