#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* What is read at the bench: the hazards over all, and under them the words of
 * the question with the drawing beside them or, stacked, below.  Its children
 * are these three, in this order. */

#define PIN_TYPE_BENCH_SHEET (pin_bench_sheet_get_type ())
G_DECLARE_FINAL_TYPE (PinBenchSheet, pin_bench_sheet, PIN, BENCH_SHEET, GtkLayoutManager)

/* px that it wants at a width, with the drawing beside the words */
typedef struct
{
  gboolean fits;              /* there is the width for it */
  int column;                 /* width of the words */
  int words;                  /* height of hazards and words */
  int drawing;                /* height of hazards and the least drawing */
} PinBenchNeed;

void pin_bench_sheet_survey      (PinBenchSheet *self,
                                  int            width,
                                  PinBenchNeed  *need);
int  pin_bench_sheet_stacked_words (PinBenchSheet *self,
                                  int            width);
void pin_bench_sheet_set_stacked (PinBenchSheet *self,
                                  gboolean       stacked,
                                  int            fold);

G_END_DECLS
