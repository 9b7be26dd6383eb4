#include "base/day.h"

#include <gio/gio.h>
#include <glib/gi18n.h>
#include <stdio.h>
#include <string.h>

/* --today moves the whole clock, so that the instants of one run keep their
 * order and distance. */
static gint64 clock_shift;

/* Not 0: what this thread takes for the present. */
static _Thread_local gint64 pretended;

static GDateTime *
local_of (gint64 instant)
{
  g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (instant / 1000);

  return g_date_time_to_local (utc);
}

static GDateTime *
local_now (void)
{
  g_autoptr (GDateTime) now = NULL;

  if (pretended != 0)
    return local_of (pretended);
  now = g_date_time_new_now_local ();

  return g_date_time_add (now, clock_shift * 1000);
}

/* Milliseconds since 1970 UTC, moved by pin_set_today(). */
gint64
pin_now (void)
{
  return pretended != 0 ? pretended : g_get_real_time () / 1000 + clock_shift;
}

/* For the calling thread only: it is @instant until told otherwise, so that
 * facts of the past are written as they were then.  0: the clock again. */
void
pin_pretend_now (gint64 instant)
{
  pretended = instant;
}

/* The keeper's civil date; free with g_free(). */
char *
pin_today (void)
{
  g_autoptr (GDateTime) now = local_now ();

  return g_date_time_format (now, "%Y-%m-%d");
}

static gboolean
parse (const char *day, GDate *date)
{
  int y, m, d, end = 0;

  if (day == NULL || strlen (day) != 10 || strspn (day, "0123456789") != 4 ||
      strspn (day + 5, "0123456789") != 2 || strspn (day + 8, "0123456789") != 2 ||
      sscanf (day, "%4d-%2d-%2d%n", &y, &m, &d, &end) != 3 || end != 10)
    return FALSE;
  if (!g_date_valid_dmy (d, m, y))
    return FALSE;
  g_date_clear (date, 1);
  g_date_set_dmy (date, d, m, y);
  return TRUE;
}

gboolean
pin_day_valid (const char *day)
{
  GDate date;

  return parse (day, &date);
}

/* Whole days from one civil date to another; 0 if either is no date. */
int
pin_day_diff (const char *from, const char *to)
{
  GDate a, b;

  if (!parse (from, &a) || !parse (to, &b))
    return 0;
  return g_date_days_between (&a, &b);
}

/* NULL if @day is no date; free with g_free(). */
char *
pin_day_add (const char *day, int days)
{
  GDate date;
  char text[32];

  if (!parse (day, &date))
    return NULL;
  if (days >= 0)
    g_date_add_days (&date, days);
  else
    g_date_subtract_days (&date, -days);
  /* Four digits whatever the year: a day sorts as text. */
  g_snprintf (text, sizeof text, "%04d-%02d-%02d", g_date_get_year (&date),
              g_date_get_month (&date), g_date_get_day (&date));
  return g_strdup (text);
}

/* The local civil date of an instant; free with g_free(). */
char *
pin_day_of (gint64 instant)
{
  g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (instant / 1000);
  g_autoptr (GDateTime) local = utc ? g_date_time_to_local (utc) : NULL;

  return local ? g_date_time_format (local, "%Y-%m-%d") : NULL;
}

static char *
format (const char *day, const char *how)
{
  GDate date;
  g_autoptr (GDateTime) noon = NULL;

  if (!parse (day, &date))
    return g_strdup ("");
  noon = g_date_time_new_utc (g_date_get_year (&date), g_date_get_month (&date),
                              g_date_get_day (&date), 12, 0, 0);
  return g_date_time_format (noon, how);
}

/* "Saturday 28 November 2026"; empty if @day is no date. */
char *
pin_day_long (const char *day)
{
  return format (day, "%A %-d %B %Y");
}

/* "28 Nov 2026"; empty if @day is no date. */
char *
pin_day_short (const char *day)
{
  return format (day, "%-d %b %Y");
}

/* "Wed 25 Nov, 19:42" in the keeper's zone. */
char *
pin_instant_text (gint64 instant)
{
  g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (instant / 1000);
  g_autoptr (GDateTime) local = utc ? g_date_time_to_local (utc) : NULL;

  return local ? g_date_time_format (local, "%a %-d %b, %H:%M") : g_strdup ("");
}

/* Makes @day today, at the present time of day. */
gboolean
pin_set_today (const char *day, GError **error)
{
  g_autofree char *real = NULL;

  if (!pin_day_valid (day))
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_ARGUMENT,
                   _("“%s” is no date: write it as 2026-11-28"), day ? day : "");
      return FALSE;
    }
  clock_shift = 0;
  real = pin_today ();
  clock_shift = (gint64) pin_day_diff (real, day) * 24 * 60 * 60 * 1000;
  return TRUE;
}
