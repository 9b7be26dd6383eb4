#include "library/quantity.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "library/error.h"

/* Coldest there is, °C */
#define ABSOLUTE_ZERO -273.15

#define NO_BREAK_SPACE "\302\240"
#define NARROW_SPACE "\342\200\257"
#define MINUS "\342\210\222"

/* ==== Numbers ==== */

static const char *
skip_digits (const char *p)
{
  return p + strspn (p, "0123456789");
}

/* The length of the number that @text begins with, 0 for none.  @mark is the
 * decimal mark's place, or NULL. */
static size_t
number_length (const char *text, const char **mark)
{
  const char *p = text;
  const char *digits;
  const char *end;

  *mark = NULL;
  if (g_str_has_prefix (p, MINUS))
    p += strlen (MINUS);
  else if (*p == '-' || *p == '+')
    p++;
  digits = p;
  p = end = skip_digits (p);
  if (*p == '.' || *p == ',')
    {
      end = skip_digits (p + 1);
      if (end == p + 1 || (p == digits && *p == ','))
        return 0;
      *mark = p;
      p = end;
    }
  if (p == digits)
    return 0;
  if (*p == 'e' || *p == 'E')
    {
      const char *power = p + 1 + (p[1] == '-' || p[1] == '+');

      if (skip_digits (power) != power)
        end = skip_digits (power);
    }
  return end - text;
}

/* "5,000" is five to some and five thousand to others. */
static gboolean
is_ambiguous (const char *text, const char *mark)
{
  size_t before;
  const char *digits;

  if (mark == NULL || *mark != ',' || strspn (mark + 1, "0123456789") != 3)
    return FALSE;
  digits = mark;
  while (digits > text && g_ascii_isdigit (digits[-1]))
    digits--;
  before = mark - digits;
  return before >= 1 && before <= 3 && *digits != '0';
}

static gboolean
number_value (const char *text, size_t length, const char *mark, double *number)
{
  g_autoptr (GString) plain = g_string_new_len (text, length);
  double value;

  if (mark != NULL)
    plain->str[mark - text] = '.';
  g_string_replace (plain, MINUS, "-", 1);
  errno = 0;
  value = g_ascii_strtod (plain->str, NULL);
  if (!isfinite (value))
    return FALSE;
  *number = value;
  return TRUE;
}

static const char *
skip_spaces (const char *p)
{
  for (;;)
    if (g_ascii_isspace (*p))
      p++;
    else if (g_str_has_prefix (p, NO_BREAK_SPACE))
      p += strlen (NO_BREAK_SPACE);
    else if (g_str_has_prefix (p, NARROW_SPACE))
      p += strlen (NARROW_SPACE);
    else
      return p;
}

/* A number alone, with a point or a comma, whatever the locale; no infinity,
 * no NaN, no marks between thousands.  FALSE, and *number untouched, for
 * anything else. */
gboolean
pin_number_parse (const char *text, double *number)
{
  const char *mark;
  size_t length;

  g_return_val_if_fail (number != NULL, FALSE);
  if (text == NULL)
    return FALSE;
  text = skip_spaces (text);
  length = number_length (text, &mark);
  if (length == 0 || *skip_spaces (text + length) != '\0' || is_ambiguous (text, mark))
    return FALSE;
  return number_value (text, length, mark, number);
}

/* A negative @decimals means as many as the number has, at most ten digits in
 * all.  A NaN is shown as a dash.  Free with g_free(). */
char *
pin_number_format (double number, int decimals)
{
  char how[16];
  char text[512];

  if (isnan (number))
    return g_strdup ("–");
  if (decimals < 0)
    g_strlcpy (how, "%.10g", sizeof how);
  else
    g_snprintf (how, sizeof how, "%%.%df", MIN (decimals, 20));
  g_ascii_formatd (text, sizeof text, how, number);
  if (text[0] == '-' && strspn (text, "-0.") == strlen (text))
    return g_strdup (text + 1);
  return g_strdup (text);
}

/* ==== Values with a unit ==== */

static gboolean
fail (GError **error, const char *format, ...) G_GNUC_PRINTF (2, 3);

static gboolean
fail (GError **error, const char *format, ...)
{
  g_autofree char *message = NULL;
  va_list args;

  va_start (args, format);
  message = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error_literal (error, PIN_LIBRARY_ERROR, PIN_LIBRARY_ERROR_VALUE, message);
  return FALSE;
}

static char *
example (const PinUnit *fallback)
{
  return fallback != NULL && *fallback->symbol ? g_strdup_printf ("12 %s", fallback->symbol)
                                               : g_strdup ("12");
}

