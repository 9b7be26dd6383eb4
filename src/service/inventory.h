#pragma once

#include <math.h>

#include "inspection/car.h"
#include "service/deed-done.h"
#include "service/error.h"
#include "service/part-shelf.h"

/* Changes that the keeper makes, as facts.  All run on the thread that uses
 * the library; nothing here touches the book's file.  Each checks first and
 * returns FALSE (or 0) with a PIN_SERVICE_ERROR that says what to do.
 *
 * @day is a past day or today, "YYYY-MM-DD"; NULL is today. */

typedef struct
{
  const char *name;
  const char *chassis;        /* id of the type */
  double seconds, runs, litres; /* use before this book: 0 new, NAN not known */
  gboolean parts_as_old;      /* its parts have the same use behind them */
  const char *day;            /* when it came; NULL today */
  const char *acquired;       /* "new", "used", or NULL: not said */
} PinNewVehicle;

#define PIN_NEW_VEHICLE_INIT { .seconds = NAN, .runs = NAN, .litres = NAN }

/* Vehicle, its places, and the parts that such a car has, with their usual
 * sizes and spec values (origin "default": to be corrected by measuring).
 * @taken: names in use (char *, case does not matter), or NULL.
 * Returns the vehicle's id. */
gint64   pin_inventory_add_vehicle   (PinDeedDone         *done,
                                      PinLibrary          *library,
                                      const PinNewVehicle *what,
                                      GPtrArray           *taken,
                                      GError             **error);
/* Positions that the newest text of the car's type has and the car lacks, for
 * it was made from an older one; PinPosition*, borrowed from @car's type. */
GPtrArray *pin_inventory_missing_positions (const PinCar  *car);
/* Some of those, with the carriers they need and the parts that such a car has
 * there; how much use those parts have had is not known. */
gboolean pin_inventory_add_positions (PinDeedDone         *done,
                                      PinLibrary          *library,
                                      const PinCar        *car,
                                      const GPtrArray     *positions, /* PinPosition* */
                                      const char          *day,
                                      GError             **error);
gboolean pin_inventory_rename        (PinDeedDone         *done,
                                      const PinCar        *car,
                                      const char          *name,
                                      GPtrArray           *taken,
                                      GError             **error);
/* "in-use", "laid-up", "for-sale", "sold" */
gboolean pin_inventory_set_state     (PinDeedDone         *done,
                                      const PinCar        *car,
                                      const char          *state,
                                      const char          *day,
                                      GError             **error);
/* Any other set-up fact of the vehicle as a whole ("engine", "bought", "diff-ratio"…). */
gboolean pin_inventory_set_fact      (PinDeedDone         *done,
                                      const PinCar        *car,
                                      const char          *code,
                                      const char          *typed,
                                      const char          *day,
                                      GError             **error);

/* The slots that a correction of @slot may be meant for too: same kind, same
 * classes but for where on the car, same size now.  PinSlot*, @slot first. */
GPtrArray *pin_inventory_alike       (const PinCar        *car,
                                      const PinSlot       *slot);
/* @spec "size" or a spec id of the kind; @typed with or without unit, checked. */
gboolean pin_inventory_set_spec      (PinDeedDone         *done,
                                      PinLibrary          *library,
                                      const PinCar        *car,
                                      GPtrArray           *slots,    /* PinSlot* */
                                      const char          *spec,
                                      const char          *typed,
                                      const char          *day,
                                      GError             **error);

/* What happens to a part that comes off. */
typedef struct
{
  const char *old_to;         /* "bin", "shelf", "sold", "lost"; NULL: bin */
  gint64 from_shelf;          /* part that goes on; 0: a new one */
  const PinPartShelf *shelf;      /* needed with from_shelf */
  const char *size;           /* of a new one; NULL: the old one's */
  const char *day, *note;
  gint64 cost;                /* minor units; -1 not known */
  const char *currency;
} PinReplacement;

#define PIN_REPLACEMENT_INIT { .cost = -1 }

/* A part of the same kind in the place of what is there (or of nothing); what
 * the old one carries stays in the car, unless the new one brings its own (a
 * motor, an engine, or a spare with parts in it).  An old one that is gone for
 * good takes its findings with it.  Returns the id of what is fitted now. */
gint64   pin_inventory_replace       (PinDeedDone          *done,
                                      PinLibrary           *library,
                                      const PinCar         *car,
                                      const PinSlot        *slot,
                                      const PinReplacement *how,
                                      GError              **error);
/* Off to "shelf", "bin", "sold" or "lost", with all that it carries. */
gboolean pin_inventory_take_off      (PinDeedDone         *done,
                                      const PinCar        *car,
                                      const PinSlot       *slot,
                                      const char          *to,
                                      const char          *day,
                                      GError             **error);
/* To a place of another car (or the same).  What is there goes to the shelf. */
gboolean pin_inventory_move          (PinDeedDone         *done,
                                      const PinCar        *from,
                                      const PinSlot       *slot,
                                      const PinCar        *to,
                                      const PinSlot       *to_slot,
                                      const char          *day,
                                      GError             **error);

typedef struct
{
  const char *const *deeds;   /* ids, at least one */
  const char *day, *note;
  gint64 cost;                /* minor units; -1 not known */
  const char *currency;
} PinWorkDone;

#define PIN_WORK_DONE_INIT { .cost = -1 }

/* Work on chosen parts.  Open findings of them get a "worked" event; nothing
 * is closed by it.  The deed "replaced" fits new parts, old ones to the bin.
 * @slots empty or NULL: work on the vehicle as a whole. */
gboolean pin_inventory_work          (PinDeedDone         *done,
                                      PinLibrary          *library,
                                      const PinCar        *car,
                                      GPtrArray           *slots,    /* PinSlot* */
                                      const PinWorkDone   *work,
                                      GError             **error);
/* "Last done", told when a car enters the book; @sure "sure", "about", "guess". */
gboolean pin_inventory_back_fill     (PinDeedDone         *done,
                                      PinLibrary          *library,
                                      const PinCar        *car,
                                      GPtrArray           *slots,    /* PinSlot* */
                                      const char          *deed,
                                      const char          *sure,
                                      const char          *day,
                                      const char          *note,
                                      GError             **error);
/* The deeds that make sense on all of @slots: PinDeed*, transfer container. */
GPtrArray *pin_inventory_deeds       (PinLibrary          *library,
                                      GPtrArray           *slots);

gboolean pin_inventory_accept        (PinDeedDone         *done,
                                      const PinCar        *car,
                                      const PinFindingRow *finding,
                                      const char          *note,
                                      GError             **error);
/* @note: why it counts as closed; NULL: "found sound". */
gboolean pin_inventory_close         (PinDeedDone         *done,
                                      const PinCar        *car,
                                      const PinFindingRow *finding,
                                      const char          *note,
                                      GError             **error);
/* By hand only what waits for time (once it is over), for use (once the car
 * ran after it), or for the next use.  The rest is settled at the bench. */
gboolean pin_inventory_settle        (PinDeedDone         *done,
                                      PinLibrary          *library,
                                      const PinCar        *car,
                                      const PinOwed       *owed,
                                      GError             **error);
gboolean pin_inventory_may_settle    (PinLibrary          *library,
                                      const PinCar        *car,
                                      const PinOwed       *owed,
                                      GError             **error);
/* One day of use.  Before-use debts of the car are settled by it. */
gboolean pin_inventory_outing        (PinDeedDone         *done,
                                      PinLibrary          *library,
                                      const PinCar        *car,
                                      const PinOuting     *outing,   /* vehicle: @car */
                                      GError             **error);
