#pragma once

#include "window/list-row.h"

G_BEGIN_DECLS

/* A vehicle's row in the stable.  On "Log" it offers two fields, in which an
 * outing of today is logged with Enter. */

#define PIN_TYPE_STABLE_ROW (pin_stable_row_get_type ())
G_DECLARE_FINAL_TYPE (PinStableRow, pin_stable_row, PIN, STABLE_ROW, PinListRow)

G_END_DECLS
