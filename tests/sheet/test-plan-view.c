#include <math.h>
#include <string.h>

#include "plan-fixture.h"

#define WIDTH 600
#define HEIGHT 360

/* ---- the frame ------------------------------------------------------------- */

static void
test_directions (void)
{
  PinPlan plan = { .scale = 2, .x = 100, .y = 80 };
  double px, py;

  pin_plan_point (&plan, 10, 5, &px, &py); /* forward is right, left is up */
  g_assert_cmpfloat (px, ==, 120);
  g_assert_cmpfloat (py, ==, 70);
  plan.turn = 90;
  pin_plan_point (&plan, 10, 5, &px, &py); /* forward is up, left is left */
  g_assert_cmpfloat (px, ==, 90);
  g_assert_cmpfloat (py, ==, 60);
}

static void
test_there_and_back (void)
{
  for (int turn = 0; turn <= 90; turn += 90)
    for (double x = -200; x <= 200; x += 37)
      for (double y = -150; y <= 150; y += 29)
        {
          PinPlan plan = { .scale = 1.37, .x = 311, .y = 217, .turn = turn };
          double px, py, back_x, back_y;

          pin_plan_point (&plan, x, y, &px, &py);
          pin_plan_unpoint (&plan, px, py, &back_x, &back_y);
          g_assert_cmpfloat_with_epsilon (back_x, x, 1e-9);
          g_assert_cmpfloat_with_epsilon (back_y, y, 1e-9);
        }
}

static PinPlan
fitted (const PinChassis *chassis, const PinPalette *palette, int turn)
{
  PinPlan plan = { .chassis = chassis, .palette = palette, .turn = turn };

  pin_plan_fit (&plan, WIDTH, HEIGHT, 10);
  return plan;
}

/* The whole car lies within the margin, turned or not, and fills it one way. */
static void
test_fit (void)
{
  g_autoptr (GPtrArray) all = plan_fixture_chassis ();

  for (guint i = 0; i < all->len; i++)
    for (int turn = 0; turn <= 90; turn += 90)
      {
        PinPlan plan = fitted (g_ptr_array_index (all, i), pin_palette_light (), turn);
        double x0, y0, x1, y1, ax, ay, bx, by;

        pin_plan_extents (plan.chassis, &x0, &y0, &x1, &y1);
        g_assert_cmpfloat (x1 - x0, >, plan.chassis->wheelbase);
        g_assert_cmpfloat (y1 - y0, >=, plan.chassis->track);
        pin_plan_point (&plan, x0, y0, &ax, &ay);
        pin_plan_point (&plan, x1, y1, &bx, &by);
        g_assert_cmpfloat (MIN (ax, bx), >=, 10 - 1e-6);
        g_assert_cmpfloat (MIN (ay, by), >=, 10 - 1e-6);
        g_assert_cmpfloat (MAX (ax, bx), <=, WIDTH - 10 + 1e-6);
        g_assert_cmpfloat (MAX (ay, by), <=, HEIGHT - 10 + 1e-6);
        g_assert_true (fabs (fabs (ax - bx) - (WIDTH - 20)) < 1e-6
                       || fabs (fabs (ay - by) - (HEIGHT - 20)) < 1e-6);
      }
}

/* ---- what is drawn ---------------------------------------------------------- */

/* Lines blue, fills red, accent green: then a fill shows in the red channel only,
 * and only if something was filled. */
static PinPalette
traced (void)
{
  PinPalette palette;
  const PinInk red = { 1, 0, 0 }, blue = { 0, 0, 1 }, green = { 0, 1, 0 };

  for (guint i = 0; i < pin_palette_size (); i++)
    *(PinInk *) pin_palette_nth (&palette, i) = blue;
  palette.raised = palette.plate = palette.tyre = palette.tread = red;
  palette.accent = green;
  palette.chosen = red;
  return palette;
}

typedef struct
{
  guint lines, fills, accents; /* px */
} Inked;

