#pragma once

#include "terminal/options.h"

/* Exit status: 0 done, 1 the work found something wrong, 2 wrong usage. */
int pin_terminal_run (const PinOptions *options);
