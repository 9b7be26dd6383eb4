#pragma once

#include "book/book.h"
#include "demo/demo.h"
#include "demo/dice.h"
#include "inspection/walk.h"
#include "service/inventory.h"

/* The making of the demo stable; only for src/demo. */

typedef enum
{
  DEMO_ANN,                   /* 1/8 nitro buggy */
  DEMO_SEVEN,                 /* 1/10 4WD buggy */
  DEMO_PLUM,                  /* touring car, belts */
  DEMO_KETTLE,                /* crawler */
  DEMO_HARE,                  /* short-course truck */
  DEMO_TOAST,                 /* 2WD buggy, bought used */
  DEMO_CARS,
} DemoCar;

typedef struct
{
  PinBook *book;
  PinLibrary *library;
  char *today;
  PinDice dice;
  gint64 now;                 /* the instant that is pretended */
  gint64 cars[DEMO_CARS];     /* vehicle ids, once they came */
  gint64 packs[2];            /* parts that are used by outings */
  PinBatch *pending;          /* outings not yet committed, or NULL */
} Demo;

/* An answer that the story wants, instead of a sound one. */
typedef struct
{
  const char *key;            /* pattern: "bearings/grade@hub.rear.*" */
  const char *answer;         /* grade, outcome, "unsafe:GRADE", value with unit, "11/12" */
  const char *note;           /* or the reason, if not checked */
} DemoReply;

typedef struct
{
  const char *what;           /* procedure or teardown */
  const char *person;
  double wear;                /* chance that a hub bearing is found dry */
  const DemoReply *replies;   /* ended by an empty one, or NULL */
  const char *stop_at;        /* pattern of the question left open, or NULL: to the end */
  const char *begun;          /* the note already typed there, or NULL */
} DemoWalk;

/* What happens on one evening. */
typedef struct
{
  int days;                   /* ago */
  DemoCar car;
  gboolean (*happen) (Demo       *demo,
                      DemoCar     car,
                      GError    **error);
} DemoEvent;

/* demo-tools.c */
gboolean  demo_go_to         (Demo             *demo,
                              int               days,
                              int               hour);
char     *demo_day           (Demo             *demo,
                              int               days);
gboolean  demo_flush         (Demo             *demo,
                              GError          **error);
PinCar   *demo_load          (Demo             *demo,
                              DemoCar           car,
                              GError          **error);
PinDeedDone *demo_begin      (Demo             *demo,
                              const char       *person);
gboolean  demo_finish        (Demo             *demo,
                              PinDeedDone      *done,
                              gboolean          ok,
                              GError          **error);
/* Slots of a kind with all the class tokens of @classes ("hub rear"). */
GPtrArray *demo_slots        (const PinCar     *car,
                              const char       *kind,
                              const char       *classes);
gboolean  demo_add           (Demo             *demo,
                              DemoCar           car,
                              const PinNewVehicle *what,
                              GError          **error);
gboolean  demo_work          (Demo             *demo,
                              DemoCar           car,
                              const char       *kind,
                              const char       *classes,
                              const char       *deed,
                              const char       *note,
                              int               cost,
                              GError          **error);
gboolean  demo_told          (Demo             *demo,
                              DemoCar           car,
                              const char       *kind,
                              const char       *classes,
                              const char       *deed,
                              const char       *sure,
                              int               days,
                              GError          **error);
gboolean  demo_spec          (Demo             *demo,
                              DemoCar           car,
                              const char       *kind,
                              const char       *classes,
                              const char       *spec,
                              const char       *typed,
                              GError          **error);
gboolean  demo_settle        (Demo             *demo,
                              DemoCar           car,
                              const char       *what,
                              GError          **error);

/* demo-walk.c */
gboolean  demo_walk          (Demo             *demo,
                              DemoCar           car,
                              const DemoWalk   *how,
                              GError          **error);
/* demo-reply.c: fills what one question is answered with. */
typedef struct
{
  PinReply reply;
  double repeats[8];
  char *typed;
  char *spec_texts[8];
  PinSpecValue specs[8];
  const char *deeds[2];
} DemoAnswer;

void      demo_answer        (Demo             *demo,
                              const PinWalk    *walk,
                              const PinQuestion *question,
                              const DemoWalk   *how,
                              DemoAnswer       *answer);
void      demo_answer_clear  (DemoAnswer       *answer);

/* demo-outings.c: days of use, as events and as rows. */
void      demo_outings       (Demo             *demo,
                              GArray           *events);  /* DemoEvent */
/* demo.c */
const char *demo_teardown     (Demo             *demo,
                              const char       *otherwise);
/* stories-fast.c, stories-slow.c */
extern const DemoEvent demo_story_ann[], demo_story_seven[], demo_story_plum[],
  demo_story_kettle[], demo_story_hare[], demo_story_toast[];
