#pragma once

/* How a sum went.  Every function of this room that can be asked for something
 * that has no answer returns one of these, and writes its results only with
 * PIN_MATHS_OK: a number is never the sign of an error. */
typedef enum
{
  PIN_MATHS_OK,
  PIN_MATHS_NOT_FINITE,       /* an input is NaN or infinite */
  PIN_MATHS_RANGE,            /* an input is where the formula means nothing */
  PIN_MATHS_TOO_FEW,          /* more readings are needed */
  PIN_MATHS_DEGENERATE,       /* the readings leave the answer open: all alike, no trend */
  PIN_MATHS_NOT_CLOSED,       /* bars too short to meet */
  PIN_MATHS_NO_ANSWER,        /* no value within the range brings what was asked for */
} PinMathsStatus;

const char *pin_maths_status_text (PinMathsStatus status);
