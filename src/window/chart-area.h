#pragma once

#include <gtk/gtk.h>

#include "reckoner/chart.h"

G_BEGIN_DECLS

/* A chart of the reckoner in the window. */

#define PIN_TYPE_CHART_AREA (pin_chart_area_get_type ())
G_DECLARE_FINAL_TYPE (PinChartArea, pin_chart_area, PIN, CHART_AREA, GtkWidget)

/* @chart: borrowed until the next call; NULL hides it. */
void pin_chart_area_set (PinChartArea   *self,
                         const PinChart *chart);

G_END_DECLS
