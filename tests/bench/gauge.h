#pragma once

#include <glib.h>

/* Timing for the benchmarks.  Each says how long something took beside a
 * yardstick: the same machine, the same run, the least that any program would
 * need for it. */

typedef void (*BenchJob) (gpointer data);

/* The median of @rounds runs, ms; one run before them is not counted. */
double bench_time (BenchJob    job,
                   gpointer    data,
                   int         rounds);
/* A line for `./dev bench`. */
void   bench_say  (const char *name,
                   double      measured,
                   const char *unit,
                   double      yardstick,
                   const char *what);
