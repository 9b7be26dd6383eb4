#include <math.h>
#include <string.h>

#include "plan-fixture.h"

static void
test_outcomes (void)
{
  g_assert_cmpint (pin_mark_of_outcome (PIN_OUTCOME_PASS, FALSE), ==, PIN_MARK_PASS);
  g_assert_cmpint (pin_mark_of_outcome (PIN_OUTCOME_WATCH, FALSE), ==, PIN_MARK_WATCH);
  g_assert_cmpint (pin_mark_of_outcome (PIN_OUTCOME_FAIL, FALSE), ==, PIN_MARK_FAIL);
  g_assert_cmpint (pin_mark_of_outcome (PIN_OUTCOME_FAIL, TRUE), ==, PIN_MARK_UNSAFE);
  g_assert_cmpint (pin_mark_of_outcome (PIN_OUTCOME_NOT_CHECKED, FALSE), ==, PIN_MARK_NOT_CHECKED);
  g_assert_cmpint (pin_mark_of_outcome (PIN_OUTCOME_DOES_NOT_APPLY, FALSE), ==, PIN_MARK_DOES_NOT_APPLY);
  g_assert_cmpint (pin_mark_of_outcome (PIN_OUTCOME_NONE, FALSE), ==, PIN_MARK_NONE);
}

/* ---- shapes --------------------------------------------------------------- */

#define PICTURE 40

/* Every colour black on a white field: what is left is the shape. */
static PinPalette
without_colour (void)
{
  PinPalette palette;
  const PinInk black = { 0, 0, 0 }, white = { 1, 1, 1 };

  for (guint i = 0; i < pin_palette_size (); i++)
    *(PinInk *) pin_palette_nth (&palette, i) = black;
  palette.paper = palette.raised = white;
  return palette;
}

static cairo_surface_t *
picture_of (const PinPalette *palette, PinMark mark, double diameter)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, PICTURE, PICTURE);
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  pin_mark_draw (cr, palette, mark, PICTURE / 2.0, PICTURE / 2.0, diameter, FALSE);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static int
grey_at (cairo_surface_t *surface, int x, int y)
{
  const guchar *row = cairo_image_surface_get_data (surface) + y * cairo_image_surface_get_stride (surface);

  return row[4 * x];
}

/* px that differ by more than half between black and white. */
static guint
difference (cairo_surface_t *a, cairo_surface_t *b)
{
  guint differing = 0;

  for (int y = 0; y < PICTURE; y++)
    for (int x = 0; x < PICTURE; x++)
      differing += abs (grey_at (a, x, y) - grey_at (b, x, y)) > 128;
  return differing;
}

/* Every pair of marks differs in at least a tenth of the mark's square, with all
 * colours taken away. */
static void
test_shapes (void)
{
  const double diameter = 14;
  PinPalette palette = without_colour ();

  for (PinMark one = PIN_MARK_PASS; one <= PIN_MARK_OWED; one++)
    for (PinMark other = PIN_MARK_PASS; other < one; other++)
      {
        cairo_surface_t *a = picture_of (&palette, one, diameter);
        cairo_surface_t *b = picture_of (&palette, other, diameter);

        if (difference (a, b) < diameter * diameter / 10)
          g_error ("marks %d and %d differ in %u px only", one, other, difference (a, b));
        cairo_surface_destroy (a);
        cairo_surface_destroy (b);
      }
}

/* A mark keeps to its diameter but for half a line. */
static void
test_size_of_shapes (void)
{
  PinPalette palette = without_colour ();
  const double diameter = 26;

  for (PinMark mark = PIN_MARK_PASS; mark <= PIN_MARK_OWED; mark++)
    {
      cairo_surface_t *surface = picture_of (&palette, mark, diameter);
      guint drawn = 0;

      for (int y = 0; y < PICTURE; y++)
        for (int x = 0; x < PICTURE; x++)
          {
            gboolean dark = grey_at (surface, x, y) < 128;
            double reach = MAX (fabs (x + 0.5 - PICTURE / 2.0), fabs (y + 0.5 - PICTURE / 2.0));

            drawn += dark;
            g_assert_false (dark && reach > diameter / 2 + 2);
          }
      g_assert_cmpuint (drawn, >, diameter);
      cairo_surface_destroy (surface);
    }
}

/* ---- layout --------------------------------------------------------------- */

