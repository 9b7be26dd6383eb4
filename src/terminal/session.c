#include "terminal/session.h"

#include "config.h"

#include <glib/gi18n.h>
#include <stdlib.h>

#include "base/day.h"
#include "inspection/car.h"

G_DEFINE_QUARK (pin-terminal-error-quark, pin_terminal_error)

PinLibrary *
pin_session_library (PinSession *self, GError **error)
{
  if (self->library == NULL)
    self->library = pin_library_new_default (error);
  return self->library;
}

/* The last millisecond of the civil day @day, where the keeper is. */
static gint64
end_of_day (const char *day)
{
  g_autofree char *next = pin_day_add (day, 1);
  g_auto (GStrv) ymd = g_strsplit (next, "-", 3);
  g_autoptr (GDateTime) midnight =
      g_date_time_new_local (atoi (ymd[0]), atoi (ymd[1]), atoi (ymd[2]), 0, 0, 0);

  return g_date_time_to_unix (midnight) * 1000 - 1;
}

/* The clock goes back with the book: what had lapsed by then is judged by then. */
static PinBook *
open_past (const char *path, const char *day, GError **error)
{
  gint64 instant = MIN (end_of_day (day), pin_now ());

  pin_pretend_now (instant);
  return pin_book_open_as_known (path, instant, error);
}

/* @make: a book that is not there yet is begun. */
PinBook *
pin_session_book (PinSession *self, gboolean make, GError **error)
{
  g_autofree char *path = NULL;

  if (self->book)
    return self->book;
  path = self->options->book ? g_strdup (self->options->book) : pin_book_default_path ();
  if (self->options->known)
    self->book = open_past (path, self->options->known, error);
  else if (make)
    self->book = pin_book_open_or_create (path, error);
  else
    self->book = pin_book_open (path, FALSE, error);
  return self->book;
}

static gpointer
load_stable (PinDb *db, gpointer data, GError **error)
{
  return pin_stable_rows_load (db, error);
}

PinStable *
pin_session_stable (PinSession *self, GError **error)
{
  PinStableRows *rows;

  if (self->stable)
    return self->stable;
  if (!pin_session_library (self, error) || !pin_session_book (self, FALSE, error))
    return NULL;
  rows = pin_book_run (self->book, load_stable, NULL, error);
  if (rows)
    self->stable = pin_stable_new (rows, self->library, pin_now (), error);
  if (self->stable && self->options->known && self->stable->vehicles->len == 0)
    {
      g_clear_pointer (&self->stable, pin_stable_free);
      g_set_error (error, PIN_TERMINAL_ERROR, PIN_TERMINAL_ERROR_FOUND,
                   _("no vehicle had been entered in %s by the end of %s; ask for a later day"),
                   pin_book_path (self->book), self->options->known);
    }
  return self->stable;
}

PinStableVehicle *
pin_session_vehicle (PinSession *self, GError **error)
{
  if (self->options->args[0] == NULL)
    {
      pin_session_usage (error, _("%s needs the name of a vehicle; “hingepin vehicles” lists them"),
                         self->options->verb);
      return NULL;
    }
  if (!pin_session_stable (self, error))
    return NULL;
  return pin_stable_find (self->stable, self->options->args[0], error);
}

typedef struct
{
  gpointer (*load) (PinDb *, gint64, GError **);
  gint64 id;
} Load;

static gpointer
run_load (PinDb *db, gpointer data, GError **error)
{
  const Load *load = data;

  return load->load (db, load->id, error);
}

/* Reads rows about one id on the book's thread and waits for them. */
gpointer
pin_session_run (PinSession *self, gpointer (*load) (PinDb *, gint64, GError **), gint64 id, GError **error)
{
  Load what = { load, id };

  return pin_book_run (self->book, run_load, &what, error);
}

static gpointer
load_car (PinDb *db, gint64 id, GError **error)
{
  return pin_car_rows_load (db, id, error);
}

PinCar *
pin_session_car (PinSession *self, gint64 vehicle, GError **error)
{
  PinCarRows *rows = pin_session_run (self, load_car, vehicle, error);

  return rows ? pin_car_new (rows, self->library, error) : NULL;
}

void
pin_session_clear (PinSession *self)
{
  g_clear_pointer (&self->stable, pin_stable_free);
  g_clear_pointer (&self->book, pin_book_close);
  g_clear_pointer (&self->library, pin_library_free);
}

/* Always FALSE, for "return pin_session_usage (…)". */
gboolean
pin_session_usage (GError **error, const char *format, ...)
{
  va_list args;
  g_autofree char *text = NULL;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error_literal (error, PIN_TERMINAL_ERROR, PIN_TERMINAL_ERROR_USAGE, text);
  return FALSE;
}
