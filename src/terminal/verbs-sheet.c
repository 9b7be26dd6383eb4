/* sheet */

#include "config.h"

#include <glib/gi18n.h>

#include "sheet/summary-sheet.h"
#include "terminal/session.h"

gboolean
pin_verb_sheet (PinSession *session, GError **error)
{
  const PinOptions *options = session->options;
  PinPaper paper = PIN_PAPER_A4;
  g_autoptr (PinSummary) summary = NULL;
  PinStableVehicle *vehicle;

  if (options->args[0] == NULL || options->output == NULL)
    return pin_session_usage (error, _("sheet VEHICLE -o FILE.pdf"));
  if (options->paper && !pin_paper_parse (options->paper, &paper))
    return pin_session_usage (error, _("--paper is “a4” or “letter”, not “%s”"), options->paper);
  vehicle = pin_session_vehicle (session, error);
  if (vehicle == NULL)
    return FALSE;
  summary = pin_summary_load (session->book, session->library, vehicle->id, error);
  if (summary == NULL || !pin_summary_write_pdf (summary, paper, options->output, error))
    return FALSE;
  if (options->json)
    {
      JsonBuilder *builder = pin_json_begin ();

      pin_json_text (builder, "vehicle", vehicle->name);
      pin_json_text (builder, "file", options->output);
      pin_json_print (builder);
    }
  else
    g_print (_("The summary sheet of %s is in %s\n"), vehicle->name, options->output);
  return TRUE;
}
