#include "terminal/csv.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

struct _PinCsv
{
  GString *text;
  guint columns, fields;
};

/* Ends the line after as many fields as there are names. */
static void
put (PinCsv *self, const char *field)
{
  g_string_append (self->text, field);
  self->fields++;
  g_string_append (self->text, self->fields % self->columns == 0 ? "\r\n" : ",");
}

PinCsv *
pin_csv_new (const char *const *names)
{
  PinCsv *self = g_new0 (PinCsv, 1);

  self->text = g_string_new (NULL);
  self->columns = g_strv_length ((char **) names);
  for (guint i = 0; i < self->columns; i++)
    put (self, names[i]);
  return self;
}

static gboolean
needs_quotes (const char *text)
{
  gsize length = strlen (text);

  return strpbrk (text, ",\"\r\n") != NULL || *text == ' ' || (length > 0 && text[length - 1] == ' ');
}

/* To a spreadsheet a text that begins so is a formula, and a keeper's note may
 * come from anywhere: an apostrophe in front makes it a text again. */
static gboolean
looks_like_formula (const char *text)
{
  return *text != '\0' && strchr ("=+-@\t\r", *text) != NULL;
}

void
pin_csv_text (PinCsv *self, const char *text)
{
  g_autofree char *plain = g_strconcat (text && looks_like_formula (text) ? "'" : "", text, NULL);
  g_auto (GStrv) pieces = NULL;
  g_autofree char *doubled = NULL;
  g_autofree char *quoted = NULL;

  if (!needs_quotes (plain))
    {
      put (self, plain);
      return;
    }
  pieces = g_strsplit (plain, "\"", -1);
  doubled = g_strjoinv ("\"\"", pieces);
  quoted = g_strconcat ("\"", doubled, "\"", NULL);
  put (self, quoted);
}

void
pin_csv_id (PinCsv *self, gint64 id)
{
  g_autofree char *text = id ? g_strdup_printf ("%" G_GINT64_FORMAT, id) : g_strdup ("");

  put (self, text);
}

/* In any locale with as many digits as it needs, but for the last two, which a
 * sum of many does not get right. */
void
pin_csv_number (PinCsv *self, double number)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE] = "";

  for (int digits = 6; isfinite (number) && digits <= 15; digits++)
    {
      g_autofree char *format = g_strdup_printf ("%%.%dg", digits);

      if (g_ascii_strtod (g_ascii_formatd (text, sizeof text, format, number), NULL) == number)
        break;
    }
  put (self, text);
}

void
pin_csv_flag (PinCsv *self, gboolean flag)
{
  put (self, flag ? "true" : "false");
}

/* Past the character set of the terminal: a list is UTF-8 wherever it goes. */
void
pin_csv_print (PinCsv *self)
{
  fwrite (self->text->str, 1, self->text->len, stdout);
  fflush (stdout);
  g_string_free (self->text, TRUE);
  g_free (self);
}
