#include <glib.h>

#include "reckoner/reference.h"

/* The page says what the program does. */
static void
test_page (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("PIN_SOURCE_ROOT"), "docs", "sums.md", NULL);
  g_autofree char *page = NULL;
  g_autofree char *made = pin_sums_reference ();
  g_autoptr (GError) error = NULL;

  g_file_get_contents (path, &page, NULL, &error);
  g_assert_no_error (error);
  if (!g_str_equal (page, made))
    g_test_message ("docs/sums.md is not what the descriptions say: run “./dev reference”");
  g_assert_true (g_str_equal (page, made));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reference/page", test_page);
  return g_test_run ();
}
