#include "book/keeping.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#include "base/day.h"
#include "book/copy.h"

static gboolean
refuse (GError **error, PinBookError code, const char *path, const char *why)
{
  g_set_error (error, PIN_BOOK_ERROR, code, _ ("“%s”: %s"), path, why);
  return FALSE;
}

/* "stable.hingepin" → "stable.before-restore-2026-11-28.hingepin", numbered if
 * taken. */
static char *
name_for_old (const char *path)
{
  g_autofree char *today = pin_today ();
  g_autofree char *stem = g_str_has_suffix (path, ".hingepin")
                              ? g_strndup (path, strlen (path) - strlen (".hingepin"))
                              : g_strdup (path);
  char *name = g_strdup_printf ("%s.before-restore-%s.hingepin", stem, today);

  for (int i = 2; g_file_test (name, G_FILE_TEST_EXISTS); i++)
    {
      g_free (name);
      name = g_strdup_printf ("%s.before-restore-%s-%d.hingepin", stem, today, i);
    }
  return name;
}

/* Holds the old book so that no other program writes to it while it is
 * exchanged, and finishes what a crash left undone in it.  *db stays NULL for a
 * file that is no book any more: that is kept as it is, journal and all. */
static gboolean
hold_old (const char *path, PinDb **db, GError **error)
{
  g_autoptr (GError) local = NULL;
  gint64 version;

  *db = NULL;
  if (!pin_db_check_file (path, &version, NULL))
    return TRUE;
  *db = pin_db_connect (path, SQLITE_OPEN_READWRITE, &local);
  if (*db != NULL && pin_db_exec (*db, "BEGIN EXCLUSIVE", &local))
    return TRUE;
  g_clear_pointer (db, pin_db_close);
  if (!g_error_matches (local, PIN_BOOK_ERROR, PIN_BOOK_ERROR_LOCKED))
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}

/* What a damaged book left beside it goes with it: a journal played into
 * another file would ruin that. */
static gboolean
move_companions (const char *path, const char *old, GError **error)
{
  static const char *const tails[] = { "-journal", "-wal", "-shm" };

  for (gsize i = 0; i < G_N_ELEMENTS (tails); i++)
    {
      g_autofree char *from = g_strconcat (path, tails[i], NULL);
      g_autofree char *to = g_strconcat (old, tails[i], NULL);

      if (g_rename (from, to) != 0 && errno != ENOENT)
        return refuse (error, PIN_BOOK_ERROR_OPEN, from, g_strerror (errno));
    }
  return TRUE;
}

/* With a second name first and the exchange after it, there is a book under
 * @path at every moment. */
static gboolean
exchange (const char *half, const char *path, const char *old, GError **error)
{
  if (link (path, old) != 0 && g_rename (path, old) != 0)
    return refuse (error, PIN_BOOK_ERROR_OPEN, old, g_strerror (errno));
  if (!move_companions (path, old, error))
    return FALSE;
  if (g_rename (half, path) != 0)
    return refuse (error, PIN_BOOK_ERROR_OPEN, path, g_strerror (errno));
  return pin_db_sync_file (path, error);
}

static gboolean
put_in_place (const char *half, const char *path, char **kept, GError **error)
{
  g_autoptr (PinDb) held = NULL;
  g_autofree char *old = NULL;

  if (!g_file_test (path, G_FILE_TEST_EXISTS))
    {
      if (g_rename (half, path) != 0)
        return refuse (error, PIN_BOOK_ERROR_OPEN, path, g_strerror (errno));
      return pin_db_sync_file (path, error);
    }
  old = name_for_old (path);
  if (!hold_old (path, &held, error))
    return FALSE;
  /* The lock is on the file, not its name: nobody holds the new one yet. */
  if (!exchange (half, path, old, error))
    return FALSE;
  if (kept != NULL)
    *kept = g_steal_pointer (&old);
  return TRUE;
}

static gboolean
sound (const char *path, GError **error)
{
  g_autoptr (PinDb) db = pin_db_open (path, TRUE, error);

  return db != NULL && pin_db_quick_check (db, error);
}

/* The book @path must not be open in this program.  Errors: those of opening
 * @from, LOCKED if another program uses @path, FULL, EXISTS. */
gboolean
pin_book_restore (const char *from, const char *path, char **kept, GError **error)
{
  g_autofree char *copy = g_canonicalize_filename (from, NULL);
  g_autofree char *place = g_canonicalize_filename (path, NULL);
  g_autofree char *folder = g_path_get_dirname (place);
  g_autofree char *half = g_strdup_printf ("%s.part-%08x", place, g_random_int ());

  if (kept != NULL)
    *kept = NULL;
  if (g_str_equal (copy, place))
    return refuse (error, PIN_BOOK_ERROR_EXISTS, place,
                   _ ("this is the book itself, not a copy. Choose the backup to restore"));
  if (!sound (copy, error))
    return FALSE;
  if (g_mkdir_with_parents (folder, 0700) != 0)
    return refuse (error, PIN_BOOK_ERROR_OPEN, folder, g_strerror (errno));
  if (!pin_copy_to (copy, half, NULL, NULL, NULL, error))
    return FALSE;
  if (put_in_place (half, place, kept, error))
    return TRUE;
  pin_copy_drop (half);
  return FALSE;
}
