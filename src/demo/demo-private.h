#pragma once

#include "book/book.h"
#include "demo/demo.h"
#include "demo/dice.h"
#include "inspection/walk.h"
#include "service/inventory.h"

/* The making of the demo stable; only for src/demo. */

#define DEMO_SETS 12          /* packs and sets of tyres */

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

/* What is bought by the bag or the bottle. */
typedef enum
{
  DEMO_BEARINGS_8X16,
  DEMO_BEARINGS_BELL,
  DEMO_LIGHT_OIL,
  DEMO_GREASE,
  DEMO_DIFF_FLUID,
  DEMO_SHOCK_OIL,
  DEMO_GLOW_PLUGS,
  DEMO_PINIONS,
  DEMO_BELTS,
  DEMO_SUPPLIES,
} DemoSupply;

typedef struct
{
  PinBook *book;
  PinLibrary *library;
  char *today;
  PinDice dice;
  gint64 now;                 /* the instant that is pretended */
  gint64 cars[DEMO_CARS];     /* vehicle ids, once they came */
  gint64 supplies[DEMO_SUPPLIES];
  gint64 first_rule;          /* of the keeper's own, changed later */
  gint64 sets[DEMO_SETS];     /* parts that outings name; 0: not bought yet */
  PinBatch *pending;          /* outings not yet committed, or NULL */
} Demo;

/* An answer that the story wants, instead of a sound one. */
typedef struct
{
  const char *key;            /* pattern: "bearings/grade@hub.rear.*" */
  const char *answer;         /* grade, outcome, "unsafe:GRADE", value with unit, "11/12" */
  const char *note;           /* or the reason, if not checked */
  gboolean photo;             /* with a picture of it */
} DemoReply;

typedef struct
{
  const char *what;           /* procedure or teardown */
  const char *person;
  double wear;                /* chance that a hub bearing is found dry */
  const DemoReply *replies;   /* ended by an empty one, or NULL */
  const char *stop_at;        /* pattern of the question left open, or NULL: to the end */
  const char *begun;          /* the note already typed there, or NULL */
  const char *taken_back;     /* pattern of the answer that is corrected there, or NULL … */
  const DemoReply *instead;   /* … to this; then on to the end */
  gboolean given_up;          /* abandoned there */
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

/* demo-drawer.c: packs, sets of tyres and what is bought by the bag. */
gboolean  demo_set_is_for    (int               set,
                              DemoCar           car);
gboolean  demo_set_is_pack   (int               set);
/* What has come into the shed by today and is not there yet. */
gboolean  demo_buy           (Demo             *demo,
                              DemoCar           car,
                              GError          **error);
/* Cell by cell, of every pack there is. */
gboolean  demo_measure_packs (Demo             *demo,
                              DemoCar           car,
                              GError          **error);
/* Off the stock, for the work done on @car today as @deed. */
gboolean  demo_use           (Demo             *demo,
                              DemoCar           car,
                              const char       *deed,
                              DemoSupply        supply,
                              double            amount,
                              GError          **error);
/* A part of @kind out of a bag, or (@supply -1) from elsewhere, onto the shelf. */
gboolean  demo_spare         (Demo             *demo,
                              const char       *kind,
                              const char       *size,
                              const char       *name,
                              int               supply,
                              GError          **error);
/* demo-photo.c: one small picture, JPEG; g_bytes_unref(). */
GBytes   *demo_photo         (void);

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
  GBytes *photo;
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
/* A wet one, with what it makes due; @row without vehicle, day and parts. */
gboolean  demo_wet           (Demo             *demo,
                              DemoCar           car,
                              PinOuting        *row,
                              GError          **error);
/* demo.c */
const char *demo_teardown     (Demo             *demo,
                              const char       *otherwise);
/* stories-fast.c, stories-slow.c */
extern const DemoEvent demo_story_ann[], demo_story_seven[], demo_story_plum[],
  demo_story_kettle[], demo_story_hare[], demo_story_toast[];
/* stories-shed.c: what concerns more than one car. */
extern const DemoEvent demo_story_shed[];
