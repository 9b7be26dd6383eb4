#include "window/stable-layout.h"

#include "window/restack.h"

/* px, those of words at the usual size of text */
#define GAP 15
#define PLAN_MOST 150
#define PLAN_LEAST 90
#define PLAN_HIGH 84
#define NAME 187
#define STATE_LEAST 270
#define HOURS 84
#define TOOLS 50              /* words; … */
#define TOOLS_FIXED 48        /* … and an icon */

enum
{
  PLAN,
  NAME_OF,
  STATE,
  HOURS_OF,
  TOOLS_OF,
  UNDER,
  N_PLACES,
};

struct _PinStableLayout
{
  GtkLayoutManager parent_instance;

  gboolean heading;
};

G_DEFINE_FINAL_TYPE (PinStableLayout, pin_stable_layout, GTK_TYPE_LAYOUT_MANAGER)

enum
{
  PROP_0,
  PROP_HEADING,
};

/* Where everything goes in one width. */
typedef struct
{
  GtkWidget *child[N_PLACES]; /* NULL: none, or hidden */
  GtkAllocation at[N_PLACES];
  gboolean stacked;
  int room;                   /* for the state beside the other columns; may be negative */
  int height;
} Places;

static void
take_children (Places *places, GtkWidget *widget)
{
  guint i = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && i < N_PLACES;
       child = gtk_widget_get_next_sibling (child))
    places->child[i++] = gtk_widget_get_visible (child) ? child : NULL;
}

static int
least_width (GtkWidget *child)
{
  int least = 0;

  if (child != NULL)
    gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  return least;
}

static int
height_of (const Places *places, guint i)
{
  int least = 0, natural = 0;

  if (places->child[i] != NULL)
    gtk_widget_measure (places->child[i], GTK_ORIENTATION_VERTICAL, places->at[i].width, &least,
                        &natural, NULL, NULL);
  return MAX (least, natural);
}

static void
set_columns (Places *places, int width, double text)
{
  GtkAllocation *at = places->at;
  int tools = (int) (TOOLS * text) + TOOLS_FIXED;

  at[TOOLS_OF].width = MAX (tools, least_width (places->child[TOOLS_OF]));
  at[HOURS_OF].width = MAX ((int) (HOURS * text), least_width (places->child[HOURS_OF]));
  at[NAME_OF].width = (int) (NAME * text);
  at[PLAN].width = PLAN_MOST;
  at[STATE].width = places->room = width - at[PLAN].width - at[NAME_OF].width - at[HOURS_OF].width
                                   - at[TOOLS_OF].width - 4 * GAP;
  places->stacked = at[STATE].width < STATE_LEAST * text;
  if (!places->stacked)
    return;
  at[PLAN].width = CLAMP (width / 6, PLAN_LEAST, PLAN_MOST);
  at[STATE].width = width - at[PLAN].width - at[TOOLS_OF].width - 2 * GAP;
  at[NAME_OF].width = at[STATE].width - at[HOURS_OF].width - GAP;
}

/* From left to right, and each in the middle of the height. */
static void
place_row (Places *places, const guint *which, guint n)
{
  int x = 0;

  for (guint i = 0; i < n; i++)
    {
      places->at[which[i]].x = x;
      x += places->at[which[i]].width + GAP;
    }
}

static void
set_heights (Places *places, int least)
{
  places->height = least;
  for (guint i = PLAN; i <= TOOLS_OF; i++)
    {
      places->at[i].height = i == PLAN && least > 0 ? PLAN_HIGH : height_of (places, i);
      places->height = MAX (places->height, places->at[i].height);
    }
  for (guint i = PLAN; i <= TOOLS_OF; i++)
    places->at[i].y = (places->height - places->at[i].height) / 2;
}

static void
stack (Places *places, int least)
{
  GtkAllocation *at = places->at;
  int top = MAX (at[NAME_OF].height, at[HOURS_OF].height);
  int words = top + at[STATE].height;

  places->height = MAX (least, MAX (words, at[TOOLS_OF].height));
  at[NAME_OF].y = at[HOURS_OF].y = (places->height - words) / 2;
  at[STATE].x = at[NAME_OF].x;
  at[STATE].y = at[NAME_OF].y + top;
  at[PLAN].y = (places->height - at[PLAN].height) / 2;
  at[TOOLS_OF].y = (places->height - at[TOOLS_OF].height) / 2;
}

