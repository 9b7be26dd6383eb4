/* Whole inspections in the real window, answered by its controls to the sign-off. */
#include <string.h>

#include "ui/shed.h"

static guint
walk_to_the_end (PinShed *shed, const PinBenchPlan *plan)
{
  guint n = pin_bench_walk (shed->bench, plan, "sign-off");

  pin_bench_sign (shed->bench, "AB");
  pin_shed_close (shed);
  return n;
}

/* As many live answers in the book as the window has shown as kept. */
static void
assert_kept (PinShed *shed, guint n)
{
  g_autofree char *out = NULL;
  const char *argv[] = { "sqlite3", shed->book, "SELECT count(*) FROM answer WHERE live", NULL };

  g_assert_true (g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &out,
                               NULL, NULL, NULL));
  g_assert_cmpint (g_ascii_strtoll (out, NULL, 10), ==, n);
}

static void
assert_says (PinShed *shed, const char *verb, const char *words)
{
  g_autofree char *out = pin_shed_verb (shed, verb, NULL);

  if (strstr (out, words) == NULL)
    g_test_message ("%s says: %s", verb, out);
  g_assert_nonnull (strstr (out, words));
}

typedef struct
{
  const char *what, *chassis;
  gboolean by_buttons;
  const PinBenchPlan *plan;
} Walk;

static void
test_walk (gconstpointer data)
{
  const Walk *walk = data;
  g_autoptr (PinShed) shed = pin_shed_new (walk->chassis);
  guint n;

  pin_shed_begin (shed, walk->what);
  shed->bench->by_buttons = walk->by_buttons;
  n = walk_to_the_end (shed, walk->plan);
  g_assert_cmpuint (n, >, 5);
  assert_kept (shed, n);
  assert_says (shed, "verify", "sound");
}

static const PinBenchPlan free_roll[] = {
  { "free-roll/coast", NULL, "2.5 s, 2.7 s, 2.6 s", "rolled on the mat" },
  { NULL },
};

static const PinBenchPlan steering[] = {
  { "steering-travel/play@wheel.front.left", "Watch", "1.9 mm", NULL },
  { "steering-travel/buzz", "Not checked", "battery flat", NULL },
  { NULL },
};

static const PinBenchPlan drop[] = {
  { "drop-test/height@*", "Pass", "22 mm", NULL },
  { NULL },
};

static const PinBenchPlan diff[] = {
  { "diff-feel/leak@*", "*: watch", NULL, NULL },
  { NULL },
};

static const PinBenchPlan fasteners[] = {
  { "fastener-check/tight@fasteners.servo", "Fail", "3", "one had lost its lock" },
  { "fastener-check/tight@fasteners.wheel-nuts", "Enter", "4", NULL },
  { NULL },
};

static const PinBenchPlan mesh[] = {
  { "gear-mesh/backlash@*", "Enter", "0.08 mm", NULL },
  { NULL },
};

static const PinBenchPlan wet[] = {
  { "after-wet/oil-bearings*", "*oil*", "light oil", NULL },
  { NULL },
};

static const Walk walks[] = {
  { "free-roll", "touring-belt-10", FALSE, free_roll },
  { "steering-travel", "buggy-2wd-10", TRUE, steering },
  { "drop-test", "buggy-2wd-10", FALSE, drop },
  { "diff-feel", "buggy-4wd-10", TRUE, diff },
  { "fastener-check", "crawler-10", FALSE, fasteners },
  { "bearings", "stadium-2wd-10", FALSE, NULL },
  { "gear-mesh", "buggy-2wd-10", TRUE, mesh },
  { "after-wet", "touring-belt-10", FALSE, wet },
};

/* ---- what a walk brings about --------------------------------------------------------- */

