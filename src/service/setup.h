#pragma once

#include "inspection/car.h"

/* What is in it on a day, in groups as one asks for it. */

typedef struct
{
  char *label;                /* "front diff" */
  char *spec;                 /* spec id: "fluid", "size" */
  char *title;                /* "fluid" */
  char *text;                 /* "7000 cSt" */
  char *origin;               /* default, maker, owner, measured */
  char *day;                  /* since */
  double value;               /* canonical; NAN: words */
  gint64 place;               /* 0: the vehicle */
} PinSetupFact;

typedef struct
{
  char *id, *title;           /* library group, or "vehicle" */
  GPtrArray *facts;           /* PinSetupFact* */
} PinSetupGroup;

typedef struct _PinSetupRows PinSetupRows;

PinSetupRows *pin_setup_rows_load (PinDb         *db,
                                   gint64         vehicle,
                                   const char    *on_day,      /* NULL: now */
                                   GError       **error);
void          pin_setup_rows_free (PinSetupRows  *rows);
/* PinSetupGroup*.  Bearings and fasteners with nothing but their usual size
 * are left out unless @everything. */
GPtrArray    *pin_setup_new       (PinSetupRows  *rows,        /* borrowed */
                                   PinLibrary    *library,
                                   const PinCar  *car,
                                   gboolean       everything);

/* The part that was at @place on @day; 0: none, -1: an error.  On the book's thread. */
gint64        pin_setup_part_on    (PinDb          *db,
                                    gint64          place,
                                    const char     *day,
                                    GError        **error);
/* One trait's value in words: "7000 cSt"; free with g_free(). */
char         *pin_setup_value_text (PinLibrary     *library,
                                    const PinTrait *trait);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinSetupRows, pin_setup_rows_free)
