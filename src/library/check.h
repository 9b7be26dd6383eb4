#pragma once

#include <libxml/tree.h>

#include "library/grammar.h"
#include "library/kinds-table.h"
#include "library/library-private.h"
#include "library/remarks.h"

/* Checks of meaning, each a topic of its own.  They see a file that has passed
 * the gate, and say what makes no sense in it. */
typedef struct
{
  PinLibrary *library;
  PinRemarks *remarks;
  xmlNode *root;
  PinKindsTable *here;                /* the words of a file of kinds, else NULL */
  const PinProcedure *procedure;      /* of a procedure file, else NULL */
} PinCheck;

void pin_check_words     (PinCheck *check);
void pin_check_hazards   (PinCheck *check);
void pin_check_ids       (PinCheck *check);
void pin_check_procedure (PinCheck *check);
void pin_check_step      (PinCheck *check, const PinStep *step, gboolean in_aside);
void pin_check_limits    (PinCheck *check, const PinMeasure *measure);
void pin_check_flow      (PinCheck *check, const PinStage *stage);
void pin_check_teardown  (PinCheck *check, const PinTeardown *teardown);
void pin_check_kinds     (PinCheck *check);
void pin_check_chassis   (PinCheck *check, const PinChassis *chassis);
void pin_check_drawing   (PinCheck *check, const PinChassis *chassis);

/* Looking things up, in the file itself or on the shelf; NULL if unknown. */
gconstpointer       pin_check_word           (PinCheck *check, PinWordType type, const char *id);
const PinProcedure *pin_check_find_procedure (PinCheck *check, const char *id);

/* Circles in "this needs that first". */
typedef const char *const *(*PinNeedsFunc) (gconstpointer thing);
typedef const char *(*PinIdFunc) (gconstpointer thing);
gconstpointer pin_check_circle (const GPtrArray *things, PinIdFunc id, PinNeedsFunc needs);
