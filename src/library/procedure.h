#pragma once

#include <glib.h>

#include "base/outcome.h"
#include "library/quantity.h"

/* An inspection text: stages of steps, read from XML.  Everything is owned by
 * the PinProcedure; strings are never NULL where the grammar requires them,
 * and lists of ids are never NULL, though they may be empty, but for those of
 * PinFits, where NULL stands for any. */

typedef enum
{
  PIN_HAZARD_NOTICE,
  PIN_HAZARD_CAUTION,
  PIN_HAZARD_WARNING,
  PIN_HAZARD_DANGER,
} PinHazardLevel;

typedef struct
{
  PinHazardLevel level;
  char *about;                /* "fuel", "spinning-parts" … */
  char *text;
} PinHazard;

typedef struct                /* applies to vehicles or parts that … */
{
  char **power, **drive, **scale, **surface;
  char **part;                /* … have a part of this kind */
  char *filled;               /* "yes": … whose spec says so */
} PinFits;

typedef struct
{
  char *id;
  PinOutcome outcome;
  gboolean unsafe;
  char *text;
} PinGrade;

typedef enum
{
  PIN_AGAINST_PLAIN,
  PIN_AGAINST_BASELINE,
  PIN_AGAINST_NEW,
  PIN_AGAINST_PARTNER,
  PIN_AGAINST_LAST_FILL,
} PinAgainst;

typedef struct
{
  double min, max;            /* NAN: open.  Canonical; or a share if relative */
  gboolean relative;          /* min, max are shares of what it is held against:
                                 so are values in % when there is such a thing */
  double within;              /* NAN: not used.  Canonical; most difference … */
  gboolean within_share;      /* … or a share of the reference */
} PinBand;

typedef struct
{
  char *evidence;             /* "published", "common-practice", "memory" */
  char *scale, *power, *surface; /* NULL: any */
  PinAgainst against;
  PinBand pass;
  PinBand watch;
  gboolean has_watch;         /* else: all outside pass fails */
  int line;
} PinLimits;

typedef enum { PIN_TAKE_MEDIAN, PIN_TAKE_MEAN, PIN_TAKE_MIN, PIN_TAKE_MAX } PinTake;

typedef struct
{
  char *quantity;
  const PinUnit *unit;
  int repeat;                 /* 1 or more */
  PinTake take;
  char **conditions;          /* names to be noted with the reading */
  GPtrArray *limits;          /* PinLimits* */
} PinMeasure;

typedef struct
{
  char **grades;              /* one of these, or … */
  PinOutcome outcome;         /* … this outcome (NONE: not used) */
  char *go;                   /* aside or earlier step of the stage, or NULL */
  char *opens;                /* job, or NULL */
  int most;                   /* 0: no bound */
  char *otherwise;            /* attribute else: where to go past the bound */
  int line;
} PinBranch;

typedef struct
{
  char *spec;
  const PinUnit *unit;        /* NULL: words */
} PinAsk;

typedef struct
{
  char *supply;               /* or NULL */
  double amount;              /* in … */
  char *unit;                 /* "ml", "piece", "" */
  char *part;                 /* "same-size", or NULL */
} PinUses;

typedef enum
{
  PIN_ANSWER_PLAIN,           /* pass, watch, fail */
  PIN_ANSWER_WORK,            /* has deeds and no question: done */
  PIN_ANSWER_CHOOSE,
  PIN_ANSWER_MEASURE,
  PIN_ANSWER_COUNT,
} PinAnswerKind;

