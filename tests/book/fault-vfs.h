#pragma once

#include <glib.h>

/* A file layer for SQLite that fails on purpose: of the chosen kind of call,
 * the Nth gives an error; with sticky, so does every one after it, as when the
 * disk is gone. */

typedef enum
{
  FAULT_WRITE,
  FAULT_SYNC,
  FAULT_TRUNCATE,
  FAULT_DELETE,
  FAULT_OPEN,
  FAULT_LOCK,
  FAULT_READ,
  N_FAULTS,
} FaultKind;

void     fault_vfs_install (void);
void     fault_vfs_arm     (FaultKind  kind,
                            int        nth,
                            int        rc,
                            gboolean   sticky);
gboolean fault_vfs_disarm  (void);
