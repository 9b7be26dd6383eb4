#include "window/bench-room.h"

#include "window/bench-sheet.h"
#include "window/restack.h"

#define BELOW 9               /* px between what is read and what is answered */
#define LEAST 160             /* px high; the parts scroll */
#define MOST_FOR_ANSWER 0.62  /* of the height, where the words do not fit */
#define LOW 660               /* px at the usual text: a lower page is tight */

struct _PinBenchRoom
{
  GtkLayoutManager parent_instance;

  gboolean tight;
  guint idle;
};

G_DEFINE_FINAL_TYPE (PinBenchRoom, pin_bench_room, GTK_TYPE_LAYOUT_MANAGER)

typedef enum
{
  BESIDE,                     /* the answer under the words, the drawing beside both */
  UNDER,                      /* the answer under words and drawing */
  STACKED,
} Kind;

/* What a scrolled window shows. */
static GtkWidget *
content_of (GtkWidget *scroller)
{
  GtkWidget *child = gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (scroller));

  return GTK_IS_VIEWPORT (child) ? gtk_viewport_get_child (GTK_VIEWPORT (child)) : child;
}

static int
measure (GtkWidget *child, GtkOrientation orientation, int for_size)
{
  int minimum, natural;

  gtk_widget_measure (child, orientation, for_size, &minimum, &natural, NULL, NULL);
  return orientation == GTK_ORIENTATION_HORIZONTAL ? minimum : natural;
}

/* With the gap over it; 0 if there is nothing to answer there. */
static int
answer_height (GtkWidget *answer, int width)
{
  int least = measure (answer, GTK_ORIENTATION_HORIZONTAL, -1);
  int height = measure (answer, GTK_ORIENTATION_VERTICAL, MAX (width, least));

  return height > 0 ? height + BELOW : 0;
}

static Kind
kind_for (PinBenchSheet *sheet, GtkWidget *answer, int width, int height, int *answer_room)
{
  PinBenchNeed need;
  int high;

  pin_bench_sheet_survey (sheet, width, &need);
  if (need.fits && measure (answer, GTK_ORIENTATION_HORIZONTAL, -1) <= need.column)
    {
      *answer_room = answer_height (answer, need.column);
      if (need.words + *answer_room <= height && need.drawing <= height)
        return BESIDE;
    }
  high = answer_height (answer, width);
  *answer_room = high;
  if (need.fits && MAX (need.words, need.drawing) + high <= height)
    return UNDER;
  *answer_room = MIN (high, MAX (height - pin_bench_sheet_stacked_words (sheet, width),
                                 (int) (height * MOST_FOR_ANSWER)));
  return STACKED;
}

static gboolean
set_tight (gpointer data)
{
  PinBenchRoom *self = data;
  GtkWidget *widget = gtk_layout_manager_get_widget (GTK_LAYOUT_MANAGER (self));
  GtkWidget *page = widget != NULL ? gtk_widget_get_parent (widget) : NULL;

  self->idle = 0;
  if (page == NULL)
    return G_SOURCE_REMOVE;
  if (self->tight)
    gtk_widget_add_css_class (page, "tight");
  else
    gtk_widget_remove_css_class (page, "tight");
  return G_SOURCE_REMOVE;
}

/* By the page's height, which does not depend on what stands on it.  The look is
 * changed afterwards: nothing may change while room is being given. */
static void
look_at_height (PinBenchRoom *self, GtkWidget *widget)
{
  int height = gtk_widget_get_height (gtk_widget_get_parent (widget));
  gboolean tight = height < LOW * pin_text_scale (widget);

  if (tight == self->tight)
    return;
  self->tight = tight;
  if (self->idle == 0)
    self->idle = g_idle_add_full (GTK_PRIORITY_RESIZE, set_tight, self, NULL);
}

static GtkSizeRequestMode
pin_bench_room_get_request_mode (GtkLayoutManager *layout, GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
pin_bench_room_measure (GtkLayoutManager *layout, GtkWidget *widget, GtkOrientation orientation,
                        int for_size, int *minimum, int *natural, int *minimum_baseline,
                        int *natural_baseline)
{
  *minimum = *natural = orientation == GTK_ORIENTATION_VERTICAL ? LEAST : 0;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (orientation == GTK_ORIENTATION_HORIZONTAL)
      *minimum = *natural = MAX (*minimum, measure (child, orientation, -1));
}

static void
give (GtkWidget *child, int whole, int y, int width, int height)
{
  gboolean rtl = gtk_widget_get_direction (child) == GTK_TEXT_DIR_RTL;
  GtkRequisition least;

  gtk_widget_get_preferred_size (child, &least, NULL);
  width = MAX (width, least.width);
  height = MAX (height, least.height);
  gtk_widget_size_allocate (child, &(GtkAllocation) { rtl ? whole - width : 0, y, width, height }, -1);
}

static void
pin_bench_room_allocate (GtkLayoutManager *layout, GtkWidget *widget, int width, int height,
                         int baseline)
{
  GtkWidget *reading = gtk_widget_get_first_child (widget);
  GtkWidget *answering = gtk_widget_get_next_sibling (reading);
  PinBenchSheet *sheet = PIN_BENCH_SHEET (gtk_widget_get_layout_manager (content_of (reading)));
  int answer = 0;
  Kind kind = kind_for (sheet, content_of (answering), width, height, &answer);
  PinBenchNeed need;

  pin_bench_sheet_survey (sheet, width, &need);
  pin_bench_sheet_set_stacked (sheet, kind == STACKED, height - answer);
  /* Beside the drawing the answer lies over the empty foot of the words. */
  give (reading, width, 0, width, kind == BESIDE ? height : height - answer);
  gtk_widget_set_child_visible (answering, answer > 0);
  if (answer > 0)
    give (answering, width, height - answer + BELOW, kind == BESIDE ? need.column : width, answer - BELOW);
  look_at_height (PIN_BENCH_ROOM (layout), widget);
}

static void
pin_bench_room_dispose (GObject *object)
{
  g_clear_handle_id (&PIN_BENCH_ROOM (object)->idle, g_source_remove);
  G_OBJECT_CLASS (pin_bench_room_parent_class)->dispose (object);
}

static void
pin_bench_room_class_init (PinBenchRoomClass *klass)
{
  GtkLayoutManagerClass *layout_class = GTK_LAYOUT_MANAGER_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pin_bench_room_dispose;
  layout_class->get_request_mode = pin_bench_room_get_request_mode;
  layout_class->measure = pin_bench_room_measure;
  layout_class->allocate = pin_bench_room_allocate;
}

static void
pin_bench_room_init (PinBenchRoom *self)
{
}
