#include "window/footer-layout.h"

#define MOST 12

struct _PinFooterLayout
{
  GtkLayoutManager parent_instance;
};

G_DEFINE_FINAL_TYPE (PinFooterLayout, pin_footer_layout, GTK_TYPE_LAYOUT_MANAGER)

static GQuark
weight_quark (void)
{
  return g_quark_from_static_string ("pin-footer-weight");
}

/* The heaviest stays longest. */
void
pin_footer_set_weight (GtkWidget *cell, int weight)
{
  g_object_set_qdata (G_OBJECT (cell), weight_quark (), GINT_TO_POINTER (weight));
}

typedef struct
{
  GtkWidget *widget;
  int weight, least, natural, width;
} Cell;

static guint
take_cells (GtkWidget *footer, Cell *cells)
{
  guint n = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (footer); child != NULL && n < MOST;
       child = gtk_widget_get_next_sibling (child))
    {
      Cell *cell = &cells[n++];

      *cell = (Cell) { child, GPOINTER_TO_INT (g_object_get_qdata (G_OBJECT (child), weight_quark ())) };
      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &cell->least, &cell->natural, NULL, NULL);
    }
  return n;
}

static Cell *
heaviest_without_width (Cell *cells, guint n)
{
  Cell *found = NULL;

  for (guint i = 0; i < n; i++)
    if (cells[i].width < 0 && (found == NULL || cells[i].weight > found->weight))
      found = &cells[i];
  return found;
}

/* Twice its least is a word or two; less says nothing. */
static void
share_out (Cell *cells, guint n, int width)
{
  Cell *cell;

  for (guint i = 0; i < n; i++)
    cells[i].width = -1;
  while ((cell = heaviest_without_width (cells, n)) != NULL)
    {
      cell->width = MIN (cell->natural, width);
      if (cell->width < MIN (cell->natural, 2 * cell->least))
        cell->width = 0;
      width -= cell->width;
    }
  for (guint i = 0; i < n; i++)
    if (gtk_widget_get_hexpand (cells[i].widget))
      cells[i].width += width;
}

static void
pin_footer_layout_measure (GtkLayoutManager *layout, GtkWidget *widget, GtkOrientation orientation,
                           int for_size, int *minimum, int *natural, int *minimum_baseline,
                           int *natural_baseline)
{
  Cell cells[MOST];
  guint n = take_cells (widget, cells);

  *minimum = *natural = 0;
  for (guint i = 0; i < n; i++)
    {
      int least, usual;

      gtk_widget_measure (cells[i].widget, orientation, -1, &least, &usual, NULL, NULL);
      *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? *natural + usual : MAX (*natural, usual);
      *minimum = MAX (*minimum, least);
    }
}

static void
pin_footer_layout_allocate (GtkLayoutManager *layout, GtkWidget *widget, int width, int height,
                            int baseline)
{
  gboolean rtl = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  Cell cells[MOST];
  guint n = take_cells (widget, cells);
  int x = 0;

  share_out (cells, n, width);
  for (guint i = 0; i < n; i++)
    {
      int at = rtl ? width - x - cells[i].width : x;

      gtk_widget_set_child_visible (cells[i].widget, cells[i].width > 0);
      if (cells[i].width <= 0)
        continue;
      gtk_widget_size_allocate (cells[i].widget,
                                &(GtkAllocation) { at, 0, MAX (cells[i].width, cells[i].least), height }, -1);
      x += cells[i].width;
    }
}

static void
pin_footer_layout_class_init (PinFooterLayoutClass *klass)
{
  GtkLayoutManagerClass *layout_class = GTK_LAYOUT_MANAGER_CLASS (klass);

  layout_class->measure = pin_footer_layout_measure;
  layout_class->allocate = pin_footer_layout_allocate;
}

static void
pin_footer_layout_init (PinFooterLayout *self)
{
}