static gboolean
read_number (const char *text, const PinUnit *fallback, double *number, const char **rest,
             GError **error)
{
  g_autofree char *like = example (fallback);
  const char *mark;
  size_t length = number_length (text, &mark);

  if (*text == '\0')
    return fail (error, _("nothing is given, write a value such as %s"), like);
  if (length == 0)
    return fail (error, _("“%s” does not begin with a number, write a value such as %s"), text, like);
  if (is_ambiguous (text, mark))
    return fail (error, _("“%s” could be thousands or thousandths, write it without the comma or with a point"),
                 text);
  if (!number_value (text, length, mark, number))
    return fail (error, _("“%s” is too large a number, write a value such as %s"), text, like);
  *rest = skip_spaces (text + length);
  if ((**rest == '.' || **rest == ',' || g_ascii_isdigit (**rest)) && *rest > text)
    return fail (error, _("“%s” has marks or spaces between its digits, write the digits together"), text);
  return TRUE;
}

static const PinUnit *
read_unit (const char *text, const char *typed, const PinUnit *fallback, GError **error)
{
  g_autofree char *id = g_strchomp (g_strdup (typed));
  const PinUnit *unit;

  if (*id == '\0')
    return fallback != NULL ? fallback : pin_unit_find ("1");
  unit = pin_unit_find (id);
  if (unit == NULL)
    {
      if (fallback != NULL && *fallback->symbol)
        fail (error, _("“%s”: “%s” is no unit known here, use %s"), text, id, fallback->symbol);
      else if (pin_unit_suggest (id) != NULL)
        fail (error, _("“%s”: “%s” is no unit known here, write “%s”"), text, id, pin_unit_suggest (id));
      else
        fail (error, _("“%s”: “%s” is no unit known here, use one such as mm, g, s or °C"), text, id);
      return NULL;
    }
  if (fallback != NULL)
    unit = pin_unit_as (unit, fallback->dimension);
  if (fallback != NULL && unit->dimension != fallback->dimension)
    {
      g_autofree char *like = example (fallback);

      fail (error, _("“%s” is %s, and %s is wanted: write it such as %s"), text,
            pin_dimension_word (unit->dimension), pin_dimension_word (fallback->dimension), like);
      return NULL;
    }
  return unit;
}

/* Reads "85mm", "3.35 in", "160F", "0,5 mm".  A bare number takes @fallback;
 * a unit must be of @fallback's dimension.  Without @fallback any unit goes,
 * and a bare number is just that.
 *
 * @canonical: out, in the canonical unit of the dimension.
 * @unit: out, may be NULL: the unit that was typed, or @fallback.
 * Errors: PIN_LIBRARY_ERROR_VALUE; the message says what to write instead. */
gboolean
pin_value_parse (const char *text, const PinUnit *fallback, double *canonical,
                 const PinUnit **unit, GError **error)
{
  g_autofree char *clean = g_strchomp (g_strdup (skip_spaces (text ? text : "")));
  const PinUnit *found;
  const char *rest = NULL;
  double value = 0;

  if (!g_utf8_validate (clean, -1, NULL))
    return fail (error, _("the value is not UTF-8 text, type it again"));
  if (!read_number (clean, fallback, &value, &rest, error))
    return FALSE;
  found = read_unit (clean, rest, fallback, error);
  if (found == NULL)
    return FALSE;
  if (found->dimension == PIN_DIMENSION_PITCH && value <= 0)
    return fail (error, _("“%s”: a gear pitch is more than 0"), clean);
  value = pin_unit_from (found, value);
  if (!isfinite (value))
    return fail (error, _("“%s” is too large a value"), clean);
  if (found->dimension == PIN_DIMENSION_TEMPERATURE && value < ABSOLUTE_ZERO - 1e-9)
    return fail (error, _("“%s” is colder than anything can be"), clean);
  *canonical = value;
  if (unit != NULL)
    *unit = found;
  return TRUE;
}

/* "71 °C", "75 %", "20°", "46": @canonical in @unit.  Free with g_free(). */
char *
pin_value_format (double canonical, const PinUnit *unit, int decimals)
{
  g_autofree char *number = NULL;

  g_return_val_if_fail (unit != NULL, NULL);
  number = pin_number_format (pin_unit_to (unit, canonical), decimals);
  if (*unit->symbol == '\0')
    return g_steal_pointer (&number);
  return g_strconcat (number, g_str_equal (unit->id, "deg") ? "" : " ", unit->symbol, NULL);
}
