#pragma once

#include <libxml/tree.h>

#include "library/chassis.h"
#include "library/kinds.h"
#include "library/procedure.h"
#include "library/remarks.h"

/* From a tree that has passed the gate to plain structs.  Each reader appends
 * to @remarks what makes no sense by itself, and still returns what it could
 * read. */

PinProcedure *pin_procedure_from_doc (xmlDoc *doc, GBytes *xml, PinRemarks *remarks);
PinTeardown  *pin_teardown_from_doc  (xmlDoc *doc, GBytes *xml, PinRemarks *remarks);
PinChassis   *pin_chassis_from_doc   (xmlDoc *doc, GBytes *xml, PinRemarks *remarks);

/* Pieces that several of them share. */
PinHazardLevel pin_hazard_level_parse (const char *word);
GPtrArray     *pin_hazards_read       (const xmlNode *parent);
GPtrArray     *pin_fits_read_all      (const xmlNode *parent);
PinFits       *pin_fits_read          (const xmlNode *node);
const PinUnit *pin_unit_read          (const xmlNode *node, const char *attribute, PinRemarks *remarks);
PinMeasure    *pin_measure_read       (const xmlNode *node, PinRemarks *remarks);
char          *pin_bytes_sha          (GBytes *bytes);

/* Freeing them. */
void pin_hazard_free  (PinHazard *self);
void pin_fits_free    (PinFits *self);
void pin_measure_free (PinMeasure *self);
void pin_step_free    (PinStep *self);
void pin_stage_free   (PinStage *self);
