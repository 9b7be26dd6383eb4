#pragma once

#include "book/queries.h"
#include "library/library.h"

/* One vehicle as it stands now: its chassis type's positions, the part fitted
 * at each, and what is said of them.  Rows are read on the book's thread, the
 * car is put together from them on the thread that uses the library. */

typedef struct
{
  PinVehicleRow *vehicle;
  GPtrArray *places;          /* PinPlaceRow* */
  GPtrArray *parts;           /* PinPartRow* on it */
  GPtrArray *traits;          /* PinTrait* of the vehicle and of those parts */
  GPtrArray *tray_answers;    /* PinAnswer*: the last off/… or on/… of each assembly, by id */
  GPtrArray *owed;            /* PinOwed*: open */
  GPtrArray *findings;        /* PinFindingRow*: open */
  GPtrArray *open_walks;      /* PinInspectionRow*: not ended, newest first */
  GBytes *chassis_xml;        /* as it was when the vehicle was made … */
  char *chassis_sha;          /* … or when a walk began: this text and no newer; NULL: the newest */
} PinCarRows;

typedef struct _PinSlot PinSlot;

struct _PinSlot
{
  gint64 place, part;         /* part 0: nothing fitted */
  const PinPosition *position;/* NULL if the newest chassis text lacks it */
  const PinPartRow *row;      /* NULL: nothing fitted */
  char *code, *kind, *label, *size; /* size NULL: not known */
  GHashTable *specs;          /* spec id → const PinTrait*, newest */
  PinSlot *partner, *carrier; /* NULL: none */
};

/* What is off the car, in the order that it came off. */
typedef struct
{
  const PinAssembly *assembly;/* NULL: the chassis type no longer has it */
  char *id;
  gint64 answer;              /* the off/… answer */
  char *note;
} PinTrayItem;

typedef struct
{
  PinCarRows *rows;           /* owned */
  gint64 id;
  char *name;
  PinChassis *chassis;        /* newest text of its type, else as made */
  GPtrArray *slots;           /* PinSlot*, in chassis order */
  GHashTable *by_code;        /* code → PinSlot* */
  GHashTable *by_place;       /* place id (gint64 key) → PinSlot* */
  GHashTable *by_part;        /* part id (gint64 key) → PinSlot* */
  GPtrArray *tray;            /* PinTrayItem* */
} PinCar;

PinCarRows    *pin_car_rows_load (PinDb             *db,
                                  gint64             vehicle,
                                  GError           **error);
/* The same for a walk, which also needs what was off before it began. */
PinCarRows    *pin_car_rows_of_walk (PinDb          *db,
                                  gint64             vehicle,
                                  gint64             inspection,
                                  GError           **error);
void           pin_car_rows_free (PinCarRows        *rows);
PinCar        *pin_car_new       (PinCarRows        *rows,   /* taken */
                                  PinLibrary        *library,
                                  GError           **error);
void           pin_car_free      (PinCar            *self);
PinSlot       *pin_car_slot      (const PinCar      *self,
                                  const char        *code);
PinSlot       *pin_car_slot_of_part (const PinCar   *self,
                                  gint64             part);
const PinTrait*pin_slot_spec     (const PinSlot     *slot,
                                  const char        *spec);
const PinTrait*pin_car_trait     (const PinCar      *self,
                                  const char        *code);
gboolean       pin_car_is_off    (const PinCar      *self,
                                  const char        *assembly);
/* A debt that only waits, and has waited long enough: nothing is left to do. */
gboolean       pin_owed_lapsed   (PinLibrary        *library,
                                  const PinOwed     *owed,
                                  gint64             now);
gboolean       pin_fits_car      (const PinFits     *fits,
                                  const PinCar      *car);
gboolean       pin_fits_slot     (const PinFits     *fits,
                                  const PinCar      *car,
                                  const PinSlot     *slot);
gboolean       pin_procedure_fits(const PinProcedure *procedure,
                                  const PinCar      *car);
gboolean       pin_teardown_fits (const PinTeardown *teardown,
                                  const PinCar      *car);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinCarRows, pin_car_rows_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinCar, pin_car_free)
