#pragma once

#include "book/book.h"
#include "book/traces.h"
#include "inspection/car.h"
#include "inspection/judge.h"
#include "inspection/order.h"

/* One walk: a procedure or a teardown on one vehicle.  The walk's state is the
 * replay of its answers: pin_walk_new() from the rows of the book gives the
 * same questions, in the same order, with the same one next, every time.
 * Nothing here writes: replies become facts in a PinBatch; when the book has
 * acknowledged them, the rows are read again and the walk is made anew. */

typedef enum
{
  PIN_QUESTION_STEP,
  PIN_QUESTION_OFF,           /* take an assembly off */
  PIN_QUESTION_ON,            /* refit it */
  PIN_QUESTION_WAIT,
  PIN_QUESTION_WAY,           /* which of the accepted practices */
} PinQuestionKind;

typedef struct
{
  PinQuestionKind kind;
  char *key;                  /* "bearings/grade@hub.front.left.outer!left" */
  char *stored;               /* as in the book: "bearings/grade", "off/motor" */
  PinPhase phase;
  const PinProcedure *procedure; /* NULL for off and on */
  const PinStage *stage;      /* NULL: off, on, settling */
  const PinStep *step;
  const PinAssembly *assembly;
  const PinWait *wait;
  const PinWays *ways;
  PinSlot *slot;              /* NULL: of the whole vehicle */
  GPtrArray *slots;           /* PinSlot*: a way or wait for several; or NULL */
  int attempt;                /* 1, 2 … of this key */
  const PinAnswer *given;     /* NULL: not answered */
  int group;                  /* index into groups */
  gboolean reached;           /* asked now or before; the rest is a forecast */
  gboolean settling;          /* asked because something is owed */
  gboolean opened_before;     /* as found, but what it looks at was opened already */
} PinQuestion;

typedef struct
{
  char *title;                /* of the stage, for the progress strip */
  int first, n;               /* questions */
} PinWalkGroup;

typedef struct
{
  gint64 id;                  /* of the owed row */
  char *what, *title;         /* "mesh", "set the mesh" */
  char *of;                   /* "motor": what was opened, or NULL */
  PinPayable payable;
  gboolean job;
  gint64 ready_at, due_at;
  char *day;
} PinOwedItem;

typedef struct
{
  PinCarRows *car;
  PinInspectionRow *inspection;
  GPtrArray *answers;         /* PinAnswer*, live, by id */
  GPtrArray *readings;        /* PinReading* of the vehicle */
  GPtrArray *works;           /* PinWork* */
  GPtrArray *own_limits;      /* PinOwnLimit*: all that there ever were, by id */
  GHashTable *corrected;      /* gint64* → gint64*: the answer that an answer took the place of */
  GHashTable *sources;        /* sha → GBytes */
  GHashTable *passed;         /* set of gint64*: answers of this vehicle that passed */
  PinTraces *traces;          /* what the answers of this walk brought */
  char *draft;                /* or NULL */
  gint64 last_outing;         /* id, 0: none */
} PinWalkRows;

typedef struct _PinWalk PinWalk;

PinWalkRows       *pin_walk_rows_load (PinDb              *db,
                                       gint64              inspection,
                                       GError            **error);
void               pin_walk_rows_free (PinWalkRows        *rows);
PinWalk           *pin_walk_new       (PinWalkRows        *rows,   /* taken */
                                       PinLibrary         *library,
                                       GError            **error);
void               pin_walk_free      (PinWalk            *self);

/* Fills @batch with what begins a walk of procedure or teardown @what on
 * @car; returns the inspection's id, 0 on error. */
gint64             pin_walk_begin     (PinBatch           *batch,
                                       PinLibrary         *library,
                                       const PinCar       *car,
                                       const char         *what,
                                       const char         *person,
                                       GError            **error);

/* The walk as it would be, with nothing in the book; takes @car. */
PinWalk           *pin_walk_preview   (PinLibrary         *library,
                                       PinCar             *car,
                                       const char         *what,
                                       GError            **error);

gint64             pin_walk_id        (const PinWalk      *self);
const PinCar      *pin_walk_car       (const PinWalk      *self);
/* The words that this walk was begun with; not the shelf's, if that has others now. */
PinLibrary        *pin_walk_library   (const PinWalk      *self);
const PinWalkRows *pin_walk_rows      (const PinWalk      *self);
const char        *pin_walk_title     (const PinWalk      *self);
const char        *pin_walk_what      (const PinWalk      *self);   /* procedure or teardown id */
GPtrArray         *pin_walk_procedures(const PinWalk      *self);   /* PinProcedure*, borrowed */
const GPtrArray   *pin_walk_questions (const PinWalk      *self);   /* PinQuestion* */
const GPtrArray   *pin_walk_groups    (const PinWalk      *self);   /* PinWalkGroup* */
int                pin_walk_next      (const PinWalk      *self);   /* first unanswered; -1: all answered */
int                pin_walk_find      (const PinWalk      *self,
                                       const char         *key);    /* first unanswered of that key, else last answered; -1 */
