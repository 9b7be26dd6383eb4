/* The harness itself, on a small window of its own. */
#include <glib/gstdio.h>
#include <string.h>

#include "ui/ui.h"

#define SAMPLE "tests/ui/sample-app"

typedef struct
{
  char *home;
  PinUi *ui;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->home = pin_ui_new_home ();
  fixture->ui = pin_ui_start_at (G_STRLOC, SAMPLE, fixture->home, NULL);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  pin_ui_close (fixture->ui);
  pin_ui_remove_home (fixture->home);
}

static void
test_names (void)
{
  static const char *const pairs[][2] = {
    { "_New New", "New" }, { "New", "New" },       { "Save _as Save as", "Save as" }, { "", "" },
    { "no no", "no" },     { "no nos", "no nos" }, { "two words", "two words" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      g_autofree char *clean = pin_ui_clean_name (pairs[i][0]);

      g_assert_cmpstr (clean, ==, pairs[i][1]);
    }
}

static void
test_press (Fixture *fixture, gconstpointer data)
{
  PinUi *ui = fixture->ui;
  g_autofree char *tree = pin_ui_tree (ui);
  g_autoptr (PinThing) none = pin_ui_look (ui, ATSPI_ROLE_LABEL, "made one");

  g_assert_nonnull (strstr (tree, "[label] “nothing yet”"));
  g_assert_null (none);
  pin_ui_press (ui, ATSPI_ROLE_PUSH_BUTTON, "New");
  pin_ui_wait (ui, ATSPI_ROLE_LABEL, "made *");
  pin_ui_wait_state (ui, ATSPI_ROLE_PUSH_BUTTON, "New", ATSPI_STATE_SENSITIVE, FALSE);
  g_assert_cmpint (pin_ui_count (ui, ATSPI_ROLE_LABEL, "made one"), ==, 1);
}

static void
test_fields (Fixture *fixture, gconstpointer data)
{
  PinUi *ui = fixture->ui;
  g_autofree char *text = NULL;

  pin_ui_set_text (ui, ATSPI_ROLE_TEXT, "Name", "Größe 0,5 µm");
  pin_ui_wait (ui, ATSPI_ROLE_LABEL, "typed Größe 0,5 µm");
  pin_ui_wait_gone (ui, ATSPI_ROLE_LABEL, "nothing yet");
  text = pin_ui_text (ui, ATSPI_ROLE_TEXT, "Name");
  g_assert_cmpstr (text, ==, "Größe 0,5 µm");
  pin_ui_set_value (ui, ATSPI_ROLE_SPIN_BUTTON, "Minutes", 25);
  pin_ui_wait (ui, ATSPI_ROLE_LABEL, "minutes 25");
  g_assert_cmpfloat (pin_ui_value (ui, ATSPI_ROLE_SPIN_BUTTON, "Minutes"), ==, 25);
}

static void
test_pointer_and_keys (Fixture *fixture, gconstpointer data)
{
  PinUi *ui = fixture->ui;

  pin_ui_click (ui, ATSPI_ROLE_CHECK_BOX, "Wet");
  pin_ui_wait (ui, ATSPI_ROLE_LABEL, "wet yes");
  pin_ui_key (ui, "ctrl+z");
  pin_ui_wait (ui, ATSPI_ROLE_LABEL, "undone");
  pin_ui_click (ui, ATSPI_ROLE_TEXT, "Name");
  pin_ui_type (ui, "Alder 2");
  pin_ui_wait (ui, ATSPI_ROLE_LABEL, "typed Alder 2");
}

static void
test_lists (Fixture *fixture, gconstpointer data)
{
  PinUi *ui = fixture->ui;

  pin_ui_select (ui, 0, "Cars", "Beech");
  pin_ui_wait (ui, ATSPI_ROLE_LABEL, "row 1");
  pin_ui_choose (ui, 0, "Surface", "damp");
  pin_ui_wait (ui, ATSPI_ROLE_LABEL, "choice 1");
  pin_ui_inside (ui, 0, "Cars");
  g_assert_cmpint (pin_ui_count (ui, ATSPI_ROLE_PUSH_BUTTON, NULL), ==, 0);
}

static void
test_menus_and_dialogs (Fixture *fixture, gconstpointer data)
{
  PinUi *ui = fixture->ui;

  pin_ui_press (ui, 0, "Main menu");
  pin_ui_press (ui, ATSPI_ROLE_MENU_ITEM, "Undo");
  pin_ui_wait (ui, ATSPI_ROLE_LABEL, "undone");
  pin_ui_press (ui, 0, "Main menu");
  pin_ui_press (ui, ATSPI_ROLE_MENU_ITEM, "Bin…");
  pin_ui_wait (ui, ATSPI_ROLE_LABEL, "Bin the spring?");
  pin_ui_press (ui, ATSPI_ROLE_PUSH_BUTTON, "Yes");
  pin_ui_wait (ui, ATSPI_ROLE_LABEL, "yes");
  pin_ui_wait_gone (ui, ATSPI_ROLE_LABEL, "Bin the spring?");
}

static void
test_pages (Fixture *fixture, gconstpointer data)
{
  PinUi *ui = fixture->ui;

  pin_ui_wait_state (ui, ATSPI_ROLE_PAGE_TAB, "Stable", ATSPI_STATE_SELECTED, TRUE);
  pin_ui_press (ui, ATSPI_ROLE_PAGE_TAB, "Due");
  pin_ui_wait_state (ui, ATSPI_ROLE_PAGE_TAB, "Due", ATSPI_STATE_SELECTED, TRUE);
  pin_ui_wait_state (ui, ATSPI_ROLE_PAGE_TAB, "Stable", ATSPI_STATE_SELECTED, FALSE);
}

static void
test_actions (Fixture *fixture, gconstpointer data)
{
  PinUi *ui = fixture->ui;

  pin_ui_action (ui, "win.undo");
  pin_ui_wait (ui, ATSPI_ROLE_LABEL, "undone");
  pin_ui_activate (ui, "page", g_variant_new_string ("due"));
  pin_ui_wait (ui, ATSPI_ROLE_LABEL, "page due");
  pin_ui_all_named (ui);
}

static void
test_picture (Fixture *fixture, gconstpointer data)
{
  g_autofree char *file = g_build_filename (fixture->home, "screen.png", NULL);
  GStatBuf about;

  pin_ui_resize (fixture->ui, 700, 500);
  pin_ui_screenshot (fixture->ui, file);
  g_assert_cmpint (g_stat (file, &about), ==, 0);
  g_assert_cmpint (about.st_size, >, 1000);
}

static void
test_power_cut (void)
{
  char *home = pin_ui_new_home ();
  PinUi *ui = pin_ui_start_at (G_STRLOC, SAMPLE, home, NULL);

  pin_ui_kill (ui);
  ui = pin_ui_start_at (G_STRLOC, SAMPLE, home, NULL);
  pin_ui_wait (ui, ATSPI_ROLE_LABEL, "nothing yet");
  pin_ui_close (ui);
  pin_ui_remove_home (home);
}

static void
test_nameless (void)
{
  if (g_test_subprocess ())
    {
      PinUi *ui = pin_ui_start_at (G_STRLOC, SAMPLE, pin_ui_new_home (), "--nameless", NULL);

      pin_ui_all_named (ui);
      return;
    }
  g_test_trap_subprocess (NULL, 0, 0);
  g_test_trap_assert_failed ();
  g_test_trap_assert_stderr ("*test-harness.c:*1 thing* no name*");
}

/* What is not there must fail the test, and say what was. */
static void
test_fails (void)
{
  if (g_test_subprocess ())
    {
      PinUi *ui = pin_ui_start_at (G_STRLOC, SAMPLE, pin_ui_new_home (), NULL);

      g_setenv ("PIN_UI_PATIENCE", "0.02", TRUE);
      pin_ui_wait (ui, ATSPI_ROLE_PUSH_BUTTON, "Nowhere");
      return;
    }
  g_test_trap_subprocess (NULL, 0, 0);
  g_test_trap_assert_failed ();
  g_test_trap_assert_stderr ("*test-harness.c:*no push button “Nowhere” appeared*");
}

#define add(path, test) g_test_add (path, Fixture, NULL, set_up, test, tear_down)

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/harness/names", test_names);
  add ("/harness/press", test_press);
  add ("/harness/fields", test_fields);
  add ("/harness/pointer-and-keys", test_pointer_and_keys);
  add ("/harness/lists", test_lists);
  add ("/harness/menus-and-dialogs", test_menus_and_dialogs);
  add ("/harness/pages", test_pages);
  add ("/harness/actions", test_actions);
  add ("/harness/picture", test_picture);
  g_test_add_func ("/harness/power-cut", test_power_cut);
  g_test_add_func ("/harness/nameless", test_nameless);
  g_test_add_func ("/harness/fails", test_fails);
  return g_test_run ();
}
