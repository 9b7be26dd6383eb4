/* The stable: an outing logged from the row, and the row in a small window. */
#include <string.h>

#include "ui/shed.h"

#define LOG "Log outing of Mule"

static void
open_fields (PinShed *shed)
{
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, LOG);
  pin_ui_wait_state (shed->ui, ATSPI_ROLE_TEXT, "Minutes run by Mule", ATSPI_STATE_FOCUSED, TRUE);
}

static void
assert_book (PinShed *shed, const char *seconds, const char *outings)
{
  g_autofree char *vehicles = pin_shed_verb (shed, "--json", "vehicles", NULL);
  g_autofree char *time = g_strdup_printf ("\"time\" : \\{\\s*\"value\" : %s\\.0", seconds);
  g_autofree char *times = g_strdup_printf ("\"outings\" : \\{\\s*\"value\" : %s\\.0", outings);

  g_test_message ("%s", vehicles);
  g_assert_true (g_regex_match_simple (time, vehicles, 0, 0));
  g_assert_true (g_regex_match_simple (times, vehicles, 0, 0));
}

/* By the keyboard alone: half an hour, two packs, Enter; and back. */
static void
test_log (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  pin_shed_open (shed);
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "12.5 h");
  open_fields (shed);
  pin_ui_type (shed->ui, "30");
  pin_ui_tab_to (shed->ui, "Tab", ATSPI_ROLE_TEXT, "Packs run by Mule");
  pin_ui_type (shed->ui, "2");
  pin_ui_key (shed->ui, "Return");
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "13.0 h");
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "1 outing");
  pin_ui_wait_state (shed->ui, ATSPI_ROLE_PUSH_BUTTON, LOG, ATSPI_STATE_PRESSED, FALSE);
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Undo");
  pin_shed_close (shed);
  assert_book (shed, "1800", "1");

  pin_shed_open (shed);
  open_fields (shed);
  pin_ui_type (shed->ui, "60");
  pin_ui_key (shed->ui, "Return");
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "14.0 h");
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Undo");
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "13.0 h");
  pin_shed_close (shed);
  assert_book (shed, "1800", "1");
}

/* What cannot be logged stays in the fields; Escape lets it go. */
static void
test_refused (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  pin_shed_open (shed);
  open_fields (shed);
  pin_ui_key (shed->ui, "Return");
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "*how many minutes it ran*");
  pin_ui_type (shed->ui, "long");
  pin_ui_key (shed->ui, "Return");
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "*“long”*");
  pin_ui_wait_text (shed->ui, ATSPI_ROLE_TEXT, "Minutes run by Mule", "long");
  pin_ui_key (shed->ui, "Escape");
  pin_ui_wait_state (shed->ui, ATSPI_ROLE_PUSH_BUTTON, LOG, ATSPI_STATE_FOCUSED, TRUE);
  pin_shed_close (shed);
  assert_book (shed, "0", "0");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/stable/log", test_log);
  g_test_add_func ("/stable/refused", test_refused);
  return g_test_run ();
}
