/* The page of a vehicle: there and back with Tab, parts that move and are
 * replaced, an outing, and a record that is put right. */
#include <string.h>

#include "ui/shed.h"
#include "ui/ui-private.h"

static void
open_car (PinShed *shed)
{
  pin_shed_open (shed);
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Open Mule");
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "rear left hub, outer: *");
}

static void
choose (PinShed *shed, const char *part, const char *tab)
{
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, part);
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Record for 1 part");
  pin_ui_press (shed->ui, ATSPI_ROLE_PAGE_TAB, tab);
}

static void
choose_bearing (PinShed *shed, const char *tab)
{
  choose (shed, "rear left hub, outer: *", tab);
}

/* ---- keyboard ------------------------------------------------------------------------- */

static gboolean
has_focus (PinThing *thing)
{
  atspi_accessible_clear_cache (thing);
  return pin_ui_has_state (thing, ATSPI_STATE_FOCUSED);
}

/* TRUE: presses of @key lead there, and not to @past before. */
static gboolean
leads (PinUi *ui, const char *key, PinThing *to, PinThing *past)
{
  for (int n = 1; n < 140; n++)
    {
      pin_ui_key (ui, key);
      for (int i = 0; i < 30; i++)
        {
          if (has_focus (to))
            return TRUE;
          if (past && has_focus (past))
            return FALSE;
          g_usleep (5000);
        }
    }
  return FALSE;
}

/* Through the drawing and what lies around it, the list and the panel, and the
 * same way back: each leads on, and nothing between holds the focus up. */
static void
test_there_and_back (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");
  g_autoptr (PinThing) log = NULL;
  g_autoptr (PinThing) turn = NULL;
  g_autoptr (PinThing) parts = NULL;

  open_car (shed);
  log = pin_ui_find (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Log outing");
  turn = pin_ui_find (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Turn the drawing");
  parts = pin_ui_find (shed->ui, ATSPI_ROLE_PAGE_TAB, "Parts*");
  pin_ui_tab_to (shed->ui, "Tab", ATSPI_ROLE_PUSH_BUTTON, "Log outing");
  g_assert_true (leads (shed->ui, "Tab", turn, parts));
  g_assert_true (leads (shed->ui, "Tab", parts, log));
  g_assert_true (leads (shed->ui, "shift+Tab", turn, log));
  g_assert_true (leads (shed->ui, "shift+Tab", log, parts));
  pin_shed_close (shed);
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

static gboolean
says (PinShed *shed, const char *pattern, const char *verb, const char *of)
{
  g_autofree char *out = pin_shed_verb (shed, verb, of, NULL);

  g_test_message ("%s", out);
  return g_regex_match_simple (pattern, out, 0, 0);
}

/* Off the car with its hours, and back from the shelf with them. */
static void
test_shelf (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  open_car (shed);
  choose_bearing (shed, "Replace");
  pin_ui_press (shed->ui, 0, "Shelf");
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Only take it off");
  wait_kept (shed);
  g_assert_true (says (shed, "hub.rear.left.outer .*nothing fitted", "parts", "Mule"));
  open_car (shed);
  choose_bearing (shed, "Replace");
  pin_ui_press (shed->ui, 0, "shelf: * from Mule");
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Fit it");
  wait_kept (shed);
  g_assert_true (says (shed, "hub.rear.left.outer .* 12.5 h", "parts", "Mule"));
}

static void
say_last_done (PinShed *shed, const char *deed, const char *day)
{
  pin_ui_inside (shed->ui, ATSPI_ROLE_PANEL, "Last done");
  pin_ui_press (shed->ui, 0, deed);
  pin_ui_press (shed->ui, 0, "About");
  pin_ui_set_text (shed->ui, ATSPI_ROLE_TEXT, "Day, as *", day);
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Write it down");
  pin_ui_inside (shed->ui, 0, NULL);
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Undo");
}

/* What was done before the book began stands in the history as no more than it is. */
static void
test_last_done (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  open_car (shed);
  choose_bearing (shed, "Last done");
  say_last_done (shed, "Oiled", "2026-01-31");
  pin_shed_close (shed);
  g_assert_true (says (shed, "2026-01-31.*Oiled.*about", "history", "Mule:hub.rear.left.outer"));
}

/* A motor takes its bearings along, and all of them what happened to them. */
static void
test_carried (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  g_free (pin_shed_verb (shed, "add-vehicle", "Plum", "--chassis", "buggy-2wd-10", "--hours", "3", NULL));
  open_car (shed);
  choose (shed, "motor: *", "Last done");
  say_last_done (shed, "Cleaned", "2026-01-31");
  pin_ui_press (shed->ui, ATSPI_ROLE_PAGE_TAB, "Move");
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Move it");
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "motor, pinion end: nothing fitted");
  pin_shed_close (shed);
  g_assert_true (says (shed, " motor  [^\n]*nothing fitted", "parts", "Mule"));
  g_assert_true (says (shed, " motor  [^\n]* 12.5 h", "parts", "Plum"));
  g_assert_true (says (shed, " motor.bearing.front [^\n]* 12.5 h", "parts", "Plum"));
  g_assert_true (says (shed, " motor.bearing.rear [^\n]* 12.5 h", "parts", "Plum"));
  g_assert_true (says (shed, "2026-01-31.*Cleaned", "history", "Plum:motor"));
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

/* ---- a record that is put right ------------------------------------------------------------- */

static void
test_correct (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  open_car (shed);
  shed->bench = pin_bench_begin (shed->ui, "Fasteners, group by group");
  pin_bench_walk (shed->bench, NULL, "sign-off");
  pin_bench_sign (shed->bench, "AB");
  pin_ui_press (shed->ui, ATSPI_ROLE_PAGE_TAB, "Inspections*");
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Record: *");
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Correct: *");
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "It says: *");
  pin_ui_inside (shed->ui, ATSPI_ROLE_FILLER, "PinRecordPage");
  pin_ui_choose (shed->ui, ATSPI_ROLE_COMBO_BOX, "Right answer", "not checked");
  pin_ui_set_text (shed->ui, ATSPI_ROLE_TEXT, "Why it was not checked", "rain");
  pin_ui_set_text (shed->ui, ATSPI_ROLE_TEXT, "Initials of who corrects it", "CD");
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Correct it");
  pin_ui_inside (shed->ui, 0, NULL);
  pin_ui_wait (shed->ui, ATSPI_ROLE_ALERT, "It was not corrected:*why*");
  pin_ui_inside (shed->ui, ATSPI_ROLE_FILLER, "PinRecordPage");
  pin_ui_set_text (shed->ui, ATSPI_ROLE_TEXT, "Why it is corrected", "wrong wheel");
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Correct it");
  pin_ui_inside (shed->ui, 0, NULL);
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "*corrected: wrong wheel*corrected by CD*was 4 of 4 right (*");
  pin_shed_close (shed);
  g_assert_true (says (shed, "group of fasteners, wheel nuts [^\n]*not checked", "parts", "Mule"));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/vehicle/there-and-back", test_there_and_back);
  g_test_add_func ("/vehicle/move", test_move);
  g_test_add_func ("/vehicle/shelf", test_shelf);
  g_test_add_func ("/vehicle/last-done", test_last_done);
  g_test_add_func ("/vehicle/carried", test_carried);
  g_test_add_func ("/vehicle/replace", test_replace);
  g_test_add_func ("/vehicle/outing", test_outing);
  g_test_add_func ("/vehicle/correct", test_correct);
  return g_test_run ();
}