typedef struct
{
  const char *name;
  double width, height, scale;
  int turn;
  gboolean small, unchecked;
} Case;

static const Case cases[] = {
  { "vehicle", 740, 400, 0, 0, FALSE, FALSE },
  { "vehicle, new", 740, 400, 0, 0, FALSE, TRUE },
  { "vehicle, turned", 420, 700, 0, 90, FALSE, FALSE },
  { "bench", 594, 330, 0, 0, FALSE, FALSE },
  { "sheet", 1100, 520, 0, 0, FALSE, TRUE },
  { "stable", 142, 90, 0.25, 0, TRUE, FALSE },
};

static PinPlan
plan_of (const Case *c, const PinChassis *chassis)
{
  PinPlan plan = { .chassis = chassis, .palette = pin_palette_light (), .turn = c->turn, .small = c->small,
                   .dimensions = !c->small };

  pin_plan_fit (&plan, c->width, c->height, 12);
  if (c->scale > 0)
    plan.scale = MIN (plan.scale, c->scale);
  return plan;
}

static const PinMarkSpot *
nth_spot (const PinMarkLayout *layout, guint i)
{
  return &g_array_index (layout->spots, PinMarkSpot, i);
}

static void
assert_apart (const char *where, const PinMarkLayout *layout)
{
  for (guint i = 0; i < layout->spots->len; i++)
    for (guint k = 0; k < i; k++)
      {
        const PinMarkSpot *a = nth_spot (layout, i), *b = nth_spot (layout, k);

        if (hypot (a->px - b->px, a->py - b->py) < (a->diameter + b->diameter) / 2)
          g_error ("%s: marks %u and %u overlap", where, a->index, b->index);
      }
}

/* A mark moves if and only if another is nearer to its place than the gap. */
static void
assert_only_crowds_moved (const char *where, const PinMarkLayout *layout)
{
  for (guint i = 0; i < layout->spots->len; i++)
    {
      const PinMarkSpot *a = nth_spot (layout, i);
      gboolean crowded = FALSE;

      for (guint k = 0; k < layout->spots->len; k++)
        {
          const PinMarkSpot *b = nth_spot (layout, k);

          if (i != k && hypot (a->ax - b->ax, a->ay - b->ay) < (a->diameter + b->diameter) / 2 + 3 - 1e-6)
            crowded = TRUE;
        }
      if (crowded != (a->crowd >= 0))
        g_error ("%s: mark %u is taken for %s", where, a->index, crowded ? "single" : "crowded");
      if (!crowded)
        {
          g_assert_cmpfloat (a->px, ==, a->ax);
          g_assert_cmpfloat (a->py, ==, a->ay);
        }
    }
}

static void
assert_within (const char *where, const PinMarkLayout *layout, double width, double height)
{
  for (guint i = 0; i < layout->spots->len; i++)
    {
      const PinMarkSpot *spot = nth_spot (layout, i);
      double r = spot->diameter / 2;

      if (spot->px < r || spot->py < r || spot->px > width - r || spot->py > height - r)
        g_error ("%s: mark %u leaves the field at %.1f, %.1f", where, spot->index, spot->px, spot->py);
    }
}

static void
assert_same (const PinMarkLayout *a, const PinMarkLayout *b)
{
  g_assert_cmpuint (a->spots->len, ==, b->spots->len);
  g_assert_cmpuint (a->crowds->len, ==, b->crowds->len);
  for (guint i = 0; i < a->spots->len; i++)
    {
      g_assert_cmpuint (nth_spot (a, i)->index, ==, nth_spot (b, i)->index);
      g_assert_cmpfloat (nth_spot (a, i)->px, ==, nth_spot (b, i)->px);
      g_assert_cmpfloat (nth_spot (a, i)->py, ==, nth_spot (b, i)->py);
    }
}

static void
check_case (const Case *c, const PinChassis *chassis)
{
  g_autofree char *where = g_strdup_printf ("%s, %s", chassis->id, c->name);
  g_autofree PinMarkPlace *places = plan_fixture_places (chassis, c->unchecked);
  PinPlan plan = plan_of (c, chassis);
  g_autoptr (PinMarkLayout) layout = pin_mark_layout_new (&plan, places, chassis->positions->len, NULL);
  g_autoptr (PinMarkLayout) again = pin_mark_layout_new (&plan, places, chassis->positions->len, NULL);

  g_assert_cmpuint (layout->spots->len, >, 5);
  assert_apart (where, layout);
  assert_only_crowds_moved (where, layout);
  assert_within (where, layout, c->width, c->height);
  assert_same (layout, again);
}

