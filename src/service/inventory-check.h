#pragma once

#include "service/inventory.h"

/* What the changes of the inventory share; only for src/service/inventory-*.c. */

char    *pin_check_day        (const char    *day,
                               GError       **error);   /* NULL: no good; today for NULL */
gint64   pin_instant_on       (const char    *day);     /* now if today, else 0 */
gboolean pin_check_slots      (GPtrArray     *slots,
                               GError       **error);
gboolean pin_check_name       (const char    *name,
                               GPtrArray     *taken,
                               const char    *own,
                               char         **clean,
                               GError       **error);
/* "rear left hub, outer", "rear left hub, outer, and 3 more" */
char    *pin_slots_text       (GPtrArray     *slots);
/* Slots whose part sits in the part of @slot: PinSlot*. */
GPtrArray *pin_slots_carried  (const PinCar  *car,
                               const PinSlot *slot);
void     pin_findings_event   (PinDeedDone   *done,
                               const PinCar  *car,
                               gint64         part,
                               const char    *event,
                               gint64         cause,
                               const char    *note,
                               const char    *day);
/* A spec value as a trait of @thing; FALSE if it cannot be read. */
gboolean pin_write_spec       (PinDeedDone   *done,
                               PinLibrary    *library,
                               gint64         thing,
                               const char    *spec,
                               const char    *typed,
                               const char    *origin,
                               const char    *day,
                               GError       **error);
void     pin_write_used       (PinDeedDone   *done,
                               gint64         thing,
                               const char    *code,
                               double         value,
                               const char    *day);
