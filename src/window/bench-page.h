#pragma once

#include <gtk/gtk.h>

#include "window/desk.h"

G_BEGIN_DECLS

/* One walk, one question at a time. */

#define PIN_TYPE_BENCH_PAGE (pin_bench_page_get_type ())
G_DECLARE_FINAL_TYPE (PinBenchPage, pin_bench_page, PIN, BENCH_PAGE, GtkWidget)

void     pin_bench_page_set_desk (PinBenchPage *self,
                                  PinDesk      *desk);
void     pin_bench_page_show     (PinBenchPage *self,
                                  gint64        inspection);
gint64   pin_bench_page_inspection (PinBenchPage *self);
GStrv    pin_bench_page_footer   (PinBenchPage *self,
                                  const char   *kept);
gboolean pin_bench_page_undo     (PinBenchPage *self);
void     pin_bench_page_take_photo (PinBenchPage *self,
                                    const char   *path);

G_END_DECLS
