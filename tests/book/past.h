#pragma once

#include "fixture.h"

/* Random histories that touch every table of facts, and all that a book says
 * as one text, to compare two books. */

#define PAST_BEGIN G_GINT64_CONSTANT (1767225600000) /* 2026-01-01 UTC */

typedef struct _Past Past;

Past    *past_new    (Fixture  *f,
                      guint32   seed);
void     past_free   (Past     *self);
void     past_go_on  (Past     *self);          /* one batch, one second later */
gint64   past_now    (Past     *self);
gpointer past_tables (PinDb    *db,
                      gpointer  data,
                      GError  **error);         /* every row of every table of facts, and the derived ones */
gpointer past_told   (PinDb    *db,
                      gpointer  data,
                      GError  **error);         /* what the queries answer about everything */
