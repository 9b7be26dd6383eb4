#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The key under a plan: each mark beside its word. */

#define PIN_TYPE_MARK_KEY (pin_mark_key_get_type ())
G_DECLARE_FINAL_TYPE (PinMarkKey, pin_mark_key, PIN, MARK_KEY, GtkBox)

G_END_DECLS
