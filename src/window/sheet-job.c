#include "window/sheet-job.h"

#include <glib/gi18n.h>
#include <locale.h>

#include "sheet/summary-sheet.h"
#include "window/tell.h"

typedef struct
{
  GtkWidget *from;            /* owned */
  PinDesk *desk;              /* owned */
  gint64 vehicle;
  char *path;                 /* NULL: to be printed */
  PinPaper paper;
  PinSummary *summary;        /* owned */
  GPtrArray *pages;           /* cairo_surface_t*: as drawn, for the printer */
} Sheet;

static void
sheet_free (gpointer data)
{
  Sheet *sheet = data;

  g_clear_object (&sheet->from);
  g_clear_object (&sheet->desk);
  g_clear_pointer (&sheet->summary, pin_summary_free);
  g_clear_pointer (&sheet->pages, g_ptr_array_unref);
  g_free (sheet->path);
  g_free (sheet);
}

static PinPaper
usual_paper (void)
{
  g_autoptr (GtkPaperSize) size = gtk_paper_size_new (gtk_paper_size_get_default ());

  return g_strcmp0 (gtk_paper_size_get_name (size), GTK_PAPER_NAME_LETTER) == 0 ? PIN_PAPER_LETTER
                                                                                : PIN_PAPER_A4;
}

/* ---- to a file -------------------------------------------------------------------- */

static void
write_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Sheet *sheet = data;
  GError *error = NULL;

  if (pin_summary_write_pdf (sheet->summary, sheet->paper, sheet->path, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
written (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Sheet *sheet = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;

  if (g_task_propagate_boolean (G_TASK (result), &error))
    pin_tell_done (sheet->from, _("Sheet saved:"), sheet->path);
  else
    pin_tell_error (sheet->from, _("The sheet was not saved:"), error);
}

static void
save (Sheet *sheet)
{
  g_autoptr (GTask) task = g_task_new (NULL, NULL, written, NULL);

  g_task_set_task_data (task, sheet, sheet_free);
  g_task_run_in_thread (task, write_thread);
}

/* ---- on paper ----------------------------------------------------------------------- */

/* Laid out and drawn away from the main loop; what is left for it is to copy the
 * strokes and glyphs to the printer's page. */
static void
draw_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Sheet *sheet = data;
  int n = pin_summary_pages (sheet->summary, sheet->paper);
  cairo_rectangle_t paper = { 0 };

  pin_paper_size (sheet->paper, &paper.width, &paper.height);
  sheet->pages = g_ptr_array_new_with_free_func ((GDestroyNotify) cairo_surface_destroy);
  for (int page = 0; page < n; page++)
    {
      cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, &paper);
      cairo_t *cr = cairo_create (surface);

      pin_summary_draw (sheet->summary, sheet->paper, page, cr);
      cairo_destroy (cr);
      g_ptr_array_add (sheet->pages, surface);
    }
  g_task_return_boolean (task, TRUE);
}

static void
on_begin (GtkPrintOperation *operation, GtkPrintContext *context, Sheet *sheet)
{
  gtk_print_operation_set_n_pages (operation, (int) sheet->pages->len);
}

static void
on_page (GtkPrintOperation *operation, GtkPrintContext *context, int page, Sheet *sheet)
{
  cairo_t *cr = gtk_print_context_get_cairo_context (context);

  cairo_set_source_surface (cr, g_ptr_array_index (sheet->pages, page), 0, 0);
  cairo_paint (cr);
}

static void
on_done (GtkPrintOperation *operation, GtkPrintOperationResult result, Sheet *sheet)
{
  g_autoptr (GError) error = NULL;

  if (result == GTK_PRINT_OPERATION_RESULT_ERROR)
    {
      gtk_print_operation_get_error (operation, &error);
      pin_tell_error (sheet->from, _("The sheet was not printed:"), error);
    }
}

static void
drop_sheet (gpointer data, GClosure *closure)
{
  sheet_free (data);
}

static void
ask_printer (Sheet *sheet)
{
  g_autoptr (GtkPrintOperation) operation = gtk_print_operation_new ();
  g_autoptr (GtkPageSetup) setup = gtk_page_setup_new ();
  g_autoptr (GtkPaperSize) size = gtk_paper_size_new (sheet->paper == PIN_PAPER_LETTER
                                                        ? GTK_PAPER_NAME_LETTER : GTK_PAPER_NAME_A4);
  GtkRoot *root = gtk_widget_get_root (sheet->from);

  gtk_page_setup_set_paper_size (setup, size);
  gtk_print_operation_set_default_page_setup (operation, setup);
  gtk_print_operation_set_unit (operation, GTK_UNIT_POINTS);
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_allow_async (operation, TRUE);
  gtk_print_operation_set_job_name (operation, pin_summary_name (sheet->summary));
  g_signal_connect (operation, "begin-print", G_CALLBACK (on_begin), sheet);
  g_signal_connect (operation, "draw-page", G_CALLBACK (on_page), sheet);
  g_signal_connect_data (operation, "done", G_CALLBACK (on_done), sheet, drop_sheet, 0);
  gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG,
                           GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL, NULL);
}

static void
drawn (GObject *source, GAsyncResult *result, gpointer sheet)
{
  ask_printer (sheet);
}

static void
print (Sheet *sheet)
{
  g_autoptr (GTask) task = g_task_new (NULL, NULL, drawn, sheet);

  g_task_set_task_data (task, sheet, NULL);
  g_task_run_in_thread (task, draw_thread);
}

/* ---- reading ------------------------------------------------------------------------- */

/* On the book's thread, where the sheet waits for it. */
static gpointer
load_summary (PinDb *db, gpointer data, GError **error)
{
  Sheet *sheet = data;
  PinSummaryRows *rows = pin_summary_rows_load (db, sheet->vehicle, error);
  g_autofree char *book = g_path_get_basename (pin_book_path (pin_desk_book (sheet->desk)));

  return rows != NULL ? pin_summary_new (rows, pin_desk_library (sheet->desk), book, error) : NULL;
}

static void
summary_loaded (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Sheet *sheet = user_data;
  g_autoptr (GError) error = NULL;

  sheet->summary = pin_desk_read_finish (PIN_DESK (source), result, &error);
  if (sheet->summary == NULL)
    {
      pin_tell_error (sheet->from, _("The sheet was not made:"), error);
      sheet_free (sheet);
    }
  else if (sheet->path != NULL)
    save (sheet);
  else
    print (sheet);
}

static void
make (GtkWidget *from, PinDesk *desk, gint64 vehicle, const char *path)
{
  Sheet *sheet = g_new0 (Sheet, 1);

  sheet->from = g_object_ref (from);
  sheet->desk = g_object_ref (desk);
  sheet->vehicle = vehicle;
  sheet->path = g_strdup (path);
  sheet->paper = usual_paper ();
  pin_desk_read (desk, load_summary, sheet, NULL, (GDestroyNotify) pin_summary_free, NULL,
                 summary_loaded, sheet);
}

void
pin_sheet_save (GtkWidget *from, PinDesk *desk, gint64 vehicle, const char *path)
{
  make (from, desk, vehicle, path);
}

void
pin_sheet_print (GtkWidget *from, PinDesk *desk, gint64 vehicle)
{
  make (from, desk, vehicle, NULL);
}
