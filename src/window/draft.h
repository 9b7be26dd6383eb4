#pragma once

#include <glib.h>

/* What is typed and timed for a question but not answered yet.  It is kept in
 * the book as it grows, so that a power cut loses nothing. */

typedef struct
{
  char *key;                  /* of the question */
  GPtrArray *laps;            /* char*: repeats as typed or timed, "1.9 s" */
  char *typed;                /* still in the entry */
  char *note, *reason;
  int counted;                /* -1: not counted yet */
  GHashTable *deeds;          /* set of ids */
  GHashTable *specs;          /* spec id → as typed */
  GHashTable *conditions;     /* name → value */
  GBytes *photo;              /* JPEG; not kept in the draft */
  gboolean timed;             /* a lap came from the stopwatch */
} PinDraft;

PinDraft *pin_draft_new       (const char     *key);
void      pin_draft_free      (PinDraft       *self);
gboolean  pin_draft_is_blank  (const PinDraft *self);
char     *pin_draft_to_text   (const PinDraft *self);
PinDraft *pin_draft_from_text (const char     *text);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinDraft, pin_draft_free)
