/* From an empty book to a signed teardown with the keyboard alone. */
#include <string.h>

#include "ui/shed.h"

static void
type_name (PinUi *ui)
{
  pin_ui_tab_to (ui, "Tab", ATSPI_ROLE_TEXT, "Name of the vehicle");
  pin_ui_type (ui, "Mule");
  pin_ui_wait (ui, ATSPI_ROLE_PUSH_BUTTON, "Add Mule to the stable");
}

static void
choose_type (PinUi *ui, const char *title)
{
  pin_ui_tab_to (ui, "Tab", ATSPI_ROLE_PUSH_BUTTON, title);
  pin_ui_key (ui, "space");
  pin_ui_wait (ui, ATSPI_ROLE_LABEL, "1/10 crawler, locked axles: *");
}

static void
add_car (PinUi *ui)
{
  pin_ui_inside (ui, ATSPI_ROLE_FILLER, "PinStartPage");
  pin_ui_wait (ui, ATSPI_ROLE_LABEL, "Nothing here yet.*");
  pin_ui_wait (ui, ATSPI_ROLE_PUSH_BUTTON, "Look round the demo stable");
  type_name (ui);
  choose_type (ui, "1/10 crawler, locked axles");
  pin_ui_tab_to (ui, "shift+Tab", ATSPI_ROLE_PUSH_BUTTON, "Add Mule to the stable");
  pin_ui_key (ui, "Return");
  pin_ui_inside (ui, 0, NULL);
}

static PinBench *
start_teardown (PinUi *ui)
{
  pin_ui_wait (ui, ATSPI_ROLE_HEADING, "Mule");
  pin_ui_tab_to (ui, "Tab", ATSPI_ROLE_PUSH_BUTTON, "Start inspection");
  pin_ui_key (ui, "Return");
  pin_ui_wait (ui, ATSPI_ROLE_MENU_ITEM, "Quarterly teardown");
  pin_ui_tab_to (ui, "Down", ATSPI_ROLE_MENU_ITEM, "Quarterly teardown");
  pin_ui_key (ui, "Return");
  return pin_bench_new (ui);
}

/* Answers some, takes the last back; the key of the question that is open then. */
static char *
answer_and_undo (PinBench *bench)
{
  char *key = NULL;

  for (int i = 0; i < 5; i++)
    {
      g_autoptr (PinBenchView) view = pin_bench_view (bench);

      g_assert_cmpint (view->step, ==, i + 1);
      g_assert_cmpint (view->of, >, 50);
      g_assert_cmpuint (strlen (view->title), >, 0);
      g_assert_cmpuint (view->offered->len, >, 1);
      g_free (key);
      key = g_strdup (view->key);
      pin_bench_answer (bench, NULL);
    }
  pin_ui_key (bench->ui, "ctrl+z");
  pin_bench_wait_key (bench, key);
  return key;
}

static void
test_keyboard (void)
{
  char *home = pin_ui_new_home ();
  PinUi *ui = pin_ui_start (home, NULL);
  g_autoptr (PinBench) bench = NULL;
  g_autofree char *key = NULL;
  g_autofree char *again = NULL;

  add_car (ui);
  bench = start_teardown (ui);
  key = answer_and_undo (bench);
  g_clear_pointer (&bench, pin_bench_free);
  pin_ui_key (ui, "ctrl+q");
  pin_ui_ended (ui);
  ui = pin_ui_start (home, NULL);
  bench = pin_bench_new (ui);
  again = pin_bench_key (bench);
  g_assert_cmpstr (again, ==, key);
  g_assert_cmpuint (pin_bench_walk (bench, NULL, "sign-off"), >, 50);
  pin_bench_sign (bench, "AB");
  pin_ui_close (ui);
  pin_ui_remove_home (home);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/start/keyboard", test_keyboard);
  return g_test_run ();
}
