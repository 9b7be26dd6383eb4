#pragma once

#include "library/quantity.h"
#include "maths/status.h"
#include "reckoner/reckoning.h"

/* For the work of a sum: what was given, and where the results go.  Numbers are
 * canonical on both sides.  Once something has failed, the rest of the work is
 * without effect. */

gboolean      pin_given        (const PinReckoning *self, const char *id); /* not left out */
double        pin_value        (const PinReckoning *self, const char *id); /* NAN if left out */
const GArray *pin_list         (const PinReckoning *self, const char *id); /* double; empty if left out */
const GArray *pin_list_second  (const PinReckoning *self, const char *id); /* of pairs: behind the colon */
const char   *pin_choice       (const PinReckoning *self, const char *id);
const PinUnit *pin_unit_given  (const PinReckoning *self, const char *id); /* of any value, or a unit */

void pin_result_value     (PinReckoning *self, const char *id, double value);
void pin_result_estimate  (PinReckoning *self, const char *id, double value, double uncertainty);
void pin_result_text      (PinReckoning *self, const char *id, const char *format, ...) G_GNUC_PRINTF (3, 4);
void pin_result_gate      (PinReckoning *self, const char *id, PinGate gate, const char *format, ...) G_GNUC_PRINTF (4, 5);
/* A row of a table: a double for a column with a unit, a const char* for one without. */
void pin_result_row       (PinReckoning *self, const char *id, ...);
void pin_result_mark_row  (PinReckoning *self, const char *id); /* the newest */

void pin_answer           (PinReckoning *self, const char *format, ...) G_GNUC_PRINTF (2, 3);
void pin_figures          (PinReckoning *self, int nth, const char *format, ...) G_GNUC_PRINTF (3, 4);
void pin_warn             (PinReckoning *self, const char *format, ...) G_GNUC_PRINTF (2, 3);
void pin_refuse           (PinReckoning *self, const char *format, ...) G_GNUC_PRINTF (2, 3);
/* FALSE, and the sum refused with @what ("the final drive") before the reason, if not OK. */
gboolean pin_ok           (PinReckoning *self, PinMathsStatus status, const char *what);
void pin_result_chart     (PinReckoning *self, PinChart *chart); /* (transfer full) */

/* "27.4 mm": freed with the reckoning, for figures and sentences; by the unit's id. */
const char *pin_say       (PinReckoning *self, double canonical, const char *unit, int decimals);
