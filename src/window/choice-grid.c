#include "window/choice-grid.h"

#include "window/restack.h"

#define GAP 9                 /* px */
#define LEAST_COLUMN 290      /* px at the usual text */

struct _PinChoiceGrid
{
  GtkLayoutManager parent_instance;
};

G_DEFINE_FINAL_TYPE (PinChoiceGrid, pin_choice_grid, GTK_TYPE_LAYOUT_MANAGER)

static GtkWidget *
next_shown (GtkWidget *child)
{
  while (child != NULL && !gtk_widget_should_layout (child))
    child = gtk_widget_get_next_sibling (child);
  return child;
}

static int
column_width (int width, int columns)
{
  return (width - (columns - 1) * GAP) / columns;
}

/* Of the row that begins with *child, which is moved behind it. */
static int
row_height (GtkWidget **child, int columns, int width)
{
  int height = 0;

  for (int i = 0; i < columns && *child != NULL; i++)
    {
      int minimum;

      gtk_widget_measure (*child, GTK_ORIENTATION_VERTICAL, width, &minimum, NULL, NULL, NULL);
      height = MAX (height, minimum);
      *child = next_shown (gtk_widget_get_next_sibling (*child));
    }
  return height;
}

static int
height_in (GtkWidget *widget, int columns, int width)
{
  int height = 0;

  for (GtkWidget *child = next_shown (gtk_widget_get_first_child (widget)); child != NULL;)
    height += row_height (&child, columns, column_width (width, columns)) + GAP;
  return MAX (height - GAP, 0);
}

static int
widest (GtkWidget *widget)
{
  int width = 0, minimum;

  for (GtkWidget *child = next_shown (gtk_widget_get_first_child (widget)); child != NULL;
       child = next_shown (gtk_widget_get_next_sibling (child)))
    {
      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &minimum, NULL, NULL, NULL);
      width = MAX (width, minimum);
    }
  return width;
}

static int
columns_for (GtkWidget *widget, int width)
{
  double column = MAX (LEAST_COLUMN * pin_text_scale (widget), widest (widget));

  return column_width (width, 2) >= column && height_in (widget, 2, width) < height_in (widget, 1, width) ? 2 : 1;
}

static GtkSizeRequestMode
pin_choice_grid_get_request_mode (GtkLayoutManager *layout, GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
pin_choice_grid_measure (GtkLayoutManager *layout, GtkWidget *widget, GtkOrientation orientation,
                         int for_size, int *minimum, int *natural, int *minimum_baseline,
                         int *natural_baseline)
{
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    *minimum = *natural = widest (widget);
  else if (for_size < 0)
    *minimum = *natural = height_in (widget, 1, widest (widget));
  else
    *minimum = *natural = height_in (widget, columns_for (widget, for_size), for_size);
}

static void
pin_choice_grid_allocate (GtkLayoutManager *layout, GtkWidget *widget, int width, int height,
                          int baseline)
{
  gboolean rtl = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  int columns = columns_for (widget, width);
  int each = column_width (width, columns);
  int y = 0;

  for (GtkWidget *child = next_shown (gtk_widget_get_first_child (widget)), *after = child; child != NULL;
       child = after)
    {
      int high = row_height (&after, columns, each);

      for (int x = 0; child != after; child = next_shown (gtk_widget_get_next_sibling (child)), x += each + GAP)
        gtk_widget_size_allocate (child, &(GtkAllocation) { rtl ? width - x - each : x, y, each, high }, -1);
      y += high + GAP;
    }
}

static void
pin_choice_grid_class_init (PinChoiceGridClass *klass)
{
  GtkLayoutManagerClass *layout_class = GTK_LAYOUT_MANAGER_CLASS (klass);

  layout_class->get_request_mode = pin_choice_grid_get_request_mode;
  layout_class->measure = pin_choice_grid_measure;
  layout_class->allocate = pin_choice_grid_allocate;
}

static void
pin_choice_grid_init (PinChoiceGrid *self)
{
}
