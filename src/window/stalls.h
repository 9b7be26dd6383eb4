#pragma once

/* With HINGEPIN_STALLS=1 in the environment, every turn of the main loop that
 * takes longer than 8 ms is told on standard error: how long, how much of that
 * was work of its own, and what it was at when the 8 ms were over. */
void pin_stalls_watch (void);
