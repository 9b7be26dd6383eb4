#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A strip at the foot of the window: what was done and can be undone, what
 * went wrong and what was kept, what is being worked on.  Nothing modal. */

typedef enum
{
  PIN_STRIP_DONE,
  PIN_STRIP_ERROR,
  PIN_STRIP_WORKING,
} PinStripKind;

#define PIN_TYPE_STRIP (pin_strip_get_type ())
G_DECLARE_FINAL_TYPE (PinStrip, pin_strip, PIN, STRIP, GtkBox)

typedef void (*PinStripAction) (gpointer data);

PinStrip    *pin_strip_new          (PinStripKind    kind,
                                     const char     *title,
                                     const char     *text);
PinStripKind pin_strip_kind         (PinStrip       *self);
void         pin_strip_add_button   (PinStrip       *self,
                                     const char     *label,
                                     const char     *key,
                                     PinStripAction  action,
                                     gpointer        data,
                                     GDestroyNotify  data_free);
void         pin_strip_set_progress (PinStrip       *self,
                                     double          share);
void         pin_strip_close        (PinStrip       *self);

G_END_DECLS