const GPtrArray   *pin_walk_tray      (const PinWalk      *self);   /* PinTrayItem* */
const GPtrArray   *pin_walk_owed      (const PinWalk      *self);   /* PinOwedItem* */
double             pin_walk_minutes_spent (const PinWalk  *self);
double             pin_walk_minutes_left  (const PinWalk  *self);

/* For a measuring step: what it is held against, and what @value says. */
PinReferences      pin_walk_references(const PinWalk      *self,
                                       const PinQuestion  *question);
/* What the reading just given says by the keeper's own limit: NONE if the last
 * answer has no reading, or no limit of the keeper's bears on it. */
PinOutcome         pin_walk_own_word  (const PinWalk      *self,
                                       const PinQuestion **question);
/* Conditions text of the reading ("ambient=21;wheels=off"), sorted. */
char              *pin_conditions_text(GHashTable         *conditions);
/* What the question is called and asks: strings for any view; g_free(). */
char              *pin_question_title (const PinWalk      *self,
                                       const PinQuestion  *question);
char              *pin_question_place (const PinQuestion  *question); /* "front left hub, outer", or "" */
char              *pin_question_do    (const PinQuestion  *question);
const char        *pin_question_look_for (const PinQuestion *question);
GPtrArray         *pin_question_hazards (const PinWalk    *self,
                                       const PinQuestion  *question); /* PinHazard*, heaviest first */
char              *pin_question_expects (const PinWalk    *self,
                                       const PinQuestion  *question); /* "free|dry|gritty" for --list */
PinAnswerKind      pin_question_kind  (const PinQuestion  *question);
int                pin_question_count (const PinQuestion  *question); /* screws of the group; 0: not a count */

typedef struct
{
  PinOutcome outcome;         /* for CHOOSE may be NONE: the grade says it */
  gboolean unsafe;            /* a fail raised by the person */
  const char *grade;          /* CHOOSE */
  int counted;                /* COUNT: how many are right; -1: not a count */
  int of;                     /* COUNT: of how many */
  const char *way;            /* WAY */
  const char *reason;         /* not checked: why */
  const double *repeats;      /* MEASURE, canonical */
  guint n_repeats;
  const char *typed;          /* as typed: "1.9, 1.7, 1.8 s" */
  const char *method;
  GHashTable *conditions;     /* name → value, or NULL */
  const char *const *deeds;   /* NULL: all of the step's if it has one only */
  const PinSpecValue *specs;  /* answers to <ask> */
  guint n_specs;
  const char *note;
  GBytes *photo;              /* JPEG, ready to keep, or NULL */
  const char *person;
} PinReply;

/* Turns a reply into facts: answer, readings, work, parts replaced, set-up,
 * debts, jobs, and an unsafe finding at once.  If the question was answered
 * already this is a correction, which withdraws what the old answer brought.
 * FALSE and nothing in @batch if the reply does not fit. */
gboolean           pin_walk_answer    (const PinWalk      *self,
                                       const PinQuestion  *question,
                                       const PinReply     *reply,
                                       PinBatch           *batch,
                                       GError            **error);
/* FALSE with a reason if @question cannot be answered yet. */
gboolean           pin_walk_may_answer(const PinWalk      *self,
                                       const PinQuestion  *question,
                                       GError            **error);
/* Withdraws the newest answer of the walk and all that it brought. */
gboolean           pin_walk_undo      (const PinWalk      *self,
                                       const char         *person,
                                       PinBatch           *batch,
                                       char              **undone_key,
                                       GError            **error);

/* What signing would do. */
typedef enum
{
  PIN_CHANGE_OPENED,
  PIN_CHANGE_REGRADED,
  PIN_CHANGE_CLOSED,
  PIN_CHANGE_STAYS,           /* passes now, but no work and no note: stays open */
  PIN_CHANGE_SAME,            /* still there, as heavy as it was */
} PinChangeKind;

typedef struct
{
  PinChangeKind kind;
  gint64 finding;             /* 0: a new one */
  const PinAnswer *answer;
  PinGravity gravity;
  char *text;                 /* "front left hub, outer: Sandy all round" */
} PinChange;

typedef struct
{
  GPtrArray *changes;         /* PinChange* */
  GPtrArray *blockers;        /* char*: sentences; empty: may be signed */
  GPtrArray *still_owed;      /* char*: signed as still owed */
  int passed, watched, failed, unsafe, not_checked, does_not_apply, done, unanswered;
} PinClosing;

PinClosing        *pin_walk_closing   (const PinWalk      *self);
void               pin_closing_free   (PinClosing         *closing);
gboolean           pin_walk_sign      (const PinWalk      *self,
                                       const char         *person,
                                       PinBatch           *batch,
                                       GError            **error);
gboolean           pin_walk_abandon   (const PinWalk      *self,
                                       const char         *person,
                                       PinBatch           *batch,
                                       GError            **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinWalk, pin_walk_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinWalkRows, pin_walk_rows_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinClosing, pin_closing_free)
