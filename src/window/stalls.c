#define _GNU_SOURCE
#include "window/stalls.h"

#include <execinfo.h>
#include <glib.h>
#include <signal.h>
#include <time.h>
#include <unistd.h>

#define PATIENCE_NS 8000000
#define MOST_FRAMES 96

static timer_t timer;
static GPollFunc poll_before;
static gint64 begun, worked;   /* ns: when this turn began, and work done by then */

static gint64
clock_ns (clockid_t id)
{
  struct timespec now;

  clock_gettime (id, &now);
  return now.tv_sec * G_GINT64_CONSTANT (1000000000) + now.tv_nsec;
}

static void
set_timer (long ns)
{
  struct itimerspec when = { .it_value = { .tv_nsec = ns } };

  timer_settime (timer, 0, &when, NULL);
}

/* On the main thread, in the middle of what takes so long. */
static void
over_time (int number)
{
  void *frames[MOST_FRAMES];

  backtrace_symbols_fd (frames, backtrace (frames, MOST_FRAMES), STDERR_FILENO);
}

static void
begin_turn (void)
{
  begun = clock_ns (CLOCK_MONOTONIC);
  worked = clock_ns (CLOCK_THREAD_CPUTIME_ID);
  set_timer (PATIENCE_NS);
}

static void
end_turn (void)
{
  gint64 taken = clock_ns (CLOCK_MONOTONIC) - begun;

  set_timer (0);
  if (taken > PATIENCE_NS)
    g_printerr ("stall: %.1f ms, %.1f ms of work\n", (double) taken / 1e6,
                (double) (clock_ns (CLOCK_THREAD_CPUTIME_ID) - worked) / 1e6);
}

static int
watched_poll (GPollFD *fds, guint n, int timeout)
{
  int ready;

  end_turn ();
  ready = poll_before (fds, n, timeout);
  begin_turn ();
  return ready;
}

/* For the thread of the main loop, before it runs. */
void
pin_stalls_watch (void)
{
  struct sigaction action = { .sa_handler = over_time, .sa_flags = SA_RESTART };
  struct sigevent event = { .sigev_notify = SIGEV_THREAD_ID, .sigev_signo = SIGPROF };
  void *first[1];

  if (g_strcmp0 (g_getenv ("HINGEPIN_STALLS"), "1") != 0)
    return;
  backtrace (first, 1);        /* loads what it needs; a signal must not */
  event._sigev_un._tid = gettid ();
  if (sigaction (SIGPROF, &action, NULL) != 0 || timer_create (CLOCK_MONOTONIC, &event, &timer) != 0)
    return;
  poll_before = g_main_context_get_poll_func (NULL);
  g_main_context_set_poll_func (NULL, watched_poll);
  begin_turn ();
}