static void
test_layout (void)
{
  g_autoptr (GPtrArray) all = plan_fixture_chassis ();
  guint crowds = 0;

  for (guint i = 0; i < all->len; i++)
    for (guint k = 0; k < G_N_ELEMENTS (cases); k++)
      {
        const PinChassis *chassis = g_ptr_array_index (all, i);
        g_autofree PinMarkPlace *places = plan_fixture_places (chassis, cases[k].unchecked);
        PinPlan plan = plan_of (&cases[k], chassis);
        g_autoptr (PinMarkLayout) layout = pin_mark_layout_new (&plan, places, chassis->positions->len, NULL);

        crowds += layout->crowds->len;
        check_case (&cases[k], chassis);
      }
  g_assert_cmpuint (crowds, >, 20); /* else the shipped cars no longer try the rule */
}

/* At small scale only what is not a pass is worth a mark. */
static void
test_small (void)
{
  PinMarkPlace places[] = {
    { 0, 0, 0, PIN_MARK_PASS },
    { 1, 100, 0, PIN_MARK_WATCH },
    { 2, 100, 100, PIN_MARK_DOES_NOT_APPLY },
    { 3, -100, 0, PIN_MARK_NOT_CHECKED },
    { 4, -100, 100, PIN_MARK_NONE },
  };
  PinPlan plan = { .scale = 0.25, .x = 50, .y = 50 };
  g_autoptr (PinMarkLayout) layout = pin_mark_layout_new (&plan, places, G_N_ELEMENTS (places), NULL);

  g_assert_cmpuint (layout->spots->len, ==, 2);
  g_assert_cmpuint (nth_spot (layout, 0)->index, ==, 1);
  g_assert_cmpuint (nth_spot (layout, 1)->index, ==, 3);
}

static int
weight_of (PinMark mark)
{
  const PinMark rising[] = { PIN_MARK_NOT_CHECKED, PIN_MARK_WATCH, PIN_MARK_OWED, PIN_MARK_FAIL, PIN_MARK_UNSAFE };

  for (guint i = 0; i < G_N_ELEMENTS (rising); i++)
    if (rising[i] == mark)
      return (int) i;
  return -1;
}

/* What a small plan leaves out stands next to a mark that is at least as grave. */
static void
test_small_keeps_worst (void)
{
  g_autoptr (GPtrArray) all = plan_fixture_chassis ();
  guint left_out = 0;

  for (guint i = 0; i < all->len; i++)
    {
      const PinChassis *chassis = g_ptr_array_index (all, i);
      g_autofree PinMarkPlace *places = plan_fixture_places (chassis, FALSE);
      PinPlan plan = { .chassis = chassis, .scale = 0.25 };
      g_autoptr (PinMarkLayout) layout = pin_mark_layout_new (&plan, places, chassis->positions->len, NULL);

      for (guint k = 0; k < chassis->positions->len; k++)
        {
          gboolean covered = weight_of (places[k].mark) < 0;
          double px, py;

          pin_plan_point (&plan, places[k].x, places[k].y, &px, &py);
          for (guint n = 0; n < layout->spots->len; n++)
            {
              const PinMarkSpot *spot = nth_spot (layout, n);

              covered |= weight_of (spot->mark) >= weight_of (places[k].mark)
                         && hypot (spot->px - px, spot->py - py) < 12;
            }
          g_assert_true (covered);
        }
      left_out += chassis->positions->len - layout->spots->len;
      g_assert_cmpuint (layout->crowds->len, ==, 0);
    }
  g_assert_cmpuint (left_out, >, 0);
}

