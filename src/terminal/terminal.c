#include "terminal/terminal.h"

#include "config.h"

#include <glib/gi18n.h>
#include <locale.h>

#include "terminal/session.h"

static const struct
{
  const char *name, *arguments, *about;
  PinVerb run;
  enum { ACTS, LOOKS, LISTS } kind;
} verbs[] = {
  { "vehicles", "", N_ ("the stable, and which car may run"), pin_verb_vehicles, LISTS },
  { "add-vehicle", "NAME --chassis TYPE", N_ ("add a car; its parts are made from its type"),
    pin_verb_add_vehicle, ACTS },
  { "parts", "VEHICLE", N_ ("its parts by position"), pin_verb_parts, LISTS },
  { "bearings", "", N_ ("the bearings of the stable by size, to buy from"), pin_verb_bearings, LISTS },
  { "history", "PART", N_ ("what happened to a part: its id, or VEHICLE:POSITION"), pin_verb_history, LISTS },
  { "setup", "VEHICLE [--on DATE]", N_ ("what is in it"), pin_verb_setup, LISTS },
  { "inspect", "VEHICLE PROCEDURE --list | --answers FILE", N_ ("walk an inspection without a window"),
    pin_verb_inspect, ACTS },
  { "findings", "[VEHICLE]", N_ ("what is open, and what closes it"), pin_verb_findings, LISTS },
  { "sheet", "VEHICLE -o FILE.pdf", N_ ("the summary sheet"), pin_verb_sheet, LOOKS },
  { "check", "FILE…", N_ ("check procedure, chassis and kinds files"), pin_verb_check, ACTS },
  { "reckon", "[SUM [name=value …]]", N_ ("one sum of the trade; alone, all there are"), pin_verb_reckon, ACTS },
  { "backup", "FILE", N_ ("a checked copy of the book"), pin_verb_backup, ACTS },
  { "restore", "FILE", N_ ("put a copy in the book's place; the old one is kept beside it"), pin_verb_restore, ACTS },
  { "verify", "", N_ ("prove that the book is sound"), pin_verb_verify, ACTS },
  { "export", "FOLDER", N_ ("everything, as CSV and XML"), pin_verb_export, ACTS },
  { "demo", "", N_ ("(re)make the demo stable, a book of its own"), pin_verb_demo, ACTS },
};

static int
print_help (void)
{
  g_autofree char *options = pin_options_help ();

  g_print ("%s\n%s\n", options, _("Verbs (none opens the window):"));
  for (gsize i = 0; i < G_N_ELEMENTS (verbs); i++)
    {
      g_autofree char *call = g_strconcat (verbs[i].name, " ", verbs[i].arguments, NULL);
      int gap = 46 - (int) g_utf8_strlen (call, -1);

      /* A call that is too long for its column has its words on the next line. */
      if (gap < 1)
        g_print ("  %s\n  %46s%s\n", call, "", _(verbs[i].about));
      else
        g_print ("  %s%*s%s\n", call, gap, "", _(verbs[i].about));
    }
  g_print ("\n%s\n", _("Exit status: 0 done, 1 the work found something wrong, 2 wrong usage."));
  return 0;
}

static int
find_verb (const char *name)
{
  for (gsize i = 0; i < G_N_ELEMENTS (verbs); i++)
    if (g_str_equal (verbs[i].name, name))
      return i;
  return -1;
}

/* "vehicles, parts, …": those that are at least @kind. */
static char *
verbs_that (int kind)
{
  GString *text = g_string_new (NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (verbs); i++)
    if ((int) verbs[i].kind >= kind)
      g_string_append_printf (text, "%s%s", text->len ? ", " : "", verbs[i].name);
  return g_string_free (text, FALSE);
}

/* FALSE, and it is said, if an option makes no sense with this verb. */
static gboolean
check_options (const PinOptions *options, int verb)
{
  g_autofree char *looks = verbs_that (LOOKS);
  g_autofree char *lists = verbs_that (LISTS);

  if (options->known && verbs[verb].kind < LOOKS)
    g_printerr (_("hingepin: --known shows a past state, and “%s” is not for that: only %s are\n"),
                options->verb, looks);
  else if (options->csv && verbs[verb].kind < LISTS)
    g_printerr (_("hingepin: “%s” prints no list: --csv goes with %s\n"), options->verb, lists);
  else if (options->csv && options->json)
    g_printerr ("%s", _("hingepin: --csv or --json, not both\n"));
  else
    return TRUE;
  return FALSE;
}

int
pin_terminal_run (const PinOptions *options)
{
  PinSession session = { .options = options };
  g_autoptr (GError) error = NULL;
  int verb, status = 0;

  if (options->version)
    {
      g_print ("Hingepin %s\n", PIN_VERSION);
      return 0;
    }
  if (options->help || g_strcmp0 (options->verb, "help") == 0)
    return print_help ();
  verb = find_verb (options->verb);
  if (verb < 0)
    {
      g_printerr (_("hingepin: there is no verb “%s”; “hingepin --help” lists them\n"), options->verb);
      return 2;
    }
  if (!check_options (options, verb))
    return 2;
  /* What programs read is the same in every language. */
  if (options->json || options->csv)
    {
      setlocale (LC_MESSAGES, "C");
      setlocale (LC_TIME, "C");
    }
  if (!verbs[verb].run (&session, &error))
    {
      status = g_error_matches (error, PIN_TERMINAL_ERROR, PIN_TERMINAL_ERROR_USAGE) ? 2 : 1;
      if (*error->message)
        g_printerr ("hingepin: %s\n", error->message);
    }
  pin_session_clear (&session);
  return status;
}