static Inked
ink_of (const PinPlan *plan)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDTH, HEIGHT);
  cairo_t *cr = cairo_create (surface);
  Inked inked = { 0 };

  pin_plan_draw (cr, plan);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  for (int y = 0; y < HEIGHT; y++)
    {
      const guint32 *row = (const guint32 *) (cairo_image_surface_get_data (surface)
                                              + y * cairo_image_surface_get_stride (surface));

      for (int x = 0; x < WIDTH; x++)
        {
          inked.lines += (row[x] & 0xff) > 40;
          inked.accents += ((row[x] >> 8) & 0xff) > 40;
          inked.fills += ((row[x] >> 16) & 0xff) > 40;
        }
    }
  cairo_surface_destroy (surface);
  return inked;
}

static char **
all_assemblies (const PinChassis *chassis)
{
  GStrvBuilder *builder = g_strv_builder_new ();
  char **ids;

  for (guint i = 0; i < chassis->assemblies->len; i++)
    g_strv_builder_add (builder, ((PinAssembly *) g_ptr_array_index (chassis->assemblies, i))->id);
  ids = g_strv_builder_end (builder);
  g_strv_builder_unref (builder);
  return ids;
}

/* The car with nothing on it but what belongs to an assembly. */
static PinChassis
only_assemblies (const PinChassis *chassis, GPtrArray *shapes)
{
  PinChassis bare = *chassis;

  for (guint i = 0; i < chassis->shapes->len; i++)
    if (((PinShape *) g_ptr_array_index (chassis->shapes, i))->assembly != NULL)
      g_ptr_array_add (shapes, g_ptr_array_index (chassis->shapes, i));
  bare.shapes = shapes;
  return bare;
}

/* Off the car: still there in dashes, but nothing of it is filled. */
static void
test_off (void)
{
  g_autoptr (GPtrArray) all = plan_fixture_chassis ();
  PinPalette palette = traced ();

  for (guint i = 0; i < all->len; i++)
    {
      const PinChassis *chassis = g_ptr_array_index (all, i);
      g_autoptr (GPtrArray) shapes = g_ptr_array_new ();
      g_auto (GStrv) off = all_assemblies (chassis);
      PinChassis bare = only_assemblies (chassis, shapes);
      PinPlan plan = fitted (&bare, &palette, 0);
      Inked on = ink_of (&plan), gone;

      plan.off = (const char *const *) off;
      gone = ink_of (&plan);
      g_assert_cmpuint (on.fills, >, 10000);
      g_assert_cmpuint (gone.fills, ==, 0);
      g_assert_cmpuint (gone.lines, >, 1000);
      g_assert_cmpuint (gone.lines, <, on.lines);
    }
}

/* A new car is all there and hides what is under it, in dashes. */
static void
test_fresh (void)
{
  g_autoptr (GPtrArray) all = plan_fixture_chassis ();
  PinPalette palette = traced ();
  PinPlan plan = fitted (g_ptr_array_index (all, 0), &palette, 0);
  Inked known = ink_of (&plan), fresh;

  plan.fresh = TRUE;
  fresh = ink_of (&plan);
  g_assert_cmpuint (fresh.fills, >, known.fills * 8 / 10);
  g_assert_cmpuint (fresh.lines, >, 1000);
}

/* Small: outlines only, so far fewer lines at the same scale. */
static void
test_small (void)
{
  g_autoptr (GPtrArray) all = plan_fixture_chassis ();
  PinPalette palette = traced ();

  for (guint i = 0; i < all->len; i++)
    {
      PinPlan plan = fitted (g_ptr_array_index (all, i), &palette, 0);
      Inked full = ink_of (&plan), small;

      plan.small = TRUE;
      small = ink_of (&plan);
      g_assert_cmpuint (small.lines, <, full.lines * 3 / 4);
      g_assert_cmpuint (small.lines, >, 1000);
      plan.small = FALSE;
      plan.scale = 0.39;
      g_assert_cmpint (pin_plan_size (&plan), ==, PIN_PLAN_SMALL);
      plan.scale = 0.41;
      g_assert_cmpint (pin_plan_size (&plan), ==, PIN_PLAN_FULL);
    }
}

