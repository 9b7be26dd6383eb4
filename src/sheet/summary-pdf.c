#include "sheet/summary-page.h"

#include <cairo-pdf.h>
#include <errno.h>
#include <gio/gio.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>

#include "base/day.h"

gboolean
pin_paper_parse (const char *word, PinPaper *paper)
{
  if (g_ascii_strcasecmp (word, "a4") == 0)
    *paper = PIN_PAPER_A4;
  else if (g_ascii_strcasecmp (word, "letter") == 0)
    *paper = PIN_PAPER_LETTER;
  else
    return FALSE;
  return TRUE;
}

/* ISO 216 A4 (210 × 297 mm) and ANSI A (8.5 × 11 in), in points. */
void
pin_paper_size (PinPaper paper, double *width, double *height)
{
  *width = paper == PIN_PAPER_A4 ? 210 / 25.4 * 72 : 612;
  *height = paper == PIN_PAPER_A4 ? 297 / 25.4 * 72 : 792;
}

int
pin_summary_pages (PinSummary *self, PinPaper paper)
{
  g_autoptr (PinSheetLayout) layout = pin_sheet_layout_new (self, paper);

  return (int) layout->pages->len;
}

void
pin_summary_draw (PinSummary *self, PinPaper paper, int page, cairo_t *cr)
{
  g_autoptr (PinSheetLayout) layout = pin_sheet_layout_new (self, paper);

  g_return_if_fail (page >= 0 && page < (int) layout->pages->len);
  pin_sheet_draw_page (self, layout, page, cr);
}

static cairo_status_t
collect (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static void
describe (cairo_surface_t *surface, const PinSummary *self)
{
  g_autofree char *title = g_strdup_printf (_("%s: summary sheet"), self->name);
  g_autofree char *day = pin_today ();
  g_autofree char *created = g_strdup_printf ("%sT00:00:00Z", day);

  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, title);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Hingepin");
  /* Set, so that the same book and day give the same file. */
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, created);
}

/* The file is written whole or not at all. */
gboolean
pin_summary_write_pdf (PinSummary *self, PinPaper paper, const char *path, GError **error)
{
  g_autoptr (PinSheetLayout) layout = pin_sheet_layout_new (self, paper);
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (collect, bytes, layout->width, layout->height);
  cairo_t *cr = cairo_create (surface);
  cairo_status_t status;

  describe (surface, self);
  for (guint page = 0; page < layout->pages->len; page++)
    {
      pin_sheet_draw_page (self, layout, (int) page, cr);
      cairo_show_page (cr);
    }
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  if (status != CAIRO_STATUS_SUCCESS)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, _("%s was not written: the sheet could not be drawn (%s)"),
                   path, cairo_status_to_string (status));
      return FALSE;
    }
  if (!g_file_set_contents_full (path, (const char *) bytes->data, bytes->len,
                                 G_FILE_SET_CONTENTS_CONSISTENT, 0666, error))
    {
      g_prefix_error (error, _("the sheet was not written: "));
      return FALSE;
    }
  return TRUE;
}
