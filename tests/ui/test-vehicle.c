/* The page of a vehicle: parts that move and are replaced, and an outing. */
#include <string.h>

#include "ui/shed.h"

static void
open_car (PinShed *shed)
{
  pin_shed_open (shed);
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Open Mule");
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "rear left hub, outer: *");
}

static void
choose_bearing (PinShed *shed, const char *tab)
{
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "rear left hub, outer: *");
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Record for 1 part");
  pin_ui_press (shed->ui, ATSPI_ROLE_PAGE_TAB, tab);
}

/* ---- parts ------------------------------------------------------------------------------ */

static void
wait_kept (PinShed *shed)
{
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Undo");
  pin_shed_close (shed);
}

static void
test_move (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");
  g_autofree char *here = NULL;
  g_autofree char *there = NULL;

  g_free (pin_shed_verb (shed, "add-vehicle", "Plum", "--chassis", "buggy-2wd-10", "--hours", "3", NULL));
  open_car (shed);
  choose_bearing (shed, "Move");
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Move it");
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Move it");
  wait_kept (shed);
  here = pin_shed_verb (shed, "parts", "Mule", NULL);
  there = pin_shed_verb (shed, "parts", "Plum", NULL);
  g_test_message ("%s\n%s", here, there);
  g_assert_true (g_regex_match_simple ("hub.rear.left.outer .*nothing fitted", here, 0, 0));
  g_assert_true (g_regex_match_simple ("hub.* 12.5 h", there, 0, 0));
}

static void
test_replace (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");
  g_autofree char *parts = NULL;
  g_autofree char *history = NULL;

  open_car (shed);
  choose_bearing (shed, "Replace");
  pin_ui_press (shed->ui, 0, "Shelf");
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Replace it");
  wait_kept (shed);
  history = pin_shed_verb (shed, "history", "Mule:hub.rear.left.outer", NULL);
  parts = pin_shed_verb (shed, "parts", "Mule", NULL);
  g_test_message ("%s\n%s", history, parts);
  g_assert_nonnull (strstr (parts, "0.0 h"));
}

/* ---- an outing ---------------------------------------------------------------------------- */

static void
test_outing (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");
  g_autofree char *vehicles = NULL;

  open_car (shed);
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Log outing");
  pin_ui_set_text (shed->ui, ATSPI_ROLE_TEXT, "Minutes run", "30");
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Log it");
  wait_kept (shed);
  vehicles = pin_shed_verb (shed, "vehicles", NULL);
  g_test_message ("%s", vehicles);
  g_assert_nonnull (strstr (vehicles, "13.0 h"));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/vehicle/move", test_move);
  g_test_add_func ("/vehicle/replace", test_replace);
  g_test_add_func ("/vehicle/outing", test_outing);
  return g_test_run ();
}
