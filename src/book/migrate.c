#include "book/migrate.h"

#include <glib/gi18n.h>
#include <string.h>

#include "book/copy.h"

/* From older books to this version, in order.  Version 1 is the first: there
 * is nothing to come from. */
static const PinMigration *const known_steps = NULL;
#define N_KNOWN_STEPS 0

/* "stable.hingepin" → "stable.before-v2.hingepin", with a number if taken. */
static char *
backup_name (const char *path, int to)
{
  g_autofree char *stem = g_str_has_suffix (path, ".hingepin")
                              ? g_strndup (path, strlen (path) - strlen (".hingepin"))
                              : g_strdup (path);
  char *name = g_strdup_printf ("%s.before-v%d.hingepin", stem, to);

  for (int i = 2; g_file_test (name, G_FILE_TEST_EXISTS); i++)
    {
      g_free (name);
      name = g_strdup_printf ("%s.before-v%d-%d.hingepin", stem, to, i);
    }
  return name;
}

static gboolean
set_version (PinDb *db, int version, GError **error)
{
  g_autofree char *sql = g_strdup_printf ("PRAGMA user_version = %d", version);

  return pin_db_exec (db, sql, error);
}

/* The version is read again under the lock: another program may have been
 * faster. */
static gboolean
take_step (PinDb *db, const PinMigration *step, GError **error)
{
  gint64 version;

  if (!pin_db_exec (db, "BEGIN IMMEDIATE", error))
    return FALSE;
  if (pin_db_int (db, "PRAGMA user_version", 0, &version, error) &&
      (version >= step->to || (step->up (db, error) && set_version (db, step->to, error))) &&
      pin_db_exec (db, "COMMIT", error))
    return TRUE;
  pin_db_rollback (db);
  g_prefix_error (error, _ ("Bringing the book to version %d failed and was undone: "), step->to);
  return FALSE;
}

/* As pin_migrate(), with a list of steps of the caller's. */
gboolean
pin_migrate_with (PinDb *db, const PinMigration *steps, int n_steps, GError **error)
{
  gboolean done = TRUE, copied = FALSE;
  gint64 version;

  if (!pin_db_int (db, "PRAGMA user_version", 0, &version, error))
    return FALSE;
  for (int i = 0; done && i < n_steps; i++)
    {
      if (steps[i].to <= version)
        continue;
      if (!copied)
        {
          g_autofree char *backup = backup_name (db->path, steps[n_steps - 1].to);

          if (!pin_copy_book (db->path, backup, NULL, NULL, NULL, error))
            return FALSE;
          copied = TRUE;
        }
      db->making = TRUE;
      done = take_step (db, &steps[i], error);
      db->making = FALSE;
    }
  return done;
}

/* Brings an older book to this version: a checked copy beside it first, then
 * each step together with its version number in one transaction. */
gboolean
pin_migrate (PinDb *db, GError **error)
{
  return pin_migrate_with (db, known_steps, N_KNOWN_STEPS, error);
}
