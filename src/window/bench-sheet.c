#include "window/bench-sheet.h"

#include "window/restack.h"

#define SHARE 0.54            /* of the width, for the words */
#define BESIDE 24             /* px between words and drawing */
#define BELOW 12              /* px between what stands on one another */
#define LEAST_WIDTH 900       /* px at the usual text for two columns */
#define LEAST_IN_SIGHT 120    /* px of the drawing below the words, or none */
#define STACKED_DRAWING 420   /* px high below the words: there is always more to scroll */

struct _PinBenchSheet
{
  GtkLayoutManager parent_instance;

  gboolean stacked;
  int fold;                   /* px that are in sight when stacked */
};

G_DEFINE_FINAL_TYPE (PinBenchSheet, pin_bench_sheet, GTK_TYPE_LAYOUT_MANAGER)

typedef struct
{
  GtkWidget *hazards, *words, *drawing;
} Parts;

static Parts
parts_of (GtkWidget *widget)
{
  Parts parts;

  parts.hazards = gtk_widget_get_first_child (widget);
  parts.words = gtk_widget_get_next_sibling (parts.hazards);
  parts.drawing = gtk_widget_get_next_sibling (parts.words);
  return parts;
}

static int
least (GtkWidget *child, GtkOrientation orientation, int for_size)
{
  int minimum = 0;

  if (gtk_widget_should_layout (child))
    gtk_widget_measure (child, orientation, for_size, &minimum, NULL, NULL, NULL);
  return minimum;
}

/* With the gap below it; 0 if there are none. */
static int
hazards_height (const Parts *parts, int width)
{
  int height = least (parts->hazards, GTK_ORIENTATION_VERTICAL, width);

  return height > 0 ? height + BELOW : 0;
}

static int
column_width (int width)
{
  return (int) ((width - BESIDE) * SHARE);
}

static int
drawing_width (int width)
{
  return width - BESIDE - column_width (width);
}

void
pin_bench_sheet_survey (PinBenchSheet *self, int width, PinBenchNeed *need)
{
  GtkWidget *widget = gtk_layout_manager_get_widget (GTK_LAYOUT_MANAGER (self));
  Parts parts = parts_of (widget);
  int hazards = hazards_height (&parts, width);

  *need = (PinBenchNeed) { .column = column_width (width) };
  need->fits = width >= LEAST_WIDTH * pin_text_scale (widget)
               && least (parts.words, GTK_ORIENTATION_HORIZONTAL, -1) <= need->column
               && least (parts.drawing, GTK_ORIENTATION_HORIZONTAL, -1) <= drawing_width (width);
  if (!need->fits)
    return;
  need->words = hazards + least (parts.words, GTK_ORIENTATION_VERTICAL, need->column);
  need->drawing = hazards + least (parts.drawing, GTK_ORIENTATION_VERTICAL, drawing_width (width));
}

/* px that hazards and words want when the drawing is below them */
int
pin_bench_sheet_stacked_words (PinBenchSheet *self, int width)
{
  Parts parts = parts_of (gtk_layout_manager_get_widget (GTK_LAYOUT_MANAGER (self)));

  return hazards_height (&parts, width) + least (parts.words, GTK_ORIENTATION_VERTICAL, width);
}

/* @fold: px that are in sight without scrolling */
void
pin_bench_sheet_set_stacked (PinBenchSheet *self, gboolean stacked, int fold)
{
  if (self->stacked == stacked && (!stacked || self->fold == fold))
    return;
  self->stacked = stacked;
  self->fold = fold;
  gtk_layout_manager_layout_changed (GTK_LAYOUT_MANAGER (self));
}

/* Where the drawing begins below words that end at @end: not with a mere edge
 * of it in sight. */
static int
drawing_top (PinBenchSheet *self, int end)
{
  int top = end + BELOW;

  return self->fold > top && self->fold - top < LEAST_IN_SIGHT ? self->fold : top;
}

static GtkSizeRequestMode
pin_bench_sheet_get_request_mode (GtkLayoutManager *layout, GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
pin_bench_sheet_measure (GtkLayoutManager *layout, GtkWidget *widget, GtkOrientation orientation,
                         int for_size, int *minimum, int *natural, int *minimum_baseline,
                         int *natural_baseline)
{
  PinBenchSheet *self = PIN_BENCH_SHEET (layout);
  Parts parts = parts_of (widget);
  int words, drawing, top;

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      words = least (parts.words, orientation, -1);
      drawing = least (parts.drawing, orientation, -1);
      *minimum = *natural = MAX (MAX (words, drawing), least (parts.hazards, orientation, -1));
      return;
    }
  words = least (parts.words, orientation, self->stacked || for_size < 0 ? for_size : column_width (for_size));
  drawing = self->stacked ? STACKED_DRAWING
                          : least (parts.drawing, orientation, for_size < 0 ? -1 : drawing_width (for_size));
  top = hazards_height (&parts, for_size);
  *minimum = *natural = self->stacked ? drawing_top (self, top + words) + drawing : top + MAX (words, drawing);
}

static void
place (GtkWidget *child, int whole, int x, int y, int width, int height)
{
  gboolean rtl = gtk_widget_get_direction (child) == GTK_TEXT_DIR_RTL;

  if (gtk_widget_should_layout (child))
    gtk_widget_size_allocate (child, &(GtkAllocation) { rtl ? whole - x - width : x, y, width, height }, -1);
}

static void
pin_bench_sheet_allocate (GtkLayoutManager *layout, GtkWidget *widget, int width, int height,
                          int baseline)
{
  PinBenchSheet *self = PIN_BENCH_SHEET (layout);
  Parts parts = parts_of (widget);
  int top = hazards_height (&parts, width);
  int column = column_width (width);
  int words, below;

  place (parts.hazards, width, 0, 0, width, MAX (top - BELOW, 0));
  if (self->stacked)
    {
      words = least (parts.words, GTK_ORIENTATION_VERTICAL, width);
      place (parts.words, width, 0, top, width, words);
      below = drawing_top (self, top + words);
      place (parts.drawing, width, 0, below, width, MAX (height - below, STACKED_DRAWING));
      return;
    }
  place (parts.words, width, 0, top, column, height - top);
  place (parts.drawing, width, column + BESIDE, top, width - column - BESIDE, height - top);
}

static void
pin_bench_sheet_class_init (PinBenchSheetClass *klass)
{
  GtkLayoutManagerClass *layout_class = GTK_LAYOUT_MANAGER_CLASS (klass);

  layout_class->get_request_mode = pin_bench_sheet_get_request_mode;
  layout_class->measure = pin_bench_sheet_measure;
  layout_class->allocate = pin_bench_sheet_allocate;
}

static void
pin_bench_sheet_init (PinBenchSheet *self)
{
}
