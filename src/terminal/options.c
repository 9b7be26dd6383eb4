#include "terminal/options.h"

#include "config.h"

#include <glib/gi18n.h>
#include <string.h>

#include "base/day.h"

static gboolean
set_today (const char *name, const char *value, gpointer data, GError **error)
{
  return pin_set_today (value, error);
}

static GOptionContext *
context_new (PinOptions *o)
{
  const GOptionEntry entries[] = {
    { "book", 'b', 0, G_OPTION_ARG_FILENAME, &o->book, N_ ("Use this service book"), N_ ("FILE") },
    { "today", 0, 0, G_OPTION_ARG_CALLBACK, set_today, N_ ("Take this day as today"), N_ ("DATE") },
    { "json", 'j', 0, G_OPTION_ARG_NONE, &o->json, N_ ("Print JSON"), NULL },
    { "csv", 0, 0, G_OPTION_ARG_NONE, &o->csv, N_ ("Print a list as CSV"), NULL },
    { "known", 0, 0, G_OPTION_ARG_STRING, &o->known,
      N_ ("Show what was known at the end of this day; nothing can be written so"), N_ ("DATE") },
    { "strict", 0, 0, G_OPTION_ARG_NONE, &o->strict, N_ ("Exit with 1 if a car is not ready"), NULL },
    { "chassis", 0, 0, G_OPTION_ARG_STRING, &o->chassis, N_ ("add-vehicle: its chassis type"), N_ ("TYPE") },
    { "hours", 0, 0, G_OPTION_ARG_STRING, &o->hours,
      N_ ("add-vehicle: how far it has run, 0 for a new one; not said is not known"), N_ ("H") },
    { "acquired", 0, 0, G_OPTION_ARG_STRING, &o->acquired, N_ ("add-vehicle: “new” or “used”"), N_ ("HOW") },
    { "by", 0, 0, G_OPTION_ARG_STRING, &o->person, N_ ("Initials of who answers"), N_ ("INITIALS") },
    { "on", 0, 0, G_OPTION_ARG_STRING, &o->on_day, N_ ("setup: as it was on this day"), N_ ("DATE") },
    { "list", 0, 0, G_OPTION_ARG_NONE, &o->list, N_ ("inspect: print a blank answers file"), NULL },
    { "answers", 0, 0, G_OPTION_ARG_FILENAME, &o->answers,
      N_ ("inspect: walk with these answers, - for standard input"), N_ ("FILE") },
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &o->output, N_ ("sheet: the file to write"), N_ ("FILE.pdf") },
    { "paper", 0, 0, G_OPTION_ARG_STRING, &o->paper, N_ ("sheet: “a4” or “letter”"), N_ ("PAPER") },
    { "all", 'a', 0, G_OPTION_ARG_NONE, &o->all, N_ ("findings: closed ones too; setup: everything"), NULL },
    { "batch", 0, 0, G_OPTION_ARG_NONE, &o->batch, N_ ("reckon: one sum a line from standard input"), NULL },
    { "version", 0, 0, G_OPTION_ARG_NONE, &o->version, N_ ("Print the version"), NULL },
    { "help", 'h', 0, G_OPTION_ARG_NONE, &o->help, N_ ("Print this help"), NULL },
    G_OPTION_ENTRY_NULL,
  };
  GOptionContext *context = g_option_context_new (N_ ("[VERB …]"));

  g_option_context_add_main_entries (context, entries, NULL);
  g_option_context_set_help_enabled (context, FALSE);
  return context;
}

/* Free with g_free(). */
char *
pin_options_help (void)
{
  PinOptions unused = { NULL };
  GOptionContext *context = context_new (&unused);
  char *text = g_option_context_get_help (context, TRUE, NULL);

  g_option_context_free (context);
  return text;
}

static gboolean
check_day (const char *option, const char *day, GError **error)
{
  if (day == NULL || pin_day_valid (day))
    return TRUE;
  g_set_error (error, G_OPTION_ERROR, G_OPTION_ERROR_BAD_VALUE,
               _("%s: “%s” is no date: write it as 2026-11-28"), option, day);
  return FALSE;
}

static gboolean
check_known (const PinOptions *options, GError **error)
{
  g_autofree char *today = pin_today ();

  if (options->known == NULL)
    return TRUE;
  if (!check_day ("--known", options->known, error))
    return FALSE;
  if (options->verb == NULL && !options->help && !options->version)
    g_set_error (error, G_OPTION_ERROR, G_OPTION_ERROR_FAILED,
                 _("--known needs a verb that reads, as in “hingepin --known %s vehicles”"),
                 options->known);
  else if (strcmp (options->known, today) > 0)
    g_set_error (error, G_OPTION_ERROR, G_OPTION_ERROR_BAD_VALUE,
                 _("--known: %s is still to come; give today, %s, or a day before it"),
                 options->known, today);
  else
    return TRUE;
  return FALSE;
}

/* "--" in front of a name that begins with a dash has done its work. */
static void
drop_separator (char **words)
{
  char **at = words;

  while (*at != NULL && !g_str_equal (*at, "--"))
    at++;
  if (*at == NULL)
    return;
  g_free (*at);
  for (; *at != NULL; at++)
    at[0] = at[1];
}

/* Clear @options in either case. */
gboolean
pin_options_parse (PinOptions *options, int argc, char **argv, GError **error)
{
  GOptionContext *context = context_new (options);
  g_auto (GStrv) words = g_strdupv (argv);
  gboolean ok = g_option_context_parse_strv (context, &words, error);

  g_option_context_free (context);
  drop_separator (words);
  if (ok && words[1])
    {
      options->verb = g_strdup (words[1]);
      options->args = g_strdupv (words + 2);
    }
  else
    options->args = g_new0 (char *, 1);
  return ok && check_day ("--on", options->on_day, error) && check_known (options, error);
}

void
pin_options_clear (PinOptions *o)
{
  char **const owned[] = { &o->book, &o->chassis, &o->person, &o->on_day, &o->output,
                           &o->answers, &o->paper, &o->hours, &o->acquired, &o->known,
                           &o->verb };

  for (gsize i = 0; i < G_N_ELEMENTS (owned); i++)
    g_clear_pointer (owned[i], g_free);
  g_clear_pointer (&o->args, g_strfreev);
}