static void
find_places (PinStableLayout *self, GtkWidget *widget, int width, Places *places)
{
  static const guint columns[] = { PLAN, NAME_OF, STATE, HOURS_OF, TOOLS_OF };
  static const guint stacked[] = { PLAN, NAME_OF, HOURS_OF, TOOLS_OF };
  int least = self->heading ? 0 : PLAN_HIGH;
  GtkAllocation *under = &places->at[UNDER];

  *places = (Places) { 0 };
  take_children (places, widget);
  set_columns (places, width, pin_text_scale (widget));
  if (places->stacked && self->heading)
    return;
  if (places->stacked)
    place_row (places, stacked, G_N_ELEMENTS (stacked));
  else
    place_row (places, columns, G_N_ELEMENTS (columns));
  set_heights (places, least);
  if (places->stacked)
    stack (places, least);
  under->x = places->at[NAME_OF].x;
  under->y = places->height;
  under->width = width - under->x;
  under->height = height_of (places, UNDER);
  places->height += under->height;
}

static GtkSizeRequestMode
pin_stable_layout_get_request_mode (GtkLayoutManager *layout, GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

/* The least that the words need when stacked; much more is welcome. */
static void
measure_width (GtkWidget *widget, int *minimum, int *natural)
{
  Places places = { 0 };
  double text = pin_text_scale (widget);
  int tools, hours, words;

  take_children (&places, widget);
  tools = MAX ((int) (TOOLS * text) + TOOLS_FIXED, least_width (places.child[TOOLS_OF]));
  hours = MAX ((int) (HOURS * text), least_width (places.child[HOURS_OF]));
  words = MAX (least_width (places.child[STATE]), least_width (places.child[NAME_OF]) + GAP + hours);
  *minimum = PLAN_LEAST + GAP + MAX (words + GAP + tools, least_width (places.child[UNDER]));
  *natural = MAX (*minimum, (int) (2 * (NAME + STATE_LEAST) * text));
}

static int
height_at (PinStableLayout *self, GtkWidget *widget, int width)
{
  Places places;

  find_places (self, widget, width, &places);
  return places.height;
}

/* For any width: the words are the highest in the least one, or where the columns
 * have just enough and the name least. */
static int
greatest_height (PinStableLayout *self, GtkWidget *widget)
{
  Places places = { 0 };
  int least, natural, columns;

  take_children (&places, widget);
  measure_width (widget, &least, &natural);
  set_columns (&places, 0, pin_text_scale (widget));
  columns = (int) (STATE_LEAST * pin_text_scale (widget)) + 1 - places.room;
  return MAX (height_at (self, widget, least), height_at (self, widget, columns));
}

static void
pin_stable_layout_measure (GtkLayoutManager *layout, GtkWidget *widget, GtkOrientation orientation,
                           int for_size, int *minimum, int *natural, int *minimum_baseline,
                           int *natural_baseline)
{
  PinStableLayout *self = PIN_STABLE_LAYOUT (layout);

  *minimum = *natural = 0;
  if (orientation == GTK_ORIENTATION_VERTICAL)
    *minimum = *natural = for_size < 0 ? greatest_height (self, widget)
                                       : height_at (self, widget, for_size);
  else if (!self->heading)
    measure_width (widget, minimum, natural);
}

static void
pin_stable_layout_allocate (GtkLayoutManager *layout, GtkWidget *widget, int width, int height,
                            int baseline)
{
  PinStableLayout *self = PIN_STABLE_LAYOUT (layout);
  gboolean rtl = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  Places places;

  find_places (self, widget, width, &places);
  for (guint i = 0; i < N_PLACES; i++)
    {
      GtkAllocation *at = &places.at[i];

      if (places.child[i] == NULL)
        continue;
      gtk_widget_set_child_visible (places.child[i], !(places.stacked && self->heading));
      if (places.stacked && self->heading)
        continue;
      if (rtl)
        at->x = width - at->x - at->width;
      at->width = MAX (at->width, least_width (places.child[i]));
      gtk_widget_size_allocate (places.child[i], at, -1);
    }
}

static void
pin_stable_layout_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id != PROP_HEADING)
    {
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
      return;
    }
  PIN_STABLE_LAYOUT (object)->heading = g_value_get_boolean (value);
  gtk_layout_manager_layout_changed (GTK_LAYOUT_MANAGER (object));
}

static void
pin_stable_layout_class_init (PinStableLayoutClass *klass)
{
  GtkLayoutManagerClass *layout_class = GTK_LAYOUT_MANAGER_CLASS (klass);

  G_OBJECT_CLASS (klass)->set_property = pin_stable_layout_set_property;
  layout_class->get_request_mode = pin_stable_layout_get_request_mode;
  layout_class->measure = pin_stable_layout_measure;
  layout_class->allocate = pin_stable_layout_allocate;
  g_object_class_install_property (G_OBJECT_CLASS (klass), PROP_HEADING,
    g_param_spec_boolean ("heading", NULL, NULL, FALSE, G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS));
}

static void
pin_stable_layout_init (PinStableLayout *self)
{
}
