/* Drawing: the plan view at 1.2 px/mm, and the summary sheet as a PDF. */

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <glib/gstdio.h>
#include <pango/pangocairo.h>
#include <string.h>

#include "big-book.h"
#include "folder.h"
#include "gauge.h"
#include "sheet/plan-view.h"
#include "sheet/summary-sheet.h"

#define SCALE 1.2
#define MARGIN 20

typedef struct
{
  PinPlan plan;
  int width, height, segments;
  PinSummary *summary;
  char *path;
  int pages;
  cairo_surface_t *drawn;
} Bench;

#define NO_ERROR(error) \
  G_STMT_START { if ((error) != NULL) g_error ("%s", (error)->message); } G_STMT_END

/* ---- The plan ---- */

static void
draw_plan (gpointer data)
{
  Bench *self = data;
  cairo_surface_t *surface =
      cairo_image_surface_create (CAIRO_FORMAT_ARGB32, self->width, self->height);
  cairo_t *cr = cairo_create (surface);

  pin_plan_draw (cr, &self->plan);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

static void
draw_lines (gpointer data)
{
  Bench *self = data;
  cairo_surface_t *surface =
      cairo_image_surface_create (CAIRO_FORMAT_ARGB32, self->width, self->height);
  cairo_t *cr = cairo_create (surface);

  cairo_set_line_width (cr, 1.2);
  for (int i = 0; i < self->segments; i++)
    {
      double x = 17 * i % self->width, y = 29 * i % self->height;

      if (i % 4 == 0)
        {
          cairo_stroke (cr);
          cairo_move_to (cr, x, y);
        }
      cairo_rel_line_to (cr, i % 2 ? 12 : -5, i % 3 ? 7 : -9);
    }
  cairo_stroke (cr);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

static cairo_status_t
count_segments (void *closure, const unsigned char *data, unsigned int length)
{
  int *segments = closure;

  for (unsigned int i = 0; i + 1 < length; i++)
    *segments += (data[i] == 'L' || data[i] == 'C') && data[i + 1] == ' ';
  return CAIRO_STATUS_SUCCESS;
}

/* How many lines and curves the plan is made of, told by its SVG. */
static int
segments_of (const Bench *self)
{
  int segments = 0;
  cairo_surface_t *surface =
      cairo_svg_surface_create_for_stream (count_segments, &segments, self->width, self->height);
  cairo_t *cr = cairo_create (surface);

  pin_plan_draw (cr, &self->plan);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  cairo_surface_destroy (surface);
  return segments;
}

static void
bench_plan (PinLibrary *library, const char *type)
{
  g_autoptr (GError) error = NULL;
  Bench self = { .plan = { .chassis = pin_library_chassis (library, type, &error),
                           .palette = pin_palette_light () } };
  g_autofree char *name = NULL;
  double x0, y0, x1, y1;

  NO_ERROR (error);
  pin_plan_extents (self.plan.chassis, &x0, &y0, &x1, &y1);
  self.width = (int) (SCALE * (x1 - x0)) + 2 * MARGIN;
  self.height = (int) (SCALE * (y1 - y0)) + 2 * MARGIN;
  pin_plan_fit (&self.plan, self.width, self.height, MARGIN);
  self.segments = segments_of (&self);
  name = g_strdup_printf ("plan view, %s, %d × %d px, %d lines and curves", type, self.width,
                          self.height, self.segments);
  bench_say (name, bench_time (draw_plan, &self, 31), "ms", bench_time (draw_lines, &self, 31),
             "cairo, as many strokes");
}

/* ---- The sheet ---- */

static void
write_sheet (gpointer data)
{
  Bench *self = data;
  g_autoptr (GError) error = NULL;

  pin_summary_write_pdf (self->summary, PIN_PAPER_A4, self->path, &error);
  NO_ERROR (error);
}

static void
write_lines (gpointer data)
{
  Bench *self = data;
  cairo_surface_t *surface = cairo_pdf_surface_create (self->path, 595, 842);
  cairo_t *cr = cairo_create (surface);

  for (int page = 0; page < self->pages; page++)
    {
      for (int line = 0; line < 60; line++)
        {
          g_autoptr (PangoLayout) layout = pango_cairo_create_layout (cr);

          pango_layout_set_text (layout, "front left hub, outer: sandy all round, oiled", -1);
          cairo_move_to (cr, 30, 30 + 13 * line);
          pango_cairo_show_layout (cr, layout);
        }
      cairo_show_page (cr);
    }
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  cairo_surface_destroy (surface);
}

/* What is left for the main loop when the sheet is printed: a page that was drawn
 * before is copied.  What becomes of the copy is the printer's business. */
static void
give_page (Bench *self, gboolean drawn)
{
  cairo_surface_t *printer = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  cairo_t *cr = cairo_create (printer);

  if (drawn)
    {
      cairo_set_source_surface (cr, self->drawn, 0, 0);
      cairo_paint (cr);
    }
  else
    {
      pin_summary_draw (self->summary, PIN_PAPER_A4, 0, cr);
    }
  cairo_destroy (cr);
  cairo_surface_destroy (printer);
}

static void
copy_page (gpointer data)
{
  give_page (data, TRUE);
}

static void
draw_page (gpointer data)
{
  give_page (data, FALSE);
}

static void
bench_print (Bench *self)
{
  cairo_rectangle_t paper = { .width = 595.28, .height = 841.89 };
  cairo_t *cr;

  self->drawn = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, &paper);
  cr = cairo_create (self->drawn);
  pin_summary_draw (self->summary, PIN_PAPER_A4, 0, cr);
  cairo_destroy (cr);
  bench_say ("a page of the sheet to the printer", bench_time (copy_page, self, 11), "ms",
             bench_time (draw_page, self, 11), "drawn in that moment");
  cairo_surface_destroy (self->drawn);
}

static void
bench_sheet (PinLibrary *library, const char *folder)
{
  static const BigBookSize size = { .vehicles = 1, .years = 1, .outings = 20, .inspections = 5 };
  g_autofree char *book_path = g_build_filename (folder, "paper.hingepin", NULL);
  g_autofree char *path = g_build_filename (folder, "sheet.pdf", NULL);
  g_autoptr (GArray) vehicles = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_autoptr (GArray) walks = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_autoptr (PinBook) book = big_book_make (book_path, library, &size, vehicles, walks);
  g_autoptr (GError) error = NULL;
  Bench self = { .path = path };
  g_autofree char *name = NULL;

  self.summary = pin_summary_load (book, library, g_array_index (vehicles, gint64, 0), &error);
  NO_ERROR (error);
  self.pages = pin_summary_pages (self.summary, PIN_PAPER_A4);
  name = g_strdup_printf ("summary sheet as PDF, %d pages", self.pages);
  bench_say (name, bench_time (write_sheet, &self, 11), "ms", bench_time (write_lines, &self, 11),
             "cairo and Pango, 60 plain lines a page");
  bench_print (&self);
  pin_summary_free (self.summary);
}

int
main (void)
{
  g_autofree char *folder = bench_folder_new ();
  g_autoptr (GError) error = NULL;
  g_autoptr (PinLibrary) library = pin_library_new_default (&error);

  NO_ERROR (error);
  bench_plan (library, "buggy-nitro-8");
  bench_plan (library, "touring-belt-10");
  bench_sheet (library, folder);
  bench_folder_free (folder);
  return 0;
}
