/* What answers is in sight: in a small window, and with text twice as large. */
#include "ui/shed.h"

typedef AtspiComponent PinComponent;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PinComponent, g_object_unref)

static gboolean
place_of (PinThing *thing, AtspiRect *rect)
{
  g_autoptr (PinComponent) component = atspi_accessible_get_component_iface (thing);
  g_autofree AtspiRect *extents = NULL;

  if (component)
    extents = atspi_component_get_extents (component, ATSPI_COORD_TYPE_WINDOW, NULL);
  if (extents == NULL || extents->width <= 0 || extents->height <= 0)
    return FALSE;
  *rect = *extents;
  return TRUE;
}

/* Within all that it stands in, some of which scrolls.  A pixel more is a border. */
static gboolean
is_in_sight (PinThing *thing)
{
  g_autoptr (PinThing) around = atspi_accessible_get_parent (thing, NULL);
  AtspiRect inner, outer;

  if (!place_of (thing, &inner))
    return FALSE;
  while (around && atspi_accessible_get_role (around, NULL) != ATSPI_ROLE_APPLICATION)
    {
      PinThing *next = atspi_accessible_get_parent (around, NULL);

      if (place_of (around, &outer) &&
          (inner.x < outer.x - 1 || inner.y < outer.y - 1 ||
           inner.x + inner.width > outer.x + outer.width + 1 ||
           inner.y + inner.height > outer.y + outer.height + 1))
        {
          g_clear_object (&next);
          return FALSE;
        }
      g_object_unref (around);
      around = next;
    }
  return TRUE;
}

typedef struct
{
  PinShed *shed;
  AtspiRole role;
  const char *name;
} Wanted;

static gboolean
one_in_sight (gpointer data)
{
  const Wanted *wanted = data;
  g_autoptr (PinThing) thing = pin_ui_look (wanted->shed->ui, wanted->role, wanted->name);

  return thing && is_in_sight (thing);
}

static gboolean
all_in_sight (gpointer data)
{
  const Wanted *wanted = data;
  g_autoptr (PinThing) group = pin_ui_look (wanted->shed->ui, wanted->role, wanted->name);
  int n = group ? atspi_accessible_get_child_count (group, NULL) : 0;

  for (int i = 0; i < n; i++)
    {
      g_autoptr (PinThing) child = atspi_accessible_get_child_at_index (group, i, NULL);

      if (child == NULL || !is_in_sight (child))
        return FALSE;
    }
  return n > 0;
}

static void
wait_in_sight (PinShed *shed, AtspiRole role, const char *name)
{
  Wanted wanted = { shed, role, name };

  pin_ui_wait_for (shed->ui, one_in_sight, &wanted, name);
}

static void
wait_answers_in_sight (PinShed *shed)
{
  Wanted wanted = { shed, 0, "answers" };

  pin_ui_wait_for (shed->ui, all_in_sight, &wanted, "all the answers");
  wait_in_sight (shed, ATSPI_ROLE_PUSH_BUTTON, "Not checked");
  wait_in_sight (shed, ATSPI_ROLE_PUSH_BUTTON, "Does not apply");
}

static void
set_text_twice_as_large (PinShed *shed)
{
  g_autofree char *file = g_build_filename (shed->home, "config", "gtk-4.0", "settings.ini", NULL);

  g_assert_true (g_file_set_contents (file, "[Settings]\ngtk-enable-animations=false\n"
                                            "gtk-cursor-blink=false\ngtk-font-name=Cantarell 22\n", -1, NULL));
}

static void
test_small_window (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  pin_shed_begin (shed, "diff-feel");
  pin_bench_wait_key (shed->bench, "diff-feel/gear-feel@*");
  pin_ui_resize (shed->ui, 1024, 700);
  wait_answers_in_sight (shed);
  pin_shed_close (shed);
}

static void
test_large_text (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  set_text_twice_as_large (shed);
  pin_shed_begin (shed, "diff-feel");
  pin_bench_wait_key (shed->bench, "diff-feel/gear-feel@*");
  wait_answers_in_sight (shed);
  pin_shed_close (shed);
}

/* The reading, the watch and the air's temperature; what was said of the air is
 * offered again at the next reading. */
static void
test_reading (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  set_text_twice_as_large (shed);
  pin_shed_begin (shed, "free-roll");
  pin_bench_walk (shed->bench, NULL, "free-roll/coast");
  wait_in_sight (shed, 0, "Reading: *");
  wait_in_sight (shed, ATSPI_ROLE_PUSH_BUTTON, "Start or stop the watch");
  wait_in_sight (shed, 0, "Condition: air temperature");
  pin_ui_set_text (shed->ui, 0, "Condition: air temperature", "68 F");
  pin_bench_walk (shed->bench, NULL, "free-roll/one-wheel@*");
  pin_ui_wait_text (shed->ui, 0, "Condition: air temperature", "20");
  pin_shed_close (shed);
}

/* Once to see what it does, twice to do it; a double click is once. */
static void
test_abandon (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  pin_shed_begin (shed, "diff-feel");
  while (TRUE)
    {
      g_autofree char *key = pin_bench_key (shed->bench);

      if (g_str_equal (key, "sign-off"))
        break;
      pin_ui_key (shed->ui, "alt+Right");
    }
  pin_ui_resize (shed->ui, 1024, 700);
  wait_in_sight (shed, ATSPI_ROLE_PUSH_BUTTON, "Abandon");
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Abandon");
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "Abandoning keeps *");
  wait_in_sight (shed, ATSPI_ROLE_PUSH_BUTTON, "Abandon this inspection");
  g_usleep (600000);
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Abandon this inspection");
  pin_bench_wait_message (shed->bench, "Abandoned: *");
  pin_shed_close (shed);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sight/small-window", test_small_window);
  g_test_add_func ("/sight/large-text", test_large_text);
  g_test_add_func ("/sight/reading", test_reading);
  g_test_add_func ("/sight/abandon", test_abandon);
  return g_test_run ();
}
