#pragma once

#include "inspection/own-limits.h"
#include "inspection/walk.h"

/* A text lent to a row for a batch, which copies it. */
#define PIN_LEND(text) ((char *) (text))

/* The plan of a walk as kept in the book: which texts, in which order. */
typedef struct
{
  char *what, *title;
  GPtrArray *procedures;      /* char*: sha of each procedure walked */
  GPtrArray *settlers;        /* char*: sha of each procedure that may settle a debt */
  char **order;               /* "procedure/stage" */
  char **debts;               /* owed and payable when the walk began */
  GPtrArray *kinds;           /* char*: sha of each file of kinds; empty: not kept */
  char *chassis;              /* sha; NULL: not kept */
} PinPlanText;

struct _PinWalk
{
  /* owned */
  PinWalkRows *rows;
  PinCar *car;
  PinPlanText *plan;
  GPtrArray *procedures;      /* PinProcedure* walked */
  GPtrArray *settlers;        /* PinProcedure* that may settle debts */
  GPtrArray *order;           /* PinStageRef* */
  GPtrArray *questions;       /* PinQuestion* */
  GPtrArray *groups;          /* PinWalkGroup* */
  GPtrArray *owed;            /* PinOwedItem* */
  int next;

  PinLibrary *words;          /* of other kinds than the shelf's now; NULL: the same */
  PinOwnLimits *own_limits;

  /* borrowed */
  PinLibrary *library;        /* @words, if there are any */
};

PinPlanText  *pin_plan_text_parse  (const char         *json,
                                    GError            **error);
char         *pin_plan_text_write  (const PinPlanText  *plan);
void          pin_plan_text_free   (PinPlanText        *plan);

void          pin_walk_expand      (PinWalk            *self);
void          pin_question_free    (PinQuestion        *question);
void          pin_walk_group_free  (PinWalkGroup       *group);
PinOwedItem  *pin_owed_item_new    (PinLibrary         *library,
                                    const PinCar       *car,
                                    const PinOwed      *row);
void          pin_owed_item_free   (PinOwedItem        *item);

/* "bearings/grade@hub.front.left.outer!left" */
char         *pin_answer_key       (const char         *stored,
                                    const char         *code,
                                    PinPhase            phase);
/* "this inspection was signed off", for a sentence that says what to do. */
const char   *pin_walk_ended_words (const PinWalk      *self);
const char   *pin_step_base        (const PinStep      *step);
PinPhase      pin_step_phase       (const PinStep      *step);
gboolean      pin_step_settles     (PinLibrary         *library,
                                    const PinProcedure *procedure,
                                    const PinStep      *step,
                                    const char         *debt);
char         *pin_walk_known_conditions (const PinWalk *self,
                                    const PinMeasure   *measure,
                                    GHashTable         *told);
const PinStep *pin_settling_step   (const PinWalk      *self,
                                    const char         *debt,
                                    PinProcedure      **procedure,
                                    const PinStage    **stage);

/* Facts that undoing and correcting an answer have in common. */
void          pin_walk_withdraw    (const PinWalk      *self,
                                    const PinAnswer    *answer,
                                    const char         *person,
                                    PinBatch           *batch);
const PinFindingRow *pin_walk_finding (const PinWalk   *self,
                                    const char         *stored,
                                    gint64              part,
                                    gint64              place);
