#pragma once

#include "inspection/walk.h"

/* The text form of a walk, for the terminal and for tests:
 * key<TAB>answer[<TAB>deed=…][<TAB>note=…][<TAB>reason=…][<TAB>by=…]
 * [<TAB>ask.SPEC=…][<TAB>outcome=…][<TAB>condition.NAME=…] */

char     *pin_answers_blank (const PinWalk  *walk);
/* One line onto the walk: fills @batch; TRUE also for blank and comment lines
 * (then *is_nothing).  A sign-off line gives *sign_by. */
gboolean  pin_answers_line  (const PinWalk  *walk,
                             const char     *line,
                             const char     *person,
                             PinBatch       *batch,
                             gboolean       *is_nothing,
                             char          **sign_by,
                             GError        **error);
