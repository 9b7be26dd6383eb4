#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Two columns beside each other, or one under the other when there is not the
 * width: by the children's own need, so that a larger text restacks too.  The
 * first child takes @share of the width, its siblings the rest. */

#define PIN_TYPE_RESTACK (pin_restack_get_type ())
G_DECLARE_FINAL_TYPE (PinRestack, pin_restack, PIN, RESTACK, GtkLayoutManager)

/* How much larger the text is than usual, 1 or more: what is narrow or low grows
 * with it. */
double pin_text_scale (GtkWidget *widget);

G_END_DECLS
