#pragma once

#include <glib.h>

#include "base/outcome.h"

/* The rows of the service book as plain structs.  Strings are borrowed when a
 * row is given to a batch (the batch copies them) and owned by the row when it
 * was read (free with its _free).  NULL, 0 ids and NAN mean unknown.
 *
 * A row with id 0 gets one from the book.  `replaces` names the row that this
 * one corrects; `is_void` makes it a withdrawal of that row. */

typedef struct
{
  gint64 id, thing;
  char *code, *day;
  gint64 at;                  /* instant, 0: only the day is known */
  double value;               /* canonical unit; NAN: none */
  char *text, *typed;
  char *origin;               /* default, maker, owner, measured */
  gint64 answer;
  char *person;
  gint64 replaces;
  gboolean is_void;
} PinTrait;

typedef struct
{
  gint64 id, part, place;     /* place 0: not on a vehicle, then shelf: */
  char *shelf;                /* shelf, bin, sold, lost */
  gint64 inside;              /* off the car but still in this part */
  char *day;
  gint64 at;
  gint64 answer;              /* the answer of a walk that moved it (undo), or 0 */
  char *person;
  gint64 replaces;
  gboolean is_void;
} PinFitting;

typedef struct
{
  gint64 part;
  double runs, seconds;       /* NAN: used, how much not known */
} PinOutingPart;

typedef struct
{
  gint64 id, vehicle;
  char *day;
  gint64 at;
  double seconds;             /* NAN: ran, time not known */
  double runs, litres;
  char *surface, *dirt, *water;
  int salt, knocks;           /* -1: not known */
  double ambient;             /* °C */
  char *origin, *note, *person;
  gint64 replaces;
  gboolean is_void;
  GArray *parts;              /* PinOutingPart, or NULL */
} PinOuting;

typedef struct
{
  gint64 id, vehicle;
  char *plan;                 /* JSON */
  char *lang, *day, *person;
} PinInspection;

typedef struct
{
  gint64 id, inspection;
  char *verdict;              /* signed, abandoned */
  char *day, *person;
} PinSignOff;

typedef struct
{
  gint64 id, inspection;
  char *step;                 /* "bearings/grade", "off/motor", "way/stop" */
  gint64 place, part;
  PinPhase phase;
  PinOutcome outcome;
  gboolean unsafe;
  char *detail;               /* grade id, "11/12", way, reason */
  char *note, *person;
  gint64 replaces;
  gboolean is_void;
} PinAnswer;

typedef struct
{
  gint64 id, thing, place;
  char *quantity;
  double value;               /* canonical */
  char *typed;
  GArray *repeats;            /* double, canonical, or NULL */
  char *method, *conditions;
  PinPhase phase;             /* ONLY is stored as NULL */
  gint64 answer, outing, work;
  char *day;
  gint64 at;
  char *person;
  gint64 replaces;
  gboolean is_void;
} PinReading;

typedef struct
{
  gint64 id, thing, place;
  char *deed;
  gint64 answer;
  gboolean told;              /* back-filled by the keeper … */
  char *sure;                 /* … sure, about, guess */
  char *note;
  gint64 cost;                /* minor units; -1: not known */
  char *currency, *day;
  gint64 at;
  char *person;
  gint64 replaces;
  gboolean is_void;
} PinWork;

typedef struct
{
  gint64 id, vehicle, place;
  char *what;                 /* debt id, or "job:after-wet" */
  gint64 ready_at, due_at;    /* instants, 0: none */
  gint64 cause, settles;
  char *day, *person;
  gint64 replaces;
  gboolean is_void;
} PinOwed;

typedef struct
{
  gint64 id, opens;
  char *event;                /* opened, regraded, worked, closed, accepted, withdrawn */
  gint64 vehicle, place, part;
  PinGravity gravity;
  gint64 cause;
  char *note, *day, *person;
  gint64 replaces;
  gboolean is_void;
} PinFinding;

typedef struct
{
  gint64 id;
  char *rule;
  gint64 thing;
  char *clock;
  double every;               /* NAN: paused */
  char *origin, *day, *person;
  gint64 replaces;
  gboolean is_void;
} PinOwnRule;

typedef struct
{
  gint64 id;
  char *step;
  gint64 thing;
  char *band;                 /* JSON */
  char *origin, *day, *person;
  gint64 replaces;
  gboolean is_void;
} PinOwnLimit;

typedef struct
{
  gint64 id, supply;
  double amount;
  gint64 cause, cost;         /* cost -1: not known */
  char *currency, *day, *person;
  gint64 replaces;
  gboolean is_void;
} PinStock;

typedef struct
{
  gint64 id, of;
  GBytes *jpeg;               /* upright, at most 1600 px, no metadata */
  char *caption, *day, *person;
  gint64 replaces;
  gboolean is_void;
} PinPhoto;

/* Facts to be written together or not at all. */
typedef struct _PinBatch PinBatch;
typedef struct _PinBook PinBook;

PinBatch *pin_batch_new         (PinBook *book);
void      pin_batch_free        (PinBatch *self);
gboolean  pin_batch_is_empty    (PinBatch *self);

/* Each returns the row's id. */
gint64    pin_batch_vehicle     (PinBatch *self, gint64 id, const char *chassis_sha);
gint64    pin_batch_place       (PinBatch *self, gint64 id, gint64 vehicle, const char *code,
                                 const char *kind, gint64 carrier);
gint64    pin_batch_part        (PinBatch *self, gint64 id, const char *kind, gint64 made_from);
gint64    pin_batch_supply      (PinBatch *self, gint64 id, const char *kind, const char *size,
                                 const char *name, const char *unit);
void      pin_batch_source      (PinBatch *self, const char *room, const char *code,
                                 const char *sha, GBytes *xml);
gint64    pin_batch_trait       (PinBatch *self, const PinTrait *row);
gint64    pin_batch_fitting     (PinBatch *self, const PinFitting *row);
gint64    pin_batch_outing      (PinBatch *self, const PinOuting *row);
gint64    pin_batch_inspection  (PinBatch *self, const PinInspection *row);
gint64    pin_batch_walk_plan   (PinBatch *self, gint64 inspection, const char *plan);
gint64    pin_batch_sign_off    (PinBatch *self, const PinSignOff *row);
gint64    pin_batch_answer      (PinBatch *self, const PinAnswer *row);
gint64    pin_batch_reading     (PinBatch *self, const PinReading *row);
gint64    pin_batch_work        (PinBatch *self, const PinWork *row);
gint64    pin_batch_owed        (PinBatch *self, const PinOwed *row);
gint64    pin_batch_finding     (PinBatch *self, const PinFinding *row);
gint64    pin_batch_own_rule    (PinBatch *self, const PinOwnRule *row);
gint64    pin_batch_own_limit   (PinBatch *self, const PinOwnLimit *row);
gint64    pin_batch_stock       (PinBatch *self, const PinStock *row);
gint64    pin_batch_photo       (PinBatch *self, const PinPhoto *row);
void      pin_batch_draft       (PinBatch *self, gint64 inspection, const char *state); /* NULL: delete */

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinBatch, pin_batch_free)

void pin_trait_free   (PinTrait *row);
void pin_fitting_free (PinFitting *row);
void pin_outing_free  (PinOuting *row);
void pin_answer_free  (PinAnswer *row);
void pin_reading_free (PinReading *row);
void pin_work_free    (PinWork *row);
void pin_owed_free    (PinOwed *row);
void pin_finding_free (PinFinding *row);
void pin_photo_free   (PinPhoto *row);
void pin_inspection_free (PinInspection *row);
