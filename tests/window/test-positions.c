/* A car that was made before its type knew one more position: the page offers it. */
#include <glib/gstdio.h>
#include <string.h>

#include "ui/shed.h"

/* The type again among the keeper's own texts, with a winch. */
static void
write_newer_text (PinShed *shed)
{
  static const char winch[] = "<position id=\"winch\" kind=\"servo\" class=\"front\" evidence=\"memory\""
                              " x=\"100\" y=\"0\"><label>winch</label></position>\n  ";
  g_autofree char *folder = g_build_filename (shed->home, "data", "hingepin", "chassis", NULL);
  g_autofree char *own = g_build_filename (folder, "buggy-2wd-10.xml", NULL);
  g_autofree char *shipped =
    g_build_filename (g_getenv ("HINGEPIN_DATA_DIR"), "chassis", "buggy-2wd-10.xml", NULL);
  g_autoptr (GString) text = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *was = NULL;
  const char *pack;

  g_file_get_contents (shipped, &was, NULL, &error);
  g_assert_no_error (error);
  text = g_string_new (was);
  pack = strstr (was, "<position id=\"pack\"");
  g_assert_nonnull (pack);
  g_string_insert (text, pack - was, winch);
  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  g_file_set_contents (own, text->str, -1, &error);
  g_assert_no_error (error);
}

static gboolean
has_winch (PinShed *shed)
{
  g_autofree char *parts = pin_shed_verb (shed, "parts", "Mule", NULL);

  return strstr (parts, "winch") != NULL;
}

static void
test_offered (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  write_newer_text (shed);
  g_assert_false (has_winch (shed));
  pin_shed_open (shed);
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Open Mule");
  pin_ui_wait (shed->ui, ATSPI_ROLE_LABEL, "This type now knows 1 more position.");
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Add them");
  pin_ui_wait_gone (shed->ui, ATSPI_ROLE_LABEL, "This type now knows 1 more position.");
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "winch: *");
  pin_shed_close (shed);
  g_assert_true (has_winch (shed));
}

static void
test_not_offered (void)
{
  g_autoptr (PinShed) shed = pin_shed_new ("buggy-2wd-10");

  pin_shed_open (shed);
  pin_ui_press (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Open Mule");
  pin_ui_wait (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "rear left hub, outer: *");
  g_assert_cmpint (pin_ui_count (shed->ui, ATSPI_ROLE_PUSH_BUTTON, "Add them"), ==, 0);
  pin_shed_close (shed);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/positions/offered", test_offered);
  g_test_add_func ("/positions/not-offered", test_not_offered);
  return g_test_run ();
}
