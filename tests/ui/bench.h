#pragma once

#include "ui/ui.h"

/* The bench page, driven as a person would drive it: the question is read from
 * the page, answered by what the page offers for it, by keys or by buttons, and
 * taken as kept only when the page has moved on. */

typedef struct
{
  PinUi *ui;                  /* borrowed */
  PinThing *page, *box;       /* owned; of the window as it runs */
  gboolean by_buttons;        /* press what is pressed; else the keys of the keyboard */
  guint kept;                 /* answers that the window has shown as kept */
} PinBench;

/* What to answer where.  The first that fits is taken; without one: the first
 * choice that is a pass, all screws right, a reading judged as pass, the work done. */
typedef struct
{
  const char *key;            /* "bearings/grade@hub.*"; "#2" behind it: asked the second time */
  const char *answer;         /* as the window words it, with * and ?: "Fail", "Stuck*"; or NULL */
  const char *text;           /* readings by commas, a count, a reason, what is asked for; or NULL */
  const char *note;           /* or NULL */
} PinBenchPlan;               /* a list ends with { NULL } */

/* What stands on the page. */
typedef struct
{
  char *key, *title, *place, *where;
  int step, of;               /* of the whole walk; 0: at the sign-off */
  GPtrArray *offered;         /* char*: answers by name, choices first */
} PinBenchView;

/* Waits for the page.  A new one is needed when the program was started anew. */
PinBench     *pin_bench_new_at       (const char         *where,
                                      PinUi              *ui);
#define pin_bench_new(ui) pin_bench_new_at (G_STRLOC, ui)
void          pin_bench_free         (PinBench           *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinBench, pin_bench_free)

/* "sign-off" behind the last question; "" while it is read.  Free with g_free(). */
char         *pin_bench_key          (PinBench           *self);
void          pin_bench_wait_key_at  (const char         *where,
                                      PinBench           *self,
                                      const char         *key);
#define pin_bench_wait_key(self, key) pin_bench_wait_key_at (G_STRLOC, self, key)
PinBenchView *pin_bench_view         (PinBench           *self);
void          pin_bench_view_free    (PinBenchView       *view);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinBenchView, pin_bench_view_free)

/* Gives the answer without waiting for anything. */
void          pin_bench_give_at      (const char         *where,
                                      PinBench           *self,
                                      const PinBenchPlan *plan);
#define pin_bench_give(self, plan) pin_bench_give_at (G_STRLOC, self, plan)
/* Answers the question that stands there and waits until the page moved on. */
void          pin_bench_answer_at    (const char         *where,
                                      PinBench           *self,
                                      const PinBenchPlan *plan);
#define pin_bench_answer(self, plan) pin_bench_answer_at (G_STRLOC, self, plan)
/* Answers until the question matches @stop, which may be "sign-off"; how many. */
guint         pin_bench_walk_at      (const char         *where,
                                      PinBench           *self,
                                      const PinBenchPlan *plan,
                                      const char         *stop);
#define pin_bench_walk(self, plan, stop) pin_bench_walk_at (G_STRLOC, self, plan, stop)
/* Until a strip below the pages says so. */
void          pin_bench_wait_message_at (const char      *where,
                                      PinBench           *self,
                                      const char         *pattern);
#define pin_bench_wait_message(self, pattern) pin_bench_wait_message_at (G_STRLOC, self, pattern)
/* Signs at the sign-off and waits until the window says so. */
void          pin_bench_sign_at      (const char         *where,
                                      PinBench           *self,
                                      const char         *person);
#define pin_bench_sign(self, person) pin_bench_sign_at (G_STRLOC, self, person)

/* From the vehicle's page: chooses the inspection from the menu. */
PinBench     *pin_bench_begin_at     (const char         *where,
                                      PinUi              *ui,
                                      const char         *title);
#define pin_bench_begin(ui, title) pin_bench_begin_at (G_STRLOC, ui, title)
