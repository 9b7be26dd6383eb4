#pragma once

#include <glib.h>

#include "library/drawing.h"
#include "library/procedure.h"

/* A chassis type: the template from which a vehicle's parts are made. */

typedef struct
{
  char *id;                   /* spec id */
  char *typed;                /* "5000 cSt", "46" */
} PinSpecValue;

typedef struct
{
  char *id;                   /* "hub.front.left.outer" */
  char *kind;                 /* part kind */
  char *label;                /* "front left hub, outer" */
  char **classes;             /* "hub", "outer", "front", "left" … */
  char *side;                 /* "left", "right" or NULL */
  char *pair;                 /* the same place on the other side, or NULL */
  char *carrier;              /* travels with the part there, or NULL */
  char *assembly;             /* comes off with, or NULL */
  char *size;                 /* "8x16x5", or NULL */
  int count;                  /* fastener groups: screws; else 1 */
  gboolean fitted;            /* FALSE: for packs and tyre sets, filled by outings */
  GPtrArray *specs;           /* PinSpecValue* */
  double x, y;                /* mm: x forward, y left */
  int line;
} PinPosition;

typedef struct
{
  char *id;                   /* "motor" */
  char *title;                /* "motor" */
  char **needs;               /* must be off before it */
  GPtrArray *hazards;         /* PinHazard* */
  double off_minutes, on_minutes;
  char *off_do, *on_do;
  char **owes;                /* debts of refitting it */
  int line;
} PinAssembly;

typedef struct
{
  char *id;                   /* "buggy-nitro-8" */
  int revision;
  char *title;                /* "1/8 nitro buggy, 4WD" */
  char *about;
  char *scale, *drive, *power, *surface; /* "1/8" "4wd" "nitro" "off-road" */
  double wheelbase, track, front, rear;  /* mm; front, rear: overhang */
  double internal_ratio;      /* NAN if not stated */
  GPtrArray *positions;       /* PinPosition* */
  GPtrArray *assemblies;      /* PinAssembly* */
  GPtrArray *shapes;          /* PinShape*, in drawing order */
  char *path;                 /* file it came from, or NULL */
  GBytes *xml;                /* the exact text */
  char *sha;                  /* SHA-256 of it, hex */
} PinChassis;

PinChassis        *pin_chassis_read          (GBytes            *xml,
                                              const char        *path,
                                              GError           **error);
PinChassis        *pin_chassis_ref           (PinChassis        *self);
void               pin_chassis_unref         (PinChassis        *self);
const PinPosition *pin_chassis_position      (const PinChassis  *self,
                                              const char        *id);
const PinAssembly *pin_chassis_assembly      (const PinChassis  *self,
                                              const char        *id);
gboolean           pin_position_is           (const PinPosition *self,
                                              const char *const *tokens);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinChassis, pin_chassis_unref)
