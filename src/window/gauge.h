#pragma once

#include <gtk/gtk.h>

#include "inspection/judge.h"

G_BEGIN_DECLS

/* A reading on a line with its limits: what passes, what is to be watched,
 * what fails. */

#define PIN_TYPE_GAUGE (pin_gauge_get_type ())
G_DECLARE_FINAL_TYPE (PinGauge, pin_gauge, PIN, GAUGE, GtkWidget)

/* @repeats and @value in the canonical unit; NAN: none yet. */
void pin_gauge_set (PinGauge          *self,
                    const PinProposal *proposal,
                    const PinUnit     *unit,
                    int                decimals,
                    double             value,
                    const double      *repeats,
                    guint              n_repeats);

G_END_DECLS
