#include "window/key-row.h"

#define HIGH 94               /* px */

struct _PinKeyRow
{
  GtkLayoutManager parent_instance;

  int spacing;
};

G_DEFINE_FINAL_TYPE (PinKeyRow, pin_key_row, GTK_TYPE_LAYOUT_MANAGER)

/* How many keys, and the widest one's least width. */
static int
survey (GtkWidget *widget, int *widest, int *widest_natural)
{
  int n = 0;

  *widest = *widest_natural = 0;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_should_layout (child))
      {
        int minimum, natural;

        gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &minimum, &natural, NULL, NULL);
        *widest = MAX (*widest, minimum);
        *widest_natural = MAX (*widest_natural, natural);
        n++;
      }
  return n;
}

static int
columns_for (PinKeyRow *self, GtkWidget *widget, int width, int *n)
{
  int widest, natural;

  *n = survey (widget, &widest, &natural);
  if (*n == 0)
    return 1;
  return *n * widest + (*n - 1) * self->spacing <= width ? *n : (*n + 1) / 2;
}

static int
tallest (GtkWidget *widget, int most, int key_width)
{
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_should_layout (child))
      {
        int minimum;

        gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, key_width, &minimum, NULL, NULL, NULL);
        most = MAX (most, minimum);
      }
  return most;
}

static GtkSizeRequestMode
pin_key_row_get_request_mode (GtkLayoutManager *layout, GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
pin_key_row_measure (GtkLayoutManager *layout, GtkWidget *widget, GtkOrientation orientation,
                     int for_size, int *minimum, int *natural, int *minimum_baseline,
                     int *natural_baseline)
{
  PinKeyRow *self = PIN_KEY_ROW (layout);
  int widest, widest_natural;
  int n = survey (widget, &widest, &widest_natural);
  int half = (n + 1) / 2;
  int columns, rows;

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = half * widest + MAX (half - 1, 0) * self->spacing;
      *natural = MAX (n * widest_natural + MAX (n - 1, 0) * self->spacing, *minimum);
      return;
    }
  /* One row has the room for high keys; two leave it to the question. */
  columns = for_size < 0 ? MAX (n, 1) : columns_for (self, widget, for_size, &n);
  rows = (n + columns - 1) / columns;
  *minimum = *natural = rows * tallest (widget, rows > 1 ? 0 : HIGH, for_size < 0 ? -1
                                                : (for_size - (columns - 1) * self->spacing) / columns)
                        + MAX (rows - 1, 0) * self->spacing;
}

static void
pin_key_row_allocate (GtkLayoutManager *layout, GtkWidget *widget, int width, int height,
                      int baseline)
{
  PinKeyRow *self = PIN_KEY_ROW (layout);
  gboolean rtl = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  int n, i = 0;
  int columns = columns_for (self, widget, width, &n);
  int rows = MAX ((n + columns - 1) / columns, 1);
  int key_height = (height - (rows - 1) * self->spacing) / rows;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_should_layout (child))
      {
        /* By its ends, so that the last key ends where the row does. */
        int x = i % columns * (width + self->spacing) / columns;
        int key_width = (i % columns + 1) * (width + self->spacing) / columns - self->spacing - x;

        gtk_widget_size_allocate (child, &(GtkAllocation) { rtl ? width - x - key_width : x,
                                                            i / columns * (key_height + self->spacing),
                                                            key_width, key_height }, -1);
        i++;
      }
}

static void
pin_key_row_class_init (PinKeyRowClass *klass)
{
  GtkLayoutManagerClass *layout_class = GTK_LAYOUT_MANAGER_CLASS (klass);

  layout_class->get_request_mode = pin_key_row_get_request_mode;
  layout_class->measure = pin_key_row_measure;
  layout_class->allocate = pin_key_row_allocate;
}

static void
pin_key_row_init (PinKeyRow *self)
{
}

GtkLayoutManager *
pin_key_row_new (int spacing)
{
  PinKeyRow *self = g_object_new (PIN_TYPE_KEY_ROW, NULL);

  self->spacing = spacing;
  return GTK_LAYOUT_MANAGER (self);
}
