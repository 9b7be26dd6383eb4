#include "maths/status.h"

/* In words, as the end of a sentence; English, for the caller to translate. */
const char *
pin_maths_status_text (PinMathsStatus status)
{
  switch (status)
    {
    case PIN_MATHS_OK:
      return "nothing is wrong";
    case PIN_MATHS_NOT_FINITE:
      return "a number is missing or is not finite";
    case PIN_MATHS_RANGE:
      return "a value lies where the formula means nothing";
    case PIN_MATHS_TOO_FEW:
      return "more readings are needed";
    case PIN_MATHS_DEGENERATE:
      return "the readings leave the answer open";
    case PIN_MATHS_NOT_CLOSED:
      return "the bars are too short to meet";
    case PIN_MATHS_NO_ANSWER:
    default:
      return "no value within the range brings what was asked for";
    }
}
