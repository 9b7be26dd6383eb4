#pragma once

#include "book/book.h"
#include "inspection/walk.h"
#include "service/inventory.h"
#include "service/stable.h"
#include "service/vehicle-view.h"

/* A book in a folder of its own and the small shelf of these tests. */
typedef struct
{
  char *folder, *path;
  PinBook *book;
  PinLibrary *library;
} Garage;

Garage         *garage_new    (void);
/* With the shipped types of car. */
Garage         *garage_new_shipped (void);
void            garage_free   (Garage        *self);
gint64          garage_add    (Garage        *self,
                               const char    *name,
                               const char    *chassis,
                               double         seconds);
PinCar         *garage_car    (Garage        *self,
                               gint64         vehicle);
PinStable      *garage_stable (Garage        *self);
PinVehicleView *garage_view   (Garage        *self,
                               gint64         vehicle);
PinPartShelf   *garage_shelf  (Garage        *self);
PinDeedDone    *garage_begin  (Garage        *self);
void            garage_commit (Garage        *self,
                               PinDeedDone   *done);
void            garage_undo   (Garage        *self,
                               PinDeedDone   *done);
void            garage_run    (Garage        *self,
                               gint64         vehicle,
                               const char    *day,
                               double         minutes);
/* Walks "look" with these answer lines, signs if @sign; the inspection's id. */
gint64          garage_walk   (Garage        *self,
                               gint64         vehicle,
                               const char *const *lines,
                               gboolean       sign);
PinWalkRows    *garage_walk_rows (Garage     *self,
                               gint64         inspection);
GPtrArray      *garage_slots  (const PinCar  *car,
                               const char    *code,
                               ...) G_GNUC_NULL_TERMINATED;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Garage, garage_free)