/* One chosen part turns accent; two or more are told by the rings of their marks. */
static void
test_chosen (void)
{
  g_autoptr (GPtrArray) all = plan_fixture_chassis ();
  g_autoptr (GHashTable) chosen = g_hash_table_new (g_str_hash, g_str_equal);
  PinPalette palette = traced ();
  PinPlan plan = fitted (g_ptr_array_index (all, 0), &palette, 0);

  plan.chosen = chosen;
  g_assert_cmpuint (ink_of (&plan).accents, ==, 0);
  g_hash_table_add (chosen, (gpointer) "shock.front.left");
  g_assert_cmpuint (ink_of (&plan).accents, >, 50);
  g_hash_table_add (chosen, (gpointer) "shock.front.right");
  g_assert_cmpuint (ink_of (&plan).accents, ==, 0);
}

/* ---- here -------------------------------------------------------------------- */

static double
tyre_under (const PinPlan *plan, const PinPrimitive *p, const PinPlanRect *flag)
{
  double x1, y1, x2, y2, width, height;
  double d = p->number[PIN_NUMBER_DIAMETER] / 2, w = p->number[PIN_NUMBER_WIDTH] / 2;

  pin_plan_point (plan, p->number[PIN_NUMBER_X] - d, p->number[PIN_NUMBER_Y] + w, &x1, &y1);
  pin_plan_point (plan, p->number[PIN_NUMBER_X] + d, p->number[PIN_NUMBER_Y] - w, &x2, &y2);
  width = MIN (x2, flag->x + flag->width) - MAX (x1, flag->x);
  height = MIN (y2, flag->y + flag->height) - MAX (y1, flag->y);
  return MAX (width, 0) * MAX (height, 0);
}

static void
assert_clear_of_tyres (const PinPlan *plan, const PinPlanRect *flag)
{
  for (guint i = 0; i < plan->chassis->shapes->len; i++)
    {
      const PinShape *shape = g_ptr_array_index (plan->chassis->shapes, i);

      for (guint k = 0; k < shape->primitives->len; k++)
        {
          const PinPrimitive *p = g_ptr_array_index (shape->primitives, k);

          if (p->kind == PIN_PRIMITIVE_WHEEL && tyre_under (plan, p, flag) > 0)
            g_error ("%s: the flag of %s hides a tyre", plan->chassis->id, plan->here);
        }
    }
}

/* Wherever the step is, its flag is in the field, off the tyres and off its ring. */
static void
test_flag (void)
{
  g_autoptr (GPtrArray) all = plan_fixture_chassis ();

  for (guint i = 0; i < all->len; i++)
    {
      const PinChassis *chassis = g_ptr_array_index (all, i);
      PinPlan plan = fitted (chassis, pin_palette_light (), 0);

      for (guint k = 0; k < chassis->positions->len; k++)
        {
          const PinPosition *position = g_ptr_array_index (chassis->positions, k);
          PinPlanRect flag;

          plan.here = position->id;
          plan.here_label = "left, outer";
          g_assert_true (pin_plan_here_flag (&plan, &flag));
          g_assert_cmpfloat (flag.x, >=, 0);
          g_assert_cmpfloat (flag.y, >=, 0);
          g_assert_cmpfloat (flag.x + flag.width, <=, WIDTH);
          g_assert_cmpfloat (flag.y + flag.height, <=, HEIGHT);
          assert_clear_of_tyres (&plan, &flag);
        }
      plan.here = "no such place";
      g_assert_false (pin_plan_here_flag (&plan, &(PinPlanRect) { 0 }));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/frame/directions", test_directions);
  g_test_add_func ("/plan/frame/there-and-back", test_there_and_back);
  g_test_add_func ("/plan/frame/fit", test_fit);
  g_test_add_func ("/plan/drawn/off", test_off);
  g_test_add_func ("/plan/drawn/fresh", test_fresh);
  g_test_add_func ("/plan/drawn/small", test_small);
  g_test_add_func ("/plan/drawn/chosen", test_chosen);
  g_test_add_func ("/plan/here/flag", test_flag);
  return g_test_run ();
}