typedef struct
{
  char *id;
  char *title;                /* NULL: the interface makes one from do */
  char *each;                 /* part kind, or NULL */
  char **where;               /* classes that all must match; may be empty */
  gboolean pair;
  PinPhase phase;
  char *again;                /* the step that it asks once more, or NULL: then each,
                                 where, pair, fits, hazards, texts, drawing, answer
                                 and branches are that step's, unless said here */
  int most;                   /* 0: no bound */
  char *owes;
  gboolean owed_before_use;
  char *settles;
  PinFits *fits;              /* NULL: always */
  GPtrArray *hazards;         /* PinHazard* */
  GPtrArray *asks;            /* PinAsk* */
  char *do_text, *look_for;   /* NULL: none */
  char *drawing;
  GPtrArray *uses;            /* PinUses* */
  PinAnswerKind answer;       /* of an again step: that of the step it repeats */
  GPtrArray *grades;          /* PinGrade*, PIN_ANSWER_CHOOSE */
  PinMeasure *measure;        /* PIN_ANSWER_MEASURE */
  char *count_of;             /* PIN_ANSWER_COUNT: "12", or "fasteners" = the group's count */
  char **deeds;               /* ids; several: the person says which */
  GPtrArray *branches;        /* PinBranch* */
  int line;
} PinStep;

typedef struct
{
  char *id;
  double minutes;
  char *text;
} PinWait;

typedef struct
{
  char *id;
  char *title;
  char *because;              /* NULL: none */
  GPtrArray *steps;           /* PinStep* */
} PinWay;

typedef struct
{
  char *id;
  char *by;                   /* "vehicle" or "spec:cap" */
  GPtrArray *ways;            /* PinWay* */
} PinWays;

typedef enum { PIN_ITEM_STEP, PIN_ITEM_WAIT, PIN_ITEM_WAYS } PinItemKind;

typedef struct
{
  PinItemKind kind;
  union { PinStep *step; PinWait *wait; PinWays *ways; };
} PinItem;

typedef struct
{
  char *id;
  char **off, **on;
  GPtrArray *items;           /* PinItem*: steps and waits */
  char *go;                   /* aside or step to go on with, or NULL: back */
  int line;
} PinAside;

typedef struct
{
  char *id;
  char *title;                /* NULL: none */
  char **off, **on, **intact; /* assemblies */
  char **after;               /* stages; "other-procedure/stage" in teardowns */
  PinFits *fits;
  GPtrArray *items;           /* PinItem* in order */
  GPtrArray *asides;          /* PinAside* */
  int line;
} PinStage;

typedef struct
{
  char *id;
  int revision;
  char *title, *purpose;
  GPtrArray *fits;            /* PinFits*: any of these; empty: every vehicle */
  char *begin_within, *begin_of; /* "30 min" "last-tank", or NULL */
  double hands_minutes, wait_minutes;
  char **needs;               /* tools */
  GPtrArray *hazards;         /* PinHazard* */
  GPtrArray *stages;          /* PinStage* */
  char *path;
  GBytes *xml;
  char *sha;
} PinProcedure;

typedef struct
{
  char *id;
  int revision;
  char *title, *purpose;
  GPtrArray *fits;            /* PinFits* */
  char **takes;               /* procedure ids */
  char **order;               /* "procedure/stage" */
  char *path;
  GBytes *xml;
  char *sha;
} PinTeardown;

PinProcedure   *pin_procedure_read    (GBytes              *xml,
                                       const char          *path,
                                       GError             **error);
PinProcedure   *pin_procedure_ref     (PinProcedure        *self);
void            pin_procedure_unref   (PinProcedure        *self);
const PinStage *pin_procedure_stage   (const PinProcedure  *self,
                                       const char          *id);
const PinAside *pin_stage_aside       (const PinStage      *self,
                                       const char          *id);
const PinStep  *pin_procedure_step    (const PinProcedure  *self,
                                       const char          *id,
                                       const PinStage     **stage);
PinTeardown    *pin_teardown_read     (GBytes              *xml,
                                       const char          *path,
                                       GError             **error);
PinTeardown    *pin_teardown_ref      (PinTeardown         *self);
void            pin_teardown_unref    (PinTeardown         *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinProcedure, pin_procedure_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinTeardown, pin_teardown_unref)
