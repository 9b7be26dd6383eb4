#include "gauge.h"

#include <stdio.h>

static int
by_value (gconstpointer a, gconstpointer b)
{
  const double *x = a, *y = b;

  return (*x > *y) - (*x < *y);
}

double
bench_time (BenchJob job, gpointer data, int rounds)
{
  g_autoptr (GArray) times = g_array_new (FALSE, FALSE, sizeof (double));

  job (data);
  for (int i = 0; i < rounds; i++)
    {
      gint64 begun = g_get_monotonic_time ();
      double taken;

      job (data);
      taken = (double) (g_get_monotonic_time () - begun) / 1000;
      g_array_append_val (times, taken);
    }
  g_array_sort (times, by_value);
  return g_array_index (times, double, times->len / 2);
}

/* Tabs, and numbers that no locale changes. */
void
bench_say (const char *name, double measured, const char *unit, double yardstick, const char *what)
{
  char a[G_ASCII_DTOSTR_BUF_SIZE], b[G_ASCII_DTOSTR_BUF_SIZE];

  printf ("bench\t%s\t%s\t%s\t%s\t%s\n", name, g_ascii_formatd (a, sizeof a, "%.3f", measured), unit,
          g_ascii_formatd (b, sizeof b, "%.3f", yardstick), what);
  fflush (stdout);
}
