#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The room between the progress and the outcomes.  Its children are a scrolled
 * window with what is read (a PinBenchSheet) and one with what is answered, and
 * what is answered is always in sight:
 *
 *   words │ drawing      words │ drawing      words, scrolled
 *   answer│              answer ───────       (drawing below)
 *                                             answer
 *
 * The first of these that fits is taken, so that the drawing and the tray give
 * way before the question does.  A low page gets the class "tight". */

#define PIN_TYPE_BENCH_ROOM (pin_bench_room_get_type ())
G_DECLARE_FINAL_TYPE (PinBenchRoom, pin_bench_room, PIN, BENCH_ROOM, GtkLayoutManager)

G_END_DECLS
