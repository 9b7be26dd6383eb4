#pragma once

#include <glib.h>

/* The plan view as data: what a chassis type draws, in the car's frame
 * (x forward, y left, mm, origin midway between the axles). */

typedef enum
{
  PIN_PRIMITIVE_OUTLINE,      /* points radius line open */
  PIN_PRIMITIVE_RECT,         /* x y length width radius turn line */
  PIN_PRIMITIVE_CIRCLE,       /* x y radius line */
  PIN_PRIMITIVE_LINE,         /* x1 y1 x2 y2 line */
  PIN_PRIMITIVE_WHEEL,        /* x y diameter width tread */
  PIN_PRIMITIVE_ARM,          /* x side y1 y2 root tip shift */
  PIN_PRIMITIVE_SHAFT,        /* x1 y1 x2 y2 width end1 end2 */
  PIN_PRIMITIVE_DIFF,         /* x y length width barrel ring screws */
  PIN_PRIMITIVE_CENTRE_DIFF,  /* x y length width */
  PIN_PRIMITIVE_GEAR,         /* x y diameter width axis */
  PIN_PRIMITIVE_MOTOR,        /* x y length diameter axis direction tabs */
  PIN_PRIMITIVE_ENGINE,       /* x y */
  PIN_PRIMITIVE_SHOCK,        /* x1 y1 x2 y2 width (top to bottom) */
  PIN_PRIMITIVE_SERVO,        /* x y turn horn */
  PIN_PRIMITIVE_LINK,         /* x1 y1 x2 y2 */
  PIN_PRIMITIVE_BOX,          /* x y length width radius turn inner screws
                                 fins cells cap-x cap-y cap-r fan-x fan-y fan-r */
  PIN_PRIMITIVE_BAR,          /* x y length width radius holes (points) */
  PIN_PRIMITIVE_HUB,          /* x y length width */
  PIN_PRIMITIVE_BELT,         /* x1 x2 y width */
} PinPrimitiveKind;

typedef enum
{
  PIN_LINE_OUTLINE,           /* filled, 1.2 px */
  PIN_LINE_PLATE,             /* filled with the plate's tone */
  PIN_LINE_INNER,             /* 0.9 */
  PIN_LINE_SURFACE,           /* 0.7 pencil */
  PIN_LINE_TREAD,             /* 0.7 pencil, filled */
  PIN_LINE_BAR,               /* an open stroke of a roll bar */
  PIN_LINE_PIPE,              /* an open thick tube with two edges */
  PIN_LINE_PHANTOM,           /* wing and shell */
} PinLine;

typedef enum
{
  PIN_NUMBER_X, PIN_NUMBER_Y, PIN_NUMBER_X1, PIN_NUMBER_Y1,
  PIN_NUMBER_X2, PIN_NUMBER_Y2, PIN_NUMBER_LENGTH, PIN_NUMBER_WIDTH,
  PIN_NUMBER_DIAMETER, PIN_NUMBER_RADIUS, PIN_NUMBER_TURN, PIN_NUMBER_SIDE,
  PIN_NUMBER_ROOT, PIN_NUMBER_TIP, PIN_NUMBER_SHIFT, PIN_NUMBER_BARREL,
  PIN_NUMBER_RING, PIN_NUMBER_SCREWS, PIN_NUMBER_DIRECTION, PIN_NUMBER_TABS,
  PIN_NUMBER_HORN, PIN_NUMBER_INNER, PIN_NUMBER_FINS, PIN_NUMBER_CELLS,
  PIN_NUMBER_CAP_X, PIN_NUMBER_CAP_Y, PIN_NUMBER_CAP_R,
  PIN_NUMBER_FAN_X, PIN_NUMBER_FAN_Y, PIN_NUMBER_FAN_R,
  PIN_N_NUMBERS,
} PinNumber;

typedef struct
{
  PinPrimitiveKind kind;
  PinLine line;
  double number[PIN_N_NUMBERS]; /* NAN where the file says nothing */
  char *tread;                  /* wheel: pin, rib, slick, lug */
  char *end1, *end2;            /* shaft: cup, bone, joint, plain */
  char axis;                    /* gear, motor: 'x' or 'y' */
  gboolean open;                /* outline */
  double *points;               /* outline: x y x y …; bar: offsets of holes */
  guint n_points;               /* numbers in points */
  gboolean detail;              /* left out at small scale */
} PinPrimitive;

typedef struct
{
  char *id;
  char *assembly;               /* dashed while this is off; NULL: stays */
  char **positions;             /* the positions that it pictures */
  GPtrArray *primitives;        /* PinPrimitive*, in drawing order */
} PinShape;
