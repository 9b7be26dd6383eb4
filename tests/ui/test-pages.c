/* The pages beside the bench: names for everything, work and sizes from the
 * vehicle's page, undo, a copy, and what is said when a book cannot be opened. */
#include <glib/gstdio.h>
#include <string.h>

#include "ui/shed.h"

static void
wait_strip (PinShed *shed, const char *pattern)
{
  pin_ui_wait (shed->ui, ATSPI_ROLE_ALERT, pattern);
}

/* ---- names ---------------------------------------------------------------------------- */

static void
test_names (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  pin_shed_open (shed);
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Open Mule");
  pin_ui_wait (shed->ui, ATSPI_ROLE_HEADING, "Mule");
  shed->bench = pin_bench_begin (shed->ui, "Fasteners, group by group");
  pin_bench_walk (shed->bench, NULL, "fastener-check/tight@*");
  pin_ui_all_named (shed->ui);
  pin_shed_close (shed);
}

static void
test_names_of_the_first_page (void)
{
  g_autoptr (PinShed) shed = pin_shed_new (NULL);

  pin_shed_open (shed);
  pin_ui_inside (shed->ui, ATSPI_ROLE_FILLER, "PinStartPage");
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "Nothing here yet.*");
  pin_ui_all_named (shed->ui);
  pin_shed_close (shed);
}

/* ---- work and sizes from the vehicle's page --------------------------------------------- */

static void
open_car (PinShed *shed)
{
  pin_shed_open (shed);
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Open Mule");
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "rear left hub, outer: *");
}

/* On the drawing; a mark is on until it is pressed again. */
static void
choose_two_bearings (PinShed *shed)
{
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "rear left hub, outer: *");
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Record for 1 part");
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "rear left hub, inner: *");
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Record for 2 parts");
}

static int
works_in (PinShed *shed)
{
  g_autofree char *first = pin_shed_verb (shed, "history", "Mule:hub.rear.left.outer", NULL);
  g_autofree char *second = pin_shed_verb (shed, "history", "Mule:hub.rear.left.inner", NULL);
  g_autofree char *third = pin_shed_verb (shed, "history", "Mule:hub.rear.right.outer", NULL);

  g_assert_null (strstr (third, "Oiled"));
  return (strstr (first, "Oiled") != NULL) + (strstr (second, "Oiled") != NULL);
}

static void
record (PinShed *shed)
{
  pin_ui_press (shed->ui, 0, "Oiled");
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Record for 2 parts");
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Undo");
}

static void
test_work (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  open_car (shed);
  choose_two_bearings (shed);
  record (shed);
  pin_shed_close (shed);
  g_assert_cmpint (works_in (shed), ==, 2);
}

static void
test_undo (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  open_car (shed);
  choose_two_bearings (shed);
  record (shed);
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Undo");
  pin_ui_wait_gone (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Undo");
  pin_shed_close (shed);
  g_assert_cmpint (works_in (shed), ==, 0);
}

static int
parts_of_size (PinShed *shed, const char *size)
{
  g_autofree char *out = pin_shed_verb (shed, "parts", "Mule", NULL);
  int n = 0;

  for (const char *at = strstr (out, size); at; at = strstr (at + 1, size))
    n++;
  return n;
}

/* One bearing's size corrected for all that are alike. */
static void
test_size (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  g_assert_cmpint (parts_of_size (shed, "6 × 12 × 4"), ==, 0);
  open_car (shed);
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "rear left hub, outer: *");
  pin_ui_press (shed->ui, ATSPI_ROLE_PAGE_TAB, "Correct");
  pin_ui_press (shed->ui, 0, "All * alike");
  pin_ui_set_text (shed->ui, ATSPI_ROLE_TEXT, "Right value", "6x12x4");
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Correct it");
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Undo");
  pin_shed_close (shed);
  g_assert_cmpint (parts_of_size (shed, "6 × 12 × 4"), >, 1);
}

/* ---- the book as a file ------------------------------------------------------------------ */

static gboolean
is_there (gpointer file)
{
  return g_file_test (file, G_FILE_TEST_EXISTS);
}

static void
test_backup (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");
  g_autofree char *copy = g_build_filename (shed->home, "copy.hingepin", NULL);
  g_autofree char *out = NULL;

  pin_shed_open (shed);
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Open Mule");
  pin_ui_activate (shed->ui, "backup-to", g_variant_new_string (copy));
  pin_ui_wait_for (shed->ui, is_there, copy, "the copy");
  wait_strip (shed, "*copy*");
  pin_shed_close (shed);
  g_free (shed->book);
  shed->book = g_strdup (copy);
  out = pin_shed_verb (shed, "vehicles", NULL);
  g_assert_nonnull (strstr (out, "Mule"));
}

/* Neither an empty window nor a crash: the strip says what is wrong with which
 * file, and the book that is open stays open. */
static void
test_no_book (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");
  g_autofree char *other = g_build_filename (shed->home, "shopping.txt", NULL);

  g_assert_true (g_file_set_contents (other, "glue, 2 bearings, tyres and a few more things\n", -1, NULL));
  pin_shed_open (shed);
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Open Mule");
  pin_ui_activate (shed->ui, "open-file", g_variant_new_string (other));
  wait_strip (shed, "The book was not opened:*shopping.txt*");
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Open Mule");
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Close this message");
  pin_ui_wait_gone (shed->ui, ATSPI_ROLE_ALERT, "The book was not opened:*");
  pin_shed_close (shed);
}

static void
test_no_folder (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");
  g_autofree char *copy = g_build_filename (shed->home, "nowhere", "copy.hingepin", NULL);

  pin_shed_open (shed);
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Open Mule");
  pin_ui_activate (shed->ui, "backup-to", g_variant_new_string (copy));
  wait_strip (shed, "The copy was not made:*");
  pin_shed_close (shed);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/pages/names", test_names);
  g_test_add_func ("/pages/names-first", test_names_of_the_first_page);
  g_test_add_func ("/pages/work", test_work);
  g_test_add_func ("/pages/undo", test_undo);
  g_test_add_func ("/pages/size", test_size);
  g_test_add_func ("/pages/backup", test_backup);
  g_test_add_func ("/pages/no-book", test_no_book);
  g_test_add_func ("/pages/no-folder", test_no_folder);
  return g_test_run ();
}