static void
wait_stable (PinShed *shed, const char *row)
{
  pin_ui_activate (shed->ui, "page", g_variant_new_string ("stable"));
  pin_ui_inside (shed->ui, 0, "vehicles");
  pin_ui_wait (shed->ui, ATSPI_ROLE_LIST_ITEM, row);
  pin_ui_inside (shed->ui, 0, NULL);
}

/* A bearing that is stuck grounds the car at once; work and a second look end it. */
static void
test_unsafe (void)
{
  static const PinBenchPlan plan[] = {
    { "bearings/grade@hub.rear.left.inner", "Stuck*", NULL, NULL },
    { "bearings/replace-it@*", "Done", "rubber", NULL },
    { NULL },
  };
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");
  guint n;

  pin_shed_begin (shed, "bearings");
  n = pin_bench_walk (shed->bench, plan, "bearings/grade@hub.rear.left.inner");
  pin_bench_answer (shed->bench, plan);
  wait_stable (shed, "Mule*: Unsafe: do not run*");
  pin_ui_activate (shed->ui, "page", g_variant_new_string ("bench"));
  n += 1 + pin_bench_walk (shed->bench, plan, "bearings/replace-it@hub.rear.left.inner*");
  n += pin_bench_walk (shed->bench, plan, "bearings/grade@hub.rear.left.inner*!left*");
  n += walk_to_the_end (shed, plan);
  assert_kept (shed, n);
  assert_says (shed, "findings", "Nothing is open.");
  pin_shed_open (shed);
  wait_stable (shed, "Mule*");
  g_assert_cmpint (pin_ui_count (shed->ui, ATSPI_ROLE_LIST_ITEM, "Mule*Unsafe*"), ==, 0);
  pin_shed_close (shed);
}

/* A fail stays open behind the sign-off until it passes and somebody says why. */
static void
test_left_open (void)
{
  static const PinBenchPlan failing[] = {
    { "diff-feel/gear-feel@*", "*: fail", NULL, NULL },
    { NULL },
  };
  static const PinBenchPlan mended[] = {
    { "diff-feel/gear-feel@*", "*: pass", NULL, "new gears, fresh oil" },
    { NULL },
  };
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  pin_shed_begin (shed, "diff-feel");
  walk_to_the_end (shed, failing);
  assert_says (shed, "findings", "fail");
  pin_shed_begin (shed, "diff-feel");
  walk_to_the_end (shed, mended);
  assert_says (shed, "findings", "Nothing is open.");
}

/* With the motor off the car the sign-off refuses, says why, and loses nothing. */
static void
test_motor_off (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");
  guint n;

  pin_shed_begin (shed, "free-roll");
  n = pin_bench_walk (shed->bench, free_roll, "on/motor");
  while (TRUE)
    {
      g_autofree char *key = pin_bench_key (shed->bench);

      if (g_str_equal (key, "sign-off"))
        break;
      pin_ui_key (shed->ui, "alt+Right");
    }
  pin_ui_inside (shed->ui, 0, "bench");
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "In the way");
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "*off the car: motor*");
  pin_ui_set_text (shed->ui, 0, "Initials of who signs", "AB");
  pin_ui_wait_state (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Sign off", ATSPI_STATE_SENSITIVE, FALSE);
  pin_ui_press (shed->ui, 0, "Initials of who signs");
  pin_ui_inside (shed->ui, 0, NULL);
  pin_shed_close (shed);
  assert_kept (shed, n);
  pin_shed_resume (shed);
  pin_bench_wait_key (shed->bench, "on/motor");
  n += walk_to_the_end (shed, free_roll);
  assert_kept (shed, n);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (walks); i++)
    {
      g_autofree char *path = g_strdup_printf ("/walks/whole/%s", walks[i].what);

      g_test_add_data_func (path, &walks[i], test_walk);
    }
  g_test_add_func ("/walks/unsafe", test_unsafe);
  g_test_add_func ("/walks/left-open", test_left_open);
  g_test_add_func ("/walks/motor-off", test_motor_off);
  return g_test_run ();
}
