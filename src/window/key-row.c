#include "window/key-row.h"

#include "window/restack.h"

#define LETTER 16             /* px at the usual text, for the letter in the corner of each */

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
natural_width (GtkWidget *child)
{
  int natural;

  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &natural, NULL, NULL);
  return natural;
}

/* px that the words of all want, without breaking and clear of the letters */
static int
words_width (GtkWidget *widget)
{
  double width = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_should_layout (child))
      width += natural_width (child) + LETTER * pin_text_scale (widget);
  return (int) width;
}

static int
columns_for (PinKeyRow *self, GtkWidget *widget, int width, int *n)
{
  int widest, natural;

  *n = survey (widget, &widest, &natural);
  if (*n == 0)
    return 1;
  return words_width (widget) + (*n - 1) * self->spacing <= width ? *n : (*n + 1) / 2;
}

/* Fills @widths, of one row or of the columns: all alike, but in a row that is
 * too narrow for that each by its words. */
static void
share_out (PinKeyRow *self, GtkWidget *widget, int width, int columns, int n, int *widths)
{
  int widest, natural, i = 0;
  int room = width - (columns - 1) * self->spacing;
  int over = room - words_width (widget);

  survey (widget, &widest, &natural);
  if (columns < n || natural * n <= room)
    {
      for (i = 0; i < columns; i++)
        widths[i] = (i + 1) * room / columns - i * room / columns;
      return;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_should_layout (child))
      {
        widths[i] = natural_width (child) + (int) (LETTER * pin_text_scale (widget))
                    + (i + 1) * over / n - i * over / n;
        i++;
      }
}

static int
tallest (GtkWidget *widget, int columns, const int *widths)
{
  int most = 0, i = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_should_layout (child))
      {
        int minimum;

        gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, widths != NULL ? widths[i % columns] : -1,
                            &minimum, NULL, NULL, NULL);
        most = MAX (most, minimum);
        i++;
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
  g_autofree int *widths = NULL;

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = half * widest + MAX (half - 1, 0) * self->spacing;
      *natural = MAX (n * widest_natural + MAX (n - 1, 0) * self->spacing, *minimum);
      return;
    }
  columns = for_size < 0 ? MAX (n, 1) : columns_for (self, widget, for_size, &n);
  rows = (n + columns - 1) / columns;
  widths = g_new0 (int, columns);
  if (for_size >= 0)
    share_out (self, widget, for_size, columns, n, widths);
  *minimum = *natural = rows * tallest (widget, columns, for_size < 0 ? NULL : widths)
                        + MAX (rows - 1, 0) * self->spacing;
}

static void
pin_key_row_allocate (GtkLayoutManager *layout, GtkWidget *widget, int width, int height,
                      int baseline)
{
  PinKeyRow *self = PIN_KEY_ROW (layout);
  gboolean rtl = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  int n, i = 0, x = 0;
  int columns = columns_for (self, widget, width, &n);
  int rows = MAX ((n + columns - 1) / columns, 1);
  int key_height = (height - (rows - 1) * self->spacing) / rows;
  g_autofree int *widths = g_new0 (int, columns);

  share_out (self, widget, width, columns, n, widths);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_should_layout (child))
      {
        int key_width = widths[i % columns];

        x = i % columns == 0 ? 0 : x;
        gtk_widget_size_allocate (child, &(GtkAllocation) { rtl ? width - x - key_width : x,
                                                            i / columns * (key_height + self->spacing),
                                                            key_width, key_height }, -1);
        x += key_width + self->spacing;
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
