#pragma once

#include "service/vehicle-view.h"

/* The lines of the vehicle page's tables; only for src/service/vehicle-view.c. */

GPtrArray *pin_part_lines       (PinLibrary       *library,
                                 const PinCar     *car,
                                 GHashTable       *marks,
                                 GPtrArray        *works,
                                 GPtrArray        *clocks);   /* PinMarkRow* */
GPtrArray *pin_layers_of        (PinLibrary       *library,
                                 GPtrArray        *parts);
GPtrArray *pin_outing_lines     (GPtrArray        *outings);
GPtrArray *pin_inspection_lines (GPtrArray        *inspections);
GPtrArray *pin_finding_lines    (PinLibrary       *library,
                                 const PinCar     *car,
                                 GPtrArray        *findings);
GPtrArray *pin_owed_lines       (PinLibrary       *library,
                                 const PinCar     *car,
                                 gint64            now);
