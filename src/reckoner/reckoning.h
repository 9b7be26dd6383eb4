#pragma once

#include "reckoner/chart.h"
#include "reckoner/sum.h"

/* One sum worked out: what was put in, what came out. */

#define PIN_RECKONER_ERROR (pin_reckoner_error_quark ())
GQuark pin_reckoner_error_quark (void);

typedef enum
{
  PIN_RECKONER_ERROR_NAME,    /* no such sum, input or choice */
  PIN_RECKONER_ERROR_MISSING,
  PIN_RECKONER_ERROR_VALUE,   /* not a number, wrong unit, out of range */
  PIN_RECKONER_ERROR_NO_ANSWER, /* good values that together have no answer */
} PinReckonerError;

typedef enum { PIN_GATE_UNKNOWN, PIN_GATE_MET, PIN_GATE_NOT_MET } PinGate;

typedef struct
{
  double value;               /* canonical; NAN: words, or not known */
  char *text;                 /* words, or NULL */
} PinCell;

typedef struct
{
  const PinOutput *output;
  gboolean set;               /* FALSE: nothing came of it this time */
  double value;               /* canonical */
  double uncertainty;         /* canonical, one standard error; NAN: none is known */
  PinGate gate;
  char *text;                 /* of a text; of a gate: the figures behind it */
  GPtrArray *rows;            /* of a table: GArray* of PinCell */
  int marked;                 /* index of the row that is meant, -1: none */
} PinResult;

struct _PinReckoning
{
  const PinSum *sum;
  GPtrArray *results;         /* PinResult*, one for each output */
  char *answer;               /* a sentence */
  GPtrArray *figures;         /* char*: the formulas with the numbers put in, or NULL entries */
  GPtrArray *warnings;        /* char* */
  PinChart *chart;            /* or NULL */
  /*< private >*/
  GHashTable *given;          /* id → what was put in */
  GPtrArray *said;            /* char*, see pin_say() */
  GError *error;
};

/* @typed: id of an input → as typed; inputs that may be left out need not be
 * there.  Returns: (transfer full): NULL with PIN_RECKONER_ERROR; never a
 * result that is NaN or infinite. */
PinReckoning    *pin_reckon           (const PinSum *sum,
                                       GHashTable   *typed,
                                       GError      **error);
void             pin_reckoning_free   (PinReckoning *self);
const PinResult *pin_reckoning_result (const PinReckoning *self,
                                       const char   *id);
const PinSum    *pin_sum_named        (const char   *id,
                                       GError      **error); /* suggests the nearest */

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinReckoning, pin_reckoning_free)
