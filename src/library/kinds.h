#pragma once

#include <glib.h>

#include "library/quantity.h"

/* data/kinds/: the words that procedures, chassis types and rules use.
 * All structs here are owned by the PinLibrary they came from.  Lists of ids
 * are never NULL, and may be empty. */

typedef struct
{
  char *id;                   /* "bearing" */
  char *title;                /* "bearing" */
  char *plural;               /* "bearings" */
  char *group;                /* layer of the plan view: id of a PinGroup */
  char **deeds;               /* deed ids that make sense on it */
  char **specs;               /* spec ids: size, fluid, teeth … */
} PinPartKind;

typedef struct
{
  char *id;                   /* "bearings", "drive", "suspension" … */
  char *title;
} PinGroup;

typedef struct
{
  char *id;                   /* "oiled" */
  char *title;                /* "Oiled" */
} PinDeed;

typedef struct
{
  char *id;                   /* "fluid" */
  char *title;                /* "Fluid" */
  const PinUnit *unit;        /* NULL for words */
} PinSpec;

typedef struct
{
  char *id;                   /* "pack" */
  char *title;                /* "pack in" */
} PinCondition;

typedef struct
{
  char *id;                   /* "coast-time" */
  char *title;
  const PinUnit *unit;        /* shown unit; stored in the canonical one */
  int decimals;               /* shown */
  int better;                 /* +1 more is better, -1 less, 0 neither */
  char **reset;               /* deeds that start a new baseline */
  char **exactly;             /* conditions that must match exactly … */
  char **nearly;              /* … nearly … */
} PinQuantity;

typedef enum
{
  PIN_PAYABLE_NOW,            /* blocks a sign-off */
  PIN_PAYABLE_TIME,           /* waits for a cure or for drying */
  PIN_PAYABLE_USE,            /* waits for a first run */
  PIN_PAYABLE_BEFORE_USE,     /* owed before the next start only */
} PinPayable;

typedef struct
{
  char *id;                   /* "mesh" */
  char *title;                /* "set the mesh" */
  PinPayable payable;
  int minutes;                /* to wait, for PIN_PAYABLE_TIME */
  char *procedure;            /* the step that settles it, or NULL: it lapses */
  char *step;
} PinDebt;

typedef struct
{
  char *id;                   /* "after-wet": owed as "job:after-wet" */
  char *title;
  char *procedure;            /* signing it settles the job */
  int within_minutes;         /* should be done by */
} PinJob;

typedef struct
{
  char *id;
  char *title;
  char *unit;                 /* supplies: "ml", "g", "piece"; tools: NULL */
} PinSupply;
