#pragma once

#include "library/chassis.h"
#include "library/kinds.h"
#include "library/procedure.h"

/* The shelf: every text of the trade that this program knows, shipped ones and
 * the user's own.  A file of the user's with the id of a shipped one takes its
 * place, unless it is broken: then the shipped one stays and the trouble is
 * listed.  Files are read when first asked for, by one thread.  Once
 * pin_library_fill() has returned there is nothing left to read, and any number
 * of threads may use it at once, but for pin_library_check(). */

typedef struct _PinLibrary PinLibrary;

typedef struct
{
  char *file;                 /* path */
  char *message;              /* "file:line: …" */
} PinTrouble;

/* One file of kinds, as it was read. */
typedef struct
{
  char *name;                 /* "debts": of its file */
  char *sha;                  /* SHA-256, hex */
  GBytes *xml;
} PinKindsText;

PinLibrary         *pin_library_new         (const char   *shipped,
                                             const char   *own,
                                             GError      **error);
PinLibrary         *pin_library_new_default (GError      **error);
PinLibrary         *pin_library_with_kinds  (PinLibrary   *self,
                                             GPtrArray    *texts,   /* GBytes*, in reading order */
                                             GError      **error);
void                pin_library_free        (PinLibrary   *self);
void                pin_library_fill        (PinLibrary   *self);

GPtrArray          *pin_library_procedures  (PinLibrary   *self);  /* PinProcedure*, transfer container */
GPtrArray          *pin_library_teardowns   (PinLibrary   *self);  /* PinTeardown* */
GPtrArray          *pin_library_chassis_all (PinLibrary   *self);  /* PinChassis* */
PinProcedure       *pin_library_procedure   (PinLibrary   *self,
                                             const char   *id,
                                             GError      **error); /* borrowed */
PinTeardown        *pin_library_teardown    (PinLibrary   *self,
                                             const char   *id,
                                             GError      **error); /* borrowed */
PinChassis         *pin_library_chassis     (PinLibrary   *self,
                                             const char   *id,
                                             GError      **error); /* borrowed */

const PinPartKind  *pin_library_kind        (PinLibrary   *self, const char *id);
const PinDeed      *pin_library_deed        (PinLibrary   *self, const char *id);
const PinSpec      *pin_library_spec        (PinLibrary   *self, const char *id);
const PinCondition *pin_library_condition   (PinLibrary   *self, const char *id);
const PinQuantity  *pin_library_quantity    (PinLibrary   *self, const char *id);
const PinDebt      *pin_library_debt        (PinLibrary   *self, const char *id);
const PinJob       *pin_library_job         (PinLibrary   *self, const char *id);
const PinSupply    *pin_library_tool        (PinLibrary   *self, const char *id);
const PinSupply    *pin_library_supply      (PinLibrary   *self, const char *id);
const GPtrArray    *pin_library_groups      (PinLibrary   *self);  /* PinGroup*, in order */
const GPtrArray    *pin_library_kinds       (PinLibrary   *self);  /* PinPartKind* */
const char         *pin_library_kinds_sha   (PinLibrary   *self);
const GPtrArray    *pin_library_kinds_texts (PinLibrary   *self);  /* PinKindsText*, in reading order */
const GPtrArray    *pin_library_troubles    (PinLibrary   *self);  /* PinTrouble* */

/* Reads and checks one file of any kind, against schema and against meaning;
 * every message is appended to @messages ("file:line: what, what instead").
 * TRUE if nothing is wrong. */
gboolean            pin_library_check       (PinLibrary   *self,
                                             const char   *path,
                                             GPtrArray    *messages);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinLibrary, pin_library_free)
