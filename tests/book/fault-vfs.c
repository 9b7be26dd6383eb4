#include "fault-vfs.h"

#include <sqlite3.h>

#include "book/db-private.h"

typedef struct
{
  sqlite3_file base;
  sqlite3_file *real; /* in the memory behind this struct */
} File;

static struct
{
  FaultKind kind;
  int countdown; /* 0: not armed */
  int rc;
  gboolean sticky, hit;
} plan;

static GMutex lock;
static sqlite3_vfs *real_vfs;
static sqlite3_vfs vfs;

/* What this call must give: SQLITE_OK, or the planned error. */
static int
fate (FaultKind kind)
{
  int rc = SQLITE_OK;

  g_mutex_lock (&lock);
  if (plan.kind == kind && plan.countdown > 0 && --plan.countdown == 0)
    {
      plan.hit = TRUE;
      rc = plan.rc;
      if (plan.sticky)
        plan.countdown = 1;
    }
  g_mutex_unlock (&lock);
  return rc;
}

#define REAL(file) (((File *) (file))->real)
#define OR_FAIL(kind, call)   \
  int rc = fate (kind);       \
                              \
  return rc != SQLITE_OK ? rc : (call)

static int
x_close (sqlite3_file *file)
{
  return REAL (file)->pMethods->xClose (REAL (file));
}

static int
x_read (sqlite3_file *file, void *data, int size, sqlite3_int64 at)
{
  OR_FAIL (FAULT_READ, REAL (file)->pMethods->xRead (REAL (file), data, size, at));
}

/* A failing write may leave half of its bytes behind. */
static int
x_write (sqlite3_file *file, const void *data, int size, sqlite3_int64 at)
{
  int rc = fate (FAULT_WRITE);

  if (rc == SQLITE_OK)
    return REAL (file)->pMethods->xWrite (REAL (file), data, size, at);
  if (size > 1)
    REAL (file)->pMethods->xWrite (REAL (file), data, size / 2, at);
  return rc;
}

static int
x_truncate (sqlite3_file *file, sqlite3_int64 size)
{
  OR_FAIL (FAULT_TRUNCATE, REAL (file)->pMethods->xTruncate (REAL (file), size));
}

static int
x_sync (sqlite3_file *file, int flags)
{
  OR_FAIL (FAULT_SYNC, REAL (file)->pMethods->xSync (REAL (file), flags));
}

static int
x_size (sqlite3_file *file, sqlite3_int64 *size)
{
  return REAL (file)->pMethods->xFileSize (REAL (file), size);
}

static int
x_lock (sqlite3_file *file, int level)
{
  OR_FAIL (FAULT_LOCK, REAL (file)->pMethods->xLock (REAL (file), level));
}

static int
x_unlock (sqlite3_file *file, int level)
{
  return REAL (file)->pMethods->xUnlock (REAL (file), level);
}

static int
x_check_reserved (sqlite3_file *file, int *held)
{
  return REAL (file)->pMethods->xCheckReservedLock (REAL (file), held);
}

static int
x_control (sqlite3_file *file, int op, void *data)
{
  return REAL (file)->pMethods->xFileControl (REAL (file), op, data);
}

static int
x_sector (sqlite3_file *file)
{
  return REAL (file)->pMethods->xSectorSize (REAL (file));
}

static int
x_traits (sqlite3_file *file)
{
  return REAL (file)->pMethods->xDeviceCharacteristics (REAL (file));
}

static const sqlite3_io_methods methods = {
  1,      x_close,  x_read,           x_write,   x_truncate, x_sync,   x_size,
  x_lock, x_unlock, x_check_reserved, x_control, x_sector,   x_traits,
};

static int
x_open (sqlite3_vfs *self, const char *name, sqlite3_file *file, int flags, int *out_flags)
{
  File *wrapped = (File *) file;
  int rc = fate (FAULT_OPEN);

  wrapped->base.pMethods = NULL;
  if (rc != SQLITE_OK)
    return rc;
  wrapped->real = (sqlite3_file *) (wrapped + 1);
  rc = real_vfs->xOpen (real_vfs, name, wrapped->real, flags, out_flags);
  if (rc == SQLITE_OK)
    wrapped->base.pMethods = &methods;
  return rc;
}

static int
x_delete (sqlite3_vfs *self, const char *name, int sync_folder)
{
  OR_FAIL (FAULT_DELETE, real_vfs->xDelete (real_vfs, name, sync_folder));
}

/* Registers the layer; pin_db_set_vfs ("fault") then uses it. */
void
fault_vfs_install (void)
{
  real_vfs = sqlite3_vfs_find (NULL);
  vfs = *real_vfs;
  vfs.iVersion = 1;
  vfs.zName = "fault";
  vfs.szOsFile = sizeof (File) + real_vfs->szOsFile;
  vfs.xOpen = x_open;
  vfs.xDelete = x_delete;
  g_assert_cmpint (sqlite3_vfs_register (&vfs, 0), ==, SQLITE_OK);
}

void
fault_vfs_arm (FaultKind kind, int nth, int rc, gboolean sticky)
{
  g_mutex_lock (&lock);
  plan.kind = kind;
  plan.countdown = nth;
  plan.rc = rc;
  plan.sticky = sticky;
  plan.hit = FALSE;
  g_mutex_unlock (&lock);
}

/* TRUE if the fault happened. */
gboolean
fault_vfs_disarm (void)
{
  gboolean hit;

  g_mutex_lock (&lock);
  plan.countdown = 0;
  hit = plan.hit;
  g_mutex_unlock (&lock);
  return hit;
}
