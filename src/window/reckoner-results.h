#pragma once

#include <gtk/gtk.h>

#include "reckoner/reckoning.h"

/* What came out of a sum, as widgets of the reckoner's page. */

void pin_results_show_values  (GtkGrid            *grid,
                               const PinReckoning *reckoning);
void pin_results_show_tables  (GtkBox             *box,
                               const PinReckoning *reckoning);
void pin_results_show_gates   (GtkBox             *box,
                               const PinReckoning *reckoning);
void pin_results_show_working (GtkBox             *box,
                               const PinSum       *sum,
                               const PinReckoning *reckoning); /* or NULL: without numbers */
void pin_results_show_warnings(GtkBox             *box,
                               const PinReckoning *reckoning);
