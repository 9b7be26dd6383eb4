#pragma once

#include <cairo.h>

#include "book/book.h"
#include "library/library.h"

/* The summary sheet: one page that an honest buyer can read.  What is wrong,
 * owed or not checked comes before anything flattering. */

typedef enum { PIN_PAPER_A4, PIN_PAPER_LETTER } PinPaper;

typedef struct _PinSummaryRows PinSummaryRows;
typedef struct _PinSummary PinSummary;

gboolean        pin_paper_parse       (const char        *word,
                                       PinPaper          *paper);
void            pin_paper_size        (PinPaper           paper,
                                       double            *width,    /* points, 1/72 in */
                                       double            *height);

/* On the book's thread … */
PinSummaryRows *pin_summary_rows_load (PinDb             *db,
                                       gint64             vehicle,
                                       GError           **error);
void            pin_summary_rows_free (PinSummaryRows    *rows);
/* … and on the one that uses the library; takes @rows. */
PinSummary     *pin_summary_new       (PinSummaryRows    *rows,
                                       PinLibrary        *library,
                                       const char        *book_name,
                                       GError           **error);
void            pin_summary_free      (PinSummary        *self);
/* Both at once, blocking: for the terminal. */
PinSummary     *pin_summary_load      (PinBook           *book,
                                       PinLibrary        *library,
                                       gint64             vehicle,
                                       GError           **error);

const char     *pin_summary_name      (const PinSummary  *self);
int             pin_summary_pages     (PinSummary        *self,
                                       PinPaper           paper);
/* Draws page 0, 1 … in points; the same code for screen, PDF and printer. */
void            pin_summary_draw      (PinSummary        *self,
                                       PinPaper           paper,
                                       int                page,
                                       cairo_t           *cr);
gboolean        pin_summary_write_pdf (PinSummary        *self,
                                       PinPaper           paper,
                                       const char        *path,
                                       GError           **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinSummaryRows, pin_summary_rows_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinSummary, pin_summary_free)