/* A pair left of the centre line, in free space: a row of pitch 17, straight out. */
static void
test_pair (void)
{
  PinMarkPlace places[] = {
    { 7, 40, 20, PIN_MARK_WATCH },
    { 8, 38, 20, PIN_MARK_FAIL },
  };
  PinPlan plan = { .scale = 1, .x = 200, .y = 200 };
  g_autoptr (PinMarkLayout) layout = pin_mark_layout_new (&plan, places, 2, NULL);
  const PinMarkCrowd *crowd = &g_array_index (layout->crowds, PinMarkCrowd, 0);

  g_assert_cmpuint (layout->crowds->len, ==, 1);
  g_assert_cmpuint (nth_spot (layout, 0)->index, ==, 7);
  g_assert_cmpfloat_with_epsilon (crowd->x, 239, 1e-9);
  g_assert_cmpfloat_with_epsilon (crowd->y, 180, 1e-9);
  g_assert_cmpfloat_with_epsilon (nth_spot (layout, 0)->py, 162, 1e-9);
  g_assert_cmpfloat_with_epsilon (nth_spot (layout, 1)->py, 162, 1e-9);
  g_assert_cmpfloat_with_epsilon (nth_spot (layout, 0)->px - nth_spot (layout, 1)->px, 17, 1e-9);
}

/* What must be kept clear is kept clear. */
static void
test_avoid (void)
{
  PinMarkPlace places[] = {
    { 0, 40, 20, PIN_MARK_WATCH },
    { 1, 40, 20, PIN_MARK_WATCH },
    { 2, 40, 20, PIN_MARK_WATCH },
  };
  PinPlan plan = { .scale = 1, .x = 200, .y = 200, .width = 400, .height = 400 };
  PinPlanRect avoid = { 180, 100, 120, 72 };
  g_autoptr (PinMarkLayout) layout = pin_mark_layout_new (&plan, places, 3, &avoid);

  for (guint i = 0; i < 3; i++)
    {
      const PinMarkSpot *spot = nth_spot (layout, i);
      double dx = MAX (MAX (avoid.x - spot->px, spot->px - avoid.x - avoid.width), 0);
      double dy = MAX (MAX (avoid.y - spot->py, spot->py - avoid.y - avoid.height), 0);

      g_assert_cmpfloat (hypot (dx, dy), >=, spot->diameter / 2);
    }
}

/* Turning the plan turns the layout and changes nothing else. */
static void
test_turn (void)
{
  g_autoptr (GPtrArray) all = plan_fixture_chassis ();

  for (guint i = 0; i < all->len; i++)
    {
      const PinChassis *chassis = g_ptr_array_index (all, i);
      g_autofree PinMarkPlace *places = plan_fixture_places (chassis, FALSE);
      PinPlan flat = { .chassis = chassis, .scale = 1.1 };
      PinPlan turned = { .chassis = chassis, .scale = 1.1, .turn = 90 };
      g_autoptr (PinMarkLayout) a = pin_mark_layout_new (&flat, places, chassis->positions->len, NULL);
      g_autoptr (PinMarkLayout) b = pin_mark_layout_new (&turned, places, chassis->positions->len, NULL);

      g_assert_cmpuint (a->spots->len, ==, b->spots->len);
      for (guint k = 0; k < a->spots->len; k++)
        {
          g_assert_cmpfloat_with_epsilon (nth_spot (b, k)->px, nth_spot (a, k)->py, 1e-6);
          g_assert_cmpfloat_with_epsilon (nth_spot (b, k)->py, -nth_spot (a, k)->px, 1e-6);
        }
    }
}

static void
test_near (void)
{
  PinMarkPlace places[] = { { 3, 0, 0, PIN_MARK_PASS }, { 5, 60, 0, PIN_MARK_PASS } };
  PinPlan plan = { .scale = 1, .x = 100, .y = 100 };
  g_autoptr (PinMarkLayout) layout = pin_mark_layout_new (&plan, places, 2, NULL);

  g_assert_cmpuint (pin_mark_layout_near (layout, 104, 110, 22)->index, ==, 3);
  g_assert_cmpuint (pin_mark_layout_near (layout, 145, 100, 22)->index, ==, 5);
  g_assert_null (pin_mark_layout_near (layout, 130, 140, 22));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/marks/outcomes", test_outcomes);
  g_test_add_func ("/marks/shapes", test_shapes);
  g_test_add_func ("/marks/size", test_size_of_shapes);
  g_test_add_func ("/marks/layout/chassis", test_layout);
  g_test_add_func ("/marks/layout/small", test_small);
  g_test_add_func ("/marks/layout/small/worst", test_small_keeps_worst);
  g_test_add_func ("/marks/layout/pair", test_pair);
  g_test_add_func ("/marks/layout/avoid", test_avoid);
  g_test_add_func ("/marks/layout/turn", test_turn);
  g_test_add_func ("/marks/near", test_near);
  return g_test_run ();
}
