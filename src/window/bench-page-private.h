#pragma once

#include "inspection/walk.h"
#include "window/answer-view.h"
#include "window/bench-page.h"
#include "window/draft.h"
#include "window/hazard-bar.h"
#include "window/outcome-keys.h"
#include "window/plan-area.h"
#include "window/progress-strip.h"
#include "window/signoff-view.h"
#include "window/tray-view.h"

/* Where to go once the walk has been read again. */
typedef enum
{
  PIN_BENCH_TO_NEXT,          /* the first unanswered, or where the draft was left */
  PIN_BENCH_TO_KEY,           /* the question of that key */
  PIN_BENCH_PAST_KEY,         /* the first unanswered behind it */
  PIN_BENCH_BEHIND_KEY,       /* the one behind it, answered or not */
} PinBenchMove;

struct _PinBenchPage
{
  GtkWidget parent_instance;

  PinDesk *desk;              /* owned */
  gint64 inspection;          /* 0: none */
  PinWalk *walk;              /* owned; NULL until read */
  int at;                     /* the question that is shown; -1: the sign-off */
  char *wanted;               /* key to go by when the walk is read again; NULL: the next */
  PinBenchMove move;
  PinDraft *draft;            /* owned; of the question that is shown */
  gboolean raised;            /* the next fail that is chosen counts as unsafe */
  gboolean busy;              /* an answer is on its way to the disk */
  gboolean settling;          /* fields are being set, not used */
  guint draft_timer;
  GCancellable *reading;

  /* template widgets */
  PinProgressStrip *progress;
  GtkScrolledWindow *read_scroller, *answer_scroller;
  PinHazardBar *hazards;
  GtkStack *states;
  GtkBox *question, *foot;
  GtkLabel *where, *title, *place, *do_caption, *do_text, *look_caption, *look_text, *given;
  GtkEntry *person, *note;
  GtkToggleButton *note_button;
  GtkButton *photo;
  PinAnswerView *answer;
  PinSignoffView *signoff;
  PinPlanArea *plan;
  PinTrayView *tray;
  PinOutcomeKeys *keys;
};

const PinQuestion *pin_bench_page_question  (PinBenchPage *self); /* NULL at the sign-off */
void               pin_bench_page_go        (PinBenchPage *self,
                                             int           at);
void               pin_bench_page_read      (PinBenchPage *self,
                                             PinBenchMove  move,
                                             const char   *key);
void               pin_bench_page_mark_keys (PinBenchPage *self);

/* bench-show.c */
void               pin_bench_page_show_words (PinBenchPage      *self,
                                             const PinQuestion  *question);
void               pin_bench_page_show_plan (PinBenchPage       *self,
                                             const PinQuestion  *question);
void               pin_bench_page_show_keys (PinBenchPage       *self,
                                             const PinQuestion  *question);
void               pin_bench_page_show_note (PinBenchPage       *self);

/* bench-answer.c */
void               pin_bench_page_answer    (PinBenchPage *self,
                                             PinOutcome    outcome,
                                             gboolean      unsafe);
void               pin_bench_page_choose    (PinBenchPage *self,
                                             const char   *id);
void               pin_bench_page_leave_out (PinBenchPage *self,
                                             const char   *reason);
void               pin_bench_page_enter     (PinBenchPage *self);
void               pin_bench_page_sign      (PinBenchPage *self);
void               pin_bench_page_abandon   (PinBenchPage *self);
void               pin_bench_page_keep_draft(PinBenchPage *self);
void               pin_bench_page_drop_draft_timer (PinBenchPage *self);

/* bench-keys.c */
void               pin_bench_page_add_keys  (PinBenchPage *self);

/* bench-photo.c */
void               pin_bench_page_choose_photo (PinBenchPage *self);
