#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The cells of the footer in a row.  Where there is not the width for all, they
 * give way from the lightest to the heaviest: each is cut short first, and goes
 * when nothing of it could be read. */

#define PIN_TYPE_FOOTER_LAYOUT (pin_footer_layout_get_type ())
G_DECLARE_FINAL_TYPE (PinFooterLayout, pin_footer_layout, PIN, FOOTER_LAYOUT, GtkLayoutManager)

void pin_footer_set_weight (GtkWidget *cell,
                            int        weight);

G_END_DECLS
